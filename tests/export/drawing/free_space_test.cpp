#include "export/drawing/free_space.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::free_space_test {
namespace {

constexpr double step = 2; // mm, of the search

TEST(FreeSpace, FindsTheFirstPlaceBesideWhatIsTaken) {
  FreeSpace from_left({0, 0, 100, 50});
  from_left.take(Box{0, 30, 11, 50});
  const auto left = from_left.find(20, 10, FreeSpace::From::top);
  ASSERT_TRUE(left);
  EXPECT_GE(left->left, 11);
  EXPECT_LT(left->left, 11 + step) << "no whole step farther than needed";
  EXPECT_DOUBLE_EQ(left->top, 50);

  FreeSpace from_right({0, 0, 100, 50});
  from_right.take(Box{89, 0, 100, 20});
  const auto right = from_right.find(20, 10, FreeSpace::From::bottom);
  ASSERT_TRUE(right);
  EXPECT_LE(right->right, 89);
  EXPECT_GT(right->right, 89 - step);
  EXPECT_DOUBLE_EQ(right->bottom, 0);
}

TEST(FreeSpace, UsesTheLastGapOfARowAndTakesIt) {
  FreeSpace space({0, 0, 100, 10});
  space.take(Box{0, 0, 80, 10});
  const auto gap = space.find(20, 10, FreeSpace::From::top);
  ASSERT_TRUE(gap);
  EXPECT_DOUBLE_EQ(gap->left, 80);
  EXPECT_FALSE(space.find(20, 10, FreeSpace::From::top));
}

} // namespace
} // namespace shankline::tests::free_space_test
