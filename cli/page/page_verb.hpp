// `shankline page`: serves the page until it is told to stop.
#pragma once

#include "cli/job/request.hpp"
#include "cli/surroundings/exit_code.hpp"

#include <iosfwd>

namespace shankline {

/// Prints the address, and serves until Ctrl-C, until the program that started it ends, or until
/// nothing was asked for during eight hours.
ExitCode run_page(const Request& request, std::ostream& out, std::ostream& messages);

} // namespace shankline
