// The strip is a true ruler wherever it lies on the page.
#include "export/bench/measuring_strip.hpp"

#include "export/page/sheet_page.hpp"
#include "tests/export/layout_check.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <variant>

namespace shankline::tests::measuring_strip_test {
namespace {

std::vector<const Stroke*> strokes_of(const Page& page, LineKind kind) {
  std::vector<const Stroke*> found;
  for (const Mark& mark : page.marks)
    if (const auto* line = std::get_if<Stroke>(&mark); line && line->kind == kind)
      found.push_back(line);
  return found;
}

double between(const Point& a, const Point& b) {
  return std::hypot(b.x - a.x, b.y - a.y);
}

TEST(MeasuringStrip, IsThreeHundredMillimetresByMillimetres) {
  for (const char* paper : {"a4", "letter", "a3", "legal"}) {
    const SheetSet set = measuring_strips(*read_paper(paper));
    ASSERT_EQ(set.drawing.pages.size(), 2u) << paper;
    ASSERT_EQ(set.proofs.size(), 2u);
    for (const Page& page : set.drawing.pages) {
      EXPECT_TRUE(layout_faults(page).empty()) << paper << ": " << layout_faults(page).front();
      const auto outline = strokes_of(page, LineKind::paper_trim);
      ASSERT_EQ(outline.size(), 1u);
      const Polyline& corners = outline[0]->points;
      ASSERT_EQ(corners.size(), 4u);
      EXPECT_NEAR(between(corners[0], corners[1]), 300, 1e-9);
      EXPECT_NEAR(between(corners[1], corners[2]), strip_width, 1e-9);
      EXPECT_NEAR(between(corners[0], corners[2]), std::hypot(300, strip_width), 1e-9);
      for (const Point& corner : corners) {
        EXPECT_GE(std::min(corner.x, corner.y), SheetPage::margin - 1e-9) << paper;
        EXPECT_LE(corner.x, page.paper.width - SheetPage::margin + 1e-9) << paper;
        EXPECT_LE(corner.y, page.paper.height - SheetPage::margin + 1e-9) << paper;
      }
      const auto ticks = strokes_of(page, LineKind::ruler);
      ASSERT_EQ(ticks.size(), 299u);
      for (std::size_t i = 0; i < ticks.size(); ++i)
        EXPECT_NEAR(between(corners[0], ticks[i]->points.front()), static_cast<double>(i + 1),
                    1e-9);
    }
  }
  Paper small = *read_paper("a4");
  small.width = 150;
  EXPECT_THROW(measuring_strips(small), DoesNotFit);
}

} // namespace
} // namespace shankline::tests::measuring_strip_test
