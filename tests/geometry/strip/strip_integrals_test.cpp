// Integrals along the strip against closed forms, and a bevel against sums of many small steps.
#include "geometry/strip/strip_integrals.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>

namespace shankline::tests::strip_integrals_test {
namespace {

Strip square_ended() {
  Strip strip;
  strip.board = 70000;
  strip.sole = 4000;
  strip.board_end = 200;
  return strip;
}

// One stiffness all along, and a pull that grows from p0 at 30 by s for each mm: over t from there
// S = p0 t²/2 + s t³/6, which bends the strip by its integrals.
TEST(StripIntegrals, OfAnEvenStripUnderAGrowingPullAreItsPolynomials) {
  const Strip strip = square_ended();
  const double p0 = 0.02, p1 = 0.08, s = (p1 - p0) / 100;
  const StripIntegrals integrals(strip, {{30, 130, p0, p1}}, 0, 200);
  const double c = 1 / (strip.board + strip.sole);
  for (const double u : {31.0, 80.0, 130.0}) {
    const double t = u - 30;
    const StripIntegral at = integrals.at(u);
    EXPECT_NEAR(at.even_slope, c * u, 1e-15);
    EXPECT_NEAR(at.even_shape, c * u * u / 2, 1e-13);
    EXPECT_NEAR(at.lever_slope, c * u * u / 2, 1e-13);
    EXPECT_NEAR(at.lever_shape, c * u * u * u / 6, 1e-11);
    EXPECT_NEAR(at.pull_force, p0 * t + s * t * t / 2, 1e-12);
    EXPECT_NEAR(at.pull_moment, p0 * t * t / 2 + s * t * t * t / 6, 1e-10);
    const double slope = -c * (p0 * std::pow(t, 3) / 6 + s * std::pow(t, 4) / 24);
    const double shape = -c * (p0 * std::pow(t, 4) / 24 + s * std::pow(t, 5) / 120);
    EXPECT_NEAR(at.load_slope, slope, 1e-12 * std::abs(slope) + 1e-18);
    EXPECT_NEAR(at.load_shape, shape, 1e-12 * std::abs(shape) + 1e-18);
  }
  // Past the pull its moment goes on growing by its force.
  const double force = (p0 + p1) / 2 * 100;
  EXPECT_NEAR(integrals.at(180).pull_force, force, 1e-12);
  EXPECT_NEAR(integrals.at(180).pull_moment, integrals.at(130).pull_moment + 50 * force, 1e-9);
}

TEST(StripIntegrals, OfABevelAreTheSumsOfSmallSteps) {
  Strip strip = square_ended();
  strip.board_end = 120;
  strip.bevel = 30;
  strip.edge_ratio = 0.25;
  const double p0 = 0.03, p1 = 0.01;
  const StripIntegrals integrals(strip, {{80, 130, p0, p1}}, 0, 200);
  double even_slope = 0, even_shape = 0, lever_shape = 0, load_slope = 0, load_shape = 0;
  constexpr double h = 0.001;
  for (int i = 0; i < 119000; ++i) {
    const double u = (i + 0.5) * h;
    const double t = std::max(0.0, u - 80);
    const double moment = p0 * t * t / 2 + (p1 - p0) / 50 * t * t * t / 6;
    const double over = 1 / bending_stiffness(strip, u);
    even_shape += h * (even_slope + h / 2 * over);
    lever_shape += h * (119 - u) * u * over;
    load_shape += h * (load_slope - h / 2 * over * moment);
    even_slope += h * over;
    load_slope -= h * over * moment;
  }
  const StripIntegral at = integrals.at(119);
  EXPECT_NEAR(at.even_slope, even_slope, 1e-7 * even_slope);
  EXPECT_NEAR(at.even_shape, even_shape, 1e-7 * even_shape);
  EXPECT_NEAR(at.lever_shape, lever_shape, 1e-7 * lever_shape);
  EXPECT_NEAR(at.load_slope, load_slope, 1e-6 * std::abs(load_slope));
  EXPECT_NEAR(at.load_shape, load_shape, 1e-6 * std::abs(load_shape));
}

} // namespace
} // namespace shankline::tests::strip_integrals_test
