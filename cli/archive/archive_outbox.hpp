// Entries that wait until their server can be reached: a small file each, for its owner only,
// beside the configuration. Everything throws ArchiveFault or FileFault.
#pragma once

#include "cli/archive/archive_any_store.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace shankline {

class Outbox {
public:
  /// The outbox of one server's archive: `address` without its password tells it from others.
  explicit Outbox(const std::string& address);

  /// The names of what waits, in the order in which it was kept. Never makes anything.
  std::vector<std::string> waiting() const;
  bool is_empty() const { return waiting().empty(); }

  /// Returns the entries that wait, in order. Files that hold no entry are left out.
  std::vector<ArchiveEntry> entries() const;

  /// Keeps an entry whose digest is filled in, and returns when it is on the disk.
  void keep(const ArchiveEntry& entry) const;

  struct Sent {
    std::size_t delivered = 0; ///< the server has them now; a part of them it may have had before
    std::size_t refused = 0;   ///< made before their dancer was forgotten: erased from the outbox
    std::vector<std::string> spoilt; ///< what is wrong with files that are no entries: they stay
  };
  /// Delivers in order. What was delivered is taken out, one by one, so that it may break off
  /// anywhere and be done again: the store knows an entry by its digest.
  Sent send(Store& store) const;

private:
  std::string folder_;
};

} // namespace shankline
