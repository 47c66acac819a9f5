// The job: orders in, numbers and sheets out. The command line and the tests run the same one.
#pragma once

#include "cli/job/request.hpp"
#include "cli/surroundings/exit_code.hpp"

#include <iosfwd>

namespace shankline {

/// Results go to `out`, errors and cautions to `messages`. Several orders are all worked through,
/// whatever happens to one of them, and the worst exit code is returned.
ExitCode run(const Request& request, std::ostream& out, std::ostream& messages);

/// Flushes the results. Returns `code`, or ExitCode::file_system if they could not be written,
/// after saying so to `messages`, unless the reader has closed a pipe.
ExitCode flushed(ExitCode code, std::ostream& standard_out, std::ostream& messages);

} // namespace shankline
