#include "cli/manual/manual.hpp"

#include "cli/surroundings/exit_code.hpp"

#include <algorithm>
#include <array>
#include <string_view>

namespace shankline {

bool ManualOption::is_order() const {
  constexpr std::array<std::string_view, 3> orders{"ORDER", "WORN", "MEASURED"};
  return std::find(orders.begin(), orders.end(), value) != orders.end();
}

bool ManualOption::is_file() const {
  return value == "FILE" || is_order();
}

const std::vector<ManualExit>& manual_exits() {
  const auto code = [](ExitCode exit) { return static_cast<int>(exit); };
  static const std::vector<ManualExit> exits{
      {code(ExitCode::done), "done"},
      {code(ExitCode::bad_input), "wrong or missing input"},
      {code(ExitCode::bad_usage), "wrong usage: a verb, an option or its value"},
      {code(ExitCode::file_system), "the file system or the archive failed"},
      {code(ExitCode::refused), "of accept: the pair is refused"},
      {code(ExitCode::not_decided), "of accept: measured too coarsely to decide, or not all of it"},
  };
  return exits;
}

} // namespace shankline
