#include "geometry/plane/point.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace shankline {
namespace {

double distance_to_segment(const Point& p, const Point& a, const Point& b) {
  const double dx = b.x - a.x;
  const double dy = b.y - a.y;
  const double square = dx * dx + dy * dy;
  const double t =
      square > 0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / square, 0.0, 1.0) : 0;
  return std::hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

} // namespace

double signed_area(const Polygon& polygon) {
  double twice = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point& a = polygon[i];
    const Point& b = polygon[(i + 1) % polygon.size()];
    twice += a.x * b.y - b.x * a.y;
  }
  return twice / 2;
}

double length_of(const Polyline& line) {
  double length = 0;
  for (std::size_t i = 1; i < line.size(); ++i)
    length += std::hypot(line[i].x - line[i - 1].x, line[i].y - line[i - 1].y);
  return length;
}

double distance_from_outline(const Polygon& outline, const Point& p) {
  double nearest = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < outline.size(); ++i)
    nearest =
        std::min(nearest, distance_to_segment(p, outline[i], outline[(i + 1) % outline.size()]));
  return nearest;
}

OutlineExtent outline_extent(const Polygon& outline) {
  const auto by_x = [](const Point& a, const Point& b) { return a.x < b.x; };
  const auto by_y = [](const Point& a, const Point& b) { return a.y < b.y; };
  const auto [rear, fore] = std::minmax_element(outline.begin(), outline.end(), by_x);
  const auto [low, high] = std::minmax_element(outline.begin(), outline.end(), by_y);
  return {fore->x - rear->x, high->y - low->y};
}

} // namespace shankline
