#include "geometry/plane/flatten.hpp"

#include "tests/geometry/polygon_checks.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace shankline::tests::flatten_test {
namespace {

// The short way from begin to end, whichever way round that is.
TEST(FlattenArc, RunsTheShortWayAroundItsCentre) {
  constexpr double degree = std::numbers::pi / 180;
  constexpr double error = 0.02;
  const Point centre{3, -2};
  constexpr double radius = 6;
  const auto at = [&](double angle) {
    return Point{centre.x + radius * std::cos(angle), centre.y + radius * std::sin(angle)};
  };
  for (const double from : {0.0, 100 * degree, 170 * degree})
    for (const double turn : {90 * degree, -90 * degree, 20 * degree, -150 * degree}) {
      const Polyline arc = flatten_arc(centre, at(from), at(from + turn), error);
      ASSERT_GE(arc.size(), 2U);
      EXPECT_NEAR(distance(arc.front(), at(from)), 0, 1e-12);
      EXPECT_NEAR(distance(arc.back(), at(from + turn)), 0, 1e-12);
      const auto steps = static_cast<double>(arc.size() - 1);
      for (std::size_t i = 0; i < arc.size(); ++i)
        EXPECT_NEAR(distance(arc[i], at(from + turn * static_cast<double>(i) / steps)), 0, 1e-9)
            << from << ' ' << turn << ' ' << i;
      const double sagitta = radius * (1 - std::cos(turn / steps / 2));
      EXPECT_LE(sagitta, error + 1e-12);
      const double with_one_less = radius * (1 - std::cos(turn / (steps - 1) / 2));
      EXPECT_GT(with_one_less, error) << "more points than the error asks for";
    }
}

} // namespace
} // namespace shankline::tests::flatten_test
