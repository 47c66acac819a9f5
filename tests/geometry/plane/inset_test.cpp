#include "geometry/plane/inset.hpp"

#include "tests/geometry/polygon_checks.hpp"
#include "tests/geometry/random_orders.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

namespace shankline::tests::inset_test {
namespace {

double round_about(const Polygon& polygon) {
  Polyline line = polygon;
  line.push_back(polygon.front());
  return length_of(line);
}

struct Mitred {
  const char* name;
  Polygon outline;
  double distance;
  double area;
  double perimeter;
};

// Recomputed by Steiner's formula for mitred corners of convex polygons.
TEST(Inset, MitresConvexPolygons) {
  const Polygon triangle{{0, 0}, {4, 0}, {0, 3}};
  const Polygon rectangle{{0, 0}, {60, 0}, {60, 20}, {0, 20}};
  const Polygon square{{0, 0}, {10, 0}, {10, 10}, {0, 10}};
  const std::vector<Mitred> cases{
      {"triangle 3-4-5, 1 outwards", triangle, -1, 24, 24},
      {"rectangle, 5 outwards", rectangle, -5, 2100, 200},
      {"square, 0.5 inwards", square, 0.5, 81, 36},
      {"triangle to nearly nothing", triangle, 0.999, 6e-6, 12e-3},
      {"not moved at all", square, 0, 100, 40},
  };
  for (const Mitred& c : cases) {
    const auto moved = inset(c.outline, c.distance);
    ASSERT_TRUE(moved) << c.name;
    EXPECT_NEAR(signed_area(*moved), c.area, 1e-9) << c.name;
    EXPECT_NEAR(round_about(*moved), c.perimeter, 1e-9) << c.name;
  }
}

TEST(Inset, OfASmoothOutlineFollowsSteiner) {
  // A − P d + π d² while d is below the smallest radius, here b²/a = 20.4.
  constexpr int points = 4000;
  constexpr double a = 60;
  constexpr double b = 35;
  Polygon ellipse;
  for (int i = 0; i < points; ++i) {
    const double angle = 2 * std::numbers::pi * i / points;
    ellipse.push_back({a * std::cos(angle), b * std::sin(angle)});
  }
  constexpr double perimeter = 303.64115781; // by elliptic integrals
  for (const double d : {0.5, 1.5, 5.0, 20.0}) {
    const auto moved = inset(ellipse, d);
    ASSERT_TRUE(moved);
    EXPECT_NEAR(signed_area(*moved),
                std::numbers::pi * a * b - perimeter * d + std::numbers::pi * d * d, 0.02)
        << d;
  }
}

TEST(Inset, LeavesOutEdgesThatAreEaten) {
  constexpr double e = 0.1; // a chamfer that 2 eats
  const Polygon chamfered{{0, 0}, {10 - e, 0}, {10, e}, {10, 10}, {0, 10}};
  const auto moved = inset(chamfered, 2);
  ASSERT_TRUE(moved);
  EXPECT_EQ(moved->size(), 4u);
  EXPECT_NEAR(signed_area(*moved), 36, 1e-9);
}

TEST(Inset, SaysWhenNothingIsLeft) {
  const Polygon square{{0, 0}, {10, 0}, {10, 10}, {0, 10}};
  EXPECT_TRUE(inset(square, 4.9));
  EXPECT_FALSE(inset(square, 5.1));
  EXPECT_FALSE(inset(square, 50));
  // Two squares with a neck 4 wide between them.
  const Polygon waisted{{0, 0},   {20, 0},  {20, 8},  {40, 8},  {40, 0},  {60, 0},
                        {60, 20}, {40, 20}, {40, 12}, {20, 12}, {20, 20}, {0, 20}};
  EXPECT_TRUE(inset(waisted, 1.9));
  EXPECT_FALSE(inset(waisted, 2.1)) << "the waist is eaten";
}

/// A closed curve round the origin with three lobes drawn at random.
Polygon random_outline(Draw& draw, double deepest) {
  const double depth = draw.uniform(0, deepest);
  const double turn = draw.uniform(0, 6);
  Polygon outline;
  constexpr int points = 240;
  for (int i = 0; i < points; ++i) {
    const double angle = 2 * std::numbers::pi * i / points;
    const double r = 40 * (1 + depth * std::cos(3 * angle + turn));
    outline.push_back({1.8 * r * std::cos(angle), r * std::sin(angle)});
  }
  return outline;
}

TEST(Inset, KeepsItsDistanceEverywhere) {
  Draw draw(20261125);
  int tried = 0;
  for (int i = 0; i < 60; ++i) {
    const Polygon outline = random_outline(draw, 0.5);
    const double d = draw.uniform(0.2, 12);
    const auto moved = inset(outline, d);
    if (!moved) continue;
    ++tried;
    EXPECT_TRUE(simple_by_pairs(*moved));
    double nearest = 1e9;
    for (const Point& p : *moved)
      nearest = std::min(nearest, distance_to_outline(outline, p));
    EXPECT_NEAR(nearest, d, 1e-6);
    EXPECT_LT(signed_area(*moved), signed_area(outline));
  }
  EXPECT_GE(tried, 40);
}

} // namespace
} // namespace shankline::tests::inset_test
