// Sides on every paper that they can be ordered on, from the least room to more than enough.
#include "export/drawing/paper.hpp"
#include "export/sets/order_sheets.hpp"
#include "export/templates/side_sheet.hpp"
#include "geometry/solution/solution.hpp"
#include "tests/export/layout_check.hpp"
#include "tests/geometry/sides_of_order.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <string>
#include <variant>

namespace shankline::tests::side_papers_test {
namespace {

Order order_with(double back, SideEdge edge) {
  Order order;
  order.dancer = "M-07";
  order.left = worked_sides();
  order.left->shoe.sides->back = back;
  order.left->alterations.sides->edge = edge;
  return order;
}

Paper roll(double width) {
  return {"roll", width, 0, true};
}

bool is_side(const Template& part) {
  return part.part == "side_medial" || part.part == "side_lateral";
}

void expect_legible_sides(const Order& order, const Paper& paper, Units units) {
  const Solution solution = solve(order);
  ASSERT_FALSE(has_error(solution.findings));
  SheetSet set;
  ASSERT_NO_THROW(set = sheet_set(order, solution, solution.findings, {paper, units, "4f9c 2107"}));
  EXPECT_TRUE(std::any_of(set.templates.begin(), set.templates.end(), is_side));
  for (const Page& page : set.drawing.pages) {
    if (!page.title.starts_with("Side")) continue;
    for (const std::string& fault : layout_faults(page))
      ADD_FAILURE() << page.title << ": " << fault;
    // Before, tiles on a narrow roll said "cut here, 4 ±0.3 above the new top line, where …".
    for (const Mark& mark : page.marks) {
      const Text* text = std::get_if<Text>(&mark);
      if (!text || !page.title.ends_with(" of 2")) continue;
      for (const char* line : {"cut here", "turn in here"})
        EXPECT_FALSE(text->words.starts_with(line) && text->words.ends_with("\u2026"))
            << page.title << ": " << text->words;
    }
  }
}

/// The backs lie where a strip is just low enough for a level page, just too high for it, and as
/// high as a side may be; in inches its table is higher, most of all with a turned edge.
TEST(SidePapers, AreLegibleHoweverHighTheSideIs) {
  for (const Paper& paper :
       {papers()[0], papers()[2], roll(narrowest_roll), roll(222), roll(279), roll(914.4)})
    for (const Units units : {Units::mm, Units::inch})
      for (const SideEdge edge : {SideEdge::bound, SideEdge::turned})
        for (const double back : {50.0, 57.0, 57.5, 58.0, 66.0, 75.0}) {
          SCOPED_TRACE(std::string(paper.name) + " " + std::to_string(paper.width) + ", back " +
                       std::to_string(back) + (units == Units::inch ? ", inches" : "") +
                       (edge == SideEdge::turned ? ", turned" : ""));
          expect_legible_sides(order_with(back, edge), paper, units);
        }
}

/// A page across a roll is made as high as the strip wants: that it is so up to rounding is enough.
TEST(SidePapers, OfARollTakeASideWholeWhereItIsWideEnough) {
  for (const double width : {290.0, 914.4})
    for (double back = 50; back <= 75; back += 0.5) {
      const Order order = order_with(back, SideEdge::bound);
      const Solution solution = solve(order);
      ASSERT_FALSE(has_error(solution.findings)) << back;
      const SheetSet set =
          sheet_set(order, solution, solution.findings, {roll(width), Units::mm, "4f9c 2107"});
      for (const Template& part : set.templates)
        EXPECT_FALSE(is_side(part) && part.tile) << width << ", " << back;
    }
}

/// Tiles that are narrower than four overlaps would be joined by crosses that lie too close.
TEST(SidePapers, ThatAreTooSmallForATileAreRefused) {
  const Order order = order_with(52, SideEdge::bound);
  const Solution solution = solve(order);
  ASSERT_TRUE(solution.left && solution.left->sides);
  const Typeface typeface(
      sheet_set(order, solution, solution.findings, {papers()[0], Units::mm, "4f9c 2107"})
          .drawing.lettering);
  const SheetContext context{order, typeface, Paper{"small", 150, 165}, Units::mm, "4f9c 2107", 1};
  EXPECT_THROW(
      side_sheets(context, FootSide::left, {&solution.left->sides->medial}, *order.left, 0),
      DoesNotFit);
}

} // namespace
} // namespace shankline::tests::side_papers_test
