// Circles that mark a place on a sheet.
#pragma once

#include "geometry/plane/point.hpp"

#include <cmath>
#include <numbers>

namespace shankline {

/// A circle as a polygon with `corners` corners, counter-clockwise from the right.
inline Polygon circle(const Point& middle, double radius, int corners) {
  Polygon round;
  for (int i = 0; i < corners; ++i) {
    const double turn = 2 * std::numbers::pi * i / corners;
    round.push_back({middle.x + radius * std::cos(turn), middle.y + radius * std::sin(turn)});
  }
  return round;
}

} // namespace shankline
