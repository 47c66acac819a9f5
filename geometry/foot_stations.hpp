// The foot's stations in one frame: pose undone, what is missing estimated, order checked.
#pragma once

#include "geometry/finding.hpp"
#include "geometry/order.hpp"
#include "geometry/solution.hpp"

#include <optional>
#include <string>
#include <vector>

namespace shankline {

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
