// Can a board be as it was measured?
#pragma once

#include "geometry/order/finding.hpp"
#include "geometry/order/order.hpp"

#include <string>

namespace shankline {

/// Errors by key below `path` ("shoe.left.board"): a moulded board, a missing length or inset, an
/// edge thicker than the board, stations out of order or outside the board, widths wider than the
/// board is long, an outline that crosses itself. Without an error a BoardOutline can be made. A
/// caution for an inset outside 2 to 10 mm (common practice, from memory).
Findings check_board(const Board& board, const std::string& path);

/// How much farther than the foot's length a board, or the outer sole over one in the shoe, may
/// reach from the shoe's inside back, mm: common practice, no source. Boards end some 10 short of
/// the longest toe; on pointe the fold makes room for some 6 more.
inline constexpr double board_past_foot = 10;

/// A caution for a board (in the shoe: an outer sole) that is longer than a foot of length
/// `foot_length`, mm, can need. `board` is one that check_board found no error in.
Findings board_against_foot(const Board& board, double foot_length, const std::string& path);

} // namespace shankline
