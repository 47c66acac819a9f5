// A part at true size, in its own frame, and where it lies on which page.
#pragma once

#include "export/drawing/box.hpp"
#include "export/drawing/drawing.hpp"
#include "geometry/order/order.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace shankline {

/// A part's point (x, y) lies on the page at origin + x·along + y·across. A template's are unit
/// vectors, it is never scaled; small drawings beside it may be.
struct Placement {
  Point origin;
  Point along;
  Point across;

  Point operator()(const Point& p) const {
    return {origin.x + p.x * along.x + p.y * across.x, origin.y + p.x * along.y + p.y * across.y};
  }
};

Polyline placed(const Polyline& line, const Placement& place);
Stroke placed(const Stroke& line, const Placement& place);
/// First `inner`, then `outer`.
Placement placed(const Placement& inner, const Placement& outer);

/// Turned about the part's own origin, counter-clockwise by `angle` (radians), then moved.
Placement turned(const Point& origin, double angle);

/// The box round the printed strokes of these lines.
Box bounds(const std::vector<Stroke>& lines, const Placement& place);

/// The place of one tile in a part that goes over several pages.
struct TilePlace {
  std::size_t number = 0; ///< from 0, as row and column
  std::size_t count = 1;
  std::size_t row = 0; ///< from the top
  std::size_t column = 0;
};

struct Template {
  std::string part; ///< "board"
  FootSide foot = FootSide::left;
  std::size_t page = 0; ///< from 0
  Paper paper{};
  Placement placement;
  std::vector<Stroke> lines; ///< in the part's own frame; of a tile, what lies in its window
  std::optional<TilePlace> tile;
};

/// Lines and lengths by which a page proves its own scale.
struct Proof {
  std::size_t page = 0;
  struct Bar {
    Point from;
    Point to;
  };
  std::array<Bar, 2> bars{}; ///< across, then up; 100 mm each
  Point card_corner;         ///< lower left corner of the bank card's outline
};

/// ISO/IEC 7810:2019, ID-1: the size of any bank card, mm.
inline constexpr double card_width = 85.60;
inline constexpr double card_height = 53.98;
inline constexpr double card_radius = 3.18;
inline constexpr double bar_length = 100;

} // namespace shankline
