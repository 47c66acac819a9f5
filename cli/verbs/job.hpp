// The job: orders in, numbers and sheets out. The command line and the tests run the same one.
#pragma once

#include "cli/exit_code.hpp"
#include "cli/request.hpp"

#include <iosfwd>

namespace shankline {

/// Results go to `out`, errors and cautions to `messages`. Several orders are all worked through,
/// whatever happens to one of them, and the worst exit code is returned.
ExitCode run(const Request& request, std::ostream& out, std::ostream& messages);

} // namespace shankline
