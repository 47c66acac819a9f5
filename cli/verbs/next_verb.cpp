// After a try: the next line back from the witness line, or stop, and why.
#include "cli/job/solved_order.hpp"
#include "cli/report/bench_json.hpp"
#include "cli/verbs/verbs.hpp"
#include "export/drawing/length_text.hpp"
#include "export/wording/work_words.hpp"
#include "geometry/order/figure.hpp"

#include <ostream>

namespace shankline {
namespace {

struct ChosenFoot {
  const FootSolution* foot = nullptr;
  std::string fault; ///< where there is none
};

ChosenFoot chosen_foot(const Solution& solution, const std::optional<FootSide>& asked) {
  const auto cut = [](const std::optional<FootSolution>& foot) {
    return foot && foot->trim ? &*foot : nullptr;
  };
  const FootSolution* left = cut(solution.left);
  const FootSolution* right = cut(solution.right);
  if (!asked) {
    if (left && right)
      return {nullptr, "the order cuts both boards: say which, --foot left or --foot right"};
    if (!left && !right) return {nullptr, "the order cuts no board"};
    return {left ? left : right, {}};
  }
  const FootSolution* found = *asked == FootSide::left ? left : right;
  return {found, found ? std::string() : "the order does not cut this foot's board"};
}

/// Only one foot's board is tried on: cautions about the other foot would be taken for this one's.
void drop_cautions_of_the_other(FootSide side, SolvedOrder& order) {
  const FootSide other = side == FootSide::left ? FootSide::right : FootSide::left;
  std::erase_if(order.solution.findings,
                [&](const Finding& finding) { return finding.key.foot() == other; });
  std::erase_if(order.read.messages,
                [&](const Message& message) { return Key(message.key).foot() == other; });
}

std::string back_of(double mm, Units units) {
  return length_text(mm, units, Rounding::up);
}

/// The board's edges as they lie on the bench, foot side up.
std::string back_words(const FootSolution& foot, const CutLine& line, Units units) {
  const double witness = foot.trim->witness.centre;
  const auto back = [&](double station) { return back_of(witness - station, units); };
  if (line.medial == line.lateral) return back(line.centre);
  return "big-toe edge " + back(line.medial) + ", centre " + back(line.centre) +
         ", little-toe edge " + back(line.lateral);
}

std::string words_of(const FootSolution& foot, const Tried& tried, const NextCut& next,
                     const ToleranceWish& tolerances, Units units) {
  const std::string side = foot_name(foot.side);
  const double witness = foot.trim->witness.centre;
  std::string words = side + " board, " +
                      (foot.layers ? of_layers(*foot.layers) + " layers, " : std::string()) +
                      figure(tried.cut_off) + " cut off, its end " +
                      figure(witness - tried.cut_off) + " back from the witness line\n" +
                      "stop band from " + back_of(witness - foot.trim->stop_from.centre, units) +
                      ", stop line " + back_of(witness - foot.trim->stop.centre, units) +
                      " back from the witness line, known to \u00b1" +
                      figure(foot.trim->doubt.stop.expanded()) + "\n";
  if (next.line) {
    words += "next line " + back_words(foot, *next.line, units) + " " +
             tolerance_text(keep_tolerance(tolerances)) + " back from the witness line\n";
    words += next.reason + "\n";
    if (next.left_to_final > 0)
      words += figure(ruler_back(*foot.trim, next.line->centre) -
                      ruler_back(*foot.trim, foot.trim->final_cut.centre)) +
               " then left to the final line. ";
    words += "Tape the edge, baste the ribbons, try at the barre.\n";
    return words;
  }
  return words + next.reason + "\n";
}

} // namespace

ExitCode run_next(const Request& request, std::ostream& out, std::ostream& messages) {
  const auto solved = solve_order(request.orders.front(), messages, [&request](SolvedOrder& order) {
    const ChosenFoot chosen = chosen_foot(order.solution, request.next.foot);
    if (chosen.foot) drop_cautions_of_the_other(chosen.foot->side, order);
  });
  if (!solved) return ExitCode::bad_input;
  const ChosenFoot chosen = chosen_foot(solved->solution, request.next.foot);
  if (!chosen.foot) {
    messages << "shankline: " << chosen.fault << "\n  see: shankline next --help\n";
    return ExitCode::bad_usage;
  }
  const FootSolution& foot = *chosen.foot;
  const BoardStation witness = foot.trim->witness.centre;
  const Tried tried{request.next.cut_off ? BoardStation(*request.next.cut_off)
                                         : witness - *request.next.back,
                    request.next.seen, request.next.past_final};
  const auto next = next_cut(foot.outline, *foot.trim, tried);
  if (!next) {
    messages << "shankline: no board of this order ends there: its witness line is at "
             << figure(witness, 0) << " from the heel end\n  allowed: --cut 0 to "
             << figure(witness, 0) << ", or --back the same counted from the witness line\n";
    return ExitCode::bad_input;
  }
  out << (request.json ? next_json(solved->order(), foot, tried, *next)
                       : words_of(foot, tried, *next, solved->order().tolerances, request.units));
  return ExitCode::done;
}

} // namespace shankline
