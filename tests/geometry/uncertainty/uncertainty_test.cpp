#include "geometry/uncertainty/uncertainty.hpp"

#include "tests/geometry/random_orders.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <stdexcept>
#include <vector>

namespace shankline::tests::uncertainty_test {
namespace {

Source normal(std::string name, double u, double freedom = known) {
  return {std::move(name), u, freedom, Shape::normal, false};
}
Source common(std::string name, double u) {
  return {std::move(name), u, known, Shape::normal, true};
}

double sum(std::span<const double> in) {
  double total = 0;
  for (const double x : in)
    total += x;
  return total;
}

// JCGM 100:2008, annex H.1, calibration of an end gauge: l = ls + d − ls (δα θ + αs δθ). Lengths in
// nanometres here.
Uncertain end_gauge() {
  Inputs inputs;
  inputs.add_own("ls", 50.000623e6, normal("ls", 25, 18));
  inputs.add_own("d", 215, normal("d", 9.7, 25.6));
  inputs.add_own("da", 0, {"da", 0.58e-6, 50, Shape::rectangular, false});
  inputs.add_own("theta", -0.1, normal("theta", 0.41));
  inputs.add_own("as", 11.5e-6, {"as", 1.2e-6, known, Shape::rectangular, false});
  inputs.add_own("dtheta", 0, {"dtheta", 0.029, 2, Shape::rectangular, false});
  return propagate(inputs, [](std::span<const double> in) {
    return in[0] + in[1] - in[0] * (in[2] * in[3] + in[4] * in[5]);
  });
}

TEST(Uncertainty, EndGaugeOfTheGuideH1) {
  const Uncertain l = end_gauge();
  EXPECT_NEAR(l.value / 1e6, 50.000838, 0.5e-6);
  EXPECT_NEAR(l.u, 32, 0.5);          // published 32 nm
  EXPECT_NEAR(l.u, 31.7, 0.05);       // recomputed
  EXPECT_NEAR(l.freedom, 16.7, 0.05); // published 16.7, used as 16
  EXPECT_NEAR(coverage_factor(l.freedom, 0.99), 2.92, 0.005);
  EXPECT_NEAR(l.expanded(0.99), 93, 0.5);
}

TEST(Uncertainty, EndGaugeIsMovedByWhatTheGuideSays) {
  // JCGM 100, table H.1: |c_i| u(x_i) in nm: 25, 9.7, 2.9, 16.6 (from rounded figures) and, to
  // first order, 0 twice.
  const std::vector<double> published{25, 9.7, 2.9, 0, 0, 16.6};
  const Uncertain l = end_gauge();
  ASSERT_EQ(l.parts.size(), published.size());
  for (std::size_t i = 0; i < published.size(); ++i)
    EXPECT_NEAR(std::abs(l.parts[i]), published[i], 0.1) << i;
}

TEST(Uncertainty, StudentsTOfTheGuidesTableG2) {
  // JCGM 100:2008, table G.2.
  struct Row {
    double freedom;
    double t95;
    double t9545;
  };
  for (const Row& row : {Row{1, 12.71, 13.97},
                         {2, 4.30, 4.53},
                         {5, 2.57, 2.65},
                         {10, 2.23, 2.28},
                         {16, 2.12, 2.17},
                         {20, 2.09, 2.13},
                         {50, 2.01, 2.05}}) {
    EXPECT_NEAR(coverage_factor(row.freedom), row.t95, 0.005) << row.freedom;
    EXPECT_NEAR(coverage_factor(row.freedom, 0.9545), row.t9545, 0.005) << row.freedom;
  }
  EXPECT_NEAR(coverage_factor(known), 1.960, 0.0005);
  EXPECT_NEAR(coverage_factor(known, 0.9545), 2.000, 0.0005);
  EXPECT_NEAR(coverage_factor(2), 4.303, 0.0005);
  EXPECT_NEAR(coverage_factor(5), 2.571, 0.0005);
  EXPECT_NEAR(coverage_factor(10), 2.228, 0.0005);
  EXPECT_NEAR(coverage_factor(16), 2.120, 0.0005);
}

TEST(Uncertainty, DegreesOfFreedomAreCutDownToWholeOnes) {
  EXPECT_EQ(coverage_factor(16.99), coverage_factor(16));
  EXPECT_GT(coverage_factor(16.99), coverage_factor(17));
  EXPECT_GT(coverage_factor(0.8), coverage_factor(1));
  EXPECT_NEAR(coverage_factor(999'999), coverage_factor(known), 1e-5);
}

TEST(Uncertainty, FourRectanglesAndOneWideOne) {
  // JCGM 101:2008, 9.2 (from memory): first order gives 2.00, ± 3.92, and 10.15, ± 19.9.
  const double half = std::numbers::sqrt3;
  Inputs even;
  Inputs wide;
  for (int i = 0; i < 4; ++i) {
    even.add_own("x", 0, rectangular("x", half));
    wide.add_own("x", 0, rectangular("x", i == 3 ? 10 * half : half));
  }
  const Uncertain y = propagate(even, sum);
  EXPECT_NEAR(y.u, 2.00, 0.005);
  EXPECT_NEAR(y.expanded(), 3.92, 0.005);
  const Uncertain z = propagate(wide, sum);
  EXPECT_NEAR(z.u, 10.15, 0.005);
  EXPECT_NEAR(z.expanded(), 19.9, 0.05);
}

TEST(Uncertainty, SquaresAreBeyondFirstOrder) {
  // JCGM 101:2008, 9.4 (from memory), in units of 1e-6: 0 ± 0 at the bottom, 100 with u 100 beside.
  for (const double x1 : {0.0, 0.010}) {
    Inputs inputs;
    inputs.add_own("x1", x1, normal("x1", 0.005));
    inputs.add_own("x2", 0, normal("x2", 0.005));
    const Uncertain y =
        propagate(inputs, [](std::span<const double> in) { return in[0] * in[0] + in[1] * in[1]; });
    EXPECT_NEAR(y.value * 1e6, x1 == 0 ? 0 : 100, 1e-9);
    EXPECT_NEAR(y.u * 1e6, x1 == 0 ? 0 : 100, 1e-6);
  }
}

TEST(Uncertainty, SharedSourceCancelsInADifferenceAndDoublesInASum) {
  Inputs inputs;
  const std::size_t own_a = inputs.add_source(normal("a", 3));
  const std::size_t own_b = inputs.add_source(normal("b", 4));
  const std::size_t tape = inputs.add_source(common("tape", 12));
  EXPECT_EQ(inputs.add_source(common("tape", 12)), tape);
  inputs.add("a", 10, {{own_a, 1}, {tape, 1}});
  inputs.add("b", 7, {{own_b, 1}, {tape, 1}});
  const Propagation both =
      propagate(inputs, Measurands([](std::span<const double> in, std::span<double> out) {
                  out[0] = in[0] - in[1];
                  out[1] = in[0] + in[1];
                }),
                2);
  EXPECT_NEAR(both.results[0].u, 5, 1e-9);
  EXPECT_NEAR(both.results[1].u, std::sqrt(25 + 24 * 24), 1e-9);
  EXPECT_NEAR(both.sensitivity(0, 1), -1, 1e-9);
  // cov(a − b, a + b) = var a − var b
  EXPECT_NEAR(covariance(both.results[0], both.results[1]), 9 - 16, 1e-9);
}

TEST(Uncertainty, DifferenceOfTwoCalculationsEqualsOneCalculation) {
  const auto foot = [](double own, double value) {
    Inputs inputs;
    const std::size_t mine = inputs.add_source(normal("own", own, 9));
    const std::size_t reader = inputs.add_source(common("reader", 2));
    inputs.add("x", value, {{mine, 1}, {reader, 1.5}});
    return inputs;
  };
  const Inputs left = foot(1, 60);
  const Inputs right = foot(2, 57);
  const auto twice = [](std::span<const double> in) { return 2 * in[0]; };
  const auto thrice = [](std::span<const double> in) { return 3 * in[0]; };
  const Uncertain apart =
      difference(propagate(left, twice), left.sources(), propagate(right, thrice), right.sources());

  Inputs both;
  const std::size_t reader = both.add_source(common("reader", 2));
  both.add("l", 60, {{both.add_source(normal("l", 1, 9)), 1}, {reader, 1.5}});
  both.add("r", 57, {{both.add_source(normal("r", 2, 9)), 1}, {reader, 1.5}});
  const Uncertain whole =
      propagate(both, [](std::span<const double> in) { return 2 * in[0] - 3 * in[1]; });
  EXPECT_NEAR(apart.value, whole.value, 1e-9);
  EXPECT_NEAR(apart.u, whole.u, 1e-9);
  EXPECT_NEAR(apart.freedom, whole.freedom, 1e-6);
  EXPECT_NEAR(apart.u, std::hypot(2.0, 6.0, 3.0), 1e-9); // own 2·1 and 3·2, reader (2 − 3)·3
}

TEST(Uncertainty, DegreesOfFreedomGoByTheSource) {
  // Two inputs that share one poorly known source are as poorly known together.
  Inputs inputs;
  const std::size_t one = inputs.add_source({"s", 1, 5, Shape::normal, true});
  inputs.add("a", 0, {{one, 1}});
  inputs.add("b", 0, {{one, 1}});
  const Uncertain y = propagate(inputs, sum);
  EXPECT_NEAR(y.u, 2, 1e-9);
  EXPECT_NEAR(y.freedom, 5, 1e-9);
}

TEST(Uncertainty, FirstOrderOfRandomQuadraticsIsTheirGradient) {
  Draw draw(57);
  for (int i = 0; i < 200; ++i) {
    const double a = draw.uniform(-2, 2), b = draw.uniform(-2, 2), c = draw.uniform(-2, 2);
    const double x = draw.uniform(-5, 5), y = draw.uniform(-5, 5);
    const double ux = draw.uniform(0.1, 1), uy = draw.uniform(0.1, 1);
    Inputs inputs;
    inputs.add_own("x", x, normal("x", ux));
    inputs.add_own("y", y, normal("y", uy));
    const Uncertain z = propagate(inputs, [&](std::span<const double> in) {
      return a * in[0] * in[0] + b * in[0] * in[1] + c * in[1];
    });
    ASSERT_NEAR(z.u, std::hypot((2 * a * x + b * y) * ux, (b * x + c) * uy), 1e-8);
  }
}

TEST(Uncertainty, WhatIsKnownHasNoDoubtAndIsNotMoved) {
  Inputs inputs;
  inputs.add("fixed", 3, {});
  inputs.add_own("exact", 4, normal("exact", 0));
  int calls = 0;
  const Uncertain y = propagate(inputs, [&](std::span<const double> in) {
    ++calls;
    return in[0] * in[1];
  });
  EXPECT_EQ(calls, 1);
  EXPECT_EQ(y.value, 12);
  EXPECT_EQ(y.expanded(), 0);
}

TEST(Uncertainty, SourcesThatAreNoneAreRefused) {
  Inputs inputs;
  inputs.add_source(common("tape", 1));
  EXPECT_THROW(inputs.add_source(common("tape", 2)), std::invalid_argument);
  EXPECT_THROW(inputs.add_source(normal("negative", -1)), std::invalid_argument);
  EXPECT_THROW(inputs.add_source(normal("nan", std::nan(""))), std::invalid_argument);
  EXPECT_THROW(inputs.add_source(normal("no freedom", 1, 0)), std::invalid_argument);
  EXPECT_EQ(inputs.sources().size(), 1U);
}

TEST(Uncertainty, ToldApartOnlyBeyondU) {
  const Source source = normal("s", 1);
  const double U = coverage_factor(known);
  EXPECT_TRUE(told_apart(combine(U + 1e-9, {1}, {&source, 1})));
  EXPECT_TRUE(told_apart(combine(-U - 1e-9, {1}, {&source, 1})));
  EXPECT_FALSE(told_apart(combine(U - 1e-9, {1}, {&source, 1})));
}

// Shares of two sources, taken 2 and 3 times: u = √((2 · 0.4)² + (3 · 0.5)²) = 1.7.
TEST(Inputs, HaveTheRootOfTheSumOfTheirSharesSquares) {
  Inputs inputs;
  const std::size_t a = inputs.add_source(normal("a", 0.4));
  const std::size_t b = inputs.add_source(normal("b", 0.5));
  const std::size_t both = inputs.add("both", 10, {{a, 2}, {b, -3}});
  EXPECT_NEAR(inputs.u(both), 1.7, 1e-12);
}

} // namespace
} // namespace shankline::tests::uncertainty_test
