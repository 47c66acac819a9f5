#include "geometry/solution/solution.hpp"

#include "geometry/board/board_check.hpp"
#include "geometry/board/trim_solution.hpp"
#include "geometry/foot/foot_stations.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/order/growing_foot.hpp"
#include "geometry/order/order_limits.hpp"
#include "geometry/uncertainty/repeats.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

namespace shankline {
namespace {

/// If the board is in the shoe, only its heel piece can be known.
Result<SolvedPieces> pieces_in_shoe(const BoardOutline& outline, double centre,
                                    const Polyline& end) {
  SolvedPieces solved;
  solved.removed_length = centre;
  double front = outline.last_station();
  for (const Point& p : end)
    front = std::max(front, p.x + 1);
  auto pieces = cut_pieces(outline.open_line(front), end);
  if (!pieces) return pieces.why();
  solved.removed = std::move(pieces->removed);
  return solved;
}

Result<SolvedPieces> pieces_loose(const BoardOutline& outline, const Polygon& whole, double centre,
                                  const Polyline& end) {
  SolvedPieces solved;
  solved.removed_length = centre;
  solved.kept_length = *outline.length() - centre;
  solved.kept_fraction = *solved.kept_length / *outline.length();
  auto pieces = cut_pieces(whole, end);
  if (!pieces) return pieces.why();
  solved.kept = std::move(pieces->kept);
  solved.removed = std::move(pieces->removed);
  return solved;
}

bool asks_for_work(const Alterations& wish) {
  return wish.shank || wish.sides || wish.thinned || wish.filler || wish.liner || wish.darning ||
         wish.ribbons || wish.elastics || wish.tuck;
}

/// One foot, step by step; every step adds what it finds, and the rest is left out after an error.
class FootSolver {
public:
  FootSolver(FootSide side, const FootOrder& foot, const Order& order, Findings& findings)
      : side_(side), name_(foot_name(side)), foot_(foot), order_(order), findings_(findings) {}

  std::optional<FootSolution> solve() {
    const Alterations& wish = foot_.alterations;
    if (!asks_for_work(wish)) return {};
    if (!take(outside_limits(foot_, name_))) return {};
    const bool readings_ok = take(doubtful_readings(foot_, order_, name_));
    const bool grown_ok = take(growing_foot(foot_, order_, name_));
    const auto stations =
        foot_stations(foot_.foot, order_.pose, order_.estimates_from, "feet." + name_, findings_);
    const Board& board = foot_.shoe.board;
    const bool board_ok = take(check_board(board, board_path()));
    if (!stations || !board_ok || !readings_ok || !grown_ok) return {};
    take(board_against_foot(board, foot_.foot.length->value(), board_path()));

    FootSolution solution{side_,
                          frames_of(order_.pose, stations->fold, board.inset->value()),
                          stations->arch,
                          BoardOutline(board.widths, board.loose_length()),
                          {},
                          {},
                          {},
                          {},
                          stations->estimated};
    if (solution.outline.closed()) solution.whole = solution.outline.polygon();
    const bool shank_ok = !wish.shank || solve_shank(*stations, solution);
    const bool thin_ok = thin_board(solution);
    const bool heel_ok = work_at_heel(solution, shank_ok);
    const bool sides_ok = !wish.sides || lower_sides(solution);
    const bool liner_ok = cut_liner(solution);
    const bool darning_ok = darn(solution);
    const bool ribbons_ok = cut_ribbons(solution, sides_ok);
    if (!shank_ok || !thin_ok || !heel_ok || !sides_ok || !liner_ok || !darning_ok || !ribbons_ok)
      return {};
    return solution;
  }

private:
  std::string board_path() const { return "shoe." + name_ + ".board"; }

  /// Keeps what was found; false if there is an error in it.
  bool take(Findings found) {
    const bool ok = !has_error(found);
    std::move(found.begin(), found.end(), std::back_inserter(findings_));
    return ok;
  }

  bool solve_shank(const FootStations& stations, FootSolution& solution) {
    const TrimModel model(foot_, order_.pose, order_.estimates_from, stations, name_,
                          !order_.read_by.empty());
    solution.trim =
        solve_trim({stations, foot_.shoe.board, solution.outline, *foot_.alterations.shank,
                    foot_.foot.arch_break.across, solution.frames, is_growing(order_, foot_.foot),
                    model, "feet." + name_, board_path(), "alterations." + name_ + ".shank"},
                   findings_);
    if (!solution.trim) return false;
    const SolvedTrim& trim = *solution.trim;
    auto pieces =
        solution.outline.closed()
            ? pieces_loose(solution.outline, solution.whole, trim.final_cut.centre, trim.end)
            : pieces_in_shoe(solution.outline, trim.final_cut.centre, trim.end);
    if (!pieces) return not_in_two(solution, pieces.why());
    solution.pieces = *std::move(pieces);
    if (!trim.first_cut) {
      solution.pieces_to_cut = solution.pieces;
      return true;
    }
    // The part that comes off in all is divided once more, at the first line: a small polygon.
    auto strip = cut_pieces(solution.pieces.removed->outline,
                            {trim.first_cut->medial_end, trim.first_cut->lateral_end});
    if (!strip) return not_in_two(solution, strip.why());
    SolvedPieces& first = solution.pieces_to_cut;
    first.removed = std::move(strip->removed);
    first.removed_length = trim.first_cut->centre;
    if (const auto length = solution.outline.length()) {
      first.kept_length = *length - first.removed_length;
      first.kept_fraction = *first.kept_length / *length;
    }
    return true;
  }

  bool not_in_two(const FootSolution& solution, const Advice& why) {
    return take({{Severity::error, board_path() + ".widths",
                  "the board cannot be cut in two here: " + why.what,
                  "an outline that the trim line crosses once on each edge",
                  "Check the board's widths near " + short_figure(solution.trim->final_cut.centre) +
                      " from its heel end."}});
  }

  bool lower_sides(FootSolution& solution) {
    solution.sides = solve_sides({.break_at = solution.arch.break_at,
                                  .heel_front = solution.arch.heel_front,
                                  .frames = solution.frames,
                                  .foot_length = foot_.foot.length->value(),
                                  .shoe = foot_.shoe,
                                  .outline = solution.outline,
                                  .wish = *foot_.alterations.sides,
                                  .foot_name = name_,
                                  .taken_in = solution.tuck ? solution.tuck->taken : 0},
                                 findings_);
    return solution.sides.has_value();
  }

  /// The height of the back once it is finished, mm; absent if the sides were not measured.
  std::optional<double> finished_back() const {
    if (!foot_.shoe.sides || !foot_.shoe.sides->back) return {};
    return *foot_.shoe.sides->back - (foot_.alterations.sides ? foot_.alterations.sides->back : 0);
  }

  bool thin_board(FootSolution& solution) {
    const Alterations& wish = foot_.alterations;
    Findings found;
    if (wish.shank) solution.layers = cut_layers(foot_.shoe.board, *wish.shank, name_, found);
    if (wish.thinned)
      solution.thinned = solve_thinning(foot_.shoe.board, *wish.thinned, name_, found);
    if (solution.thinned && solution.layers)
      found.push_back({Severity::error, "alterations." + name_ + ".thinned",
                       "the board is to be thinned, and cut by the layer as well", "one of the two",
                       "Delete thinned, or layers of shank."});
    if (solution.thinned && solution.trim &&
        solution.thinned->from < solution.trim->final_cut.centre)
      found.push_back({Severity::error, "alterations." + name_ + ".thinned.from",
                       "the thinned stretch begins at " + short_figure(solution.thinned->from) +
                           ", on the part that is cut off",
                       "above " + short_figure(solution.trim->final_cut.centre),
                       "Begin ahead of the cut."});
    return take(std::move(found));
  }

  bool work_at_heel(FootSolution& solution, bool shank_ok) {
    const Alterations& wish = foot_.alterations;
    if (wish.filler && shank_ok) {
      const auto& removed = solution.pieces.removed;
      const double part = solution.layers ? 1 - solution.layers->ratio() : 1;
      solution.filler =
          solve_filler(foot_.shoe.board, removed ? &removed->outline : nullptr,
                       solution.trim ? &solution.trim->final_cut : nullptr, part, name_, findings_);
    }
    if (wish.tuck)
      solution.tuck = solve_tuck(foot_.foot, *wish.tuck, finished_back(), name_, findings_);
    return (!wish.filler || !shank_ok || solution.filler) && (!wish.tuck || solution.tuck);
  }

  bool cut_liner(FootSolution& solution) {
    const auto& wish = foot_.alterations.liner;
    if (!wish) return true;
    solution.liner = solve_liner(foot_.shoe.board, solution.outline, *wish, name_, findings_);
    return solution.liner.has_value();
  }

  bool darn(FootSolution& solution) {
    if (!foot_.alterations.darning) return true;
    solution.darning = solve_darning(foot_, side_, name_, findings_);
    return solution.darning.has_value();
  }

  bool cut_ribbons(FootSolution& solution, bool sides_ok) {
    const Alterations& wish = foot_.alterations;
    const RibbonInput input{foot_, order_.estimates_from, solution.frames, finished_back(), name_};
    if (wish.ribbons) solution.ribbons = solve_ribbons(input, solution.estimated, findings_);
    if (wish.elastics) solution.elastics = solve_elastics(input, findings_);
    bool ok = (!wish.ribbons || solution.ribbons) && (!wish.elastics || solution.elastics);
    if (!sides_ok || !solution.sides) return ok;
    const bool placed = (solution.ribbons && solution.ribbons->sewn_at) ||
                        (solution.elastics && solution.elastics->sewn_at);
    if (placed && !foot_.shoe.sides->casing)
      findings_.push_back(
          {Severity::caution, "shoe." + name_ + ".sides.casing",
           "the casing's width is not known: sewn ends are drawn up to the top line", "",
           "Measure it, and sew below casing and drawstring."});
    if (solution.ribbons && solution.ribbons->sewn_at)
      ok = sew_on(*solution.sides, SewnEnd::What::ribbon, *solution.ribbons->sewn_at,
                  wish.ribbons->width, wish.ribbons->overlap, "ribbons") &&
           ok;
    if (solution.elastics && solution.elastics->sewn_at)
      ok = sew_on(*solution.sides, SewnEnd::What::elastic, *solution.elastics->sewn_at,
                  wish.elastics->width, wish.elastics->overlap, "elastics") &&
           ok;
    return ok;
  }

  bool sew_on(SolvedSides& sides, SewnEnd::What what, BoardStation at, double width, double overlap,
              const std::string& key) {
    for (SolvedSide* side : {&sides.medial, &sides.lateral}) {
      const auto end =
          sewn_end(*side, what, at, width, overlap, foot_.shoe.sides->casing.value_or(0));
      if (!end)
        return take({{Severity::error, "alterations." + name_ + "." + key + ".sewn_at",
                      std::string(what == SewnEnd::What::ribbon ? "the ribbon" : "the elastic") +
                          " cannot be sewn to the side there: it is too low, or not between the "
                          "back seam and the wing",
                      "a place where the side is at least " +
                          short_figure(overlap + foot_.shoe.sides->casing.value_or(0)) + " high",
                      "Say where by sewn_at, or make the overlap smaller."}});
      if (side == &sides.medial && !side->sewn.empty())
        caution_of_one_over_another(side->sewn.back(), *end, key);
      side->sewn.push_back(*end);
    }
    return true;
  }

  /// Bulky and hard to sew through, but a bench may want it.
  void caution_of_one_over_another(const SewnEnd& there, const SewnEnd& end,
                                   const std::string& key) {
    const double apart = (there.width + end.width) / 2;
    if (std::abs(there.t - end.t) >= apart) return;
    findings_.push_back({Severity::caution, "alterations." + name_ + "." + key + ".sewn_at",
                         "the elastic's end is sewn over the ribbon's",
                         "middles at least " + short_figure(apart) + " apart along the side",
                         "Move one of them by sewn_at, or sew through both."});
  }

  FootSide side_;
  std::string name_;
  const FootOrder& foot_;
  const Order& order_;
  Findings& findings_;
};

} // namespace

Solution solve(const Order& order) {
  Solution solution;
  if (order.left)
    solution.left = FootSolver(FootSide::left, *order.left, order, solution.findings).solve();
  if (order.right)
    solution.right = FootSolver(FootSide::right, *order.right, order, solution.findings).solve();
  return solution;
}

TrimModel trim_model(const FootOrder& foot, const Order& order, FootSide side) {
  Findings findings; // the foot was solved: nothing new is found
  const std::string name = foot_name(side);
  const auto stations =
      foot_stations(foot.foot, order.pose, order.estimates_from, "feet." + name, findings);
  return {foot, order.pose, order.estimates_from, stations.value(), name, !order.read_by.empty()};
}

std::optional<Sampled> sampled_cut(const Order& order, const FootSolution& foot,
                                   const SamplingPlan& plan) {
  if (!foot.trim) return {};
  const FootOrder& asked = foot.side == FootSide::left ? *order.left : *order.right;
  return sampled_board_station(trim_model(asked, order, foot.side),
                               foot.trim->held_from ? TrimResult::stop : TrimResult::board, plan);
}

} // namespace shankline
