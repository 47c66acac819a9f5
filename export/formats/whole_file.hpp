// Writes a file that appears whole or not at all.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>

namespace shankline {

/// The file system refused something: the message names the path and the reason.
struct FileFault : std::runtime_error {
  explicit FileFault(const std::string& what, std::string what_to_do = {})
      : std::runtime_error(what), advice(std::move(what_to_do)) {}
  std::string advice; ///< empty where another place would do
};

/// "PATH: WHAT: REASON" of an errno, with advice where too many files are open.
FileFault file_fault(const std::string& path, const std::string& what, int error);

/// Writes all bytes to an open file. Returns false, with errno set, at the first error.
bool write_all(int descriptor, std::string_view bytes);

/// A link stands where a file of this program's own has to be.
struct LinkFault : FileFault {
  using FileFault::FileFault;
};

/// Says whether a link is followed to its file. Files that this program keeps for itself are never
/// reached through a link, since somebody else may have planted it.
enum class AtLink { follow, refuse };

enum class PathKind { nothing, file, folder, pipe, device, other };

/// Returns the kind of file at a path. Throws FileFault if the file system does not tell, so that
/// such a path never counts as free; LinkFault for a link that is to be refused.
PathKind kind_at(const std::string& path, AtLink at_link = AtLink::follow);

/// Says who may read the new file: everybody whom the process's mask allows, or only its owner.
enum class Readers { all, owner };

/// A new file that gets its name when it is complete. Until then it has none, so that a program
/// that is killed leaves nothing behind; where the file system has no such files, it has a
/// temporary name beside the wished one, which the destructor removes.
class NewFile {
public:
  /// Opens the file for reading and writing; it is empty. Throws FileFault.
  NewFile(std::string path, Readers readers);
  NewFile(const NewFile&) = delete;
  NewFile& operator=(const NewFile&) = delete;
  ~NewFile();

  int descriptor() const { return descriptor_; }
  /// Flushes the file to the disk and gives it its name. Returns false if another file has that
  /// name already, which stays as it is. Throws FileFault.
  bool put_in_place();

private:
  bool take_name(const std::string& open_file);

  std::string path_;
  std::string temporary_; ///< empty while the file has no name
  Readers readers_;
  int descriptor_;
};

/// Writes a file that gets its name when it is complete and flushed to the disk, so that a program
/// that is killed leaves nothing behind. Over an older file, or where the file system has no such
/// files, it writes a temporary file beside `path` and renames it. If it throws FileFault, the new
/// file is gone and an older one is unchanged. A named pipe that may be followed takes the bytes
/// and stays a pipe: the call waits until somebody reads from it. Nothing is ever written onto a
/// device.
void write_whole_file(const std::string& path, std::string_view bytes,
                      Readers readers = Readers::all, AtLink at_link = AtLink::follow);

} // namespace shankline
