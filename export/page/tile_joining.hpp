// Help for joining tiles by hand: names at the crosses, a map, and the steps.
#pragma once

#include "export/drawing/tiling.hpp"
#include "export/page/sheet_page.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace shankline {

/// "tile 1 of 2".
std::string tile_words(const TileGrid& grid, const Tile& tile);
/// "tile 1 of 2 · row 1, column 1".
std::string tile_place(const TileGrid& grid, const Tile& tile);

/// "A" in one of the cross's corners, where it may stand, the upper right one first.
std::vector<Text> cross_names(const Point& cross, std::size_t i);

inline constexpr double tile_map_height = 22;

/// A small map with this tile heavy, and how the tiles become one, from the upper left corner to
/// `right`.
void tile_joining(SheetPage& page, const TileGrid& grid, const Tile& tile, Point corner,
                  double right);

} // namespace shankline
