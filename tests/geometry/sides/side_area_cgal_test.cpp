// Areas of the flat templates by a polygon library of its own, instead of an integral.

#include "tests/geometry/sides_of_order.hpp"
#include "tests/geometry/wall_by_quadrature.hpp"

#include <CGAL/Polygon_2.h>
#include <CGAL/Simple_cartesian.h>

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace shankline::tests::side_area_cgal_test {
namespace {

using Kernel = CGAL::Simple_cartesian<double>;
using Outline = CGAL::Polygon_2<Kernel>;

/// Between two flat lines, the lower one first, counter-clockwise; common ends once.
Outline between(const Polyline& lower, Polyline upper) {
  std::reverse(upper.begin(), upper.end());
  Outline outline;
  for (const Polyline* line : {&lower, static_cast<const Polyline*>(&upper)})
    for (const Point& p : *line) {
      const Kernel::Point_2 point(p.x, p.y);
      if (outline.is_empty() || outline.vertex(outline.size() - 1) != point)
        outline.push_back(point);
    }
  return outline;
}

void expect_areas(const FootOrder& order, int& tried) {
  Findings findings;
  const auto sides = sides_of(order, Pose::pointed, findings);
  ASSERT_TRUE(sides) << (findings.empty() ? "" : findings.front().what);
  constexpr double chord_error = 2e-5;
  for (const SolvedSide* side : {&sides->medial, &sides->lateral}) {
    const auto flat = [&](const SideWall::HeightLine& line) {
      return side->wall.flat_line(line, 0, side->wing, chord_error);
    };
    const SideWall::HeightLine base{[](double) { return 0.0; }, [](double) { return 0.0; }};
    const Polyline sole = flat(base);
    const Outline stock = between(sole, flat(side->stock_line()));
    const Outline finished = between(sole, flat(side->finished_line()));
    EXPECT_TRUE(stock.is_simple());
    EXPECT_TRUE(finished.is_simple());
    EXPECT_EQ(stock.orientation(), CGAL::COUNTERCLOCKWISE);
    // Over 170 of line a chord error of 2e-5 is 3.4e-3 of area at the very most.
    EXPECT_NEAR(side->wall.area(side->stock_line(), base, 0, side->wing), stock.area(), 0.01);
    EXPECT_NEAR(side->wall.area(side->finished_line(), base, 0, side->wing), finished.area(), 0.01);
    EXPECT_NEAR(side->uncovered, stock.area() - finished.area(), 0.01);
    EXPECT_NEAR(side->uncovered,
                between(flat(side->finished_line()), flat(side->stock_line())).area(), 0.01);
    EXPECT_GT(side->uncovered, 50);
    ++tried;
  }
}

TEST(SideArea, IsThatOfTheFlatPolygonBetweenTheLines) {
  int tried = 0;
  for (const double lean : {-5.0, 0.0, 4.0, 10.0, 16.0})
    for (const double back : {0.0, 2.0}) {
      SCOPED_TRACE(lean);
      FootOrder order = worked_sides();
      order.shoe.board.widths = {{22, 23.5, 21}, {96, 18, 15.5}, {164, 30, 26.5}};
      order.shoe.sides->lean_rad = lean * std::numbers::pi / 180;
      order.alterations.sides->back = back;
      expect_areas(order, tried);
    }
  EXPECT_EQ(tried, 20);
}

} // namespace
} // namespace shankline::tests::side_area_cgal_test
