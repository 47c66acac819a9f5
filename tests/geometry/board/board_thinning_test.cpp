#include "geometry/board/board_thinning.hpp"

#include "tests/geometry/worked_order.hpp"

#include <gtest/gtest.h>

#include <string>

namespace shankline::tests::board_thinning_test {
namespace {

Board loose_board() {
  return worked_order().left->shoe.board; // 220 long, 3.2 thick
}

/// The key of the one error, or nothing if the stretch is accepted.
std::string refused_for(const Board& board, const ThinWish& wish) {
  Findings findings;
  const auto solved = solve_thinning(board, wish, "left", findings);
  EXPECT_EQ(solved.has_value(), findings.empty());
  EXPECT_LE(findings.size(), 1U);
  return findings.empty() ? std::string() : findings.front().key.text();
}

TEST(Thinning, MayRunUpToTheEndOfALooseBoardAndNoFarther) {
  EXPECT_EQ(refused_for(loose_board(), {70, 100, 1.8}), "");
  EXPECT_EQ(refused_for(loose_board(), {70, 220, 1.8}), "") << "to its very end";
  EXPECT_EQ(refused_for(loose_board(), {70, 220.1, 1.8}), "alterations.left.thinned.to");
  Board in_shoe = loose_board();
  in_shoe.state = BoardState::in_shoe;
  in_shoe.length.reset();
  EXPECT_EQ(refused_for(in_shoe, {70, 230, 1.8}), "") << "its end is not known";
}

TEST(Thinning, EndsAheadOfItsBeginningAndTakesSomethingOff) {
  EXPECT_EQ(refused_for(loose_board(), {70, 70, 1.8}), "alterations.left.thinned.to");
  EXPECT_EQ(refused_for(loose_board(), {70, 70.1, 1.8}), "");
  EXPECT_EQ(refused_for(loose_board(), {70, 100, 3.2}), "alterations.left.thinned.thickness");
  EXPECT_EQ(refused_for(loose_board(), {70, 100, 3.1}), "");
}

TEST(Thinning, LeavesItsShareOfTheThickness) {
  Findings findings;
  const auto solved = solve_thinning(loose_board(), {70, 100, 1.6}, "left", findings);
  ASSERT_TRUE(solved);
  EXPECT_EQ(solved->from, 70);
  EXPECT_EQ(solved->to, 100);
  EXPECT_EQ(solved->thickness, 1.6);
  EXPECT_DOUBLE_EQ(solved->ratio, 0.5);
}

} // namespace
} // namespace shankline::tests::board_thinning_test
