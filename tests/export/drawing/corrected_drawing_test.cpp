// Finds the edges of the room on a page that is drawn for one printer, to half a millimetre.
#include "export/drawing/corrected_drawing.hpp"

#include <gtest/gtest.h>
#include <string>
#include <variant>

namespace shankline::tests::corrected_drawing_test {
namespace {

Drawing page_with(const Point& at, const Paper& paper) {
  Page page;
  page.paper = paper;
  page.marks.emplace_back(Stroke{LineKind::edge, {at, {100, 100}}, false});
  Drawing drawing;
  drawing.pages.push_back(page);
  return drawing;
}

constexpr Paper a4{"a4", 210, 297};

TEST(CorrectedDrawing, RefusesWhatIsNearerThanHalfAMillimetreToAnyEdge) {
  const PrinterDrawing good{"desk", {}};
  for (const Point& inside : {Point{0.5, 100}, {209.5, 100}, {100, 0.5}, {100, 296.5}})
    EXPECT_NO_THROW(corrected_drawing(page_with(inside, a4), good)) << inside.x << ' ' << inside.y;
  for (const Point& outside : {Point{0.49, 100}, {209.51, 100}, {100, 0.49}, {100, 296.51}})
    EXPECT_THROW(corrected_drawing(page_with(outside, a4), good), OffThePage)
        << outside.x << ' ' << outside.y;
}

TEST(CorrectedDrawing, SaysWhatThePrinterDoesWhenThePageDoesNotFit) {
  try {
    corrected_drawing(page_with({10, 10}, a4), {"desk", {0.9, 0.8, 0}});
    FAIL() << "it fits";
  } catch (const OffThePage& why) {
    EXPECT_EQ(std::string(why.what()), "this sheet does not fit on a4 when it is drawn for printer "
                                       "desk, which prints 90.0 and 80.0 % of what is drawn");
  }
}

// A page on its side goes through the printer upright; a square one is upright as it is.
TEST(CorrectedDrawing, TurnsTheCorrectionForAPageOnItsSideOnly) {
  const PrinterDrawing wide{"desk", {1.25, 1, 0}};
  const auto moved = [&](const Paper& paper) {
    const Point middle{paper.width / 2, paper.height / 2};
    const Drawing drawn = corrected_drawing(page_with({middle.x + 50, middle.y + 50}, paper), wide);
    const Point p = std::get<Stroke>(drawn.pages[0].marks[0]).points[0];
    return Point{p.x - middle.x, p.y - middle.y};
  };
  for (const Paper& upright : {a4, Paper{"square", 250, 250}}) {
    EXPECT_NEAR(moved(upright).x, 40, 1e-9) << upright.name;
    EXPECT_NEAR(moved(upright).y, 50, 1e-9) << upright.name;
  }
  EXPECT_NEAR(moved(landscape(a4)).x, 50, 1e-9);
  EXPECT_NEAR(moved(landscape(a4)).y, 40, 1e-9);
}

} // namespace
} // namespace shankline::tests::corrected_drawing_test
