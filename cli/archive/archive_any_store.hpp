// The interface of a store of the archive. The verbs use nothing else, so a store may keep its
// entries where it likes. It adds entries at the end, reads them and erases one dancer; it changes
// nothing else.
//
// A store checks every entry against its digest before it returns it, and checks every answer of an
// index by a second count. It throws ArchiveDamaged if they differ. All functions may throw
// ArchiveFault. tests/cli/archive/archive_any_store_test.cpp tests every store.
//
//   ArchiveStore store(path, ArchiveUse::read);              // a file; or a server's store
//   for (const EntryHead& head : store.older(newest, 20))    // the newest 20 entries
//     if (head.kind == EntryKind::cut) store.body(head).order; // the order's text
#pragma once

#include "cli/archive/archive_entry.hpp"
#include "cli/surroundings/archive_fault.hpp"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace shankline {

inline constexpr std::size_t all_entries = SIZE_MAX >> 1; ///< for `most`: all entries
inline constexpr EntryId newest = INT64_MAX; ///< for older() and older_of(): begin with the newest

/// The code of a dancer whom a server has forgotten, as a salted digest. Entries for that code that
/// an outbox still holds are refused.
struct ForgottenCode {
  std::string salt;
  std::string digest; ///< SHA-256 of salt and code
  std::string saved;  ///< when it was forgotten

  bool operator==(const ForgottenCode&) const = default;
};

class Store {
public:
  virtual ~Store() = default;

  /// Adds to the end, all of them or none, reads them back, and returns when they are kept for
  /// good. Id, turn, `before` and the digests are filled in; so is a missing salt. A `forgotten`
  /// entry keeps its digest. Throws for a note about a dancer whom the archive does not know.
  virtual std::vector<EntryHead> add(std::vector<ArchiveEntry> entries) = 0;
  EntryHead add(ArchiveEntry entry) {
    std::vector<ArchiveEntry> one;
    one.push_back(std::move(entry));
    return std::move(add(std::move(one)).front());
  }

  struct Merged {
    std::size_t added = 0;
    std::size_t present = 0; ///< were there already, or erased here: they stay as they are
  };
  /// Adds the entries that `next` returns, until it returns nullopt; their digests must be filled
  /// in. If `next` throws, no entry is added.
  virtual Merged add_missing(const std::function<std::optional<ArchiveEntry>()>& next) = 0;

  /// Calls `reads`, which sees the archive of one moment even while others write to it.
  virtual void with_snapshot(const std::function<void()>& reads) = 0;

  virtual ChainEnd end() = 0;
  /// Returns nullopt for an id that was not given yet.
  virtual std::optional<EntryHead> head(EntryId id) = 0;
  /// `head` must be that of a cut.
  virtual EntryBody body(const EntryHead& head) = 0;

  /// Returns at most `most` entries with ids below `below`, the newest first.
  virtual std::vector<EntryHead> older(EntryId below, std::size_t most) = 0;
  /// Like older(), for the entries of one dancer, by their turn.
  virtual std::vector<EntryHead> older_of(std::string_view dancer, std::int64_t below,
                                          std::size_t most) = 0;
  std::optional<EntryHead> newest_of(std::string_view dancer) {
    std::vector<EntryHead> found = older_of(dancer, newest, 1);
    if (found.empty()) return std::nullopt;
    return std::move(found.front());
  }

  /// Erases all entries of a dancer and adds a `forgetting` entry with the given `saved` and
  /// `program`. After it the store holds no erased text. If other programs prevent that, it throws,
  /// and `clean` or the next `forget` does the rest. Returns the number of erased entries.
  virtual std::size_t forget(std::string_view dancer, const std::string& saved,
                             const std::string& program) = 0;
  /// Returns the digests of the codes that were forgotten. A file only carries those that a server
  /// gave it: no outbox sends to a file.
  virtual std::vector<ForgottenCode> forgotten_codes() = 0;
  /// Adds the missing ones, all of them or none. It may be called again with the same codes.
  virtual void keep_forgotten(const std::vector<ForgottenCode>& codes) = 0;
  /// Returns true if erased text may still be in the store.
  virtual bool is_to_clean() = 0;
  virtual void clean() = 0;

  /// Writes a copy to a file that does not exist yet, for its owner only.
  virtual void copy_to(const std::string& path) = 0;
  /// Removes the rights of everybody but the owner. Returns false if there were none.
  virtual bool protect() = 0;

  /// Returns the faults that the store itself finds, one sentence each; empty if it finds none.
  virtual std::vector<std::string> faults_of_store() = 0;
  /// Returns up to `most` entries with ids above `above`, ascending, without verifying them. The
  /// audit verifies them itself.
  virtual std::vector<ArchiveEntry> as_stored(EntryId above, std::size_t most) = 0;
  /// Returns the store's own count of a dancer's entries; 0 for an unknown dancer.
  virtual std::int64_t counted(std::string_view dancer) = 0;
  virtual std::size_t dancers() = 0;

protected:
  Store() = default;
  Store(const Store&) = default;
  Store& operator=(const Store&) = default;
};

} // namespace shankline
