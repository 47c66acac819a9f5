// Ribbons and elastics whose ends are sewn to a lowered side.
#include "geometry/solution/solution.hpp"
#include "tests/geometry/sides_of_order.hpp"
#include "tests/geometry/worked_order.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace shankline::tests::sewn_ends_test {
namespace {

Order with_elastic(std::optional<double> sewn_at, std::optional<double> casing) {
  Order order = worked_order();
  *order.left = worked_sides();
  order.left->shoe.sides->casing = casing;
  ElasticWish wish;
  wish.over = 120;
  wish.sewn_at = sewn_at;
  order.left->alterations.elastics = wish;
  return order;
}

bool asks_for_the_casing(const Solution& solution) {
  return std::any_of(solution.findings.begin(), solution.findings.end(), [](const Finding& f) {
    return f.severity == Severity::caution && f.key == "shoe.left.sides.casing";
  });
}

TEST(SewnEnds, StandOnBothSides) {
  const Solution solution = solve(with_elastic(100, 9));
  ASSERT_TRUE(solution.left && solution.left->sides);
  for (const SolvedSide* side : {&solution.left->sides->medial, &solution.left->sides->lateral}) {
    ASSERT_EQ(side->sewn.size(), 1U);
    EXPECT_EQ(side->sewn.front().what, SewnEnd::What::elastic);
  }
}

TEST(SewnEnds, AskForTheCasingOnlyWhereSomethingIsSewnOn) {
  EXPECT_TRUE(asks_for_the_casing(solve(with_elastic(100, {}))));
  EXPECT_FALSE(asks_for_the_casing(solve(with_elastic(100, 9))));
  const Solution unplaced = solve(with_elastic({}, {}));
  ASSERT_TRUE(unplaced.left && unplaced.left->elastics);
  EXPECT_FALSE(unplaced.left->elastics->sewn_at);
  EXPECT_FALSE(asks_for_the_casing(unplaced)) << "the order does not say where";
}

} // namespace
} // namespace shankline::tests::sewn_ends_test
