// A smooth curve as a polyline, close enough for a knife.
#pragma once

#include "geometry/plane/point.hpp"

#include <functional>

namespace shankline {

/// Halves [from, to] until no chord is farther than `chord_error` (mm) from the curve. Both ends
/// are in the result. The curve should have no corner inside the interval.
Polyline flatten(const std::function<Point(double)>& curve, double from, double to,
                 double chord_error);

/// The arc about `centre` from `begin` the shorter way to `end`, ends included.
Polyline flatten_arc(const Point& centre, const Point& begin, const Point& end, double chord_error);

/// Appends `more` to `line`, without repeating a common point.
void join(Polyline& line, const Polyline& more);

} // namespace shankline
