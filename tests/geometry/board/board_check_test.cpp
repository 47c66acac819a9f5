// A board against the foot that it is for.
#include "geometry/board/board_check.hpp"

#include "geometry/order/reading_guide.hpp"
#include "geometry/solution/solution.hpp"
#include "tests/geometry/worked_order.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <string>

namespace shankline::tests::board_check_test {
namespace {

/// What is said of the board's length, "" for nothing.
std::string said_of_length(const Order& order) {
  const Solution solution = solve(order);
  const auto found =
      std::find_if(solution.findings.begin(), solution.findings.end(), [](const Finding& f) {
        return f.key == "shoe.left.board.length" || f.key == "shoe.left.board.sole_length";
      });
  if (found == solution.findings.end()) return {};
  EXPECT_EQ(found->severity, Severity::caution);
  EXPECT_FALSE(found->allowed.empty() || found->advice.empty());
  return found->key.text() + ": " + found->what;
}

// Before, a board of 270 for a foot of 238 drew three quarters of it without a word.
TEST(BoardLength, FartherThanTheFootReachesIsSaid) {
  Order order = worked_order(); // a foot of 238, the board 5 from the inside back
  order.left->alterations.shank->rule = KeepRule{0.75};
  Board& board = order.left->shoe.board;
  board.length = measured(243);
  EXPECT_EQ(said_of_length(order), "");
  board.length = measured(243.1);
  EXPECT_EQ(said_of_length(order),
            "shoe.left.board.length: a board of 243.1 mm ends 248.1 mm from the inside back, 10.1 "
            "mm farther than a foot of 238 mm reaches");
  board.length.reset();
  board.state = BoardState::in_shoe;
  board.sole_length = 248;
  EXPECT_EQ(said_of_length(order), "");
  board.sole_length = 248.1;
  EXPECT_EQ(said_of_length(order), "shoe.left.board.sole_length: an outer sole of 248.1 mm is 10.1 "
                                   "mm longer than a foot of 238 mm is long");
}

} // namespace
} // namespace shankline::tests::board_check_test
