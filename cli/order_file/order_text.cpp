#include "cli/order_file/order_text.hpp"

#include "cli/yaml/order_document.hpp"
#include "export/formats/system_reason.hpp"

#include <array>
#include <cerrno>
#include <fcntl.h>
#include <optional>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>
#include <utility>

namespace shankline {
namespace {

class OpenFile {
public:
  // O_NONBLOCK: opening a pipe that nobody writes to must not hang.
  OpenFile(const std::string& path, AtLink at_link)
      : descriptor_(::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC | O_NOCTTY |
                                             (at_link == AtLink::refuse ? O_NOFOLLOW : 0))) {}
  ~OpenFile() {
    if (descriptor_ >= 0) ::close(descriptor_);
  }
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;

  bool is_open() const { return descriptor_ >= 0; }
  int descriptor() const { return descriptor_; }

private:
  int descriptor_;
};

/// Throws FileFault where it is not the file's fault: other orders could not be read either.
Message cannot_read(const std::string& file, int error) {
  if (is_out_of_handles(error)) throw file_fault(file, "cannot be read", error);
  switch (error) {
  case ENOENT:
  case ENOTDIR:
    return about_file(file, "there is no such file", "check the name and the folder");
  case EACCES:
  case EPERM:
    return about_file(file, "you may not read this file",
                      "ask its owner, or copy it to your folder");
  case ENXIO:
  case ENODEV:
    return about_file(file, "is not a plain file", "name the order file itself");
  default:
    return about_file(file, "cannot be read: " + std::generic_category().message(error),
                      "copy the file to this machine and try again");
  }
}

Message too_large(const std::string& file, std::size_t largest) {
  const bool order = largest == largest_order;
  return about_file(file,
                    "is larger than " + std::to_string(largest / 1024) + " KB, far too large for " +
                        (order ? "an order" : "such a file"),
                    order ? "check that this is an order file; shorten its note and comments"
                          : "check that this is the right file, or divide it");
}

std::optional<Message> refuse_kind(const std::string& file, int descriptor, std::size_t largest) {
  struct stat status {};
  if (::fstat(descriptor, &status) != 0) return cannot_read(file, errno);
  if (S_ISDIR(status.st_mode))
    return about_file(file, "is a folder, not a file", "name a file inside it");
  if (!S_ISREG(status.st_mode)) return cannot_read(file, ENXIO);
  if (status.st_size > static_cast<off_t>(largest)) return too_large(file, largest);
  return std::nullopt;
}

// Reads at most `largest` bytes and one buffer more, even if the other end goes on sending.
std::variant<std::string, Message> read_to_end(const std::string& file, int descriptor,
                                               std::size_t largest) {
  std::string text;
  std::array<char, 4096> buffer;
  while (text.size() <= largest) {
    const ssize_t count = ::read(descriptor, buffer.data(), buffer.size());
    if (count == 0) return text;
    if (count > 0)
      text.append(buffer.data(), static_cast<std::size_t>(count));
    else if (errno != EINTR)
      return cannot_read(file, errno);
  }
  return too_large(file, largest);
}

} // namespace

std::variant<std::string, Message> read_order_text(const std::string& path, AtLink at_link,
                                                   std::size_t largest) {
  if (path == "-") return read_to_end("standard input", STDIN_FILENO, largest);
  const OpenFile file(path, at_link);
  if (!file.is_open() && errno == ELOOP && at_link == AtLink::refuse)
    return about_file(path, "is a link, and is never followed",
                      "delete the link, or put the file itself in its place");
  if (!file.is_open()) return cannot_read(path, errno);
  if (auto refused = refuse_kind(path, file.descriptor(), largest)) return *std::move(refused);
  return read_to_end(path, file.descriptor(), largest);
}

std::variant<std::string, Message> read_table_text(const std::string& path) {
  return read_order_text(path, AtLink::follow, largest_table);
}

} // namespace shankline
