// Finds out whether left and right were exchanged between two orders of one dancer.
//
// Growth, another reader's habit and another scale change the readings of both feet alike. So only
// d = left - right is compared. The two feet of one dancer differ by N(0, s²) with
// s = 3 mm (from memory). If v is the variance of one reading, d_now and d_then have the covariance
// s² with the same feet and -s² with exchanged ones, and the likelihood of the exchange over that
// of none is
//   exp(-d_now d_then s² / (2v (v + s²))).
// The readings of all kinds multiply. v holds what is fresh at each taking, and 1 mm² for what a
// foot changes from day to day (from memory). The tests count false alarms and misses.
#pragma once

#include "geometry/order/order.hpp"

#include <optional>
#include <string>

namespace shankline {

/// How many times as likely as none an exchange has to be before it is told.
inline constexpr double exchange_told_from = 20;

/// The reading that speaks most for an exchange, mm.
struct ExchangedFeet {
  std::string name; ///< "heel front"
  double left_then = 0;
  double right_then = 0;
  double left_now = 0;
  double right_now = 0;
};

/// Nullopt unless exchanged feet are `exchange_told_from` times as likely as the same feet.
/// Compares what both orders measured of both feet in the same pose, but for the fold, which is the
/// shoe's.
std::optional<ExchangedFeet> exchanged_feet(const Order& now, const Order& then);

} // namespace shankline
