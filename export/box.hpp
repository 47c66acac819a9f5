// Upright rectangles on a page.
#pragma once

#include "geometry/point.hpp"

namespace shankline {

struct Box {
  double left = 0;
  double bottom = 0;
  double right = 0;
  double top = 0;
};

inline bool overlap(const Box& a, const Box& b) {
  return a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top;
}

/// Does the segment from a to b come inside the box?
bool runs_through(const Point& a, const Point& b, const Box& box);

} // namespace shankline
