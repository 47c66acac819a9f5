#include "geometry/plane/outline_distance.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <queue>
#include <stdexcept>
#include <vector>

namespace shankline {
namespace {

struct Segment {
  Point from;
  Point to;
};

std::vector<Segment> segments_of(const Outline& outline) {
  const Polyline& points = outline.points;
  if (points.empty()) throw std::invalid_argument("an outline without points");
  std::vector<Segment> segments;
  segments.reserve(points.size());
  for (std::size_t i = 1; i < points.size(); ++i)
    segments.push_back({points[i - 1], points[i]});
  if (outline.closed || segments.empty()) segments.push_back({points.back(), points.front()});
  return segments;
}

double squared(const Point& a, const Point& b) {
  return (a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y);
}

Point nearest_on(const Segment& s, const Point& p) {
  const Point way{s.to.x - s.from.x, s.to.y - s.from.y};
  const double along = (p.x - s.from.x) * way.x + (p.y - s.from.y) * way.y;
  const double whole = way.x * way.x + way.y * way.y;
  // The ends themselves, so that an outline is at no distance from itself.
  if (along <= 0) return s.from;
  if (along >= whole) return s.to;
  return {s.from.x + along / whole * way.x, s.from.y + along / whole * way.y};
}

struct Nearest {
  double distance = 0;
  Point at;
};

Nearest nearest(const std::vector<Segment>& outline, const Point& p) {
  double least = std::numeric_limits<double>::infinity();
  Point at;
  for (const Segment& s : outline) {
    const Point q = nearest_on(s, p);
    const double d = squared(p, q);
    if (d >= least) continue;
    least = d;
    at = q;
  }
  return {std::sqrt(least), at};
}

/// No point of `part` is farther than this from `outline`: the distance to one segment is convex
/// along `part`, so largest at an end.
double bound(const std::vector<Segment>& outline, const Segment& part) {
  double least = std::numeric_limits<double>::infinity();
  for (const Segment& s : outline)
    least = std::min(least, std::max(squared(part.from, nearest_on(s, part.from)),
                                     squared(part.to, nearest_on(s, part.to))));
  return std::sqrt(least);
}

/// The farthest point of one outline from the other: parts of segments are halved as long as one of
/// them may hold a point that is farther than the farthest found.
class Farthest {
public:
  Farthest(const std::vector<Segment>& from, const std::vector<Segment>& other) : other_(other) {
    for (const Segment& s : from) {
      look_at(s.from);
      look_at(s.to);
    }
    for (const Segment& s : from)
      keep(s);
    while (!parts_.empty()) {
      const Part part = parts_.top();
      parts_.pop();
      if (part.bound <= distance + distance_error) return;
      const Point middle{(part.segment.from.x + part.segment.to.x) / 2,
                         (part.segment.from.y + part.segment.to.y) / 2};
      look_at(middle);
      keep({part.segment.from, middle});
      keep({middle, part.segment.to});
    }
  }

  double distance = -1;
  Point at;
  Point nearest_there;

private:
  struct Part {
    double bound;
    Segment segment;
    bool operator<(const Part& other) const { return bound < other.bound; }
  };

  void look_at(const Point& p) {
    const Nearest found = nearest(other_, p);
    if (found.distance <= distance) return;
    distance = found.distance;
    at = p;
    nearest_there = found.at;
  }

  void keep(const Segment& s) {
    const double most = bound(other_, s);
    if (most > distance + distance_error) parts_.push({most, s});
  }

  const std::vector<Segment>& other_;
  std::priority_queue<Part> parts_;
};

/// An edge from its left end to its right one; upright edges bound no slab.
struct SlopingEdge {
  Point left;
  Point right;
  bool of_a;

  double y(double x) const {
    return left.y + (x - left.x) / (right.x - left.x) * (right.y - left.y);
  }
};

void add_edges(const Polygon& polygon, bool of_a, std::vector<SlopingEdge>& edges) {
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point& p = polygon[i];
    const Point& q = polygon[(i + 1) % polygon.size()];
    if (p.x < q.x) edges.push_back({p, q, of_a});
    if (q.x < p.x) edges.push_back({q, p, of_a});
  }
}

/// Adds the x where two edges cross between their ends; parallel ones add none.
void add_crossing(const SlopingEdge& a, const SlopingEdge& b, std::vector<double>& at) {
  const double from = std::max(a.left.x, b.left.x);
  const double to = std::min(a.right.x, b.right.x);
  if (!(from < to)) return;
  const double before = a.y(from) - b.y(from);
  const double after = a.y(to) - b.y(to);
  if ((before < 0 && after > 0) || (before > 0 && after < 0))
    at.push_back(from + (to - from) * before / (before - after));
}

/// The length of the upright line at x that only one of the two outlines covers.
double apart_at(double x, const std::vector<SlopingEdge>& edges,
                std::vector<std::pair<double, bool>>& met) {
  met.clear();
  for (const SlopingEdge& edge : edges)
    if (edge.left.x < x && x < edge.right.x) met.emplace_back(edge.y(x), edge.of_a);
  std::sort(met.begin(), met.end());
  bool in_a = false;
  bool in_b = false;
  double length = 0;
  for (std::size_t i = 0; i < met.size(); ++i) {
    if (in_a != in_b) length += met[i].first - met[i - 1].first;
    bool& in = met[i].second ? in_a : in_b;
    in = !in;
  }
  return length;
}

} // namespace

LargestDistance largest_distance(const Outline& a, const Outline& b) {
  const std::vector<Segment> of_a = segments_of(a);
  const std::vector<Segment> of_b = segments_of(b);
  const Farthest from_a(of_a, of_b);
  const Farthest from_b(of_b, of_a);
  if (from_a.distance >= from_b.distance) return {from_a.distance, from_a.at, from_a.nearest_there};
  return {from_b.distance, from_b.nearest_there, from_b.at};
}

double area_apart(const Polygon& a, const Polygon& b) {
  std::vector<SlopingEdge> edges;
  add_edges(a, true, edges);
  const std::size_t first_of_b = edges.size();
  add_edges(b, false, edges);
  std::vector<double> slabs;
  for (const SlopingEdge& edge : edges) {
    slabs.push_back(edge.left.x);
    slabs.push_back(edge.right.x);
  }
  for (std::size_t i = 0; i < first_of_b; ++i)
    for (std::size_t k = first_of_b; k < edges.size(); ++k)
      add_crossing(edges[i], edges[k], slabs);
  std::sort(slabs.begin(), slabs.end());
  slabs.erase(std::unique(slabs.begin(), slabs.end()), slabs.end());

  double area = 0;
  std::vector<std::pair<double, bool>> met;
  for (std::size_t i = 1; i < slabs.size(); ++i) {
    // No edges cross inside: every length is linear there, so the middle's is the mean.
    const double middle = slabs[i - 1] + (slabs[i] - slabs[i - 1]) / 2;
    area += (slabs[i] - slabs[i - 1]) * apart_at(middle, edges, met);
  }
  return area;
}

} // namespace shankline
