// Both feet's contact figures, and what is to be said about them.
#pragma once

#include "geometry/breaking/contact_doubt.hpp"
#include "geometry/breaking/foot_contact.hpp"
#include "geometry/order/finding.hpp"
#include "geometry/order/order.hpp"
#include "geometry/solution/solution.hpp"

#include <optional>

namespace shankline {

struct PairContact {
  std::optional<FootContact> left;
  std::optional<FootContact> right;
  Findings cautions; ///< about the cut; errors where readings contradict each other
  Findings reasons;  ///< why a foot has no figures: a reading that was not taken
  std::optional<ContactDoubt> left_doubt; ///< where add_doubt was asked for it
  std::optional<ContactDoubt> right_doubt;
};

PairContact pair_contact(const Order& order, const Solution& solution);

/// Adds the uncertainty of the figures. It takes some thirty solves for each foot, so call it only
/// if somebody reads the result.
void add_doubt(PairContact& pair, const Order& order, const Solution& solution);

} // namespace shankline
