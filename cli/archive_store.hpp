// The archive as a file: entries are added to its end and read, one dancer can be erased, and
// nothing else is ever changed. The only place that knows the database. A file of an earlier
// version is brought up to date as it is opened.
//
// Every entry that is handed out was held against its digest, and what an index leads to against a
// second count (see archive_schema.hpp): a damaged file is reported (ArchiveDamaged), never
// believed. A file whose tables, guards or indexes are not those of its version, word for word, is
// not opened. Everything throws ArchiveFault.
#pragma once

#include "cli/archive_entry.hpp"
#include "cli/archive_fault.hpp"
#include "cli/archive_file.hpp"

#include <chrono>
#include <cstddef>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

class ArchiveStore {
public:
  /// `patience`: how long to wait for another program that writes.
  explicit ArchiveStore(const std::string& path, ArchiveUse use,
                        std::chrono::milliseconds patience = std::chrono::seconds(10));
  ~ArchiveStore();
  ArchiveStore(ArchiveStore&&) noexcept;
  ArchiveStore& operator=(ArchiveStore&&) noexcept;

  /// Adds to the end, all of them or none, reads them back, and returns when they are on the disk.
  /// Id, turn, `before` and the digests are filled in; so is a missing salt. A `forgotten` entry
  /// keeps its digest.
  std::vector<EntryHead> add(std::vector<ArchiveEntry> entries);
  EntryHead add(ArchiveEntry entry);

  struct Merged {
    std::size_t added = 0;
    std::size_t present = 0; ///< were there already, or erased here: they stay as they are
  };
  /// The same for whatever `next` gives, one after the other until it gives nothing; their digests
  /// are filled in. When `next` throws, nothing was added.
  Merged add_missing(const std::function<std::optional<ArchiveEntry>()>& next);

  /// What `reads` reads is the archive of one moment, whatever others write meanwhile.
  void steadily(const std::function<void()>& reads);

  ChainEnd end();
  std::optional<EntryHead> head(EntryId id);
  EntryBody body(const EntryHead& head);

  /// At most `most` entries with ids below `below`, the newest first.
  std::vector<EntryHead> older(EntryId below, std::size_t most);
  /// The same of one dancer, by turn.
  std::vector<EntryHead> older_of(std::string_view dancer, std::int64_t below, std::size_t most);
  std::optional<EntryHead> newest_of(std::string_view dancer);

  /// Erases what there is of a dancer and adds a `forgetting` entry with the given `saved` and
  /// `program`. Nothing of the erased text is left in the file then; if other programs keep it from
  /// being cleaned, this throws, and `clean` or the next `forget` does the rest. Returns how many
  /// entries were erased.
  std::size_t forget(std::string_view dancer, const std::string& saved, const std::string& program);
  /// Whether erased text may still be in the file.
  bool is_to_clean();
  void clean();

  /// Writes a copy to a file that does not exist yet, for its owner only.
  void copy_to(const std::string& path);

  /// What the database itself finds wrong, in words.
  std::vector<std::string> faults_of_file();
  /// As it stands in the file, nothing verified; ascending ids above `above`. For the audit.
  std::vector<ArchiveEntry> as_stored(EntryId above, std::size_t most);
  /// How many entries the file counts for a dancer; 0 for one it does not know.
  std::int64_t counted(std::string_view dancer);
  std::size_t dancers();

private:
  struct Database;
  std::unique_ptr<Database> database_;
};

inline constexpr std::size_t every_one = SIZE_MAX >> 1;
inline constexpr EntryId newest = INT64_MAX; ///< for older() and older_of(): begin with the newest

} // namespace shankline
