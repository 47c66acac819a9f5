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
  for (const Point& p : trim.end) front = std::max(front, p.x + 1);
  Polygon heel_part = outline.open_line(front);
  if (auto pieces = cut_pieces(heel_part, trim.end, fault)) solved.removed = pieces->removed;
  return solved;
}

SolvedPieces pieces_loose(const BoardOutline& outline, const SolvedTrim& trim,
                          std::string& fault) {
  SolvedPieces solved;
  solved.removed_length = trim.final_cut.centre;
  solved.kept_length = *outline.length() - trim.final_cut.centre;
  solved.kept_fraction = *solved.kept_length / *outline.length();
  if (auto pieces = cut_pieces(outline.polygon(), trim.end, fault)) {
    solved.kept = std::move(pieces->kept);
    solved.removed = std::move(pieces->removed);
  }
  return solved;
}

std::optional<FootSolution> solve_foot(FootSide side, const FootOrder& foot, const Order& order,
                                       Findings& findings) {
  const std::string name = side == FootSide::left ? "left" : "right";
  const std::string board_path = "shoe." + name + ".board";
  const std::string wish_path = "alterations." + name + ".shank";
  if (!foot.alterations.shank) return {};

  Findings limits = outside_limits(foot, name);
  if (has_error(limits)) {
    std::move(limits.begin(), limits.end(), std::back_inserter(findings));
    return {};
  }
  const auto stations =
      foot_stations(foot.foot, order.pose, order.estimates_from, "feet." + name, findings);
  Findings board_findings = check_board(foot.shoe.board, board_path);
  const bool board_ok = !has_error(board_findings);
  std::move(board_findings.begin(), board_findings.end(), std::back_inserter(findings));
  if (!stations || !board_ok) return {};

  const Board& board = foot.shoe.board;
  BoardOutline outline(board.widths,
                       board.state == BoardState::loose ? board.length : std::nullopt);
  const double shift = stations->fold - board.inset->value();
  const auto trim = solve_trim({*stations, board, outline, *foot.alterations.shank,
                                foot.foot.arch_break.across, shift, "feet." + name, board_path,
                                wish_path},
                               findings);
  if (!trim) return {};

  std::string fault;
  SolvedPieces pieces =
      outline.closed() ? pieces_loose(outline, *trim, fault) : pieces_in_shoe(outline, *trim, fault);
  if (!fault.empty()) {
    findings.push_back({Severity::error, board_path + ".widths",
                        "the board cannot be cut in two here: " + fault,
                        "an outline that the trim line crosses once on each edge",
                        "Check the board's widths near " + short_figure(trim->final_cut.centre) +
                            " from its heel end."});
    return {};
  }
  return FootSolution{side,           shift, stations->pose_shift, stations->arch,
                      std::move(outline), *trim, std::move(pieces),    stations->estimated};
}

} // namespace

Solution solve(const Order& order) {
  Solution solution;
  if (order.left)
    solution.left = solve_foot(FootSide::left, *order.left, order, solution.findings);
  if (order.right)
    solution.right = solve_foot(FootSide::right, *order.right, order, solution.findings);
  return solution;
}

} // namespace shankline
