// The foot's stations in one frame: pose undone, what is missing estimated, order checked.
#pragma once

#include "geometry/arch.hpp"
#include "geometry/finding.hpp"
#include "geometry/foot_estimates.hpp"
#include "geometry/order.hpp"

#include <optional>
#include <string>
#include <vector>

namespace shankline {

/// Stations in the foot frame (from the back of the heel), whatever the order's pose.
struct SolvedArch {
  double ball;
  double heel_front;
  double break_at; ///< mean of medial and lateral
  std::optional<double> break_medial;
  std::optional<double> break_lateral;
  /// Bend, depth and deepest point are there when the order gives any of them.
  std::optional<Arch> arch;
  std::optional<double> depth;
  std::optional<double> deepest; ///< station
};

struct FootStations {
  SolvedArch arch;
  double fold = 0;
  double pose_shift = 0; ///< station in the order's pose = foot station + pose_shift
  std::vector<Estimated> estimated;
};

/// Adds errors and cautions below `path` ("feet.left"); nothing if there is an error.
std::optional<FootStations> foot_stations(const Foot& foot, Pose pose, Population population,
                                          const std::string& path, Findings& findings);

} // namespace shankline
