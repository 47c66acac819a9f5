// How far two lines lie apart.
#pragma once

#include "geometry/plane/point.hpp"

namespace shankline::tests {

struct Apart {
  double distance = 0; ///< mm
  Point at;            ///< on either line, where they are furthest apart
};

double distance_to_segment(Point point, Point from, Point to);

/// The points of each line against the segments of the other, the worst of all. Closed lines give
/// their first point once more at the end.
Apart apart(const Polyline& one, const Polyline& other);

/// The ends of open lines, the other way round too.
double ends_apart(const Polyline& one, const Polyline& other);

} // namespace shankline::tests
