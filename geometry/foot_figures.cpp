#include "geometry/foot_figures.hpp"

#include "geometry/foot_stations.hpp"

#include <utility>

namespace shankline {

std::string foot_name(FootSide side) {
  return side == FootSide::left ? "left" : "right";
}

TrimModel trim_model(const SolvedFoot& foot) {
  Findings findings; // the foot was solved: nothing new is found
  const std::string name = foot_name(foot.solution.side);
  const auto stations = foot_stations(foot.foot.foot, foot.order.pose, foot.order.estimates_from,
                                      "feet." + name, findings);
  return {foot.foot, foot.order.pose, foot.order.estimates_from, stations.value(), name};
}

std::vector<FigureGroup> foot_figures(const SolvedFoot& foot) {
  std::vector<FigureGroup> groups;
  groups.push_back(knife_figures(foot));
  groups.push_back(side_figures(foot));
  groups.push_back(reading_figures(foot));
  groups.push_back(estimate_figures(foot));
  return groups;
}

} // namespace shankline
