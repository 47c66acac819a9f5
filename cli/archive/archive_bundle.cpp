#include "cli/archive/archive_bundle.hpp"

#include "cli/archive/archive_base64.hpp"
#include "cli/archive/archive_chain.hpp"
#include "cli/surroundings/archive_fault.hpp"
#include "cli/text/characters.hpp"
#include "cli/yaml/order_document.hpp"
#include "cli/yaml/yaml_text.hpp"
#include "export/formats/system_reason.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <charconv>
#include <cstring>
#include <fcntl.h>
#include <optional>
#include <sys/stat.h>
#include <unistd.h>

namespace shankline {
namespace {

constexpr std::size_t largest_document = std::size_t{8} << 20; // bytes; an entry is of some 100 KB
constexpr std::size_t salt_digits = 32;                        // sixteen bytes
constexpr std::string_view between = "---\n";
constexpr std::string_view bundle_family = "shankline-archive/"; ///< of every version

// Writing.

void put_text(std::string& into, std::string_view key, std::string_view text) {
  into.append(key).append(":").append(yaml_text(text));
}

/// The parts of an entry by name, in the order in which they are written.
struct HeadPart {
  std::string_view key;
  std::string EntryHead::*text;
};
constexpr std::array head_parts{HeadPart{"saved", &EntryHead::saved},
                                HeadPart{"program", &EntryHead::program},
                                HeadPart{"salt", &EntryHead::salt},
                                HeadPart{"dancer", &EntryHead::dancer},
                                HeadPart{"pair", &EntryHead::pair},
                                HeadPart{"date", &EntryHead::date},
                                HeadPart{"alterations", &EntryHead::alterations},
                                HeadPart{"about", &EntryHead::about},
                                HeadPart{"summary", &EntryHead::summary},
                                HeadPart{"outcome", &EntryHead::outcome},
                                HeadPart{"digest", &EntryHead::digest}};
struct BodyPart {
  std::string_view key;
  std::string EntryBody::*text;
};
constexpr std::array body_parts{
    BodyPart{"sheets", &EntryBody::sheets}, BodyPart{"options", &EntryBody::options},
    BodyPart{"order", &EntryBody::order}, BodyPart{"solution", &EntryBody::solution}};
constexpr std::string_view drawing_key = "drawing";

std::string document_of(const ArchiveEntry& entry) {
  std::string text(between);
  text.append("kind: ").append(kind_name(entry.head.kind)) += "\n";
  for (const HeadPart& part : head_parts)
    if (const std::string& value = entry.head.*part.text; !value.empty())
      put_text(text, part.key, value);
  if (entry.head.kind != EntryKind::cut) return text;
  for (const BodyPart& part : body_parts)
    put_text(text, part.key, entry.body.*part.text);
  put_text(text, drawing_key, base64_lines(entry.body.drawing));
  return text;
}

// Reading.

/// A bundle's documents, one after the other; never more than one of them in memory.
class Documents {
public:
  explicit Documents(const std::string& path)
      : path_(path), file_(::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC | O_NOCTTY)) {
    if (file_ < 0 && is_out_of_handles(errno)) // no fault of the bundle
      throw ArchiveFault(path + ": cannot be read: " + system_reason(errno), system_advice(errno));
    if (file_ < 0) throw BundleFault(path + ": error: cannot be read: " + std::strerror(errno));
    struct stat status {};
    if (::fstat(file_, &status) != 0 || !S_ISREG(status.st_mode)) {
      ::close(file_);
      throw BundleFault(path + ": error: is not an ordinary file");
    }
  }
  Documents(const Documents&) = delete;
  Documents& operator=(const Documents&) = delete;
  ~Documents() { ::close(file_); }

  /// Keys and texts of the next document; nullopt at the end.
  std::optional<Node> next() {
    std::string text;
    if (!take(text)) return std::nullopt;
    require_size(text);
    OrderDocument document = parse_order_document(text, path_, largest_document, "");
    if (!document.messages.empty()) {
      const Message& message = document.messages.front();
      fail(message.line - 1, (message.key.empty() ? "" : message.key + ": ") + message.what);
    }
    for (const Member& member : document.root->members)
      if (member.value.kind != NodeKind::scalar)
        fail(member.place.line - 1, member.key + " is not a text");
    return std::move(document.root);
  }

  /// `line` counts from 0 within the document.
  template <class... Words>
  [[noreturn]] void fail(int line, const std::string& what, const Words&... advice) const {
    throw BundleFault(path_ + ":" + std::to_string(first_line_ + line) + ": error: " + what,
                      advice...);
  }

private:
  /// A line `---` stands between two documents; inside them every line of a text is indented.
  bool take(std::string& text) {
    constexpr std::string_view edge = "\n---\n";
    std::size_t searched = 0;
    while (true) {
      const std::size_t found = buffer_.find(edge, searched);
      if (found != std::string::npos) {
        give(text, found + 1);
        buffer_.erase(0, between.size());
        ++line_;
        return true;
      }
      first_line_ = line_;
      require_size(buffer_);
      searched = buffer_.size() - std::min(buffer_.size(), edge.size() - 1);
      if (read_more()) continue;
      if (buffer_.empty()) return false;
      give(text, buffer_.size());
      return true;
    }
  }

  void require_size(const std::string& document) const {
    if (document.size() > largest_document)
      fail(0, "an entry of more than 8 MB, which this program never wrote");
  }

  void give(std::string& text, std::size_t size) {
    text = buffer_.substr(0, size);
    buffer_.erase(0, size);
    first_line_ = line_;
    line_ += static_cast<int>(std::count(text.begin(), text.end(), '\n'));
  }

  bool read_more() {
    std::array<char, 65536> piece;
    while (true) {
      const ssize_t count = ::read(file_, piece.data(), piece.size());
      if (count < 0 && errno == EINTR) continue;
      if (count < 0) throw BundleFault(path_ + ": error: cannot be read: " + std::strerror(errno));
      buffer_.append(piece.data(), static_cast<std::size_t>(count));
      return count > 0;
    }
  }

  const std::string& path_;
  int file_;
  std::string buffer_;
  int line_ = 1;
  int first_line_ = 1;
};

/// "2026-03-14T09:26:53Z"
bool is_time(std::string_view text) {
  constexpr std::string_view form = "0000-00-00T00:00:00Z";
  return text.size() == form.size() &&
         std::equal(text.begin(), text.end(), form.begin(),
                    [](char c, char f) { return f == '0' ? is_digit(c) : c == f; });
}

class BundleReader {
public:
  explicit BundleReader(const std::string& path) : documents_(path) { read_beginning(); }

  std::optional<ArchiveEntry> next() {
    const auto document = documents_.next();
    if (!document) {
      check_end();
      return std::nullopt;
    }
    ArchiveEntry entry;
    for (const Member& member : document->members)
      take(member, entry);
    check(entry);
    ++count_;
    hash_ = chain_hash(hash_, entry.head.digest);
    return entry;
  }

private:
  void read_beginning() {
    const auto document = documents_.next();
    const bool says_format =
        document && !document->members.empty() && document->members[0].key == "format";
    const std::string said = says_format ? document->members[0].value.text : std::string();
    if (said != bundle_format && said.starts_with(bundle_family))
      documents_.fail(0,
                      "this version reads " + std::string(bundle_format) + ", and " + shown(said) +
                          " was read",
                      "import it with the version that wrote it");
    if (said != bundle_format)
      documents_.fail(0, "this is not a bundle: it does not begin with  format: " +
                             std::string(bundle_format));
    for (const Member& member : document->members) {
      const std::string& text = member.value.text;
      if (member.key == "entries") {
        const char* const end = text.data() + text.size();
        const auto [stop, error] = std::from_chars(text.data(), end, expected_);
        if (error != std::errc() || stop != end || expected_ < 0)
          documents_.fail(member.place.line - 1, "entries is no count");
      } else if (member.key == "end") {
        end_ = text;
      } else if (member.key != "format") {
        documents_.fail(member.place.line - 1, shown(member.key) + " has no meaning here");
      }
    }
    if (expected_ < 0) documents_.fail(0, "it does not say how many entries there are");
  }

  void take(const Member& member, ArchiveEntry& entry) {
    const std::string& text = member.value.text;
    const int line = member.place.line - 1;
    if (member.key == "kind") {
      const auto kind = kind_named(text);
      if (!kind) documents_.fail(line, shown(text) + " is not a kind of entry");
      entry.head.kind = *kind;
      return;
    }
    for (const HeadPart& part : head_parts)
      if (part.key == member.key) {
        if (has_controls(text)) documents_.fail(line, member.key + " holds control characters");
        entry.head.*part.text = text;
        return;
      }
    for (const BodyPart& part : body_parts)
      if (part.key == member.key) {
        entry.body.*part.text = text;
        return;
      }
    if (member.key != drawing_key)
      documents_.fail(line, shown(member.key) + " has no meaning here");
    auto bytes = from_base64(text);
    if (!bytes) documents_.fail(line, "drawing is not in base64");
    entry.body.drawing = *std::move(bytes);
  }

  void check(ArchiveEntry& entry) const {
    const EntryHead& head = entry.head;
    const auto refuse = [&](const std::string& what) {
      documents_.fail(0, "entry " + std::to_string(count_ + 1) + " of this bundle " + what);
    };
    const bool has_body = entry.body != EntryBody{};
    if (!is_hex_of(head.digest, digest_digits)) refuse("has no digest");
    if (head.kind == EntryKind::forgotten) {
      if (has_body || !holds_nothing(head)) refuse("is said to be forgotten and is not empty");
      return;
    }
    if (!is_time(head.saved) || !is_hex_of(head.salt, salt_digits)) refuse("has no time or salt");
    if (has_body && head.kind != EntryKind::cut) refuse("has an order that it cannot have");
    const std::string said = head.digest;
    seal(entry);
    if (entry.head.digest != said) refuse("is not what was exported: its digest does not fit");
  }

  void check_end() const {
    if (count_ != expected_)
      documents_.fail(0, "there should be " + std::to_string(expected_) +
                             " entries, and there are " + std::to_string(count_));
    if (!end_.empty() && hash_ != end_)
      documents_.fail(0, "the entries are not in the order in which they were exported");
  }

  Documents documents_;
  EntryId expected_ = -1;
  std::string end_;
  EntryId count_ = 0;
  std::string hash_ = chain_start();
};

} // namespace

std::string bundle_of(const ArchiveEntry& entry) {
  return "format: " + std::string(bundle_format) + "\nentries: 1\n" + document_of(entry);
}

ArchiveEntry read_one_entry(const std::string& path) {
  BundleReader reader(path);
  auto entry = reader.next();
  if (!entry || reader.next()) throw BundleFault(path + ": error: is not a bundle of one entry");
  return *std::move(entry);
}

void write_bundle(Store& store, const std::string& dancer,
                  const std::function<void(std::string_view)>& put) {
  const auto beginning = [](EntryId entries, const std::string& end) {
    return "format: " + std::string(bundle_format) + "\nentries: " + std::to_string(entries) +
           "\n" + (end.empty() ? "" : "end: " + end + "\n");
  };
  const auto give = [&](EntryHead head) {
    ArchiveEntry entry{std::move(head), {}};
    if (entry.head.withheld)
      throw ArchiveFault("entry " + std::to_string(entry.head.id) +
                             " holds words of another bench that are kept from you",
                         "let the keeper export it");
    if (entry.head.kind == EntryKind::cut) entry.body = store.body(entry.head);
    put(document_of(entry));
  };
  store.with_snapshot([&] {
    if (dancer.empty()) {
      const ChainEnd end = store.end();
      put(beginning(end.id, end.hash));
      for (EntryId id = 1; id <= end.id; ++id)
        give(*store.head(id));
    } else {
      std::vector<EntryHead> heads = store.older_of(dancer, newest, all_entries);
      put(beginning(static_cast<EntryId>(heads.size()), {}));
      std::for_each(heads.rbegin(), heads.rend(), give);
    }
  });
}

void require_bundle(const std::string& path) {
  BundleReader reader(path);
  while (reader.next()) {
  }
}

Store::Merged read_bundle(Store& store, const std::string& path) {
  BundleReader reader(path);
  return store.add_missing([&reader] { return reader.next(); });
}

} // namespace shankline
