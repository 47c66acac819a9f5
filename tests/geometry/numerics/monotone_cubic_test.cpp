#include "geometry/numerics/monotone_cubic.hpp"

#include "tests/geometry/random_orders.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <vector>

namespace shankline::tests::monotone_cubic_test {
namespace {

// Fritsch and Carlson, SIAM J. Numer. Anal. 17 (1980) 238–246, data RPN 14.
const std::vector<double> rpn_x{7.99, 8.09, 8.19, 8.7, 9.2, 10, 12, 15, 20};
const std::vector<double> rpn_y{0,        2.76429e-5, 4.37498e-2, 0.169183, 0.469428,
                                0.943740, 0.998636,   0.999919,   0.999994};

struct Data {
  std::vector<double> x;
  std::vector<double> y;
};

/// Between 2 and 12 points with very uneven gaps.
Data random_abscissae(Draw& draw) {
  Data data;
  const std::size_t count = 2 + draw.below(11);
  double x = draw.uniform(-50, 50);
  for (std::size_t i = 0; i < count; ++i) {
    data.x.push_back(x);
    x += std::exp(draw.uniform(-4, 4));
  }
  return data;
}

Data random_monotone(Draw& draw, bool rising) {
  Data data = random_abscissae(draw);
  double y = draw.uniform(-10, 10);
  for (std::size_t i = 0; i < data.x.size(); ++i) {
    data.y.push_back(y);
    const double step = draw.chance(0.15) ? 0.0 : std::exp(draw.uniform(-6, 4));
    y += rising ? step : -step;
  }
  return data;
}

Data random_data(Draw& draw) {
  Data data = random_abscissae(draw);
  for (std::size_t i = 0; i < data.x.size(); ++i)
    data.y.push_back(draw.chance(0.1) && i > 0 ? data.y.back() : draw.normal(0, 20));
  return data;
}

double between(double a, double b, double fraction) {
  return a + (b - a) * fraction;
}

TEST(MonotoneCubic, KeepsThePublishedStepMonotoneAndWithinItsData) {
  const MonotoneCubic curve(rpn_x, rpn_y);
  for (std::size_t i = 0; i < rpn_x.size(); ++i)
    EXPECT_NEAR(curve(rpn_x[i]), rpn_y[i], 1e-14);
  double before = curve(7.99);
  for (int i = 1; i <= 40000; ++i) {
    const double x = between(7.99, 20.0, i / 40000.0);
    const double y = curve(x);
    ASSERT_GE(y, before - 1e-15) << "falls at " << x;
    ASSERT_GE(y, 0) << x;
    ASSERT_LE(y, 0.999994) << x; // a natural spline goes to 1.1012 at 10.876
    before = y;
  }
}

TEST(MonotoneCubic, IsMonotoneOnRandomMonotoneData) {
  Draw draw(11);
  int tried = 0;
  int flat_pieces = 0;
  for (int set = 0; set < 500; ++set) {
    const bool rising = set % 2 == 0;
    const Data data = random_monotone(draw, rising);
    const MonotoneCubic curve(data.x, data.y);
    for (std::size_t i = 0; i + 1 < data.x.size(); ++i) {
      if (data.y[i] == data.y[i + 1]) ++flat_pieces;
      const double room = 1e-13 * (1 + std::abs(data.y[i]) + std::abs(data.y[i + 1]));
      double before = curve(data.x[i]);
      for (int k = 1; k <= 60; ++k) {
        const double y = curve(between(data.x[i], data.x[i + 1], k / 60.0));
        if (rising)
          ASSERT_GE(y, before - room) << "set " << set;
        else
          ASSERT_LE(y, before + room) << "set " << set;
        before = y;
        ++tried;
      }
    }
  }
  EXPECT_GT(tried, 100000);
  EXPECT_GT(flat_pieces, 100);
}

TEST(MonotoneCubic, NeverLeavesTheBandOfTwoNeighbouringPoints) {
  Draw draw(12);
  int pieces = 0;
  for (int set = 0; set < 500; ++set) {
    const Data data = random_data(draw);
    const MonotoneCubic curve(data.x, data.y);
    for (std::size_t i = 0; i + 1 < data.x.size(); ++i) {
      const double low = std::min(data.y[i], data.y[i + 1]);
      const double high = std::max(data.y[i], data.y[i + 1]);
      const double room = 1e-12 * (1 + std::abs(low) + std::abs(high));
      for (int k = 0; k <= 60; ++k) {
        const double y = curve(between(data.x[i], data.x[i + 1], k / 60.0));
        ASSERT_GE(y, low - room) << "set " << set << " piece " << i;
        ASSERT_LE(y, high + room) << "set " << set << " piece " << i;
      }
      ++pieces;
    }
  }
  EXPECT_GT(pieces, 2000);
}

TEST(MonotoneCubic, SlopesStayInTheCircleOfRadiusThree) {
  // Fritsch and Carlson, SIAM J. Numer. Anal. 17 (1980), region of monotonicity α² + β² ≤ 9.
  Draw draw(13);
  int limited = 0;
  int pieces = 0;
  for (int set = 0; set < 500; ++set) {
    const Data data = random_data(draw);
    const MonotoneCubic curve(data.x, data.y);
    ASSERT_EQ(curve.slopes().size(), data.x.size());
    for (std::size_t i = 0; i + 1 < data.x.size(); ++i) {
      const double chord = (data.y[i + 1] - data.y[i]) / (data.x[i + 1] - data.x[i]);
      const double left = curve.slopes()[i];
      const double right = curve.slopes()[i + 1];
      ++pieces;
      if (chord == 0) {
        ASSERT_EQ(left, 0);
        ASSERT_EQ(right, 0);
        continue;
      }
      ASSERT_GE(left / chord, 0);
      ASSERT_GE(right / chord, 0);
      const double radius = std::hypot(left / chord, right / chord);
      ASSERT_LE(radius, 3 + 1e-9);
      if (radius > 3 - 1e-9) ++limited;
    }
  }
  EXPECT_GT(pieces, 2000);
  EXPECT_GT(limited, 50) << "no data set put the limit to work";
}

TEST(MonotoneCubic, IsExactOnStraightLines) {
  Draw draw(14);
  for (int set = 0; set < 100; ++set) {
    Data data = random_abscissae(draw);
    const double slope = draw.normal(0, 3);
    const double height = draw.normal(0, 30);
    for (const double x : data.x)
      data.y.push_back(height + slope * x);
    const MonotoneCubic curve(data.x, data.y);
    for (int k = 1; k < 40; ++k) {
      const double x = between(data.x.front(), data.x.back(), k / 40.0);
      const double exact = height + slope * x;
      ASSERT_NEAR(curve(x), exact, 1e-10 * (1 + std::abs(exact)));
      ASSERT_NEAR(curve.slope(x), slope, 1e-8 * (1 + std::abs(slope)));
    }
  }
}

TEST(MonotoneCubic, SlopeIsContinuousAndTheDerivativeOfTheCurve) {
  const std::vector<double> x{22, 58, 96, 130, 164};
  const std::vector<double> y{22.5, 18.5, 16.5, 23, 28};
  const MonotoneCubic curve(x, y);
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double here = curve.slopes()[i];
    constexpr double step = 1e-5;
    EXPECT_NEAR(curve.slope(x[i]), here, 1e-12);
    if (i > 0) {
      EXPECT_NEAR((curve(x[i]) - curve(x[i] - step)) / step, here, 1e-5) << x[i];
      EXPECT_NEAR(curve.slope(x[i] - step), here, 1e-5) << x[i];
    }
    if (i + 1 < x.size()) {
      EXPECT_NEAR((curve(x[i] + step) - curve(x[i])) / step, here, 1e-5) << x[i];
      EXPECT_NEAR(curve.slope(x[i] + step), here, 1e-5) << x[i];
    }
  }
  for (double at = 22.37; at < 164; at += 1.71) {
    constexpr double step = 1e-4;
    EXPECT_NEAR((curve(at + step) - curve(at - step)) / (2 * step), curve.slope(at), 1e-6) << at;
  }
}

TEST(MonotoneCubic, InnerSlopesAreThoseOfTheParabolaThroughThreePoints) {
  const MonotoneCubic curve({0, 1, 3, 4}, {0, 1, 9, 16}); // y = x², gaps uneven
  EXPECT_NEAR(curve.slopes()[1], 2, 1e-12);
  EXPECT_NEAR(curve.slopes()[2], 6, 1e-12);
}

TEST(MonotoneCubic, HoldsItsEndValuesBeyondTheEnds) {
  const MonotoneCubic curve({10, 20, 40}, {3, 5, 12});
  EXPECT_EQ(curve(9), 3);
  EXPECT_EQ(curve(-1000), 3);
  EXPECT_EQ(curve(41), 12);
  EXPECT_EQ(curve.slope(9.999), 0);
  EXPECT_EQ(curve.slope(40.001), 0);
  EXPECT_GT(curve.slope(20), 0);
}

TEST(MonotoneCubic, TakesTheEndSlopesItIsGiven) {
  const std::vector<double> x{0, 10, 20, 30};
  const std::vector<double> y{0, 10, 22, 30};
  const MonotoneCubic flat(x, y, 0.0, 0.0);
  EXPECT_EQ(flat.slope(0), 0);
  EXPECT_EQ(flat.slope(30), 0);
  EXPECT_LT(flat(0.1), 0.01);
  const MonotoneCubic given(x, y, 0.7, 0.4);
  EXPECT_NEAR(given.slope(0), 0.7, 1e-12);
  EXPECT_NEAR(given.slope(30), 0.4, 1e-12);
  const MonotoneCubic free(x, y);
  EXPECT_GT(std::abs(free.slope(0) - 0.7), 0.05);
  // The inner slopes are three-point ones and do not change with the ends.
  EXPECT_NEAR(given.slopes()[1], free.slopes()[1], 1e-12);
}

TEST(MonotoneCubic, LimitsAGivenEndSlopeThatWouldOvershoot) {
  const std::vector<double> x{0, 10, 20};
  const std::vector<double> y{0, 1, 5};
  for (const double wanted : {-4.0, 40.0}) {
    const MonotoneCubic curve(x, y, wanted);
    for (int k = 0; k <= 1000; ++k) {
      const double value = curve(k / 100.0);
      ASSERT_GE(value, -1e-12) << wanted;
      ASSERT_LE(value, 1 + 1e-12) << wanted;
    }
  }
}

TEST(MonotoneCubic, RefusesWhatIsNoCurve) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  constexpr double infinity = std::numeric_limits<double>::infinity();
  EXPECT_THROW(MonotoneCubic({}, {}), std::invalid_argument);
  EXPECT_THROW(MonotoneCubic({1}, {1}), std::invalid_argument);
  EXPECT_THROW(MonotoneCubic({1, 2, 3}, {1, 2}), std::invalid_argument);
  EXPECT_THROW(MonotoneCubic({1, 1}, {1, 2}), std::invalid_argument);
  EXPECT_THROW(MonotoneCubic({1, 3, 2}, {1, 2, 3}), std::invalid_argument);
  EXPECT_THROW(MonotoneCubic({1, nan, 3}, {1, 2, 3}), std::invalid_argument);
  EXPECT_THROW(MonotoneCubic({1, 2, 3}, {1, nan, 3}), std::invalid_argument);
  EXPECT_THROW(MonotoneCubic({1, 2, infinity}, {1, 2, 3}), std::invalid_argument);
  EXPECT_NO_THROW(MonotoneCubic({1, 2}, {1, 2}));
}

} // namespace
} // namespace shankline::tests::monotone_cubic_test
