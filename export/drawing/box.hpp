// Upright rectangles on a page, mm.
#pragma once

#include "geometry/plane/point.hpp"

#include <limits>

namespace shankline {

struct Box {
  double left = 0;
  double bottom = 0;
  double right = 0;
  double top = 0;
};

/// Start values for widen(): the first point makes `nowhere` a box of that point alone.
inline constexpr double endless = std::numeric_limits<double>::infinity();
inline constexpr Box nowhere{endless, endless, -endless, -endless};

/// Makes the box hold the point (or the other box) too.
void widen(Box& box, const Point& p);
void widen(Box& box, const Box& other);

/// Grown by `air` on every side.
Box with_air(const Box& box, double air);

/// Does `inner` lie in `outer`, edges included?
bool holds(const Box& outer, const Box& inner);

/// Counter-clockwise from the lower left.
Polygon corners(const Box& box);

inline bool overlap(const Box& a, const Box& b) {
  return a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top;
}

/// Does the segment from a to b come inside the box?
bool runs_through(const Point& a, const Point& b, const Box& box);

} // namespace shankline
