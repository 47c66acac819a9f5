// Lines copied from a worn pair that was right, beside what the model would have said.
#include "cli/archive/archive_tries.hpp"
#include "cli/bench_files/worn_reader.hpp"
#include "cli/job/archive_saving.hpp"
#include "cli/job/finished_sheets.hpp"
#include "cli/job/last_pair.hpp"
#include "cli/job/solved_order.hpp"
#include "cli/order_file/seen_words.hpp"
#include "cli/report/bench_json.hpp"
#include "cli/report/report.hpp"
#include "cli/surroundings/target.hpp"
#include "cli/text/message.hpp"
#include "cli/text/text_columns.hpp"
#include "cli/verbs/archive_looking.hpp"
#include "cli/verbs/archive_trying.hpp"
#include "cli/verbs/verbs.hpp"
#include "export/formats/pdf_writer.hpp"
#include "export/sets/order_sheets.hpp"
#include "geometry/fitting/matched_lines.hpp"
#include "geometry/order/figure.hpp"

#include <cmath>
#include <optional>
#include <ostream>
#include <utility>

namespace shankline {
namespace {

std::string sure(double value, double U) {
  return figure(value) + " \u00b1" + figure(U);
}

/// A length as figure() shows it: readers subtract what they see.
double shown_length(double mm) {
  return std::round(mm * 10 * (1 + 1e-12)) / 10;
}

constexpr std::size_t line_column = 40;
constexpr std::size_t figure_width = 16;

std::string sure_in_inches(double value, double U) {
  return inches(value) + " \u00b1" + inches(U, Rounding::up);
}

/// The row below, of a line that the model has too.
std::string in_inches(const MatchedLine& line) {
  const double copied = line.copied.value;
  std::string text = padded("  in inches", line_column) +
                     padded(sure_in_inches(copied, line.copied.expanded()), figure_width);
  if (!line.model) return text + "\n";
  text += padded(line.model_U ? sure_in_inches(*line.model, *line.model_U) : inches(*line.model),
                 figure_width);
  const double apart = in_inch_steps(copied) - in_inch_steps(*line.model);
  return text + (line.apart ? sure_in_inches(apart, line.apart->expanded()) : inches(apart)) + "\n";
}

std::string table(const MatchedLines& lines, Units units) {
  std::string text = padded("", line_column) + padded("copied", figure_width) +
                     padded("model", figure_width) + "difference\n";
  for (const MatchedLine& line : lines) {
    text += padded(std::string(line.foot == FootSide::left ? "left " : "right ") + line.name,
                   line_column) +
            padded(sure(line.copied.value, line.copied.expanded()), figure_width);
    if (!line.model) {
      text += "not asked for by the order\n";
      if (units == Units::inch) text += in_inches(line);
      continue;
    }
    text +=
        padded(line.model_U ? sure(*line.model, *line.model_U) : figure(*line.model), figure_width);
    const double difference = shown_length(line.copied.value) - shown_length(*line.model);
    if (line.apart)
      text += sure(difference, line.apart->expanded()) +
              (told_apart(*line.apart) ? ", they differ" : ", too close to call");
    else
      text += figure(difference);
    text += "\n";
    if (units == Units::inch) text += in_inches(line);
  }
  return text;
}

/// Findings of the copying stand in the worn file or in the order.
bool say_findings(const Findings& findings, const BenchFile<WornPair>& worn, const ReadOrder& read,
                  std::ostream& messages) {
  std::vector<Message> said;
  for (const Finding& finding : findings)
    said.push_back(worn.place(finding).value_or(read.place(finding)));
  say(said, messages);
  return !has_error(findings);
}

struct Copied {
  OrderText order;
  MatchedOrder matched; ///< the order with the worn pair's lines
};

/// Both files, and the lines of the one in the other; nothing if there is an error, which was said.
std::optional<Copied> read_and_copy(const Request& request, std::ostream& messages) {
  const auto worn = read_worn_file(request.worn);
  say(worn.messages, messages);
  auto order = read_order_file(request.orders.front(), messages);
  if (!worn.ok() || !order) return {};
  order->read.messages.clear(); // they were said
  if (!worn.content.left && !worn.content.right) {
    say({{Severity::error, worn.file, 0, 0, "", "no foot was measured", "left, right",
          "Write what was measured on the worn pair under left: and right:"}},
        messages);
    return {};
  }
  Findings findings;
  MatchedOrder matched = copy_lines(order->read.order, worn.content, findings);
  if (!say_findings(findings, worn, order->read, messages)) return {};
  return Copied{*std::move(order), std::move(matched)};
}

} // namespace

namespace {

/// The ends of the worn pair's boards, as notes about the entry of the new pair's order: they were
/// right after wear. Returns false where that cannot be, which was said.
bool keep_copied(const Request& request, const Order& order, const std::string& text,
                 const MatchedOrder& matched, std::string& said, std::ostream& messages) {
  const std::string& file = request.archive.file;
  const auto store = open_and_send(file, ArchiveUse::change, messages);
  say_others_rights(file, messages);
  const auto pair = request.next.entry > 0 ? pair_of_entry(*store, request.next.entry)
                                           : pair_of_order(*store, order, text);
  if (!pair) {
    refuse(pair.why(), messages);
    return false;
  }
  if (pair->cut.dancer != order.dancer) {
    refuse(pair->name() + " is of another dancer, " + shown(pair->cut.dancer),
           "give the entry of this order's pair", messages);
    return false;
  }
  say_twins(*pair, messages);
  std::vector<ArchiveEntry> entries;
  for (const FootSide side : {FootSide::left, FootSide::right}) {
    const auto& foot = side == FootSide::left ? matched.left : matched.right;
    if (!foot || !foot->trim) continue;
    Outcome outcome;
    outcome.foot = foot_name(side);
    outcome.seen = word_for(Seen::right, seen_words);
    outcome.worn = true;
    outcome.cut_off = foot->trim->mark.value;
    outcome.copied_U = foot->trim->mark.expanded();
    const auto end = end_on_board(*pair, side, outcome.cut_off, {});
    if (!end) {
      refuse(end.why().what, end.why().advice, messages);
      return false;
    }
    for (const RecordedTry& one : tries_of(pair->notes))
      if (one.foot == side && one.copied_U) {
        refuse("a worn pair was copied for the " + foot_name(side) + " board of " + pair->name() +
                   " already, as entry " + std::to_string(one.id),
               "leave --save out; or, if that one was wrong: shankline archive withdraw " +
                   std::to_string(one.id),
               messages);
        return false;
      }
    entries.push_back(note_about(pair->cut, outcome, {}));
  }
  if (entries.empty()) {
    refuse("no board's end was measured on the worn pair", "measure board_end and heel_end",
           messages);
    return false;
  }
  const std::vector<EntryHead> kept = store->add(std::move(entries));
  for (const EntryHead& head : kept)
    said +=
        "kept as entry " + std::to_string(head.id) + ": " + outcome_words(outcome_of(head)) + "\n";
  return true;
}

} // namespace

ExitCode run_match(const Request& request, std::ostream& out, std::ostream& messages) {
  auto copied = read_and_copy(request, messages);
  if (!copied) return ExitCode::bad_input;
  auto& [order, matched] = *copied;
  const Solution model = solve(order.read.order);
  order.read.order = matched.order;
  PairContact contact;
  LastPairs last_pairs(request.archive);
  const auto solved = solve_read_order(std::move(order.read), std::move(order.text), messages,
                                       [&](SolvedOrder& step) {
                                         last_pairs.warn(step);
                                         contact = estimated_contact(step);
                                       });
  if (!solved) return ExitCode::bad_input;
  std::string kept;
  if (request.archive.save &&
      !keep_copied(request, solved->order(), solved->text, matched, kept, messages))
    return ExitCode::bad_input;

  const MatchedLines lines = matched_lines(matched, model);
  std::size_t pages = 0;
  const std::string target = target_of(request, request.orders.front());
  if (!request.output.empty()) {
    SheetSet set = sheet_set(solved->order(), solved->solution, solved->solution.findings,
                             sheet_wish(request, solved->digest));
    finish_sheets(set, request, asked_printer(request), solved->read.file, messages);
    write_pdf(request.output, target, pdf_bytes(set.drawing));
    pages = set.drawing.pages.size();
  }
  if (request.json) {
    out << match_json(solved->order(), lines);
    return ExitCode::done;
  }
  out << table(lines, request.units) << "\n"
      << report_text(solved->order(), solved->solution, contact, request.units);
  if (!kept.empty()) out << '\n' << kept;
  if (pages > 0) out << '\n' << wrote_words(target, pages);
  return ExitCode::done;
}

} // namespace shankline
