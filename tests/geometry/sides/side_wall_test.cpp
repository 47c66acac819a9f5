// The wall laid flat: closed forms of the cone and the plane, and walls stood up in space.

#include "geometry/sides/side_wall.hpp"

#include "tests/geometry/polygon_checks.hpp"
#include "tests/geometry/wall_by_quadrature.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <utility>
#include <vector>

namespace shankline::tests::side_wall_test {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double degree = pi / 180;
constexpr double margin = 3;
constexpr double wing = 159;

SideWall::HeightLine level(double height) {
  return {[=](double) { return height; }, [](double) { return 0.0; }};
}

SideWall::HeightLine ramp(double start, double slope) {
  return {[=](double t) { return start + slope * t; }, [=](double) { return slope; }};
}

/// Waves as no top line has them: every order of slope is in it.
SideWall::HeightLine wavy(double middle, double swing, double wave) {
  return {[=](double t) { return middle + swing * std::cos(t / wave); },
          [=](double t) { return -swing / wave * std::sin(t / wave); }};
}

/// The whole circle with two nodes; convex for a positive turn.
SoleEdge circle(double radius, double turn = 2 * pi) {
  return SoleEdge({{0, 0, 0, 0}, {radius * std::abs(turn), 1, 0, turn}});
}

SoleEdge straight(double length) {
  return SoleEdge({{0, 0, 20, 0}, {length, length, 20, 0}});
}

BoardOutline even_board() {
  return {{{22, 22.5, 22.5}, {96, 16.5, 16.5}, {164, 28, 28}}, 220};
}

BoardOutline skew_board() {
  return {{{25, 27, 19}, {60, 20, 21}, {96, 14, 19}, {150, 33, 24}}, 230};
}

// Cone frustums laid flat. Formula from memory, figures recomputed: slant √((R − r)² + h²), outer
// radius R·slant/(R − r), inner one less by the slant, angle 360°·(R − r)/slant.
struct Frustum {
  double base;
  double top;
  double height;
  double slant;
  double outer;
  double inner;
  double angle;
};
const std::vector<Frustum> frustums{{30, 15, 20, 25, 50, 25, 216},
                                    {60, 35, 60, 65, 156, 91, 138.4615384615}};

double lean_of(const Frustum& cone) {
  return std::atan((cone.base - cone.top) / cone.height);
}

TEST(SideWall, ConeFrustumsLieFlatAsSectors) {
  for (const Frustum& cone : frustums) {
    SCOPED_TRACE(cone.base);
    const SideWall wall(circle(cone.base), lean_of(cone));
    EXPECT_NEAR(wall.lean(), lean_of(cone), 1e-15);
    const double around = 2 * pi * cone.base;
    EXPECT_EQ(wall.edge().length(), around);
    int tried = 0;
    for (int i = 0; i <= 48; ++i) {
      const double t = around * i / 48;
      const double angle = cone.angle * degree * i / 48;
      for (const double h : {0.0, cone.slant / 3, cone.slant}) {
        // Seam at the origin, base along +x, wall and apex towards +y.
        const double radius = cone.outer - h;
        const Point p = wall.flat(t, h);
        EXPECT_NEAR(p.x, radius * std::sin(angle), 1e-8);
        EXPECT_NEAR(p.y, cone.outer - radius * std::cos(angle), 1e-8);
        ++tried;
      }
    }
    EXPECT_EQ(tried, 147);
    EXPECT_NEAR(distance(wall.flat(0, cone.slant), {0, cone.outer}), cone.inner, 1e-9);
  }
}

TEST(SideWall, ConeFrustumsKeepTheirLengthsAndAreas) {
  for (const Frustum& cone : frustums) {
    SCOPED_TRACE(cone.base);
    const SideWall wall(circle(cone.base), lean_of(cone));
    const double around = 2 * pi * cone.base;
    EXPECT_NEAR(wall.length(level(0), 0, around), around, 1e-9);
    EXPECT_NEAR(wall.length(level(cone.slant), 0, around), 2 * pi * cone.top, 1e-9);
    EXPECT_NEAR(wall.length(level(cone.slant / 2), 0, around / 2), pi * (cone.base + cone.top) / 2,
                1e-9);
    EXPECT_NEAR(wall.area(level(cone.slant), level(0), 0, around),
                pi * (cone.base + cone.top) * cone.slant, 1e-8);
    EXPECT_NEAR(wall.area(level(cone.slant), level(cone.slant), 0, around), 0, 1e-12);
    // Polar area of the sector itself.
    EXPECT_NEAR(wall.area(level(cone.slant), level(0), 0, around),
                cone.angle * degree / 2 * (cone.outer * cone.outer - cone.inner * cone.inner),
                1e-6);
  }
}

TEST(SideWall, RampOnAConeIsASpiral) {
  // Flat it is r = a − b·angle; its length is in closed form.
  for (const Frustum& cone : frustums) {
    SCOPED_TRACE(cone.base);
    const SideWall wall(circle(cone.base), lean_of(cone));
    const double around = 2 * pi * cone.base;
    const double slope = 0.8 * cone.slant / around;
    const double b = 0.8 * cone.slant / (cone.angle * degree);
    const auto primitive = [&](double r) {
      return (r * std::hypot(r, b) + b * b * std::asinh(r / b)) / (2 * b);
    };
    const double outer = cone.outer - 0.1 * cone.slant;
    const double inner = cone.outer - 0.9 * cone.slant;
    EXPECT_NEAR(wall.length(ramp(0.1 * cone.slant, slope), 0, around),
                primitive(outer) - primitive(inner), 1e-8);
  }
}

TEST(SideWall, OnAHollowEdgeTheTopComesOutLonger) {
  const SideWall hollow(circle(40, -pi), 12 * degree);
  const SideWall round(circle(40, pi), 12 * degree);
  const double base = 40 * pi;
  const double change = 30 * pi * std::sin(12 * degree);
  EXPECT_NEAR(hollow.length(level(30), 0, base), base + change, 1e-9);
  EXPECT_NEAR(round.length(level(30), 0, base), base - change, 1e-9);
  // Towards the wall where round, away from it where hollow.
  EXPECT_GT(round.flat(base, 0).y, 1);
  EXPECT_LT(hollow.flat(base, 0).y, -1);
  // Outward leaning turns it over.
  const SideWall splayed(circle(40, pi), -12 * degree);
  EXPECT_NEAR(splayed.length(level(30), 0, base), base + change, 1e-9);
}

TEST(SideWall, OnAStraightEdgeIsARectangleHoweverItLeans) {
  for (const double lean : {-20.0, 0.0, 10.0, 44.0}) {
    SCOPED_TRACE(lean);
    const SideWall wall(straight(160), lean * degree);
    for (const double t : {0.0, 1.0, 77.7, 160.0})
      for (const double h : {0.0, 41.0, 60.0}) {
        EXPECT_NEAR(wall.flat(t, h).x, t, 1e-11);
        EXPECT_NEAR(wall.flat(t, h).y, h, 1e-11);
      }
    EXPECT_NEAR(wall.length(level(41), 0, 160), 160, 1e-11);
    EXPECT_NEAR(wall.area(level(50), level(41), 20, 60), 360, 1e-10);
    EXPECT_NEAR(wall.length(ramp(30, 0.75), 0, 160), 200, 1e-10);
    EXPECT_NEAR(wall.length(ramp(30, 0.75), 40, 80), 50, 1e-10);
  }
}

TEST(SideWall, UprightOnAnyEdgeHasAStraightBaseOfTheSameLength) {
  for (const Edge edge : {Edge::medial, Edge::lateral}) {
    const BoardOutline outline = skew_board();
    const SideWall wall(sole_edge(outline, edge, wing), 0);
    const BruteEdge brute = brute_edge(outline, edge, wing + margin, margin);
    const double length = wall.edge().length();
    EXPECT_NEAR(length, brute.length(), 1e-4);
    for (double t = 0; t <= length; t += 3.1) {
      ASSERT_NEAR(wall.flat(t, 0).x, t, 1e-9);
      ASSERT_NEAR(wall.flat(t, 0).y, 0, 1e-9);
      ASSERT_NEAR(wall.flat(t, 45).x, t, 1e-9);
      ASSERT_NEAR(wall.flat(t, 45).y, 45, 1e-9);
    }
    EXPECT_NEAR(wall.length(level(45), 0, length), length, 1e-9);
    EXPECT_NEAR(wall.area(level(45), level(0), 0, length), 45 * length, 1e-7);
  }
}

/// Leans at which a wall of 52 does not fold over itself at the heel's tightest bend.
template <typename Check> void on_every_wall(Check&& check) {
  int tried = 0;
  for (const BoardOutline& outline : {even_board(), skew_board()})
    for (const Edge edge : {Edge::medial, Edge::lateral}) {
      const BruteEdge brute = brute_edge(outline, edge, wing + margin, margin);
      for (const double lean : {-6.0, 0.0, 4.0, 10.0, 17.0}) {
        SCOPED_TRACE(lean);
        check(SideWall(sole_edge(outline, edge, wing), lean * degree), brute, lean * degree);
        ++tried;
      }
    }
  EXPECT_EQ(tried, 20);
}

TEST(SideWall, BaseIsAsLongAsTheSolesEdge) {
  on_every_wall([](const SideWall& wall, const BruteEdge& brute, double) {
    const double to = wall.edge().length();
    EXPECT_NEAR(to, brute.length(), 1e-4);
    EXPECT_NEAR(wall.length(level(0), 0, to), to, 1e-8);
    // Measured on the template itself.
    EXPECT_NEAR(length_of(wall.flat_line(level(0), 0, to, 1e-5)), brute.length(), 0.001);
    EXPECT_NEAR(length_of(wall.flat_line(level(0), 0, to)), brute.length(), 0.1);
    double sum = 0;
    Point before = wall.flat(0, 0);
    for (int i = 1; i <= 20000; ++i) {
      const Point p = wall.flat(to * i / 20000, 0);
      sum += distance(before, p);
      before = p;
    }
    EXPECT_NEAR(sum, brute.length(), 0.001);
  });
}

TEST(SideWall, GeneratorsStayStraightAndSquareToTheBase) {
  on_every_wall([](const SideWall& wall, const BruteEdge&, double) {
    int tried = 0;
    for (double t = 0.5; t < wall.edge().length() - 0.5; t += 2.7) {
      const Point foot = wall.flat(t, 0);
      const Point top = wall.flat(t, 50);
      ASSERT_NEAR(distance(foot, top), 50, 1e-10);
      const Point middle = wall.flat(t, 20);
      ASSERT_NEAR(middle.x, foot.x + 0.4 * (top.x - foot.x), 1e-10);
      ASSERT_NEAR(middle.y, foot.y + 0.4 * (top.y - foot.y), 1e-10);
      const double delta = 1e-4;
      const Point ahead = wall.flat(t + delta, 0);
      const Point behind = wall.flat(t - delta, 0);
      const Point along{(ahead.x - behind.x) / (2 * delta), (ahead.y - behind.y) / (2 * delta)};
      const Point up{(top.x - foot.x) / 50, (top.y - foot.y) / 50};
      ASSERT_NEAR(std::hypot(along.x, along.y), 1, 1e-6);
      ASSERT_NEAR(along.x * up.x + along.y * up.y, 0, 1e-5);
      ASSERT_GT(along.x * up.y - along.y * up.x, 0.9) << "the wall is on the left of its base";
      ++tried;
    }
    EXPECT_GT(tried, 60);
  });
}

TEST(SideWall, StartsAtTheOriginAlongTheAxis) {
  on_every_wall([](const SideWall& wall, const BruteEdge&, double) {
    EXPECT_EQ(wall.flat(0, 0), (Point{0, 0}));
    EXPECT_NEAR(wall.flat(0, 40).x, 0, 1e-12);
    EXPECT_NEAR(wall.flat(0, 40).y, 40, 1e-12);
  });
}

TEST(SideWall, LayingFlatKeepsEverySmallDistance) {
  on_every_wall([](const SideWall& wall, const BruteEdge& brute, double lean) {
    int tried = 0;
    for (double t = 1; t < wall.edge().length() - 2; t += 3.3)
      for (const double h : {0.0, 25.0, 50.0})
        for (const double rise : {-0.3, 0.0, 0.4}) {
          const double in_space = distance_in_space(on_wall(brute, lean, t, h),
                                                    on_wall(brute, lean, t + 0.5, h + rise));
          const double flat = distance(wall.flat(t, h), wall.flat(t + 0.5, h + rise));
          // Chords: the surface's bend is lost on 0.5 mm.
          ASSERT_NEAR(flat, in_space, 1e-3) << t << ' ' << h;
          ++tried;
        }
    EXPECT_GT(tried, 400);
  });
}

TEST(SideWall, LengthsAreThoseOfTheWallInSpace) {
  on_every_wall([](const SideWall& wall, const BruteEdge& brute, double lean) {
    const double end = wall.edge().length();
    const std::vector<SideWall::HeightLine> lines{level(0), level(45), ramp(52, -0.07),
                                                  wavy(42, 6, 25), wavy(45, 1, 2)};
    for (const auto& line : lines) {
      EXPECT_NEAR(wall.length(line, 0, end), brute_length(brute, lean, line.height, 0, end), 5e-4);
      EXPECT_NEAR(wall.length(line, 31.4, 127.2),
                  brute_length(brute, lean, line.height, 31.4, 127.2), 5e-4);
      EXPECT_NEAR(wall.length(line, 0, 31.4) + wall.length(line, 31.4, end),
                  wall.length(line, 0, end), 1e-7);
      EXPECT_NEAR(length_of(wall.flat_line(line, 31.4, 127.2, 1e-5)),
                  brute_length(brute, lean, line.height, 31.4, 127.2), 2e-3);
    }
    EXPECT_EQ(wall.length(level(45), 50, 50), 0);
  });
}

TEST(SideWall, AreasAreThoseOfTheWallInSpace) {
  on_every_wall([](const SideWall& wall, const BruteEdge& brute, double lean) {
    const double end = wall.edge().length();
    const SideWall::HeightLine upper = wavy(48, 4, 30);
    const SideWall::HeightLine lower = wavy(40, 3, 17);
    EXPECT_NEAR(wall.area(upper, lower, 0, end),
                brute_area(brute, lean, upper.height, lower.height, 0, end), 5e-3);
    EXPECT_NEAR(wall.area(upper, lower, 20.3, 110.9),
                brute_area(brute, lean, upper.height, lower.height, 20.3, 110.9), 5e-3);
    EXPECT_NEAR(wall.area(lower, upper, 0, end), -wall.area(upper, lower, 0, end), 1e-8);
    // The template's own area: shoelace round the flat strip.
    Polygon flat = wall.flat_line(lower, 20.3, 110.9, 1e-4);
    Polyline top = wall.flat_line(upper, 20.3, 110.9, 1e-4);
    std::reverse(top.begin(), top.end());
    flat.insert(flat.end(), top.begin(), top.end());
    EXPECT_NEAR(shoelace_area(flat), wall.area(upper, lower, 20.3, 110.9), 0.02);
  });
}

TEST(SideWall, FlatLineKeepsItsChordError) {
  on_every_wall([](const SideWall& wall, const BruteEdge&, double) {
    const SideWall::HeightLine line = wavy(42, 5, 6);
    const double to = 140;
    for (const double error : {0.02, 0.5}) {
      const Polyline flat = wall.flat_line(line, 2, to, error);
      EXPECT_EQ(flat.front(), wall.flat(2, line.height(2)));
      EXPECT_NEAR(distance(flat.back(), wall.flat(to, line.height(to))), 0, 1e-9);
      double worst = 0;
      for (int i = 0; i <= 3000; ++i) {
        const double t = 2 + (to - 2) * i / 3000;
        worst = std::max(worst, distance_to_line(flat, wall.flat(t, line.height(t))));
      }
      EXPECT_LE(worst, error);
      EXPECT_GT(worst, 0) << "a polyline is not the curve";
      EXPECT_LT(flat.size(), 2000U);
    }
  });
}

TEST(SideWall, MirroredBoardHasTheSameWallOnTheOtherSide) {
  const BoardOutline board = skew_board();
  const BoardOutline other({{25, 19, 27}, {60, 21, 20}, {96, 19, 14}, {150, 24, 33}}, 230);
  const SideWall medial(sole_edge(board, Edge::medial, wing), 10 * degree);
  const SideWall lateral(sole_edge(other, Edge::lateral, wing), 10 * degree);
  const SideWall unlike(sole_edge(board, Edge::lateral, wing), 10 * degree);
  double apart = 0;
  for (double t = 0; t < 180; t += 1.3)
    for (const double h : {0.0, 40.0}) {
      ASSERT_NEAR(distance(medial.flat(t, h), lateral.flat(t, h)), 0, 1e-9);
      apart = std::max(apart, distance(medial.flat(t, h), unlike.flat(t, h)));
    }
  EXPECT_GT(apart, 0.5) << "the board was meant to be skew";
}

TEST(LeanFromWidths, IsTheLeanOfTheCone) {
  // Diameters of the frustums across base and top, slant between them.
  for (const Frustum& cone : frustums) {
    const auto lean = lean_from_widths(2 * cone.base, 2 * cone.top, cone.slant);
    ASSERT_TRUE(lean);
    EXPECT_NEAR(*lean, lean_of(cone), 1e-14);
  }
  EXPECT_NEAR(*lean_from_widths(60, 60, 41), 0, 1e-15);
  EXPECT_NEAR(*lean_from_widths(60, 19, 41), 30 * degree, 1e-14);
  EXPECT_NEAR(*lean_from_widths(60, 101, 41), -30 * degree, 1e-14) << "splayed outwards";
}

TEST(LeanFromWidths, NothingWhereNoWallCanLeanSo) {
  EXPECT_FALSE(lean_from_widths(100, 10, 44));
  EXPECT_FALSE(lean_from_widths(10, 100, 44));
  EXPECT_FALSE(lean_from_widths(60, 50, 0));
  EXPECT_FALSE(lean_from_widths(60, 60, 0));
  EXPECT_FALSE(lean_from_widths(60, 50, -41));
  EXPECT_FALSE(lean_from_widths(std::numeric_limits<double>::quiet_NaN(), 50, 41));
  EXPECT_TRUE(lean_from_widths(100, 13, 44));
  const auto flat = lean_from_widths(100, 12, 44); // 44 in from either side: it lies flat
  ASSERT_TRUE(flat);
  EXPECT_NEAR(*flat, 90 * degree, 1e-15);
  EXPECT_FALSE(lean_from_widths(100, 11.99, 44));
}

} // namespace
} // namespace shankline::tests::side_wall_test
