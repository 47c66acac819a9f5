#include "tests/geometry/sides_of_order.hpp"

#include "geometry/board/board_check.hpp"
#include "tests/geometry/worked_order.hpp"

#include <numbers>
#include <utility>

namespace shankline::tests {

FootOrder worked_sides() {
  FootOrder order = *worked_order().left;
  StockSides sides;
  sides.back = 52;
  sides.low = 41;
  sides.low_at = 105;
  sides.wing = 46;
  sides.wing_at = 158;
  sides.lean_rad = 10 * std::numbers::pi / 180;
  order.shoe.sides = sides;
  SideWish wish;
  wish.medial = 5;
  wish.lateral = 4;
  order.alterations.sides = wish;
  return order;
}

double shift_of(const FootOrder& order, const FootStations& stations) {
  return stations.fold - order.shoe.board.inset->value();
}

std::optional<FootStations> stations_of(const FootOrder& order, Pose pose, Findings& findings,
                                        const std::string& foot, Population population) {
  return foot_stations(order.foot, pose, population, "feet." + foot, findings);
}

BoardOutline outline_of(const FootOrder& order) {
  const Board& board = order.shoe.board;
  return {board.widths, board.loose_length()};
}

std::optional<SolvedSides> sides_of(const FootOrder& order, Pose pose, Findings& findings,
                                    const std::string& foot, Population population) {
  const auto stations = stations_of(order, pose, findings, foot, population);
  if (!stations) return {};
  Findings board = check_board(order.shoe.board, "shoe." + foot + ".board");
  const bool bad = has_error(board);
  findings.insert(findings.end(), board.begin(), board.end());
  if (bad) return {};
  const BoardOutline outline = outline_of(order);
  return solve_sides({.break_at = stations->arch.break_at,
                      .heel_front = stations->arch.heel_front,
                      .frames = frames_of(pose, stations->fold, order.shoe.board.inset->value()),
                      .foot_length = order.foot.length->value(),
                      .shoe = order.shoe,
                      .outline = outline,
                      .wish = *order.alterations.sides,
                      .foot_name = foot},
                     findings);
}

FootOrder mirrored(FootOrder order) {
  std::swap(order.foot.arch_break.medial, order.foot.arch_break.lateral);
  for (BoardWidth& width : order.shoe.board.widths)
    std::swap(width.medial, width.lateral);
  if (order.shoe.sides) std::swap(order.shoe.sides->medial, order.shoe.sides->lateral);
  if (order.alterations.sides)
    std::swap(order.alterations.sides->medial, order.alterations.sides->lateral);
  return order;
}

} // namespace shankline::tests
