// A made or delivered pair against its order, line by line.
#include "cli/bench_files/measured_reader.hpp"
#include "cli/job/archive_saving.hpp"
#include "cli/job/finished_sheets.hpp"
#include "cli/job/solved_order.hpp"
#include "cli/report/bench_json.hpp"
#include "cli/surroundings/target.hpp"
#include "cli/text/message.hpp"
#include "cli/text/text_columns.hpp"
#include "cli/verbs/archive_looking.hpp"
#include "cli/verbs/archive_trying.hpp"
#include "cli/verbs/verbs.hpp"
#include "export/bench/acceptance_sheet.hpp"
#include "export/formats/pdf_writer.hpp"
#include "geometry/order/figure.hpp"

#include <optional>
#include <ostream>

namespace shankline {
namespace {

constexpr std::size_t name_width = 46;
constexpr std::size_t limits_width = 16;
constexpr std::size_t made_width = 14;

std::string table(const JudgedPair& pair, Units units) {
  std::string text;
  const char* foot = nullptr;
  for (const JudgedLine& judged : pair.lines) {
    const AcceptanceLine& line = judged.line;
    const char* const side = line.foot == FootSide::left ? "LEFT" : "RIGHT";
    if (side != foot) {
      const std::string cut = judged_at_words(pair, line.foot);
      text += std::string(foot ? "\n" : "") +
              padded(side + (cut.empty() ? "" : ", " + cut), name_width) +
              padded("from, to", limits_width) + padded("measured", made_width) + "verdict\n";
    }
    foot = side;
    text += padded(line.name, name_width) + padded(limits_words(line), limits_width);
    text += padded(judged.made ? made_words(judged) : "\u2013", made_width);
    text += judged.made ? verdict_words(judged.verdict) : "not measured";
    if (judged.made && judged.verdict == Acceptance::not_decided)
      text += line.instrument && !judged.can_be_proven
                  ? ": too coarse, take a " + std::string(instrument_guide(*line.instrument).name)
                  : ": measure with something finer";
    text += "\n";
    if (units == Units::inch && !line.counted)
      text +=
          padded("  in inches", name_width) +
          (judged.made ? padded(limits_in_inches(line) + " ", limits_width) + made_in_inches(judged)
                       : limits_in_inches(line)) +
          "\n";
  }
  return text + "\nthe pair is " + verdict_words(pair.verdict) + "\n";
}

ExitCode code_of(Acceptance verdict) {
  switch (verdict) {
  case Acceptance::accepted:
    return ExitCode::done;
  case Acceptance::refused:
    return ExitCode::refused;
  case Acceptance::not_decided:
    break;
  }
  return ExitCode::not_decided;
}

bool has_first_cut(const Solution& solution) {
  const auto on_foot = [](const std::optional<FootSolution>& foot) {
    return foot && foot->trim && foot->trim->first_cut;
  };
  return on_foot(solution.left) || on_foot(solution.right);
}

/// A sheet is written when -o asks for it, and always for a blank: there is nothing else that
/// --blank could mean.
std::string sheet_target(const Request& request) {
  if (request.output.empty() && !request.blank) return {};
  return output_file(request.output, named_after(request.orders.front(), "-acceptance.pdf"));
}

std::size_t write_sheet(const Request& request, const SolvedOrder& solved, const JudgedPair& pair,
                        const AcceptanceWish& what, const std::string& target,
                        std::ostream& messages) {
  SheetSet set = acceptance_set(solved.order(), pair, what, sheet_wish(request, solved.digest));
  finish_sheets(set, request, asked_printer(request), solved.read.file, messages);
  write_pdf(request.output, target, pdf_bytes(set.drawing));
  return set.drawing.pages.size();
}

/// Keeps in the order book what was decided. Returns what to say, or nothing after a complaint.
std::optional<std::string> keep_verdict(const Request& request, const SolvedOrder& solved,
                                        Acceptance verdict, const std::string& measured_on,
                                        std::ostream& messages) {
  if (verdict == Acceptance::not_decided) return "nothing was kept: the pair is not decided\n";
  const auto store = open_and_send(request.archive.file, ArchiveUse::change, messages);
  say_others_rights(request.archive.file, messages);
  const auto pair = request.next.entry > 0 ? pair_of_entry(*store, request.next.entry)
                                           : pair_of_order(*store, solved.order(), solved.text);
  if (!pair) {
    refuse(pair.why(), messages);
    return {};
  }
  if (pair->cut.dancer != solved.order().dancer) {
    refuse(pair->name() + " is " + pair->cut.dancer + "'s, and the order " + solved.order().dancer +
               "'s",
           "give the entry of this order", messages);
    return {};
  }
  if (const auto done = done_with(*pair)) {
    refuse(*done, messages);
    return {};
  }
  say_twins(*pair, messages);
  Outcome outcome;
  outcome.foot = pair->saved.left && pair->saved.right ? "both"
                 : pair->saved.left                    ? "left"
                                                       : "right";
  outcome.mark = verdict == Acceptance::accepted ? "accepted" : "refused";
  const EntryHead kept = store->add(note_about(pair->cut, outcome, measured_on));
  return "kept as entry " + std::to_string(kept.id) + ": " + pair->name() + " is " + outcome.mark +
         "\n";
}

} // namespace

ExitCode run_accept(const Request& request, std::ostream& out, std::ostream& messages) {
  const auto solved = solve_order(request.orders.front(), messages);
  if (!solved) return ExitCode::bad_input;
  if (!request.judged_at && has_first_cut(solved->solution))
    say({plain_caution("the board is judged at its final line; a pair from a maker comes at its "
                       "first cut",
                       "if it was cut at the first line, add --at first; else --at final")},
        messages);
  std::vector<AcceptanceLine> lines = acceptance_lines(
      solved->order(), solved->solution, request.judged_at.value_or(JudgedAt::final_cut));
  const std::string target = sheet_target(request);
  if (request.blank) {
    const JudgedPair pair = judge_pair(std::move(lines), {});
    const std::size_t pages = write_sheet(request, *solved, pair, {true, {}, {}}, target, messages);
    out << (request.json ? acceptance_json(solved->order(), pair)
                         : wrote_pages(target, pages) + "\n");
    return ExitCode::done;
  }

  const auto measured = read_measured_file(request.measured, lines);
  std::vector<Message> said = measured.messages;
  const std::string& whose = measured.content.dancer;
  if (!whose.empty() && whose != solved->order().dancer)
    said.push_back(
        {Severity::caution, measured.file, 0, 0, "dancer",
         "measured on " + whose + "'s pair, the order is " + solved->order().dancer + "'s", "",
         "Check that pair and order belong together."});
  say(said, messages);
  if (!measured.ok()) return ExitCode::bad_input;
  const JudgedPair pair = judge_pair(std::move(lines), measured.content.sizes);
  std::size_t pages = 0;
  if (!target.empty())
    pages = write_sheet(request, *solved, pair, {false, measured.content.date, measured.content.by},
                        target, messages);
  std::string kept;
  if (request.archive.save) {
    auto words = keep_verdict(request, *solved, pair.verdict, measured.content.date, messages);
    if (!words) return ExitCode::bad_input;
    kept = *std::move(words);
  }
  if (request.json)
    out << acceptance_json(solved->order(), pair);
  else
    out << table(pair, request.units)
        << (target.empty() ? std::string() : "\n" + wrote_pages(target, pages) + "\n") << kept;
  return code_of(pair.verdict);
}

} // namespace shankline
