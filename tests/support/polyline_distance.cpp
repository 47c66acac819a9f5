#include "tests/support/polyline_distance.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace shankline::tests {
namespace {

double between(Point a, Point b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

Apart one_way(const Polyline& points, const Polyline& line) {
  Apart worst{-1, {}};
  for (const Point point : points) {
    double nearest = line.empty() ? std::numeric_limits<double>::infinity() //
                                  : between(point, line.front());
    for (std::size_t i = 1; i < line.size(); ++i)
      nearest = std::min(nearest, distance_to_segment(point, line[i - 1], line[i]));
    if (std::isnan(nearest)) nearest = std::numeric_limits<double>::infinity();
    if (nearest > worst.distance) worst = {nearest, point};
  }
  return worst;
}

} // namespace

double distance_to_segment(Point point, Point from, Point to) {
  const Point along{to.x - from.x, to.y - from.y};
  const double square = along.x * along.x + along.y * along.y;
  if (square == 0) return between(point, from);
  const double share =
      std::clamp(((point.x - from.x) * along.x + (point.y - from.y) * along.y) / square, 0.0, 1.0);
  return between(point, {from.x + share * along.x, from.y + share * along.y});
}

Apart apart(const Polyline& one, const Polyline& other) {
  const Apart there = one_way(one, other);
  const Apart back = one_way(other, one);
  return there.distance >= back.distance ? there : back;
}

double ends_apart(const Polyline& one, const Polyline& other) {
  if (one.empty() || other.empty()) return std::numeric_limits<double>::infinity();
  return std::min(std::max(between(one.front(), other.front()), between(one.back(), other.back())),
                  std::max(between(one.front(), other.back()), between(one.back(), other.front())));
}

} // namespace shankline::tests
