#include "geometry/foot/arch_rise.hpp"

#include <cmath>
#include <numbers>

namespace shankline {
namespace {

using std::numbers::pi;

/// Everything about v = u − to_break that stays the same along one half of the arch.
struct Half {
  double k, wf, r, rise_at_break;
  Half(const Arch& arch, bool ahead)
      : k(peak_curvature(arch)), wf(arch.width_front), r((ahead ? wf : arch.width_heel) / pi),
        rise_at_break(k * wf * wf * (0.25 - 1 / (pi * pi))) {}
  /// c and s are cosine and sine of v/r.
  ArchRise at(double v, double c, double s) const {
    return {k * (1 + c) / 2, k * (wf + v + r * s) / 2,
            rise_at_break + k * (wf * v / 2 + v * v / 4 + r * r * (1 - c) / 2)};
  }
};

} // namespace

ArchRise arch_rise(const Arch& arch, double u) {
  const double v = u - arch.to_break;
  if (v <= -arch.width_front) return {};
  const double wh = arch.width_heel;
  if (v >= wh) {
    const ArchRise end = Half(arch, false).at(wh, -1, 0);
    return {0, arch.bend, end.rise + arch.bend * (v - wh)};
  }
  const Half half(arch, v < 0);
  return half.at(v, std::cos(v / half.r), std::sin(v / half.r));
}

ArchRises arch_rises(const Arch& arch, double from, double step, std::size_t count) {
  ArchRises rises;
  rises.curvature.resize(count);
  rises.angle.resize(count);
  rises.rise.resize(count);
  const auto put = [&](std::size_t i, const ArchRise& a) {
    rises.curvature[i] = a.curvature;
    rises.angle[i] = a.angle;
    rises.rise[i] = a.rise;
  };
  const auto place = [&](std::size_t i) {
    return from + step * static_cast<double>(i) - arch.to_break;
  };
  std::size_t i = 0;
  for (; i < count && place(i) <= -arch.width_front; ++i)
    put(i, {});
  for (const bool ahead : {true, false}) {
    if (i == count) break;
    const Half half(arch, ahead);
    const double end = ahead ? 0 : arch.width_heel;
    double c = std::cos(place(i) / half.r);
    double s = std::sin(place(i) / half.r);
    const double turn_c = std::cos(step / half.r);
    const double turn_s = std::sin(step / half.r);
    for (; i < count && place(i) < end; ++i) {
      put(i, half.at(place(i), c, s));
      const double next = c * turn_c - s * turn_s;
      s = s * turn_c + c * turn_s;
      c = next;
    }
  }
  if (i < count) {
    const ArchRise end = arch_rise(arch, arch_end(arch));
    for (; i < count; ++i)
      put(i, {0, arch.bend, end.rise + arch.bend * (place(i) - arch.width_heel)});
  }
  return rises;
}

double curvature_slope(const Arch& arch, double u) {
  const double v = u - arch.to_break;
  const double w = v < 0 ? arch.width_front : arch.width_heel;
  if (std::abs(v) >= w) return 0;
  return -peak_curvature(arch) / 2 * pi / w * std::sin(pi * v / w);
}

double curvature_bow(const Arch& arch, double u) {
  const double v = u - arch.to_break;
  const double w = v < 0 ? arch.width_front : arch.width_heel;
  if (std::abs(v) >= w) return 0;
  return -peak_curvature(arch) / 2 * pi * pi / (w * w) * std::cos(pi * v / w);
}

} // namespace shankline
