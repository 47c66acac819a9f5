#include "cli/verbs/job.hpp"

#include "cli/manual/verb_guide.hpp"
#include "cli/surroundings/faults.hpp"
#include "cli/verbs/verbs.hpp"

#include <cerrno>
#include <ostream>
#include <stdexcept>

namespace shankline {
namespace {

using Work = ExitCode (*)(const Request&, std::ostream& out, std::ostream& messages);

Work work_of(Verb verb) {
  switch (verb) {
  case Verb::cut:
  case Verb::check:
  case Verb::chart:
    return run_orders;
  case Verb::compare:
    return run_compare;
  case Verb::rack:
    return run_rack;
  case Verb::ask:
    return run_ask;
  case Verb::form:
    return run_form;
  case Verb::explain:
    return run_explain;
  case Verb::next:
    return run_next;
  case Verb::match:
    return run_match;
  case Verb::accept:
    return run_accept;
  case Verb::again:
    return run_again;
  case Verb::printer:
    return run_printer;
  case Verb::archive:
    return run_archive;
  case Verb::manual: // answered by the command line itself, which knows its own options
  case Verb::schema: // asks for no work
    break;
  }
  throw std::logic_error("verb without work");
}

} // namespace

ExitCode run(const Request& request, std::ostream& out, std::ostream& messages) {
  const ExitCode code =
      said_faults("shankline " + std::string(verb_guide(request.verb).name), messages,
                  [&] { return work_of(request.verb)(request, out, messages); });
  out.flush();
  if (out) return code;
  // A reader who has seen enough (head) needs no telling.
  if (errno != EPIPE) messages << "error: the results could not be written to standard output\n";
  return ExitCode::file_system;
}

} // namespace shankline
