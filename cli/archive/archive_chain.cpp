#include "cli/archive/archive_chain.hpp"

#include "export/formats/digest.hpp"

#include <array>
#include <cerrno>
#include <system_error>
#include <unistd.h>
#include <utility>

namespace shankline {
namespace {

using NamedText = std::pair<std::string_view, std::string_view>;

// The length in front of each field keeps one field from passing as two.
template <std::size_t count>
std::string digest_of(std::string_view title, const std::array<NamedText, count>& fields) {
  std::size_t size = title.size();
  for (const NamedText& field : fields)
    size += field.first.size() + field.second.size() + 24;
  std::string text;
  text.reserve(size);
  text.append(title).append("\n");
  for (const auto& [name, value] : fields)
    text.append(name).append(" ").append(std::to_string(value.size())).append(":").append(value) +=
        '\n';
  return sha256(text);
}

} // namespace

std::string chain_start() {
  return std::string(digest_digits, '0');
}

std::string body_digest(const EntryBody& body) {
  return digest_of("shankline-body/1", std::array<NamedText, 5>{{{"order", body.order},
                                                                 {"options", body.options},
                                                                 {"solution", body.solution},
                                                                 {"drawing", body.drawing},
                                                                 {"sheets", body.sheets}}});
}

std::string head_digest(const EntryHead& head) {
  return digest_of("shankline-entry/1",
                   std::array<NamedText, 12>{{{"kind", kind_name(head.kind)},
                                              {"saved", head.saved},
                                              {"program", head.program},
                                              {"salt", head.salt},
                                              {"dancer", head.dancer},
                                              {"pair", head.pair},
                                              {"date", head.date},
                                              {"alterations", head.alterations},
                                              {"about", head.about},
                                              {"summary", head.summary},
                                              {"outcome", head.outcome},
                                              {"body", head.body}}});
}

bool holds_nothing(const EntryHead& forgotten) {
  EntryHead empty;
  empty.kind = EntryKind::forgotten;
  return head_digest(forgotten) == head_digest(empty);
}

std::string chain_hash(std::string_view before, std::string_view digest) {
  std::string text("shankline-chain/1\n");
  return sha256(text.append(before).append("\n").append(digest).append("\n"));
}

bool is_chained(const std::vector<EntryHead>& newest_first, std::size_t i, const ChainEnd& end) {
  const EntryHead& head = newest_first[i];
  if (i == 0 && head.id != end.id) return true;
  return chain_hash(head.before, head.digest) == (i > 0 ? newest_first[i - 1].before : end.hash);
}

std::string new_salt() {
  std::array<unsigned char, 16> bytes{};
  if (::getentropy(bytes.data(), bytes.size()) != 0)
    throw std::system_error(errno, std::generic_category(), "no random bytes");
  std::string text;
  for (const unsigned char byte : bytes) {
    text += "0123456789abcdef"[byte >> 4];
    text += "0123456789abcdef"[byte & 15];
  }
  return text;
}

void seal(ArchiveEntry& entry) {
  if (entry.head.kind == EntryKind::cut) entry.head.body = body_digest(entry.body);
  entry.head.digest = head_digest(entry.head);
}

void complete(ArchiveEntry& entry) {
  if (entry.head.kind == EntryKind::forgotten) return;
  if (entry.head.salt.empty()) entry.head.salt = new_salt();
  seal(entry);
}

} // namespace shankline
