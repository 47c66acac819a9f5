#include "tests/geometry/arch_by_quadrature.hpp"

#include <cmath>
#include <numbers>

namespace shankline::tests {

double BruteArch::curvature(double u) const {
  const double width = u < to_break ? width_front : width_heel;
  if (std::abs(u - to_break) >= width) return 0;
  return bend * (1 + std::cos(std::numbers::pi * (u - to_break) / width)) /
         (width_front + width_heel);
}

BruteArch brute_arch(double ball, double break_at, double heel_front, double bend) {
  return {ball - break_at, ball - heel_front / 2, ball - break_at, break_at - heel_front, bend};
}

BruteSole trace(const BruteArch& arch, double to, int steps) {
  const double h = to / steps;
  BruteSole sole{{0}, {0}, {{0, 0}}};
  double angle = 0;
  Point place;
  for (int i = 0; i < steps; ++i) {
    const double u = i * h;
    // Curvature depends on u alone, so the rule is Simpson's, with the angle at half steps.
    const double k0 = arch.curvature(u);
    const double k1 = arch.curvature(u + h / 2);
    const double k2 = arch.curvature(u + h);
    const double middle = angle + h / 24 * (5 * k0 + 8 * k1 - k2);
    const double end = angle + h / 6 * (k0 + 4 * k1 + k2);
    place.x += h / 6 * (std::cos(angle) + 4 * std::cos(middle) + std::cos(end));
    place.y += h / 6 * (std::sin(angle) + 4 * std::sin(middle) + std::sin(end));
    angle = end;
    sole.u.push_back(u + h);
    sole.angle.push_back(angle);
    sole.place.push_back(place);
  }
  return sole;
}

BruteDepth brute_depth(const BruteArch& arch, int steps) {
  const BruteSole sole = trace(arch, arch.to_chord_end, steps);
  const Point end = sole.place.back();
  const double chord = std::hypot(end.x, end.y);
  const auto gap = [&](std::size_t i) {
    return std::abs(sole.place[i].x * end.y - sole.place[i].y * end.x) / chord;
  };
  std::size_t best = 1;
  for (std::size_t i = 1; i + 1 < sole.u.size(); ++i)
    if (gap(i) > gap(best)) best = i;
  // A parabola through the three largest.
  const double before = gap(best - 1);
  const double here = gap(best);
  const double after = gap(best + 1);
  const double bow = before - 2 * here + after;
  const double shift = bow < 0 ? 0.5 * (before - after) / bow : 0.0;
  return {here - 0.25 * (before - after) * shift, sole.u[best] + shift * sole.u[1]};
}

double brute_bend(BruteArch arch, double depth, int steps) {
  double low = 0;
  double high = std::numbers::pi / 2;
  for (int i = 0; i < 50; ++i) {
    arch.bend = 0.5 * (low + high);
    (brute_depth(arch, steps).depth < depth ? low : high) = arch.bend;
  }
  return arch.bend;
}

} // namespace shankline::tests
