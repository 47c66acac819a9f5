// Orders that a program puts together are held to the limits that the reader holds files to.
#include "geometry/order/order_limits.hpp"

#include "geometry/solution/solution.hpp"
#include "tests/geometry/sides_of_order.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <limits>
#include <string>

namespace shankline::tests::order_limits_test {
namespace {

struct SideFigure {
  const char* key;
  void (*set)(FootOrder&, double);
};

StockHeights& medial_heights(FootOrder& order) {
  StockSides& sides = *order.shoe.sides;
  if (!sides.medial) sides.medial.emplace();
  return *sides.medial;
}

constexpr SideFigure side_figures[] = {
    {"shoe.left.sides.back", [](FootOrder& o, double v) { o.shoe.sides->back = v; }},
    {"shoe.left.sides.low", [](FootOrder& o, double v) { o.shoe.sides->low = v; }},
    {"shoe.left.sides.low_at", [](FootOrder& o, double v) { o.shoe.sides->low_at = v; }},
    {"shoe.left.sides.wing", [](FootOrder& o, double v) { o.shoe.sides->wing = v; }},
    {"shoe.left.sides.wing_at", [](FootOrder& o, double v) { o.shoe.sides->wing_at = v; }},
    {"shoe.left.sides.medial.low", [](FootOrder& o, double v) { medial_heights(o).low = v; }},
    {"shoe.left.sides.medial.heights",
     [](FootOrder& o, double v) {
       medial_heights(o).heights = {{v, 44}};
     }},
    {"shoe.left.sides.heights",
     [](FootOrder& o, double v) {
       o.shoe.sides->heights = {{70, v}};
     }},
    {"shoe.left.sides.lean", [](FootOrder& o, double v) { o.shoe.sides->lean_rad = v; }},
    {"shoe.left.sides.width_across",
     [](FootOrder& o, double v) {
       o.shoe.sides->lean_rad.reset();
       o.shoe.sides->width_across = v;
     }},
    {"shoe.left.sides.casing", [](FootOrder& o, double v) { o.shoe.sides->casing = v; }},
    {"shoe.left.sides.throat", [](FootOrder& o, double v) { o.shoe.sides->throat = v; }},
    {"alterations.left.sides.medial",
     [](FootOrder& o, double v) { o.alterations.sides->medial = v; }},
    {"alterations.left.sides.lateral",
     [](FootOrder& o, double v) { o.alterations.sides->lateral = v; }},
    {"alterations.left.sides.back", [](FootOrder& o, double v) { o.alterations.sides->back = v; }},
    {"alterations.left.sides.turn", [](FootOrder& o, double v) { o.alterations.sides->turn = v; }},
    {"alterations.left.sides.keep", [](FootOrder& o, double v) { o.alterations.sides->keep = v; }},
    {"alterations.left.sides.slope",
     [](FootOrder& o, double v) { o.alterations.sides->slope = v; }},
    {"alterations.left.sides.run_out",
     [](FootOrder& o, double v) { o.alterations.sides->run_out = v; }},
    {"alterations.left.sides.deepest_at",
     [](FootOrder& o, double v) { o.alterations.sides->deepest_at = v; }},
    {"alterations.left.sides.deepest_length",
     [](FootOrder& o, double v) { o.alterations.sides->deepest_length = v; }},
    {"alterations.left.sides.stretch",
     [](FootOrder& o, double v) { o.alterations.sides->stretch = v; }},
};

TEST(OrderLimits, LoweredSidesWithAFigureThatNoShoeHasAreRefusedByItsKey) {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  for (const SideFigure& figure : side_figures)
    for (const double bad :
         {std::numeric_limits<double>::quiet_NaN(), infinity, -infinity, -80.0, 1e300}) {
      SCOPED_TRACE(std::string(figure.key) + " " + std::to_string(bad));
      Order order;
      order.left = worked_sides();
      figure.set(*order.left, bad);
      Solution solution;
      ASSERT_NO_THROW(solution = solve(order));
      EXPECT_FALSE(solution.left);
      EXPECT_TRUE(std::any_of(
          solution.findings.begin(), solution.findings.end(), [&](const Finding& finding) {
            return finding.severity == Severity::error && finding.key == figure.key;
          }));
    }
}

TEST(OrderLimits, TheWorkedSidesAreWithinThem) {
  EXPECT_TRUE(outside_limits(worked_sides(), "left").empty());
}

} // namespace
} // namespace shankline::tests::order_limits_test
