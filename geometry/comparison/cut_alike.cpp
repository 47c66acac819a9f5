#include "geometry/comparison/cut_alike.hpp"

#include "geometry/order/figure.hpp"
#include "geometry/sides/side_cut.hpp"

#include <array>
#include <cmath>
#include <utility>

namespace shankline {
namespace {

/// Lines nearer than this to each other are one line to a knife.
constexpr double one_line = 0.05;

class CutAlikeSolver {
public:
  CutAlikeSolver(const SolvedFoot& foot, const SolvedFoot& other) : foot_(foot), other_(other) {}

  CutAlike solve() && {
    if (foot_.solution.trim && other_.solution.trim) {
      shank();
      held_to_window();
      estimate();
    }
    sides();
    return std::move(found_);
  }

private:
  std::string key(const char* what) const {
    return "alterations." + foot_name(foot_.solution.side) + "." + what;
  }
  void caution(const char* what, std::string words, std::string allowed) {
    found_.cautions.push_back({Severity::caution, key(what), std::move(words), std::move(allowed),
                               "Cut each shoe by its own lines."});
  }
  std::string posed(FootStation at) const { return short_figure(foot_.solution.frames.posed(at)); }

  void shank() {
    const SolvedTrim& own = *foot_.solution.trim;
    found_.tried = true;
    found_.board = other_.solution.trim->final_cut.centre;
    found_.station = foot_.solution.frames.on_foot(found_.board);
    found_.deeper = found_.board - own.final_cut.centre;
    found_.board_left = foot_.solution.arch.break_at - found_.station;
  }

  void held_to_window() {
    const SolvedTrim& own = *foot_.solution.trim;
    const double past_stop = found_.board - own.stop.centre;
    const double past_limit = found_.board - own.limit();
    const double under = own.window.from - found_.station;
    if (past_stop > one_line)
      caution("shank",
              "cut like the other, the board would end " + short_figure(past_stop) +
                  " mm past the stop line, " + short_figure(found_.board_left) +
                  " mm behind the arch break",
              "cut off no more than " + short_figure(own.limit()) + " mm");
    else if (past_limit > one_line)
      caution("shank",
              "cut like the other, the board would end " + short_figure(past_limit) +
                  " mm inside the stop band, which begins at " + short_figure(own.limit()) + " mm",
              "cut off no more than " + short_figure(own.limit()) + " mm");
    else if (under > one_line)
      caution("shank",
              "cut like the other, the board would end " + short_figure(under) +
                  " mm too far under the heel",
              "an end at " + posed(own.window.from) + " to " + posed(own.window.to) + " mm");
    else if (found_.deeper > one_line && found_.deeper > own.doubt.board.expanded())
      caution("shank",
              "cut like the other, the board would lose " + short_figure(found_.deeper) +
                  " mm more than this foot asks for, and a cut board cannot be put back",
              "");
  }

  void estimate() {
    if (!foot_.contact || !foot_.contact->cut) return;
    const auto swept = sweep_trim(*foot_.contact, std::array{found_.station});
    if (swept.empty() || !swept.front()) return;
    const FootContactFigures& there = *swept.front();
    const FootContactFigures& uncut = foot_.contact->uncut.figures;
    found_.contact = there;
    found_.heel_pry_left = of_uncut(there.heel_pry, uncut.heel_pry);
    found_.heel_gap_left = of_uncut(there.heel_gap, uncut.heel_gap);
    if (std::abs(found_.deeper) < one_line) return;
    if (!there.breaks_in_arch && foot_.contact->cut->figures.breaks_in_arch)
      caution("shank",
              "cut like the other, by estimate the shoe would not break in the arch but where the "
              "box holds it",
              "");
    else if (there.breaks_in_arch && std::abs(there.break_at - found_.station) > break_off_trim)
      caution("shank",
              "cut like the other, by estimate the shoe would break at " +
                  figure(foot_.solution.frames.posed(there.break_at), 0) +
                  " mm, not at its trim line",
              "");
    if (*found_.heel_pry_left > pry_that_stays && foot_.contact->heel_pry_left <= pry_that_stays)
      caution("shank",
              "cut like the other, by estimate the shoe would still pry the heel with " +
                  figure(100 * *found_.heel_pry_left, 0) + " % of the uncut shoe's force",
              "");
  }

  void sides() {
    if (!foot_.solution.sides || !other_.solution.sides) return;
    const SideWish& theirs = *other_.foot.alterations.sides;
    SideWish wish = *foot_.foot.alterations.sides;
    wish.medial = theirs.medial;
    wish.lateral = theirs.lateral;
    wish.back = theirs.back;
    Findings findings;
    const FootSolution& own = foot_.solution;
    solve_sides({.break_at = own.arch.break_at,
                 .heel_front = own.arch.heel_front,
                 .frames = own.frames,
                 .foot_length = foot_.foot.foot.length->value(),
                 .shoe = foot_.foot.shoe,
                 .outline = own.outline,
                 .wish = wish,
                 .foot_name = foot_name(own.side)},
                findings);
    for (const Finding& finding : findings)
      if (finding.severity == Severity::error)
        caution("sides", "lowered like the other: " + finding.what, finding.allowed);
  }

  const SolvedFoot& foot_;
  const SolvedFoot& other_;
  CutAlike found_;
};

} // namespace

CutAlike cut_alike(const SolvedFoot& foot, const SolvedFoot& other) {
  return CutAlikeSolver(foot, other).solve();
}

} // namespace shankline
