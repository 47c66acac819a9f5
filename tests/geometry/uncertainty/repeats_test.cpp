#include "geometry/uncertainty/repeats.hpp"

#include "geometry/solution/solution.hpp"
#include "tests/geometry/worked_order.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

namespace shankline::tests::repeats_test {
namespace {

// Percentage points of the studentized range, infinite degrees of freedom: Pearson and Hartley,
// Biometrika Tables for Statisticians, table 29 (values from memory).
TEST(Repeats, RangeMeetsThePublishedTable) {
  struct Row {
    std::size_t count;
    double upper_5;
    double upper_1;
  };
  for (const Row& row : {Row{2, 2.77, 3.64}, Row{3, 3.31, 4.12}, Row{4, 3.63, 4.40},
                         Row{5, 3.86, 4.60}, Row{10, 4.47, 5.16}}) {
    EXPECT_NEAR(range_probability(row.count, row.upper_5), 0.95, 0.0015) << row.count;
    EXPECT_NEAR(range_probability(row.count, row.upper_1), 0.99, 0.0005) << row.count;
  }
}

// For two the range is √2 |z|: 2.807 √2.
TEST(Repeats, RangeOfTwoIsTheClosedForm) {
  EXPECT_NEAR(largest_range(2), 2.807034 * std::sqrt(2.0), 1e-4);
  EXPECT_NEAR(range_probability(2, 1), std::erf(0.5), 1e-9);
}

// Before: heel_front [61, 30] moved the cut from 62.0 to 46.5 without a word.
TEST(Repeats, ASlipIsNamed) {
  const double taking = std::sqrt((1 + 9) / 3.0); // half-width 3
  const double edge = largest_range(2) * taking;
  EXPECT_FALSE(contradiction({{61, 61 + edge - 0.01}, 3, false, 0, {}}));
  EXPECT_TRUE(contradiction({{61, 61 + edge + 0.01}, 3, false, 0, {}}));
  const auto three = contradiction({{61, 30, 62}, 3, false, 0, {}});
  ASSERT_TRUE(three);
  EXPECT_EQ(three->odd_one, 30);
  EXPECT_FALSE(contradiction({{238, 238, 238.5}, 1, false, 0, {}}));
  EXPECT_FALSE(contradiction({{61}, 3, false, 0, {}}));

  Order order = worked_order();
  order.left->foot.heel_front = Reading{{61, 69}, 3, false, 0, {}};
  const Solution solution = solve(order);
  ASSERT_TRUE(solution.left);
  EXPECT_TRUE(std::any_of(solution.findings.begin(), solution.findings.end(), [](const Finding& f) {
    return f.key == "feet.left.heel_front" && f.what.find("(61, 69)") != std::string::npos &&
           f.allowed.find("once in 200 times") != std::string::npos;
  }));
}

// A length is found to 1 only: 0.816 is the scatter of one taking, and 3.97 of that is 3.24.
TEST(Repeats, ASlipIsNamedWhereReadingsScatterLittleToo) {
  const double edge = largest_range(2) * std::sqrt(2.0 / 3);
  EXPECT_NEAR(edge, 3.24, 0.005);
  EXPECT_FALSE(contradiction({{238, 238 + edge - 0.01}, 1, false, 0, {}}));
  EXPECT_TRUE(contradiction({{238, 238 + edge + 0.01}, 1, false, 0, {}}));
}

TEST(Repeats, OfTheShoeAreToldInMillimetres) {
  Order order = worked_order();
  order.left->shoe.board.inset = Reading{{5, 25}, 1.5, false, 0, {}};
  const Findings found = doubtful_readings(*order.left, order, "left");
  const auto inset = std::find_if(found.begin(), found.end(), [](const Finding& f) {
    return f.key == "shoe.left.board.inset";
  });
  ASSERT_NE(inset, found.end());
  EXPECT_NE(inset->what.find("(5, 25) lie 20 apart"), std::string::npos) << inset->what;
  // 3.97 times the scatter of one taking, the root of (1 + 1.5²)/3.
  EXPECT_NE(inset->allowed.find("up to 4.1 apart"), std::string::npos) << inset->allowed;
}

TEST(Repeats, OfMarkAndBoardLengthCount) {
  Order order = worked_order();
  auto U = [&] { return solve(order).left->trim->doubt.board.expanded(); };
  order.left->alterations.shank->rule = MarkRule{measured(60, 1), {}};
  const double once = U();
  std::get<MarkRule>(order.left->alterations.shank->rule).mark.values = {60, 60, 60};
  EXPECT_LT(U(), 0.95 * once);
  order.left->alterations.shank->rule = KeepRule{0.7};
  order.left->shoe.board.length = measured(220, 3);
  const double single = U();
  order.left->shoe.board.length->values = {220, 220, 220};
  EXPECT_LT(U(), 0.95 * single);
}

} // namespace
} // namespace shankline::tests::repeats_test
