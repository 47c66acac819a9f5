#include "geometry/numerics/bracketed_root.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <limits>

namespace shankline::tests::bracketed_root_test {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

TEST(BracketedRoot, OfFunctionsWhoseRootIsKnown) {
  struct Case {
    double (*f)(double);
    double from, to, root;
  };
  const Case cases[] = {
      {[](double x) { return x * x - 2; }, 0, 2, std::sqrt(2.0)},
      {[](double x) { return 2 - x * x; }, 0, 2, std::sqrt(2.0)},
      {[](double x) { return std::cos(x); }, 1, 2, std::acos(0.0)},
      {[](double x) { return x * x * x; }, -1, 2, 0},
      {[](double x) { return x - 1; }, 1, 5, 1},
      {[](double x) { return x - 5; }, 1, 5, 5},
  };
  for (const Case& c : cases) {
    const auto root = bracketed_root(c.f, c.from, c.to);
    ASSERT_TRUE(root) << c.root;
    EXPECT_NEAR(*root, c.root, 1e-14);
    EXPECT_EQ(root, bracketed_root(c.f, c.from, c.to, c.f(c.from), c.f(c.to)));
  }
}

TEST(BracketedRoot, AsksOfTheEndsOnlyWhenItHasTo) {
  int asked_at_an_end = 0;
  const auto f = [&](double x) {
    if (x == 0 || x == 2) ++asked_at_an_end;
    return x * x - 2;
  };
  EXPECT_TRUE(bracketed_root(f, 0, 2, -2, 2));
  EXPECT_EQ(asked_at_an_end, 0);
  EXPECT_TRUE(bracketed_root(f, 0, 2));
  EXPECT_EQ(asked_at_an_end, 2);
}

TEST(BracketedRoot, NothingWhereTheSignDoesNotChange) {
  EXPECT_FALSE(bracketed_root([](double x) { return x * x + 1; }, -1, 1));
  EXPECT_FALSE(bracketed_root([](double x) { return -1 - x * x; }, -1, 1));
}

TEST(BracketedRoot, NothingWhereTheFunctionIsNoNumber) {
  EXPECT_FALSE(bracketed_root([](double x) { return x < 0 ? nan : x - 1; }, -1, 2));
  EXPECT_FALSE(bracketed_root([](double x) { return x > 1 ? nan : x - 0.5; }, 0, 2));
  EXPECT_FALSE(bracketed_root([](double) { return nan; }, 0, 2));
  // In between: what lies about the root cannot be told.
  EXPECT_FALSE(bracketed_root([](double x) { return std::abs(x - 1) < 0.4 ? nan : x - 1; }, 0, 2));
}

} // namespace
} // namespace shankline::tests::bracketed_root_test
