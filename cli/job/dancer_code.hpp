// Dancers whose code was written in another way before.
#pragma once

#include "cli/archive/archive_any_store.hpp"

#include <string>

namespace shankline {

/// Returns the code of a dancer of whom the archive has entries, if it is `dancer` in capitals or
/// in small letters alone; empty if there is none, or if the archive has entries of `dancer` as
/// written. Throws ArchiveFault.
std::string other_spelling(Store& store, const std::string& dancer);

} // namespace shankline
