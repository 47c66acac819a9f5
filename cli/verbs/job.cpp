#include "cli/verbs/job.hpp"

#include "cli/manual/verb_guide.hpp"
#include "cli/surroundings/faults.hpp"
#include "cli/text/message.hpp"
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
  case Verb::roster:
    return run_roster;
  case Verb::config:
    return run_config;
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
  case Verb::rotation:
    return run_rotation;
  case Verb::printer:
    return run_printer;
  case Verb::archive:
    return run_archive;
  case Verb::manual: // answered by the command line itself, which knows its own options
  case Verb::schema: // asks for no work
  case Verb::page:   // has a room of its own
  case Verb::help:
    break;
  }
  throw std::logic_error("verb without work");
}

/// Returns true if --quiet silences the verb's output. JSON, comma-separated values and files on
/// standard output are results, which --quiet keeps.
bool tells_nothing(const Request& request) {
  if (!request.quiet || request.json || request.csv) return false;
  const bool streams =
      request.verb == Verb::again ||
      (request.verb == Verb::archive && request.archive.action == ArchiveAction::export_bundle);
  return request.verb != Verb::ask &&
         !(streams && (request.output.empty() || request.output == "-"));
}

} // namespace

ExitCode run(const Request& request, std::ostream& standard_out, std::ostream& messages) {
  if (request.json_errors) set_message_form(messages, MessageForm::json_lines);
  set_message_units(messages, request.units);
  // A PDF on standard output stands there alone.
  std::ostream silence(nullptr);
  std::ostream& out = tells_nothing(request)  ? silence
                      : request.pdf_to_output ? messages
                                              : standard_out;
  const ExitCode code =
      report_faults("shankline " + std::string(verb_guide(request.verb).name), messages,
                    [&] { return work_of(request.verb)(request, out, messages); });
  return flushed(code, standard_out, messages);
}

ExitCode flushed(ExitCode code, std::ostream& standard_out, std::ostream& messages) {
  standard_out.flush();
  if (standard_out) return code;
  // A reader who has seen enough (head) needs no telling.
  if (errno != EPIPE)
    say({plain_error("the results could not be written to standard output")}, messages);
  return ExitCode::file_system;
}

} // namespace shankline
