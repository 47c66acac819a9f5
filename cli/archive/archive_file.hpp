// The archive's file before the database opens it, and a copy of it until it has its name.
// Everything throws ArchiveFault.
#pragma once

#include <cstdint>
#include <string>

namespace shankline {

enum class ArchiveUse {
  read,   ///< the file must exist
  change, ///< the file must exist: an empty archive has no entry to note about or to forget
  write,  ///< makes a missing file and its folders, for the owner only
};

/// Makes sure that an ordinary file exists, and makes an empty one for ArchiveUse::write: the
/// database never makes it. For any use but reading, the file and its folder must allow writing.
void require_archive_file(const std::string& path, ArchiveUse use);

/// Why this user cannot write an archive that exists: "Read-only file system", or "its folder:
/// Permission denied". Empty if the file and its folder, where the database keeps its journal, may
/// both be written.
std::string why_not_written(const std::string& path);

/// Returns "read", "change" or "read and change": the rights that the file's permission bits give
/// to others than its owner. Returns an empty text if they have none or the file cannot be reached.
std::string others_may(const std::string& path);

/// Takes every right of others from the archive's file and the database's files beside it. Returns
/// false if there was none. Throws ArchiveFault where the rights cannot be changed.
bool protect_archive_file(const std::string& path);

/// Ways to read an archive that may only be read.
enum class ReadingFrom {
  file,        ///< everything is in the file, and no program is at work on it
  file_and_log ///< another program is at work on it, or was killed: the database looks after that
};
/// Throws ArchiveFault if a file beside the archive holds changes that cannot be read without
/// writing.
ReadingFrom where_to_read(const std::string& path);

/// Detects whether a file that is read without locks was changed meanwhile.
class FileChangeGuard {
public:
  /// Remembers the file as it is now. Throws ArchiveFault if it cannot be reached.
  explicit FileChangeGuard(const std::string& path);
  /// Throws ArchiveFault if the file is another one now, or has a log of changes beside it.
  void require_unchanged() const;

private:
  struct State {
    std::uint64_t device = 0;
    std::uint64_t file = 0;
    std::int64_t size = 0;
    std::int64_t seconds = 0; ///< of its last change
    std::int64_t nanoseconds = 0;
    bool operator==(const State&) const = default;
  };
  State state() const;

  std::string path_;
  State before_;
};

/// A file beside the one that it is to become, made empty and for its owner only; gone at the end,
/// together with the database's journal of it, unless it was put in place. All memory is taken
/// before the file is made.
class ArchiveCopy {
public:
  /// `path` must not be taken.
  explicit ArchiveCopy(const std::string& path);
  ArchiveCopy(const ArchiveCopy&) = delete;
  ArchiveCopy& operator=(const ArchiveCopy&) = delete;
  ~ArchiveCopy();

  const std::string& beside() const { return beside_; } ///< where to write it
  /// Flushed to the disk first. A file that has taken the name meanwhile stays.
  void put_in_place();

private:
  std::string path_;
  std::string beside_;
  std::string journal_;
};

} // namespace shankline
