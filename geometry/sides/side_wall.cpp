#include "geometry/sides/side_wall.hpp"

#include "geometry/numerics/gauss_rule.hpp"
#include "geometry/plane/flatten.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace shankline {
namespace {

/// The end of an arc of length `along` that leaves `from` at `angle` and turns by `turn`.
Point arc_end(const Point& from, double angle, double along, double turn) {
  const double half = turn / 2;
  // Use the series if its next term is below a double's last digit.
  const double chord =
      along * (std::abs(half) < 3e-4 ? 1 - half * half / 6 : std::sin(half) / half);
  return {from.x + chord * std::cos(angle + half), from.y + chord * std::sin(angle + half)};
}

} // namespace

SideWall::SideWall(SoleEdge edge, double lean)
    : edge_(std::move(edge)), lean_(lean), sin_lean_(std::sin(lean)) {
  base_.push_back({0, 0});
  const auto& nodes = edge_.nodes();
  for (std::size_t i = 1; i < nodes.size(); ++i)
    base_.push_back(arc_end(base_.back(), sin_lean_ * nodes[i - 1].turned,
                            nodes[i].t - nodes[i - 1].t,
                            sin_lean_ * (nodes[i].turned - nodes[i - 1].turned)));
}

Point SideWall::flat(double t, double height) const {
  const auto& nodes = edge_.nodes();
  const auto above =
      std::upper_bound(nodes.begin() + 1, nodes.end() - 1, t,
                       [](double at, const SoleEdge::Node& node) { return at < node.t; });
  const auto i = static_cast<std::size_t>(above - nodes.begin()) - 1;
  const double curvature = (nodes[i + 1].turned - nodes[i].turned) / (nodes[i + 1].t - nodes[i].t);
  const double turn = sin_lean_ * curvature * (t - nodes[i].t);
  const double angle = sin_lean_ * nodes[i].turned + turn;
  const Point base = arc_end(base_[i], sin_lean_ * nodes[i].turned, t - nodes[i].t, turn);
  return {base.x - height * std::sin(angle), base.y + height * std::cos(angle)};
}

/// Cell by cell, since the curvature is constant within one: f(t, κ sin(lean)), three Gauss points.
template <class Integrand>
double SideWall::integral(const Integrand& f, double from, double to) const {
  const auto& nodes = edge_.nodes();
  double sum = 0;
  for (std::size_t i = 1; i < nodes.size(); ++i) {
    const double curvature =
        sin_lean_ * (nodes[i].turned - nodes[i - 1].turned) / (nodes[i].t - nodes[i - 1].t);
    const double a = std::max(from, nodes[i - 1].t);
    const double b = std::min(to, nodes[i].t);
    if (b <= a) continue;
    // Long straight cells: the height lines still bend inside them.
    const int parts = std::max(1, static_cast<int>(std::ceil(b - a)));
    const double width = (b - a) / parts;
    for (int part = 0; part < parts; ++part)
      for (const GaussPlace& place : gauss_of_three)
        sum += place.weight * width / 2 * f(a + width * (part + (1 + place.at) / 2), curvature);
  }
  return sum;
}

double SideWall::length(const HeightLine& line, double from, double to) const {
  return integral(
      [&](double t, double curvature) {
        const double along = 1 - line.height(t) * curvature;
        const double up = line.slope(t);
        return std::sqrt(along * along + up * up);
      },
      from, to);
}

double SideWall::area(const HeightLine& upper, const HeightLine& lower, double from,
                      double to) const {
  return integral(
      [&](double t, double curvature) {
        const double high = upper.height(t);
        const double low = lower.height(t);
        return (high - low) * (1 - (high + low) * curvature / 2);
      },
      from, to);
}

Polyline SideWall::flat_line(const HeightLine& line, double from, double to,
                             double chord_error) const {
  // Take steps of a few millimetres: each is a smooth piece, whatever the line does in between.
  constexpr double step = 4;
  const int parts = std::max(1, static_cast<int>(std::ceil((to - from) / step)));
  const auto at = [&](double t) { return flat(t, line.height(t)); };
  Polyline points;
  for (int i = 0; i < parts; ++i)
    join(points, flatten(at, from + (to - from) * i / parts, from + (to - from) * (i + 1) / parts,
                         chord_error));
  return points;
}

std::optional<double> lean_from_widths(double across_sole, double across_top, double height) {
  const double sine = (across_sole - across_top) / (2 * height);
  if (!(height > 0) || !(std::abs(sine) <= 1)) return {};
  return std::asin(sine);
}

} // namespace shankline
