#include "cli/surroundings/held_output.hpp"

#include "export/formats/system_reason.hpp"
#include "export/formats/whole_file.hpp"

#include <array>
#include <cerrno>
#include <cstdlib>
#include <fcntl.h>
#include <filesystem>
#include <ostream>
#include <system_error>
#include <unistd.h>

namespace shankline {
namespace {

constexpr std::size_t most_in_memory = std::size_t{1} << 20; // bytes

std::string temporary_folder() {
  std::error_code error;
  const std::filesystem::path folder = std::filesystem::temp_directory_path(error);
  return error ? "/tmp" : folder.string();
}

[[noreturn]] void fail(const char* what, int error) {
  throw FileFault(temporary_folder() + ": " + what + ": " + system_reason(error),
                  system_advice(error, "make room there, or name another folder with TMPDIR"));
}

/// A file that no other program sees and that is gone with this one.
int open_without_name() {
  const std::string folder = temporary_folder();
  const int nameless = ::open(folder.c_str(), O_TMPFILE | O_RDWR | O_EXCL | O_CLOEXEC, 0600);
  if (nameless >= 0) return nameless;
  std::string name = folder + "/shankline.XXXXXX";
  const int named = ::mkstemp(name.data());
  if (named < 0) fail("a temporary file cannot be made", errno);
  ::unlink(name.c_str());
  return named;
}

} // namespace

HeldOutput::~HeldOutput() {
  if (file_ >= 0) ::close(file_);
}

void HeldOutput::add(std::string_view piece) {
  waiting_ += piece;
  if (waiting_.size() > most_in_memory) put_into_file();
}

void HeldOutput::put_into_file() {
  if (file_ < 0) file_ = open_without_name();
  if (!write_all(file_, waiting_)) fail("a temporary file cannot be written", errno);
  waiting_.clear();
}

void HeldOutput::write_to(std::ostream& out) const {
  std::array<char, 65536> piece;
  off_t at = 0;
  while (file_ >= 0 && out) {
    const ssize_t count = ::pread(file_, piece.data(), piece.size(), at);
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) fail("a temporary file cannot be read", errno);
    if (count == 0) break;
    out.write(piece.data(), count);
    at += count;
  }
  out << waiting_;
}

} // namespace shankline
