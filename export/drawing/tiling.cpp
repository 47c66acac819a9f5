#include "export/drawing/tiling.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>
#include <utility>

namespace shankline {
namespace {

/// Between a window's outer edge and the crosses nearest to it.
constexpr double cross_inset = cross_arm + 0.75;
/// Shorter than this a clipped piece is a speck of ink, not a line, mm.
constexpr double shortest_piece = 0.02;

std::size_t count_along(double extent, double room) {
  if (room <= 2 * tile_overlap) throw std::logic_error("no room for a tile");
  const double more = std::ceil((extent - room) / (room - tile_overlap) - 1e-9);
  return more <= 0 ? 1 : 1 + static_cast<std::size_t>(more);
}

/// Beginnings of `count` equal windows that cover [from, to], and their common length.
struct Windows {
  double from;
  double length;
  double begin(std::size_t i) const {
    return from + static_cast<double>(i) * (length - tile_overlap);
  }
  /// Middle of the overlap of window i and the next.
  double seam(std::size_t i) const { return begin(i + 1) + tile_overlap / 2; }
};

Windows windows(double from, double to, std::size_t count) {
  const double n = static_cast<double>(count);
  return {from, (to - from + (n - 1) * tile_overlap) / n};
}

/// A seam's crosses are near both ends, and where seams of the other direction meet it.
std::vector<double> along_seam(const Windows& other, std::size_t count) {
  std::vector<double> places{other.from + cross_inset};
  for (std::size_t i = 0; i + 1 < count; ++i)
    places.push_back(other.seam(i));
  places.push_back(other.begin(count - 1) + other.length - cross_inset);
  return places;
}

/// The part of the segment inside the box, as parameters.
std::optional<std::pair<double, double>> inside(const Point& a, const Point& b, const Box& box) {
  double from = 0;
  double to = 1;
  const auto narrow = [&](double start, double step, double low, double high) {
    if (step == 0) return start >= low && start <= high;
    const double enter = ((step > 0 ? low : high) - start) / step;
    const double leave = ((step > 0 ? high : low) - start) / step;
    from = std::max(from, enter);
    to = std::min(to, leave);
    return from < to;
  };
  if (!narrow(a.x, b.x - a.x, box.left, box.right) || !narrow(a.y, b.y - a.y, box.bottom, box.top))
    return std::nullopt;
  return std::pair{from, to};
}

bool within(const Polyline& points, const Box& box) {
  return std::all_of(points.begin(), points.end(), [&](const Point& p) {
    return p.x >= box.left && p.x <= box.right && p.y >= box.bottom && p.y <= box.top;
  });
}

std::vector<Polyline> pieces_inside(const Polyline& line, const Box& box) {
  std::vector<Polyline> pieces;
  bool goes_on = false;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const Point& a = line[i - 1];
    const Point& b = line[i];
    const auto part = inside(a, b, box);
    if (!part) {
      goes_on = false;
      continue;
    }
    const auto at = [&](double s) { // the ends themselves, without rounding
      if (s <= 0) return a;
      if (s >= 1) return b;
      return Point{a.x + s * (b.x - a.x), a.y + s * (b.y - a.y)};
    };
    if (!goes_on || part->first > 0) pieces.push_back({at(part->first)});
    pieces.back().push_back(at(part->second));
    goes_on = part->second >= 1;
  }
  return pieces;
}

} // namespace

TileGrid::TileGrid(const Box& extent, double room_width, double room_height)
    : columns_(count_along(extent.right - extent.left, room_width)),
      rows_(count_along(extent.top - extent.bottom, room_height)) {
  const Windows across = windows(extent.left, extent.right, columns_);
  const Windows up = windows(extent.bottom, extent.top, rows_);
  for (std::size_t row = 0; row < rows_; ++row)
    for (std::size_t column = 0; column < columns_; ++column) {
      const double left = across.begin(column);
      const double bottom = up.begin(rows_ - 1 - row);
      tiles_.push_back(
          {tiles_.size(), row, column, {left, bottom, left + across.length, bottom + up.length}});
    }
  for (std::size_t column = 0; column + 1 < columns_; ++column)
    for (const double y : along_seam(up, rows_))
      crosses_.push_back({across.seam(column), y});
  const std::vector<double> xs = along_seam(across, columns_);
  for (std::size_t row = 0; row + 1 < rows_; ++row) {
    crosses_.push_back({xs.front(), up.seam(row)}); // those between are on the other seams too
    crosses_.push_back({xs.back(), up.seam(row)});
  }
}

std::vector<std::size_t> TileGrid::crosses_on(const Tile& tile) const {
  std::vector<std::size_t> numbers;
  const Box& w = tile.window;
  for (std::size_t i = 0; i < crosses_.size(); ++i) {
    const Point& p = crosses_[i];
    if (p.x - cross_arm >= w.left && p.x + cross_arm <= w.right && p.y - cross_arm >= w.bottom &&
        p.y + cross_arm <= w.top)
      numbers.push_back(i);
  }
  return numbers;
}

Box TileGrid::cell(const Tile& tile) const {
  constexpr double half = tile_overlap / 2;
  Box box = tile.window;
  if (tile.column > 0) box.left += half;
  if (tile.column + 1 < columns_) box.right -= half;
  if (tile.row > 0) box.top -= half;
  if (tile.row + 1 < rows_) box.bottom += half;
  return box;
}

std::vector<Stroke> registration(const TileGrid& grid, const Tile& tile) {
  std::vector<Stroke> lines;
  for (const std::size_t i : grid.crosses_on(tile)) {
    const Point& p = grid.crosses()[i];
    lines.push_back(
        {LineKind::registration, {{p.x - cross_arm, p.y}, {p.x + cross_arm, p.y}}, false});
    lines.push_back(
        {LineKind::registration, {{p.x, p.y - cross_arm}, {p.x, p.y + cross_arm}}, false});
  }
  return lines;
}

std::vector<Stroke> trim_edges(const Tile& tile) {
  const Box& w = tile.window;
  std::vector<Stroke> lines;
  if (tile.column > 0)
    lines.push_back({LineKind::paper_trim, {{w.left, w.bottom}, {w.left, w.top}}, false});
  if (tile.row > 0)
    lines.push_back({LineKind::paper_trim, {{w.left, w.top}, {w.right, w.top}}, false});
  return lines;
}

std::vector<Stroke> clipped(const std::vector<Stroke>& lines, const Box& window) {
  std::vector<Stroke> kept;
  for (const Stroke& line : lines) {
    if (within(line.points, window)) {
      kept.push_back(line);
      continue;
    }
    Polyline points = line.points;
    if (line.closed) points.push_back(points.front());
    for (Polyline& piece : pieces_inside(points, window))
      if (length_of(piece) > shortest_piece) kept.push_back({line.kind, std::move(piece), false});
  }
  return kept;
}

} // namespace shankline
