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

/// A link stands where a file of this program's own has to be.
struct LinkFault : FileFault {
  using FileFault::FileFault;
};

/// Whether a link is followed to the file it names. What this program keeps for itself is never
/// reached through a link: somebody else may have planted it.
enum class AtLink { follow, refuse };

enum class PathKind { nothing, file, folder, other };

/// Tells what stands at a path. Throws FileFault when the file system does not tell, so that what
/// cannot be looked at never counts as a free place; LinkFault for a link that is to be refused.
PathKind kind_at(const std::string& path, AtLink at_link = AtLink::follow);

/// Who may read it: all whom the process's mask lets, or its owner alone.
enum class Readers { all, owner };

/// Writes a temporary file beside `path`, flushes it to the disk and renames it over `path`. Throws
/// FileFault; then nothing of the new file is left, and an older one is untouched.
void write_whole_file(const std::string& path, std::string_view bytes,
                      Readers readers = Readers::all, AtLink at_link = AtLink::follow);

} // namespace shankline
