// Feet and their sides as a sheet names them.
#pragma once

#include "geometry/board/board_outline.hpp"
#include "geometry/order/foot_side.hpp"

#include <string>

namespace shankline {

/// "L", "R": marked inside both shoes.
std::string foot_letter(FootSide side);

/// "LEFT", "RIGHT": heads a column.
std::string foot_capitals(FootSide side);

/// "big-toe side", "little-toe side".
std::string edge_words(Edge edge);

/// The edge of a foot's board that lies on the left (or right) when the board is seen from the foot
/// side, toes up.
Edge left_edge(FootSide side);
Edge right_edge(FootSide side);

} // namespace shankline
