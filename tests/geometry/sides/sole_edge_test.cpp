// The sole's edge against the board's half-widths moved outwards point by point.

#include "geometry/sides/sole_edge.hpp"

#include "tests/geometry/polygon_checks.hpp"
#include "tests/geometry/wall_by_quadrature.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace shankline::tests::sole_edge_test {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double margin = 3;

struct Bench {
  std::string name;
  std::vector<BoardWidth> widths;
  std::optional<double> length;
  double to;
};

const std::vector<Bench> benches{
    {"even", {{22, 22.5, 22.5}, {96, 16.5, 16.5}, {164, 28, 28}}, 220, 159},
    {"skew", {{22, 23.5, 21}, {96, 18, 15.5}, {164, 30, 26.5}}, 220, 159},
    {"very skew", {{25, 27, 19}, {60, 20, 21}, {96, 14, 19}, {150, 33, 24}}, 230, 170},
    {"bellied", {{40, 15, 14}, {100, 24, 25}, {170, 17, 18}}, 205, 185},
    {"in the shoe", {{22, 22, 23}, {96, 16, 17}, {165, 29, 27}}, std::nullopt, 155},
};

BoardOutline outline_of(const Bench& bench) {
  return {bench.widths, bench.length};
}

template <typename Check> void on_every_bench(Check&& check) {
  int tried = 0;
  for (const Bench& bench : benches) {
    const BoardOutline outline = outline_of(bench);
    for (const Edge edge : {Edge::medial, Edge::lateral}) {
      SCOPED_TRACE(bench.name + (edge == Edge::medial ? ", big-toe edge" : ", little-toe edge"));
      check(bench, outline, edge);
      ++tried;
    }
  }
  EXPECT_EQ(tried, 10);
}

TEST(SoleEdge, WantsTwoNodesByRisingLength) {
  using Nodes = std::vector<SoleEdge::Node>;
  const SoleEdge::Node a{0, 0, 10, 0};
  const SoleEdge::Node b{5, 3, 12, 0.5};
  const SoleEdge::Node c{5, 4, 13, 0.6};
  SoleEdge::Node nowhere = b;
  nowhere.t = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THROW(SoleEdge(Nodes{}), std::invalid_argument);
  EXPECT_THROW(SoleEdge(Nodes{a}), std::invalid_argument);
  EXPECT_THROW(SoleEdge(Nodes{b, a}), std::invalid_argument);
  EXPECT_THROW(SoleEdge(Nodes{a, b, c}), std::invalid_argument);
  EXPECT_THROW(SoleEdge(Nodes{a, nowhere}), std::invalid_argument);
  EXPECT_NO_THROW(SoleEdge(Nodes{a, b}));
}

TEST(SoleEdge, OfACircleTurnsEvenlyWithTwoNodes) {
  const SoleEdge circle({{0, -30, 0, 0}, {30 * pi, 30, 0, pi}});
  EXPECT_EQ(circle.length(), 30 * pi);
  EXPECT_EQ(circle.nodes().size(), 2U);
  for (const double turn : {0.0, 0.3, 1.0, 2.0, pi})
    EXPECT_NEAR(circle.turned(30 * turn), turn, 1e-14);
}

TEST(SoleEdge, LengthIsThatOfTheOffsetOutline) {
  on_every_bench([](const Bench& bench, const BoardOutline& outline, Edge edge) {
    const SoleEdge sole = sole_edge(outline, edge, bench.to);
    const BruteEdge brute = brute_edge(outline, edge, bench.to + margin, margin);
    for (const double station : {0.0, 15.0, 40.0, 62.0, 96.0, 106.0, 140.0, bench.to}) {
      const auto t = sole.at_station(station);
      ASSERT_TRUE(t) << station;
      EXPECT_NEAR(*t, brute.along_at(station), 5e-5) << station;
      EXPECT_NEAR(sole.out(*t), brute.out_at(station), 5e-5) << station;
    }
  });
}

TEST(SoleEdge, WithoutAMarginIsTheBoardsOwnEdge) {
  on_every_bench([](const Bench& bench, const BoardOutline& outline, Edge edge) {
    const SoleEdge sole = sole_edge(outline, edge, bench.to, 0);
    const BruteEdge brute = brute_edge(outline, edge, bench.to, 0);
    EXPECT_NEAR(sole.length(), brute.length(), 5e-5);
    int tried = 0;
    for (double station = 1; station < bench.to; station += 7) {
      const auto t = sole.at_station(station);
      ASSERT_TRUE(t);
      EXPECT_NEAR(sole.out(*t), outline.half_width(edge, station), 2e-5) << station;
      ++tried;
    }
    EXPECT_GT(tried, 20);
  });
}

TEST(SoleEdge, IsLongerThanTheBoardsEdgeByMarginTimesTurn) {
  on_every_bench([](const Bench& bench, const BoardOutline& outline, Edge edge) {
    const SoleEdge sole = sole_edge(outline, edge, bench.to, margin);
    const SoleEdge wider = sole_edge(outline, edge, bench.to, margin + 4);
    // Find the same place of the board on both: where they have turned alike and lie 4 apart.
    const BruteEdge own = brute_edge(outline, edge, 96, 0);
    const double turn = own.turned(own.length());
    const BruteEdge moved = brute_edge(outline, edge, 96, margin);
    const BruteEdge farther = brute_edge(outline, edge, 96, margin + 4);
    EXPECT_NEAR(*sole.at_station(moved.at.back().x), own.length() + margin * turn, 1e-4);
    EXPECT_NEAR(*wider.at_station(farther.at.back().x), own.length() + (margin + 4) * turn, 1e-4);
  });
}

TEST(SoleEdge, TurnIsTheTangentsAngle) {
  on_every_bench([](const Bench& bench, const BoardOutline& outline, Edge edge) {
    const SoleEdge sole = sole_edge(outline, edge, bench.to);
    const BruteEdge brute = brute_edge(outline, edge, bench.to + margin, margin);
    EXPECT_NEAR(sole.turned(0), 0, 1e-12);
    double largest = 0;
    int tried = 0;
    for (double t = 0.05; t < *sole.at_station(bench.to); t += 0.61) {
      ASSERT_NEAR(sole.turned(t), brute.turned(t), 2e-4) << t;
      // Compare the slope with that of the edge's own points.
      const double along = 0.05;
      const double dx = sole.station(t + along) - sole.station(t - along);
      const double dy = sole.out(t + along) - sole.out(t - along);
      ASSERT_NEAR(std::hypot(dx, dy), 2 * along, 1e-5) << t;
      ASSERT_NEAR(std::atan2(dx, dy), sole.turned(t), 1e-2) << t;
      largest = std::max(largest, sole.turned(t));
      ++tried;
    }
    EXPECT_GT(tried, 200);
    EXPECT_GT(largest, 1.4);
  });
}

TEST(SoleEdge, StartsBehindTheHeelEndOnTheAxis) {
  on_every_bench([](const Bench& bench, const BoardOutline& outline, Edge edge) {
    const SoleEdge sole = sole_edge(outline, edge, bench.to);
    EXPECT_NEAR(sole.station(0), -margin, 1e-12);
    EXPECT_NEAR(sole.out(0), 0, 1e-12);
    EXPECT_EQ(sole.nodes().front().t, 0);
  });
}

TEST(SoleEdge, EveryPointLiesTheMarginFromTheBoard) {
  on_every_bench([](const Bench& bench, const BoardOutline& outline, Edge edge) {
    for (const double wide : {margin, 1.0, 6.0}) {
      const SoleEdge sole = sole_edge(outline, edge, bench.to, wide);
      const BruteEdge board = brute_edge(outline, edge, bench.to + wide, 0, 12000);
      int tried = 0;
      for (double t = 0; t <= sole.length(); t += 2.3) {
        const Point p{sole.station(t), sole.out(t)};
        ASSERT_NEAR(distance_to_line(board.at, p), wide, 1e-4) << t;
        ++tried;
      }
      for (std::size_t i = 0; i < sole.nodes().size(); i += 101) {
        const SoleEdge::Node& node = sole.nodes()[i];
        ASSERT_NEAR(distance_to_line(board.at, {node.station, node.out}), wide, 1e-5) << node.t;
      }
      EXPECT_GT(tried, 60);
    }
  });
}

TEST(SoleEdge, StationAndLengthAreInverse) {
  on_every_bench([](const Bench& bench, const BoardOutline& outline, Edge edge) {
    const SoleEdge sole = sole_edge(outline, edge, bench.to);
    double before = -1e9;
    int tried = 0;
    for (double t = 2; t <= sole.length(); t += 0.37) {
      const double station = sole.station(t);
      ASSERT_GT(station, before) << t;
      before = station;
      const auto back = sole.at_station(station);
      ASSERT_TRUE(back) << t;
      ASSERT_NEAR(*back, t, 1e-8) << t;
      ++tried;
    }
    EXPECT_GT(tried, 400);
    for (double station = -margin; station <= bench.to; station += 0.71) {
      const auto t = sole.at_station(station);
      ASSERT_TRUE(t) << station;
      ASSERT_NEAR(sole.station(*t), station, 1e-9);
    }
  });
}

TEST(SoleEdge, NothingIsKnownBeyondItsEnds) {
  on_every_bench([](const Bench& bench, const BoardOutline& outline, Edge edge) {
    const SoleEdge sole = sole_edge(outline, edge, bench.to);
    EXPECT_FALSE(sole.at_station(-margin - 0.001));
    EXPECT_FALSE(sole.at_station(sole.station(sole.length()) + 0.001));
    EXPECT_TRUE(sole.at_station(-margin + 0.001));
    EXPECT_TRUE(sole.at_station(bench.to));
    EXPECT_FALSE(sole.at_station(std::numeric_limits<double>::infinity()));
  });
}

TEST(SoleEdge, MirroredBoardHasMirroredEdges) {
  int tried = 0;
  for (const Bench& bench : benches) {
    Bench other = bench;
    for (BoardWidth& width : other.widths)
      std::swap(width.medial, width.lateral);
    const SoleEdge medial = sole_edge(outline_of(bench), Edge::medial, bench.to);
    const SoleEdge lateral = sole_edge(outline_of(other), Edge::lateral, bench.to);
    ASSERT_EQ(medial.nodes().size(), lateral.nodes().size()) << bench.name;
    for (std::size_t i = 0; i < medial.nodes().size(); ++i) {
      ASSERT_NEAR(medial.nodes()[i].t, lateral.nodes()[i].t, 1e-10);
      ASSERT_NEAR(medial.nodes()[i].station, lateral.nodes()[i].station, 1e-10);
      ASSERT_NEAR(medial.nodes()[i].out, lateral.nodes()[i].out, 1e-10);
      ASSERT_NEAR(medial.nodes()[i].turned, lateral.nodes()[i].turned, 1e-12);
      ++tried;
    }
  }
  EXPECT_GT(tried, 1000);
}

} // namespace
} // namespace shankline::tests::sole_edge_test
