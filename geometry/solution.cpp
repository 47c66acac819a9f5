#include "geometry/solution.hpp"

#include "geometry/figure.hpp"
#include "geometry/foot_stations.hpp"
#include "geometry/order_limits.hpp"
#include "geometry/trim_solution.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

namespace shankline {
namespace {

/// Of a board in the shoe only the heel piece can be known.
SolvedPieces pieces_in_shoe(const BoardOutline& outline, const SolvedTrim& trim,
                            std::string& fault) {
  SolvedPieces solved;
  solved.removed_length = trim.final_cut.centre;
  double front = outline.last_station();
  for (const Point& p : trim.end)
    front = std::max(front, p.x + 1);
  Polygon heel_part = outline.open_line(front);
  if (auto pieces = cut_pieces(heel_part, trim.end, fault)) solved.removed = pieces->removed;
  return solved;
}

SolvedPieces pieces_loose(const BoardOutline& outline, const Polygon& whole, const SolvedTrim& trim,
                          std::string& fault) {
  SolvedPieces solved;
  solved.removed_length = trim.final_cut.centre;
  solved.kept_length = *outline.length() - trim.final_cut.centre;
  solved.kept_fraction = *solved.kept_length / *outline.length();
  if (auto pieces = cut_pieces(whole, trim.end, fault)) {
    solved.kept = std::move(pieces->kept);
    solved.removed = std::move(pieces->removed);
  }
  return solved;
}

/// One foot, step by step; every step adds what it finds, and the rest is left out after an error.
class FootSolver {
public:
  FootSolver(FootSide side, const FootOrder& foot, const Order& order, Findings& findings)
      : side_(side), name_(side == FootSide::left ? "left" : "right"), foot_(foot), order_(order),
        findings_(findings) {}

  std::optional<FootSolution> solve() {
    const Alterations& wish = foot_.alterations;
    if (!wish.shank && !wish.sides) return {};
    if (!take(outside_limits(foot_, name_))) return {};
    const auto stations =
        foot_stations(foot_.foot, order_.pose, order_.estimates_from, "feet." + name_, findings_);
    const Board& board = foot_.shoe.board;
    const bool board_ok = take(check_board(board, board_path()));
    if (!stations || !board_ok) return {};

    FootSolution solution{
        side_,
        stations->fold - board.inset->value(),
        stations->pose_shift,
        stations->arch,
        BoardOutline(board.widths, board.state == BoardState::loose ? board.length : std::nullopt),
        {},
        {},
        {},
        {},
        stations->estimated};
    if (solution.outline.closed()) solution.whole = solution.outline.polygon();
    const bool shank_ok = !wish.shank || solve_shank(*stations, solution);
    const bool sides_ok = !wish.sides || lower_sides(solution);
    if (!shank_ok || !sides_ok) return {};
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
    const TrimModel model(foot_, order_.pose, order_.estimates_from, stations, name_);
    solution.trim =
        solve_trim({stations, foot_.shoe.board, solution.outline, *foot_.alterations.shank,
                    foot_.foot.arch_break.across, solution.shift, model, "feet." + name_,
                    board_path(), "alterations." + name_ + ".shank"},
                   findings_);
    if (!solution.trim) return false;
    std::string fault;
    solution.pieces = solution.outline.closed()
                          ? pieces_loose(solution.outline, solution.whole, *solution.trim, fault)
                          : pieces_in_shoe(solution.outline, *solution.trim, fault);
    if (fault.empty()) return true;
    return take({{Severity::error, board_path() + ".widths",
                  "the board cannot be cut in two here: " + fault,
                  "an outline that the trim line crosses once on each edge",
                  "Check the board's widths near " + short_figure(solution.trim->final_cut.centre) +
                      " from its heel end."}});
  }

  bool lower_sides(FootSolution& solution) {
    solution.sides =
        solve_sides({solution.arch.break_at, solution.arch.heel_front, solution.pose_shift,
                     foot_.foot.length->value(), foot_.shoe, solution.outline,
                     *foot_.alterations.sides, solution.shift, name_},
                    findings_);
    return solution.sides.has_value();
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

std::optional<Sampled> sampled_cut(const Order& order, const FootSolution& foot,
                                   const SamplingPlan& plan) {
  if (!foot.trim) return {};
  const FootOrder& asked = foot.side == FootSide::left ? *order.left : *order.right;
  const std::string name = foot.side == FootSide::left ? "left" : "right";
  Findings found; // said when the foot was solved
  const auto stations =
      foot_stations(asked.foot, order.pose, order.estimates_from, "feet." + name, found);
  if (!stations) return {};
  return sampled_board_station(TrimModel(asked, order.pose, order.estimates_from, *stations, name),
                               plan);
}

} // namespace shankline
