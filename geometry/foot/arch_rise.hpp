// The sole as a shallow curve: its curvature once and twice integrated, in closed form.
#pragma once

#include "geometry/foot/arch.hpp"

#include <cstddef>
#include <vector>

namespace shankline {

/// Figures of the arch at u, the distance from the ball along the sole, mm.
struct ArchRise {
  double curvature = 0; ///< κ, 1/mm
  double angle = 0;     ///< ∫ κ du from before the arch, radians
  double rise = 0; ///< ∫∫ κ du du: height above the tangent ahead of the arch, small slopes, mm
};
ArchRise arch_rise(const Arch& arch, double u);

/// Those three figures at u = from + i·step for each i below `count`. It computes no sines in
/// the loop: a rotation turns the cosine's angle from one point to the next.
struct ArchRises {
  std::vector<double> curvature, angle, rise;
};
ArchRises arch_rises(const Arch& arch, double from, double step, std::size_t count);

double curvature_slope(const Arch& arch, double u); ///< κ′, 1/mm²
double curvature_bow(const Arch& arch, double u);   ///< κ″, 1/mm³; 0 outside the arch

inline double arch_begin(const Arch& arch) {
  return arch.to_break - arch.width_front;
}
inline double arch_end(const Arch& arch) {
  return arch.to_break + arch.width_heel;
}

} // namespace shankline
