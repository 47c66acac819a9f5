// The depth of a cut-down along a side: a deepest stretch with a run-out at either end.
#pragma once

#include <optional>

namespace shankline {

/// Depth of the cut-down over the arc length t from the back seam: `back` from the seam, then a run
/// to `depth`, and a run out to 0, each by a quintic smoothstep (continuous curvature; steepest
/// 1.875 · difference/run-out). Flat at the seam, so the back has no corner. Millimetres.
struct DepthProfile {
  double back = 0;
  double depth = 0;
  double rear_from = 0; ///< the run from back to depth
  double rear_to = 0;
  double front_from = 0; ///< the run from depth to 0
  double front_to = 0;

  double operator()(double t) const;
  double slope(double t) const;
};

/// 10x³ − 15x⁴ + 6x⁵ on [0, 1], constant beyond.
double smoothstep(double x);
double smoothstep_slope(double x);
inline constexpr double steepest_smoothstep = 1.875;

/// Bounds of a cut-down, as arc lengths on one side, mm.
struct SideRoom {
  double heel_front; ///< the rear run begins there at the earliest
  double deepest;    ///< middle of the deepest stretch
  double wing;       ///< the front run ends there at the latest
  double deepest_length;
  double run_out; ///< as wished; never shorter than the slope needs, never beyond the room
  double slope;   ///< steepest run-out, height per length
};

/// Fits the run-outs into the room, shortening the deepest stretch if that is needed; nullopt if
/// even then one of them is too steep.
std::optional<DepthProfile> fit_depth(double back, double depth, const SideRoom& room);

} // namespace shankline
