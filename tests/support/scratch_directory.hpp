// A directory of a test's own, gone with it.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace shankline::tests {

class ScratchDirectory {
public:
  ScratchDirectory();
  ScratchDirectory(const ScratchDirectory&) = delete;
  ScratchDirectory& operator=(const ScratchDirectory&) = delete;
  ~ScratchDirectory();

  const std::filesystem::path& path() const { return path_; }

private:
  std::filesystem::path path_;
};

/// Makes the folders on the way; throws std::runtime_error when the bytes cannot be written.
void write_file(const std::filesystem::path& path, std::string_view bytes);

std::string read_file(const std::filesystem::path& path);

} // namespace shankline::tests
