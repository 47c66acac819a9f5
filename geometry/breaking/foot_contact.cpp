#include "geometry/breaking/foot_contact.hpp"

#include "geometry/breaking/board_stiffness.hpp"
#include "geometry/breaking/upper_pull.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/order/foot_estimates.hpp"
#include "geometry/order/reading_guide.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

namespace shankline {
namespace {

Finding caution(Key key, std::string what, std::string advice) {
  return {Severity::caution, std::move(key), std::move(what), "", std::move(advice)};
}

double edge_ratio(const Board& board) {
  if (!board.edge_thickness || !board.thickness || !(*board.thickness > 0)) return usual_edge_ratio;
  return std::min(1.0, *board.edge_thickness / *board.thickness);
}

class FootContactSolver {
public:
  FootContactSolver(const FootOrder& order, const ContactShoe& shoe, const ContactOptions& options)
      : order_(order), solved_(shoe), options_(options), side_(foot_name(shoe.side)) {}

  FootContactResult solve() {
    if (clamp() && stiffness() && pull()) solve_both();
    if (result_.reason) return result_;
    compare();
    result_.contact = std::move(found_);
    return result_;
  }

private:
  bool why_not(Finding reason) {
    result_.reason = std::move(reason);
    return false;
  }
  bool impossible(const std::string& key, const Advice& fault) {
    return why_not({Severity::error, key, fault.what, fault.allowed, fault.advice});
  }
  std::string key(const char* head, const char* tail) const {
    return std::string(head) + "." + side_ + "." + tail;
  }
  double u(FootStation at) const { return from_ball(found_.ball, at); }
  double u(BoardStation at) const { return u(solved_.frames.on_foot(at)); }

  /// The measured wing, in the order's pose; the mean if the two sides differ.
  std::optional<double> measured_wing() const {
    if (!order_.shoe.sides) return {};
    const StockSides& sides = *order_.shoe.sides;
    const auto of = [&](const std::optional<StockHeights>& own) {
      return own && own->wing_at ? own->wing_at : sides.wing_at;
    };
    const auto medial = of(sides.medial);
    const auto lateral = of(sides.lateral);
    if (medial && lateral) return (*medial + *lateral) / 2;
    return medial ? medial : lateral;
  }

  bool clamp() {
    const SolvedArch& arch = solved_.arch;
    if (!arch.arch)
      return why_not(caution(key("feet", "arch_depth"),
                             "where the shoe will break is not estimated: the arch's depth is "
                             "not known",
                             how_to_take("arch_depth")));
    found_.ball = arch.ball;
    found_.clamp = arch.ball;
    if (order_.shoe.clamp == Clamp::wing) {
      const auto wing = measured_wing();
      found_.clamp_estimated = !wing;
      found_.clamp = wing ? solved_.frames.on_foot(PosedStation(*wing))
                          : FootStation(default_wing_station(order_.foot.length->value()));
    }
    if (!(found_.clamp > arch.break_at))
      return why_not(caution(key("feet", "arch_break"),
                             "where the shoe will break is not estimated: the wing ends at " +
                                 short_figure(solved_.frames.posed(found_.clamp)) +
                                 " mm, behind the arch break",
                             "Measure where the box's stiff flank ends, or clamp at the ball."));
    ContactProblem& uncut = found_.uncut.problem;
    uncut.arch = *arch.arch;
    uncut.clamp = u(found_.clamp);
    uncut.heel_front = u(arch.heel_front);
    uncut.end = u(FootStation(0));
    uncut.strip.board_end =
        u(BoardStation(0)); // the board's heel end; mostly behind the foot's own
    return true;
  }

  bool stiffness() {
    const auto bent = board_and_sole(order_.shoe.stiffness);
    if (!bent) return impossible(key("shoe", "stiffness"), bent.why());
    found_.board = bent->board;
    found_.sole = bent->sole;
    found_.uncut.problem.strip.board = found_.board.value;
    found_.uncut.problem.strip.sole = found_.sole.value;
    return true;
  }

  bool pull() {
    ContactProblem& uncut = found_.uncut.problem;
    const auto drawn = upper_pull(order_.shoe.pull, uncut, options_);
    if (!drawn) return impossible(key("shoe", "pull"), drawn.why());
    found_.pull = *drawn;
    uncut.pull = even_pull(found_.pull.value, uncut.clamp, uncut.heel_front);
    return true;
  }

  bool solve_one(ShoeContact& shoe, const ContactSolution* near) {
    ContactResult result = solve_contact(shoe.problem, options_, near);
    shoe.verdict = std::move(result.verdict);
    if (!result.solution)
      return why_not(
          caution(key("shoe", "stiffness"),
                  "where the shoe will break is not estimated: " +
                      (shoe.verdict.fault.empty() ? "the contact with the foot was not found"
                                                  : shoe.verdict.fault),
                  "Check the arch depth, the stiffness and the pull."));
    shoe.solution = std::move(*result.solution);
    shoe.figures = at_stations(shoe.solution.figures, found_.ball);
    return true;
  }

  void solve_both() {
    if (!solve_one(found_.uncut, nullptr) || (!solved_.cut && !solved_.thinned)) return;
    found_.cut.emplace();
    ContactProblem& cut = found_.cut->problem;
    cut = found_.uncut.problem;
    if (solved_.thinned) {
      const SolvedThinning& thinned = *solved_.thinned;
      cut.strip.thinned =
          ThinnedStretch{u(BoardStation(thinned.to)), u(BoardStation(thinned.from)), thinned.ratio};
    }
    found_.only_thinned = !solved_.cut;
    if (solved_.cut) cut_board(cut.strip);
    solve_one(*found_.cut, &found_.uncut.solution);
  }

  void cut_board(Strip& strip) {
    const double bevel =
        solved_.cut->bevelled && order_.alterations.shank ? order_.alterations.shank->bevel : 0;
    if (solved_.layers) { // the rest goes on to the heel, and the bevel runs out on it
      found_.cut_by_layer = true;
      strip.thinned =
          ThinnedStretch{u(solved_.cut->station), strip.board_end, solved_.layers->ratio(), bevel};
      return;
    }
    strip.board_end = u(solved_.cut->station);
    if (bevel == 0) return;
    strip.bevel = bevel;
    strip.edge_ratio = edge_ratio(order_.shoe.board);
  }

  void compare() {
    found_.heel_pry_left = found_.heel_gap_left = 1;
    found_.board_left = solved_.frames.on_board(solved_.arch.break_at);
    if (!found_.cut) return;
    const FootContactFigures& uncut = found_.uncut.figures;
    const FootContactFigures& cut = found_.cut->figures;
    found_.heel_pry_left = of_uncut(cut.heel_pry, uncut.heel_pry);
    found_.heel_gap_left = of_uncut(cut.heel_gap, uncut.heel_gap);
    if (solved_.cut) found_.board_left = solved_.arch.break_at - solved_.cut->station;
    say_what_stays();
  }

  /// Adds a caution for each effect that the cut should have and by estimate does not have. A board
  /// that is only thinned has no trim line to break at, and no reach to change.
  void say_what_stays() {
    const FootContactFigures& cut = found_.cut->figures;
    const bool thinned = !solved_.cut;
    const std::string shoe = thinned ? "the thinned shoe" : "the cut shoe";
    const auto say = [&](const std::string& what, const char* advice) {
      found_.cautions.push_back(caution(key("alterations", thinned ? "thinned" : "shank"),
                                        "by estimate " + what, advice));
    };
    const double off = cut.break_at - (thinned ? solved_.arch.break_at : solved_.cut->station);
    if (!cut.breaks_in_arch)
      say(shoe + " does not break in the arch but where the box holds it",
          thinned ? "Thin the board more, or take a softer one."
                  : "Take a shorter reach, or a softer board.");
    else if (std::abs(off) > (thinned ? break_off_arch : break_off_trim))
      say("the shoe breaks " + short_figure(std::abs(off), 0) + " mm " +
              (off > 0 ? "ahead of" : "behind") +
              (thinned ? " the arch break, not at it" : " the trim line, not at it"),
          solved_.thinned ? "The thinned stretch bends first: thin it less, or elsewhere."
                          : "Make the first cut, try it on, and look where it breaks.");
    if (found_.heel_pry_left > pry_that_stays)
      say(shoe + " still pries the heel with " + figure(100 * found_.heel_pry_left, 0) +
              " % of the uncut shoe's force",
          thinned ? "Thinning the board more brings it down."
                  : "A shorter reach brings it down, if the window allows it.");
  }

  const FootOrder& order_;
  const ContactShoe& solved_;
  const ContactOptions& options_;
  std::string side_;
  FootContact found_{};
  FootContactResult result_;
};

} // namespace

double of_uncut(double after, double before) {
  return before > 0 ? after / before : 0;
}

FootContactFigures at_stations(const ContactFigures& figures, FootStation ball) {
  FootContactFigures f;
  f.breaks_in_arch = figures.breaks_in_arch;
  f.break_at = on_foot(ball, figures.break_at);
  f.break_from = on_foot(ball, figures.break_to);
  f.break_to = on_foot(ball, figures.break_from);
  f.peak_curvature = figures.peak_curvature;
  for (const BallStation peak : figures.rival_peaks)
    f.rival_peaks.push_back(on_foot(ball, peak));
  f.gap = figures.gap;
  f.gap_at = on_foot(ball, figures.gap_at);
  f.heel_gap = figures.heel_gap;
  if (figures.bearing) f.bearing = on_foot(ball, *figures.bearing);
  f.bearing_force = figures.bearing_force;
  f.heel_pry = figures.heel_pry;
  f.slack = figures.slack;
  f.clamp_moment = figures.clamp_moment;
  return f;
}

ContactShoe contact_shoe(const FootSolution& solution) {
  ContactShoe shoe{solution.side,   solution.frames, solution.arch, {},
                   solution.layers, solution.thinned};
  if (solution.trim) shoe.cut = {solution.trim->station, solution.trim->bevel.has_value()};
  return shoe;
}

FootContactResult foot_contact(const FootOrder& order, const ContactShoe& shoe,
                               const ContactOptions& options) {
  return FootContactSolver(order, shoe, options).solve();
}

FootContactResult foot_contact(const FootOrder& order, const FootSolution& solution,
                               const ContactOptions& options) {
  return foot_contact(order, contact_shoe(solution), options);
}

namespace {

std::optional<FootContactFigures> figures_of(const ContactResult& result, FootStation ball) {
  if (!result.solution) return {};
  return at_stations(result.solution->figures, ball);
}

} // namespace

std::vector<std::optional<FootContactFigures>> sweep_trim(const FootContact& contact,
                                                          std::span<const FootStation> stations,
                                                          const ContactOptions& options) {
  std::vector<double> ends;
  ends.reserve(stations.size());
  for (const FootStation station : stations)
    ends.push_back(from_ball(contact.ball, station));
  std::vector<std::optional<FootContactFigures>> swept;
  swept.reserve(stations.size());
  const ContactProblem& shoe = contact.cut ? contact.cut->problem : contact.uncut.problem;
  if (contact.cut_by_layer) {
    for (const double end : ends) {
      ContactProblem moved = shoe;
      moved.strip.thinned->from = end;
      swept.push_back(figures_of(solve_contact(moved, options), contact.ball));
    }
    return swept;
  }
  for (const ContactResult& result : sweep_board_end(shoe, ends, options))
    swept.push_back(figures_of(result, contact.ball));
  return swept;
}

std::vector<std::optional<FootContactFigures>> sweep_thickness(const FootContact& contact,
                                                               std::span<const double> ratios,
                                                               const ContactOptions& options) {
  std::vector<std::optional<FootContactFigures>> swept;
  swept.reserve(ratios.size());
  ContactProblem shoe = contact.cut->problem;
  for (const double ratio : ratios) {
    shoe.strip.thinned->ratio = ratio;
    swept.push_back(figures_of(solve_contact(shoe, options), contact.ball));
  }
  return swept;
}

} // namespace shankline
