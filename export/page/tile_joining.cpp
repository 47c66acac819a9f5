#include "export/page/tile_joining.hpp"

#include <algorithm>

namespace shankline {
namespace {

constexpr double widest_map = 44;
constexpr double beside_map = 6;

} // namespace

std::string tile_words(const TileGrid& grid, const Tile& tile) {
  return "tile " + std::to_string(tile.number + 1) + " of " + std::to_string(grid.tiles().size());
}

std::string tile_place(const TileGrid& grid, const Tile& tile) {
  return tile_words(grid, tile) + " \u00b7 row " + std::to_string(tile.row + 1) + ", column " +
         std::to_string(tile.column + 1);
}

std::vector<Text> cross_names(const Point& cross, std::size_t i) {
  std::string name(1, static_cast<char>('A' + i % 26));
  if (i >= 26) name += std::to_string(i / 26);
  std::vector<Text> places;
  for (const double up : {1.1, -3.4})
    for (const Align align : {Align::left, Align::right})
      places.push_back({{cross.x + (align == Align::left ? 0.9 : -0.9), cross.y + up},
                        name,
                        3,
                        Weight::bold,
                        align});
  return places;
}

void tile_joining(SheetPage& page, const TileGrid& grid, const Tile& tile, Point corner,
                  double right) {
  const Box& first = grid.tiles().front().window;
  const Box& last = grid.tiles().back().window;
  const double wide = last.right - first.left;
  const double high = first.top - last.bottom;
  const double scale = std::min(widest_map / wide, tile_map_height / high);
  for (const Tile& each : grid.tiles()) {
    const Box cell = grid.cell(each);
    const auto on_map = [&](double inset) {
      return Box{corner.x + (cell.left - first.left) * scale + inset,
                 corner.y - (first.top - cell.bottom) * scale + inset,
                 corner.x + (cell.right - first.left) * scale - inset,
                 corner.y - (first.top - cell.top) * scale - inset};
    };
    const bool this_one = each.number == tile.number;
    for (const double inset : {0.0, 0.2, 0.4, 0.6, 0.8})
      if (inset == 0 || this_one) page.rectangle(LineKind::frame, on_map(inset));
    const Box box = on_map(0);
    const double size = this_one ? 4.2 : 3.2;
    page.text({(box.left + box.right) / 2, (box.bottom + box.top) / 2 - size * cap_height / 2},
              std::to_string(each.number + 1), size, this_one ? Weight::bold : Weight::regular,
              Align::centre);
  }
  const double left = corner.x + std::max(wide * scale, 8.0) + beside_map;
  page.text({left, corner.y - 2.6}, "Join the tiles", 3.3, Weight::bold);
  page.paragraph(
      {left, corner.y - 5}, right - left,
      "Print them all with the same settings and prove each with the bank card. Trim a tile at "
      "its dashed edge, lay it on its neighbour cross on cross, same letter on same letter, and "
      "tape along the seam. Where two crosses do not meet, print again: do not stretch. Cut the "
      "part out when it is whole.",
      2.7);
}

} // namespace shankline
