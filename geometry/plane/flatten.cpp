#include "geometry/plane/flatten.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace shankline {
namespace {

constexpr int deepest_halving = 24;
// The deviation is looked up at a few places only, so a little is held back.
constexpr double safety = 0.92;
constexpr std::array beside_middle{0.3, 0.7};

/// Lengths of shoes: far from where a square over- or underflows.
double distance(const Point& a, const Point& b) {
  const double x = b.x - a.x;
  const double y = b.y - a.y;
  return std::sqrt(x * x + y * y);
}

double distance_to_chord(const Point& p, const Point& a, const Point& b) {
  const double length = distance(a, b);
  if (length == 0) return distance(a, p);
  return std::abs((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) / length;
}

void halve(const std::function<Point(double)>& curve, double t0, const Point& p0, double t1,
           const Point& p1, double chord_error, int depth, Polyline& out) {
  const double middle = (t0 + t1) / 2;
  const Point p = curve(middle);
  const auto near = [&](const Point& at) {
    return distance_to_chord(at, p0, p1) <= safety * chord_error;
  };
  // The middle is asked first: where it is too far already, the other places need no computing.
  const bool close = near(p) && std::ranges::all_of(beside_middle, [&](double place) {
                       return near(curve(t0 + place * (t1 - t0)));
                     });
  if (close || depth == deepest_halving) {
    out.push_back(p1);
    return;
  }
  halve(curve, t0, p0, middle, p, chord_error, depth + 1, out);
  halve(curve, middle, p, t1, p1, chord_error, depth + 1, out);
}

} // namespace

Polyline flatten(const std::function<Point(double)>& curve, double from, double to,
                 double chord_error) {
  const Point first = curve(from);
  Polyline line{first};
  halve(curve, from, first, to, curve(to), chord_error, 0, line);
  return line;
}

Polyline flatten_arc(const Point& centre, const Point& begin, const Point& end,
                     double chord_error) {
  const double radius = std::hypot(begin.x - centre.x, begin.y - centre.y);
  const double from = std::atan2(begin.y - centre.y, begin.x - centre.x);
  const double turn =
      std::remainder(std::atan2(end.y - centre.y, end.x - centre.x) - from, 2 * std::numbers::pi);
  // Sagitta r (1 − cos(step/2)) ≤ error.
  const double step = 2 * std::acos(std::max(0.0, 1 - chord_error / radius));
  const int steps = std::max(1, static_cast<int>(std::ceil(std::abs(turn) / step)));
  Polyline line{begin};
  for (int i = 1; i < steps; ++i) {
    const double angle = from + turn * i / steps;
    line.push_back({centre.x + radius * std::cos(angle), centre.y + radius * std::sin(angle)});
  }
  line.push_back(end);
  return line;
}

void join(Polyline& line, const Polyline& more) {
  const bool shared = !line.empty() && !more.empty() && line.back() == more.front();
  line.insert(line.end(), more.begin() + (shared ? 1 : 0), more.end());
}

} // namespace shankline
