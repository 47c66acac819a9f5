// Entries that wait until their server can be reached: a small file each, for its owner only,
// beside the configuration. All functions may throw ArchiveFault or FileFault.
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

  /// Names of the waiting files, in the order in which they were kept. Makes no file or folder.
  std::vector<std::string> waiting() const;
  bool is_empty() const { return waiting().empty(); }

  /// Returns the entries that wait, in order. Files that hold no entry are left out.
  std::vector<ArchiveEntry> entries() const;

  /// Keeps an entry whose digest is filled in, and returns when it is on the disk.
  void keep(const ArchiveEntry& entry) const;

  struct Sent {
    std::size_t delivered = 0; ///< the server has them now; it may have had some of them before
    std::size_t refused = 0;   ///< made before their dancer was forgotten: erased from the outbox
    std::vector<std::string> spoilt; ///< errors in files that are not entries: these files stay
  };
  /// Delivers in order, and removes each entry once it is delivered. It may break off anywhere and
  /// be repeated: the store knows an entry by its digest.
  Sent send(Store& store) const;

private:
  std::string folder_;
};

} // namespace shankline
