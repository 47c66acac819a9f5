#include "geometry/plane/inset.hpp"

#include "geometry/plane/pieces.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace shankline {
namespace {

/// A line that an edge of the inset lies on.
struct MovedEdge {
  Point on;
  Point along; ///< unit vector
};

std::vector<MovedEdge> moved_edges(const Polygon& outline, double distance) {
  std::vector<MovedEdge> edges;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Point& a = outline[i];
    const Point& b = outline[(i + 1) % outline.size()];
    const double length = std::hypot(b.x - a.x, b.y - a.y);
    if (length == 0) continue;
    const Point along{(b.x - a.x) / length, (b.y - a.y) / length};
    edges.push_back({{a.x - distance * along.y, a.y + distance * along.x}, along});
  }
  return edges;
}

/// The point where two neighbouring edges meet. Nearly parallel ones meet anywhere along them:
/// half-way is near enough, because their ends are then almost in one place.
Point meeting(const MovedEdge& a, const MovedEdge& b) {
  const double cross = a.along.x * b.along.y - a.along.y * b.along.x;
  const double dx = b.on.x - a.on.x;
  const double dy = b.on.y - a.on.y;
  if (std::abs(cross) < 1e-7) {
    const double t = dx * a.along.x + dy * a.along.y;
    return {(a.on.x + t * a.along.x + b.on.x) / 2, (a.on.y + t * a.along.y + b.on.y) / 2};
  }
  const double t = (dx * b.along.y - dy * b.along.x) / cross;
  return {a.on.x + t * a.along.x, a.on.y + t * a.along.y};
}

/// Point i is where edge i begins.
Polygon corners(const std::vector<MovedEdge>& edges) {
  Polygon points;
  points.reserve(edges.size());
  for (std::size_t i = 0; i < edges.size(); ++i)
    points.push_back(meeting(edges[(i + edges.size() - 1) % edges.size()], edges[i]));
  return points;
}

/// The edge that runs backwards the farthest: the distance has eaten it.
std::optional<std::size_t> eaten(const std::vector<MovedEdge>& edges, const Polygon& points) {
  std::optional<std::size_t> found;
  double most = 0;
  for (std::size_t i = 0; i < edges.size(); ++i) {
    const Point& a = points[i];
    const Point& b = points[(i + 1) % points.size()];
    const double run = (b.x - a.x) * edges[i].along.x + (b.y - a.y) * edges[i].along.y;
    if (run > most) continue;
    most = run;
    found = i;
  }
  return found;
}

} // namespace

std::optional<Polygon> inset(const Polygon& outline, double distance) {
  if (distance == 0) return outline;
  std::vector<MovedEdge> edges = moved_edges(outline, distance);
  bool repaired = false;
  Polygon points;
  while (edges.size() >= 3) {
    points = corners(edges);
    const auto backwards = eaten(edges, points);
    if (!backwards) break;
    edges.erase(edges.begin() + static_cast<std::ptrdiff_t>(*backwards));
    repaired = true;
  }
  if (edges.size() < 3 || !is_simple(points) || !(signed_area(points) > 0)) return {};
  constexpr double rounding_error = 1e-6;
  const auto too_near = [&](const Point& p) {
    return distance_from_outline(outline, p) < distance - rounding_error;
  };
  if (repaired && std::any_of(points.begin(), points.end(), too_near)) return {};
  return points;
}

} // namespace shankline
