// The archive's file on disk: checks before the database opens it, its access rights, and safe
// writing of a copy. A function that can throw ArchiveFault says so.
#pragma once

#include "export/formats/whole_file.hpp"

#include <cstdint>
#include <optional>
#include <string>

namespace shankline {

enum class ArchiveUse {
  read,   ///< the file must exist
  change, ///< changes or forgets entries: the file must exist, since a new archive has none
  write,  ///< adds entries: a missing file and its folders are made, with rights for the owner only
};

/// Makes sure that `path` is an ordinary file. For ArchiveUse::write it makes a missing file, which
/// is empty: the database is never left to make it. For any use but reading, the file and its
/// folder must be writable. Throws ArchiveFault.
void require_archive_file(const std::string& path, ArchiveUse use);

/// Returns why this user cannot write an archive that exists: "Read-only file system", or "its
/// folder: Permission denied". Returns an empty text if the file can be written, and its folder
/// too: the database keeps its journal there.
std::string why_not_writable(const std::string& path);

/// Returns "read", "change" or "read and change": what the file's permission bits allow its group
/// and all other users. Returns an empty text if they allow neither, or if the file cannot be
/// reached.
std::string rights_of_others(const std::string& path);

/// Removes all permissions of the group and of other users from the archive's file and from the
/// database's files beside it. Returns false if there were none to remove. Throws ArchiveFault if
/// the permissions cannot be changed.
bool protect_archive_file(const std::string& path);

/// Names what an archive is read from if nothing may be written beside it.
enum class ReadingFrom {
  file,        ///< the file alone holds everything, and no program is writing to it
  file_and_log ///< another program is writing to it, or was killed: the database reads its log too
};
/// Throws ArchiveFault if a file beside the archive holds changes that can be read only by writing
/// them into the archive.
ReadingFrom where_to_read(const std::string& path);

/// Detects whether a file that is read without locks was changed while it was read.
class FileChangeGuard {
public:
  /// Remembers the file as it is now. Throws ArchiveFault if it cannot be reached.
  explicit FileChangeGuard(const std::string& path);
  /// Throws ArchiveFault if the file was changed or replaced since, cannot be reached, or has a log
  /// of changes beside it.
  void require_unchanged() const;

private:
  struct State {
    std::uint64_t device = 0;
    std::uint64_t file = 0;       ///< inode number
    std::int64_t size = 0;        ///< bytes
    std::int64_t seconds = 0;     ///< time of the last change
    std::int64_t nanoseconds = 0; ///< fraction of the same time
    bool operator==(const State&) const = default;
  };
  State state() const;

  std::string path_;
  State before_;
};

/// A file or folder held open.
class HeldOpen {
public:
  /// `flags` as open() takes them. Never waits, nor throws: ask is_open().
  HeldOpen(const std::string& path, int flags);
  ~HeldOpen();
  HeldOpen(const HeldOpen&) = delete;
  HeldOpen& operator=(const HeldOpen&) = delete;
  bool is_open() const { return number_ >= 0; }
  int error() const { return error_; } ///< the errno, if it is not open
  bool flush() const;                  ///< false, with errno set, if that failed

private:
  int number_;
  int error_;
};

/// A new file for a copy of an archive, for its owner only. It gets its name when it is complete: a
/// copy that was not finished leaves nothing behind, even where the program was killed.
class ArchiveCopy {
public:
  /// Makes the file, which is empty. `path` is the final name. Throws ArchiveFault if a file has
  /// that name already or the new file cannot be made.
  explicit ArchiveCopy(std::string path);

  /// Write the copy here; it stays open while this lives.
  int descriptor() const { return file_->descriptor(); }
  const std::string& path() const { return path_; }
  /// Flushes the copy to the disk and gives it its final name. Throws ArchiveFault if that fails,
  /// also if another file has taken the name meanwhile. That file stays as it is.
  void put_in_place();

private:
  std::string path_;
  HeldOpen folder_; ///< opened first: once the copy has its name, nothing more may be wanting
  std::optional<NewFile> file_;
};

} // namespace shankline
