// Upright rectangles on a page.
#pragma once

#include "geometry/point.hpp"

namespace shankline {

struct Box {
  double left;
  double bottom;
  double right;
  double top;
};

inline bool overlap(const Box& a, const Box& b) {
  return a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top;
}

/// Does the segment from a to b come inside the box?
bool runs_through(const Point& a, const Point& b, const Box& box);

} // namespace shankline
