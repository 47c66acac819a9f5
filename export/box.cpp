#include "export/box.hpp"

#include <algorithm>
#include <cmath>

namespace shankline {

bool runs_through(const Point& a, const Point& b, const Box& box) {
  if (std::max(a.x, b.x) <= box.left || std::min(a.x, b.x) >= box.right ||
      std::max(a.y, b.y) <= box.bottom || std::min(a.y, b.y) >= box.top)
    return false;
  // Both span the box's ranges: they miss only if all corners lie on one side of the segment.
  const auto side = [&](double x, double y) {
    return (b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x);
  };
  const double sides[]{side(box.left, box.bottom), side(box.right, box.bottom),
                       side(box.right, box.top), side(box.left, box.top)};
  const auto [least, most] = std::minmax_element(std::begin(sides), std::end(sides));
  return *least < 0 && *most > 0;
}

} // namespace shankline
