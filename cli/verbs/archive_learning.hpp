// Runs `archive learn`: shows what all tries together teach.
#pragma once

#include "cli/archive/archive_any_store.hpp"
#include "cli/job/request.hpp"
#include "cli/surroundings/exit_code.hpp"

#include <iosfwd>

namespace shankline {

/// Call it within one Store::with_snapshot, so that its output is of one moment.
ExitCode learn(Store& store, const Request& request, std::ostream& out, std::ostream& messages);

} // namespace shankline
