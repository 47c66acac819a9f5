// Runs each verb. All functions may throw what files and sheets throw; cli/job turns exceptions
// into words and an exit code.
#pragma once

#include "cli/job/request.hpp"
#include "cli/surroundings/exit_code.hpp"

#include <iosfwd>

namespace shankline {

/// cut, check and chart: one order or many. Several are all worked through, whatever happens to one
/// of them.
ExitCode run_orders(const Request& request, std::ostream& out, std::ostream& messages);

/// One order, left against right, or two orders.
ExitCode run_compare(const Request& request, std::ostream& out, std::ostream& messages);
/// One line a shoe; the sheet and the labels where they are asked for.
ExitCode run_rack(const Request& request, std::ostream& out, std::ostream& messages);

/// Orders of many dancers from one table of readings.
ExitCode run_roster(const Request& request, std::ostream& out, std::ostream& messages);

ExitCode run_config(const Request& request, std::ostream& out, std::ostream& messages);
ExitCode run_ask(const Request& request, std::ostream& out, std::ostream& messages);
ExitCode run_form(const Request& request, std::ostream& out, std::ostream& messages);
ExitCode run_explain(const Request& request, std::ostream& out, std::ostream& messages);
ExitCode run_next(const Request& request, std::ostream& out, std::ostream& messages);
ExitCode run_match(const Request& request, std::ostream& out, std::ostream& messages);
ExitCode run_accept(const Request& request, std::ostream& out, std::ostream& messages);
ExitCode run_again(const Request& request, std::ostream& out, std::ostream& messages);
ExitCode run_rotation(const Request& request, std::ostream& out, std::ostream& messages);
ExitCode run_printer(const Request& request, std::ostream& out, std::ostream& messages);
ExitCode run_archive(const Request& request, std::ostream& out, std::ostream& messages);

} // namespace shankline
