#include "export/drawing/template.hpp"

#include <cmath>

namespace shankline {

Polyline placed(const Polyline& line, const Placement& place) {
  Polyline points;
  points.reserve(line.size());
  for (const Point& p : line)
    points.push_back(place(p));
  return points;
}

Stroke placed(const Stroke& line, const Placement& place) {
  return {line.kind, placed(line.points, place), line.closed};
}

Placement placed(const Placement& inner, const Placement& outer) {
  const Placement turn{{0, 0}, outer.along, outer.across};
  return {outer(inner.origin), turn(inner.along), turn(inner.across)};
}

Placement turned(const Point& origin, double angle) {
  const double c = std::cos(angle);
  const double s = std::sin(angle);
  return {origin, {c, s}, {-s, c}};
}

Box bounds(const std::vector<Stroke>& lines, const Placement& place) {
  Box box = nowhere;
  for (const Stroke& line : lines)
    for (const Point& p : line.points)
      widen(box, place(p));
  return box;
}

} // namespace shankline
