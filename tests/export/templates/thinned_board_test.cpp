// A board that is thinned has its lines on a page, whether it is cut as well or not.
#include "export/sets/order_sheets.hpp"
#include "export/sets/part_files.hpp"
#include "export/templates/thinned_board_sheet.hpp"
#include "geometry/solution/solution.hpp"
#include "tests/export/layout_check.hpp"
#include "tests/export/said_on_page.hpp"
#include "tests/geometry/worked_order.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <string>
#include <variant>
#include <vector>

namespace shankline::tests::thinned_board_test {
namespace {

constexpr double from = 70;
constexpr double to = 104.5;

Order thinned_order(bool cut) {
  Order order = doubtful_order();
  order.dancer = "M-15";
  if (!cut) order.left->alterations.shank.reset();
  order.left->alterations.thinned = ThinWish{};
  order.left->alterations.thinned->from = cut ? 100 : from;
  order.left->alterations.thinned->to = cut ? 130 : to;
  order.left->alterations.thinned->thickness = 1.8;
  return order;
}

Order in_shoe(Order order) {
  Board& board = order.left->shoe.board;
  board.state = BoardState::in_shoe;
  board.length.reset();
  board.widths = {{22, 22.5, 22.5}, {80, 16.5, 16.5}};
  return order;
}

const Template* board_of(const SheetSet& set) {
  const auto found = std::find_if(set.templates.begin(), set.templates.end(),
                                  [](const Template& part) { return part.part == "board"; });
  return found == set.templates.end() ? nullptr : &*found;
}

std::vector<double> stations(const Template& part, LineKind kind) {
  std::vector<double> found;
  for (const Stroke& line : part.lines)
    if (line.kind == kind)
      for (const Point& p : line.points)
        found.push_back(p.x);
  return found;
}

TEST(ThinnedBoard, AlsoWithoutACutHasAPageWithBothLines) {
  const SheetSet set = every_sheet(thinned_order(false));
  const Template* const board = board_of(set);
  ASSERT_TRUE(board);
  EXPECT_EQ(stations(*board, LineKind::thinned), (std::vector<double>{from, from, to, to}));
  EXPECT_TRUE(stations(*board, LineKind::first_cut).empty());
  EXPECT_EQ(set.proofs.size(), set.templates.size());
  EXPECT_EQ(set.drawing.pages.at(board->page).title, "Board, left foot");
  expect_said(words_on(set, "Board, left foot"),
              {"thin, do not cut", "70.0", "104.5", "1.8", "thick, of 3.2", "cannot be put back",
               "FOOT SIDE UP", "HEEL END", "big-toe side", "M-15", "Check the print size",
               "not cut", "18 % as stiff"},
              {"cut off", "CUT OFF", "1 FIRST", "STOP"});
}

// The width is the outline's own there: 45 at 22 and 33 at 96 were measured.
TEST(ThinnedBoard, ItsLinesGoFromEdgeToEdge) {
  Order order = thinned_order(false);
  order.left->alterations.thinned->from = 22;
  order.left->alterations.thinned->to = 96;
  const SheetSet set = every_sheet(order);
  const Template* const board = board_of(set);
  ASSERT_TRUE(board);
  std::vector<double> widths;
  for (const Stroke& line : board->lines)
    if (line.kind == LineKind::thinned)
      widths.push_back(std::abs(line.points.front().y - line.points.back().y));
  ASSERT_EQ(widths.size(), 2u);
  EXPECT_NEAR(widths[0], 45, 1e-9);
  EXPECT_NEAR(widths[1], 33, 1e-9);
}

TEST(ThinnedBoard, ALineAtTheVeryEndOfWhatIsDrawnIsDrawn) {
  const Solution solution = solve(thinned_order(false));
  const auto drawn_to = [&](double front) { return thinning_lines(*solution.left, front).size(); };
  EXPECT_EQ(drawn_to(to), 2u);
  EXPECT_EQ(drawn_to(to - 0.01), 1u);
  EXPECT_EQ(drawn_to(from), 1u);
  EXPECT_EQ(drawn_to(from - 0.01), 0u);
}

/// How many levels of fine lines fill the stretch from 70 to `end`, 2.5 apart.
std::size_t fine_lines(double end) {
  Order order = thinned_order(false);
  order.left->alterations.thinned->to = end;
  const SheetSet set = every_sheet(order);
  std::vector<double> levels;
  for (const Mark& mark : set.drawing.pages.at(board_of(set)->page).marks)
    if (const Stroke* line = std::get_if<Stroke>(&mark);
        line && line->kind == LineKind::thinned_fill)
      levels.push_back(line->points.front().y);
  std::sort(levels.begin(), levels.end());
  const auto last = std::unique(levels.begin(), levels.end(),
                                [](double a, double b) { return std::abs(a - b) < 0.01; });
  return static_cast<std::size_t>(last - levels.begin());
}

TEST(ThinnedBoard, FineLinesEndHalfTheirDistanceBeforeTheStretchDoes) {
  EXPECT_EQ(fine_lines(103.7), 12u); // the thirteenth would stand 1.2 before its end
  EXPECT_EQ(fine_lines(103.8), 13u);
}

TEST(ThinnedBoard, ThatIsCutTooHasThemOnTheSamePage) {
  const SheetSet set = every_sheet(thinned_order(true));
  const Template* const board = board_of(set);
  ASSERT_TRUE(board);
  EXPECT_EQ(stations(*board, LineKind::thinned), (std::vector<double>{100, 100, 130, 130}));
  EXPECT_FALSE(stations(*board, LineKind::first_cut).empty());
  expect_said(words_on(set, "Board, left foot"),
              {"thin from 100.0 to 130.0: mark both before anything is cut", "Also thinned"});
}

TEST(ThinnedBoard, IsLegibleLooseAndInTheShoeOnEveryPaper) {
  for (const Order& order :
       {thinned_order(false), in_shoe(thinned_order(false)), thinned_order(true)}) {
    const Solution solution = solve(order);
    ASSERT_FALSE(has_error(solution.findings));
    for (const Paper& paper : papers())
      for (const Units units : {Units::mm, Units::inch}) {
        const SheetSet set = sheet_set(order, solution, solution.findings,
                                       {paper, units, "4f9c 2107", {}, true, true});
        ASSERT_TRUE(board_of(set)) << paper.name;
        for (const Page& page : set.drawing.pages)
          for (const std::string& fault : layout_faults(page))
            ADD_FAILURE() << paper.name << ", " << page.title << ": " << fault;
      }
  }
}

TEST(ThinnedBoard, PagesAreCounted) {
  const Order order = thinned_order(false);
  const Solution solution = solve(order);
  const SheetSet set =
      sheet_set(order, solution, solution.findings, {papers()[0], Units::mm, "4f9c 2107"});
  ASSERT_EQ(set.drawing.pages.size(), 2u);
  expect_said(words_on(set, "Board, left foot"), {"page 2 of 2"});
}

TEST(ThinnedBoard, IsAPartOfItsOwnForOtherPrograms) {
  const Order order = thinned_order(false);
  const Solution solution = solve(order);
  const SheetSet set =
      sheet_set(order, solution, solution.findings, {papers()[0], Units::mm, "4f9c 2107"});
  const auto files = part_files(set, order, solution, "4f9c 2107", {true, true}).files;
  ASSERT_EQ(files.size(), 2u);
  EXPECT_EQ(files[0].suffix, "-board-left.svg");
  EXPECT_NE(files[0].bytes.find("thinned"), std::string::npos);
  EXPECT_EQ(files[0].bytes.find("thinned_fill"), std::string::npos);
  EXPECT_EQ(files[0].bytes.find("kept_piece"), std::string::npos);
}

} // namespace
} // namespace shankline::tests::thinned_board_test
