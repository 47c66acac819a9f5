#include "geometry/foot/arch.hpp"

#include "tests/geometry/arch_by_quadrature.hpp"
#include "tests/geometry/polygon_checks.hpp"
#include "tests/geometry/random_orders.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

namespace shankline::tests::arch_test {
namespace {

constexpr double degree = std::numbers::pi / 180;

struct RandomArch {
  double ball;
  double break_at;
  double heel_front;
  double bend;

  Arch arch() const { return arch_of_foot(ball, break_at, heel_front, bend); }
  BruteArch brute() const { return brute_arch(ball, break_at, heel_front, bend); }
};

RandomArch random_arch(Draw& draw) {
  RandomArch foot{};
  foot.ball = draw.uniform(140, 210);
  foot.heel_front = draw.uniform(0.3, 0.42) * foot.ball;
  foot.break_at = foot.heel_front + draw.uniform(0.2, 0.6) * (foot.ball - foot.heel_front);
  foot.bend = draw.uniform(8, 60) * degree;
  return foot;
}

BruteArch same(const Arch& arch) {
  return {arch.to_break, arch.to_chord_end, arch.width_front, arch.width_heel, arch.bend};
}

TEST(Arch, OfAnOrdinaryFootReachesFromBallToHeelFront) {
  const Arch arch = arch_of_foot(172, 95, 61, 0.5);
  EXPECT_DOUBLE_EQ(arch.to_break, 77);
  EXPECT_DOUBLE_EQ(arch.width_front, 77);
  EXPECT_DOUBLE_EQ(arch.width_heel, 34);
  EXPECT_DOUBLE_EQ(arch.to_chord_end, 172 - 30.5);
  EXPECT_EQ(arch.bend, 0.5);
}

TEST(Arch, CurvatureIsTheRaisedCosine) {
  const Arch arch = arch_of_foot(172, 95, 61, 0.5);
  EXPECT_NEAR(curvature(arch, 0), 0, 1e-17);
  EXPECT_NEAR(curvature(arch, 77), 0.5 * 2 / 111, 1e-15);
  EXPECT_NEAR(curvature(arch, 38.5), 0.5 / 111, 1e-15) << "half the peak half-way";
  EXPECT_NEAR(curvature(arch, 94), 0.5 / 111, 1e-15);
  EXPECT_NEAR(curvature(arch, 111), 0, 1e-17);
  EXPECT_EQ(curvature(arch, 130), 0) << "the heel pad is straight";
  EXPECT_EQ(curvature(arch, -5), 0);
  const BruteArch brute = same(arch);
  for (double u = 0; u < 172; u += 0.9)
    EXPECT_NEAR(curvature(arch, u), brute.curvature(u), 1e-16);
}

TEST(Arch, CurvatureAddsUpToTheBend) {
  Draw draw(31);
  for (int i = 0; i < 200; ++i) {
    const RandomArch foot = random_arch(draw);
    const Arch arch = foot.arch();
    const auto k = [&](double u) { return curvature(arch, u); };
    const double whole = simpson(k, 0, arch.to_break, 500) +
                         simpson(k, arch.to_break, foot.ball - foot.heel_front, 500);
    EXPECT_NEAR(whole, foot.bend, 1e-10);
    EXPECT_NEAR(tangent_angle(arch, foot.ball - foot.heel_front), foot.bend, 1e-13);
    EXPECT_NEAR(tangent_angle(arch, foot.ball), foot.bend, 1e-13) << "and stays so under the heel";
  }
}

TEST(Arch, TangentAngleIsTheIntegralOfTheCurvature) {
  Draw draw(32);
  for (int i = 0; i < 50; ++i) {
    const RandomArch foot = random_arch(draw);
    const Arch arch = foot.arch();
    const BruteArch brute = foot.brute();
    const auto k = [&](double u) { return brute.curvature(u); };
    EXPECT_NEAR(tangent_angle(arch, 0), 0, 1e-15);
    for (int j = 1; j <= 10; ++j) {
      const double u = foot.ball * j / 10.0;
      const double split = std::min(u, arch.to_break);
      const double end = std::min(u, foot.ball - foot.heel_front);
      double integral = simpson(k, 0, split, 400);
      if (end > split) integral += simpson(k, split, end, 400);
      EXPECT_NEAR(tangent_angle(arch, u), integral, 1e-10) << u;
    }
  }
}

TEST(Arch, SolePointIsTheIntegralOfItsDirection) {
  Draw draw(33);
  for (int i = 0; i < 40; ++i) {
    const RandomArch foot = random_arch(draw);
    const Arch arch = foot.arch();
    constexpr int steps = 6000;
    const BruteSole sole = trace(foot.brute(), foot.ball, steps);
    const Point start = sole_point(arch, 0);
    EXPECT_EQ(start.x, 0);
    EXPECT_EQ(start.y, 0);
    const double side = sole_point(arch, foot.ball).y < 0 ? -1 : 1; // which way it bends is free
    for (std::size_t j = 300; j <= steps; j += 300) {
      const Point p = sole_point(arch, sole.u[j]);
      ASSERT_NEAR(p.x, sole.place[j].x, 1e-8) << sole.u[j];
      ASSERT_NEAR(side * p.y, sole.place[j].y, 1e-8) << sole.u[j];
    }
  }
}

TEST(Arch, SoleKeepsItsLength) {
  const Arch arch = arch_of_foot(172, 95, 61, 27 * degree);
  constexpr int strips = 20000;
  double length = 0;
  Point before = sole_point(arch, 0);
  for (int i = 1; i <= strips; ++i) {
    const Point here = sole_point(arch, 172.0 * i / strips);
    length += distance(before, here);
    before = here;
  }
  EXPECT_NEAR(length, 172, 1e-6);
}

TEST(Arch, DepthIsTheLargestGapUnderTheStraightedge) {
  Draw draw(34);
  for (int i = 0; i < 80; ++i) {
    RandomArch foot = random_arch(draw);
    if (i % 4 == 0) foot.bend = draw.uniform(60, 120) * degree;
    const ArchDepth found = arch_depth(foot.arch());
    const BruteDepth brute = brute_depth(foot.brute());
    EXPECT_NEAR(found.depth, brute.depth, 1e-7) << i;
    EXPECT_NEAR(found.at_u, brute.at_u, 1e-4) << i;
  }
}

TEST(Arch, WorkedFootHasItsKnownDepthAndDeepestPoint) {
  // Recomputed apart from this code: bend 26.94° gives 12.5, deepest 103.25 from the heel's back.
  const ArchDepth depth = arch_depth(arch_of_foot(172, 95, 61, 26.94 * degree));
  EXPECT_NEAR(depth.depth, 12.5, 0.005);
  EXPECT_NEAR(172 - depth.at_u, 103.25, 0.01);
}

TEST(Arch, SameDepthMeansAnotherBendWhereTheStraightedgeEndsElsewhere) {
  // Depth 12.5, ball 172, break 95, heel front 61; recomputed with another program: 22.2° touching
  // at the very back, 26.9° on mid-pad, 38.9° at the pad's front.
  Arch arch = arch_of_foot(172, 95, 61, 0.1);
  struct Case {
    double chord_end_at; ///< from the back of the heel
    double degrees;
  };
  for (const Case& c : {Case{0, 22.2}, Case{30.5, 26.9}, Case{61, 38.9}}) {
    arch.to_chord_end = 172 - c.chord_end_at;
    const std::optional<double> bend = bend_from_depth(arch, 12.5);
    ASSERT_TRUE(bend) << c.chord_end_at;
    EXPECT_NEAR(*bend / degree, c.degrees, 0.05) << c.chord_end_at;
    EXPECT_NEAR(*bend, brute_bend(same(arch), 12.5), 1e-7);
  }
}

TEST(Arch, NarrowArchTendsToTheHingeFromBelow) {
  // W → 0: two straight arms a and c hinged by Θ, depth a·c·sin Θ/√(a² + c² + 2ac cos Θ), the
  // distance of the hinge from the chord. The round corner of width W stays about 0.15·W·Θ short
  // of it (the mean of |s| over half a raised cosine, 0.1487; derived by hand).
  const double a = 77;
  const double c = 64.5;
  for (const double bend : {10 * degree, 25 * degree, 40 * degree}) {
    const double limit =
        a * c * std::sin(bend) / std::sqrt(a * a + c * c + 2 * a * c * std::cos(bend));
    double before = 0;
    for (const double width : {32.0, 16.0, 8.0, 4.0, 1.0, 0.1}) {
      const ArchDepth found = arch_depth(Arch{a, a + c, width, width, bend});
      EXPECT_LT(found.depth, limit);
      EXPECT_GT(found.depth, before) << "nearer with every narrowing";
      before = found.depth;
      EXPECT_NEAR((limit - found.depth) / (width * bend), 0.15, 0.01) << width;
    }
    EXPECT_NEAR(before, limit, 0.016 * bend);
  }
}

TEST(Arch, DepthGrowsWithTheBend) {
  Draw draw(35);
  for (int i = 0; i < 60; ++i) {
    RandomArch foot = random_arch(draw);
    double before = 0;
    for (int step = 1; step <= 45; ++step) {
      foot.bend = 2 * step * degree;
      const double depth = arch_depth(foot.arch()).depth;
      ASSERT_GT(depth, before) << 2 * step << "°";
      before = depth;
    }
  }
}

TEST(Arch, BendFromDepthUndoesTheDepth) {
  Draw draw(36);
  for (int i = 0; i < 300; ++i) {
    const RandomArch foot = random_arch(draw);
    const double depth = arch_depth(foot.arch()).depth;
    Arch asked = foot.arch();
    asked.bend = 0; // what it is asked for does not depend on what it was
    const std::optional<double> bend = bend_from_depth(asked, depth);
    ASSERT_TRUE(bend) << i;
    ASSERT_NEAR(*bend, foot.bend, 1e-9) << i;
  }
}

TEST(Arch, NoBendGivesADepthBeyondTheLargestOne) {
  const Arch arch = arch_of_foot(172, 95, 61, 0.3);
  const double most = brute_depth(brute_arch(172, 95, 61, largest_bend)).depth;
  EXPECT_TRUE(bend_from_depth(arch, most - 0.01));
  EXPECT_FALSE(bend_from_depth(arch, most + 0.01));
  EXPECT_FALSE(bend_from_depth(arch, 500));
  EXPECT_FALSE(bend_from_depth(arch, -1));
  EXPECT_FALSE(bend_from_depth(arch, std::numeric_limits<double>::quiet_NaN()));
}

TEST(Arch, BreakAndBendFollowFromDepthAndDeepestPoint) {
  Draw draw(37);
  int tried = 0;
  for (int i = 0; i < 300; ++i) {
    const RandomArch foot = random_arch(draw);
    const ArchDepth depth = arch_depth(foot.arch());
    const std::optional<BreakAndBend> found =
        break_from_deepest(foot.ball, foot.heel_front, depth.depth, foot.ball - depth.at_u);
    ASSERT_TRUE(found) << i;
    ASSERT_NEAR(found->break_at, foot.break_at, 1e-6) << i;
    ASSERT_NEAR(found->bend, foot.bend, 1e-6) << i;
    ++tried;
  }
  EXPECT_EQ(tried, 300);
}

// The break is looked for between a few places; one that lies exactly there is found as well. Its
// deepest point is worked out by the same functions, so that what is left over there is nothing.
TEST(Arch, ABreakAtATriedPlaceIsFound) {
  constexpr double ball = 172;
  constexpr double heel_front = 61;
  constexpr double depth = 12.5;
  int tried = 0;
  for (int i = 12; i <= 36; ++i) {
    const double at = heel_front + (ball - heel_front) * i / 48;
    Arch arch = arch_of_foot(ball, at, heel_front, 0);
    const auto bend = bend_from_depth(arch, depth);
    if (!bend) continue;
    arch.bend = *bend;
    const auto found = break_from_deepest(ball, heel_front, depth, ball - arch_depth(arch).at_u);
    ASSERT_TRUE(found) << i;
    EXPECT_NEAR(found->break_at, at, 1e-6) << i;
    ++tried;
  }
  EXPECT_GT(tried, 20);
}

TEST(Arch, AnErrorInTheDeepestPointIsAboutThreefoldInTheBreak) {
  const auto low = break_from_deepest(172, 61, 12.5, 102.75);
  const auto high = break_from_deepest(172, 61, 12.5, 103.75);
  ASSERT_TRUE(low);
  ASSERT_TRUE(high);
  EXPECT_NEAR(high->break_at - low->break_at, 3, 0.7);
}

TEST(Arch, DeepestRangeIsWhereABreakIsFound) {
  for (const double depth : {2.0, 12.5, 25.0}) {
    const auto range = deepest_range(172, 61, depth);
    ASSERT_TRUE(range) << depth;
    EXPECT_LT(range->least, range->most) << depth;
    // By five millimetres, and by tenths about both ends of the range.
    for (int tenth = 0; tenth <= 1720; ++tenth) {
      const double at = tenth / 10.0;
      const bool at_an_end = std::abs(at - range->least) < 0.5 || std::abs(at - range->most) < 0.5;
      if (tenth % 50 != 0 && !at_an_end) continue;
      const bool inside = at > range->least && at < range->most;
      ASSERT_EQ(break_from_deepest(172, 61, depth, at).has_value(), inside) << depth << ' ' << at;
    }
  }
  EXPECT_FALSE(deepest_range(172, 61, 200));
  const double most = largest_depth(172, 61);
  EXPECT_TRUE(deepest_range(172, 61, most - 0.01));
  EXPECT_FALSE(deepest_range(172, 61, most + 0.01));
}

TEST(Arch, NoArchHasADeepestPointBesideTheStraightedge) {
  for (const double at : {172.5, 300.0, 20.0, -10.0, 171.9, 31.0})
    EXPECT_FALSE(break_from_deepest(172, 61, 12.5, at)) << at;
  EXPECT_FALSE(break_from_deepest(172, 61, 200, 103));
  EXPECT_FALSE(break_from_deepest(172, 61, -4, 103));
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_FALSE(break_from_deepest(172, 61, nan, 103));
  EXPECT_FALSE(break_from_deepest(172, 61, 12.5, nan));
}

} // namespace
} // namespace shankline::tests::arch_test
