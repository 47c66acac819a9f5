// All that is known of one kind of reading: its row in the guide, what is usual, what it moves.
#pragma once

#include "geometry/order/foot_estimates.hpp"
#include "geometry/order/reading_guide.hpp"

#include <optional>
#include <string>
#include <vector>

namespace shankline {

/// Movement of the final cut for 1 mm (or degree) more, by the rule that places it.
struct ReadingMove {
  std::string rule; ///< "short", "edge", "tucked", "keep 75 %", "mark"
  double per_unit;
};

struct ReadingAccount {
  const ReadingGuide* guide = nullptr;
  std::optional<UsualRange> usual;
  bool usual_of_any_foot = false; ///< otherwise of the typical foot
  /// Movements in the typical order (geometry/reading_worth), a woman's foot; empty for a reading
  /// that does not affect the board's cut.
  std::vector<ReadingMove> moves;
  struct LeftOut {
    double U; ///< of the cut at reach edge, the reading taken once
    double U_left_out;
    std::optional<Estimated> estimate;
  };
  std::optional<LeftOut> left_out;
};

ReadingAccount reading_account(const ReadingGuide& guide);

} // namespace shankline
