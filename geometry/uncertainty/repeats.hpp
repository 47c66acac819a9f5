// Finds readings that cannot be right: repeats that contradict each other, and a reading that is
// less certain than the estimate that would replace it.
#pragma once

#include "geometry/order/finding.hpp"
#include "geometry/order/order.hpp"
#include "geometry/order/reading.hpp"
#include "geometry/uncertainty/reading_doubt.hpp"

#include <cstddef>
#include <optional>
#include <string>

namespace shankline {

/// Level of the test of repeats: this fraction of readings without a slip is named all the same.
inline constexpr double repeats_level = 0.005;

/// P(range of `count` standard normal draws ≤ `range`): the studentized range with infinite degrees
/// of freedom, count ∫ φ(x) [Φ(x + range) − Φ(x)]^(count − 1) dx (Pearson and Hartley, Biometrika
/// Tables for Statisticians, table 29; from memory).
double range_probability(std::size_t count, double range);

/// The largest range of `count` repeats, in standard deviations of one taking, that a reading
/// without a slip passes in 995 of 1,000 cases. For two it is 3.97, for three 4.42.
double largest_range(std::size_t count);

/// Repeats that lie farther apart than the scatter of one taking allows: largest − smallest >
/// largest_range(n) · σ0, with σ0² = (tape² + h²)/3 (reading_doubt.hpp). The scatter is the one
/// expected, not that of the few repeats themselves, which says little. All values are in the
/// reading's own unit.
struct Contradiction {
  double least;                  ///< the smallest repeat
  double most;                   ///< the largest
  double allowed;                ///< largest difference that chance explains
  std::optional<double> odd_one; ///< the one farthest from the median, where three or more tell
};
std::optional<Contradiction> contradiction(const Reading& reading, double tape = tape_half_width);

/// Findings on one foot ("left") of an order: a caution for every reading whose repeats contradict
/// each other, and an error for every reading that is less certain than its own estimate.
Findings doubtful_readings(const FootOrder& foot, const Order& order, const std::string& name);

} // namespace shankline
