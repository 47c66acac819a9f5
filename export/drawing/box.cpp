#include "export/drawing/box.hpp"

#include <algorithm>
#include <iterator>

namespace shankline {

void widen(Box& box, const Point& p) {
  widen(box, Box{p.x, p.y, p.x, p.y});
}

void widen(Box& box, const Box& other) {
  box = {std::min(box.left, other.left), std::min(box.bottom, other.bottom),
         std::max(box.right, other.right), std::max(box.top, other.top)};
}

Box with_air(const Box& box, double air) {
  return {box.left - air, box.bottom - air, box.right + air, box.top + air};
}

bool holds(const Box& outer, const Box& inner) {
  return inner.left >= outer.left && inner.right <= outer.right && inner.bottom >= outer.bottom &&
         inner.top <= outer.top;
}

Polygon corners(const Box& box) {
  return {
      {box.left, box.bottom}, {box.right, box.bottom}, {box.right, box.top}, {box.left, box.top}};
}

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
