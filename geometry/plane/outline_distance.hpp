// The distance of two outlines: the largest distance and its place, and the area that only one has.
#pragma once

#include "geometry/plane/point.hpp"

namespace shankline {

struct Outline {
  Polyline points;
  bool closed = true; ///< the last point joins the first, which is not repeated
};

/// The largest distance (Hausdorff): no point of either outline is farther than this from the other
/// one, and one of them is as far. Every point of a segment counts, not its ends alone.
struct LargestDistance {
  double distance = 0; ///< to within `distance_error`, never more than it is
  Point on_a;          ///< where it is, and the place nearest to that on the other outline
  Point on_b;
};
inline constexpr double distance_error = 1e-5; ///< mm

/// Neither outline is empty.
LargestDistance largest_distance(const Outline& a, const Outline& b);

/// Area that lies in one polygon and not in the other (symmetric difference), mm²: the plane in
/// upright slabs in which no two edges cross. Exactly 0 for a polygon and itself. Either way round;
/// a place is inside that a line upwards from it leaves by an odd number of edges.
double area_apart(const Polygon& a, const Polygon& b);

} // namespace shankline
