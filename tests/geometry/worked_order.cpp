#include "tests/geometry/worked_order.hpp"

namespace shankline::tests {

Order worked_order() {
  FootOrder left;
  left.foot.length = measured(238);
  left.foot.ball_length = measured(172);
  left.foot.heel_front = measured(61);
  left.foot.arch_break.medial = measured(97);
  left.foot.arch_break.lateral = measured(93);
  left.foot.arch_depth = measured(12.5);
  left.foot.fold = measured(6);
  left.shoe.board.length = measured(220, 1);
  left.shoe.board.inset = measured(5);
  left.shoe.board.thickness = 3.2;
  left.shoe.board.widths = {{22, 22.5, 22.5}, {96, 16.5, 16.5}, {164, 28, 28}};
  left.alterations.shank = ShankWish{};
  left.alterations.shank->rule = ReachRule{1, "edge"};

  Order order;
  order.dancer = "M-07";
  order.pair = "tour, second pair";
  order.date = "2024-03-09";
  order.left = left;
  return order;
}

} // namespace shankline::tests
