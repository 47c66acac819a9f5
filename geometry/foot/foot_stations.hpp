// The foot's stations in one frame: pose undone, what is missing estimated, order checked.
#pragma once

#include "geometry/foot/arch.hpp"
#include "geometry/order/finding.hpp"
#include "geometry/order/foot_estimates.hpp"
#include "geometry/order/order.hpp"
#include "geometry/order/station.hpp"

#include <optional>
#include <string>
#include <vector>

namespace shankline {

struct SolvedArch {
  FootStation ball;
  FootStation heel_front;
  FootStation break_at; ///< mean of medial and lateral
  std::optional<FootStation> break_medial;
  std::optional<FootStation> break_lateral;
  /// Bend, depth and deepest point are there when the order gives any of them.
  std::optional<Arch> arch;
  std::optional<double> depth;
  std::optional<FootStation> deepest;
};

/// The distance by which the order's stations lie ahead of the foot's; `fold` in mm.
PoseShift pose_shift(Pose pose, double fold);
/// The frames of a foot whose board's heel end lies `inset` mm ahead of the sole's. In the shoe the
/// board's stations differ from the order's by the inset alone.
Frames frames_of(Pose pose, double fold, double inset);
/// The break of a foot that has one on each edge.
FootStation mean_break(FootStation medial, FootStation lateral);

struct FootStations {
  SolvedArch arch;
  double fold = 0; ///< mm
  PoseShift pose;
  std::vector<Estimated> estimated;
};

/// Adds errors and cautions below `path` ("feet.left"); returns nullopt if there is an error. Of
/// fold and heel front it cautions outside usual_range().
std::optional<FootStations> foot_stations(const Foot& foot, Pose pose, Population population,
                                          const std::string& path, Findings& findings);

} // namespace shankline
