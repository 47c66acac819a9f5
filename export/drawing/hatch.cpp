#include "export/drawing/hatch.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace shankline {
namespace {

// Coordinates of a point along the hatch and across it, mm.
struct Slanted {
  double s;
  double t;
};
constexpr double root = std::numbers::sqrt2 / 2;
Slanted slanted(const Point& p) {
  return {(p.x + p.y) * root, (p.y - p.x) * root};
}
Point from_slanted(double s, double t) {
  return {(s - t) * root, (s + t) * root};
}

/// Returns the places where the line `t` meets the polygon's edges, in order along the line.
std::vector<double> crossings(const Polygon& polygon, double t) {
  std::vector<double> at;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Slanted a = slanted(polygon[i]);
    const Slanted b = slanted(polygon[(i + 1) % polygon.size()]);
    if ((a.t <= t) == (b.t <= t)) continue;
    at.push_back(a.s + (b.s - a.s) * (t - a.t) / (b.t - a.t));
  }
  std::sort(at.begin(), at.end());
  return at;
}

struct Span {
  double from;
  double to;
};

std::vector<Span> gaps_along(const std::vector<Box>& boxes, double t) {
  std::vector<Span> gaps;
  for (const Box& box : boxes) {
    const std::vector<double> ends = crossings(corners(box), t);
    if (ends.size() == 2) gaps.push_back({ends[0], ends[1]});
  }
  std::sort(gaps.begin(), gaps.end(), [](const Span& a, const Span& b) { return a.from < b.from; });
  return gaps;
}

/// Returns the parts of `span` between the gaps; the gaps must be sorted.
std::vector<Span> without_gaps(Span span, const std::vector<Span>& gaps) {
  std::vector<Span> left;
  for (const Span& gap : gaps) {
    if (gap.from > span.from) left.push_back({span.from, std::min(gap.from, span.to)});
    span.from = std::max(span.from, gap.to);
    if (span.from >= span.to) return left;
  }
  left.push_back(span);
  return left;
}

} // namespace

std::vector<Polyline> hatch_lines(const Polygon& area, double spacing,
                                  const std::vector<Box>& spared) {
  std::vector<Polyline> lines;
  if (area.empty()) return lines;
  const auto [low, high] =
      std::minmax_element(area.begin(), area.end(), [](const Point& a, const Point& b) {
        return slanted(a).t < slanted(b).t;
      });
  const double first = std::ceil(slanted(*low).t / spacing);
  const double last = std::floor(slanted(*high).t / spacing);
  for (double k = first; k <= last; ++k) {
    const double t = k * spacing;
    const std::vector<Span> gaps = gaps_along(spared, t);
    const std::vector<double> ends = crossings(area, t);
    for (std::size_t i = 0; i + 1 < ends.size(); i += 2)
      for (const Span& span : without_gaps({ends[i], ends[i + 1]}, gaps))
        lines.push_back({from_slanted(span.from, t), from_slanted(span.to, t)});
  }
  return lines;
}

} // namespace shankline
