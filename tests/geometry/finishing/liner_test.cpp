#include "geometry/finishing/liner.hpp"

#include "geometry/solution/solution.hpp"
#include "tests/geometry/polygon_checks.hpp"
#include "tests/geometry/worked_order.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace shankline::tests::liner_test {
namespace {

Order with_liner(const LinerWish& wish) {
  Order order = worked_order();
  order.left->alterations.liner = wish;
  return order;
}

double rear_of(const Polygon& outline) {
  return std::min_element(outline.begin(), outline.end(),
                          [](const Point& a, const Point& b) { return a.x < b.x; })
      ->x;
}

TEST(Liner, OfTheWorkedOrder) {
  const Solution solution = solve(with_liner({}));
  ASSERT_TRUE(solution.left && solution.left->liner);
  const SolvedLiner& liner = *solution.left->liner;
  // Board 220 and inset 5 make a seat of 225; 1.5 off either end.
  EXPECT_NEAR(liner.length, 222, 0.02);
  EXPECT_NEAR(rear_of(liner.outline), 1.5, 0.02) << "to the very heel end";
  EXPECT_NEAR(liner.width, 56 - 3, 0.05);
  EXPECT_TRUE(simple_by_pairs(liner.outline));
  const Polygon seat =
      shoe_seat(with_liner({}).left->shoe.board, solution.left->outline, {}).polygon();
  for (const Point& p : liner.outline)
    EXPECT_NEAR(distance_to_outline(seat, p), 1.5, 1e-3) << "mitred where the waist is hollow";
}

TEST(Liner, OfALengthOfItsOwnIsRoundedThere) {
  const Solution solution = solve(with_liner({1.5, 150}));
  ASSERT_TRUE(solution.left && solution.left->liner);
  EXPECT_NEAR(solution.left->liner->length, 150, 0.02);
  const Solution whole = solve(with_liner({}));
  EXPECT_LT(solution.left->liner->area, whole.left->liner->area);
}

TEST(Liner, SeatIsTheBoardsOutlineAheadOfItsFirstWidth) {
  const Order order = with_liner({});
  const Solution solution = solve(order);
  ASSERT_TRUE(solution.left);
  const BoardOutline seat = shoe_seat(order.left->shoe.board, solution.left->outline, {});
  for (double station = 22; station < 215; station += 7)
    EXPECT_NEAR(seat.half_width(Edge::medial, station + 5),
                solution.left->outline.half_width(Edge::medial, station), 0.35)
        << station;
}

TEST(Liner, InTheShoeNeedsALength) {
  Order order = with_liner({});
  order.left->shoe.board.state = BoardState::in_shoe;
  order.left->shoe.board.length.reset();
  Solution solution = solve(order);
  ASSERT_TRUE(has_error(solution.findings));
  EXPECT_EQ(solution.findings.back().key, "alterations.left.liner.length");

  order.left->alterations.liner->length = 215;
  solution = solve(order);
  ASSERT_TRUE(has_error(solution.findings));
  EXPECT_EQ(solution.findings.back().key, "shoe.left.board.widths");

  order.left->alterations.liner->length = 170;
  solution = solve(order);
  ASSERT_TRUE(solution.left && solution.left->liner);
  EXPECT_NEAR(solution.left->liner->length, 170, 0.02);
}

// The rounding of a short liner takes the front quarter of it; it has to begin more than 1 ahead of
// the board's first width, at 22.
TEST(Liner, TooShortToBeRoundedIsRefused) {
  Board board = worked_order().left->shoe.board;
  board.inset = measured(4);
  const BoardOutline outline(board.widths, board.loose_length());
  const auto made = [&](double length) {
    LinerWish wish;
    wish.clearance = 2;
    wish.length = length;
    Findings findings;
    const bool solved = solve_liner(board, outline, wish, "left", findings).has_value();
    EXPECT_TRUE(solved || findings.front().key == "alterations.left.liner.length");
    return solved;
  };
  EXPECT_FALSE(made(32)) << "three quarters of 36, less 4, is 23";
  EXPECT_TRUE(made(33)) << "23.75";
}

TEST(Liner, SaysWhenTheClearanceEatsIt) {
  Board board = worked_order().left->shoe.board;
  const BoardOutline outline(board.widths, board.loose_length());
  LinerWish wish;
  wish.clearance = 17;
  Findings findings;
  EXPECT_FALSE(solve_liner(board, outline, wish, "left", findings));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].key, "alterations.left.liner.clearance");
  EXPECT_EQ(findings[0].allowed, "up to 16.4");
}

// A front is rounded over its last 20. A liner of 190 with 1.5 all round ends 193 from the back, 5
// of it behind the board: the rounding begins at 168 of the board.
TEST(Liner, ABoardInTheShoeHasToBeKnownUpToTheRounding) {
  Order order = with_liner({});
  order.left->alterations.liner->length = 190;
  Board& board = order.left->shoe.board;
  board.state = BoardState::in_shoe;
  board.length.reset();
  board.widths = {{20, 23, 23}, {64, 18.5, 18.5}};
  const Solution solution = solve(order);
  const auto found =
      std::find_if(solution.findings.begin(), solution.findings.end(), [](const Finding& f) {
        return f.severity == Severity::error && f.key == "shoe.left.board.widths";
      });
  ASSERT_NE(found, solution.findings.end());
  EXPECT_EQ(found->allowed, "a width at about 168 from the board's heel end");
}

} // namespace
} // namespace shankline::tests::liner_test
