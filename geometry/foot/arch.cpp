#include "geometry/foot/arch.hpp"

#include "geometry/numerics/bracketed_root.hpp"

#include <algorithm>
#include <array>
#include <boost/math/quadrature/gauss.hpp>
#include <cmath>
#include <numbers>

namespace shankline {
namespace {

using std::numbers::pi;

/// ∫ ½(1 + cos(π v/W)) dv from 0 to v, |v| ≤ W.
double raised_cosine_integral(double v, double width) {
  return (v + width / pi * std::sin(pi * v / width)) / 2;
}

/// Breaks that are tried between heel front and ball: place i of 1 to break_places − 1.
constexpr int break_places = 48;
double tried_break(double ball, double heel_front, int i) {
  return heel_front + (ball - heel_front) * i / break_places;
}

} // namespace

Arch arch_of_foot(double ball, double break_at, double heel_front, double bend) {
  // The straightedge ends at the middle of the heel pad.
  return {ball - break_at, ball - heel_front / 2, ball - break_at, break_at - heel_front, bend};
}

double peak_curvature(const Arch& arch) {
  return 2 * arch.bend / (arch.width_front + arch.width_heel);
}

double curvature(const Arch& arch, double u) {
  const double v = u - arch.to_break;
  const double width = v < 0 ? arch.width_front : arch.width_heel;
  if (std::abs(v) >= width) return 0;
  return peak_curvature(arch) * (1 + std::cos(pi * v / width)) / 2;
}

double tangent_angle(const Arch& arch, double u) {
  const double v = std::clamp(u - arch.to_break, -arch.width_front, arch.width_heel);
  const double width = v < 0 ? arch.width_front : arch.width_heel;
  return peak_curvature(arch) * (arch.width_front / 2 + raised_cosine_integral(v, width));
}

Point sole_point(const Arch& arch, double u) {
  using Rule = boost::math::quadrature::gauss<double, 20>;
  // Piece by piece, so that the rule sees smooth functions only.
  const std::array knots{0.0, std::max(0.0, arch.to_break - arch.width_front), arch.to_break,
                         arch.to_break + arch.width_heel, u};
  Point p;
  for (std::size_t i = 1; i < knots.size(); ++i) {
    const double from = std::min(knots[i - 1], u);
    const double to = std::max(from, std::min(knots[i], u));
    if (to == from) continue;
    p.x += Rule::integrate([&](double s) { return std::cos(tangent_angle(arch, s)); }, from, to);
    p.y += Rule::integrate([&](double s) { return std::sin(tangent_angle(arch, s)); }, from, to);
  }
  return p;
}

ArchDepth arch_depth(const Arch& arch) {
  const Point end = sole_point(arch, arch.to_chord_end);
  const double chord_angle = std::atan2(end.y, end.x);
  if (!(chord_angle > 0)) return {0, arch.to_break};
  // Farthest where the sole runs parallel to the straightedge.
  const double at = bracketed_root([&](double u) { return tangent_angle(arch, u) - chord_angle; },
                                   0, arch.to_chord_end)
                        .value(); // the sole turns past the chord's angle
  const Point p = sole_point(arch, at);
  return {std::abs(end.x * p.y - end.y * p.x) / std::hypot(end.x, end.y), at};
}

std::optional<double> bend_from_depth(Arch arch, double depth) {
  const auto excess = [&](double bend) {
    arch.bend = bend;
    return arch_depth(arch).depth - depth;
  };
  if (!(depth > 0) || excess(largest_bend) < 0) return {};
  return bracketed_root(excess, 0, largest_bend);
}

std::optional<BreakAndBend> break_from_deepest(double ball, double heel_front, double depth,
                                               double deepest_at) {
  const auto bend_of = [&](double break_at) {
    return bend_from_depth(arch_of_foot(ball, break_at, heel_front, 0), depth);
  };
  const auto excess_of = [&](double break_at, double bend) {
    return ball - arch_depth(arch_of_foot(ball, break_at, heel_front, bend)).at_u - deepest_at;
  };
  const auto excess = [&](double break_at) {
    return excess_of(break_at, bend_of(break_at).value_or(largest_bend));
  };
  // Towards either end no bend gives the depth: look for the sign change among those that do.
  double before = heel_front;
  std::optional<double> excess_before;
  for (int i = 1; i < break_places; ++i) {
    const double at = tried_break(ball, heel_front, i);
    const auto bend_here = bend_of(at);
    std::optional<double> excess_here;
    if (bend_here) excess_here = excess_of(at, *bend_here);
    if (excess_here && excess_before && (*excess_before <= 0) != (*excess_here <= 0)) {
      const auto break_at = bracketed_root(excess, before, at, *excess_before, *excess_here);
      const auto bend = break_at ? bend_of(*break_at) : std::nullopt;
      if (bend) return BreakAndBend{*break_at, *bend};
    }
    before = at;
    excess_before = excess_here;
  }
  return {};
}

std::optional<DeepestRange> deepest_range(double ball, double heel_front, double depth) {
  std::optional<DeepestRange> range;
  for (int i = 1; i < break_places; ++i) {
    Arch arch = arch_of_foot(ball, tried_break(ball, heel_front, i), heel_front, 0);
    const auto bend = bend_from_depth(arch, depth);
    if (!bend) continue;
    arch.bend = *bend;
    const double deepest = ball - arch_depth(arch).at_u;
    if (!range) range = DeepestRange{deepest, deepest};
    range->least = std::min(range->least, deepest);
    range->most = std::max(range->most, deepest);
  }
  return range;
}

double largest_depth(double ball, double heel_front) {
  double largest = 0;
  for (int i = 1; i < break_places; ++i) {
    const double at = tried_break(ball, heel_front, i);
    largest = std::max(largest, arch_depth(arch_of_foot(ball, at, heel_front, largest_bend)).depth);
  }
  return largest;
}

} // namespace shankline
