#include "geometry/uncertainty/monte_carlo.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <numbers>
#include <span>
#include <stdexcept>
#include <vector>

namespace shankline::tests::monte_carlo_test {
namespace {

double sum(std::span<const double> in) {
  double total = 0;
  for (const double x : in)
    total += x;
  return total;
}

Inputs four(Shape shape, double last = 1) {
  Inputs inputs;
  for (int i = 0; i < 4; ++i)
    inputs.add_own("x", 0, {"x", i == 3 ? last : 1, known, shape, false});
  return inputs;
}

Inputs two_squares(double x1) {
  Inputs inputs;
  inputs.add_own("x1", x1, {"x1", 0.005, known, Shape::normal, false});
  inputs.add_own("x2", 0, {"x2", 0.005, known, Shape::normal, false});
  return inputs;
}
double squares(std::span<const double> in) {
  return 1e6 * (in[0] * in[0] + in[1] * in[1]);
}

// JCGM 101:2008, 9.2, additive model; published figures from memory, the exact ones recomputed.
TEST(MonteCarlo, FourNormals) {
  const Sampled y = sample(four(Shape::normal), sum);
  ASSERT_TRUE(y.settled);
  EXPECT_NEAR(y.mean, 0, 0.05);
  EXPECT_NEAR(y.u, 2.0, 0.05);
  EXPECT_NEAR((y.high - y.low) / 2, 3.92, 0.03);
  EXPECT_NEAR(y.low, -3.92, 0.1);
  EXPECT_NEAR(y.high, 3.92, 0.1);
}

// JCGM 101:2008, 9.4: X1² + X2² at x1 = 0 lies below 150 with probability 0.95 (a chi-squared of
// two degrees of freedom times 25: 25·5.991). First order gives 0 ± 0 there.
TEST(MonteCarlo, AnUpperLimitHoldsWhereFirstDifferencesVanish) {
  const Measurands of_squares = [](std::span<const double> in, std::span<double> out) {
    out[0] = squares(in);
    out[1] = 2 * squares(in);
  };
  const Inputs inputs = two_squares(0);
  const std::vector<double> limits = upper_limits(inputs, of_squares, 2, 40000);
  EXPECT_NEAR(limits[0], 149.79, 3);
  EXPECT_DOUBLE_EQ(limits[1], 2 * limits[0]);
  EXPECT_NEAR(upper_limits(inputs, of_squares, 2, 40000, 0.5)[0], 25 * 2 * std::log(2.0), 1);
  EXPECT_EQ(upper_limits(inputs, of_squares, 2), upper_limits(inputs, of_squares, 2));
  EXPECT_THROW(upper_limits(inputs, of_squares, 2, 0), std::invalid_argument);
}

TEST(MonteCarlo, ADrawWithoutAResultIsBeyondEveryLimit) {
  const auto none_beyond = [](double most) {
    return Measurands([most](std::span<const double> in, std::span<double> out) {
      out[0] = in[0] > most ? std::numeric_limits<double>::quiet_NaN() : in[0];
    });
  };
  Inputs inputs;
  inputs.add_own("x", 0, {"x", 1, known, Shape::normal, false});
  EXPECT_NEAR(upper_limits(inputs, none_beyond(3), 1, 4000)[0], 1.645, 0.1); // normal quantile
  EXPECT_TRUE(std::isinf(upper_limits(inputs, none_beyond(1), 1, 4000)[0]));
}

// The limit is the draw of rank p(n + 1), rounded up, among n: a further draw lies below it with
// a probability of p at least.
TEST(MonteCarlo, AnUpperLimitIsTheDrawOfItsRank) {
  Inputs inputs;
  inputs.add_own("x", 0, {"x", 1, known, Shape::normal, false});
  struct Case {
    std::size_t draws;
    double p;
    std::size_t rank; ///< from 1
  };
  for (const Case& c : {Case{19, 0.95, 19}, Case{99, 0.95, 95}, Case{100, 0.95, 96},
                        Case{9, 0.5, 5}, Case{1, 0.95, 1}, Case{10, 0.95, 10}}) {
    std::vector<double> drawn;
    const Measurands keeping = [&](std::span<const double> in, std::span<double> out) {
      drawn.push_back(in[0]);
      out[0] = in[0];
    };
    const double limit = upper_limits(inputs, keeping, 1, c.draws, c.p).front();
    ASSERT_EQ(drawn.size(), c.draws);
    std::sort(drawn.begin(), drawn.end());
    EXPECT_EQ(limit, drawn[c.rank - 1]) << c.draws << ' ' << c.p;
  }
}

TEST(MonteCarlo, FourRectangles) {
  const Sampled y = sample(four(Shape::rectangular), sum);
  ASSERT_TRUE(y.settled);
  EXPECT_NEAR(y.u, 2.0, 0.05);
  EXPECT_NEAR((y.high - y.low) / 2, 3.879407, 0.03); // normal would be 3.92
}

TEST(MonteCarlo, OneWideRectangleIsNotNormal) {
  const Sampled y = sample(four(Shape::rectangular, 10), sum);
  ASSERT_TRUE(y.settled);
  EXPECT_NEAR(y.u, 10.15, 0.05);
  EXPECT_NEAR((y.high - y.low) / 2, 17.0158, 0.1); // first order says 19.9
}

// JCGM 101:2008, 9.4, from memory, in units of 1e-6.
TEST(MonteCarlo, SquaresAtTheBottom) {
  const Sampled y = sample(two_squares(0), squares);
  ASSERT_TRUE(y.settled);
  EXPECT_NEAR(y.mean, 50, 0.5);
  EXPECT_NEAR(y.u, 50, 0.5);
  EXPECT_NEAR(y.low, 0, 0.5);
  EXPECT_NEAR(y.high, 150, 1);
}

TEST(MonteCarlo, SquaresBesideTheBottom) {
  // To three digits of u as published; a coarser stop would leave 367 open.
  const Sampled y = sample(two_squares(0.010), squares, {.block = 400'000, .most = 2'000'000});
  ASSERT_TRUE(y.settled);
  EXPECT_NEAR(y.mean, 150, 0.5);
  EXPECT_NEAR(y.u, 112, 0.5);
  EXPECT_NEAR(y.low, 0, 0.5);
  EXPECT_NEAR(y.high, 367, 2);
}

// X1² + X2² at 0 is 50 times an exponential of mean 1: its quantiles are −50 ln(1 − p).
TEST(MonteCarlo, EqualTailsLeaveAsMuchBelowAsAbove) {
  const Sampled y =
      sample(two_squares(0), squares, {.interval = IntervalKind::equal_tails, .block = 50'000});
  ASSERT_TRUE(y.settled);
  EXPECT_NEAR(y.low, -50 * std::log(0.975), 0.1);  // 1.27
  EXPECT_NEAR(y.high, -50 * std::log(0.025), 1.5); // 184.4
  EXPECT_NEAR(y.mean, 50, 0.5);
}

TEST(MonteCarlo, EqualTailsOfASymmetricSpreadAreTheShortestAndSettleSooner) {
  const Inputs inputs = four(Shape::normal);
  std::size_t shortest = 0;
  std::size_t equal = 0;
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    const Sampled y = sample(inputs, sum, {.seed = seed, .interval = IntervalKind::equal_tails});
    ASSERT_TRUE(y.settled);
    EXPECT_NEAR(y.low, -3.92, 0.1);
    EXPECT_NEAR(y.high, 3.92, 0.1);
    equal += y.draws;
    shortest += sample(inputs, sum, {.seed = seed}).draws;
  }
  EXPECT_LT(3 * equal, 2 * shortest);
}

TEST(MonteCarlo, EqualTailsAreCountedInDraws) {
  // 10,000 values 0 to 9,999 in any order: 9,500 steps from one end to the other, 250 below, 249
  // above.
  Inputs inputs;
  inputs.add("x", 0, {});
  double next = 0;
  const auto counted = [&](std::span<const double>) {
    next = std::fmod(next + 7'919, 10'000);
    return next;
  };
  const Sampled y = sample(
      inputs, counted, {.interval = IntervalKind::equal_tails, .block = 10'000, .most = 10'000});
  EXPECT_EQ(y.low, 250);
  EXPECT_EQ(y.high, 9'750);
}

TEST(MonteCarlo, MostDrawsEndItUnsettled) {
  const Sampled y = sample(two_squares(0), squares, {.most = 20'000});
  EXPECT_FALSE(y.settled);
  EXPECT_EQ(y.draws, 20'000U);
}

TEST(MonteCarlo, SameSeedSameFigures) {
  const Inputs inputs = four(Shape::normal);
  const SamplingPlan plan{.seed = 7, .most = 50'000};
  const Sampled a = sample(inputs, sum, plan);
  const Sampled b = sample(inputs, sum, plan);
  EXPECT_EQ(a.mean, b.mean);
  EXPECT_EQ(a.high, b.high);
  EXPECT_NE(a.mean, sample(inputs, sum, {.seed = 8, .most = 50'000}).mean);
}

TEST(MonteCarlo, FewDegreesOfFreedomAreStudentsT) {
  // One source drawn as t with ν: the interval is ± t u, and u is √(ν/(ν − 2)) times the scale.
  Inputs inputs;
  inputs.add_own("x", 5, {"x", 1, 6, Shape::normal, false});
  const Sampled y = sample(inputs, sum, {.block = 200'000, .most = 2'000'000});
  EXPECT_NEAR(y.u, std::sqrt(6.0 / 4.0), 0.02);
  EXPECT_NEAR((y.high - y.low) / 2, coverage_factor(6), 0.03);
  EXPECT_NEAR(y.mean, 5, 0.02);
}

TEST(MonteCarlo, SharedSourceCancels) {
  Inputs inputs;
  const std::size_t reader = inputs.add_source(rectangular("reader", 10, true));
  inputs.add("a", 3, {{reader, 1}});
  inputs.add("b", 1, {{reader, 1}});
  const Sampled y =
      sample(inputs, [](std::span<const double> in) { return in[0] - in[1]; }, {.most = 20'000});
  EXPECT_NEAR(y.mean, 2, 1e-12);
  EXPECT_NEAR(y.u, 0, 1e-12);
}

TEST(MonteCarlo, WhatIsKnownSettlesAtOnce) {
  Inputs inputs;
  inputs.add("x", 3, {});
  const Sampled y = sample(inputs, sum);
  EXPECT_TRUE(y.settled);
  EXPECT_EQ(y.draws, 10'000U);
  EXPECT_EQ(y.low, 3);
  EXPECT_EQ(y.high, 3);
}

TEST(MonteCarlo, BlocksTooSmallForTheirIntervalAreRefused) {
  EXPECT_THROW(sample(four(Shape::normal), sum, {.block = 1000}), std::invalid_argument);
}

TEST(MonteCarlo, ToleranceIsHalfOfTheLastDigit) {
  // JCGM 101, 7.9.2 NOTE examples, from memory: 0.000 35 g to two digits is ± 0.000 005.
  EXPECT_NEAR(numerical_tolerance(0.00035, 2), 0.000005, 1e-12);
  EXPECT_NEAR(numerical_tolerance(2, 1), 0.5, 1e-12);
  EXPECT_NEAR(numerical_tolerance(50, 2), 0.5, 1e-12);
  EXPECT_NEAR(numerical_tolerance(9.8, 2), 0.05, 1e-12);
  EXPECT_NEAR(numerical_tolerance(9.96, 2), 0.5, 1e-12); // rounds to 10
  EXPECT_EQ(numerical_tolerance(0, 2), 0);
}

} // namespace
} // namespace shankline::tests::monte_carlo_test
