// Whatever sides a bench may lower, within ordinary ranges: solved soundly, or refused by name.

#include "tests/geometry/random_orders.hpp"
#include "tests/geometry/sides_of_order.hpp"
#include "tests/geometry/wall_by_quadrature.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <map>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

namespace shankline::tests::sides_property_test {
namespace {

constexpr double margin = 3;

struct Tally {
  int feet = 0;
  int solved = 0;
  int refused = 0;
  int sides = 0;
  int cut = 0;
  int measured_in_space = 0;
  int places = 0;
  int near_keep = 0;
  int steep = 0;
  int back = 0;
  int one_side = 0;
  int in_shoe_poses = 0;
  int in_shoe_boards = 0;
  int by_width = 0;
  int unlike = 0;
  int elastic = 0;
  int on_the_other_foot = 0;
  int exchanged = 0;
  int largest_depths = 0;
  std::array<int, 3> edges{};
  std::map<std::string, int> reasons;
};

/// The least of 1 − hκ sin(lean) under the stock line, κ from the places' own turn.
double least_spread(const SolvedSide& side, const BruteEdge& edge) {
  constexpr double step = 0.5;
  double least = 1;
  for (double t = step; t < side.wing - step; t += step) {
    const double curvature = (edge.turned(t + step) - edge.turned(t - step)) / (2 * step);
    least = std::min(least, 1 - side.stock(t) * curvature * std::sin(side.wall.lean()));
  }
  return least;
}

void expect_sound(const SolvedSide& side, const FootOrder& order, const FootStations& stations,
                  bool in_space, Tally& tally) {
  const SideWish& wish = *order.alterations.sides;
  const double depth = (side.edge == Edge::medial ? wish.medial : wish.lateral).value_or(0);
  ++tally.sides;
  for (const double number : std::initializer_list<double>{
           side.wing, side.from, side.to, side.low, side.low_at, side.base_length,
           side.stock_length, side.finished_length, side.uncovered})
    ASSERT_TRUE(std::isfinite(number));
  ASSERT_EQ(side.is_cut(), depth > 0 || wish.back > 0);
  if (side.is_cut()) ++tally.cut;

  // Never above the stock line, never below the keep height, never steeper than wished.
  double low = 1e9;
  double deepest = 0;
  double steepest = 0;
  constexpr double step = 0.3;
  const auto finished_line = side.finished_line();
  for (double t = 0; t <= side.wing; t += step) {
    const double lowered = side.stock(t) - side.finished(t);
    ASSERT_GE(lowered, -1e-12) << t;
    ASSERT_LE(lowered, std::max(depth, wish.back) + 1e-12) << t;
    // Looked up at every half millimetre by the solver: between those a hair less may be left.
    if (lowered > 1e-6) {
      ASSERT_GE(side.finished(t), wish.keep - 1e-3) << t;
    }
    ASSERT_EQ(finished_line.height(t), side.finished(t));
    const double next = side.stock(t + step) - side.finished(t + step);
    ASSERT_LE(std::abs(next - lowered) / step, wish.slope + 1e-9) << t;
    steepest = std::max(steepest, std::abs(next - lowered) / step);
    deepest = std::max(deepest, lowered);
    low = std::min(low, side.finished(t));
    ++tally.places;
  }
  low = std::min(low, side.finished(side.wing));
  ASSERT_NEAR(deepest, std::max(depth, wish.back), 0.01) << "lowered as far as wished";
  ASSERT_NEAR(side.low, low, 0.01);
  ASSERT_NEAR(side.finished(side.low_at), side.low, 1e-9);
  ASSERT_NEAR(side.finished(0), *order.shoe.sides->back - wish.back, 1e-9);
  ASSERT_NEAR(side.finished(side.wing), side.stock(side.wing), 1e-9);
  ASSERT_NEAR(finished_line.slope(0), 0, 1e-12) << "a corner at the seam";
  if (side.is_cut() && low < wish.keep + 1) ++tally.near_keep;
  if (steepest > 0.95 * wish.slope) ++tally.steep;

  // Only between the heel front and the wing, unless the back is lowered too.
  const double shift = shift_of(order, stations);
  const auto heel_front = side.wall.edge().at_station(stations.arch.heel_front + shift);
  ASSERT_TRUE(heel_front);
  if (side.is_cut() && wish.back == 0) {
    ASSERT_GE(side.from, stations.pose.posed(stations.arch.heel_front) - 1e-6);
    for (double t = 0; t < *heel_front; t += 1)
      ASSERT_EQ(side.finished(t), side.stock(t)) << t;
  }
  if (side.is_cut()) {
    ASSERT_LE(side.to, side.wall.edge().station(side.wing) - shift + stations.pose.mm + 1e-6);
  }

  // Ruler numbers are the lines' own.
  ASSERT_EQ(side.heights.empty(), !side.is_cut());
  for (const RulerHeight& height : side.heights) {
    ASSERT_NEAR(std::remainder(height.along, 10), 0, 1e-9);
    ASSERT_EQ(height.stock, side.stock(height.along));
    ASSERT_EQ(height.finished, side.finished(height.along));
    ASSERT_NEAR(height.station - stations.pose.mm + shift, side.wall.edge().station(height.along),
                1e-9);
  }

  ASSERT_GE(side.uncovered, 0);
  ASSERT_EQ(side.uncovered > 0, side.is_cut());
  ASSERT_NEAR(side.base_length, side.wing, 1e-9);
  if (!in_space) return;

  // Stood up in space, from the board's half-widths alone.
  const BoardOutline outline = outline_of(order);
  const double wing_station = side.wall.edge().station(side.wing);
  std::vector<double> joints;
  for (const BoardWidth& width : order.shoe.board.widths)
    joints.push_back(width.station);
  const BruteEdge edge =
      brute_edge(outline, side.edge, wing_station + margin, margin, 3000, joints);
  ASSERT_NEAR(side.base_length, edge.along_at(wing_station), 5e-3);
  const SideWall::HeightLine base{[](double) { return 0.0; }, [](double) { return 0.0; }};
  ASSERT_NEAR(length_of(side.wall.flat_line(base, 0, side.wing, 1e-4)), side.base_length, 0.01);
  const double lean = side.wall.lean();
  const HeightAlong stock = [&](double t) { return side.stock(t); };
  const HeightAlong finished = [&](double t) { return side.finished(t); };
  ASSERT_NEAR(side.stock_length, brute_length(edge, lean, stock, 0, side.wing), 5e-3);
  ASSERT_NEAR(side.finished_length, brute_length(edge, lean, finished, 0, side.wing), 5e-3);
  ASSERT_GT(least_spread(side, edge), 0) << "the flat wall lies on itself";
  ASSERT_NEAR(side.uncovered, brute_area(edge, lean, stock, finished, 0, side.wing),
              1e-3 + 2e-5 * side.uncovered);
  ++tally.measured_in_space;
}

void expect_same(const SolvedSide& a, const SolvedSide& b) {
  ASSERT_NEAR(a.wing, b.wing, 1e-9);
  ASSERT_NEAR(a.from, b.from, 1e-9);
  ASSERT_NEAR(a.to, b.to, 1e-9);
  ASSERT_NEAR(a.low, b.low, 1e-9);
  ASSERT_NEAR(a.stock_length, b.stock_length, 1e-8);
  ASSERT_NEAR(a.finished_length, b.finished_length, 1e-8);
  ASSERT_NEAR(a.uncovered, b.uncovered, 1e-8);
  ASSERT_EQ(a.heights.size(), b.heights.size());
  for (double t = 0; t < a.wing; t += 3) {
    const Point p = a.wall.flat(t, a.finished(t));
    const Point q = b.wall.flat(t, b.finished(t));
    ASSERT_NEAR(p.x, q.x, 1e-8);
    ASSERT_NEAR(p.y, q.y, 1e-8);
  }
}

/// The last number in a text, or nothing.
std::optional<double> last_number(const std::string& text) {
  const std::size_t end = text.find_last_of("0123456789");
  if (text.rfind("up to ", 0) != 0 || end == std::string::npos) return {};
  return std::strtod(text.c_str() + 6, nullptr);
}

/// The largest depth that an error names must be accepted, and a little more must not.
void expect_largest_depth(FootOrder order, Pose pose, const std::string& foot,
                          Population population, const Finding& error, Tally& tally) {
  const std::string path = "alterations." + foot + ".sides.";
  const bool medial = error.key == path + "medial";
  if (!medial && error.key != path + "lateral") return;
  const auto named = last_number(error.allowed);
  ASSERT_TRUE(named) << error.allowed;
  SideWish& wish = *order.alterations.sides;
  std::optional<double>& depth = medial ? wish.medial : wish.lateral;
  ASSERT_LT(*named, *depth);
  const auto refused_here = [&] {
    Findings findings;
    sides_of(order, pose, findings, foot, population);
    return std::any_of(findings.begin(), findings.end(), [&](const Finding& f) {
      return f.severity == Severity::error && f.key == error.key;
    });
  };
  depth = *named;
  ASSERT_FALSE(refused_here()) << error.what << "; allowed " << error.allowed;
  depth = *named + 0.2;
  ASSERT_TRUE(refused_here()) << error.what << "; allowed " << error.allowed;
  ++tally.largest_depths;
}

void look_at(const FootOrder& order, Pose pose, const std::string& foot, Population population,
             Tally& tally) {
  Findings findings;
  const auto stations = stations_of(order, pose, findings, foot, population);
  findings.clear();
  const auto sides = sides_of(order, pose, findings, foot, population);
  const SideWish& wish = *order.alterations.sides;
  ++tally.feet;
  if (!sides) {
    ++tally.refused;
    ASSERT_TRUE(has_error(findings)) << "refused without a reason";
    for (const Finding& f : findings) {
      if (f.severity != Severity::error) continue;
      ASSERT_NE(f.key.text().find("." + foot), std::string::npos) << f.key;
      ASSERT_FALSE(f.what.empty() || f.allowed.empty() || f.advice.empty()) << f.key;
      ++tally.reasons[f.key.section() + "." + f.key.path().substr(f.key.path().rfind('.') + 1)];
      expect_largest_depth(order, pose, foot, population, f, tally);
    }
    return;
  }
  ++tally.solved;
  ASSERT_TRUE(stations);
  ASSERT_FALSE(has_error(findings)) << "solved in spite of an error";
  if (wish.back > 0) ++tally.back;
  if (!wish.medial || !wish.lateral) ++tally.one_side;
  if (pose == Pose::in_shoe) ++tally.in_shoe_poses;
  if (order.shoe.board.state == BoardState::in_shoe) ++tally.in_shoe_boards;
  if (!order.shoe.sides->lean_rad) ++tally.by_width;
  if (order.shoe.sides->lateral || order.shoe.sides->medial) ++tally.unlike;
  ++tally.edges[static_cast<std::size_t>(wish.edge)];

  ASSERT_EQ(sides->medial.edge, Edge::medial);
  ASSERT_EQ(sides->lateral.edge, Edge::lateral);
  for (const SolvedSide* side : {&sides->medial, &sides->lateral}) {
    SCOPED_TRACE(side->edge == Edge::medial ? "big-toe side" : "little-toe side");
    ASSERT_EQ(side->wall.lean(), sides->lean);
    // Standing it up in space takes longest: one side of each foot.
    const bool in_space = (side->edge == Edge::medial) == (tally.solved % 4 < 2);
    expect_sound(*side, order, *stations, in_space, tally);
    if (::testing::Test::HasFatalFailure()) return;
  }
  ASSERT_NEAR(sides->top_line, sides->medial.finished_length + sides->lateral.finished_length,
              1e-9);
  ASSERT_GE(sides->casing, sides->top_line);
  ASSERT_EQ(sides->drawstring.has_value(), order.shoe.sides->throat.has_value());
  if (sides->drawstring && wish.drawstring == Drawstring::elastic) {
    ASSERT_NEAR((*sides->drawstring - 2 * 20) * (1 + wish.stretch),
                sides->top_line + *order.shoe.sides->throat, 1e-8);
    ++tally.elastic;
  }

  // The other foot gives the same result; with its sides exchanged, the result is exchanged.
  const std::string other_foot = foot == "left" ? "right" : "left";
  Findings none;
  if (tally.solved % 2 == 0) {
    const auto other = sides_of(order, pose, none, other_foot, population);
    ASSERT_TRUE(other);
    expect_same(sides->medial, other->medial);
    expect_same(sides->lateral, other->lateral);
    ++tally.on_the_other_foot;
  } else {
    const auto mirror = sides_of(mirrored(order), pose, none, other_foot, population);
    ASSERT_TRUE(mirror);
    expect_same(sides->medial, mirror->lateral);
    expect_same(sides->lateral, mirror->medial);
    ASSERT_NEAR(sides->top_line, mirror->top_line, 1e-8);
    ++tally.exchanged;
  }
}

void try_orders(int count, std::uint64_t seed) {
  Draw draw(seed);
  Draw draw_sides(seed + 1000);
  Tally tally;
  for (int i = 0; i < count; ++i) {
    SCOPED_TRACE("order " + std::to_string(i) + " of seed " + std::to_string(seed));
    const Population population = i % 8 == 7 ? Population::men : Population::women;
    const Order order = random_order_with_sides(draw, draw_sides, population);
    if (order.left) look_at(*order.left, order.pose, "left", population, tally);
    if (::testing::Test::HasFatalFailure()) return;
    if (order.right) look_at(*order.right, order.pose, "right", population, tally);
    if (::testing::Test::HasFatalFailure()) return;
  }
  std::ostringstream reasons;
  for (const auto& [key, times] : tally.reasons)
    reasons << "  " << key << ' ' << times << '\n';
  SCOPED_TRACE("refused for\n" + reasons.str());
  const double feet = tally.feet;
  EXPECT_GT(feet, 1.5 * count);
  EXPECT_EQ(tally.solved + tally.refused, tally.feet);
  EXPECT_GT(tally.solved, 0.6 * feet);
  EXPECT_GT(tally.refused, 0.05 * feet);
  EXPECT_EQ(tally.sides, 2 * tally.solved);
  EXPECT_GT(tally.cut, 1.7 * tally.solved);
  EXPECT_EQ(tally.measured_in_space, tally.solved);
  EXPECT_GT(tally.places, 400 * tally.sides);
  EXPECT_GT(tally.near_keep, 0.01 * feet);
  EXPECT_GT(tally.steep, 0.1 * feet);
  EXPECT_GT(tally.back, 0.08 * feet);
  EXPECT_GT(tally.one_side, 0.1 * feet);
  EXPECT_GT(tally.in_shoe_poses, 0.1 * feet);
  EXPECT_GT(tally.in_shoe_boards, 0.08 * feet);
  EXPECT_GT(tally.by_width, 0.15 * feet);
  EXPECT_GT(tally.unlike, 0.1 * feet);
  EXPECT_GT(tally.elastic, 0.05 * feet);
  EXPECT_GT(tally.on_the_other_foot, 0.4 * tally.solved);
  EXPECT_GT(tally.exchanged, 0.4 * tally.solved);
  EXPECT_GT(tally.largest_depths, 0.03 * feet);
  for (const int times : tally.edges)
    EXPECT_GT(times, 0.15 * feet);
  EXPECT_GT(tally.reasons["shoe.widths"], 0.01 * feet) << "boards known only at the heel";
}

TEST(SidesProperty, RandomOrdersAreLoweredSoundlyOrRefusedByName) {
  try_orders(60, 81);
}

TEST(LongSidesProperty, TwoThousandRandomOrdersAreLoweredSoundlyOrRefusedByName) {
  try_orders(2000, 82);
}

TEST(SidesProperty, SidesLeaveTheRestOfARandomOrderAsItWas) {
  Draw plain(83);
  Draw with(83);
  Draw sides(84);
  int feet = 0;
  for (int i = 0; i < 60; ++i) {
    const Order a = random_order(plain);
    const Order b = random_order_with_sides(with, sides);
    ASSERT_EQ(a.left.has_value(), b.left.has_value());
    ASSERT_EQ(a.pose, b.pose);
    if (!a.left) continue;
    ASSERT_EQ(a.left->foot.length->values, b.left->foot.length->values);
    ASSERT_EQ(a.left->shoe.board.length, b.left->shoe.board.length);
    ASSERT_EQ(a.left->shoe.board.inset->values, b.left->shoe.board.inset->values);
    ASSERT_FALSE(a.left->alterations.sides);
    ASSERT_TRUE(b.left->alterations.sides && b.left->shoe.sides);
    ++feet;
  }
  EXPECT_GT(feet, 40);
}

} // namespace
} // namespace shankline::tests::sides_property_test
