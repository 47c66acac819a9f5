// Both sides of a foot share a page where the paper has room for both with all their words.
#include "export/page/sheet_page.hpp"
#include "export/sets/order_sheets.hpp"
#include "geometry/solution/solution.hpp"
#include "tests/export/layout_check.hpp"
#include "tests/geometry/sides_of_order.hpp"
#include "tests/geometry/worked_order.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <set>
#include <string>
#include <variant>

namespace shankline::tests::side_pair_test {
namespace {

constexpr double seven_points = 7 * 25.4 / 72;

/// Both feet with both sides lowered.
Order both_feet() {
  Order order;
  order.dancer = "M-07";
  order.pair = "touring, second pair";
  order.date = "2026-03-14";
  order.left = worked_sides();
  order.right = worked_sides();
  return order;
}

SheetSet sheets_of(const Order& order, const Paper& paper, Units units = Units::mm) {
  const Solution solution = solve(order);
  EXPECT_FALSE(has_error(solution.findings));
  return sheet_set(order, solution, solution.findings, {paper, units, "4f9c 2107"});
}

bool is_side(const Template& part) {
  return part.part == "side_medial" || part.part == "side_lateral";
}

std::set<std::size_t> side_pages(const SheetSet& set) {
  std::set<std::size_t> pages;
  for (const Template& part : set.templates)
    if (is_side(part)) pages.insert(part.page);
  return pages;
}

Paper paper_named(const std::string& name) {
  const auto found = std::find_if(papers().begin(), papers().end(),
                                  [&](const Paper& paper) { return paper.name == name; });
  return *found;
}

class SidePair : public testing::TestWithParam<std::tuple<const char*, Units>> {
protected:
  Paper paper() const { return paper_named(std::get<0>(GetParam())); }
  Units units() const { return std::get<1>(GetParam()); }
};

TEST_P(SidePair, OfAnOrdinaryFootIsOnOnePage) {
  const SheetSet set = sheets_of(both_feet(), paper(), units());
  EXPECT_EQ(std::count_if(set.templates.begin(), set.templates.end(), is_side), 4);
  EXPECT_EQ(side_pages(set).size(), 2u);
  // Every page is counted before it is drawn: "page 3 of 5".
  for (const shankline::Page& page : set.drawing.pages) {
    bool counted = false;
    for (const Mark& mark : page.marks)
      if (const Text* text = std::get_if<Text>(&mark))
        counted =
            counted || text->words.ends_with(" of " + std::to_string(set.drawing.pages.size()));
    EXPECT_TRUE(counted) << page.title;
  }
  EXPECT_EQ(
      std::count_if(set.drawing.pages.begin(), set.drawing.pages.end(),
                    [](const shankline::Page& page) { return page.title.starts_with("Side"); }),
      2);
}

TEST_P(SidePair, LeavesTenMillimetresForTheScissors) {
  const SheetSet set = sheets_of(both_feet(), paper(), units());
  for (const std::size_t page : side_pages(set)) {
    std::vector<Box> boxes;
    for (const Template& part : set.templates)
      if (part.page == page) boxes.push_back(bounds(part.lines, part.placement));
    ASSERT_EQ(boxes.size(), 2u);
    EXPECT_GE(boxes[0].bottom - boxes[1].top, 10 - 1e-9);
  }
}

TEST_P(SidePair, NamesEachPieceOnItAndIsLegible) {
  const SheetSet set = sheets_of(both_feet(), paper(), units());
  for (const std::size_t number : side_pages(set)) {
    const shankline::Page& page = set.drawing.pages[number];
    EXPECT_TRUE(layout_faults(page).empty()) << layout_faults(page).front();
    const std::string foot = page.title == "Sides, left foot" ? "left foot, " : "right foot, ";
    for (const Template& part : set.templates) {
      if (part.page != number) continue;
      const Box piece = bounds(part.lines, part.placement);
      const std::string edge = part.part == "side_medial" ? "big-toe side" : "little-toe side";
      for (const std::string& words :
           {std::string("OUTSIDE FACE UP"), foot + edge, std::string("BACK SEAM"),
            std::string("towards the toes"), std::string("SOLE EDGE")}) {
        int found = 0;
        for (const Mark& mark : page.marks)
          if (const Text* text = std::get_if<Text>(&mark))
            found += text->words == words && text->at.x > piece.left && text->at.x < piece.right &&
                     text->at.y > piece.bottom && text->at.y < piece.top;
        EXPECT_EQ(found, 1) << words << " on " << part.part;
      }
    }
    for (const Mark& mark : page.marks)
      if (const Text* text = std::get_if<Text>(&mark)) {
        EXPECT_GE(text->size, seven_points) << text->words;
      }
  }
}

TEST_P(SidePair, HasOneProofOfScaleForBoth) {
  const SheetSet set = sheets_of(both_feet(), paper(), units());
  for (const std::size_t page : side_pages(set))
    EXPECT_EQ(std::count_if(set.proofs.begin(), set.proofs.end(),
                            [&](const Proof& proof) { return proof.page == page; }),
              1);
}

INSTANTIATE_TEST_SUITE_P(Papers, SidePair,
                         testing::Combine(testing::Values("a4", "letter"),
                                          testing::Values(Units::mm, Units::inch)),
                         [](const auto& drawn) {
                           return std::string(std::get<0>(drawn.param)) +
                                  (std::get<1>(drawn.param) == Units::mm ? "_mm" : "_inch");
                         });

TEST(SidePairs, OneLoweredSideHasItsPageAlone) {
  Order order = both_feet();
  order.right.reset();
  order.left->alterations.sides->lateral = 0;
  const SheetSet set = sheets_of(order, paper_named("a4"));
  EXPECT_EQ(side_pages(set).size(), 1u);
  EXPECT_EQ(std::count_if(set.drawing.pages.begin(), set.drawing.pages.end(),
                          [](const shankline::Page& page) {
                            return page.title == "Side, left foot, big-toe side";
                          }),
            1);
}

// The words over the lower strip stand higher than its lines where the stock line is level.
TEST(SidePairs, WordsOfOneStripStandClearOfTheOther) {
  Order order = both_feet();
  order.right.reset();
  StockSides& stock = *order.left->shoe.sides;
  stock.back = stock.low = stock.wing = 44;
  const SheetSet set = sheets_of(order, paper_named("a4"));
  ASSERT_EQ(side_pages(set).size(), 1u);
  const shankline::Page& page = set.drawing.pages[*side_pages(set).begin()];
  EXPECT_TRUE(layout_faults(page).empty()) << layout_faults(page).front();
}

TEST(SidePairs, SidesTooHighForOnePageHaveAPageEach) {
  Order order = both_feet();
  order.right.reset();
  // A back so high (75) that two strips and their words are higher than the paper.
  order.left->shoe.sides->back = 75;
  const SheetSet set = sheets_of(order, paper_named("letter"));
  EXPECT_EQ(side_pages(set).size(), 2u);
}

} // namespace
} // namespace shankline::tests::side_pair_test
