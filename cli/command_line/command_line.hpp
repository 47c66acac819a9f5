// The command line: verbs and options, read into a request.
#pragma once

#include "cli/job/request.hpp"
#include "cli/surroundings/exit_code.hpp"

#include <string>
#include <variant>

namespace shankline {

/// Help, version or wrong usage: what to print, and how to leave.
struct Answer {
  ExitCode code;
  std::string words;
};

std::variant<Request, Answer> read_command_line(int argc, const char* const* argv);

} // namespace shankline
