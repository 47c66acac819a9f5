// The trim line of one foot: rule, window and skew decided, every line of the board placed.
#pragma once

#include "geometry/board/board_outline.hpp"
#include "geometry/board/solved_trim.hpp"
#include "geometry/board/trim_doubt.hpp"
#include "geometry/foot/foot_stations.hpp"
#include "geometry/order/finding.hpp"
#include "geometry/order/order.hpp"

#include <optional>
#include <string>

namespace shankline {

struct TrimInput {
  const FootStations& foot;
  const Board& board;
  const BoardOutline& outline;
  const ShankWish& wish;
  std::optional<double> across; ///< mm between the break marks, if the order gives it
  const Frames& frames;
  bool growing;           ///< no line may then lie ahead of the heel front
  const TrimModel& model; ///< how sure the line is
  std::string foot_path;  ///< "feet.left"
  std::string board_path; ///< "shoe.left.board"
  std::string wish_path;  ///< "alterations.left.shank"
};

/// Length that the rules for a fraction go by, mm: a loose board's own; in the shoe the outer
/// sole's, less the inset, less how far the sole's end lies behind the shoe's inside back (1, from
/// memory).
std::optional<double> whole_length(const Board& board);

/// Adds errors and cautions; returns null if there is an error. Each error says which reading or
/// wish would have to change, and by how much.
std::optional<SolvedTrim> solve_trim(const TrimInput& input, Findings& findings);

} // namespace shankline
