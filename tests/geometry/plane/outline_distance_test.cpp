#include "geometry/plane/outline_distance.hpp"

#include "geometry/board/board_check.hpp"
#include "geometry/board/board_outline.hpp"
#include "tests/geometry/polygon_checks.hpp"
#include "tests/geometry/random_orders.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace shankline::tests::outline_distance_test {
namespace {

Polygon box(double left, double bottom, double right, double top) {
  return {{left, bottom}, {right, bottom}, {right, top}, {left, top}};
}

Polygon wheel(const Point& middle, double radius, int corners) {
  Polygon round;
  for (int i = 0; i < corners; ++i) {
    const double turn = 2 * std::numbers::pi * i / corners;
    round.push_back({middle.x + radius * std::cos(turn), middle.y + radius * std::sin(turn)});
  }
  return round;
}

/// The cut board of an order as a polygon, or nothing.
std::optional<Polygon> random_board(Draw& draw) {
  const Order order = random_order(draw);
  const auto& foot = order.left ? order.left : order.right;
  const Board& board = foot->shoe.board;
  if (board.state != BoardState::loose || !check_board(board, "shoe.left.board").empty()) return {};
  return BoardOutline(board.widths, board.loose_length()).polygon(0.05);
}

Polygon moved(Polygon polygon, double x, double y) {
  for (Point& p : polygon)
    p = {p.x + x, p.y + y};
  return polygon;
}

/// Area that both polygons cover, as a signed sum over pairs of edges of the area under both: no
/// edge is sorted or crossed with another one in the plane.
double shared_area(const Polygon& a, const Polygon& b) {
  double low = 1e9;
  for (const Polygon* polygon : {&a, &b})
    for (const Point& p : *polygon)
      low = std::min(low, p.y);
  const auto under_both = [&](const Point& a0, const Point& a1, const Point& b0, const Point& b1) {
    const double from = std::max(std::min(a0.x, a1.x), std::min(b0.x, b1.x));
    const double to = std::min(std::max(a0.x, a1.x), std::max(b0.x, b1.x));
    if (!(from < to)) return 0.0;
    const auto y = [&](const Point& p, const Point& q, double x) {
      return p.y + (x - p.x) * (q.y - p.y) / (q.x - p.x) - low;
    };
    const double a_from = y(a0, a1, from), a_to = y(a0, a1, to);
    const double b_from = y(b0, b1, from), b_to = y(b0, b1, to);
    const double before = a_from - b_from, after = a_to - b_to;
    const double lower = (std::min(a_from, b_from) + std::min(a_to, b_to)) / 2 * (to - from);
    if (before * after >= 0) return lower;
    // The lower of the two changes on the way: the corner lies above the chord of the ends.
    const double at = before / (before - after);
    const double height = a_from + at * (a_to - a_from);
    return (std::min(a_from, b_from) + height) / 2 * at * (to - from) +
           (height + std::min(a_to, b_to)) / 2 * (1 - at) * (to - from);
  };
  double area = 0;
  for (std::size_t i = 0; i < a.size(); ++i)
    for (std::size_t k = 0; k < b.size(); ++k) {
      const Point &a0 = a[i], &a1 = a[(i + 1) % a.size()];
      const Point &b0 = b[k], &b1 = b[(k + 1) % b.size()];
      if (a0.x == a1.x || b0.x == b1.x) continue;
      const double sign = (a0.x < a1.x) == (b0.x < b1.x) ? 1 : -1;
      area += sign * under_both(a0, a1, b0, b1);
    }
  return area;
}

/// The largest distance of points strewn over `from` to `to`.
double strewn(const Outline& from, const Outline& to, double step) {
  double most = 0;
  const auto distance_to_it = [&](const Point& p) {
    return to.closed ? distance_to_outline(to.points, p) : distance_to_line(to.points, p);
  };
  const std::size_t n = from.points.size();
  for (std::size_t i = 0; i + (from.closed ? 0 : 1) < n; ++i) {
    const Point& a = from.points[i];
    const Point& b = from.points[(i + 1) % n];
    const int parts = std::max(1, static_cast<int>(std::ceil(distance(a, b) / step)));
    for (int k = 0; k <= parts; ++k) {
      const double t = static_cast<double>(k) / parts;
      most = std::max(most, distance_to_it({a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)}));
    }
  }
  return most;
}

TEST(OutlineDistance, ClosedForms) {
  struct Case {
    const char* what;
    Polygon a;
    Polygon b;
    double distance;
    double area;
  };
  const Case cases[]{
      {"a box moved along", box(0, 0, 10, 4), box(3, 0, 13, 4), 3, 24},
      {"a box moved aslant", box(0, 0, 10, 4), box(3, 4, 13, 8), 5, 80},
      {"a box in a box", box(0, 0, 10, 10), box(4, 4, 6, 6), std::hypot(4, 4), 96},
      {"apart", box(0, 0, 2, 2), box(5, 0, 7, 2), 5, 8},
      {"the other way round", box(0, 0, 10, 4), {{0, 0}, {0, 4}, {10, 4}, {10, 0}}, 0, 0},
      {"one corner pulled out", box(0, 0, 10, 4), {{0, 0}, {10, 0}, {16, 4}, {0, 4}}, 6, 12},
      {"a notch",
       box(0, 0, 10, 4),
       {{0, 0}, {10, 0}, {10, 4}, {6, 4}, {5, 1}, {4, 4}, {0, 4}},
       3,
       3},
  };
  for (const Case& c : cases) {
    const LargestDistance found = largest_distance({c.a, true}, {c.b, true});
    if (c.what != std::string("a notch")) {
      EXPECT_NEAR(found.distance, c.distance, distance_error) << c.what;
    } else { // its tip is 3 below the top and only 1 above the bottom: the flanks decide
      EXPECT_NEAR(found.distance, 2, 0.01) << c.what;
    }
    EXPECT_NEAR(distance(found.on_a, found.on_b), found.distance, 1e-9) << c.what;
    EXPECT_NEAR(area_apart(c.a, c.b), c.area, 1e-9) << c.what;
  }
}

/// The farthest place is inside a segment: half-way between the two ends that it looks at.
TEST(OutlineDistance, FarthestPlaceInsideASegment) {
  const Outline line{{{-10, 0}, {10, 0}}, false};
  const Outline roof{{{-10, 0}, {-10, 1}, {0, 12}, {10, 1}, {10, 0}}, false};
  // From the middle of the line square to a flank of the roof.
  const double flank = std::abs(12.0 * 10) / std::hypot(11, 10);
  const LargestDistance found = largest_distance(line, roof);
  EXPECT_NEAR(found.distance, 12, distance_error); // the ridge, from the other side
  EXPECT_NEAR(strewn(line, roof, 0.001), flank, 1e-3);
  const Outline posts{{{-10, 5}, {-10, -5}, {-10, 0}, {10, 0}, {10, 5}}, false};
  const Outline two{{{-10, 0}, {-10, 5}}, false};
  EXPECT_NEAR(largest_distance(posts, two).distance, 20, distance_error);
}

// Edges of unlike lengths at unlike distances: whichever is looked at first, the farthest place of
// all is the answer.
TEST(OutlineDistance, OfRandomStarsIsThatOfPointsStrewn) {
  Draw draw(71);
  for (int i = 0; i < 30; ++i) {
    const auto star = [&](int corners) {
      Polygon points;
      for (int k = 0; k < corners; ++k) {
        const double turn = 2 * std::numbers::pi * (k + draw.uniform(0, 0.8)) / corners;
        const double radius = draw.uniform(5, 60);
        points.push_back({radius * std::cos(turn), radius * std::sin(turn)});
      }
      return points;
    };
    const Outline a{star(7), true};
    const Outline b{star(9), true};
    const double expected = std::max(strewn(a, b, 0.02), strewn(b, a, 0.02));
    EXPECT_NEAR(largest_distance(a, b).distance, expected, distance_error + 0.01) << i;
  }
}

TEST(OutlineDistance, WheelsOfOneMiddle) {
  const Polygon small = wheel({0, 0}, 20, 300);
  const Polygon large = wheel({0, 0}, 22, 271);
  EXPECT_NEAR(largest_distance({small, true}, {large, true}).distance, 2, 2e-3);
  EXPECT_NEAR(area_apart(small, large), shoelace_area(large) - shoelace_area(small), 1e-8);
}

TEST(OutlineDistance, NothingFromItselfToTheLastDigit) {
  Draw draw(7);
  int tried = 0;
  while (tried < 50) {
    const auto board = random_board(draw);
    if (!board) continue;
    ++tried;
    EXPECT_EQ(largest_distance({*board, true}, {*board, true}).distance, 0);
    EXPECT_EQ(area_apart(*board, *board), 0);
    Polygon back(board->rbegin(), board->rend());
    EXPECT_EQ(area_apart(*board, back), 0);
    const Outline open{Polyline(board->begin(), board->begin() + 60), false};
    EXPECT_EQ(largest_distance(open, open).distance, 0);
  }
}

TEST(OutlineDistance, BoardsAgainstPointsStrewnAndSumsOfEdges) {
  Draw draw(11);
  int tried = 0;
  while (tried < 12) {
    const auto a = random_board(draw);
    const auto other = random_board(draw);
    if (!a || !other) continue;
    ++tried;
    const Polygon b = moved(*other, draw.uniform(-20, 20), draw.uniform(-8, 8));
    const Outline of_a{*a, true};
    const Outline of_b{b, true};
    constexpr double step = 0.1;
    const double found = largest_distance(of_a, of_b).distance;
    const double by_points = std::max(strewn(of_a, of_b, step), strewn(of_b, of_a, step));
    EXPECT_GE(found, by_points - distance_error);
    EXPECT_LE(found, by_points + step / 2);
    EXPECT_EQ(largest_distance(of_b, of_a).distance, found);
    const double apart = area_apart(*a, b);
    EXPECT_EQ(area_apart(b, *a), apart);
    EXPECT_NEAR(apart, shoelace_area(*a) + shoelace_area(b) - 2 * shared_area(*a, b), 1e-7);
    EXPECT_GT(apart, 10);
  }
}

TEST(OutlineDistance, WithoutPointsIsNoOutline) {
  EXPECT_THROW(largest_distance({}, {box(0, 0, 1, 1), true}), std::invalid_argument);
  EXPECT_EQ(largest_distance({{{3, 4}}, false}, {{{0, 0}}, false}).distance, 5);
}

} // namespace
} // namespace shankline::tests::outline_distance_test
