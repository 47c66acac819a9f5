// The area that only one of two outlines covers, by exact polygon booleans.
#include "geometry/plane/outline_distance.hpp"
#include "geometry/solution/solution.hpp"
#include "tests/geometry/random_orders.hpp"

#include <CGAL/Boolean_set_operations_2.h>
#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/Polygon_with_holes_2.h>

#include <gtest/gtest.h>

#include <iterator>
#include <vector>

namespace shankline::tests::area_apart_exact_test {
namespace {

using Kernel = CGAL::Exact_predicates_exact_constructions_kernel;
using Ring = CGAL::Polygon_2<Kernel>;
using WithHoles = CGAL::Polygon_with_holes_2<Kernel>;

Ring ring(const Polygon& polygon) {
  Ring ring;
  for (const Point& p : polygon)
    ring.push_back({p.x, p.y});
  return ring;
}

double exact_area_apart(const Polygon& a, const Polygon& b) {
  std::vector<WithHoles> apart;
  CGAL::symmetric_difference(ring(a), ring(b), std::back_inserter(apart));
  Kernel::FT area = 0;
  for (const WithHoles& piece : apart) {
    area += piece.outer_boundary().area();
    for (auto hole = piece.holes_begin(); hole != piece.holes_end(); ++hole)
      area += hole->area(); // clockwise: negative
  }
  return CGAL::to_double(area);
}

TEST(LongAreaApart, KeptBoardsAgainstExactBooleans) {
  Draw draw(2718);
  int tried = 0;
  int same_board = 0;
  while (tried < 200) {
    const Order order = random_order(draw);
    const Order other = random_order(draw);
    const Solution one = solve(order);
    const Solution two = draw.chance(0.5) ? one : solve(other);
    if (!one.left || !two.right || !one.left->pieces.kept || !two.right->pieces.kept) continue;
    const Polygon& a = one.left->pieces.kept->outline;
    Polygon b = two.right->pieces.kept->outline;
    const double aligned = *one.left->outline.length() - *two.right->outline.length();
    for (Point& p : b)
      p.x += aligned;
    ++tried;
    if (aligned == 0) ++same_board;
    EXPECT_NEAR(area_apart(a, b), exact_area_apart(a, b), 1e-8) << tried;
  }
  EXPECT_GE(same_board, 5);
}

} // namespace
} // namespace shankline::tests::area_apart_exact_test
