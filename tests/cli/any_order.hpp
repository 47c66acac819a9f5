// Orders that have every key of an order file now and then.
#pragma once

#include "geometry/order/order.hpp"
#include "geometry/order/reading_guide.hpp"
#include "tests/geometry/random_orders.hpp"

#include <cmath>
#include <cstdint>
#include <map>
#include <numbers>
#include <optional>
#include <string>

namespace shankline::tests {

/// Draws every member of an order now and then, inside the limits of the guide; whether they make a
/// foot does not matter here.
class AnyOrder {
public:
  explicit AnyOrder(std::uint64_t seed) : draw_(seed) {}

  Order order() {
    Order order;
    order.dancer = draw_.chance(0.5) ? "M-07" : "\"M\": 7 #\\ \u00e9";
    if (draw_.chance(0.6)) order.pair = "touring, spring, second pair";
    if (draw_.chance(0.6)) order.date = "2026-03-14";
    if (draw_.chance(0.3)) order.note = "two lines:\nthe \"second\" one # no comment";
    if (draw_.chance(0.2)) order.note = "yes";
    if (draw_.chance(0.3)) order.quantity = static_cast<int>(figure("quantity"));
    if (draw_.chance(0.3)) order.due = "2026-12-01";
    if (draw_.chance(0.3)) order.deliver_to = "bench: 2, \"left door\"";
    if (draw_.chance(0.3)) order.pose = Pose::in_shoe;
    if (draw_.chance(0.3)) order.estimates_from = Population::men;
    if (draw_.chance(0.3)) order.tolerances.cut = figure("tolerances.cut");
    if (draw_.chance(0.3)) order.tolerances.other = ToleranceClass::very_coarse;
    if (draw_.chance(0.2)) order.tolerances.other = figure("tolerances.other");
    const auto which = draw_.below(4);
    if (which != 0) order.left = foot_order();
    if (which == 1 && draw_.chance(0.5))
      order.right = order.left;
    else if (which != 1)
      order.right = foot_order();
    if (which > 1 && draw_.chance(0.7)) order.right->shoe = order.left->shoe;
    if (which > 1 && draw_.chance(0.5)) order.right->alterations = order.left->alterations;
    if (which > 1 && draw_.chance(0.5)) order.right->foot.length = order.left->foot.length;
    return order;
  }

  /// How often each kind of thing was drawn.
  std::map<std::string, int> drawn;

private:
  double figure(const char* key) {
    const ReadingGuide& guide = *reading_guide(key);
    ++drawn[key];
    const double step = guide.most - guide.least > 10 ? 0.25 : 0.0625;
    const double from = std::ceil(guide.least / step);
    const double to = std::floor(guide.most / step);
    return step * std::floor(draw_.uniform(from, to + 0.999));
  }
  std::optional<double> maybe(const char* key) {
    return draw_.chance(0.5) ? std::optional(figure(key)) : std::nullopt;
  }
  double fraction(const char* key) { return figure(key) / 100; }
  double angle(const char* key) { return figure(key) * std::numbers::pi / 180; }

  std::optional<Reading> reading(const char* key) {
    if (!draw_.chance(0.6)) return {};
    const ReadingGuide& guide = *reading_guide(key);
    // Turns degrees into radians with the reader's own expression, so that the last bit agrees.
    const auto in_order = [&](double value) {
      return guide.quantity == Quantity::angle ? value * std::numbers::pi / 180 : value;
    };
    Reading reading;
    for (std::size_t i = 0; i <= draw_.below(3); ++i)
      reading.values.push_back(in_order(figure(key)));
    reading.finding = in_order(draw_.chance(0.3) ? 2.75 : guide.finding);
    return reading;
  }

  Foot foot() {
    Foot foot;
    if (draw_.chance(0.3)) {
      foot.arch_break.centre = reading("arch_break");
    } else {
      foot.arch_break.medial = reading("arch_break.medial");
      foot.arch_break.lateral = reading("arch_break.lateral");
      if (foot.arch_break.medial) foot.arch_break.across = maybe("arch_break.across");
    }
    for (const ReadingGuide& row : reading_guides())
      if (row.in_foot && !row.in_foot.is_of_arch_break())
        row.in_foot.of(foot) = reading(std::string(row.key).c_str());
    foot.roll.side = RollSide(draw_.below(3));
    if (foot.roll.side != RollSide::none && draw_.chance(0.5))
      foot.roll.raise = figure("roll.raise");
    return foot;
  }

  template <class T> void side(T& side) {
    side.low = maybe("sides.low");
    side.low_at = maybe("sides.low_at");
    side.wing = maybe("sides.wing");
    side.wing_at = maybe("sides.wing_at");
    for (std::size_t i = 0; i < draw_.below(3); ++i)
      side.heights.push_back({figure("sides.heights.station"), figure("sides.heights.height")});
  }

  Shoe shoe() {
    Shoe shoe;
    Board& board = shoe.board;
    board.state = BoardState(draw_.below(2));
    board.material = BoardMaterial(draw_.below(3));
    board.length = reading("board.length");
    board.inset = reading("board.inset");
    board.thickness = maybe("board.thickness");
    if (draw_.chance(0.3)) board.layers = 2;
    board.edge_thickness = maybe("board.edge_thickness");
    board.sole_length = maybe("board.sole_length");
    for (std::size_t i = 0; i < draw_.below(5); ++i) {
      const double width = figure("board.widths.half");
      const bool even = draw_.chance(0.5);
      board.widths.push_back(
          {figure("board.widths.station"), width, even ? width : figure("board.widths.half")});
    }
    if (draw_.chance(0.5)) {
      StockSides& sides = shoe.sides.emplace();
      sides.back = maybe("sides.back");
      side(sides);
      if (draw_.chance(0.3)) side(sides.medial.emplace());
      if (draw_.chance(0.3)) side(sides.lateral.emplace());
      if (draw_.chance(0.3)) sides.lean_rad = angle("sides.lean");
      sides.width_across = maybe("sides.width_across");
      sides.casing = maybe("sides.casing");
      sides.throat = maybe("sides.throat");
    }
    if (draw_.chance(0.4))
      shoe.platform = Platform{figure("platform.width"), figure("platform.depth")};
    const auto stiffness = draw_.below(4);
    if (stiffness == 1) shoe.stiffness = Grade(draw_.below(4));
    if (stiffness == 2) shoe.stiffness = BendingStiffness{90000, maybe("stiffness.sole")};
    if (stiffness == 3)
      shoe.stiffness =
          Droop{figure("stiffness.droop"), figure("stiffness.weight"), figure("stiffness.free")};
    const auto pull = draw_.below(3);
    if (pull == 1) shoe.pull = Travel{figure("pull.travel")};
    if (pull == 2) shoe.pull = PullForce{0.0625};
    if (draw_.chance(0.3)) shoe.clamp = Clamp::ball;
    if (draw_.chance(0.3)) shoe.style = draw_.chance(0.5) ? "S4" : "yes: 3";
    if (draw_.chance(0.3)) {
      ++drawn["stock"];
      shoe.stock = {{"size", "five and a half wide"}, {"vamp: \"high\"", "5.5"}};
      if (draw_.chance(0.5)) shoe.stock.push_back({"7", "null"});
    }
    return shoe;
  }

  LearnedRule learned() {
    if (draw_.chance(0.2)) return {};
    const int pairs = 1 + static_cast<int>(draw_.below(20));
    LearnedLine line{figure("shank.reach.learned"),
                     figure("shank.reach.U"),
                     pairs,
                     "2026-08-14",
                     1,
                     static_cast<int>(draw_.below(static_cast<std::uint64_t>(pairs) + 1))};
    if (draw_.chance(0.5)) line.too_far = std::max(line.station + 3, figure("shank.reach.too_far"));
    return {line};
  }

  ShankWish shank() {
    ShankWish shank;
    const auto rule = draw_.below(5);
    if (rule == 0) shank.rule = ReachRule{1.15, "tucked"};
    if (rule == 1) shank.rule = ReachRule{figure("shank.reach"), {}};
    if (rule == 2) shank.rule = KeepRule{fraction("shank.keep")};
    if (rule == 4) shank.rule = learned();
    if (rule == 3) shank.rule = MarkRule{reading("shank.mark").value_or(measured(60, 1)), {}};
    if (draw_.chance(0.5)) shank.bevel = draw_.chance(0.3) ? 0 : figure("shank.bevel");
    if (draw_.chance(0.3)) shank.end = BoardEnd::rounded;
    if (draw_.chance(0.3)) shank.corner = figure("shank.corner");
    if (draw_.chance(0.3)) shank.tuck_max = figure("shank.tuck_max");
    if (draw_.chance(0.3)) shank.bearing_min = figure("shank.bearing_min");
    shank.accept_outside_window = draw_.chance(0.2);
    shank.accept_in_stop_band = draw_.chance(0.2);
    if (draw_.chance(0.2)) shank.hold_back = figure("shank.hold_back");
    if (draw_.chance(0.2)) shank.layers = 2;
    return shank;
  }

  SideWish side_wish() {
    SideWish sides;
    sides.medial = maybe("sides.medial");
    sides.lateral = maybe("sides.lateral");
    if (draw_.chance(0.3)) sides.back = figure("sides.back_depth");
    sides.edge = SideEdge(draw_.below(3));
    if (draw_.chance(0.3)) sides.turn = figure("sides.turn");
    if (draw_.chance(0.3)) sides.keep = figure("sides.keep");
    if (draw_.chance(0.3)) sides.slope = figure("sides.slope");
    if (draw_.chance(0.3)) sides.run_out = figure("sides.run_out");
    sides.deepest_at = maybe("sides.deepest_at");
    if (draw_.chance(0.3)) sides.deepest_length = figure("sides.deepest_length");
    sides.drawstring = Drawstring(draw_.below(2));
    if (sides.drawstring == Drawstring::elastic && draw_.chance(0.5))
      sides.stretch = fraction("sides.stretch");
    return sides;
  }

  Alterations alterations() {
    Alterations wish;
    if (draw_.chance(0.8)) wish.shank = shank();
    if (draw_.chance(0.5)) wish.sides = side_wish();
    if (draw_.chance(0.3))
      wish.thinned =
          ThinWish{figure("thinned.from"), maybe("thinned.to"), maybe("thinned.thickness")};
    wish.filler = draw_.chance(0.3);
    if (draw_.chance(0.5)) {
      wish.liner.emplace();
      if (draw_.chance(0.5)) wish.liner->clearance = figure("liner.clearance");
      wish.liner->length = maybe("liner.length");
    }
    if (draw_.chance(0.5)) {
      DarningWish& darning = wish.darning.emplace();
      if (draw_.chance(0.5)) darning.passes = 3;
      if (draw_.chance(0.5)) darning.height = figure("darning.height");
      darning.raise = maybe("darning.raise");
      if (draw_.chance(0.5)) darning.pitch = figure("darning.pitch");
      darning.face = draw_.chance(0.5);
      if (draw_.chance(0.5)) darning.allowance = fraction("darning.allowance");
      darning.tex = maybe("darning.yarn");
    }
    if (draw_.chance(0.5)) {
      RibbonWish& ribbons = wish.ribbons.emplace();
      ribbons.ring = draw_.chance(0.5);
      if (draw_.chance(0.5)) ribbons.stretch = fraction("ribbons.stretch");
      if (draw_.chance(0.5)) ribbons.width = figure("ribbons.width");
      ribbons.wraps = maybe("ribbons.wraps");
      ribbons.pitch = maybe("ribbons.pitch");
      if (draw_.chance(0.5)) ribbons.overlap = figure("ribbons.overlap");
      ribbons.rise = maybe("ribbons.rise");
      if (draw_.chance(0.5)) ribbons.tie = figure("ribbons.tie");
      ribbons.sewn_at = maybe("ribbons.sewn_at");
    }
    if (draw_.chance(0.5)) {
      ElasticWish& elastics = wish.elastics.emplace();
      if (draw_.chance(0.5)) elastics.stretch = fraction("elastics.stretch");
      if (draw_.chance(0.5)) elastics.width = figure("elastics.width");
      elastics.over = maybe("elastics.over");
      elastics.sewn_at = maybe("elastics.sewn_at");
      elastics.heel_loop = draw_.chance(0.5);
      if (draw_.chance(0.5)) elastics.overlap = figure("elastics.overlap");
    }
    if (draw_.chance(0.5)) {
      wish.tuck = TuckWish{maybe("tuck.depth"), 35};
      if (draw_.chance(0.5)) wish.tuck->down = figure("tuck.down");
    }
    return wish;
  }

  FootOrder foot_order() { return {foot(), shoe(), alterations()}; }

  Draw draw_;
};

} // namespace shankline::tests
