#include "geometry/board/trim_line.hpp"

#include "tests/geometry/polygon_checks.hpp"
#include "tests/geometry/random_orders.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

namespace shankline::tests::trim_line_test {
namespace {

constexpr double degree = std::numbers::pi / 180;

BoardOutline bench_board() {
  return {{{22, 23.5, 21}, {96, 18, 15.5}, {164, 30, 26.5}}, 220};
}
BoardOutline mirrored_bench_board() {
  return {{{22, 21, 23.5}, {96, 15.5, 18}, {164, 26.5, 30}}, 220};
}
/// A board with straight edges from X = 20 to 180 mm: the medial edge lies 20 mm and the lateral
/// edge 16 mm from the centre line.
BoardOutline slab() {
  return {{{20, 20, 16}, {100, 20, 16}, {180, 20, 16}}, 200};
}

double distance_to_cut(const CutLine& line, const Point& p) {
  const double dx = line.medial_end.x - line.lateral_end.x;
  const double dy = line.medial_end.y - line.lateral_end.y;
  return std::abs((p.x - line.lateral_end.x) * dy - (p.y - line.lateral_end.y) * dx) /
         std::hypot(dx, dy);
}

TEST(TrimLine, ReachIsZeroAtTheBreakAndOneAtTheHeelFront) {
  EXPECT_DOUBLE_EQ(station_of_reach(1, FootStation(95), FootStation(61)), 61);
  EXPECT_DOUBLE_EQ(station_of_reach(0, FootStation(95), FootStation(61)), 95);
  EXPECT_DOUBLE_EQ(station_of_reach(0.75, FootStation(95), FootStation(61)), 69.5);
  EXPECT_NEAR(station_of_reach(1.15, FootStation(95), FootStation(61)), 55.9, 1e-12);
  EXPECT_NEAR(reach_of_station(FootStation(78), FootStation(95), FootStation(61)), 0.5, 1e-15);
  EXPECT_NEAR(reach_of_station(FootStation(44), FootStation(95), FootStation(61)), 1.5, 1e-15);
}

TEST(TrimLine, ReachAndStationUndoEachOther) {
  Draw draw(41);
  for (int i = 0; i < 500; ++i) {
    const FootStation heel_front(draw.uniform(40, 80));
    const FootStation break_at = heel_front + draw.uniform(20, 60);
    const double reach = draw.uniform(0.5, 1.5);
    const FootStation station = station_of_reach(reach, break_at, heel_front);
    ASSERT_NEAR(station, break_at - reach * (break_at - heel_front), 1e-12);
    ASSERT_NEAR(reach_of_station(station, break_at, heel_front), reach, 1e-12);
  }
}

TEST(TrimLine, WindowRunsFromTuckBehindTheHeelFrontToBearingBehindTheBreak) {
  const Window window = trim_window(FootStation(95), FootStation(61), 12, 18);
  EXPECT_DOUBLE_EQ(window.from, 49);
  EXPECT_DOUBLE_EQ(window.to, 77);
  const Window narrow = trim_window(FootStation(95), FootStation(61), 7.5, 20);
  EXPECT_DOUBLE_EQ(narrow.from, 53.5);
  EXPECT_DOUBLE_EQ(narrow.to, 75);
}

TEST(TrimLine, SkewIsPositiveWhereTheMedialMarkIsNearerTheToes) {
  EXPECT_NEAR(skew_angle(FootStation(97), FootStation(93), 33), std::atan(4.0 / 33), 1e-15);
  EXPECT_GT(skew_angle(FootStation(97), FootStation(93), 33), 0);
  EXPECT_NEAR(skew_angle(FootStation(93), FootStation(97), 33), -std::atan(4.0 / 33), 1e-15);
  EXPECT_EQ(skew_angle(FootStation(95), FootStation(95), 33), 0);
  EXPECT_NEAR(skew_angle(FootStation(95 + 40), FootStation(95), 40), std::numbers::pi / 4, 1e-15);
  EXPECT_NEAR(largest_skew, 15 * degree, 1e-15);
}

TEST(TrimLine, CutWithoutSkewMeetsBothEdgesAtTheSameStation) {
  const BoardOutline board = bench_board();
  const auto line = cut_line(board, BoardStation(62), 0);
  ASSERT_TRUE(line);
  EXPECT_EQ(line->centre, 62);
  EXPECT_NEAR(line->medial, 62, 1e-9);
  EXPECT_NEAR(line->lateral, 62, 1e-9);
  EXPECT_NEAR(line->medial_end.y, board.half_width(Edge::medial, 62), 1e-9);
  EXPECT_NEAR(line->lateral_end.y, -board.half_width(Edge::lateral, 62), 1e-9);
}

TEST(TrimLine, EndsLieOnTheOutlineAtTheRightAngle) {
  const BoardOutline board = bench_board();
  for (double centre = 20; centre <= 195; centre += 7) {
    for (const double skew : {-15.0, -6.3, 0.0, 2.5, 15.0}) {
      const auto line = cut_line(board, BoardStation(centre), skew * degree);
      ASSERT_TRUE(line) << centre << ' ' << skew;
      EXPECT_EQ(line->centre, centre);
      EXPECT_EQ(line->medial, line->medial_end.x);
      EXPECT_EQ(line->lateral, line->lateral_end.x);
      const double slope = std::tan(skew * degree);
      EXPECT_GT(line->medial_end.y, 0);
      EXPECT_LT(line->lateral_end.y, 0);
      EXPECT_NEAR(line->medial_end.x, centre + slope * line->medial_end.y, 1e-9);
      EXPECT_NEAR(line->lateral_end.x, centre + slope * line->lateral_end.y, 1e-9);
      EXPECT_NEAR(line->medial_end.y, board.half_width(Edge::medial, line->medial), 1e-8);
      EXPECT_NEAR(line->lateral_end.y, -board.half_width(Edge::lateral, line->lateral), 1e-8);
      // The line stays on the board all the way from the centre line to its end.
      for (const double part : {0.25, 0.5, 0.75, 0.97}) {
        const double y = part * line->medial_end.y;
        EXPECT_LT(y, board.half_width(Edge::medial, centre + slope * y));
      }
    }
  }
}

TEST(TrimLine, MirroredBoardMirrorsTheLine) {
  for (const double skew : {-12.0, 0.0, 5.0, 14.0}) {
    const auto line = cut_line(bench_board(), BoardStation(62), skew * degree);
    const auto mirrored = cut_line(mirrored_bench_board(), BoardStation(62), -skew * degree);
    ASSERT_TRUE(line);
    ASSERT_TRUE(mirrored);
    EXPECT_NEAR(line->medial, mirrored->lateral, 1e-9);
    EXPECT_NEAR(line->lateral, mirrored->medial, 1e-9);
    EXPECT_NEAR(line->medial_end.y, -mirrored->lateral_end.y, 1e-9);
    EXPECT_NEAR(line->lateral_end.y, -mirrored->medial_end.y, 1e-9);
  }
}

TEST(TrimLine, CutThatMissesTheBoardGivesNoLine) {
  EXPECT_FALSE(cut_line(bench_board(), BoardStation(-5), 0));
  EXPECT_FALSE(cut_line(bench_board(), BoardStation(0), 0));
  EXPECT_FALSE(cut_line(bench_board(), BoardStation(220), 0));
  EXPECT_FALSE(cut_line(bench_board(), BoardStation(300), 0));
  for (const double skew : {-9 * degree, 0.0, 9 * degree}) {
    EXPECT_FALSE(cut_line(bench_board(), BoardStation(-1), skew)) << skew;
    EXPECT_FALSE(cut_line(bench_board(), BoardStation(221), skew)) << skew;
    EXPECT_FALSE(
        cut_line(bench_board(), BoardStation(std::numeric_limits<double>::quiet_NaN()), skew))
        << skew;
    EXPECT_TRUE(cut_line(bench_board(), BoardStation(30), skew)) << skew;
  }
}

TEST(TrimLine, BoardInTheShoeIsCutLikeALooseOne) {
  const BoardOutline board({{22, 22, 22}, {64, 19, 18}}, std::nullopt);
  // The cut lies ahead of the last measured station, 64: the widths there hold farther on too.
  const auto line = cut_line(board, BoardStation(90), 5 * degree);
  ASSERT_TRUE(line);
  EXPECT_NEAR(line->medial_end.y, 19, 1e-9);
  EXPECT_NEAR(line->lateral_end.y, -18, 1e-9);
  EXPECT_NEAR(line->medial, 90 + 19 * std::tan(5 * degree), 1e-9);
}

TEST(TrimLine, WitnessIsTheFirstMultipleOfTenAtLeastFifteenAheadOfTheStop) {
  EXPECT_EQ(witness_station(BoardStation(78)), 100);
  EXPECT_EQ(witness_station(BoardStation(75)), 90);
  EXPECT_EQ(witness_station(BoardStation(75.01)), 100);
  EXPECT_EQ(witness_station(BoardStation(74.99)), 90);
  EXPECT_EQ(witness_station(BoardStation(85)), 100);
  Draw draw(42);
  for (int i = 0; i < 500; ++i) {
    const BoardStation stop(draw.uniform(20, 180));
    const BoardStation witness = witness_station(stop);
    ASSERT_EQ(std::remainder(witness, 10), 0) << stop;
    ASSERT_GE(witness, stop + witness_ahead_of_stop);
    ASSERT_LT(witness, stop + witness_ahead_of_stop + 10);
  }
}

TEST(BoardEnd, StraightEndIsTheLineFromMedialToLateral) {
  const BoardOutline board = bench_board();
  const auto line = cut_line(board, BoardStation(62), 5 * degree);
  ASSERT_TRUE(line);
  const auto end = board_end(board, *line, BoardEnd::straight, 6);
  ASSERT_TRUE(end);
  ASSERT_EQ(end->size(), 2U);
  EXPECT_NEAR(distance(end->front(), line->medial_end), 0, 1e-12);
  EXPECT_NEAR(distance(end->back(), line->lateral_end), 0, 1e-12);
}

/// A rounded corner: the centre of its arc, and the tangent points on the edge and on the cut line.
struct Corner {
  Point centre;
  Point on_edge;
  Point on_line;
};

/// The closed form for a corner of the slab. Both tangent points lie r·cot(a/2) from the corner,
/// where a is the angle of the kept board's corner: 90° + skew on the medial side, 90° − skew on
/// the lateral side. `skew` is in radians, lengths in mm.
Corner slab_corner(double centre, double skew, double radius, Edge edge) {
  const double side = edge == Edge::medial ? 1 : -1;
  const double half = edge == Edge::medial ? 20 : 16;
  const double along = radius / std::tan((90 * degree + side * skew) / 2);
  const Point corner{centre + side * half * std::tan(skew), side * half};
  Corner result;
  result.on_edge = {corner.x + along, corner.y};
  result.on_line = {corner.x - side * along * std::sin(skew),
                    corner.y - side * along * std::cos(skew)};
  result.centre = {result.on_edge.x, side * (half - radius)};
  return result;
}

TEST(BoardEnd, RoundedCornersOfASlabMatchTheClosedForm) {
  const BoardOutline board = slab();
  int arc_points = 0;
  for (const double skew : {-14.0, -5.0, 0.0, 9.0}) {
    for (const double radius : {2.0, 6.0, 9.0}) {
      const auto line = cut_line(board, BoardStation(70), skew * degree);
      ASSERT_TRUE(line);
      const auto end = board_end(board, *line, BoardEnd::rounded, radius);
      ASSERT_TRUE(end) << skew << ' ' << radius;
      const Corner medial = slab_corner(70, skew * degree, radius, Edge::medial);
      const Corner lateral = slab_corner(70, skew * degree, radius, Edge::lateral);
      EXPECT_NEAR(distance(end->front(), medial.on_edge), 0, 1e-6);
      EXPECT_NEAR(distance(end->back(), lateral.on_edge), 0, 1e-6);
      double to_medial_tangent = 1e9;
      double to_lateral_tangent = 1e9;
      for (const Point& p : *end) {
        to_medial_tangent = std::min(to_medial_tangent, distance(p, medial.on_line));
        to_lateral_tangent = std::min(to_lateral_tangent, distance(p, lateral.on_line));
        const bool on_line = distance_to_cut(*line, p) < 1e-7;
        const bool on_arc = std::abs(distance(p, medial.centre) - radius) < 1e-6 ||
                            std::abs(distance(p, lateral.centre) - radius) < 1e-6;
        EXPECT_TRUE(on_line || on_arc) << p.x << ' ' << p.y;
        if (!on_line) ++arc_points;
      }
      EXPECT_LT(to_medial_tangent, 1e-6);
      EXPECT_LT(to_lateral_tangent, 1e-6);
    }
  }
  EXPECT_GT(arc_points, 60);
}

TEST(BoardEnd, RoundedCornersOfASquareCutAreQuarterCircles) {
  const BoardOutline board = slab();
  const auto line = cut_line(board, BoardStation(70), 0);
  ASSERT_TRUE(line);
  const auto end = board_end(board, *line, BoardEnd::rounded, 6, 0.001);
  ASSERT_TRUE(end);
  // The line is 36 mm long: two radii less, and two quarter circles more.
  EXPECT_NEAR(length_of(*end), 36 - 12 + 6 * std::numbers::pi, 0.01);
  EXPECT_NEAR(end->front().x, 76, 1e-9);
  EXPECT_NEAR(end->front().y, 20, 1e-9);
  EXPECT_NEAR(end->back().x, 76, 1e-9);
  EXPECT_NEAR(end->back().y, -16, 1e-9);
}

/// The centre of the circle of this radius that touches both the edge and the cut line, on the toe
/// side of the line. It lies on the parallel to the line, one radius ahead. Bisection finds the
/// point of it that is one radius from the edge; `fine_edge` is the edge as a polyline with short
/// steps.
Point touching_centre(const Polyline& fine_edge, const CutLine& line, double skew, double radius,
                      Edge edge) {
  const Point ahead{std::cos(skew), -std::sin(skew)};
  const Point start{line.centre + radius * ahead.x, radius * ahead.y};
  const Point corner = edge == Edge::medial ? line.medial_end : line.lateral_end;
  const Point target{corner.x + radius * ahead.x, corner.y + radius * ahead.y};
  double low = 0;
  double high = 1;
  const auto at = [&](double t) {
    return Point{start.x + t * (target.x - start.x), start.y + t * (target.y - start.y)};
  };
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (distance_to_line(fine_edge, at(middle)) > radius ? low : high) = middle;
  }
  return at(0.5 * (low + high));
}

Polyline fine_edge(const BoardOutline& board, Edge edge, double from, double to) {
  Polyline line;
  for (int i = 0; i <= 6000; ++i) {
    const double x = from + (to - from) * i / 6000.0;
    line.push_back({x, board.edge_y(edge, x)});
  }
  return line;
}

TEST(BoardEnd, RoundedCornersAreTangentArcsOfTheGivenRadius) {
  const BoardOutline board = bench_board();
  for (const double centre : {48.0, 62.0, 90.0, 120.0}) {
    for (const double skew : {-8.0, 0.0, 6.9}) {
      for (const double radius : {3.0, 6.0}) {
        const auto line = cut_line(board, BoardStation(centre), skew * degree);
        ASSERT_TRUE(line);
        const auto end = board_end(board, *line, BoardEnd::rounded, radius);
        ASSERT_TRUE(end) << centre << ' ' << skew << ' ' << radius;
        for (const Edge edge : {Edge::medial, Edge::lateral}) {
          const Polyline true_edge = fine_edge(board, edge, centre - 10, centre + 25);
          const Point arc_centre = touching_centre(true_edge, *line, skew * degree, radius, edge);
          Polyline arc;
          for (const Point& p : *end)
            if ((edge == Edge::medial) == (p.y > 0) && distance_to_cut(*line, p) > 1e-6)
              arc.push_back(p);
          ASSERT_GE(arc.size(), 4U);
          if (edge == Edge::lateral) std::reverse(arc.begin(), arc.end());
          // The arc starts on the edge and is tangent to it there: the radius is square to the
          // edge.
          const Point first = arc.front();
          EXPECT_NEAR(first.y, board.edge_y(edge, first.x), 1e-6);
          const double slope =
              (board.edge_y(edge, first.x + 1e-5) - board.edge_y(edge, first.x - 1e-5)) / 2e-5;
          const double cosine = ((first.x - arc_centre.x) + slope * (first.y - arc_centre.y)) /
                                std::hypot(1, slope) / radius;
          EXPECT_NEAR(cosine, 0, 1e-3) << "tangent to the edge";
          for (const Point& p : arc)
            EXPECT_NEAR(distance(p, arc_centre), radius, 1e-4);
          for (std::size_t i = 1; i < arc.size(); ++i) {
            const Point middle{0.5 * (arc[i].x + arc[i - 1].x), 0.5 * (arc[i].y + arc[i - 1].y)};
            EXPECT_LE(radius - distance(middle, arc_centre), 0.02 + 1e-4);
          }
          EXPECT_NEAR(distance_to_cut(*line, arc_centre), radius, 1e-9);
        }
        EXPECT_LT(distance_to_line(*end, {centre, 0}), 1e-9) << "the middle of the line stays";
      }
    }
  }
}

TEST(BoardEnd, RoundedEndIsSmoothFromEdgeToEdge) {
  const BoardOutline board = bench_board();
  const auto line = cut_line(board, BoardStation(62), 5 * degree);
  ASSERT_TRUE(line);
  const auto end = board_end(board, *line, BoardEnd::rounded, 6);
  ASSERT_TRUE(end);
  double sharpest = 0;
  for (std::size_t i = 1; i + 1 < end->size(); ++i) {
    const Point a{(*end)[i].x - (*end)[i - 1].x, (*end)[i].y - (*end)[i - 1].y};
    const Point b{(*end)[i + 1].x - (*end)[i].x, (*end)[i + 1].y - (*end)[i].y};
    sharpest =
        std::max(sharpest, std::abs(std::atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y)));
  }
  // Chords within 0.02 mm of a circle of radius 6 mm turn by at most 2·acos(1 − 0.02/6) = 9.36°.
  EXPECT_LE(sharpest, 9.4 * degree);
  EXPECT_GT(sharpest, 0.5 * degree);
}

TEST(BoardEnd, CornersThatDoNotFitGiveNoEnd) {
  const BoardOutline board = slab();
  const auto line = cut_line(board, BoardStation(70), 0);
  ASSERT_TRUE(line);
  EXPECT_TRUE(board_end(board, *line, BoardEnd::rounded, 15));
  EXPECT_FALSE(
      board_end(board, *line, BoardEnd::rounded, 19)); // two radii are 38 mm, the line is 36 mm
  EXPECT_FALSE(board_end(board, *line, BoardEnd::rounded, 60));
  EXPECT_FALSE(board_end(board, *line, BoardEnd::rounded, 1000));
}

TEST(BoardEnd, RandomBoardsGetRoundedCorners) {
  Draw draw(43);
  for (int i = 0; i < 150; ++i) {
    const Order order = random_order(draw);
    const Board& traced = (order.left ? *order.left : *order.right).shoe.board;
    const BoardOutline board(traced.widths, traced.loose_length());
    const double skew = draw.uniform(-10, 10) * degree;
    const auto line = cut_line(board, BoardStation(draw.uniform(45, 80)), skew);
    ASSERT_TRUE(line);
    const double radius = draw.uniform(2, 8);
    const auto end = board_end(board, *line, BoardEnd::rounded, radius);
    ASSERT_TRUE(end) << i;
    EXPECT_NEAR(end->front().y, board.edge_y(Edge::medial, end->front().x), 1e-6);
    EXPECT_NEAR(end->back().y, board.edge_y(Edge::lateral, end->back().x), 1e-6);
    for (const Point& p : *end) {
      // The end lies on the toe side of the line, at most a little ahead of it, and on the board.
      const double ahead = (p.x - line->centre) * std::cos(skew) - p.y * std::sin(skew);
      ASSERT_GE(ahead, -1e-9);
      ASSERT_LE(ahead, radius * 1.5);
      ASSERT_LE(std::abs(p.y),
                board.half_width(p.y > 0 ? Edge::medial : Edge::lateral, p.x) + 1e-6);
    }
  }
}

// A skew line close to the front end leaves room for the circle at one edge only.
TEST(BoardEnd, AnEndWithOneCornerOnlyIsNone) {
  const BoardOutline outline = slab();
  int without = 0;
  int with = 0;
  for (const double skew : {-14 * degree, 14 * degree})
    for (double station = 120; station < 200; station += 1) {
      const auto line = cut_line(outline, BoardStation(station), skew);
      if (!line) continue;
      const auto end = board_end(outline, *line, BoardEnd::rounded, 12);
      ++(end ? with : without);
      if (!end) continue;
      for (const Point& p : *end) {
        EXPECT_GT(p.x, station - 20) << station;
        EXPECT_LT(p.x, station + 40) << station;
        EXPECT_LT(std::abs(p.y), 21) << station;
      }
    }
  EXPECT_GT(with, 50);
  EXPECT_GT(without, 5);
}

} // namespace
} // namespace shankline::tests::trim_line_test
