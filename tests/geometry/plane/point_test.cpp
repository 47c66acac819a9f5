#include "geometry/plane/point.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::point_test {
namespace {

// Every edge counts, the one that closes the outline too.
TEST(DistanceFromOutline, IsThatToTheNearestEdgeWhicheverItIs) {
  const Polygon triangle{{0, 0}, {40, 0}, {0, 30}}; // its sides are 40, 50 and 30 long
  EXPECT_NEAR(distance_from_outline(triangle, {20, -3}), 3, 1e-12);
  EXPECT_NEAR(distance_from_outline(triangle, {20 + 3, 15 + 4}), 5, 1e-12) << "square to 3-4-5";
  EXPECT_NEAR(distance_from_outline(triangle, {-2, 15}), 2, 1e-12) << "the closing edge";
  EXPECT_NEAR(distance_from_outline(triangle, {1, 12}), 1, 1e-12) << "from inside as well";
  EXPECT_NEAR(distance_from_outline(triangle, {43, -4}), 5, 1e-12) << "a corner";
  const Polygon house{{0, 0}, {20, 0}, {20, 10}, {10, 18}, {0, 10}};
  EXPECT_NEAR(distance_from_outline(house, {-6, 5}), 6, 1e-12);
  EXPECT_NEAR(distance_from_outline(house, {26, 5}), 6, 1e-12);
}

TEST(OutlineExtent, IsThatOfItsFarthestPoints) {
  const OutlineExtent extent = outline_extent({{-3, 1}, {5, -2}, {4, 9}});
  EXPECT_DOUBLE_EQ(extent.along_x, 8);
  EXPECT_DOUBLE_EQ(extent.along_y, 11);
}

} // namespace
} // namespace shankline::tests::point_test
