#include "geometry/plane/pieces.hpp"

#include "geometry/board/trim_line.hpp"
#include "tests/geometry/polygon_checks.hpp"
#include "tests/geometry/random_orders.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cfenv>
#include <cmath>
#include <limits>
#include <numbers>
#include <string>

namespace shankline::tests::pieces_test {
namespace {

constexpr double degree = std::numbers::pi / 180;
constexpr double nan = std::numeric_limits<double>::quiet_NaN();

const Polygon plank{{0, -10}, {100, -10}, {100, 10}, {0, 10}};

std::optional<Pieces> parted(const Polygon& board, const Polyline& cut) {
  const Result<Pieces> pieces = cut_pieces(board, cut);
  EXPECT_TRUE(pieces) << pieces.why().what;
  return pieces ? std::optional(*pieces) : std::nullopt;
}

/// No pieces come back, and the reason says something.
void expect_refused(const Polygon& board, const Polyline& cut, const char* why) {
  const Result<Pieces> pieces = cut_pieces(board, cut);
  ASSERT_FALSE(pieces) << why;
  EXPECT_FALSE(pieces.why().what.empty()) << why;
}

void expect_sound(const Piece& piece) {
  EXPECT_TRUE(simple_by_pairs(piece.outline));
  EXPECT_GT(shoelace_area(piece.outline), 0) << "counter-clockwise";
  EXPECT_NEAR(piece.area, shoelace_area(piece.outline), 1e-9 * piece.area);
}

bool inside(const Polygon& polygon, const Point& p) {
  bool in = false;
  for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++) {
    const Point& a = polygon[i];
    const Point& b = polygon[j];
    if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)) in = !in;
  }
  return in;
}

TEST(Pieces, SquareCutOfAPlankIsTwoRectangles) {
  const auto pieces = parted(plank, {{30, 10}, {30, -10}});
  ASSERT_TRUE(pieces);
  EXPECT_NEAR(pieces->kept.area, 1400, 1e-9);
  EXPECT_NEAR(pieces->removed.area, 600, 1e-9);
  expect_sound(pieces->kept);
  expect_sound(pieces->removed);
  for (const Point& p : pieces->kept.outline)
    EXPECT_GE(p.x, 30 - 1e-9) << "ahead of the cut";
  for (const Point& p : pieces->removed.outline)
    EXPECT_LE(p.x, 30 + 1e-9) << "behind it";
}

TEST(Pieces, SkewCutOfAPlankIsTwoTrapezia) {
  const auto pieces = parted(plank, {{34, 10}, {28, -10}});
  ASSERT_TRUE(pieces);
  EXPECT_NEAR(pieces->removed.area, 620, 1e-9); // mean length 31 by 20
  EXPECT_NEAR(pieces->kept.area, 1380, 1e-9);
  expect_sound(pieces->kept);
  expect_sound(pieces->removed);
}

TEST(Pieces, CutInSeveralStretchesIsFollowed) {
  const auto pieces = parted(plank, {{40, 10}, {34, 6}, {30, 0}, {34, -6}, {40, -10}});
  ASSERT_TRUE(pieces);
  // Removed, a side: mean length 32 by 6, then 37 by 4.
  EXPECT_NEAR(pieces->removed.area, 2 * (32 * 6 + 37 * 4), 1e-9);
  EXPECT_NEAR(pieces->kept.area, 2000 - 680, 1e-9);
}

TEST(Pieces, CutThroughTwoCornersParcelsTheBoardInHalves) {
  const auto pieces = parted(plank, {{100, 10}, {0, -10}});
  ASSERT_TRUE(pieces);
  EXPECT_NEAR(pieces->kept.area, 1000, 1e-9);
  EXPECT_NEAR(pieces->removed.area, 1000, 1e-9);
}

// An exact crossing may round to the very end of the cut beside it.
TEST(Pieces, EndsTheRoundingOffTheEdgeRepeatNoPoint) {
  const Polygon board{{0, -20}, {300, -23}, {300, 23}, {0, 20}};
  for (int i = 0; i < 1000; ++i) {
    const double x = 10.1 + 0.271 * i;
    const double y = 20 + x / 100;
    const auto pieces = parted(board, {{x, y}, {x, -y}});
    ASSERT_TRUE(pieces) << x;
    ASSERT_TRUE(simple_by_pairs(pieces->kept.outline)) << x;
    ASSERT_TRUE(simple_by_pairs(pieces->removed.outline)) << x;
  }
}

TEST(Pieces, EndsAChordErrorOffTheEdgeStillReachIt) {
  for (const double off : {-0.02, -1e-9, 1e-9, 0.02}) {
    const auto pieces = parted(plank, {{34, 10 + off}, {28, -10 - off}});
    ASSERT_TRUE(pieces) << off;
    EXPECT_NEAR(pieces->removed.area, 620, 0.05);
    EXPECT_NEAR(pieces->kept.area + pieces->removed.area, 2000, 2e-6);
  }
}

TEST(Pieces, RandomCutsLoseAndGainNothing) {
  Draw draw(51);
  int rounded_ends = 0;
  int tried = 0;
  int points_in_kept = 0;
  int points_in_removed = 0;
  while (tried < 150) {
    const Order order = random_order(draw);
    const Board& drawn = (order.left ? *order.left : *order.right).shoe.board;
    if (!drawn.length) continue;
    const BoardOutline board(drawn.widths, drawn.loose_length());
    const Polygon whole = board.polygon();
    const double skew = draw.uniform(-15, 15) * degree;
    const auto line = cut_line(board, BoardStation(draw.uniform(35, 95)), skew);
    ASSERT_TRUE(line);
    const bool is_rounded = draw.chance(0.5);
    const auto end = board_end(board, *line, is_rounded ? BoardEnd::rounded : BoardEnd::straight,
                               draw.uniform(2, 7));
    ASSERT_TRUE(end);
    const auto pieces = cut_pieces(whole, *end);
    ASSERT_TRUE(pieces) << "board " << tried << ": " << pieces.why().what;
    ++tried;
    if (is_rounded) ++rounded_ends;
    const double area = shoelace_area(whole);
    ASSERT_NEAR(pieces->kept.area + pieces->removed.area, area, 1e-9 * area);
    expect_sound(pieces->kept);
    expect_sound(pieces->removed);
    // CGAL's booleans, the slow way, say the same.
    const auto slow = cut_pieces_by_booleans(whole, *end);
    ASSERT_TRUE(slow) << "board " << tried << ": " << slow.why().what;
    ASSERT_NEAR(pieces->kept.area, slow->kept.area, 1e-9 * area);
    ASSERT_NEAR(pieces->removed.area, slow->removed.area, 1e-9 * area);
    ASSERT_EQ(pieces->kept.outline.size(), slow->kept.outline.size());
    ASSERT_EQ(pieces->removed.outline.size(), slow->removed.outline.size());
    // No overlap: a place on the board lies in one piece and no more.
    for (int i = 0; i < 60; ++i) {
      const Point p{draw.uniform(0, *drawn.loose_length()), draw.uniform(-30, 30)};
      if (!inside(whole, p) || distance_to_line(*end, p) < 0.1) continue;
      const bool in_kept = inside(pieces->kept.outline, p);
      const bool in_removed = inside(pieces->removed.outline, p);
      ASSERT_NE(in_kept, in_removed);
      // Away from the corners the line alone decides.
      const double past = (p.x - line->centre) * std::cos(skew) - p.y * std::sin(skew);
      if (past < 0) {
        ASSERT_TRUE(in_removed);
        ++points_in_removed;
      } else if (past > 12) {
        ASSERT_TRUE(in_kept);
        ++points_in_kept;
      }
    }
    // Every corner of the cut's inside is a corner of both pieces.
    const Point& middle = (*end)[end->size() / 2];
    if (end->size() > 2) {
      EXPECT_LT(distance_to_outline(pieces->kept.outline, middle), 1e-9);
      EXPECT_LT(distance_to_outline(pieces->removed.outline, middle), 1e-9);
    }
  }
  EXPECT_GT(rounded_ends, 40);
  EXPECT_GT(points_in_kept, 1000);
  EXPECT_GT(points_in_removed, 500);
}

TEST(Pieces, RefusesABoardThatIsNoOutline) {
  const Polyline cut{{30, 10}, {30, -10}};
  expect_refused({{0, -10}, {100, 10}, {100, -10}, {0, 10}}, cut, "a bow-tie");
  Polygon clockwise = plank;
  std::reverse(clockwise.begin(), clockwise.end());
  expect_refused(clockwise, cut, "clockwise");
  Polygon closed = plank;
  closed.push_back(closed.front());
  expect_refused(closed, cut, "the first point repeated at the end");
  Polygon doubled = plank;
  doubled.insert(doubled.begin() + 1, doubled[1]);
  expect_refused(doubled, cut, "a point twice");
  Polygon holed = plank;
  holed[2].y = nan;
  expect_refused(holed, cut, "no number");
  holed[2].y = std::numeric_limits<double>::infinity();
  expect_refused(holed, cut, "infinite");
  expect_refused({}, cut, "no points");
  expect_refused({{0, -10}, {100, -10}}, cut, "two points");
  expect_refused({{0, 0}, {50, 0}, {100, 0}}, cut, "no area");
}

TEST(Pieces, RefusesACutThatPartsNothing) {
  expect_refused(plank, {{130, 10}, {130, -10}}, "ahead of the board");
  expect_refused(plank, {{-30, 10}, {-30, -10}}, "behind it");
  expect_refused(plank, {{100, 10}, {100, -10}}, "along the toe edge");
  expect_refused(plank, {{0, 10}, {0, -10}}, "along the heel edge");
  expect_refused(plank, {{80, 10}, {20, 10}}, "along the medial edge");
  expect_refused(plank, {{50, 10}, {50, 0}}, "half-way across");
  expect_refused(plank, {{50, 5}, {50, -5}}, "from nowhere to nowhere");
  expect_refused(plank, {}, "no points");
  expect_refused(plank, {{50, 10}}, "one point");
  expect_refused(plank, {{50, 10}, {50, 10}}, "one point twice");
  expect_refused(plank, {{50, 10}, {nan, 0}, {50, -10}}, "no number");
}

TEST(Pieces, RefusesACutThatMakesMoreThanTwoPieces) {
  const Polygon forked{{0, -10}, {100, -10}, {100, -4}, {40, -4},
                       {40, 4},  {100, 4},   {100, 10}, {0, 10}};
  expect_refused(forked, {{70, 10}, {70, -10}}, "two prongs stay");
  expect_refused(plank, {{50, 10}, {60, -15}, {70, -15}, {80, 10}, {80, -10}}, "out and in again");
  expect_refused(plank, {{50, 10}, {60, -5}, {40, -5}, {50, 5}, {70, -10}}, "across itself");
}

// CGAL's intervals rest on it.
TEST(Rounding, CanBeDirected) {
  volatile double one = 1;
  volatile double three = 3;
  const int before = std::fegetround();
  std::fesetround(FE_UPWARD);
  const volatile double above = one / three;
  std::fesetround(FE_DOWNWARD);
  const volatile double below = one / three;
  std::fesetround(before);
  EXPECT_EQ(std::nextafter(below, 1), above);
}

TEST(IsSimple, KnowsASimpleOutlineFromAnother) {
  EXPECT_TRUE(is_simple(plank));
  EXPECT_TRUE(is_simple({{0, -10}, {50, -10}, {100, -10}, {100, 10}, {0, 10}})) << "a flat corner";
  EXPECT_FALSE(is_simple({{0, -10}, {100, 10}, {100, -10}, {0, 10}})) << "a bow-tie";
  EXPECT_FALSE(is_simple({{0, 0}, {10, 0}, {10, 0}, {10, 10}})) << "a point twice";
  EXPECT_FALSE(is_simple({{0, 0}, {10, 0}, {10, 10}, {0, 0}})) << "closed by hand";
  EXPECT_FALSE(is_simple({{0, 0}, {10, 0}, {10, 10}, {5, 0}, {0, 10}})) << "a corner on an edge";
  EXPECT_FALSE(is_simple({{0, 0}, {20, 0}, {10, 0}, {10, 10}})) << "folds back";
  EXPECT_FALSE(is_simple({{0, 0}, {10, nan}, {10, 10}}));
  EXPECT_FALSE(is_simple({{0, 0}, {10, 0}}));
  EXPECT_FALSE(is_simple({}));
}

TEST(IsSimple, AgreesWithEveryPairOfEdgesLookedAt) {
  Draw draw(52);
  int simple = 0;
  int tangled = 0;
  for (int i = 0; i < 2000; ++i) {
    Polygon polygon;
    const std::size_t corners = 3 + draw.below(5);
    for (std::size_t k = 0; k < corners; ++k)
      polygon.push_back({std::round(draw.uniform(0, 12)), std::round(draw.uniform(0, 12))});
    const bool expected = simple_by_pairs(polygon);
    ASSERT_EQ(is_simple(polygon), expected) << "polygon " << i;
    ++(expected ? simple : tangled);
  }
  EXPECT_GT(simple, 300);
  EXPECT_GT(tangled, 300);
}

} // namespace
} // namespace shankline::tests::pieces_test
