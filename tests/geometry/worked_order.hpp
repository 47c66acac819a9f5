// One foot of the touring company's shoe bench, worked through by hand.
#pragma once

#include "geometry/order/order.hpp"

namespace shankline::tests {

/// Foot M-07, left: length 238, ball 172, heel front 61, break 97 on the big-toe side and 93 on the
/// little-toe side, depth 12.5, fold 6; a loose board of 220, inset 5, reach `edge`.
///
/// Worked by hand: board station = foot station + 6 − 5, so the heel front and the cut lie at 62,
/// the break at 96, the stop line at 95 − 18 + 1 = 78.
Order worked_order();

} // namespace shankline::tests
