// When a line runs through a box, and when it only touches it.
#include "export/drawing/box.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::box_test {
namespace {

constexpr Box box{1, 1, 3, 2};

bool both_ways(const Point& a, const Point& b) {
  EXPECT_EQ(runs_through(a, b, box), runs_through(b, a, box));
  return runs_through(a, b, box);
}

TEST(RunsThrough, ALineInsideOrAcross) {
  EXPECT_TRUE(both_ways({0, 1.5}, {4, 1.5}));
  EXPECT_TRUE(both_ways({1.2, 1.2}, {1.4, 1.3})) << "all of it inside";
  EXPECT_TRUE(both_ways({0, 0.4}, {1.7, 2.1})) << "cuts a corner off";
}

TEST(RunsThrough, NotALineThatTouchesAnEdgeOrACorner) {
  EXPECT_FALSE(both_ways({0, 1}, {4, 1})) << "along the bottom";
  EXPECT_FALSE(both_ways({3, 0}, {3, 4})) << "along the right";
  EXPECT_FALSE(both_ways({0, 2}, {2, 0})) << "through the corner at the bottom left";
  EXPECT_FALSE(both_ways({0, 1}, {2, 3})) << "through the corner at the top left";
  EXPECT_FALSE(both_ways({2, 3}, {4, 1})) << "through the corner at the top right";
  EXPECT_FALSE(both_ways({2, 0}, {4, 2})) << "through the corner at the bottom right";
}

TEST(RunsThrough, NotALineBesideABox) {
  EXPECT_FALSE(both_ways({0, 0}, {4, 0}));
  EXPECT_FALSE(both_ways({0, 1.5}, {1.5, -1}));
}

} // namespace
} // namespace shankline::tests::box_test
