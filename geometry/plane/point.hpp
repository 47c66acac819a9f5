// Points and lines of points, millimetres.
#pragma once

#include <vector>

namespace shankline {

/// A point in a part's own frame, mm. On a board x is the station X from the heel end towards the
/// toes, and y is positive towards the medial (big-toe) side, for both feet.
struct Point {
  double x = 0;
  double y = 0;
  friend bool operator==(const Point&, const Point&) = default;
};

using Polyline = std::vector<Point>;

/// A closed outline, first point not repeated, counter-clockwise.
using Polygon = std::vector<Point>;

/// Positive for counter-clockwise; mm².
double signed_area(const Polygon& polygon);

double length_of(const Polyline& line); ///< mm

/// Distance of `p` from the nearest place on the outline, inside it or outside.
double distance_from_outline(const Polygon& outline, const Point& p);

/// Extent of an outline along x and along y, mm. The outline must not be empty.
struct OutlineExtent {
  double along_x = 0;
  double along_y = 0;
};
OutlineExtent outline_extent(const Polygon& outline);

} // namespace shankline
