// The page on breaking in and repair: where things go for this pair, and the cautions beside them.
#include "export/work_orders/care_sheet.hpp"

#include "export/sets/order_sheets.hpp"
#include "tests/export/layout_check.hpp"
#include "tests/export/said_on_page.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::care_sheet_test {
namespace {

const std::string title = "Breaking in and repair";

SheetSet care_of(const Order& order, const char* paper = "a4") {
  return care_set(order, solve(order), {*read_paper(paper), Units::mm, "4f9c 2107"});
}

TEST(CareSheet, SaysWhereEachThingGoesAndWhatIsForbiddenThere) {
  Order order = doubtful_order();
  expect_said(words_on(care_of(order), title),
              {"no water here", "W water: the vamp only", "H hardener, inside", "S stitches",
               "all round, no side to favour", "platform 44 by 26 (ordinary, not measured)",
               "darning up to 6 (ordinary, none was ordered)", "first cut 52.5 off",
               "Never on the platform, the box's tip or the board",
               "Never near skin that reacts to it", "The pair is done when"});
  order.left->shoe.platform = Platform{41, 24};
  order.left->alterations.darning = DarningWish{};
  order.left->foot.roll = {RollSide::in, 3};
  expect_said(words_on(care_of(order), title),
              {"platform 41 by 24 ", "darning up to 6, 3 more where it rolls",
               "stitches first: big-toe side, the foot rolls in"},
              {"ordinary"});
  order.left->foot.roll.side = RollSide::out;
  expect_said(words_on(care_of(order), title), {"stitches first: little-toe side"});
}

// Before, the page of a pair that was tried and cut gave its first cut.
TEST(CareSheet, SaysWhatAPairIsCutToByNow) {
  const Order order = doubtful_order();
  const auto said = [&](const ShoeSince& left) {
    return words_on(care_set(order, solve(order), {*read_paper("a4"), Units::mm, "4f9c 2107"},
                             {left, {1.0, "2026-01-01", ""}}),
                    title);
  };
  expect_said(said({55.0, "2026-03-20", ""}),
              {"cut to 55.0 off on 2026-03-20; bevel only after the last cut", "after trying"},
              {"first cut", "ended", "2026-01-01"});
  expect_said(said({99.0, "2026-03-20", "2026-03-25: board"}),
              {"cut to 99.0 off on 2026-03-20", ", reached", "this pair ended 2026-03-25: board"},
              {"after trying"});
}

TEST(CareSheet, ItsStitchesLieOnTheSideThatTheFootRollsTo) {
  for (const bool left : {true, false})
    for (const RollSide roll : {RollSide::in, RollSide::out}) {
      Order order = doubtful_order();
      order.left->foot.roll.side = roll;
      if (!left) {
        order.right = order.left;
        order.left.reset();
      }
      const SheetSet set = care_of(order);
      double stitches = 0, count = 0, platform = 0;
      for (const Mark& mark : set.drawing.pages.front().marks)
        if (const auto* line = std::get_if<Stroke>(&mark)) {
          if (line->kind == LineKind::stitch) {
            stitches += line->points.front().x;
            ++count;
          }
          if (line->kind == LineKind::edge && line->closed)
            for (const Point& p : line->points)
              platform += p.x / static_cast<double>(line->points.size());
        }
      ASSERT_GT(count, 3);
      // Seen from below, the big toe of the left foot is at the left.
      const bool at_left = (roll == RollSide::in) == left;
      EXPECT_EQ(stitches / count < platform, at_left) << left;
    }
}

TEST(CareSheet, IsOneLegiblePageForOrdinaryAndOddOrders) {
  for (const char* paper : {"a4", "letter"}) {
    Order order = doubtful_order();
    order.right = order.left;
    order.right->foot.roll = {RollSide::out, 3};
    order.left->shoe.platform = Platform{60, 36};
    for (const bool shank : {true, false}) {
      if (!shank) {
        order.left->alterations.shank.reset();
        order.left->alterations.darning = DarningWish{};
        order.right->alterations.darning = DarningWish{};
        order.right->shoe.platform = Platform{36, 20};
      }
      const SheetSet set = care_of(order, paper);
      ASSERT_EQ(set.drawing.pages.size(), 1u);
      EXPECT_TRUE(layout_faults(set.drawing.pages.front()).empty())
          << paper << layout_faults(set.drawing.pages.front()).front();
    }
  }
}

TEST(CareSheet, GoesWithACutWhereItIsAskedFor) {
  const Order order = doubtful_order();
  SheetWish wish{papers().front(), Units::mm, "4f9c 2107"};
  const auto titles = [&] {
    std::string all;
    for (const Page& page : sheet_set(order, solve(order), {}, wish).drawing.pages)
      all += page.title + "; ";
    return all;
  };
  EXPECT_EQ(titles().find(title), std::string::npos);
  wish.care = true;
  EXPECT_NE(titles().find(title), std::string::npos);
}

} // namespace
} // namespace shankline::tests::care_sheet_test
