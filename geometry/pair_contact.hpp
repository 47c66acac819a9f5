// Both feet's contact figures, and what is to be said about them.
#pragma once

#include "geometry/finding.hpp"
#include "geometry/foot_contact.hpp"
#include "geometry/order.hpp"
#include "geometry/solution.hpp"

#include <optional>

namespace shankline {

struct PairContact {
  std::optional<FootContact> left;
  std::optional<FootContact> right;
  Findings cautions; ///< about the cut; errors where readings contradict each other
  Findings reasons;  ///< why a foot has no figures: a reading that was not taken
};

PairContact pair_contact(const Order& order, const Solution& solution);

} // namespace shankline
