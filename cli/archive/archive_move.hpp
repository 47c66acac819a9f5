// All entries of one store in another one, with the same chain.
#pragma once

#include "cli/archive/archive_any_store.hpp"

#include <string>

namespace shankline {

struct Moved {
  EntryId present = 0; ///< entries that the other store had already
  EntryId added = 0;
  ChainEnd end; ///< of both
};

/// Adds to `to` what it has not got of `from`, in order, some hundreds of entries at a time: what
/// was added stays when it breaks off, and doing it again goes on there. Codes that were forgotten
/// go along. `from` stays as it is. Throws ArchiveFault unless what `to` has is how `from` begins;
/// the names are for messages.
Moved move_archive(Store& from, const std::string& from_name, Store& to,
                   const std::string& to_name);

} // namespace shankline
