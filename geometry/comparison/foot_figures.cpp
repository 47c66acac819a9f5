#include "geometry/comparison/foot_figures.hpp"

namespace shankline {

TrimModel trim_model(const SolvedFoot& foot) {
  return trim_model(foot.foot, foot.order, foot.solution.side);
}

std::vector<FigureGroup> foot_figures(const SolvedFoot& foot) {
  std::vector<FigureGroup> groups;
  groups.push_back(knife_figures(foot));
  groups.push_back(side_figures(foot));
  groups.push_back(finish_figures(foot));
  groups.push_back(reading_figures(foot));
  groups.push_back(estimate_figures(foot));
  return groups;
}

} // namespace shankline
