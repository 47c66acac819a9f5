#include "geometry/board/board_outline.hpp"

#include "geometry/board/board_check.hpp"
#include "geometry/plane/superellipse.hpp"
#include "tests/geometry/polygon_checks.hpp"
#include "tests/geometry/random_orders.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <string>
#include <vector>

namespace shankline::tests::board_outline_test {
namespace {

constexpr double bench_length = 220;
const std::vector<BoardWidth> bench_widths{{22, 22.5, 22.5}, {96, 16.5, 16.5}, {164, 28, 28}};
const std::vector<BoardWidth> lopsided_widths{{22, 23.5, 21}, {96, 18, 15.5}, {164, 30, 26.5}};
// Narrows from the waist to its own ends, so that both caps join at a slope.
const std::vector<BoardWidth> bellied_widths{{40, 15, 14}, {100, 24, 25}, {170, 17, 18}};
constexpr double bellied_length = 205;

BoardOutline bench_board() {
  return {bench_widths, bench_length};
}

/// Area between the axis and one edge. Near both ends the edge stands upright, so the stations
/// crowd there.
double half_area(const BoardOutline& board, Edge edge, double length) {
  const double middle = length / 2;
  const auto from_heel = [&](double v) {
    return board.half_width(edge, middle * std::pow(v, 4)) * 4 * middle * std::pow(v, 3);
  };
  const auto from_toe = [&](double v) {
    return board.half_width(edge, length - middle * std::pow(v, 4)) * 4 * middle * std::pow(v, 3);
  };
  return simpson(from_heel, 0, 1, 20000) + simpson(from_toe, 0, 1, 20000);
}

/// Points on the true edge, crowded towards both ends of the board.
Polyline points_on_edge(const BoardOutline& board, Edge edge, double length) {
  Polyline points;
  const double side = edge == Edge::medial ? 1 : -1;
  for (int i = 0; i <= 1500; ++i) {
    const double crowded = 0.5 * length * std::pow(i / 1500.0, 5);
    points.push_back({crowded, side * board.half_width(edge, crowded)});
    points.push_back({length - crowded, side * board.half_width(edge, length - crowded)});
    const double even = length * i / 1500.0;
    points.push_back({even, side * board.half_width(edge, even)});
  }
  return points;
}

double largest_distance(const Polygon& polygon, const Polyline& points) {
  double largest = 0;
  for (const Point& p : points)
    largest = std::max(largest, distance_to_outline(polygon, p));
  return largest;
}

TEST(BoardOutline, PassesThroughItsMeasuredWidths) {
  const BoardOutline board(lopsided_widths, bench_length);
  for (const BoardWidth& width : lopsided_widths) {
    EXPECT_NEAR(board.half_width(Edge::medial, width.station), width.medial, 1e-12);
    EXPECT_NEAR(board.half_width(Edge::lateral, width.station), width.lateral, 1e-12);
    EXPECT_NEAR(board.edge_y(Edge::medial, width.station), width.medial, 1e-12);
    EXPECT_NEAR(board.edge_y(Edge::lateral, width.station), -width.lateral, 1e-12);
  }
  EXPECT_TRUE(board.closed());
  EXPECT_EQ(board.length(), bench_length);
  EXPECT_EQ(board.last_station(), 164);
}

TEST(BoardOutline, EndsInNothingAtBothEndsAndBeyond) {
  const BoardOutline board = bench_board();
  for (const double station : {-100.0, -1e-9, 220.0 + 1e-9, 400.0})
    EXPECT_EQ(board.half_width(Edge::medial, station), 0) << station;
  EXPECT_NEAR(board.half_width(Edge::medial, 0), 0, 1e-12);
  EXPECT_NEAR(board.half_width(Edge::medial, 220), 0, 1e-12);
  EXPECT_GT(board.half_width(Edge::medial, 0.01), 0.5) << "a round end, not a point";
}

TEST(BoardOutline, ConstantWidthEndsInQuarterSuperellipses) {
  // w₁′ = 0, so the caps are superellipses of exponent 2.5 and nothing else. Area of the unit one
  // 3.380935, recomputed.
  const BoardOutline board({{22, 20, 17}, {120, 20, 17}, {190, 20, 17}}, 220);
  for (const double away : {0.5, 3.0, 11.0, 19.0, 21.9}) {
    const double height = std::pow(1 - std::pow(away / 22, 2.5), 0.4);
    EXPECT_NEAR(board.half_width(Edge::medial, 22 - away), 20 * height, 1e-10);
    EXPECT_NEAR(board.half_width(Edge::lateral, 22 - away), 17 * height, 1e-10);
  }
  for (const double away : {0.5, 13.0, 29.5}) {
    const double height = std::pow(1 - std::pow(away / 30, 2.5), 0.4);
    EXPECT_NEAR(board.half_width(Edge::medial, 190 + away), 20 * height, 1e-10);
  }
  constexpr double quarter = 3.380935 / 4;
  const double medial = 20 * (22 * quarter + 168 + 30 * quarter);
  const double lateral = 17 * (22 * quarter + 168 + 30 * quarter);
  EXPECT_NEAR(half_area(board, Edge::medial, 220), medial, 2e-4);
  EXPECT_NEAR(half_area(board, Edge::lateral, 220), lateral, 2e-4);
  EXPECT_NEAR(shoelace_area(board.polygon(1e-4)), medial + lateral, 0.05);
}

TEST(BoardOutline, CapIsAPlainSuperellipseWhereTheBoardNarrowsInward) {
  // From 22.5 at the heel station to 16.5 at the waist: the slope at the heel station is set to 0.
  const BoardOutline board = bench_board();
  for (const double away : {2.0, 10.0, 20.0})
    EXPECT_NEAR(board.half_width(Edge::medial, 22 - away),
                22.5 * std::pow(1 - std::pow(away / 22, 2.5), 0.4), 1e-10);
}

TEST(BoardOutline, CapsJoinWithACommonTangent) {
  struct Case {
    std::vector<BoardWidth> widths;
    double length;
  };
  int sloping = 0;
  for (const Case& c : {Case{bench_widths, bench_length}, Case{lopsided_widths, bench_length},
                        Case{bellied_widths, bellied_length}}) {
    const BoardOutline board(c.widths, c.length);
    for (const Edge edge : {Edge::medial, Edge::lateral}) {
      for (const double joint : {c.widths.front().station, c.widths.back().station}) {
        constexpr double step = 1e-4;
        const double here = board.half_width(edge, joint);
        const double behind = (here - board.half_width(edge, joint - step)) / step;
        const double ahead = (board.half_width(edge, joint + step) - here) / step;
        EXPECT_NEAR(behind, ahead, 2e-4) << joint;
        if (std::abs(behind) > 0.02) ++sloping;
      }
    }
  }
  EXPECT_GE(sloping, 4) << "no cap joined at a slope";
}

TEST(BoardOutline, SlopingCapIsTheTaperedSuperellipse) {
  const BoardOutline board(bellied_widths, bellied_length);
  constexpr double step = 1e-6;
  const double slope = (board.half_width(Edge::medial, 40 + step) - 15) / step;
  EXPECT_GT(slope, 0.05);
  for (const double away : {5.0, 18.0, 33.0})
    EXPECT_NEAR(board.half_width(Edge::medial, 40 - away),
                (15 - slope * away) * std::pow(1 - std::pow(away / 40, 2.5), 0.4), 1e-3);
}

TEST(BoardOutline, NeverOvershootsBetweenStations) {
  const BoardOutline board = bench_board();
  for (double x = 22; x <= 164; x += 0.25) {
    const double half = board.half_width(Edge::medial, x);
    EXPECT_GE(half, 16.5 - 1e-12);
    EXPECT_LE(half, x < 96 ? 22.5 + 1e-12 : 28 + 1e-12);
  }
}

TEST(BoardOutline, PolygonIsSimpleCounterClockwiseAndStartsAtTheHeel) {
  for (const double error : {0.5, 0.02, 0.004}) {
    const Polygon polygon = BoardOutline(lopsided_widths, bench_length).polygon(error);
    ASSERT_GE(polygon.size(), 12U);
    EXPECT_TRUE(simple_by_pairs(polygon));
    EXPECT_GT(shoelace_area(polygon), 0);
    EXPECT_NEAR(polygon.front().x, 0, 1e-12);
    EXPECT_NEAR(polygon.front().y, 0, 1e-12);
    EXPECT_LT(polygon[1].y, 0) << "up the lateral edge first";
    EXPECT_GT(polygon.back().y, 0);
  }
}

TEST(BoardOutline, ChordErrorIsKept) {
  struct Case {
    std::vector<BoardWidth> widths;
    double length;
  };
  for (const Case& c : {Case{bench_widths, bench_length}, Case{lopsided_widths, bench_length},
                        Case{bellied_widths, bellied_length}}) {
    const BoardOutline board(c.widths, c.length);
    for (const double error : {0.3, 0.02}) {
      const Polygon polygon = board.polygon(error);
      for (const Edge edge : {Edge::medial, Edge::lateral})
        EXPECT_LE(largest_distance(polygon, points_on_edge(board, edge, c.length)), error);
      // Its corners are on the edge itself.
      for (const Point& p : polygon) {
        const double exact = board.edge_y(p.y > 0 ? Edge::medial : Edge::lateral, p.x);
        EXPECT_NEAR(p.y, exact, 1e-6) << p.x;
      }
      EXPECT_LT(polygon.size(), error < 0.1 ? 600U : 150U) << "far more points than that needs";
    }
  }
}

TEST(BoardOutline, DefaultChordErrorIsTwoHundredths) {
  const BoardOutline board = bench_board();
  const Polyline edge = points_on_edge(board, Edge::lateral, bench_length);
  EXPECT_LE(largest_distance(board.polygon(), edge), 0.02);
}

TEST(BoardOutline, AreaAgreesWithQuadratureOfItsWidths) {
  for (const auto& widths : {bench_widths, lopsided_widths}) {
    const BoardOutline board(widths, bench_length);
    const double exact = half_area(board, Edge::medial, bench_length) +
                         half_area(board, Edge::lateral, bench_length);
    EXPECT_GT(exact, 8000);
    // No more than the chord error all along both edges, and mostly much less.
    EXPECT_NEAR(shoelace_area(board.polygon(0.02)), exact, 1e-3 * exact);
    EXPECT_NEAR(shoelace_area(board.polygon(0.001)), exact, 5e-5 * exact);
  }
}

TEST(BoardOutline, KeepsMedialAndLateralApart) {
  const BoardOutline board(lopsided_widths, bench_length);
  std::vector<BoardWidth> swapped = lopsided_widths;
  for (BoardWidth& width : swapped)
    std::swap(width.medial, width.lateral);
  const BoardOutline mirrored(swapped, bench_length);
  double largest = 0;
  for (double x = 0; x <= 220; x += 0.5) {
    EXPECT_EQ(board.half_width(Edge::medial, x), mirrored.half_width(Edge::lateral, x));
    EXPECT_EQ(board.half_width(Edge::lateral, x), mirrored.half_width(Edge::medial, x));
    largest =
        std::max(largest, board.half_width(Edge::medial, x) - board.half_width(Edge::lateral, x));
  }
  EXPECT_NEAR(largest, 3.5, 0.3);
}

TEST(BoardOutline, EdgeLineRunsBetweenItsStationsWithinTheChordError) {
  const BoardOutline board(lopsided_widths, bench_length);
  struct Stretch {
    double from;
    double to;
  };
  for (const Edge edge : {Edge::medial, Edge::lateral}) {
    for (const Stretch& s :
         {Stretch{0, 220}, Stretch{3, 60}, Stretch{22, 164}, Stretch{78, 100}, Stretch{150, 219}}) {
      const Polyline line = board.edge_line(edge, s.from, s.to);
      ASSERT_GE(line.size(), 2U);
      EXPECT_NEAR(line.front().x, s.from, 1e-12);
      EXPECT_NEAR(line.back().x, s.to, 1e-12);
      EXPECT_NEAR(line.front().y, board.edge_y(edge, s.from), 1e-9);
      EXPECT_NEAR(line.back().y, board.edge_y(edge, s.to), 1e-9);
      for (std::size_t i = 1; i < line.size(); ++i)
        EXPECT_GT(line[i].x, line[i - 1].x);
      for (int i = 0; i <= 2000; ++i) {
        const double x = s.from + (s.to - s.from) * i / 2000.0;
        ASSERT_LE(distance_to_line(line, {x, board.edge_y(edge, x)}), 0.02) << x;
      }
    }
  }
}

TEST(BoardOutline, OpenLineGoesMedialFirstRoundTheHeel) {
  const BoardOutline board(lopsided_widths, bench_length);
  const Polyline line = board.open_line(120);
  ASSERT_GE(line.size(), 5U);
  EXPECT_NEAR(line.front().x, 120, 1e-9);
  EXPECT_NEAR(line.front().y, board.half_width(Edge::medial, 120), 1e-9);
  EXPECT_NEAR(line.back().x, 120, 1e-9);
  EXPECT_NEAR(line.back().y, -board.half_width(Edge::lateral, 120), 1e-9);
  EXPECT_NEAR(distance_to_line(line, {0, 0}), 0, 1e-9);
  for (double x = 0; x <= 120; x += 0.37) {
    ASSERT_LE(distance_to_line(line, {x, board.edge_y(Edge::medial, x)}), 0.02);
    ASSERT_LE(distance_to_line(line, {x, board.edge_y(Edge::lateral, x)}), 0.02);
  }
  for (std::size_t i = 1; i < line.size(); ++i)
    EXPECT_GT(distance(line[i], line[i - 1]), 0);
}

TEST(BoardOutline, BoardInTheShoeIsOpenInFrontAndHoldsItsWidth) {
  const BoardOutline board({{22, 22.5, 21}, {64, 19.5, 18}}, std::nullopt);
  EXPECT_FALSE(board.closed());
  EXPECT_FALSE(board.length().has_value());
  EXPECT_EQ(board.last_station(), 64);
  EXPECT_EQ(board.half_width(Edge::medial, 64), 19.5);
  EXPECT_EQ(board.half_width(Edge::medial, 90), 19.5);
  EXPECT_EQ(board.half_width(Edge::lateral, 200), 18);
  EXPECT_EQ(board.half_width(Edge::medial, -0.5), 0);
  EXPECT_NEAR(board.half_width(Edge::lateral, 11), 21 * std::pow(1 - std::pow(0.5, 2.5), 0.4),
              1e-10);
  const Polyline line = board.open_line(64);
  EXPECT_NEAR(line.front().y, 19.5, 1e-9);
  EXPECT_NEAR(line.back().y, -18, 1e-9);
}

TEST(BoardOutline, RandomBoardsAreSimpleAndWithinTheirChordError) {
  Draw draw(21);
  int closed = 0;
  while (closed < 60) {
    const Order order = random_order(draw);
    const Board& drawn = (order.left ? *order.left : *order.right).shoe.board;
    if (!drawn.length) continue;
    ++closed;
    const BoardOutline board(drawn.widths, drawn.loose_length());
    const Polygon polygon = board.polygon();
    ASSERT_TRUE(simple_by_pairs(polygon));
    ASSERT_GT(shoelace_area(polygon), 0);
    for (int i = 0; i <= 400; ++i) {
      const double x = *drawn.loose_length() * i / 400.0;
      ASSERT_LE(distance_to_outline(polygon, {x, board.edge_y(Edge::medial, x)}), 0.02);
      ASSERT_LE(distance_to_outline(polygon, {x, board.edge_y(Edge::lateral, x)}), 0.02);
    }
  }
}

TEST(BoardOutline, RefusesStationsThatDoNotRiseInsideTheBoard) {
  EXPECT_THROW(BoardOutline({}, 220), std::invalid_argument);
  EXPECT_THROW(BoardOutline({{96, 16, 16}, {22, 22, 22}}, 220), std::invalid_argument);
  EXPECT_THROW(BoardOutline({{22, 16, 16}, {22, 22, 22}}, 220), std::invalid_argument);
  EXPECT_THROW(BoardOutline({{0, 16, 16}, {96, 22, 22}}, 220), std::invalid_argument);
  EXPECT_THROW(BoardOutline({{-4, 16, 16}, {96, 22, 22}}, 220), std::invalid_argument);
  EXPECT_THROW(BoardOutline({{22, 16, 16}, {220, 22, 22}}, 220), std::invalid_argument);
  EXPECT_THROW(BoardOutline({{22, 16, 16}, {230, 22, 22}}, 220), std::invalid_argument);
}

// Boards by way of check_board, as a user meets them.

Board bench_readings() {
  Board board;
  board.length = measured(bench_length);
  board.inset = measured(5);
  board.thickness = 3.2;
  board.widths = bench_widths;
  return board;
}

constexpr const char* path = "shoe.left.board";

/// The board is refused, every error lies below the path, says what and what to do, and one of
/// them is about `reading`.
void expect_refused(const Board& board, const std::string& reading) {
  const Findings findings = check_board(board, path);
  EXPECT_TRUE(has_error(findings)) << reading;
  bool named = false;
  for (const Finding& f : findings) {
    EXPECT_EQ(f.key.text().rfind(path, 0), 0U) << f.key;
    EXPECT_FALSE(f.what.empty());
    EXPECT_FALSE(f.advice.empty()) << f.what;
    if (f.severity == Severity::error && f.key.text().find(reading) != std::string::npos) {
      named = true;
      EXPECT_FALSE(f.allowed.empty()) << f.what;
    }
  }
  EXPECT_TRUE(named) << "no error about " << reading << ", first is about "
                     << (findings.empty() ? "nothing" : findings.front().key);
}

TEST(CheckBoard, PassesTheBenchBoard) {
  EXPECT_TRUE(check_board(bench_readings(), path).empty());
  Board in_shoe = bench_readings();
  in_shoe.state = BoardState::in_shoe;
  in_shoe.length.reset();
  in_shoe.widths = {{22, 22.5, 22.5}, {64, 19.5, 19.5}};
  EXPECT_FALSE(has_error(check_board(in_shoe, path)));
}

TEST(CheckBoard, CautionsOfAnInsetThatFewBoardsHave) {
  for (const double inset : {2.0, 10.0}) {
    Board board = bench_readings();
    board.inset = measured(inset);
    EXPECT_TRUE(check_board(board, path).empty()) << inset;
  }
  for (const double inset : {1.9, 10.1}) {
    Board board = bench_readings();
    board.inset = measured(inset);
    const Findings found = check_board(board, path);
    ASSERT_EQ(found.size(), 1u) << inset;
    EXPECT_EQ(found.front().severity, Severity::caution);
    EXPECT_EQ(found.front().key, std::string(path) + ".inset");
  }
}

TEST(CheckBoard, RefusesStationsOutOfOrder) {
  Board board = bench_readings();
  std::swap(board.widths[0], board.widths[1]);
  expect_refused(board, "widths");
  board = bench_readings();
  board.widths[1].station = board.widths[0].station;
  expect_refused(board, "widths");
}

TEST(CheckBoard, RefusesStationsOutsideTheBoard) {
  Board board = bench_readings();
  board.widths[2].station = 231;
  expect_refused(board, "widths");
  board = bench_readings();
  board.widths[0].station = -3;
  expect_refused(board, "widths");
}

TEST(CheckBoard, RefusesABoardWiderThanLong) {
  Board board = bench_readings();
  board.widths[1].medial = 130;
  board.widths[1].lateral = 130;
  expect_refused(board, "widths");
}

TEST(CheckBoard, RefusesMissingReadings) {
  Board board = bench_readings();
  board.inset.reset();
  expect_refused(board, "inset");
  board = bench_readings();
  board.length.reset();
  expect_refused(board, "length");
  board = bench_readings();
  board.widths.clear();
  expect_refused(board, "widths");
}

TEST(CheckBoard, RefusesNumbersThatAreNone) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  constexpr double infinity = std::numeric_limits<double>::infinity();
  for (const double bad : {nan, infinity, -infinity}) {
    Board board = bench_readings();
    board.widths[1].station = bad;
    expect_refused(board, "widths");
    board = bench_readings();
    board.widths[0].medial = bad;
    expect_refused(board, "widths");
    board = bench_readings();
    board.widths[2].lateral = bad;
    expect_refused(board, "widths");
    board = bench_readings();
    board.length = measured(bad);
    expect_refused(board, "length");
    board = bench_readings();
    board.inset = measured(bad);
    expect_refused(board, "inset");
  }
}

// A board that is in the shoe has no length to limit these sizes, and drawing them would take
// forever.
TEST(CheckBoard, RefusesSizesThatNoBoardHas) {
  for (const double size : {400.0, 1e12, 1e300}) {
    Board board = bench_readings();
    board.state = BoardState::in_shoe;
    board.length.reset();
    board.widths = {{22, 22.5, 22.5}, {64, 19.5, size}};
    expect_refused(board, "widths");
    board.widths = {{22, 22.5, 22.5}, {size, 19.5, 19.5}};
    expect_refused(board, "widths");
  }
}

TEST(CheckBoard, RefusesAnOutlineThatCrossesItselfAndNamesTheStations) {
  // Edges that run so steeply together at the heel station that they cross before the heel's end.
  Board board = bench_readings();
  board.widths = {{60, 5, 5}, {80, 30, 30}, {164, 28, 28}};
  expect_refused(board, "widths");
  std::string text;
  for (const Finding& f : check_board(board, path))
    text += f.what + ' ' + f.allowed + ' ' + f.advice;
  EXPECT_NE(text.find("60"), std::string::npos) << text;
  // A side of no width, or of less.
  board = bench_readings();
  board.widths[1].medial = -20;
  expect_refused(board, "widths");
  board = bench_readings();
  board.widths[1].medial = 0;
  board.widths[1].lateral = 0;
  expect_refused(board, "widths");
  // Half a width that is nothing is as bad on either side alone.
  for (double BoardWidth::*side : {&BoardWidth::medial, &BoardWidth::lateral}) {
    board = bench_readings();
    board.widths[1].*side = 0;
    const Findings found = check_board(board, path);
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found.front().what, "the width at 96 from the heel end is nothing or less");
  }
}

} // namespace
} // namespace shankline::tests::board_outline_test
