// The archive's file before the database opens it, and a copy of it until it has its name.
// Everything throws ArchiveFault.
#pragma once

#include <string>

namespace shankline {

enum class ArchiveUse {
  read,   ///< the file must exist
  change, ///< likewise: where nothing is kept there is nothing to note, and nothing to forget
  write,  ///< made, with its folders, when it does not exist; for its owner only
};

/// An ordinary file is there afterwards, empty where it was made: the database never makes one.
void require_archive_file(const std::string& path, ArchiveUse use);

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
