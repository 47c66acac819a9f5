// The board in two: what stays and what is cut away. Exact predicates and booleans (CGAL) behind
// it.
#pragma once

#include "geometry/numerics/result.hpp"
#include "geometry/plane/point.hpp"

namespace shankline {

struct Piece {
  Polygon outline;
  double area = 0; ///< mm²
};

struct Pieces {
  Piece kept;    ///< ahead of the cut
  Piece removed; ///< behind it
};

/// Cuts `board` (simple, counter-clockwise) along `cut`, which runs from the medial edge to the
/// lateral one. Returns why not, unless both pieces are one simple polygon each.
Result<Pieces> cut_pieces(const Polygon& board, const Polyline& cut);

/// Cuts by boolean operations: slower, but without the need of two proper crossings. The tests
/// compare cut_pieces with it.
Result<Pieces> cut_pieces_by_booleans(const Polygon& board, const Polyline& cut);

/// Returns true if no edges touch except neighbours at their common point, every number is finite
/// and no point occurs twice.
bool is_simple(const Polygon& polygon);

} // namespace shankline
