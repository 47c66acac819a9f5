#include "geometry/sides/depth_profile.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace shankline {

double smoothstep(double x) {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  return x * x * x * (10 + x * (-15 + 6 * x));
}

double smoothstep_slope(double x) {
  if (x <= 0 || x >= 1) return 0;
  return 30 * x * x * (1 - x) * (1 - x);
}

namespace {

/// A run from 0 to 1; its length may be 0.
double run(double t, double from, double to) {
  if (to > from) return smoothstep((t - from) / (to - from));
  return t < to ? 0 : 1;
}

double run_slope(double t, double from, double to) {
  return to > from ? smoothstep_slope((t - from) / (to - from)) / (to - from) : 0;
}

} // namespace

double DepthProfile::operator()(double t) const {
  return back + (depth - back) * run(t, rear_from, rear_to) - depth * run(t, front_from, front_to);
}

double DepthProfile::slope(double t) const {
  return (depth - back) * run_slope(t, rear_from, rear_to) -
         depth * run_slope(t, front_from, front_to);
}

std::optional<DepthProfile> fit_depth(double back, double depth, const SideRoom& room) {
  if (back == 0 && depth == 0)
    return DepthProfile{0, 0, room.heel_front, room.deepest, room.deepest, room.wing};
  // The run's length, and the distance by which its inner end must move into the deepest stretch;
  // nullopt if it is still too steep.
  const auto run_length = [&](double height, double available,
                              double shift) -> std::optional<std::pair<double, double>> {
    const double needed = steepest_smoothstep * std::abs(height) / room.slope;
    const double wished = std::max(needed, room.run_out);
    if (available >= wished) return std::pair{wished, 0.0};
    if (available >= needed) return std::pair{available, 0.0};
    if (available + shift >= needed) return std::pair{needed, needed - available};
    return {};
  };
  const double half = room.deepest_length / 2;
  const auto rear = run_length(depth - back, room.deepest - half - room.heel_front, half);
  const auto front = run_length(depth, room.wing - room.deepest - half, half);
  if (!rear || !front) return {};
  DepthProfile profile{back, depth, 0, 0, 0, 0};
  profile.rear_to = room.deepest - half + rear->second;
  profile.rear_from = profile.rear_to - rear->first;
  profile.front_from = room.deepest + half - front->second;
  profile.front_to = profile.front_from + front->first;
  return profile;
}

} // namespace shankline
