#include "geometry/plane/superellipse.hpp"

#include "tests/geometry/polygon_checks.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <tuple>
#include <vector>

namespace shankline::tests::superellipse_test {
namespace {

struct Measures {
  double perimeter;
  double area;
};

/// Four quarter curves as chords, from parameters.
Measures by_parameter(double a, double b, double exponent) {
  constexpr int strips = 200000;
  double quarter_length = 0;
  double quarter_area = 0;
  SuperellipsePoint before = superellipse_at(0, exponent);
  for (int i = 1; i <= strips; ++i) {
    const SuperellipsePoint here = superellipse_at(i / static_cast<double>(strips), exponent);
    quarter_length += std::hypot(a * (here.x - before.x), b * (here.y - before.y));
    quarter_area += 0.5 * a * b * (before.x * here.y - before.y * here.x);
    before = here;
  }
  return {4 * quarter_length, 4 * quarter_area};
}

/// Measures the curve from heights over x. The curve is its own mirror image about x/a = y/b, so
/// the half up to the diagonal, where it is flat, gives both.
Measures by_height(double a, double b, double exponent) {
  constexpr int strips = 200000;
  const double diagonal = std::pow(0.5, 1 / exponent);
  double quarter_length = 0;
  double quarter_area = 0;
  double x0 = 0;
  double y0 = superellipse(0, exponent);
  for (int i = 1; i <= strips; ++i) {
    const double x1 = diagonal * i / strips;
    const double y1 = superellipse(x1, exponent);
    quarter_length += std::hypot(a * (x1 - x0), b * (y1 - y0));
    quarter_length += std::hypot(b * (x1 - x0), a * (y1 - y0));
    quarter_area += a * b * (y0 * x1 - x0 * y1);
    x0 = x1;
    y0 = y1;
  }
  return {4 * quarter_length, 4 * quarter_area};
}

class SuperellipseMeasures
    : public ::testing::TestWithParam<std::tuple<double, double, double, double, double>> {};

TEST_P(SuperellipseMeasures, PerimeterAndAreaMeetTheRecomputedFigures) {
  const auto [a, b, exponent, perimeter, area] = GetParam();
  for (const Measures& found : {by_parameter(a, b, exponent), by_height(a, b, exponent)}) {
    EXPECT_NEAR(found.perimeter, perimeter, 1e-6 * a);
    EXPECT_NEAR(found.area, area, 1e-6 * a * b);
  }
  EXPECT_NEAR(superellipse_perimeter(a, b, exponent), perimeter, 1e-6);
  EXPECT_NEAR(superellipse_area(a, b, exponent), area, 1e-6);
}

// Perimeters and areas recomputed apart from this code: of ellipses by elliptic integrals, of the
// others by quadrature. Areas have the closed form 4ab Γ(1 + 1/n)²/Γ(1 + 2/n) (formula from
// memory), perimeters have none.
INSTANTIATE_TEST_SUITE_P(Recomputed, SuperellipseMeasures,
                         ::testing::Values(std::tuple{2.0, 1.0, 2.0, 9.68844822, 6.283185},
                                           std::tuple{60.0, 35.0, 2.0, 303.64115781, 6597.344573},
                                           std::tuple{1.0, 1.0, 2.5, 6.546705, 3.380935},
                                           std::tuple{1.0, 1.0, 4.0, 7.017698, 3.708149},
                                           std::tuple{30.0, 20.0, 2.5, 164.914833, 2028.561218}));

TEST(Superellipse, AreaMeetsTheGammaFunctionForm) {
  for (const double exponent : {1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 6.0}) {
    const double exact =
        4 * std::pow(std::tgamma(1 + 1 / exponent), 2) / std::tgamma(1 + 2 / exponent);
    EXPECT_NEAR(by_parameter(1, 1, exponent).area, exact, 1e-7) << exponent;
  }
}

TEST(Superellipse, ExponentTwoIsTheCircle) {
  for (int i = 0; i <= 100; ++i) {
    const double x = i / 100.0;
    EXPECT_NEAR(superellipse(x, 2), std::sqrt(1 - x * x), 1e-15);
  }
}

TEST(Superellipse, BothFunctionsTraceTheSameCurve) {
  for (const double exponent : {2.0, 2.5, 4.0}) {
    for (int i = 0; i <= 1000; ++i) {
      const SuperellipsePoint p = superellipse_at(i / 1000.0, exponent);
      // On the curve, and at the height that the other function gives (sideways near the end, where
      // the curve stands upright).
      EXPECT_NEAR(std::pow(p.x, exponent) + std::pow(p.y, exponent), 1, 1e-13);
      if (p.x < p.y)
        EXPECT_NEAR(superellipse(p.x, exponent), p.y, 1e-13);
      else
        EXPECT_NEAR(superellipse(p.y, exponent), p.x, 1e-13);
    }
  }
}

TEST(Superellipse, QuarterRunsFromTheEndToTheTop) {
  const SuperellipsePoint end = superellipse_at(0, 2.5);
  const SuperellipsePoint top = superellipse_at(1, 2.5);
  EXPECT_NEAR(end.x, 1, 1e-15);
  EXPECT_NEAR(end.y, 0, 1e-6);
  EXPECT_NEAR(top.x, 0, 1e-6);
  EXPECT_NEAR(top.y, 1, 1e-15);
  SuperellipsePoint before = end;
  for (int i = 1; i <= 500; ++i) {
    const SuperellipsePoint here = superellipse_at(i / 500.0, 2.5);
    EXPECT_LT(here.x, before.x);
    EXPECT_GT(here.y, before.y);
    before = here;
  }
}

TEST(Superellipse, IsEvenAndEndsAtItsHalfWidth) {
  EXPECT_EQ(superellipse(0, 2.5), 1);
  EXPECT_EQ(superellipse(1, 2.5), 0);
  EXPECT_EQ(superellipse(-1, 2.5), 0);
  EXPECT_EQ(superellipse(1.5, 2.5), 0);
  EXPECT_EQ(superellipse(-7, 2.5), 0);
  for (const double x : {0.1, 0.5, 0.93})
    EXPECT_EQ(superellipse(x, 2.5), superellipse(-x, 2.5));
}

} // namespace
} // namespace shankline::tests::superellipse_test
