// Failures outside the order, in words and as an exit code.
#pragma once

#include "cli/surroundings/exit_code.hpp"

#include <functional>
#include <iosfwd>
#include <string>

namespace shankline {

/// Thrown where there is nothing left to say: the messages are written, the work cannot go on.
struct AlreadyReported {
  ExitCode code = ExitCode::bad_input;
};

/// Runs `work` and says what it throws; `name` is the order's, or the verb's.
ExitCode report_faults(const std::string& name, std::ostream& messages,
                       const std::function<ExitCode()>& work);

/// Writes the message to standard error without allocating memory.
void say_out_of_memory();

} // namespace shankline
