// Runs the actions that follow a pair from its order to its last day: worn, end, mark, pairs, find,
// labels, overview.
#pragma once

#include "cli/archive/archive_any_store.hpp"
#include "cli/job/request.hpp"
#include "cli/surroundings/exit_code.hpp"

#include <iosfwd>

namespace shankline {

// Each is an action of `archive`.

ExitCode add_wear(Store& store, const Request& request, std::ostream& out, std::ostream& messages);
ExitCode end_pair(Store& store, const Request& request, std::ostream& out, std::ostream& messages);
ExitCode mark_pairs(Store& store, const Request& request, std::ostream& out,
                    std::ostream& messages);
ExitCode show_pairs(Store& store, const Request& request, std::ostream& out,
                    std::ostream& messages);
ExitCode find_entries(Store& store, const Request& request, std::ostream& out,
                      std::ostream& messages);
ExitCode print_labels(Store& store, const Request& request, std::ostream& out,
                      std::ostream& messages);
ExitCode show_overview(Store& store, const Request& request, std::ostream& out,
                       std::ostream& messages);

} // namespace shankline
