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

} // namespace shankline
