// Plain checks on points and polygons, written apart from the code under test: no library, every
// pair of edges looked at.
#pragma once

#include "geometry/plane/point.hpp"

#include <cstddef>

namespace shankline::tests {

/// Shoelace sum about the first point; positive for counter-clockwise.
double shoelace_area(const Polygon& polygon);

double distance(const Point& a, const Point& b);
double distance_to_segment(const Point& p, const Point& a, const Point& b);
double distance_to_line(const Polyline& line, const Point& p);
double distance_to_outline(const Polygon& polygon, const Point& p);

/// No two edges share a point but neighbours at their common one, nothing repeated or not finite.
bool simple_by_pairs(const Polygon& polygon);

/// Composite Simpson rule with `halves` pairs of strips.
template <typename Function>
double simpson(Function&& f, double from, double to, std::size_t halves) {
  const double h = (to - from) / (2.0 * static_cast<double>(halves));
  double sum = f(from) + f(to);
  for (std::size_t i = 1; i < 2 * halves; ++i)
    sum += f(from + h * static_cast<double>(i)) * (i % 2 == 1 ? 4.0 : 2.0);
  return sum * h / 3.0;
}

} // namespace shankline::tests
