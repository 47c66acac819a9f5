// A geometrically exact elastic rod held to the foot by a stiff penalty: the same shoe as the
// contact programme's, without its small slopes and without any of its code.
#pragma once

#include "geometry/strip/contact.hpp"

#include <vector>

namespace shankline::tests {

struct RodShape {
  bool converged = false;
  double step = 0;               ///< mm between joints
  std::vector<double> u;         ///< of the joints from the clamp, along the rod
  std::vector<double> gap;       ///< distance from the foot, square to it
  std::vector<double> curvature; ///< turn at a joint over the length it stands for
  double largest_gap = 0;
};

/// `links` straight links with elastic joints, each as stiff as the strip is soft over half a link
/// on both sides. The pull draws every joint ahead of the heel front square to the foot. No
/// pre-arch.
RodShape exact_rod(const ContactProblem& problem, int links);

} // namespace shankline::tests
