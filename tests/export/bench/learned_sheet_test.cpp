// The page of what was learned: a ring for every shoe in its place, and legible however much there
// is to say.
#include "export/bench/learned_sheet.hpp"

#include "tests/export/layout_check.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <random>

namespace shankline::tests::learned_sheet_test {
namespace {

LearnedPage page(int shoes, int months, int cautions) {
  LearnedPage page;
  page.basis =
      "Learned from 18 answers on " + std::to_string(shoes) + " shoes. All is an estimate.";
  std::mt19937 draw(7);
  std::normal_distribution<> spread(61, 4);
  for (int i = 0; i < shoes; ++i)
    page.dots.push_back({spread(draw), 12.4, spread(draw)});
  page.sentences = {"The house: boards are right 1.1 ±4.9 behind the place where the heel pad "
                    "begins, which may be no shift at all.",
                    "R2 marks the heel front 4.1 ±1.6 too far forward (12 readings)."};
  page.months.push_back({"month", "shoes", "ended good", "tries until good", "cut too far",
                         "stopped", "good − line", "spread", "inside ±"});
  for (int i = 0; i <= months; ++i)
    page.months.push_back({i < months ? "2026-" + std::to_string(i) : "all", "12", "11", "2.5",
                           "8 %", "0", "-3.0", "4.1", "92 %"});
  for (int i = 0; i < cautions; ++i)
    page.cautions.push_back("M-" + std::to_string(i) +
                            ", left: measure again. The right place may "
                            "have moved before the last pair (probability 0.34).");
  return page;
}

/// Middles of the rings.
std::vector<Point> rings(const Page& page) {
  std::vector<Point> middles;
  for (const auto& mark : page.marks)
    if (const auto* stroke = std::get_if<Stroke>(&mark); stroke && stroke->kind == LineKind::edge) {
      Point middle{0, 0};
      for (const Point& p : stroke->points) {
        middle.x += p.x / static_cast<double>(stroke->points.size());
        middle.y += p.y / static_cast<double>(stroke->points.size());
      }
      middles.push_back(middle);
    }
  return middles;
}

TEST(LearnedSheet, IsLegibleOnEveryPaper) {
  for (const Paper& paper : papers())
    for (const auto& [shoes, months, cautions] :
         {std::tuple(0, 0, 0), {2, 1, 1}, {40, 12, 3}, {500, 90, 60}}) {
      const SheetSet set = learned_sheet(page(shoes, months, cautions), {paper, {}, {}});
      const std::size_t count = set.drawing.pages.size();
      EXPECT_TRUE(months < 2 ? count == 1 : months < 80 || count > 1) << paper.name << count;
      for (const Page& drawn : set.drawing.pages)
        for (const std::string& fault : layout_faults(drawn))
          ADD_FAILURE() << paper.name << ", " << shoes << " shoes: " << fault;
    }
}

TEST(LearnedSheet, ARingStandsWhereTheShoeWasFoundGood) {
  LearnedPage what = page(0, 1, 0);
  what.dots = {{60, 5, 60}, {70, 5, 60}, {60, 5, 75}};
  const SheetSet set = learned_sheet(what, {papers().front(), {}, {}});
  const std::vector<Point> at = rings(set.drawing.pages[0]);
  ASSERT_EQ(at.size(), 3u);
  const double scale = (at[1].x - at[0].x) / 10; // mm of paper for one of the foot
  EXPECT_GT(scale, 1);
  EXPECT_NEAR(at[1].y, at[0].y, 1e-9);
  EXPECT_NEAR(at[2].x, at[0].x, 1e-9);
  EXPECT_NEAR(at[2].y - at[0].y, 15 * scale, 1e-9) << "one scale across and upwards";
}

} // namespace
} // namespace shankline::tests::learned_sheet_test
