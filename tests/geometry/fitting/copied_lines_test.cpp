#include "geometry/fitting/copied_lines.hpp"

#include "tests/geometry/random_orders.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace shankline::tests::copied_lines_test {
namespace {

TEST(CopiedLines, CutIsWhatTheNewPairHasMore) {
  const auto copied = copied_trim(measured(158, 1.5), measured(220, 1.5), "left");
  ASSERT_TRUE(copied);
  EXPECT_NEAR(copied->line.value, 62, 1e-12);
  // By hand: two fresh readings, the habit cancelled, wear, print, tracing, knife.
  EXPECT_NEAR(copied->line.u * copied->line.u, 2 * (1 + 2.25) / 3 + 0.75 + 0.25, 1e-9);
}

TEST(CopiedLines, HabitsOfDifferentSizeLeaveTheirDifference) {
  const auto copied = copied_trim(measured(158, 3), measured(220, 1), "left");
  ASSERT_TRUE(copied);
  EXPECT_NEAR(copied->line.u * copied->line.u, 10.0 / 3 + 2.0 / 3 + 1.0 / 3 + 1, 1e-9);
}

TEST(CopiedLines, NothingToCutIsSaid) {
  EXPECT_FALSE(copied_trim(measured(220, 1.5), measured(220, 1.5), "left"));
  EXPECT_FALSE(copied_trim(measured(230, 1.5), measured(220, 1.5), "left"));
}

TEST(CopiedLines, HeightIsTakenOver) {
  const CopiedLine height = copied_height(measured(36, 1.5), "sides.low", "left");
  EXPECT_NEAR(height.line.value, 36, 1e-12);
  EXPECT_NEAR(height.line.u * height.line.u, (1 + 2.25) / 3 + 2.25 / 12 + 0.75 + 0.25, 1e-9);
}

TEST(CopiedLines, PrinterIsSharedBetweenTheFeet) {
  const auto left = copied_trim(measured(158, 1.5), measured(220, 1.5), "left");
  const auto right = copied_trim(measured(160, 1.5), measured(220, 1.5), "right");
  ASSERT_TRUE(left && right);
  const Uncertain apart = difference(left->line, left->sources, right->line, right->sources);
  EXPECT_NEAR(apart.value, 2, 1e-12);
  EXPECT_NEAR(apart.u * apart.u, 2 * (left->line.u * left->line.u - 0.25 / 3), 1e-9);
}

TEST(CopiedLines, IntervalHoldsTheTruth) {
  Draw draw(19);
  int held = 0;
  constexpr int trials = 2000;
  constexpr double h = 1.5;
  for (int i = 0; i < trials; ++i) {
    const double habit = draw.uniform(-h / 2, h / 2);
    const auto read = [&](double truth) {
      return measured(truth + habit + draw.uniform(-1, 1) + draw.uniform(-h, h), h);
    };
    const double kept = draw.uniform(150, 165);
    const double whole = draw.uniform(210, 230);
    const auto copied = copied_trim(read(kept + draw.uniform(-1.5, 1.5)), read(whole), "left");
    ASSERT_TRUE(copied);
    double made = copied->line.value;
    for (int k = 0; k < 3; ++k)
      made += draw.uniform(-0.5, 0.5);
    if (std::abs(made - (whole - kept)) <= copied->line.expanded()) ++held;
  }
  // 93.5 to 98.5 % with three standard errors of 2,000 trials about them.
  EXPECT_GT(static_cast<double>(held) / trials, 0.935 - 0.015);
  EXPECT_LT(static_cast<double>(held) / trials, 0.985 + 0.01);
}

} // namespace
} // namespace shankline::tests::copied_lines_test
