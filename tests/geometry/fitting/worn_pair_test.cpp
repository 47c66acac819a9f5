// Lines copied from a worn pair, and the order that is cut at them.
#include "geometry/fitting/worn_pair.hpp"

#include "geometry/fitting/matched_lines.hpp"
#include "geometry/solution/solution.hpp"
#include "tests/geometry/sides_of_order.hpp"
#include "tests/geometry/worked_order.hpp"

#include <cmath>
#include <gtest/gtest.h>

namespace shankline::tests::worn_pair_test {
namespace {

WornPair left_only(WornFoot foot) {
  return {"", "", "", std::move(foot), {}};
}

/// A repeated reading, so that its scatter is pooled.
Reading taken(std::vector<double> values, double finding) {
  Reading reading;
  reading.values = std::move(values);
  reading.finding = finding;
  return reading;
}

TEST(WornPair, CutsWhereTheWornBoardEnds) {
  const Order order = worked_order();
  WornFoot foot;
  foot.board_end = measured(168, 1);
  foot.heel_end = measured(231, 1);
  Findings findings;
  const MatchedOrder matched = copy_lines(order, left_only(foot), findings);
  ASSERT_FALSE(has_error(findings));
  const auto& rule = matched.order.left->alterations.shank->rule;
  ASSERT_TRUE(std::holds_alternative<MarkRule>(rule));
  EXPECT_DOUBLE_EQ(std::get<MarkRule>(rule).mark.value(), 231.0 - 168.0);
  const Solution solution = solve(matched.order);
  ASSERT_TRUE(solution.left && solution.left->trim);
  EXPECT_NEAR(solution.left->trim->final_cut.centre, 63, 1e-9);
}

// U of the cut by hand. Each reading of half-width h = 1: σ0² = (1 + 1)/3, one taking, so that
// u² = σ0², and its habit (1/2) cancels between the two; wear ± 1.5; print, tracing, knife ± 0.5
// each; all rectangular.
// The new shoe's stock stands at 52 at the back, 41 at the low point.
TEST(WornPair, LowersTheSidesToWhereTheWornOnesStand) {
  Order order;
  order.left = worked_sides();
  order.left->alterations.sides.reset();
  WornFoot foot;
  foot.medial = measured(37.5, 1);
  foot.lateral = measured(40.8, 1);
  Findings findings;
  const MatchedOrder matched = copy_lines(order, left_only(foot), findings);
  ASSERT_FALSE(has_error(findings));
  ASSERT_TRUE(matched.order.left->alterations.sides);
  const SideWish& wish = *matched.order.left->alterations.sides;
  EXPECT_EQ(wish.medial, 3.5);
  EXPECT_EQ(wish.lateral, 0) << "0.2 lower: no knife takes off less than 0.5";
  EXPECT_EQ(wish.back, 0) << "not measured";

  foot.medial = measured(41.6, 1);
  Findings refused;
  copy_lines(order, left_only(foot), refused);
  EXPECT_TRUE(has_error(refused)) << "a worn side that stands higher than the new one";
}

TEST(WornPair, UOfTheCutIsThatOfTheTransfer) {
  const Order order = worked_order();
  WornFoot foot;
  foot.board_end = measured(168, 1);
  foot.heel_end = measured(231, 1);
  Findings findings;
  const MatchedOrder matched = copy_lines(order, left_only(foot), findings);
  const Solution solution = solve(matched.order);
  ASSERT_TRUE(solution.left && solution.left->trim);
  const double by_hand = std::sqrt(2 * 2.0 / 3 + 1.5 * 1.5 / 3 + 3 * 0.5 * 0.5 / 3);
  EXPECT_NEAR(solution.left->trim->doubt.board.u, by_hand, 1e-9);
  EXPECT_NEAR(matched.left->trim->line.u, by_hand, 1e-9);
}

TEST(WornPair, RepeatsMakeTheCopySurer) {
  const Order order = worked_order();
  WornFoot once;
  once.board_end = measured(168, 1);
  once.heel_end = measured(231, 1);
  WornFoot often = once;
  often.board_end = taken({168, 168.2, 167.8}, 1);
  often.heel_end = taken({231, 231.1, 230.9}, 1);
  Findings findings;
  const double u_once = copy_lines(order, left_only(once), findings).left->trim->line.u;
  const double u_often = copy_lines(order, left_only(often), findings).left->trim->line.u;
  EXPECT_LT(u_often, 0.9 * u_once);
}

TEST(WornPair, AMarkByHandKeepsItsOwnDoubt) {
  Order order = worked_order();
  order.left->alterations.shank->rule = MarkRule{measured(63, 1), {}};
  const Solution by_hand = solve(order);
  ASSERT_TRUE(by_hand.left && by_hand.left->trim);
  // The mark alone, ± 1 tape and ± 1 finding with its habit, carried by three of ± 0.5.
  EXPECT_NEAR(by_hand.left->trim->doubt.board.u, std::sqrt(2.0 / 3 + 0.25 / 3 + 3 * 0.25 / 3),
              1e-9);
}

struct RefusedPair {
  const char* name;
  WornFoot foot;
  const char* key;
};

WornFoot ends(std::optional<double> board, std::optional<double> heel) {
  WornFoot foot;
  if (board) foot.board_end = measured(*board, 1);
  if (heel) foot.heel_end = measured(*heel, 1);
  return foot;
}

TEST(WornPair, RefusesWhatCannotBeCopiedByName) {
  const Order order = worked_order();
  for (const RefusedPair& refusal :
       {RefusedPair{"only the worn length", ends(168, {}), "left.heel_end"},
        RefusedPair{"only the new length", ends({}, 231), "left.board_end"},
        RefusedPair{"nothing would come off", ends(232, 231), "left.board_end"}}) {
    Findings findings;
    copy_lines(order, left_only(refusal.foot), findings);
    ASSERT_EQ(findings.size(), 1u) << refusal.name;
    EXPECT_EQ(findings[0].severity, Severity::error) << refusal.name;
    EXPECT_EQ(findings[0].key, refusal.key) << refusal.name;
  }
}

TEST(WornPair, AFootThatTheOrderDoesNotHaveIsNamed) {
  Order order = worked_order();
  order.right.reset();
  WornPair worn;
  worn.right = ends(168, 231);
  Findings findings;
  copy_lines(order, worn, findings);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].key, "right");
}

TEST(MatchedLines, StandBesideTheModelWithTheUOfTheDifference) {
  const Order order = worked_order();
  Findings findings;
  const MatchedOrder matched = copy_lines(order, left_only(ends(168, 231)), findings);
  const Solution model = solve(order);
  const MatchedLines lines = matched_lines(matched, model);
  ASSERT_EQ(lines.size(), 1u);
  ASSERT_TRUE(lines[0].apart && lines[0].model);
  EXPECT_DOUBLE_EQ(lines[0].apart->value, 63 - *lines[0].model);
  // One printer draws both: its share cancels in the difference.
  const double a = matched.left->trim->line.u;
  const double b = model.left->trim->doubt.board.u;
  EXPECT_NEAR(lines[0].apart->u, std::sqrt(a * a + b * b - 2 * 0.25 / 3), 1e-9);
}

} // namespace
} // namespace shankline::tests::worn_pair_test
