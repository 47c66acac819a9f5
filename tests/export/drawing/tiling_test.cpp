#include "export/drawing/tiling.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <random>

namespace shankline::tests::tiling_test {
namespace {

struct Drawn {
  Box extent;
  double room_width;
  double room_height;
};

std::vector<Drawn> drawn_grids() {
  std::mt19937_64 engine(20260401);
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(engine);
  };
  std::vector<Drawn> all;
  for (int i = 0; i < 300; ++i) {
    const double left = between(-300, 100);
    const double bottom = between(-100, 100);
    all.push_back({{left, bottom, left + between(40, 900), bottom + between(30, 700)},
                   between(90, 260),
                   between(70, 240)});
  }
  return all;
}

bool holds(const Box& box, const Point& p, double air) {
  return p.x >= box.left + air && p.x <= box.right - air && p.y >= box.bottom + air &&
         p.y <= box.top - air;
}

TEST(Tiling, FitsTheRoomAndCoversTheExtentWithAsFewTilesAsCan) {
  std::size_t most = 0;
  for (const Drawn& drawn : drawn_grids()) {
    const TileGrid grid(drawn.extent, drawn.room_width, drawn.room_height);
    most = std::max(most, grid.tiles().size());
    ASSERT_EQ(grid.tiles().size(), grid.rows() * grid.columns());
    const Box& first = grid.tiles().front().window;
    const Box& last = grid.tiles().back().window;
    EXPECT_NEAR(first.left, drawn.extent.left, 1e-9);
    EXPECT_NEAR(first.top, drawn.extent.top, 1e-9);
    EXPECT_NEAR(last.right, drawn.extent.right, 1e-9);
    EXPECT_NEAR(last.bottom, drawn.extent.bottom, 1e-9);
    for (const Tile& tile : grid.tiles()) {
      EXPECT_LE(tile.window.right - tile.window.left, drawn.room_width + 1e-9);
      EXPECT_LE(tile.window.top - tile.window.bottom, drawn.room_height + 1e-9);
      if (tile.column > 0) {
        EXPECT_NEAR(grid.tile(tile.row, tile.column - 1).window.right - tile.window.left,
                    tile_overlap, 1e-9);
      }
      if (tile.row > 0) {
        EXPECT_NEAR(tile.window.top - grid.tile(tile.row - 1, tile.column).window.bottom,
                    tile_overlap, 1e-9);
      }
    }
    // One column fewer could not cover it.
    const double fewer = static_cast<double>(grid.columns() - 1);
    if (grid.columns() > 1) {
      EXPECT_LT(fewer * drawn.room_width - (fewer - 1) * tile_overlap,
                drawn.extent.right - drawn.extent.left);
    }
  }
  EXPECT_GE(most, 12u);
}

TEST(Tiling, NeighboursShareTwoCrossesFarApart) {
  int seams = 0;
  for (const Drawn& drawn : drawn_grids()) {
    const TileGrid grid(drawn.extent, drawn.room_width, drawn.room_height);
    const auto check = [&](const Tile& a, const Tile& b, double seam) {
      ++seams;
      const auto on_a = grid.crosses_on(a);
      const auto on_b = grid.crosses_on(b);
      std::vector<std::size_t> both;
      std::set_intersection(on_a.begin(), on_a.end(), on_b.begin(), on_b.end(),
                            std::back_inserter(both));
      ASSERT_GE(both.size(), 2u);
      double apart = 0;
      for (const std::size_t i : both)
        for (const std::size_t k : both)
          apart = std::max(apart, std::hypot(grid.crosses()[i].x - grid.crosses()[k].x,
                                             grid.crosses()[i].y - grid.crosses()[k].y));
      EXPECT_GE(apart, seam - 2 * tile_overlap);
    };
    for (const Tile& tile : grid.tiles()) {
      const Box& w = tile.window;
      if (tile.column > 0) check(grid.tile(tile.row, tile.column - 1), tile, w.top - w.bottom);
      if (tile.row > 0) check(grid.tile(tile.row - 1, tile.column), tile, w.right - w.left);
    }
  }
  EXPECT_GE(seams, 300);
}

TEST(Tiling, ClippedLinesAreTheLineInTheWindowAndNothingElse) {
  std::mt19937_64 engine(20260402);
  std::uniform_real_distribution<double> place(-60, 60);
  const Box window{-20, -25, 30, 15};
  int pieces = 0;
  for (int i = 0; i < 400; ++i) {
    Stroke line{LineKind::edge, {}, i % 2 == 0};
    for (int k = 0; k < 12; ++k)
      line.points.push_back({place(engine), place(engine)});
    const std::vector<Stroke> kept = clipped({line}, window);
    Polyline ring = line.points;
    if (line.closed) ring.push_back(ring.front());
    // Measured along the line in small steps, what lies inside is as long as what was kept.
    double inside = 0;
    constexpr int steps = 2000;
    for (std::size_t k = 1; k < ring.size(); ++k) {
      const Point& a = ring[k - 1];
      const Point& b = ring[k];
      const double step = std::hypot(b.x - a.x, b.y - a.y) / steps;
      for (int s = 0; s < steps; ++s) {
        const double at = (s + 0.5) / steps;
        if (holds(window, {a.x + at * (b.x - a.x), a.y + at * (b.y - a.y)}, 0)) inside += step;
      }
    }
    double length = 0;
    for (const Stroke& piece : kept) {
      ++pieces;
      EXPECT_FALSE(piece.closed);
      length += length_of(piece.points);
      for (const Point& p : piece.points)
        EXPECT_TRUE(holds(window, p, -1e-9));
    }
    EXPECT_NEAR(length, inside, 0.5);
  }
  EXPECT_GE(pieces, 500);
}

// A point that is computed anew may miss by a last digit, and two pieces would not quite meet.
TEST(Tiling, ClippedLinesKeepTheirOwnPointsToTheLastDigit) {
  std::mt19937_64 engine(20260403);
  std::uniform_real_distribution<double> place(-30, 30);
  const Box window{-20, -20, 20, 20};
  int inside = 0;
  for (int i = 0; i < 100; ++i) {
    Stroke line{LineKind::edge, {}, false};
    for (int k = 0; k < 12; ++k)
      line.points.push_back({place(engine), place(engine)});
    Polyline kept;
    for (const Stroke& piece : clipped({line}, window))
      kept.insert(kept.end(), piece.points.begin(), piece.points.end());
    for (const Point& p : line.points)
      if (holds(window, p, 0)) {
        ++inside;
        EXPECT_EQ(std::count(kept.begin(), kept.end(), p), 1) << p.x << ' ' << p.y;
      }
  }
  EXPECT_GE(inside, 400);
}

TEST(Tiling, CellsFillTheExtentAndMeetInTheMiddleOfTheOverlaps) {
  for (const Drawn& drawn : drawn_grids()) {
    const TileGrid grid(drawn.extent, drawn.room_width, drawn.room_height);
    for (const Tile& tile : grid.tiles()) {
      const Box& window = tile.window;
      const Box cell = grid.cell(tile);
      const auto taken = [](bool shared) { return shared ? tile_overlap / 2 : 0; };
      EXPECT_NEAR(cell.left - window.left, taken(tile.column > 0), 1e-9);
      EXPECT_NEAR(window.right - cell.right, taken(tile.column + 1 < grid.columns()), 1e-9);
      EXPECT_NEAR(window.top - cell.top, taken(tile.row > 0), 1e-9);
      EXPECT_NEAR(cell.bottom - window.bottom, taken(tile.row + 1 < grid.rows()), 1e-9);
    }
  }
}

TEST(Tiling, LeavesAClosedLineInsideTheWindowClosed) {
  const Stroke ring{LineKind::edge, {{0, 0}, {5, 0}, {5, 5}}, true};
  const std::vector<Stroke> kept = clipped({ring}, {-1, -1, 6, 6});
  ASSERT_EQ(kept.size(), 1u);
  EXPECT_TRUE(kept.front().closed);
  EXPECT_EQ(kept.front().points, ring.points);
  EXPECT_TRUE(clipped({ring}, {10, 10, 20, 20}).empty());
}

// The window's edges belong to it: a line that lies on one is on the tile, or it would be on none.
TEST(Tiling, KeepsWhatLiesOnTheWindowsEdges) {
  const Box window{2, 3, 8, 9};
  const Stroke ring{LineKind::edge, {{2, 3}, {8, 3}, {8, 9}, {2, 9}}, true};
  const std::vector<Stroke> whole = clipped({ring}, window);
  ASSERT_EQ(whole.size(), 1u);
  EXPECT_TRUE(whole.front().closed);
  EXPECT_EQ(whole.front().points, ring.points);
  const auto length_of = [&](const Polyline& line) {
    double length = 0;
    for (const Stroke& piece : clipped({Stroke{LineKind::edge, line}}, window))
      for (std::size_t i = 1; i < piece.points.size(); ++i)
        length += std::hypot(piece.points[i].x - piece.points[i - 1].x,
                             piece.points[i].y - piece.points[i - 1].y);
    return length;
  };
  for (const double off : {0.0, 1e-6}) {
    EXPECT_EQ(length_of({{0, 3 - off}, {10, 3 - off}}), off == 0 ? 6 : 0) << "bottom";
    EXPECT_EQ(length_of({{0, 9 + off}, {10, 9 + off}}), off == 0 ? 6 : 0) << "top";
    EXPECT_EQ(length_of({{2 - off, 0}, {2 - off, 10}}), off == 0 ? 6 : 0) << "left";
    EXPECT_EQ(length_of({{8 + off, 0}, {8 + off, 10}}), off == 0 ? 6 : 0) << "right";
  }
}

} // namespace
} // namespace shankline::tests::tiling_test
