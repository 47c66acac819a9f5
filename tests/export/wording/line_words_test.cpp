// Checks the words about a board and about a learned line.
#include "export/wording/line_words.hpp"
#include "geometry/solution/solution.hpp"
#include "tests/geometry/worked_order.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::line_words_test {
namespace {

TEST(LineWords, OnePairIsOnePair) {
  LearnedLine line;
  line.until = "2026-08-14";
  line.pairs = 1;
  EXPECT_EQ(learned_words(line, Units::mm), "learned from 1 pair until 2026-08-14");
  line.pairs = 2;
  line.too_far = 53.5;
  EXPECT_EQ(learned_words(line, Units::mm),
            "learned from 2 pairs until 2026-08-14 (53.5 from the heel was too far)");
}

TEST(LineWords, LayersOfABoardAreCountedFromTwoOn) {
  FootOrder foot = *worked_order().left;
  EXPECT_EQ(board_words(foot, Units::mm), "loose, 220 long, 3.2 thick");
  foot.shoe.board.layers = 2;
  EXPECT_EQ(board_words(foot, Units::mm), "loose, 220 long, 3.2 thick, 2 layers");
  foot.shoe.board.state = BoardState::in_shoe;
  EXPECT_EQ(board_words(foot, Units::mm), "stays in the shoe, 3.2 thick, 2 layers");
}

TEST(LineWords, LimitOfASkewBandHasItsThreeFigures) {
  const Order order = worked_order();
  SolvedTrim trim = *solve(order).left->trim;
  const auto limit = [&](double at) { return ruler_text(at, Rounding::down); };
  ASSERT_GT(trim.stop_from.medial, trim.stop_from.centre + 1);
  EXPECT_EQ(
      stop_words(trim, Units::mm),
      "cut nothing beyond big-toe edge " + limit(trim.stop_from.medial) + ", centre " +
          limit(trim.stop_from.centre) + ", little-toe edge " + limit(trim.stop_from.lateral) +
          "; the stop line is at " +
          doubted_text(trim.stop.centre, trim.doubt.stop.expanded(), Units::mm, Rounding::down) +
          ", centre");
  for (CutLine* line : {&trim.stop, &trim.stop_from})
    line->medial = line->lateral = line->centre;
  EXPECT_EQ(
      stop_words(trim, Units::mm),
      "cut nothing beyond " + limit(trim.stop_from.centre) + "; the stop line is at " +
          doubted_text(trim.stop.centre, trim.doubt.stop.expanded(), Units::mm, Rounding::down));
}

} // namespace
} // namespace shankline::tests::line_words_test
