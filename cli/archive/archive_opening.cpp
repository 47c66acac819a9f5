#include "cli/archive/archive_opening.hpp"

#include "cli/archive/archive_place.hpp"
#include "cli/archive/archive_server.hpp"
#include "cli/archive/archive_store.hpp"
#include "cli/archive/server_address.hpp"

namespace shankline {

std::unique_ptr<Store> open_archive(const std::string& given, ArchiveUse use,
                                    std::chrono::milliseconds patience) {
  const std::string place = archive_file(given);
  if (is_server_address(place)) return std::make_unique<ServerStore>(place, use, patience);
  return std::make_unique<ArchiveStore>(place, use, patience);
}

} // namespace shankline
