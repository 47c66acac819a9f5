#include "cli/archive/archive_opening.hpp"

#include "cli/archive/archive_place.hpp"
#include "cli/archive/archive_store.hpp"

namespace shankline {

std::unique_ptr<Store> open_archive(const std::string& given, ArchiveUse use,
                                    std::chrono::milliseconds patience) {
  return std::make_unique<ArchiveStore>(archive_file(given), use, patience);
}

} // namespace shankline
