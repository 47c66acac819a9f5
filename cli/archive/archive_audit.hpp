// Checks that every entry of an archive is there, in its place and as it was saved.
#pragma once

#include "cli/archive/archive_any_store.hpp"

#include <string>
#include <vector>

namespace shankline {

struct AuditFault {
  EntryId id = 0; ///< 0: the archive as a whole
  std::string what;
};

struct Audit {
  std::size_t cuts = 0;
  std::size_t notes = 0;
  std::size_t forgotten = 0;
  std::size_t withheld = 0; ///< notes whose words are kept from this reader: only the server's word
  ChainEnd end;             ///< as the entries themselves have it
  std::vector<AuditFault> faults;
  bool known_found = true; ///< whether the chain passes through `known`
  bool erasing = false;    ///< a forgetting is not done: erased text may still be in the file

  /// Returns true if every entry is as it should be, whatever else is left to do.
  bool clean() const { return faults.empty(); }
};

/// Reads everything there is. `known` is the end of the chain as an earlier audit gave it, written
/// down elsewhere; may be empty. Only that shows a chain whose newest entries were taken away
/// together with their count, or that was worked out anew as a whole. A file of which nothing can
/// be read throws, as for every other use.
Audit audit(Store& store, const std::string& known = {});

} // namespace shankline
