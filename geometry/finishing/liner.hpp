// The full-length liner: what lies on the board, to the very heel end of the shoe.
#pragma once

#include "geometry/board/board_outline.hpp"
#include "geometry/order/finding.hpp"
#include "geometry/order/order.hpp"
#include "geometry/plane/point.hpp"

#include <optional>
#include <string>

namespace shankline {

/// The shoe's seat moved inwards by the clearance. x runs from the inside of the shoe's back
/// towards the toes, y is positive towards the big-toe side; seen from above, foot side up. Lengths
/// in mm.
struct SolvedLiner {
  Polygon outline;
  double clearance = 0;
  double length = 0; ///< largest, along the centre line
  double width = 0;  ///< largest, straight across
  double area = 0;   ///< mm²
};

/// The seat: the board's outline with its heel end moved back by the inset to the inside of the
/// shoe's back, closed there by the same rounded end. `front` is where it ends, rounded, from the
/// shoe's back; ahead of the board's last known station its width there is held.
BoardOutline shoe_seat(const Board& board, const BoardOutline& outline,
                       const std::optional<double>& front);

/// `name` is "left". Errors: the clearance eats the liner; a board in the shoe whose liner has no
/// length, or no known width there.
std::optional<SolvedLiner> solve_liner(const Board& board, const BoardOutline& outline,
                                       const LinerWish& wish, const std::string& name,
                                       Findings& findings);

} // namespace shankline
