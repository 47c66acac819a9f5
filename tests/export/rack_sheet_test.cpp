// The rack and its labels: legible for drawn orders on every paper, every shoe on them once.
#include "export/rack_sheet.hpp"

#include "export/label_sheet.hpp"
#include "tests/export/layout_check.hpp"
#include "tests/geometry/drawn_orders.hpp"

#include <gtest/gtest.h>
#include <set>
#include <variant>

namespace shankline::tests {
namespace {

std::vector<RackShoe> drawn_shoes(std::size_t orders) {
  Draw draw(20260701);
  Draw sides(20260702);
  std::vector<RackShoe> shoes;
  for (std::size_t i = 0; i < orders; ++i) {
    Order order = drawn_order_with_sides(draw, sides, Population::women);
    order.dancer = i % 3 == 0 ? "M-07" : "a dancer whose code is as long as codes may be";
    order.pair = i % 2 == 0 ? "touring, spring, the second pair of the six for the long western leg"
                            : "class";
    order.date = i % 5 == 0 ? "" : "2026-03-14";
    const Solution solution = solve(order);
    if (has_error(solution.findings)) continue;
    for (RackShoe& shoe : rack_shoes(order, solution, "4f9c " + std::to_string(1000 + i)))
      shoes.push_back(std::move(shoe));
  }
  return shoes;
}

std::size_t texts_with(const Drawing& drawing, const std::string& words) {
  std::size_t count = 0;
  for (const Page& page : drawing.pages)
    for (const Mark& mark : page.marks)
      if (const Text* text = std::get_if<Text>(&mark)) count += text->words == words ? 1u : 0u;
  return count;
}

TEST(RackSheet, IsLegibleAndHoldsEveryShoeOnce) {
  const std::vector<RackShoe> shoes = drawn_shoes(60);
  ASSERT_GE(shoes.size(), 60u);
  std::vector<Paper> all(papers().begin(), papers().end());
  all.push_back(std::get<Paper>(read_paper("roll:914")));
  for (const Paper& paper : all)
    for (const std::size_t count : {std::size_t{1}, std::size_t{17}, shoes.size()}) {
      const std::vector<RackShoe> some(shoes.begin(),
                                       shoes.begin() + static_cast<std::ptrdiff_t>(count));
      const SheetWish wish{paper, Units::mm, {}};
      for (const SheetSet& set : {rack_set(some, wish), label_set(some, wish)}) {
        const Drawing& drawing = set.drawing;
        EXPECT_EQ(texts_with(drawing, "L") + texts_with(drawing, "R"), count);
        for (const Page& page : drawing.pages)
          for (const std::string& fault : layout_faults(page))
            ADD_FAILURE() << drawing.title << " on " << paper.name << ": " << fault;
      }
      if (testing::Test::HasFailure()) return;
    }
}

TEST(RackSheet, BothShoesOfAnOrderStandOnOnePage) {
  const std::vector<RackShoe> shoes = drawn_shoes(60);
  const Drawing rack = rack_set(shoes, {papers()[0], Units::mm, {}}).drawing;
  ASSERT_GT(rack.pages.size(), 1u);
  // An order's digest is written once, beside its first shoe: never again on the next page.
  std::set<std::string> seen;
  for (const Page& page : rack.pages)
    for (const Mark& mark : page.marks) {
      const Text* text = std::get_if<Text>(&mark);
      if (!text || text->words.rfind("4f9c ", 0) != 0) continue;
      EXPECT_TRUE(seen.insert(text->words).second) << text->words;
    }
  EXPECT_GE(seen.size(), 30u);
}

TEST(RackSheet, SaysOneFigureForASquareLineAndThreeForASkewOne) {
  CutLine square;
  square.centre = square.medial = square.lateral = 62;
  CutLine skew = square;
  skew.medial = 64;
  skew.lateral = 60;
  EXPECT_EQ(cut_words(square), "62.0");
  EXPECT_EQ(cut_words(skew), "big toe 64.0 \u00b7 centre 62.0 \u00b7 little toe 60.0");
  EXPECT_EQ(cut_words({}), "\u2013");
  RackShoe shoe;
  EXPECT_EQ(side_words(shoe), "");
  shoe.sides = RackSides{5, 4, 0};
  EXPECT_EQ(side_words(shoe), "big toe 5 \u00b7 little toe 4");
  shoe.sides->back = 2.5;
  EXPECT_EQ(side_words(shoe), "big toe 5 \u00b7 little toe 4 \u00b7 back 2.5");
}

} // namespace
} // namespace shankline::tests
