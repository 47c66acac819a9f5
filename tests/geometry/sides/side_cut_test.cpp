// How the sides are lowered: the quintic in closed form, run-outs, and one foot worked through with
// a wall stood up in space.

#include "geometry/sides/side_cut.hpp"

#include "geometry/board/board_check.hpp"
#include "tests/geometry/random_orders.hpp"
#include "tests/geometry/sides_of_order.hpp"
#include "tests/geometry/wall_by_quadrature.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <functional>
#include <limits>
#include <numbers>
#include <optional>
#include <string>
#include <vector>

namespace shankline::tests::side_cut_test {
namespace {

constexpr double degree = std::numbers::pi / 180;
constexpr double margin = 3;
// Largest slope of 10x³ − 15x⁴ + 6x⁵ on the unit interval: 30/16, at the middle.
constexpr double steepest = 1.875;

// ---------------------------------------------------------------------------- the quintic

TEST(Smoothstep, IsTheQuinticThatRunsFromNothingToOne) {
  EXPECT_EQ(smoothstep(-1), 0);
  EXPECT_EQ(smoothstep(0), 0);
  EXPECT_EQ(smoothstep(1), 1);
  EXPECT_EQ(smoothstep(7), 1);
  EXPECT_NEAR(smoothstep(0.5), 0.5, 1e-15);
  // 10/64 − 15/256 + 6/1024 = 106/1024.
  EXPECT_NEAR(smoothstep(0.25), 106.0 / 1024, 1e-15);
  for (double x = 0; x <= 1; x += 0.01)
    ASSERT_NEAR(smoothstep(x) + smoothstep(1 - x), 1, 1e-14) << x;
}

TEST(Smoothstep, SlopeIsItsDerivativeAndSteepestInTheMiddle) {
  double largest = 0;
  double at = 0;
  for (int i = -200; i <= 1200; ++i) {
    const double x = i / 1000.0;
    const double delta = 1e-5;
    ASSERT_NEAR(smoothstep_slope(x), (smoothstep(x + delta) - smoothstep(x - delta)) / (2 * delta),
                1e-8)
        << x;
    ASSERT_GE(smoothstep_slope(x), 0);
    if (smoothstep_slope(x) > largest) {
      largest = smoothstep_slope(x);
      at = x;
    }
  }
  EXPECT_NEAR(largest, steepest, 1e-14);
  EXPECT_NEAR(at, 0.5, 1e-12);
  EXPECT_EQ(steepest_smoothstep, steepest);
}

/// Second derivative by differences over one step each way.
double bend(const std::function<double(double)>& f, double x, double step) {
  return (f(x - step) - 2 * f(x) + f(x + step)) / (step * step);
}

TEST(Smoothstep, BendsWithoutAJump) {
  // The third derivative is at most 60, so the bend changes by no more than 60·step; a cubic step
  // would jump by 6 at each end.
  constexpr double step = 1e-3;
  double largest = 0;
  double before = 0;
  for (int i = -50; i <= 1050; ++i) {
    const double here = bend(smoothstep, i * step, step);
    ASSERT_NEAR(here, before, 60.1 * step) << i;
    largest = std::max(largest, std::abs(here));
    before = here;
  }
  EXPECT_GT(largest, 5.7) << "10/√3 = 5.77";
  EXPECT_LT(largest, 5.78);
}

// ---------------------------------------------------------------------------- the profile

const DepthProfile uncut_back{0, 6, 60, 88, 108, 150};
const DepthProfile cut_back{3, 6, 60, 88, 108, 150};
const DepthProfile level_back{5, 5, 60, 88, 108, 150};
const DepthProfile back_only{4, 0, 60, 88, 108, 150};

TEST(DepthProfile, HoldsItsDepthsAndRunsBetweenThem) {
  for (const DepthProfile& profile : {uncut_back, cut_back, level_back, back_only}) {
    for (const double t : {0.0, 20.0, 60.0})
      EXPECT_NEAR(profile(t), profile.back, 1e-14) << t;
    for (const double t : {88.0, 98.0, 108.0})
      EXPECT_NEAR(profile(t), profile.depth, 1e-14) << t;
    for (const double t : {150.0, 155.0, 400.0})
      EXPECT_NEAR(profile(t), 0, 1e-14) << t;
    EXPECT_NEAR(profile(74), (profile.back + profile.depth) / 2, 1e-14);
    EXPECT_NEAR(profile(129), profile.depth / 2, 1e-14);
    for (double t = 0; t < 160; t += 0.3) {
      ASSERT_GE(profile(t), -1e-14) << t;
      ASSERT_LE(profile(t), std::max(profile.back, profile.depth) + 1e-14) << t;
    }
  }
}

TEST(DepthProfile, ARunOfNoLengthIsAStep) {
  const DepthProfile profile{2, 5, 20, 20, 60, 60};
  EXPECT_EQ(profile(19.99), 2);
  EXPECT_EQ(profile(20), 5);
  EXPECT_EQ(profile(59.99), 5);
  EXPECT_EQ(profile(60), 0);
}

TEST(DepthProfile, SlopeIsItsDerivativeAndAtMostThatOfTheQuintic) {
  for (const DepthProfile& profile : {uncut_back, cut_back, level_back, back_only}) {
    double rear = 0;
    double front = 0;
    for (int i = 0; i <= 16000; ++i) {
      const double t = i / 100.0;
      const double delta = 1e-4;
      const double slope = (profile(t + delta) - profile(t - delta)) / (2 * delta);
      ASSERT_NEAR(profile.slope(t), slope, 1e-7) << t;
      (t < 98 ? rear : front) = std::max(t < 98 ? rear : front, std::abs(profile.slope(t)));
    }
    EXPECT_NEAR(rear, steepest * std::abs(profile.depth - profile.back) / 28, 1e-12);
    EXPECT_NEAR(front, steepest * profile.depth / 42, 1e-12);
  }
}

TEST(DepthProfile, BendsWithoutAJump) {
  constexpr double step = 1e-2;
  for (const DepthProfile& profile : {uncut_back, cut_back, level_back, back_only}) {
    const double third = 60 * std::max(profile.back, profile.depth) / (28.0 * 28 * 28);
    double before = bend(profile, 0, step);
    double largest = 0;
    for (double t = 0; t < 160; t += step) {
      const double here = bend(profile, t, step);
      ASSERT_NEAR(here, before, 1.01 * third * step + 1e-9) << t;
      largest = std::max(largest, std::abs(here));
      before = here;
    }
    EXPECT_GT(largest, 0.004);
  }
}

TEST(DepthProfile, BackRunsThroughTheSeamWithoutACorner) {
  for (const DepthProfile& profile : {cut_back, level_back, back_only}) {
    EXPECT_EQ(profile(0), profile.back);
    EXPECT_EQ(profile.slope(0), 0);
    EXPECT_EQ(profile.slope(1e-3), 0);
  }
}

// ---------------------------------------------------------------------------- run-outs

TEST(FitDepth, NothingToLowerIsNothingLowered) {
  const auto profile = fit_depth(0, 0, {60, 95, 155, 20, 30, 0.5});
  ASSERT_TRUE(profile);
  for (double t = 0; t < 160; t += 1)
    ASSERT_EQ((*profile)(t), 0) << t;
}

TEST(FitDepth, WithRoomToSpareEverythingIsAsWished) {
  const auto profile = fit_depth(0, 5, {40, 95, 160, 20, 30, 0.5});
  ASSERT_TRUE(profile);
  EXPECT_NEAR(profile->rear_from, 55, 1e-12);
  EXPECT_NEAR(profile->rear_to, 85, 1e-12);
  EXPECT_NEAR(profile->front_from, 105, 1e-12);
  EXPECT_NEAR(profile->front_to, 135, 1e-12);
  EXPECT_EQ(profile->depth, 5);
  EXPECT_EQ(profile->back, 0);
}

TEST(FitDepth, TooSteepARunIsLengthened) {
  // 1.875 · 10/0.5 = 37.5 > 30.
  const auto profile = fit_depth(0, 10, {40, 95, 160, 20, 30, 0.5});
  ASSERT_TRUE(profile);
  EXPECT_NEAR(profile->rear_from, 47.5, 1e-12);
  EXPECT_NEAR(profile->rear_to, 85, 1e-12);
  EXPECT_NEAR(profile->front_to - profile->front_from, 37.5, 1e-12);
}

TEST(FitDepth, ShortRoomCutsTheWishedRunBeforeTheDeepestStretch) {
  // 25 of room behind, 18.75 needed, 30 wished.
  const auto profile = fit_depth(0, 5, {60, 95, 160, 20, 30, 0.5});
  ASSERT_TRUE(profile);
  EXPECT_NEAR(profile->rear_from, 60, 1e-12);
  EXPECT_NEAR(profile->rear_to, 85, 1e-12);
  EXPECT_NEAR(profile->front_from, 105, 1e-12);
}

TEST(FitDepth, DeepestStretchShrinksOnlyAsNeededAndOnlyThere) {
  // 33.75 needed for 9, 25 there: the deepest stretch gives 8.75 behind and nothing ahead.
  const auto profile = fit_depth(0, 9, {60, 95, 160, 20, 30, 0.5});
  ASSERT_TRUE(profile);
  EXPECT_NEAR(profile->rear_from, 60, 1e-12);
  EXPECT_NEAR(profile->rear_to, 93.75, 1e-12);
  EXPECT_NEAR(profile->front_from, 105, 1e-12);
  EXPECT_NEAR(profile->front_to, 138.75, 1e-12);
}

TEST(FitDepth, NothingWhereEvenWithoutADeepestStretchThereIsNoRoom) {
  // 35 to the deepest place: 35·0.5/1.875 = 9.333 at most.
  EXPECT_TRUE(fit_depth(0, 9.33, {60, 95, 160, 20, 30, 0.5}));
  EXPECT_FALSE(fit_depth(0, 9.34, {60, 95, 160, 20, 30, 0.5}));
  EXPECT_TRUE(fit_depth(0, 9.34, {60, 95, 160, 20, 30, 0.51}));
  EXPECT_FALSE(fit_depth(0, 9.33, {130, 140, 160, 20, 30, 0.5})) << "no room ahead";
  // With a back cut-down only the difference has to run behind.
  EXPECT_TRUE(fit_depth(3, 12, {60, 95, 160, 20, 30, 0.5}));
  EXPECT_FALSE(fit_depth(3, 12.5, {60, 95, 160, 20, 30, 0.5}));
}

TEST(FitDepth, BackAsDeepAsTheSideNeedsNoRoomBehind) {
  // The line runs level from the seam into the deepest stretch, wherever the heel front is.
  for (const double heel_front : {60.0, 80.0, 85.0, 90.0, 94.5}) {
    SCOPED_TRACE(heel_front);
    const auto profile = fit_depth(4, 4, {heel_front, 95, 160, 20, 30, 0.5});
    ASSERT_TRUE(profile);
    for (double t = 0; t <= profile->front_from; t += 0.5)
      ASSERT_NEAR((*profile)(t), 4, 1e-12) << t;
    EXPECT_NEAR((*profile)(160), 0, 1e-12);
  }
}

TEST(FitDepth, BackAloneNeedsNoRoomAhead) {
  for (const double wing : {160.0, 110.0, 105.0, 100.0, 96.0}) {
    SCOPED_TRACE(wing);
    const auto profile = fit_depth(4, 0, {60, 95, wing, 20, 30, 0.5});
    ASSERT_TRUE(profile);
    EXPECT_NEAR((*profile)(0), 4, 1e-12);
    for (double t = 95; t <= wing; t += 0.5)
      ASSERT_NEAR((*profile)(t), 0, 1e-12) << t;
  }
}

void try_rooms(int count, std::uint64_t seed) {
  Draw draw(seed);
  int fitted = 0;
  int refused = 0;
  int lengthened = 0;
  int shortened = 0;
  int shrunk = 0;
  int with_back = 0;
  constexpr double rounding_error = 1e-9;
  for (int i = 0; i < count; ++i) {
    SideRoom room{};
    room.heel_front = draw.uniform(50, 80);
    room.deepest = room.heel_front + draw.uniform(3, 60);
    room.wing = room.deepest + draw.uniform(3, 80);
    room.deepest_length = draw.uniform(0, 40);
    room.run_out = draw.uniform(5, 50);
    room.slope = draw.uniform(0.2, 0.9);
    const double depth = draw.uniform(1, 14);
    const double back = draw.chance(0.4) ? draw.uniform(0.5, 0.9) * depth : 0.0;
    SCOPED_TRACE("room " + std::to_string(i));

    const double rear_need = steepest * (depth - back) / room.slope;
    const double front_need = steepest * depth / room.slope;
    const double rear_room = room.deepest - room.heel_front;
    const double front_room = room.wing - room.deepest;
    const auto profile = fit_depth(back, depth, room);
    ASSERT_EQ(profile.has_value(), rear_need <= rear_room && front_need <= front_room);
    if (!profile) {
      ++refused;
      continue;
    }
    ++fitted;
    ASSERT_EQ(profile->back, back);
    ASSERT_EQ(profile->depth, depth);
    const double rear = profile->rear_to - profile->rear_from;
    const double front = profile->front_to - profile->front_from;
    ASSERT_GE(rear, rear_need - rounding_error);
    ASSERT_GE(front, front_need - rounding_error);
    ASSERT_GE(profile->rear_from, room.heel_front - rounding_error);
    ASSERT_LE(profile->front_to, room.wing + rounding_error);
    ASSERT_LE(profile->rear_to, room.deepest + rounding_error);
    ASSERT_GE(profile->front_from, room.deepest - rounding_error);
    const auto expect_run = [&](double run, double need, double space, double inner) {
      const double half = room.deepest_length / 2;
      if (space - half >= need) { // as long as wished, or needed, or there is room for
        ASSERT_NEAR(inner, half, rounding_error) << "the deepest stretch gave way without need";
        ASSERT_NEAR(run, std::min(std::max(need, room.run_out), space - half), rounding_error);
        if (need > room.run_out) ++lengthened;
        if (run < room.run_out - rounding_error) ++shortened;
      } else {
        ASSERT_NEAR(run, need, rounding_error) << "the deepest stretch gave way more than needed";
        ASSERT_NEAR(inner, space - need, rounding_error);
        ++shrunk;
      }
    };
    expect_run(rear, rear_need, rear_room, room.deepest - profile->rear_to);
    expect_run(front, front_need, front_room, profile->front_from - room.deepest);
    if (::testing::Test::HasFatalFailure()) return;
    for (double t = 0; t < room.wing; t += 0.7)
      ASSERT_LE(std::abs(profile->slope(t)), room.slope + rounding_error) << t;
    if (back > 0) ++with_back;
  }
  EXPECT_EQ(fitted + refused, count);
  EXPECT_GT(fitted, 0.15 * count);
  EXPECT_GT(refused, 0.15 * count);
  EXPECT_GT(lengthened, 0.02 * count);
  EXPECT_GT(shortened, 0.02 * count);
  EXPECT_GT(shrunk, 0.02 * count);
  EXPECT_GT(with_back, 0.05 * count);
}

TEST(FitDepth, TwoThousandRoomsAreUsedAsFarAsNeeded) {
  try_rooms(2000, 71);
}

TEST(LongFitDepth, HundredThousandRoomsAreUsedAsFarAsNeeded) {
  try_rooms(100000, 72);
}

// ---------------------------------------------------------------------------- a foot worked
// through

/// The sides, or a failure that says why there are none.
std::optional<SolvedSides> solved(const FootOrder& order, Pose pose = Pose::pointed,
                                  const std::string& foot = "left") {
  Findings findings;
  auto sides = sides_of(order, pose, findings, foot);
  for (const Finding& f : findings)
    if (f.severity == Severity::error) ADD_FAILURE() << f.key << ": " << f.what;
  EXPECT_TRUE(sides);
  return sides;
}

/// The first error of an order that has no solution.
Finding refused(const FootOrder& order, const std::string& foot = "left") {
  Findings findings;
  EXPECT_FALSE(sides_of(order, Pose::pointed, findings, foot));
  const auto error = std::find_if(findings.begin(), findings.end(),
                                  [](const Finding& f) { return f.severity == Severity::error; });
  if (error == findings.end()) {
    ADD_FAILURE() << "refused without a reason";
    return {};
  }
  EXPECT_FALSE(error->what.empty());
  EXPECT_FALSE(error->allowed.empty()) << error->what;
  EXPECT_FALSE(error->advice.empty()) << error->what;
  return *error;
}

/// The last number in a text.
double last_number(const std::string& text) {
  const std::size_t end = text.find_last_of("0123456789");
  if (end == std::string::npos) return std::numeric_limits<double>::quiet_NaN();
  std::size_t begin = end;
  while (begin > 0 &&
         (std::isdigit(static_cast<unsigned char>(text[begin - 1])) != 0 || text[begin - 1] == '.'))
    --begin;
  return std::strtod(text.c_str() + begin, nullptr);
}

/// The worked foot's stations on the board: foot station + fold 6 − inset 5.
constexpr double heel_front_station = 62;
constexpr double deepest_station = 96;
constexpr double low_station = 106;
constexpr double wing_station = 159;

double own_step(double x) {
  const double v = std::clamp(x, 0.0, 1.0);
  return v * v * v * (10 - 15 * v + 6 * v * v);
}

/// The worked foot by brute force. Both edges of its board are alike.
struct Worked {
  BruteEdge edge;
  double heel_front;
  double deepest;
  double low;
  double wing;

  explicit Worked(const FootOrder& order)
      : edge(brute_edge(outline_of(order), Edge::medial, wing_station + margin, margin, 40000)),
        heel_front(edge.along_at(heel_front_station)), deepest(edge.along_at(deepest_station)),
        low(edge.along_at(low_station)), wing(edge.along_at(wing_station)) {}

  /// Hermite through 52, 41 and 46: level at the seam and, since the heights turn there, at the
  /// low point; at the wing the slope of the parabola through the last three points.
  double stock(double t) const {
    const double first = low;
    const double second = wing - low;
    const double fall = (41.0 - 52.0) / first;
    const double rise = (46.0 - 41.0) / second;
    const double end = rise + second * (rise - fall) / (first + second);
    if (t <= low) {
      const double v = t / first;
      return 52 - 11 * v * v * (3 - 2 * v);
    }
    const double v = (t - low) / second;
    return 41 + 5 * v * v * (3 - 2 * v) + second * end * v * v * (v - 1);
  }

  double rear_run(double depth, double slope = 0.5) const {
    const double need = steepest * depth / slope;
    const double room = deepest - 10 - heel_front;
    return room >= need ? std::min(std::max(need, 30.0), room) : need;
  }
  double lowered(double t, double depth, double slope = 0.5) const {
    const double rear = rear_run(depth, slope);
    const double room = deepest - 10 - heel_front;
    const double rear_to = room >= rear ? deepest - 10 : heel_front + rear;
    const double front = std::max(30.0, steepest * depth / slope);
    return depth * (own_step((t - (rear_to - rear)) / rear) - own_step((t - deepest - 10) / front));
  }
};

/// What is said of heights that no stock shoe has, each as "key: what".
std::vector<std::string> unlikely_heights(const std::function<void(StockSides&)>& change) {
  FootOrder order = worked_sides();
  change(*order.shoe.sides);
  Findings findings;
  EXPECT_TRUE(sides_of(order, Pose::pointed, findings));
  std::vector<std::string> said;
  for (const Finding& f : findings)
    if (f.severity == Severity::caution && f.key.text().starts_with("shoe.")) {
      EXPECT_FALSE(f.allowed.empty() || f.advice.empty()) << f.what;
      said.push_back(f.key.text() + ": " + f.what);
    }
  return said;
}

// Before, heights that had changed places were taken without a word: back 52, low point 41 at 105,
// wing 46; the arch break lies at 95.
TEST(SolveSides, HeightsThatNoShoeHasAreSaid) {
  using Said = std::vector<std::string>;
  EXPECT_EQ(unlikely_heights([](StockSides&) {}), Said{});
  EXPECT_EQ(unlikely_heights([](StockSides& s) { s.back = 41; }), Said{}) << "as high as the low";
  EXPECT_EQ(unlikely_heights([](StockSides& s) {
              s.back = 41;
              s.low = 52;
            }),
            Said{"shoe.left.sides.low: the low point (52 mm) is higher than the back (41 mm)"});
  EXPECT_EQ(unlikely_heights([](StockSides& s) { s.wing = 41; }), Said{});
  EXPECT_EQ(unlikely_heights([](StockSides& s) {
              s.low = 46;
              s.wing = 41;
            }),
            Said{"shoe.left.sides.low: the low point (46 mm) is higher than the wing (41 mm)"});
  EXPECT_EQ(unlikely_heights([](StockSides& s) { s.wing = 60; }), Said{});
  EXPECT_EQ(
      unlikely_heights([](StockSides& s) { s.wing = 60.1; }),
      Said{"shoe.left.sides.wing: the wing (60.1 mm) is 8.1 mm higher than the back (52 mm)"});
  EXPECT_EQ(unlikely_heights([](StockSides& s) { s.low_at = 135; }), Said{});
  EXPECT_EQ(unlikely_heights([](StockSides& s) { s.low_at = 135.1; }),
            Said{"shoe.left.sides.low_at: the low point lies 40.1 mm ahead of the arch break"});
  EXPECT_EQ(unlikely_heights([](StockSides& s) { s.low_at = 54.9; }),
            Said{"shoe.left.sides.low_at: the low point lies 40.1 mm behind the arch break"});
  EXPECT_EQ(unlikely_heights([](StockSides& s) {
              s.heights = {{43, 55}, {80, 38}, {130, 49}};
            }),
            Said{});
  EXPECT_EQ(
      unlikely_heights([](StockSides& s) {
        s.heights = {{43, 55.1}, {80, 37.9}, {130, 49.1}};
      }),
      (Said{"shoe.left.sides.heights: the height at 43 (55.1 mm) is higher than the back (52 mm)",
            "shoe.left.sides.heights: the height at 80 (37.9 mm) is lower than the low point (41 "
            "mm)",
            "shoe.left.sides.heights: the height at 130 (49.1 mm) is higher than the wing (46 "
            "mm)"}));
  EXPECT_EQ(unlikely_heights([](StockSides& s) {
              s.lateral = StockHeights{};
              s.lateral->low = 47;
            }),
            Said{"shoe.left.sides.lateral.low: on the little-toe side the low point (47 mm) is "
                 "higher than the wing (46 mm)"});
}

TEST(SolveSides, WorkedFootLiesWhereTheHandPutsIt) {
  const FootOrder order = worked_sides();
  const auto sides = solved(order);
  ASSERT_TRUE(sides);
  const Worked worked(order);
  EXPECT_NEAR(sides->lean, 10 * degree, 1e-15);
  int tried = 0;
  for (const SolvedSide* side : {&sides->medial, &sides->lateral}) {
    const double depth = side == &sides->medial ? 5 : 4;
    SCOPED_TRACE(depth);
    EXPECT_EQ(side->edge, side == &sides->medial ? Edge::medial : Edge::lateral);
    EXPECT_TRUE(side->is_cut());
    EXPECT_NEAR(side->wing, worked.wing, 1e-4);
    EXPECT_NEAR(side->base_length, worked.wing, 1e-4);
    EXPECT_NEAR(side->wall.lean(), 10 * degree, 1e-15);
    // 30 wished, less room than that between heel front and deepest stretch: from the heel front.
    EXPECT_LT(worked.deepest - 10 - worked.heel_front, 30);
    EXPECT_GT(worked.deepest - 10 - worked.heel_front, 18.75);
    EXPECT_NEAR(side->from, 61, 1e-4);
    const Point end = worked.edge.place(worked.deepest + 40);
    EXPECT_NEAR(side->to, end.x - 1, 1e-4);
    double low = 1e9;
    double low_at = 0;
    for (int i = 0; i <= 20000; ++i) {
      const double t = worked.wing * i / 20000;
      const double finished = worked.stock(t) - worked.lowered(t, depth);
      ASSERT_NEAR(side->stock(t), worked.stock(t), 1e-4) << t;
      ASSERT_NEAR(side->finished(t), finished, 1e-4) << t;
      if (finished < low) {
        low = finished;
        low_at = t;
      }
      ++tried;
    }
    EXPECT_NEAR(side->low, low, 1e-3);
    EXPECT_NEAR(side->low_at, low_at, 0.5);
  }
  EXPECT_GT(tried, 40000);
}

TEST(SolveSides, WorkedFootsLengthsAndAreasAreThoseOfTheWallInSpace) {
  const FootOrder order = worked_sides();
  const auto sides = solved(order);
  ASSERT_TRUE(sides);
  const Worked worked(order);
  const double lean = 10 * degree;
  const HeightAlong stock = [&](double t) { return worked.stock(t); };
  double both = 0;
  for (const SolvedSide* side : {&sides->medial, &sides->lateral}) {
    const double depth = side == &sides->medial ? 5 : 4;
    const HeightAlong finished = [&](double t) {
      return worked.stock(t) - worked.lowered(t, depth);
    };
    const double length = brute_length(worked.edge, lean, finished, 0, worked.wing);
    EXPECT_NEAR(side->stock_length, brute_length(worked.edge, lean, stock, 0, worked.wing), 1e-3);
    EXPECT_NEAR(side->finished_length, length, 1e-3);
    EXPECT_NEAR(side->uncovered, brute_area(worked.edge, lean, stock, finished, 0, worked.wing),
                0.01);
    // A leaning wall is shorter at its top than at its base.
    EXPECT_LT(side->finished_length, side->base_length);
    both += length;
  }
  EXPECT_NEAR(sides->top_line, both, 2e-3);
  EXPECT_GT(sides->medial.uncovered, sides->lateral.uncovered);
  EXPECT_GT(sides->casing, sides->top_line);
  EXPECT_LT(sides->casing, sides->top_line + 60);
}

TEST(SolveSides, StockLinePassesThroughEveryHeight) {
  FootOrder order = worked_sides();
  order.shoe.sides->heights = {{30, 50}, {130, 42.5}};
  order.shoe.sides->lateral = StockHeights{};
  order.shoe.sides->lateral->low = 39;
  order.shoe.sides->lateral->low_at = 100;
  order.shoe.sides->lateral->wing = 44;
  order.shoe.sides->lateral->wing_at = 150;
  order.shoe.sides->lateral->heights = {{20, 51}};
  const auto sides = solved(order);
  ASSERT_TRUE(sides);
  const auto stock_at = [](const SolvedSide& side, double foot_station) {
    return side.stock(*side.wall.edge().at_station(foot_station + 1));
  };
  EXPECT_NEAR(stock_at(sides->medial, 30), 50, 1e-9);
  EXPECT_NEAR(stock_at(sides->medial, 105), 41, 1e-9);
  EXPECT_NEAR(stock_at(sides->medial, 130), 42.5, 1e-9);
  EXPECT_NEAR(stock_at(sides->medial, 158), 46, 1e-9);
  EXPECT_NEAR(stock_at(sides->lateral, 20), 51, 1e-9) << "its own in place of the common ones";
  EXPECT_NEAR(stock_at(sides->lateral, 100), 39, 1e-9);
  EXPECT_NEAR(stock_at(sides->lateral, 150), 44, 1e-9);
  for (const SolvedSide* side : {&sides->medial, &sides->lateral}) {
    EXPECT_EQ(side->stock(0), 52);
    EXPECT_EQ(side->stock.slope(0), 0);
  }
}

TEST(SolveSides, StockLineIsLevelAtTheSeamAlsoWhereItRisesFromThere) {
  FootOrder order = worked_sides();
  order.shoe.sides->back = 38;
  order.shoe.sides->low = 41;
  const auto sides = solved(order);
  ASSERT_TRUE(sides);
  EXPECT_EQ(sides->medial.stock.slope(0), 0);
  EXPECT_EQ(sides->lateral.stock.slope(0), 0);
}

TEST(SolveSides, CasingStripIsFoldedOverTheTopLineAndTurnedUnder) {
  FootOrder order = worked_sides();
  EXPECT_FALSE(solved(order)->casing_width);
  order.shoe.sides->casing = 9;
  EXPECT_DOUBLE_EQ(*solved(order)->casing_width, 28) << "9 and 5 on either face";
}

TEST(SolveSides, OnlySidesThatAreNotLoweredAtAllAreRemarkedOn) {
  const auto remarked = [](std::optional<double> medial, std::optional<double> lateral,
                           double back) {
    FootOrder order = worked_sides();
    order.alterations.sides->medial = medial;
    order.alterations.sides->lateral = lateral;
    order.alterations.sides->back = back;
    Findings findings;
    EXPECT_TRUE(sides_of(order, Pose::pointed, findings));
    return std::any_of(findings.begin(), findings.end(), [](const Finding& f) {
      return f.severity == Severity::caution && f.what.find("neither side is") == 0;
    });
  };
  EXPECT_TRUE(remarked({}, {}, 0));
  EXPECT_TRUE(remarked(0.0, 0.0, 0));
  EXPECT_FALSE(remarked(5.0, {}, 0));
  EXPECT_FALSE(remarked({}, 4.0, 0));
  EXPECT_FALSE(remarked(5.0, 4.0, 0));
  EXPECT_FALSE(remarked({}, {}, 2));
}

TEST(SewnEnd, LiesBetweenTheSeamAndTheWingBelowItsCasing) {
  const auto sides = solved(worked_sides());
  ASSERT_TRUE(sides);
  const SolvedSide& side = sides->medial;
  constexpr double width = 20;
  constexpr double overlap = 15;
  constexpr double casing = 9;
  const auto at = [&](double t) {
    return sewn_end(side, SewnEnd::What::ribbon, BoardStation(side.wall.edge().station(t)), width,
                    overlap, casing);
  };
  EXPECT_FALSE(at(width / 2 - 0.1)) << "over the back seam";
  EXPECT_TRUE(at(width / 2 + 0.1));
  EXPECT_TRUE(at(side.wing - width / 2 - 0.1));
  EXPECT_FALSE(at(side.wing - width / 2 + 0.1)) << "past the wing";
  // The top line falls here, so that the lowest of it over the width is at the far end.
  constexpr double place = 60;
  const auto end = at(place);
  ASSERT_TRUE(end);
  EXPECT_NEAR(end->t, place, 1e-9);
  EXPECT_EQ(end->width, width);
  EXPECT_NEAR(end->top, side.finished(place + width / 2) - casing, 1e-9);
  EXPECT_NEAR(end->low, end->top - overlap, 1e-12);
  // Beside the low point the middle is the lowest of the three places that are looked at.
  const double beside_low = side.low_at + 3;
  EXPECT_LT(side.finished(beside_low), side.finished(beside_low - width / 2));
  EXPECT_LT(side.finished(beside_low), side.finished(beside_low + width / 2));
  EXPECT_NEAR(at(beside_low)->top, side.finished(beside_low) - casing, 1e-6);
}

TEST(SolveSides, LinesAreTheHeightsAndTheirSlopes) {
  FootOrder order = worked_sides();
  order.alterations.sides->back = 2;
  const auto sides = solved(order);
  ASSERT_TRUE(sides);
  for (const SolvedSide* side : {&sides->medial, &sides->lateral}) {
    const auto stock = side->stock_line();
    const auto finished = side->finished_line();
    const auto turned = side->finished_line(5);
    const auto stitched = side->finished_line(-9);
    int tried = 0;
    for (double t = 0.01; t < side->wing - 0.01; t += 0.31) {
      const double delta = 1e-4;
      ASSERT_EQ(stock.height(t), side->stock(t));
      ASSERT_NEAR(finished.height(t), side->stock(t) - side->profile(t), 1e-12);
      ASSERT_NEAR(turned.height(t), finished.height(t) + 5, 1e-12);
      ASSERT_NEAR(stitched.height(t), finished.height(t) - 9, 1e-12);
      for (const auto* line : {&stock, &finished, &turned, &stitched})
        ASSERT_NEAR(line->slope(t),
                    (line->height(t + delta) - line->height(t - delta)) / (2 * delta), 1e-5)
            << t;
      ++tried;
    }
    EXPECT_GT(tried, 400);
    EXPECT_EQ(finished.slope(0), 0) << "no corner at the seam";
  }
}

TEST(SolveSides, BackCutDownIsTheSameOnBothSidesOfTheSeam) {
  FootOrder order = worked_sides();
  order.alterations.sides->back = 3;
  const auto sides = solved(order);
  ASSERT_TRUE(sides);
  const auto stays = solved(worked_sides());
  ASSERT_TRUE(stays);
  for (const SolvedSide* side : {&sides->medial, &sides->lateral}) {
    EXPECT_NEAR(side->finished(0), 49, 1e-12);
    EXPECT_NEAR(side->finished(side->wing), 46, 1e-9);
    EXPECT_NEAR(side->from, -3 - 1, 1e-9) << "from the seam itself";
    ASSERT_FALSE(side->heights.empty());
    EXPECT_EQ(side->heights.front().along, 0);
    EXPECT_NEAR(side->heights.front().finished, 49, 1e-12);
  }
  EXPECT_GT(sides->medial.uncovered, stays->medial.uncovered + 3 * 50);
}

TEST(SolveSides, RulerHeightsStandEveryTenAlongTheSolesEdge) {
  const FootOrder order = worked_sides();
  const auto sides = solved(order);
  ASSERT_TRUE(sides);
  const Worked worked(order);
  for (const SolvedSide* side : {&sides->medial, &sides->lateral}) {
    const double depth = side == &sides->medial ? 5 : 4;
    const double first = std::ceil(worked.heel_front / 10) * 10;
    const double last = worked.deepest + 40;
    ASSERT_EQ(side->heights.size(), static_cast<std::size_t>((last - first) / 10) + 1);
    double along = first;
    for (const RulerHeight& height : side->heights) {
      EXPECT_NEAR(height.along, along, 1e-12);
      EXPECT_NEAR(height.station, worked.edge.place(along).x - 1, 1e-4);
      EXPECT_NEAR(height.stock, worked.stock(along), 1e-4);
      EXPECT_NEAR(height.finished, worked.stock(along) - worked.lowered(along, depth), 1e-4);
      along += 10;
    }
  }
}

TEST(SolveSides, KeepHeightNamesTheLargestDepthThatFits) {
  for (const bool medial : {true, false}) {
    FootOrder order = worked_sides();
    SideWish& wish = *order.alterations.sides;
    wish.slope = 1;
    std::optional<double>& depth = medial ? wish.medial : wish.lateral;
    depth = 14;
    const Finding error = refused(order);
    EXPECT_EQ(error.key,
              medial ? "alterations.left.sides.medial" : "alterations.left.sides.lateral");
    // The least height that a depth leaves, for a depth of 14 and, by halving, for the largest that
    // leaves 30.
    const Worked worked(order);
    const auto left_by = [&](double d) {
      double least = 1e9;
      for (int i = 0; i <= 20000; ++i) {
        const double t = worked.wing * i / 20000;
        least = std::min(least, worked.stock(t) - worked.lowered(t, d, 1));
      }
      return least;
    };
    EXPECT_LT(left_by(14), 29);
    double low = 0;
    double high = 14;
    for (int i = 0; i < 40; ++i) {
      const double middle = (low + high) / 2;
      (left_by(middle) >= 30 ? low : high) = middle;
    }
    const double named = last_number(error.allowed);
    EXPECT_NEAR(named, std::floor(low * 10) / 10, 1e-9) << error.allowed;
    EXPECT_NE(error.what.find("keep is 30"), std::string::npos) << error.what;
    depth = named;
    EXPECT_TRUE(solved(order));
    depth = named + 0.2;
    refused(order);
    // A smaller keep, as the advice says, allows the depth that was wished; a tenth more does not.
    depth = 14;
    const std::string words = "What would allow more: keep ";
    ASSERT_EQ(error.advice.find(words), 0U) << error.advice;
    const double less = std::strtod(error.advice.c_str() + words.size(), nullptr);
    EXPECT_NEAR(less, std::floor(left_by(14) * 10) / 10, 1e-9) << error.advice;
    wish.keep = less;
    EXPECT_TRUE(solved(order));
    wish.keep = less + 0.1;
    refused(order);
  }
}

TEST(SolveSides, SlopeBoundNamesTheLargestDepthThatFits) {
  for (const bool medial : {true, false}) {
    FootOrder order = worked_sides();
    SideWish& wish = *order.alterations.sides;
    std::optional<double>& depth = medial ? wish.medial : wish.lateral;
    depth = 10.5;
    const Finding error = refused(order);
    EXPECT_EQ(error.key,
              medial ? "alterations.left.sides.medial" : "alterations.left.sides.lateral");
    const Worked worked(order);
    const double most = (worked.deepest - worked.heel_front) * 0.5 / steepest;
    EXPECT_LT(most, 10.5);
    const double named = last_number(error.allowed);
    EXPECT_NEAR(named, std::floor(most * 10) / 10, 1e-9) << error.allowed;
    EXPECT_NE(error.what.find("slope"), std::string::npos) << error.what;
    EXPECT_NE(error.advice.find("slope"), std::string::npos) << error.advice;
    depth = named;
    EXPECT_TRUE(solved(order));
    depth = named + 0.2;
    refused(order);
    depth = 10.5;
    wish.slope = 0.5 * 10.5 / most + 0.01;
    EXPECT_TRUE(solved(order)) << "a steeper slope allows more";
  }
}

TEST(SolveSides, BackTooDeepNamesTheLargestThatFits) {
  FootOrder order = worked_sides();
  SideWish& wish = *order.alterations.sides;
  wish.medial = wish.lateral = 5;
  wish.back = 24;
  const Finding error = refused(order);
  EXPECT_EQ(error.key, "alterations.left.sides.back");
  const double named = last_number(error.allowed);
  EXPECT_GT(named, 5) << error.allowed;
  wish.back = named;
  EXPECT_TRUE(solved(order));
  wish.back = named + 0.2;
  refused(order);
}

TEST(SolveSides, EqualBackLeavesOnlyTheFrontToRunOut) {
  // With the back as deep as the sides nothing has to run out behind.
  FootOrder order = worked_sides();
  SideWish& wish = *order.alterations.sides;
  wish.back = 10.5;
  wish.medial = wish.lateral = 10.5;
  const auto sides = solved(order);
  ASSERT_TRUE(sides);
  EXPECT_NEAR(sides->medial.finished(0), 41.5, 1e-12);
}

TEST(SolveSides, WidthAcrossGivesTheLeanThatMakesIt) {
  FootOrder order = worked_sides();
  const Worked worked(order);
  const double across_sole = 2 * worked.edge.out_at(low_station);
  order.shoe.sides->lean_rad.reset();
  order.shoe.sides->width_across = across_sole - 2 * 41 * std::sin(10 * degree);
  const auto by_width = solved(order);
  const auto by_lean = solved(worked_sides());
  ASSERT_TRUE(by_width && by_lean);
  EXPECT_NEAR(by_width->lean, 10 * degree, 2e-6);
  EXPECT_NEAR(by_width->medial.finished_length, by_lean->medial.finished_length, 1e-3);
  EXPECT_NEAR(by_width->lateral.uncovered, by_lean->lateral.uncovered, 1e-2);
  // Stood up, the two top points are that far apart, but for the edge's slant to the axis there
  // (7°, under 1 % of what the walls lean in).
  const Place top = on_wall(worked.edge, by_width->lean, worked.low, 41);
  EXPECT_NEAR(2 * top.y, *order.shoe.sides->width_across, 0.01 * 2 * 41 * std::sin(10 * degree));
}

TEST(SolveSides, WidthAcrossThatNoWallMakesIsAnErrorThere) {
  FootOrder order = worked_sides();
  order.shoe.sides->lean_rad.reset();
  for (const double across : {-60.0, 140.0, 400.0}) {
    order.shoe.sides->width_across = across;
    EXPECT_EQ(refused(order).key, "shoe.left.sides.width_across") << across;
  }
}

TEST(SolveSides, EveryMissingReadingIsNamed) {
  struct Missing {
    const char* key;
    std::function<void(StockSides&)> forget;
  };
  const std::vector<Missing> cases{
      {"back", [](StockSides& s) { s.back.reset(); }},
      {"low", [](StockSides& s) { s.low.reset(); }},
      {"low_at", [](StockSides& s) { s.low_at.reset(); }},
      {"wing", [](StockSides& s) { s.wing.reset(); }},
      {"width_across", [](StockSides& s) { s.lean_rad.reset(); }},
  };
  for (const std::string foot : {"left", "right"}) {
    for (const Missing& missing : cases) {
      SCOPED_TRACE(missing.key);
      FootOrder order = worked_sides();
      missing.forget(*order.shoe.sides);
      EXPECT_EQ(refused(order, foot).key, "shoe." + foot + ".sides." + missing.key);
    }
    FootOrder order = worked_sides();
    order.shoe.sides.reset();
    EXPECT_EQ(refused(order, foot).key, "shoe." + foot + ".sides");
  }
  // All of them at once are all named.
  FootOrder order = worked_sides();
  order.shoe.sides = StockSides{};
  Findings findings;
  EXPECT_FALSE(sides_of(order, Pose::pointed, findings));
  for (const Missing& missing : cases)
    EXPECT_EQ(std::count_if(findings.begin(), findings.end(),
                            [&](const Finding& f) {
                              return f.key == std::string("shoe.left.sides.") + missing.key;
                            }),
              1)
        << missing.key;
}

TEST(SolveSides, AReadingOfOneSideOnlyIsMissedOnTheOther) {
  FootOrder order = worked_sides();
  order.shoe.sides->low.reset();
  order.shoe.sides->medial = StockHeights{};
  order.shoe.sides->medial->low = 41;
  EXPECT_EQ(refused(order).key, "shoe.left.sides.low");
  order.shoe.sides->lateral = StockHeights{};
  order.shoe.sides->lateral->low = 40;
  const auto sides = solved(order);
  ASSERT_TRUE(sides);
  EXPECT_NEAR(sides->medial.stock(*sides->medial.wall.edge().at_station(low_station)), 41, 1e-9);
  EXPECT_NEAR(sides->lateral.stock(*sides->lateral.wall.edge().at_station(low_station)), 40, 1e-9);
}

TEST(SolveSides, WingIsAPartOfFootLengthUnlessGiven) {
  FootOrder order = worked_sides();
  order.shoe.sides->wing_at.reset();
  const auto sides = solved(order); // 158/238 of 238
  ASSERT_TRUE(sides);
  EXPECT_NEAR(sides->medial.wing, Worked(order).wing, 1e-4);
  order.shoe.sides->wing_at = 150;
  const auto nearer = solved(order);
  ASSERT_TRUE(nearer);
  EXPECT_NEAR(nearer->medial.wing, Worked(order).edge.along_at(151), 1e-4);
}

TEST(SolveSides, OneSideOnlyLeavesTheOtherAlone) {
  FootOrder order = worked_sides();
  order.alterations.sides->lateral.reset();
  const auto sides = solved(order);
  const auto both = solved(worked_sides());
  ASSERT_TRUE(sides && both);
  EXPECT_TRUE(sides->medial.is_cut());
  EXPECT_FALSE(sides->lateral.is_cut());
  EXPECT_EQ(sides->lateral.uncovered, 0);
  EXPECT_EQ(sides->lateral.finished_length, sides->lateral.stock_length);
  EXPECT_TRUE(sides->lateral.heights.empty());
  for (double t = 0; t <= sides->lateral.wing; t += 1)
    ASSERT_EQ(sides->lateral.finished(t), sides->lateral.stock(t));
  EXPECT_EQ(sides->medial.finished_length, both->medial.finished_length);
  EXPECT_EQ(sides->medial.uncovered, both->medial.uncovered);
}

TEST(SolveSides, BoardInTheShoeWantsWidthsUpToTheWing) {
  FootOrder order = worked_sides();
  Board& board = order.shoe.board;
  board.state = BoardState::in_shoe;
  board.length.reset();
  board.widths.pop_back();
  EXPECT_EQ(refused(order).key, "shoe.left.board.widths");
  order.shoe.sides->lean_rad.reset();
  order.shoe.sides->width_across = 30;
  EXPECT_EQ(refused(order).key, "shoe.left.board.widths");
  order.shoe.sides->lean_rad = 10 * degree;
  board.widths.push_back({164, 28, 28});
  const auto sides = solved(order);
  const auto loose = solved(worked_sides());
  ASSERT_TRUE(sides && loose);
  // The board ahead of the last width has no effect.
  EXPECT_NEAR(sides->medial.finished_length, loose->medial.finished_length, 1e-6);
  EXPECT_NEAR(sides->lateral.uncovered, loose->lateral.uncovered, 1e-6);
}

// The wing lies at 158 on the foot and at 159 on the board, and the sole's edge is 3 outside the
// board's. Before, an order with a width at 160 was told that its widths were known to 160 only.
TEST(SolveSides, TheLastWidthThatIsAskedForIsEnough) {
  FootOrder order = worked_sides();
  Board& board = order.shoe.board;
  board.state = BoardState::in_shoe;
  board.length.reset();
  board.widths.back().station = 161;
  const Finding error = refused(order);
  EXPECT_EQ(error.allowed, "widths up to 162 or farther");
  EXPECT_NE(error.what.find("known up to 161"), std::string::npos) << error.what;
  EXPECT_NE(error.advice.find("the last one at 162 or farther"), std::string::npos);
  board.widths.back().station = 162;
  EXPECT_TRUE(solved(order));
}

TEST(SolveSides, WhatBothSidesMissIsSaidOnce) {
  FootOrder order = worked_sides();
  order.shoe.board.state = BoardState::in_shoe;
  order.shoe.board.length.reset();
  order.shoe.board.widths.pop_back();
  Findings findings;
  EXPECT_FALSE(sides_of(order, Pose::pointed, findings, "left"));
  EXPECT_EQ(std::count_if(findings.begin(), findings.end(),
                          [](const Finding& f) { return f.key == "shoe.left.board.widths"; }),
            1);
}

TEST(SolveSides, WingBeyondALooseBoardIsAnError) {
  FootOrder order = worked_sides();
  order.shoe.sides->wing_at = 225;
  EXPECT_EQ(refused(order).key, "shoe.left.board.widths");
}

TEST(SolveSides, StationsOutsideTheWallAreNamed) {
  FootOrder order = worked_sides();
  order.shoe.sides->low_at = 170;
  EXPECT_EQ(refused(order).key, "shoe.left.sides.low_at");
  order = worked_sides();
  order.shoe.sides->heights = {{170, 45}};
  EXPECT_EQ(refused(order).key, "shoe.left.sides.heights");
  order.shoe.sides->heights = {{105, 45}};
  EXPECT_EQ(refused(order).key, "shoe.left.sides.heights") << "two heights for one place";
  for (const double at : {30.0, 61.0, 158.0, 200.0}) {
    order = worked_sides();
    order.alterations.sides->deepest_at = at;
    EXPECT_EQ(refused(order).key, "alterations.left.sides.deepest_at") << at;
  }
}

TEST(SolveSides, DeepestPlaceMayBeWishedElsewhere) {
  FootOrder order = worked_sides();
  order.alterations.sides->deepest_at = 110;
  const auto sides = solved(order);
  ASSERT_TRUE(sides);
  const double t = *sides->medial.wall.edge().at_station(111);
  EXPECT_NEAR(sides->medial.profile(t), 5, 1e-12);
  EXPECT_NEAR((sides->medial.profile.rear_to + sides->medial.profile.front_from) / 2, t, 1e-9);
  EXPECT_NEAR(sides->medial.profile.rear_to - sides->medial.profile.rear_from, 30, 1e-9);
}

// Before, an elastic drawstring had nothing left to sew: (top line + 90)/1.1, 0 at either end.
// 20 at each end, and 150 for cotton: common practice, no source.
TEST(SolveSides, AnElasticDrawstringHasEndsToSew) {
  FootOrder order = worked_sides();
  order.shoe.sides->throat = 90;
  order.alterations.sides->drawstring = Drawstring::elastic;
  order.alterations.sides->stretch = 0.1;
  const auto elastic = solved(order);
  ASSERT_TRUE(elastic && elastic->drawstring);
  EXPECT_NEAR(*elastic->drawstring, (elastic->top_line + 90) / 1.1 + 2 * 20, 1e-9);
  order.alterations.sides->drawstring = Drawstring::cotton;
  EXPECT_NEAR(*solved(order)->drawstring, elastic->top_line + 90 + 2 * 150, 1e-9);
}

TEST(SolveSides, StretchyDrawstringIsShorterByItsStretch) {
  // Worn length over 1 + stretch (as in ASTM D4964, from memory): 80 at 25 % is 64.
  FootOrder order = worked_sides();
  EXPECT_FALSE(solved(order)->drawstring) << "the throat is not known";
  order.shoe.sides->throat = 90;
  const auto cotton = solved(order);
  ASSERT_TRUE(cotton && cotton->drawstring);
  EXPECT_GT(*cotton->drawstring, cotton->top_line + 90);
  order.alterations.sides->drawstring = Drawstring::elastic;
  for (const double stretch : {0.1, 0.25, 0.4}) {
    order.alterations.sides->stretch = stretch;
    const auto elastic = solved(order);
    ASSERT_TRUE(elastic && elastic->drawstring);
    EXPECT_NEAR(*elastic->drawstring, (elastic->top_line + 90) / (1 + stretch) + 40, 1e-9);
  }
  const auto at_quarter = [&](double worn) {
    order.alterations.sides->stretch = 0.25;
    order.shoe.sides->throat = worn - cotton->top_line;
    return *solved(order)->drawstring;
  };
  EXPECT_NEAR(at_quarter(480), 384 + 40, 1e-9) << "six times 80 makes six times 64";
}

TEST(SolveSides, StationsCountAsThePoseSays) {
  const FootOrder order = worked_sides();
  FootOrder in_shoe = order; // the same foot, every station read from the shoe's back seam
  const double fold = 6;
  in_shoe.foot.heel_front = measured(61 + fold);
  in_shoe.foot.arch_break.medial = measured(97 + fold);
  in_shoe.foot.arch_break.lateral = measured(93 + fold);
  in_shoe.shoe.sides->low_at = 105 + fold;
  in_shoe.shoe.sides->wing_at = 158 + fold;
  const auto pointed = solved(order);
  const auto shod = solved(in_shoe, Pose::in_shoe);
  ASSERT_TRUE(pointed && shod);
  EXPECT_NEAR(shod->medial.from, pointed->medial.from + fold, 1e-9);
  EXPECT_NEAR(shod->medial.to, pointed->medial.to + fold, 1e-9);
  EXPECT_NEAR(shod->medial.finished_length, pointed->medial.finished_length, 1e-9);
  EXPECT_NEAR(shod->lateral.uncovered, pointed->lateral.uncovered, 1e-9);
  ASSERT_EQ(shod->medial.heights.size(), pointed->medial.heights.size());
  for (std::size_t i = 0; i < shod->medial.heights.size(); ++i) {
    EXPECT_NEAR(shod->medial.heights[i].along, pointed->medial.heights[i].along, 1e-12);
    EXPECT_NEAR(shod->medial.heights[i].station, pointed->medial.heights[i].station + fold, 1e-9);
    EXPECT_NEAR(shod->medial.heights[i].finished, pointed->medial.heights[i].finished, 1e-9);
  }
  in_shoe.alterations.sides->deepest_at = 110 + fold;
  FootOrder elsewhere = order;
  elsewhere.alterations.sides->deepest_at = 110;
  EXPECT_NEAR(solved(in_shoe, Pose::in_shoe)->medial.profile.rear_to,
              solved(elsewhere)->medial.profile.rear_to, 1e-9);
}

TEST(SolveSides, LeftAndRightAreSolvedAlikeAndMirroredSidesExchange) {
  FootOrder order = worked_sides();
  order.shoe.board.widths = {{22, 23.5, 21}, {96, 18, 15.5}, {164, 30, 26.5}};
  order.shoe.sides->lateral = StockHeights{};
  order.shoe.sides->lateral->low = 40;
  const auto left = solved(order, Pose::pointed, "left");
  const auto right = solved(order, Pose::pointed, "right");
  const auto other = solved(mirrored(order));
  ASSERT_TRUE(left && right && other);
  EXPECT_EQ(left->medial.finished_length, right->medial.finished_length);
  EXPECT_EQ(left->lateral.uncovered, right->lateral.uncovered);
  EXPECT_NEAR(left->medial.finished_length, other->lateral.finished_length, 1e-9);
  EXPECT_NEAR(left->lateral.finished_length, other->medial.finished_length, 1e-9);
  EXPECT_NEAR(left->medial.uncovered, other->lateral.uncovered, 1e-9);
  EXPECT_NEAR(left->lateral.uncovered, other->medial.uncovered, 1e-9);
  EXPECT_GT(std::abs(left->medial.finished_length - left->lateral.finished_length), 0.1);
}

TEST(SolveSides, UnlikeLowPointsMakeOneLeanWhicheverSideIsNamedFirst) {
  // Width across goes from wall to wall: exchanging the sides cannot change the lean.
  FootOrder order = worked_sides();
  StockSides& sides = *order.shoe.sides;
  sides.lean_rad.reset();
  sides.low.reset();
  sides.low_at.reset();
  sides.width_across = 25;
  sides.medial = StockHeights{};
  sides.medial->low = 43;
  sides.medial->low_at = 108;
  sides.lateral = StockHeights{};
  sides.lateral->low = 38;
  sides.lateral->low_at = 100;
  const auto one = solved(order);
  const auto other = solved(mirrored(order));
  ASSERT_TRUE(one && other);
  EXPECT_NEAR(one->lean, other->lean, 1e-9);
}

/// 1 − hκ sin(lean) at its least, from the edge's own turn: at 0 two generators meet on the top
/// line, below it the flat wall lies on itself and nobody can cut it out.
double least_spread(const SolvedSide& side) {
  const auto& nodes = side.wall.edge().nodes();
  double least = 1;
  for (std::size_t i = 1; i < nodes.size() && nodes[i].t <= side.wing; ++i) {
    const double curvature =
        (nodes[i].turned - nodes[i - 1].turned) / (nodes[i].t - nodes[i - 1].t);
    least = std::min(least, 1 - side.stock(nodes[i].t) * curvature * std::sin(side.wall.lean()));
  }
  return least;
}

TEST(SolveSides, WallThatWouldFoldOverItselfIsRefused) {
  int tried = 0;
  int refusals = 0;
  std::string folded;
  for (int lean = -10; lean <= 44; ++lean) {
    FootOrder order = worked_sides();
    order.shoe.sides->lean_rad = lean * degree;
    Findings findings;
    const auto sides = sides_of(order, Pose::pointed, findings);
    ++tried;
    if (sides) {
      if (least_spread(sides->medial) <= 0 || least_spread(sides->lateral) <= 0)
        folded += ' ' + std::to_string(lean);
    } else {
      ASSERT_TRUE(has_error(findings)) << lean;
      EXPECT_EQ(findings.back().key, "shoe.left.sides.lean") << lean;
      EXPECT_GT(lean, 16) << "an ordinary lean";
      ++refusals;
    }
  }
  EXPECT_EQ(tried, 55);
  EXPECT_EQ(folded, "") << "leans in degrees at which the wall folds, and is solved";
  EXPECT_GT(refusals, 15) << "at 30 degrees a back of 52 folds at the heel";
}

TEST(SolveSides, HollowTooSharpForTheSoleIsAnErrorNotACrash) {
  // A waist whose edge turns within less than the feather margin: no edge of a sole runs beside it.
  FootOrder order = worked_sides();
  order.shoe.board.widths = {
      {22, 22.5, 22.5}, {90, 20, 20}, {95, 8, 8}, {100, 20, 20}, {164, 28, 28}};
  ASSERT_TRUE(check_board(order.shoe.board, "shoe.left.board").empty())
      << "the board itself is taken";
  Finding error;
  ASSERT_NO_THROW(error = refused(order));
  EXPECT_EQ(error.key, "shoe.left.board.widths");
}

} // namespace
} // namespace shankline::tests::side_cut_test
