// Opens the archive that a user names, for verbs that need not know what keeps it.
#pragma once

#include "cli/archive/archive_any_store.hpp"
#include "cli/archive/archive_file.hpp"

#include <chrono>
#include <memory>
#include <string>

namespace shankline {

inline constexpr std::chrono::milliseconds usual_patience = std::chrono::seconds(10);

/// `given` is an --archive, empty for the usual place; `patience` is how long to wait for another
/// program that writes. Never returns null. Throws ArchiveFault.
std::unique_ptr<Store> open_archive(const std::string& given, ArchiveUse use,
                                    std::chrono::milliseconds patience = usual_patience);

} // namespace shankline
