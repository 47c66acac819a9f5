#include "tests/geometry/wall_by_quadrature.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace shankline::tests {
namespace {

/// Index of the step that holds `value`, and how far along it, in [0, 1].
struct Step {
  std::size_t index;
  double part;
};

template <typename Key> Step step_of(std::size_t count, double value, Key&& key) {
  std::size_t low = 0;
  std::size_t high = count - 1;
  while (high - low > 1) {
    const std::size_t middle = (low + high) / 2;
    (key(middle) <= value ? low : high) = middle;
  }
  return {low, std::clamp((value - key(low)) / (key(high) - key(low)), 0.0, 1.0)};
}

double mix(double a, double b, double part) {
  return a + (b - a) * part;
}

Step step_along(const BruteEdge& edge, double along) {
  return step_of(edge.t.size(), along, [&](std::size_t i) { return edge.t[i]; });
}

Step step_at(const BruteEdge& edge, double station) {
  return step_of(edge.t.size(), station, [&](std::size_t i) { return edge.at[i].x; });
}

/// The places between two lengths: both ends and every sample in between.
std::vector<double> samples(const BruteEdge& edge, double from, double to) {
  std::vector<double> places{from};
  for (const double t : edge.t)
    if (t > from && t < to) places.push_back(t);
  places.push_back(to);
  return places;
}

} // namespace

double BruteEdge::along_at(double station) const {
  const Step step = step_at(*this, station);
  return mix(t[step.index], t[step.index + 1], step.part);
}

double BruteEdge::out_at(double station) const {
  const Step step = step_at(*this, station);
  return mix(at[step.index].y, at[step.index + 1].y, step.part);
}

Point BruteEdge::place(double along) const {
  const Step step = step_along(*this, along);
  const Point& a = at[step.index];
  const Point& b = at[step.index + 1];
  return {mix(a.x, b.x, step.part), mix(a.y, b.y, step.part)};
}

Point BruteEdge::normal(double along) const {
  const Step step = step_along(*this, along);
  const Point& a = inward[step.index];
  const Point& b = inward[step.index + 1];
  const Point n{mix(a.x, b.x, step.part), mix(a.y, b.y, step.part)};
  const double size = std::hypot(n.x, n.y);
  return {n.x / size, n.y / size};
}

double BruteEdge::turned(double along) const {
  const Point n = normal(along); // (1, 0) at the seam, (0, −1) where the edge runs along the axis
  return std::atan2(-n.y, n.x);
}

BruteEdge brute_edge(const BoardOutline& outline, Edge edge, double to, double margin, int steps,
                     const std::vector<double>& joints) {
  // Near the heel end the half-width grows as the station to the power of 0.4: with the station as
  // a parameter to the power of 2.5 it starts out evenly, and goes on evenly on the other edge.
  const auto board = [&](double q) {
    const double station = to * std::pow(std::abs(q), 2.5);
    return Point{station, std::copysign(outline.half_width(edge, station), q)};
  };
  constexpr double delta = 1e-6;
  std::vector<double> parameters;
  for (int i = 0; i <= steps; ++i)
    parameters.push_back(static_cast<double>(i) / steps);
  for (const double joint : joints)
    if (joint < to) parameters.push_back(std::pow(joint / to, 0.4));
  std::sort(parameters.begin(), parameters.end());
  BruteEdge brute;
  for (const double q : parameters) {
    const Point p = board(q);
    const Point ahead = board(std::min(1.0, q + delta));
    const Point behind = board(q - delta);
    const double dx = q == 0 ? 0 : ahead.x - behind.x;
    const double dy = ahead.y - behind.y;
    const double size = std::hypot(dx, dy);
    const Point inward{dy / size, -dx / size};
    const Point moved{p.x - margin * inward.x, p.y - margin * inward.y};
    if (!brute.at.empty() && moved == brute.at.back()) continue;
    const double chord =
        q == 0 ? 0.0 : std::hypot(moved.x - brute.at.back().x, moved.y - brute.at.back().y);
    brute.t.push_back(q == 0 ? 0.0 : brute.t.back() + chord);
    brute.at.push_back(moved);
    brute.inward.push_back(inward);
  }
  return brute;
}

double distance_in_space(const Place& a, const Place& b) {
  return std::hypot(a.x - b.x, a.y - b.y, a.z - b.z);
}

double triangle_area(const Place& a, const Place& b, const Place& c) {
  const Place u{b.x - a.x, b.y - a.y, b.z - a.z};
  const Place v{c.x - a.x, c.y - a.y, c.z - a.z};
  return 0.5 * std::hypot(u.y * v.z - u.z * v.y, u.z * v.x - u.x * v.z, u.x * v.y - u.y * v.x);
}

Place on_wall(const BruteEdge& edge, double lean, double along, double height) {
  const Point p = edge.place(along);
  const Point n = edge.normal(along);
  const double inwards = height * std::sin(lean);
  return {p.x + inwards * n.x, p.y + inwards * n.y, height * std::cos(lean)};
}

double brute_length(const BruteEdge& edge, double lean, const HeightAlong& height, double from,
                    double to) {
  double sum = 0;
  Place before = on_wall(edge, lean, from, height(from));
  for (const double t : samples(edge, from, to)) {
    const Place here = on_wall(edge, lean, t, height(t));
    sum += distance_in_space(before, here);
    before = here;
  }
  return sum;
}

double brute_area(const BruteEdge& edge, double lean, const HeightAlong& upper,
                  const HeightAlong& lower, double from, double to) {
  double sum = 0;
  Place high_before = on_wall(edge, lean, from, upper(from));
  Place low_before = on_wall(edge, lean, from, lower(from));
  for (const double t : samples(edge, from, to)) {
    const Place high = on_wall(edge, lean, t, upper(t));
    const Place low = on_wall(edge, lean, t, lower(t));
    sum += triangle_area(low_before, low, high) + triangle_area(low_before, high, high_before);
    high_before = high;
    low_before = low;
  }
  return sum;
}

} // namespace shankline::tests
