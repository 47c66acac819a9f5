#include "cli/command_line.hpp"
#include "cli/job.hpp"

#include <iostream>

int main(int argc, char** argv) {
  using namespace shankline;
  const auto command = read_command_line(argc, argv);
  if (const Answer* answer = std::get_if<Answer>(&command)) {
    (answer->code == ExitCode::done ? std::cout : std::cerr) << answer->words;
    return static_cast<int>(answer->code);
  }
  return static_cast<int>(run(std::get<Request>(command), std::cout, std::cerr));
}
