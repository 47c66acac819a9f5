// What all tries together say: archive learn.
#pragma once

#include "cli/archive/archive_any_store.hpp"
#include "cli/job/request.hpp"
#include "cli/surroundings/exit_code.hpp"

#include <iosfwd>

namespace shankline {

/// Within one Store::with_snapshot, so that what it says is of one moment.
ExitCode learn(Store& store, const Request& request, std::ostream& out, std::ostream& messages);

} // namespace shankline
