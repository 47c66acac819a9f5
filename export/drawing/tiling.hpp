// A part too large for the page, at true size on several: windows that overlap, and crosses in the
// overlaps to join them by. Everything is in one frame of the part, x to the right, y upwards.
#pragma once

#include "export/drawing/box.hpp"
#include "export/drawing/drawing.hpp"

#include <cstddef>
#include <vector>

namespace shankline {

/// Overlap of two neighbours, mm; it has room for a cross and for tape.
inline constexpr double tile_overlap = 14;
/// Length of a cross's arm from its middle, mm.
inline constexpr double cross_arm = 4;

struct Tile {
  std::size_t number = 0; ///< from 0, row by row from the upper left
  std::size_t row = 0;
  std::size_t column = 0;
  Box window;
};

class TileGrid {
public:
  /// Takes as few tiles as the room on a page allows, all of one size. The room must be more than
  /// twice the overlap each way.
  TileGrid(const Box& extent, double room_width, double room_height);

  std::size_t columns() const { return columns_; }
  std::size_t rows() const { return rows_; }
  const std::vector<Tile>& tiles() const { return tiles_; }
  const Tile& tile(std::size_t row, std::size_t column) const {
    return tiles_.at(row * columns_ + column);
  }
  /// Middles of the crosses, left to right and upwards within a seam. Every two neighbours share at
  /// least two, far apart.
  const std::vector<Point>& crosses() const { return crosses_; }
  /// Those of one tile, by number.
  std::vector<std::size_t> crosses_on(const Tile& tile) const;
  /// The window without what it shares: half of every overlap. These fill the extent.
  Box cell(const Tile& tile) const;

private:
  std::size_t columns_ = 1;
  std::size_t rows_ = 1;
  std::vector<Tile> tiles_;
  std::vector<Point> crosses_;
};

/// Two strokes of kind registration for each cross of the tile, level first.
std::vector<Stroke> registration(const TileGrid& grid, const Tile& tile);

/// The edges where the tile may be trimmed so that it lies on its neighbour to the left or above.
std::vector<Stroke> trim_edges(const Tile& tile);

/// Returns the parts of the lines inside the window. A closed line that leaves the window comes
/// back as open pieces.
std::vector<Stroke> clipped(const std::vector<Stroke>& lines, const Box& window);

} // namespace shankline
