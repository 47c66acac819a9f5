#include "tests/geometry/polygon_checks.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace shankline::tests {
namespace {

double turn(const Point& a, const Point& b, const Point& c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

bool within_box(const Point& a, const Point& b, const Point& p) {
  return std::min(a.x, b.x) <= p.x && p.x <= std::max(a.x, b.x) && std::min(a.y, b.y) <= p.y &&
         p.y <= std::max(a.y, b.y);
}

bool segments_meet(const Point& a, const Point& b, const Point& c, const Point& d) {
  const double abc = turn(a, b, c);
  const double abd = turn(a, b, d);
  const double cda = turn(c, d, a);
  const double cdb = turn(c, d, b);
  if (((abc > 0 && abd < 0) || (abc < 0 && abd > 0)) &&
      ((cda > 0 && cdb < 0) || (cda < 0 && cdb > 0)))
    return true;
  return (abc == 0 && within_box(a, b, c)) || (abd == 0 && within_box(a, b, d)) ||
         (cda == 0 && within_box(c, d, a)) || (cdb == 0 && within_box(c, d, b));
}

} // namespace

double shoelace_area(const Polygon& polygon) {
  double twice = 0;
  for (std::size_t i = 1; i + 1 < polygon.size(); ++i)
    twice += turn(polygon[0], polygon[i], polygon[i + 1]);
  return twice / 2;
}

double distance(const Point& a, const Point& b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

double distance_to_segment(const Point& p, const Point& a, const Point& b) {
  const double dx = b.x - a.x;
  const double dy = b.y - a.y;
  const double square = dx * dx + dy * dy;
  const double t =
      square > 0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / square, 0.0, 1.0) : 0.0;
  return std::hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

double distance_to_line(const Polyline& line, const Point& p) {
  double least = line.size() == 1 ? distance(line[0], p) : std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i + 1 < line.size(); ++i)
    least = std::min(least, distance_to_segment(p, line[i], line[i + 1]));
  return least;
}

double distance_to_outline(const Polygon& polygon, const Point& p) {
  return polygon.empty() ? std::numeric_limits<double>::infinity()
                         : std::min(distance_to_line(polygon, p),
                                    distance_to_segment(p, polygon.back(), polygon.front()));
}

bool simple_by_pairs(const Polygon& polygon) {
  const std::size_t n = polygon.size();
  if (n < 3) return false;
  for (const Point& p : polygon)
    if (!std::isfinite(p.x) || !std::isfinite(p.y)) return false;
  for (std::size_t i = 0; i < n; ++i) {
    const Point& a = polygon[i];
    const Point& b = polygon[(i + 1) % n];
    if (a == b) return false;
    // A neighbour may not fold back onto this edge.
    const Point& c = polygon[(i + 2) % n];
    if (turn(a, b, c) == 0 && (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y) <= 0)
      return false;
    for (std::size_t j = i + 2; j < n; ++j) {
      if (i == 0 && j == n - 1) continue;
      if (segments_meet(a, b, polygon[j], polygon[(j + 1) % n])) return false;
    }
  }
  return true;
}

} // namespace shankline::tests
