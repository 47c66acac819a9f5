// Bytes under the name of an ordinary file that is nowhere on a disk.
#pragma once

#include <cerrno>
#include <string>
#include <string_view>
#include <sys/mman.h>
#include <system_error>
#include <unistd.h>

namespace shankline::tests {

class PassingFile {
public:
  explicit PassingFile(std::string_view bytes) : descriptor_(::memfd_create("passing", 0)) {
    if (descriptor_ < 0 ||
        ::write(descriptor_, bytes.data(), bytes.size()) != static_cast<ssize_t>(bytes.size()))
      throw std::system_error(errno, std::generic_category(), "file in memory");
  }
  PassingFile(const PassingFile&) = delete;
  PassingFile& operator=(const PassingFile&) = delete;
  ~PassingFile() { ::close(descriptor_); }

  std::string path() const { return "/proc/self/fd/" + std::to_string(descriptor_); }

private:
  int descriptor_;
};

} // namespace shankline::tests
