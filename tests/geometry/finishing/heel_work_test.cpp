#include "geometry/finishing/heel_work.hpp"

#include "geometry/solution/solution.hpp"
#include "tests/geometry/worked_order.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::heel_work_test {
namespace {

// The seat is empty up to the cut at 62. The corners that a rounded end takes off beyond the line
// are not in the seat.
TEST(Filler, IsAsLongAsTheEmptySeatWhateverTheBoardsEnd) {
  for (const BoardEnd end : {BoardEnd::straight, BoardEnd::rounded}) {
    Order order = worked_order();
    order.left->foot.arch_break = {measured(95), {}, {}, {}}; // square
    order.left->alterations.shank->end = end;
    order.left->alterations.filler = true;
    const Solution solution = solve(order);
    ASSERT_TRUE(solution.left && solution.left->filler);
    EXPECT_NEAR(solution.left->filler->length, 62, 1e-9);
    const double cut_off = outline_extent(solution.left->pieces.removed->outline).along_x;
    if (end == BoardEnd::rounded) {
      EXPECT_GT(cut_off, 66) << "with its corners";
    } else {
      EXPECT_NEAR(cut_off, 62, 1e-9);
    }
  }
}

TEST(Filler, WantsBothThePieceAndItsCut) {
  const Order order = worked_order();
  const Solution solution = solve(order);
  ASSERT_TRUE(solution.left && solution.left->pieces.removed);
  const Polygon& removed = solution.left->pieces.removed->outline;
  const CutLine& cut = solution.left->trim->final_cut;
  const Board& board = order.left->shoe.board;
  const auto refused = [&](const Polygon* piece, const CutLine* line) {
    Findings findings;
    return !solve_filler(board, piece, line, 1, "left", findings) && has_error(findings);
  };
  EXPECT_TRUE(refused(nullptr, &cut));
  EXPECT_TRUE(refused(&removed, nullptr));
  EXPECT_FALSE(refused(&removed, &cut));
}

} // namespace
} // namespace shankline::tests::heel_work_test
