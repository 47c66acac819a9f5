// The worth of a reading: how far it moves the cut, and how certain the cut is with and without it.
#pragma once

#include "geometry/board/trim_line.hpp"
#include "geometry/order/order.hpp"
#include "geometry/solution/solution.hpp"

#include <optional>
#include <string_view>

namespace shankline {

/// Figures of the cut through the solver itself, for one foot.
struct ReadingWorth {
  double per_unit = 0; ///< mm of the final cut for each mm (or degree) that the reading is larger
  double U = 0;        ///< of the cut with the reading, mm at 95 %
  /// If the order can be solved without the reading: U of the cut, mm at 95 %, and the estimate
  /// that replaces the reading.
  std::optional<double> U_left_out;
  std::optional<Estimated> estimate;
};

/// A foot of 238 in a shoe with its own board, every reading of the board's cut taken once, as in
/// the examples (common practice, no source). Both feet alike.
Order typical_order(Pose pose, const TrimRule& rule = rule_of(edge_reach));

/// Adds the typical foot's values for all that the cut of this foot still lacks; stations of the
/// foot are in proportion to its length.
Order completed_order(Order begun, FootSide side);

/// Returns nullopt if the reading does not affect the cut, or the order cannot be solved. A reading
/// that the order lacks is taken from the typical foot.
std::optional<ReadingWorth> reading_worth(const Order& order, FootSide side, std::string_view key);

} // namespace shankline
