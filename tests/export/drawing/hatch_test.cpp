#include "export/drawing/hatch.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

namespace shankline::tests::hatch_test {
namespace {

double total(const std::vector<Polyline>& lines) {
  double sum = 0;
  for (const Polyline& line : lines)
    sum += length_of(line);
  return sum;
}

TEST(Hatch, CoversAnAreaByItsSpacing) {
  // Line length times spacing approaches the area.
  const Polygon square{{0, 0}, {40, 0}, {40, 40}, {0, 40}};
  EXPECT_NEAR(total(hatch_lines(square, 0.5, {})) * 0.5, 1600, 8);
}

TEST(Hatch, StaysInsideABentArea) {
  const Polygon corner{{0, 0}, {30, 0}, {30, 10}, {10, 10}, {10, 30}, {0, 30}};
  const auto lines = hatch_lines(corner, 1, {});
  ASSERT_FALSE(lines.empty());
  for (const Polyline& line : lines) {
    const Point middle{(line[0].x + line[1].x) / 2, (line[0].y + line[1].y) / 2};
    EXPECT_TRUE(middle.x <= 10 || middle.y <= 10) << middle.x << ' ' << middle.y;
  }
  EXPECT_NEAR(total(lines), 500, 30);
}

TEST(Hatch, LeavesTheSparedBoxesWhite) {
  const Polygon square{{0, 0}, {40, 0}, {40, 40}, {0, 40}};
  const Box spared{10, 10, 30, 20};
  const auto lines = hatch_lines(square, 0.5, {spared, {25, 15, 50, 18}});
  ASSERT_GT(lines.size(), 50u);
  for (const Polyline& line : lines)
    for (int i = 1; i < 20; ++i) {
      const double t = i / 20.0;
      const Point p{line[0].x + t * (line[1].x - line[0].x),
                    line[0].y + t * (line[1].y - line[0].y)};
      EXPECT_FALSE(p.x > 10 && p.x < 30 && p.y > 10 && p.y < 20) << p.x << ' ' << p.y;
    }
  EXPECT_NEAR(total(lines) * 0.5, 1600 - 200 - 10 * 3, 10);
}

// At this spacing a line of hatch runs through every corner.
TEST(Hatch, GoesThroughCornersOnceAndNotPastThem) {
  const double spacing = std::numbers::sqrt2 / 2;
  const Polygon square{{0, 0}, {40, 0}, {40, 40}, {0, 40}};
  const auto lines = hatch_lines(square, spacing, {});
  double wanted = 0;
  for (int k = -40; k <= 40; ++k)
    wanted += (40 - std::abs(k)) * std::numbers::sqrt2;
  EXPECT_NEAR(total(lines), wanted, 1e-6);
  for (const Polyline& line : lines)
    EXPECT_NEAR(length_of(line), (40 - std::abs(line[0].y - line[0].x)) * std::numbers::sqrt2,
                1e-6);

  const Polygon corner{{0, 0}, {30, 0}, {30, 10}, {10, 10}, {10, 30}, {0, 30}};
  const double step = spacing * total(hatch_lines(corner, spacing, {}));
  EXPECT_NEAR(step, 500, 1);
}

TEST(Hatch, SparesABoxThatIsSparedAgainAndAgainOnce) {
  const Polygon square{{0, 0}, {40, 0}, {40, 40}, {0, 40}};
  const Box spared{10, 10, 30, 20};
  const auto once = hatch_lines(square, 0.5, {spared});
  EXPECT_EQ(hatch_lines(square, 0.5, std::vector<Box>(100, spared)), once);
}

TEST(Hatch, HasNothingToDrawForNoArea) {
  EXPECT_TRUE(hatch_lines({}, 1, {}).empty());
}

} // namespace
} // namespace shankline::tests::hatch_test
