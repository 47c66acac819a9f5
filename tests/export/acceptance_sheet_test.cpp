// The acceptance sheet: legible for drawn orders, with every line of the order on it.
#include "export/acceptance_sheet.hpp"

#include "geometry/solution.hpp"
#include "tests/export/layout_check.hpp"
#include "tests/geometry/drawn_orders.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <variant>

namespace shankline::tests {
namespace {

std::size_t texts_with(const Drawing& drawing, const std::string& words) {
  std::size_t count = 0;
  for (const Page& page : drawing.pages)
    for (const Mark& mark : page.marks)
      if (const Text* text = std::get_if<Text>(&mark)) count += text->words == words ? 1u : 0u;
  return count;
}

std::vector<MadeSize> some_made(const std::vector<AcceptanceLine>& lines) {
  std::vector<MadeSize> made;
  for (std::size_t i = 0; i < lines.size(); ++i)
    if (i % 4 != 3)
      made.push_back({lines[i].foot, lines[i].key, lines[i].nominal + 0.25 * double(i % 3),
                      i % 2 == 0 ? 0.4 : 1.1, i % 2 == 0 ? "half-millimetre rule" : "tape"});
  return made;
}

TEST(AcceptanceSheet, IsLegibleBlankAndFilledInOnEveryPaper) {
  Draw draw(20260401);
  Draw sides(20260402);
  int sheets = 0;
  for (int i = 0; i < 40; ++i) {
    Order order = drawn_order_with_sides(draw, sides, Population::women);
    order.pair = "touring, spring, the second pair of the six for the long western leg";
    const Solution solution = solve(order);
    if (has_error(solution.findings)) continue;
    const auto lines = acceptance_lines(order, solution);
    const JudgedPair blank = judge_pair(lines, {});
    const JudgedPair filled = judge_pair(lines, some_made(lines));
    for (const Paper& paper : papers())
      for (const Units units : {Units::mm, Units::inch}) {
        const SheetWish wish{paper, units, "4f9c 2107"};
        const SheetSet form = acceptance_set(order, blank, {true, {}, {}}, wish);
        const SheetSet sheet =
            acceptance_set(order, filled, {false, "2026-04-02", "the bench"}, wish);
        EXPECT_EQ(texts_with(sheet.drawing, "not measured"), lines.size() / 4);
        EXPECT_EQ(texts_with(form.drawing, "yes"), lines.size());
        for (const SheetSet* set : {&form, &sheet})
          for (const Page& page : set->drawing.pages)
            for (const std::string& fault : layout_faults(page))
              ADD_FAILURE() << "order " << i << ", " << paper.name << ": " << fault;
        ++sheets;
      }
    if (testing::Test::HasFailure()) return;
  }
  EXPECT_GE(sheets, 60);
}

} // namespace
} // namespace shankline::tests
