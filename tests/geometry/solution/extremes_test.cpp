// Orders at the edge of what may be written down: every figure at its limits, alone and with
// others, very small and very large feet, breaks at the window's edge, nearly straight arches,
// soles of next to no stiffness. Each is solved in finite figures or refused by name.
#include "geometry/order/reading_guide.hpp"
#include "geometry/solution/solution.hpp"

#include "tests/geometry/all_figures.hpp"
#include "tests/geometry/random_orders.hpp"
#include "tests/support/fewer_cases.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace shankline::tests::extremes_test {
namespace {

constexpr double degree = std::numbers::pi / 180;

/// How a figure of the guide gets into an order that wishes for everything.
struct Place {
  const char* key;
  void (*put)(FootOrder& order, double value);
  double unit = 1; ///< of the order, for one of the guide
};

ShankWish& shank(FootOrder& order) {
  if (!order.alterations.shank) order.alterations.shank = ShankWish{};
  return *order.alterations.shank;
}
template <class Wish> Wish& wished(std::optional<Wish>& wish) {
  if (!wish) wish = Wish{};
  return *wish;
}
BoardWidth& last_width(FootOrder& order) {
  return order.shoe.board.widths.back();
}

constexpr Place figure_places[] = {
    {"length", [](FootOrder& o, double v) { o.foot.length = measured(v); }},
    {"ball_length", [](FootOrder& o, double v) { o.foot.ball_length = measured(v); }},
    {"heel_front", [](FootOrder& o, double v) { o.foot.heel_front = measured(v); }},
    {"arch_break",
     [](FootOrder& o, double v) {
       o.foot.arch_break = {};
       o.foot.arch_break.centre = measured(v);
     }},
    {"arch_break.medial",
     [](FootOrder& o, double v) {
       o.foot.arch_break.centre.reset();
       o.foot.arch_break.medial = measured(v);
       if (!o.foot.arch_break.lateral) o.foot.arch_break.lateral = measured(v);
     }},
    {"arch_break.lateral",
     [](FootOrder& o, double v) {
       o.foot.arch_break.centre.reset();
       o.foot.arch_break.lateral = measured(v);
       if (!o.foot.arch_break.medial) o.foot.arch_break.medial = measured(v);
     }},
    {"arch_break.across", [](FootOrder& o, double v) { o.foot.arch_break.across = v; }},
    {"arch_depth",
     [](FootOrder& o, double v) {
       o.foot.arch_bend_rad.reset();
       o.foot.arch_depth = measured(v);
     }},
    {"deepest",
     [](FootOrder& o, double v) {
       o.foot.arch_break = {};
       o.foot.arch_bend_rad.reset();
       o.foot.deepest = measured(v);
       if (!o.foot.arch_depth) o.foot.arch_depth = measured(10);
     }},
    {"arch_bend",
     [](FootOrder& o, double v) {
       o.foot.arch_depth.reset();
       o.foot.deepest.reset();
       o.foot.arch_bend_rad = measured(v, degree);
       if (!o.foot.arch_break.centre && !o.foot.arch_break.medial)
         o.foot.arch_break.centre = measured(100);
     },
     degree},
    {"fold", [](FootOrder& o, double v) { o.foot.fold = measured(v); }},
    {"ankle_girth", [](FootOrder& o, double v) { o.foot.ankle_girth = measured(v); }},
    {"ankle_height", [](FootOrder& o, double v) { o.foot.ankle_height = measured(v); }},
    {"roll.raise", [](FootOrder& o, double v) { o.foot.roll = {RollSide::in, v}; }},
    {"board.length",
     [](FootOrder& o, double v) {
       o.shoe.board.state = BoardState::loose;
       o.shoe.board.length = measured(v);
     }},
    {"board.inset", [](FootOrder& o, double v) { o.shoe.board.inset = measured(v); }},
    {"board.thickness", [](FootOrder& o, double v) { o.shoe.board.thickness = v; }},
    {"board.edge_thickness", [](FootOrder& o, double v) { o.shoe.board.edge_thickness = v; }},
    {"board.sole_length", [](FootOrder& o, double v) { o.shoe.board.sole_length = v; }},
    {"board.widths.station", [](FootOrder& o, double v) { last_width(o).station = v; }},
    {"board.widths.half",
     [](FootOrder& o, double v) { last_width(o).medial = last_width(o).lateral = v; }},
    {"sides.back", [](FootOrder& o, double v) { o.shoe.sides->back = v; }},
    {"sides.low", [](FootOrder& o, double v) { o.shoe.sides->low = v; }},
    {"sides.low_at", [](FootOrder& o, double v) { o.shoe.sides->low_at = v; }},
    {"sides.wing", [](FootOrder& o, double v) { o.shoe.sides->wing = v; }},
    {"sides.wing_at", [](FootOrder& o, double v) { o.shoe.sides->wing_at = v; }},
    {"sides.lean",
     [](FootOrder& o, double v) {
       o.shoe.sides->width_across.reset();
       o.shoe.sides->lean_rad = v;
     },
     degree},
    {"sides.width_across",
     [](FootOrder& o, double v) {
       o.shoe.sides->lean_rad.reset();
       o.shoe.sides->width_across = v;
     }},
    {"sides.casing", [](FootOrder& o, double v) { o.shoe.sides->casing = v; }},
    {"sides.heights.station", [](FootOrder& o, double v) { o.shoe.sides->heights = {{v, 46}}; }},
    {"sides.heights.height", [](FootOrder& o, double v) { o.shoe.sides->heights = {{60, v}}; }},
    {"sides.throat", [](FootOrder& o, double v) { o.shoe.sides->throat = v; }},
    {"platform.width",
     [](FootOrder& o, double v) { o.shoe.platform = Platform{v, std::min(v, 25.0)}; }},
    {"platform.depth",
     [](FootOrder& o, double v) { o.shoe.platform = Platform{std::max(v, 45.0), v}; }},
    {"stiffness.board",
     [](FootOrder& o, double v) { o.shoe.stiffness = BendingStiffness{v, {}}; }},
    {"stiffness.sole",
     [](FootOrder& o, double v) { o.shoe.stiffness = BendingStiffness{60000, v}; }},
    {"stiffness.droop",
     [](FootOrder& o, double v) { o.shoe.stiffness = Droop{v, 100, 120}; }},
    {"stiffness.weight",
     [](FootOrder& o, double v) { o.shoe.stiffness = Droop{12, v, 120}; }},
    {"stiffness.free", [](FootOrder& o, double v) { o.shoe.stiffness = Droop{12, 100, v}; }},
    {"pull", [](FootOrder& o, double v) { o.shoe.pull = PullForce{v}; }},
    {"pull.travel", [](FootOrder& o, double v) { o.shoe.pull = Travel{v}; }},
    {"shank.reach", [](FootOrder& o, double v) { shank(o).rule = ReachRule{v, ""}; }},
    {"shank.keep", [](FootOrder& o, double v) { shank(o).rule = KeepRule{v}; }, 0.01},
    {"shank.mark", [](FootOrder& o, double v) { shank(o).rule = MarkRule{measured(v), {}}; }},
    {"shank.bevel", [](FootOrder& o, double v) { shank(o).bevel = v; }},
    {"shank.corner",
     [](FootOrder& o, double v) {
       shank(o).end = BoardEnd::rounded;
       shank(o).corner = v;
     }},
    {"shank.tuck_max", [](FootOrder& o, double v) { shank(o).tuck_max = v; }},
    {"shank.bearing_min", [](FootOrder& o, double v) { shank(o).bearing_min = v; }},
    {"sides.medial", [](FootOrder& o, double v) { o.alterations.sides->medial = v; }},
    {"sides.lateral", [](FootOrder& o, double v) { o.alterations.sides->lateral = v; }},
    {"sides.back_depth", [](FootOrder& o, double v) { o.alterations.sides->back = v; }},
    {"sides.turn",
     [](FootOrder& o, double v) {
       o.alterations.sides->edge = SideEdge::turned;
       o.alterations.sides->turn = v;
     }},
    {"sides.keep", [](FootOrder& o, double v) { o.alterations.sides->keep = v; }},
    {"sides.slope", [](FootOrder& o, double v) { o.alterations.sides->slope = v; }},
    {"sides.run_out", [](FootOrder& o, double v) { o.alterations.sides->run_out = v; }},
    {"sides.deepest_at", [](FootOrder& o, double v) { o.alterations.sides->deepest_at = v; }},
    {"sides.deepest_length",
     [](FootOrder& o, double v) { o.alterations.sides->deepest_length = v; }},
    {"sides.stretch",
     [](FootOrder& o, double v) {
       o.alterations.sides->drawstring = Drawstring::elastic;
       o.alterations.sides->stretch = v;
     },
     0.01},
    {"thinned.from",
     [](FootOrder& o, double v) {
       o.alterations.shank.reset();
       o.alterations.filler = false;
       o.alterations.thinned = ThinWish{v, v + 30, 1};
     }},
    {"thinned.to",
     [](FootOrder& o, double v) {
       o.alterations.shank.reset();
       o.alterations.filler = false;
       o.alterations.thinned = ThinWish{v - 30, v, 1};
     }},
    {"thinned.thickness",
     [](FootOrder& o, double v) {
       o.alterations.shank.reset();
       o.alterations.filler = false;
       o.alterations.thinned = ThinWish{60, 90, v};
     }},
    {"liner.clearance", [](FootOrder& o, double v) { wished(o.alterations.liner).clearance = v; }},
    {"liner.length", [](FootOrder& o, double v) { wished(o.alterations.liner).length = v; }},
    {"darning.passes",
     [](FootOrder& o, double v) {
       wished(o.alterations.darning).passes = static_cast<int>(v);
     }},
    {"darning.height", [](FootOrder& o, double v) { wished(o.alterations.darning).height = v; }},
    {"darning.raise", [](FootOrder& o, double v) { wished(o.alterations.darning).raise = v; }},
    {"darning.pitch", [](FootOrder& o, double v) { wished(o.alterations.darning).pitch = v; }},
    {"darning.allowance",
     [](FootOrder& o, double v) { wished(o.alterations.darning).allowance = v; }, 0.01},
    {"darning.yarn", [](FootOrder& o, double v) { wished(o.alterations.darning).tex = v; }},
    {"ribbons.stretch",
     [](FootOrder& o, double v) { wished(o.alterations.ribbons).stretch = v; }, 0.01},
    {"ribbons.width", [](FootOrder& o, double v) { wished(o.alterations.ribbons).width = v; }},
    {"ribbons.wraps", [](FootOrder& o, double v) { wished(o.alterations.ribbons).wraps = v; }},
    {"ribbons.pitch", [](FootOrder& o, double v) { wished(o.alterations.ribbons).pitch = v; }},
    {"ribbons.overlap",
     [](FootOrder& o, double v) { wished(o.alterations.ribbons).overlap = v; }},
    {"ribbons.rise", [](FootOrder& o, double v) { wished(o.alterations.ribbons).rise = v; }},
    {"ribbons.tie",
     [](FootOrder& o, double v) {
       wished(o.alterations.ribbons).ring = false;
       o.alterations.ribbons->tie = v;
     }},
    {"ribbons.sewn_at",
     [](FootOrder& o, double v) { wished(o.alterations.ribbons).sewn_at = v; }},
    {"elastics.stretch",
     [](FootOrder& o, double v) { wished(o.alterations.elastics).stretch = v; }, 0.01},
    {"elastics.width", [](FootOrder& o, double v) { wished(o.alterations.elastics).width = v; }},
    {"elastics.over", [](FootOrder& o, double v) { wished(o.alterations.elastics).over = v; }},
    {"elastics.sewn_at",
     [](FootOrder& o, double v) { wished(o.alterations.elastics).sewn_at = v; }},
    {"elastics.overlap",
     [](FootOrder& o, double v) { wished(o.alterations.elastics).overlap = v; }},
    {"tuck.depth", [](FootOrder& o, double v) { wished(o.alterations.tuck).depth = v; }},
    {"tuck.down", [](FootOrder& o, double v) { wished(o.alterations.tuck).down = v; }},
};

struct Tally {
  int solved = 0;
  int refused = 0;
  int contacts = 0;
  std::size_t figures = 0;
};

/// One foot with every kind of work on it.
Order whole_order(Draw& draw, double foot_length = 0) {
  FootSize size = random_foot_size(draw, Population::women);
  if (foot_length > 0) {
    const double scale = foot_length / size.length;
    for (double* part : {&size.length, &size.ball_length, &size.ball_width, &size.heel_width,
                         &size.ankle_height, &size.ankle_girth})
      *part *= scale;
  }
  Order order = random_order_of(draw, size, Population::women);
  FootOrder& foot = order.left ? *order.left : *order.right;
  add_random_sides(draw, foot, order.pose);
  add_random_work(draw, foot);
  foot.shoe.stiffness = Grade::two_thumbs;
  return order;
}

FootOrder& foot_of(Order& order) {
  return order.left ? *order.left : *order.right;
}

void expect_finite_or_refused(const Order& order, Tally& tally) {
  const Solution solution = solve(order);
  const bool solved = solution.left || solution.right;
  const bool said =
      std::any_of(solution.findings.begin(), solution.findings.end(), [](const Finding& finding) {
        return finding.severity == Severity::error && !finding.what.empty() &&
               !finding.key.text().empty();
      });
  ASSERT_NE(solved, said) << "solved in spite of an error, or refused without one";
  for (const Finding& finding : solution.findings)
    for (const char* word : {"nan", "inf "})
      ASSERT_EQ((finding.what + " " + finding.allowed + " ").find(word), std::string::npos)
          << finding.key << ": " << finding.what;
  const FigureCount count = all_figures(solution);
  ASSERT_EQ(count.not_finite, 0U);
  tally.figures += count.figures;
  ++(solved ? tally.solved : tally.refused);
  if (!solved) return;
  const PairContact contact = pair_contact(order, solution);
  ASSERT_EQ(all_figures(contact).not_finite, 0U);
  if (contact.left || contact.right) ++tally.contacts;
}

void expect_all_limits(int orders_each, std::uint64_t seed) {
  Draw draw(seed);
  Tally tally;
  for (const Place& place : figure_places) {
    const ReadingGuide* const guide = reading_guide(place.key);
    ASSERT_NE(guide, nullptr) << place.key;
    Tally here;
    for (const double limit : {guide->least, guide->most})
      for (int i = 0; i < orders_each; ++i) {
        Order order = whole_order(draw);
        place.put(foot_of(order), limit * place.unit);
        SCOPED_TRACE(std::string(place.key) + " at " + std::to_string(limit) + ", order " +
                     std::to_string(i));
        expect_finite_or_refused(order, here);
        if (::testing::Test::HasFatalFailure()) return;
      }
    tally.solved += here.solved;
    tally.refused += here.refused;
    tally.contacts += here.contacts;
    tally.figures += here.figures;
  }
  EXPECT_GT(tally.solved, tally.refused);
  EXPECT_GT(tally.contacts, tally.solved / 2);
  EXPECT_GT(tally.figures, 300U * static_cast<unsigned>(tally.solved));
}

TEST(Extremes, EveryFigureAtItsLimits) {
  expect_all_limits(1, 71);
}
TEST(LongExtremes, EveryFigureAtItsLimits) {
  expect_all_limits(40, 72);
}

/// Several figures at their limits, or one step of the machine's numbers inside or outside.
void expect_limits_together(int orders, std::uint64_t seed) {
  Draw draw(seed);
  Tally tally;
  for (int i = 0; i < orders; ++i) {
    SCOPED_TRACE("order " + std::to_string(i) + " of seed " + std::to_string(seed));
    Order order = whole_order(draw);
    const std::size_t figures = 1 + draw.below(4);
    for (std::size_t n = 0; n < figures; ++n) {
      const Place& place = figure_places[draw.below(std::size(figure_places))];
      const ReadingGuide& guide = *reading_guide(place.key);
      double value = (draw.chance(0.5) ? guide.least : guide.most) * place.unit;
      if (draw.chance(0.3)) value = std::nextafter(value, draw.chance(0.5) ? 1e9 : -1e9);
      place.put(foot_of(order), value);
    }
    expect_finite_or_refused(order, tally);
    if (::testing::Test::HasFatalFailure()) return;
  }
  EXPECT_GT(tally.solved, orders / 10);
  EXPECT_GT(tally.refused, orders / 10);
}

TEST(Extremes, FiguresAtTheirLimitsTogether) {
  expect_limits_together(fewer_cases(150), 73);
}
TEST(LongExtremes, FiguresAtTheirLimitsTogether) {
  expect_limits_together(10000, 74);
}

TEST(Extremes, SmallestAndLargestFeet) {
  Draw draw(75);
  for (const double length : {120.0, 121.0, 140.0, 320.0, 339.0, 340.0}) {
    Tally tally;
    for (int i = 0; i < fewer_cases(12); ++i) {
      SCOPED_TRACE(std::to_string(length) + ", order " + std::to_string(i));
      expect_finite_or_refused(whole_order(draw, length), tally);
      if (HasFatalFailure()) return;
    }
    EXPECT_EQ(tally.solved + tally.refused, fewer_cases(12));
  }
}

/// The line exactly on the window's edges, and a hair to either side of them.
TEST(Extremes, LinesOnTheWindowsEdges) {
  Draw draw(76);
  Tally tally;
  int on_edge = 0;
  for (int i = 0; i < fewer_cases(30); ++i) {
    Order order = whole_order(draw);
    FootOrder& foot = foot_of(order);
    foot.alterations.thinned.reset();
    shank(foot) = ShankWish{};
    const Solution first = solve(order);
    const auto& solved = order.left ? first.left : first.right;
    if (!solved) continue;
    const double edges[] = {solved->frames.on_board(solved->trim->window.from),
                            solved->frames.on_board(solved->trim->window.to)};
    for (const double edge : edges)
      for (const double mark : {edge, std::nextafter(edge, 0.0), std::nextafter(edge, 1000.0),
                                edge - 1e-9, edge + 1e-9}) {
        SCOPED_TRACE("order " + std::to_string(i) + ", mark " + std::to_string(mark));
        shank(foot).rule = MarkRule{measured(mark), {}};
        expect_finite_or_refused(order, tally);
        if (HasFatalFailure()) return;
        ++on_edge;
      }
  }
  EXPECT_GT(on_edge, fewer_cases(200));
  EXPECT_GT(tally.solved, on_edge / 3);
}

/// From an arch that is almost flat to none at all: below the limit it is refused.
TEST(Extremes, NearlyStraightArches) {
  Draw draw(77);
  Tally tally;
  for (const double bend : {2 * degree, 1.9999999 * degree, 1e-3, 1e-6, 1e-12, 1e-300, 0.0})
    for (int i = 0; i < 5; ++i) {
      SCOPED_TRACE("bend " + std::to_string(bend));
      Order order = whole_order(draw);
      FootOrder& foot = foot_of(order);
      foot.foot.arch_depth.reset();
      foot.foot.deepest.reset();
      if (!foot.foot.arch_break.centre && !foot.foot.arch_break.medial)
        foot.foot.arch_break.centre = measured(100);
      foot.foot.arch_bend_rad = measured(bend, 0);
      expect_finite_or_refused(order, tally);
      if (HasFatalFailure()) return;
      foot.foot.arch_bend_rad.reset();
      foot.foot.arch_depth = measured(bend * 40, 0);
      expect_finite_or_refused(order, tally);
      if (HasFatalFailure()) return;
    }
  EXPECT_GT(tally.solved, 3);
  EXPECT_GT(tally.refused, 20);
}

/// Boards and soles from next to nothing upward, with every pull of the upper.
TEST(Extremes, NextToNoStiffness) {
  Draw draw(78);
  Tally tally;
  for (const double board : {1e3, 1e6})
    for (const double sole : {100.0, 2e5, 1e-6, 1e-300, 0.0})
      for (const double pull : {0.001, 1.0}) {
        Order order = whole_order(draw);
        SCOPED_TRACE("board " + std::to_string(board) + ", sole " + std::to_string(sole));
        foot_of(order).shoe.stiffness = BendingStiffness{board, sole};
        foot_of(order).shoe.pull = PullForce{pull};
        expect_finite_or_refused(order, tally);
        if (HasFatalFailure()) return;
      }
  EXPECT_GT(tally.contacts, 5);
}

} // namespace
} // namespace shankline::tests::extremes_test
