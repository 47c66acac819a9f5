#include "cli/command_line/command_line.hpp"
#include "cli/page/page_verb.hpp"
#include "cli/surroundings/faults.hpp"
#include "cli/surroundings/progress_bar.hpp"
#include "cli/text/message.hpp"
#include "cli/verbs/job.hpp"

#include <csignal>
#include <cstdlib>
#include <exception>
#include <fcntl.h>
#include <iostream>
#include <new>
#include <unistd.h>

namespace {

/// A stream that was closed by the caller must not become the next file that is opened: messages
/// would go into it.
void hold_standard_streams() {
  for (int stream = STDIN_FILENO; stream <= STDERR_FILENO; ++stream)
    if (::fcntl(stream, F_GETFD) < 0) {
      // Reading from what takes output only, and the other way round, fails as on a closed stream.
      const int held = ::open("/dev/null", stream == STDIN_FILENO ? O_WRONLY : O_RDONLY);
      if (held > STDERR_FILENO) ::close(held);
    }
}

/// The JSON library's destructors take memory for what is nested: where there is none left, no
/// handler hears of it. Nothing is half written then: no file is open while JSON is put together.
[[noreturn]] void end_at_once() {
  try {
    if (const auto fault = std::current_exception()) std::rethrow_exception(fault);
  } catch (const std::bad_alloc&) {
    shankline::say_out_of_memory();
    std::_Exit(static_cast<int>(shankline::ExitCode::file_system));
  } catch (...) {
    // Abort then, as without this.
  }
  std::abort();
}

int work(int argc, char** argv) {
  using namespace shankline;
  auto command = read_command_line(argc, argv);
  if (const Answer* answer = std::get_if<Answer>(&command)) {
    (answer->code == ExitCode::done ? std::cout : std::cerr) << answer->words;
    return static_cast<int>(answer->code == ExitCode::done
                                ? flushed(answer->code, std::cout, std::cerr)
                                : answer->code);
  }
  Request& request = std::get<Request>(command);
  request.progress_columns = progress_columns();
  set_message_form(std::cerr, MessageForm::text, message_terminal_columns());
  return static_cast<int>(request.verb == Verb::page ? run_page(request, std::cout, std::cerr)
                                                     : run(request, std::cout, std::cerr));
}

} // namespace

int main(int argc, char** argv) {
  // A reader who has seen enough is no reason to stop halfway: writing to it fails, and is said.
  std::signal(SIGPIPE, SIG_IGN);
  std::signal(SIGXFSZ, SIG_IGN); // likewise a file grown too large
  hold_standard_streams();
  std::set_terminate(end_at_once);
  try {
    return work(argc, argv);
  } catch (const std::bad_alloc&) {
    shankline::say_out_of_memory();
    return static_cast<int>(shankline::ExitCode::file_system);
  }
}
