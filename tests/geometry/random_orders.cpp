#include "tests/geometry/random_orders.hpp"
#include "tests/geometry/degree.hpp"

#include "geometry/foot/arch.hpp"
#include "geometry/order/reading_guide.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <string>
#include <vector>

namespace shankline::tests {
namespace {

// The foot to which the bench's ordinary figures belong; boards scale with foot length.
constexpr double bench_foot_length = 238;

struct Line {
  double slope;
  double intercept;
  double sd;
};
struct Survey {
  double length_mean;
  double length_sd;
  Line ball_length;
  Line ball_width;
  Line heel_width;
  Line ankle_height;
  Line ankle_girth;
};

// ANSUR II (2012), NATICK/TR-15/007: regressions on foot length, worked out from the public data.
constexpr Survey women{246.29,
                       12.44,
                       {0.728574, 2.6086, 3.2992},
                       {0.213371, 40.1601, 3.9767},
                       {0.213719, 14.5251, 4.4387},
                       {0.127202, 31.4193, 4.8586},
                       {0.512962, 89.4008, 13.4597}};
constexpr Survey men{271.18,
                     13.10,
                     {0.739276, 0.4594, 3.9771},
                     {0.235152, 38.0911, 4.2317},
                     {0.201947, 17.7419, 4.7925},
                     {0.143878, 33.8879, 5.3448},
                     {0.546817, 81.0591, 12.7790}};

double rounded(double value, double step) {
  return std::round(value / step) * step;
}

/// A reading as the bench writes it: to half a millimetre, once or up to three times, its doubt the
/// guide's or a smaller one of the fitter's own.
Reading read_off(Draw& draw, const char* key, double value, double step = 0.5) {
  const ReadingGuide* const guide = reading_guide(key);
  const double usual = guide == nullptr ? 1.0 : guide->finding;
  const double finding = draw.chance(0.4) ? std::min(usual, draw.uniform(0.5, 2)) : usual;
  Reading reading = measured(rounded(value, step), finding);
  if (draw.chance(0.25)) {
    const std::size_t more = 1 + draw.below(2);
    for (std::size_t i = 0; i < more; ++i)
      reading.values.push_back(rounded(value + draw.normal(0, 0.7), step));
  }
  return reading;
}

/// Traced widths at three to five stations, the two sides now and then apart.
std::vector<BoardWidth> random_widths(Draw& draw, double scale) {
  const double heel = 22.5 * scale * draw.uniform(0.92, 1.08);
  const double waist = 16.5 * scale * draw.uniform(0.92, 1.08);
  const double front = 28.0 * scale * draw.uniform(0.92, 1.08);
  const double apart = draw.chance(0.3) ? draw.uniform(-0.06, 0.06) : 0.0;
  std::vector<BoardWidth> widths;
  const auto add = [&](double station, double half) {
    widths.push_back({rounded(station, 1), rounded(half * (1 + apart), 0.25),
                      rounded(half * (1 - apart), 0.25)});
  };
  add(22 * scale * draw.uniform(0.85, 1.15), heel);
  if (draw.chance(0.4)) add(58 * scale, 0.5 * (heel + waist) * draw.uniform(0.97, 1.03));
  add(96 * scale * draw.uniform(0.95, 1.05), waist);
  if (draw.chance(0.4)) add(130 * scale, 0.5 * (waist + front) * draw.uniform(0.97, 1.03));
  add(164 * scale * draw.uniform(0.97, 1.03), front);
  return widths;
}

} // namespace

double Draw::uniform(double from, double to) {
  constexpr double step = 1.0 / 9007199254740992.0; // 2⁻⁵³
  return from + (to - from) * (static_cast<double>(engine_() >> 11U) * step);
}

double Draw::normal(double mean, double sd) {
  const double radius = std::sqrt(-2 * std::log(1 - uniform(0, 1)));
  return mean + sd * radius * std::cos(2 * std::numbers::pi * uniform(0, 1));
}

bool Draw::chance(double probability) {
  return uniform(0, 1) < probability;
}

std::size_t Draw::below(std::size_t count) {
  return std::min(count - 1, static_cast<std::size_t>(uniform(0, static_cast<double>(count))));
}

FootSize random_foot_size(Draw& draw, Population population) {
  const Survey& survey = population == Population::women ? women : men;
  FootSize size{};
  size.length = draw.normal(survey.length_mean, survey.length_sd);
  const auto along = [&](const Line& line) {
    return draw.normal(line.slope * size.length + line.intercept, line.sd);
  };
  size.ball_length = along(survey.ball_length);
  size.ball_width = along(survey.ball_width);
  size.heel_width = along(survey.heel_width);
  size.ankle_height = along(survey.ankle_height);
  size.ankle_girth = along(survey.ankle_girth);
  return size;
}

FootOrder random_foot_order(Draw& draw, const FootSize& size, Pose pose) {
  FootOrder order;
  Foot& foot = order.foot;
  Board& board = order.shoe.board;

  const double ball = size.ball_length;
  const double heel_front = 0.256 * size.length + std::clamp(draw.normal(0, 4), -10.0,
                                                             10.0); // common practice, no source
  const double break_at = heel_front + draw.uniform(0.24, 0.45) * (ball - heel_front);
  const double bend = draw.uniform(15, 45) * degree;
  const double fold = draw.uniform(3, 9);
  const double inset = draw.uniform(3, 8);
  const double pose_shift = pose == Pose::in_shoe ? fold : 0.0;

  foot.length = read_off(draw, "length", size.length, 1);
  if (draw.chance(0.85)) foot.ball_length = read_off(draw, "ball_length", ball, 1);
  if (draw.chance(0.85)) foot.heel_front = read_off(draw, "heel_front", heel_front + pose_shift);
  if (draw.chance(0.8)) foot.fold = read_off(draw, "fold", fold);
  if (draw.chance(0.5)) foot.ball_width = read_off(draw, "ball_width", size.ball_width, 1);
  if (draw.chance(0.5)) foot.heel_width = read_off(draw, "heel_width", size.heel_width, 1);
  if (draw.chance(0.5)) foot.ankle_height = read_off(draw, "ankle_height", size.ankle_height, 1);
  if (draw.chance(0.5)) foot.ankle_girth = read_off(draw, "ankle_girth", size.ankle_girth, 1);

  // The arch: by its bend, by its depth, by depth and deepest point instead of the break, or not.
  const ArchDepth depth = arch_depth(arch_of_foot(ball, break_at, heel_front, bend));
  const std::size_t way = draw.below(10);
  const bool by_deepest = way == 0 && foot.ball_length && foot.heel_front && foot.fold;
  if (by_deepest) {
    foot.arch_depth = measured(rounded(depth.depth, 0.1), 1);
    foot.deepest = measured(rounded(ball - depth.at_u + pose_shift, 0.1), 2);
  } else if (way < 5) {
    foot.arch_depth = read_off(draw, "arch_depth", depth.depth);
  } else if (way < 9) {
    foot.arch_bend_rad = measured(rounded(bend / degree, 1) * degree, 4 * degree);
  }
  if (!by_deepest) {
    if (draw.chance(0.4)) {
      foot.arch_break.centre = read_off(draw, "arch_break", break_at + pose_shift);
    } else {
      const double half = draw.uniform(-1.5, 2.5);
      foot.arch_break.medial = read_off(draw, "arch_break.medial", break_at + half + pose_shift);
      foot.arch_break.lateral = read_off(draw, "arch_break.lateral", break_at - half + pose_shift);
      if (draw.chance(0.3))
        foot.arch_break.across = rounded(0.25 * size.ball_width + draw.uniform(8, 14), 0.5);
    }
  }
  if (draw.chance(0.5)) {
    foot.roll.side = draw.chance(0.5) ? RollSide::in : RollSide::out;
    foot.roll.raise = rounded(draw.uniform(1, 6), 0.5);
  }

  const double scale = size.length / bench_foot_length;
  const double length = rounded(0.92 * size.length + draw.uniform(-4, 4), 0.5);
  board.inset = read_off(draw, "board.inset", inset);
  board.thickness = rounded(draw.uniform(2, 4.5), 0.1);
  board.layers = draw.chance(0.2) ? 2 : 1;
  board.material = draw.chance(0.2) ? BoardMaterial::leather : BoardMaterial::fibreboard;
  board.widths = random_widths(draw, scale);
  if (draw.chance(0.7)) {
    board.length = measured(length, 1);
  } else { // in the shoe: what lies in front of the waist is buried in the box
    board.state = BoardState::in_shoe;
    board.widths.pop_back();
    if (draw.chance(0.5)) board.sole_length = rounded(0.97 * size.length, 0.5);
  }

  ShankWish shank;
  const double reach = draw.uniform(0.75, 1.15);
  const double cut = break_at - reach * (break_at - heel_front) + fold - inset;
  const std::size_t rule = draw.below(10);
  if (rule == 0 && board.length) {
    shank.rule = KeepRule{rounded(1 - cut / board.length->value(), 0.005)};
  } else if (rule == 1) {
    shank.rule = MarkRule{measured(rounded(cut, 0.5), 1), {}};
  } else if (rule < 5) {
    constexpr double reaches[] = {0.75, 1.0, 1.15};
    constexpr const char* names[] = {"short", "edge", "tucked"};
    const std::size_t preset = draw.below(3);
    shank.rule = ReachRule{reaches[preset], names[preset]};
  } else {
    shank.rule = ReachRule{rounded(reach, 0.01), ""};
  }
  if (draw.chance(0.4)) {
    shank.end = BoardEnd::rounded;
    shank.corner = rounded(draw.uniform(2, 5), 0.5);
  }
  if (draw.chance(0.2)) shank.bevel = draw.chance(0.5) ? 0.0 : rounded(draw.uniform(6, 16), 1);
  order.alterations.shank = shank;
  return order;
}

Order random_order(Draw& draw, Population population) {
  Order order;
  order.dancer = "M-" + std::to_string(10 + draw.below(90));
  order.pair = "drawn pair";
  order.date = "2024-03-09";
  order.pose = draw.chance(0.3) ? Pose::in_shoe : Pose::pointed;
  order.estimates_from = population;
  const FootSize left = random_foot_size(draw, population);
  FootSize right = left; // feet of one pair differ a little
  right.length += draw.normal(0, 1.5);
  right.ball_length += draw.normal(0, 1.2);
  right.ankle_girth += draw.normal(0, 2);
  const std::size_t feet = draw.below(10);
  if (feet != 0) order.left = random_foot_order(draw, left, order.pose);
  if (feet != 1) order.right = random_foot_order(draw, right, order.pose);
  return order;
}

void add_random_sides(Draw& draw, FootOrder& order, Pose pose) {
  const Foot& foot = order.foot;
  Board& board = order.shoe.board;
  const double scale = foot.length->value() / bench_foot_length;
  const double fold = foot.fold ? foot.fold->value() : 6.0;
  const double pose_shift = pose == Pose::in_shoe ? fold : 0.0;
  // The place where the sole bends most, as far as the order tells.
  double break_at = 100 * scale + pose_shift;
  if (foot.arch_break.centre) break_at = foot.arch_break.centre->value();
  if (foot.arch_break.medial && foot.arch_break.lateral)
    break_at = 0.5 * (foot.arch_break.medial->value() + foot.arch_break.lateral->value());

  StockSides stock;
  stock.back = rounded(draw.uniform(48, 56), 0.5);
  stock.low = rounded(draw.uniform(38, 46), 0.5);
  stock.low_at = rounded(break_at + draw.uniform(-4, 14), 0.5);
  stock.wing = rounded(draw.uniform(42, 50), 0.5);
  const double wing_at = 158 * scale + pose_shift + draw.uniform(-3, 3);
  if (draw.chance(0.8)) stock.wing_at = rounded(wing_at, 0.5);
  const double lean = draw.uniform(4, 16) * degree;
  if (draw.chance(0.6)) {
    stock.lean_rad = lean;
  } else { // twice the waist and the feather margin, less what both walls lean in
    const BoardWidth* nearest = &board.widths.front();
    const double station = *stock.low_at - pose_shift + fold - board.inset->value();
    for (const BoardWidth& width : board.widths)
      if (std::abs(width.station - station) < std::abs(nearest->station - station))
        nearest = &width;
    stock.width_across =
        rounded(nearest->medial + nearest->lateral + 6 - 2 * *stock.low * std::sin(lean), 0.5);
  }
  stock.casing = rounded(draw.uniform(8, 10), 0.5);
  if (draw.chance(0.5)) stock.throat = rounded(draw.uniform(70, 110), 1);
  if (draw.chance(0.3)) // between its neighbours
    stock.heights.push_back(
        {rounded(0.4 * *stock.low_at, 1),
         rounded(*stock.low + draw.uniform(0.4, 0.9) * (*stock.back - *stock.low), 0.5)});
  if (draw.chance(0.25)) {
    stock.lateral = StockHeights{};
    stock.lateral->low = rounded(*stock.low + draw.uniform(-2, 2), 0.5);
    if (draw.chance(0.5)) stock.lateral->low_at = rounded(*stock.low_at + draw.uniform(-4, 4), 0.5);
  }
  if (draw.chance(0.15)) {
    stock.medial = StockHeights{};
    stock.medial->wing = rounded(*stock.wing + draw.uniform(-2, 2), 0.5);
    if (stock.wing_at) stock.medial->wing_at = rounded(*stock.wing_at + draw.uniform(-4, 4), 0.5);
  }
  order.shoe.sides = stock;

  SideWish wish;
  const std::size_t sides = draw.below(8);
  if (sides != 0) wish.medial = rounded(draw.uniform(2, 9), 0.5);
  if (sides != 1) wish.lateral = rounded(draw.uniform(2, 9), 0.5);
  if (draw.chance(0.2)) wish.back = rounded(draw.uniform(1, 4), 0.5);
  constexpr SideEdge edges[] = {SideEdge::bound, SideEdge::turned, SideEdge::folded};
  wish.edge = edges[draw.below(3)];
  if (draw.chance(0.3)) wish.turn = rounded(draw.uniform(4, 8), 0.5);
  if (draw.chance(0.2)) wish.keep = rounded(draw.uniform(26, 36), 0.5);
  if (draw.chance(0.2)) wish.slope = rounded(draw.uniform(0.3, 0.8), 0.05);
  if (draw.chance(0.2)) wish.run_out = rounded(draw.uniform(15, 50), 1);
  if (draw.chance(0.2)) wish.deepest_length = rounded(draw.uniform(0, 30), 1);
  if (draw.chance(0.2)) wish.deepest_at = rounded(break_at + draw.uniform(0, 20), 0.5);
  if (draw.chance(0.3)) {
    wish.drawstring = Drawstring::elastic;
    wish.stretch = rounded(draw.uniform(0.05, 0.3), 0.05);
  }
  order.alterations.sides = wish;

  if (board.state == BoardState::in_shoe && draw.chance(0.8)) {
    const double front = rounded(170 * scale, 1);
    if (front > board.widths.back().station + 10)
      board.widths.push_back({front, rounded(draw.uniform(26, 31) * scale, 0.25),
                              rounded(draw.uniform(25, 30) * scale, 0.25)});
  }
}

void add_random_work(Draw& draw, FootOrder& order) {
  Alterations& wish = order.alterations;
  if (draw.chance(0.8)) {
    LinerWish liner;
    liner.clearance = draw.uniform(0, 3);
    const double known = order.shoe.board.state == BoardState::loose
                             ? order.shoe.board.length->value()
                             : order.shoe.board.widths.back().station;
    if (order.shoe.board.state == BoardState::in_shoe || draw.chance(0.3))
      liner.length = known * draw.uniform(0.8, 0.95);
    wish.liner = liner;
  }
  if (draw.chance(0.8)) {
    order.shoe.platform = Platform{draw.uniform(30, 60), draw.uniform(18, 35)};
    DarningWish darning;
    darning.passes = 1 + static_cast<int>(draw.below(3));
    darning.height = draw.uniform(2, 20);
    darning.pitch = draw.uniform(1.5, 6);
    darning.face = draw.chance(0.3);
    if (draw.chance(0.5)) darning.tex = draw.uniform(20, 400);
    order.foot.roll = {draw.chance(0.5) ? RollSide::in : RollSide::out, draw.uniform(0, 8)};
    if (draw.chance(0.3)) order.foot.roll = {};
    wish.darning = darning;
  }
  if (draw.chance(0.8)) {
    RibbonWish ribbons;
    ribbons.ring = draw.chance(0.6);
    ribbons.stretch = ribbons.ring ? draw.uniform(0.06, 0.5) : 0;
    ribbons.width = draw.uniform(12, 30);
    ribbons.overlap = draw.uniform(6, 12);
    if (draw.chance(0.5)) ribbons.rise = draw.uniform(40, 120);
    wish.ribbons = ribbons;
  }
  if (draw.chance(0.6)) {
    ElasticWish elastics;
    elastics.heel_loop = draw.chance(0.5);
    elastics.overlap = draw.uniform(5, 10);
    elastics.over = draw.uniform(80, 160);
    if (draw.chance(0.6) && order.alterations.ribbons)
      elastics.sewn_at = order.foot.heel_front ? order.foot.heel_front->value() + 45 : 105;
    wish.elastics = elastics;
  }
  if (draw.chance(0.5)) wish.tuck = TuckWish{draw.uniform(2, 8), draw.uniform(12, 25)};
  if (!order.shoe.board.thickness) order.shoe.board.thickness = draw.uniform(2, 4);
  if (draw.chance(0.2)) { // thinned instead of cut
    wish.shank.reset();
    wish.thinned = ThinWish{draw.uniform(50, 70), draw.uniform(80, 110),
                            *order.shoe.board.thickness * draw.uniform(0.3, 0.9)};
  }
  wish.filler = wish.shank.has_value() && draw.chance(0.6);
  if (wish.shank && draw.chance(0.2)) {
    order.shoe.board.layers = 2;
    wish.shank->layers = 1;
  }
}

Order random_order_with_sides(Draw& draw, Draw& sides, Population population) {
  Order order = random_order(draw, population);
  for (std::optional<FootOrder>* foot : {&order.left, &order.right})
    if (*foot) add_random_sides(sides, **foot, order.pose);
  return order;
}

Order random_order_of(Draw& draw, const FootSize& size, Population population) {
  Order order;
  order.dancer = "M-07";
  order.pair = "drawn pair";
  order.date = "2024-03-09";
  order.pose = draw.chance(0.3) ? Pose::in_shoe : Pose::pointed;
  order.estimates_from = population;
  if (draw.chance(0.5))
    order.left = random_foot_order(draw, size, order.pose);
  else
    order.right = random_foot_order(draw, size, order.pose);
  return order;
}

} // namespace shankline::tests
