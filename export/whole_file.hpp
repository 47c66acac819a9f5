// A file that appears whole or not at all.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

namespace shankline {

/// What the file system refused, in words, with the path.
struct FileFault : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// Who may read it: all whom the process's mask lets, or its owner alone.
enum class Readers { all, owner };

/// Writes a temporary file beside `path`, flushes it to the disk and renames it over `path`. Throws
/// FileFault; then nothing of the new file is left, and an older one is untouched.
void write_whole_file(const std::string& path, std::string_view bytes,
                      Readers readers = Readers::all);

} // namespace shankline
