// Is every figure one that a foot, a shoe or a wish can have? The reading guide has the limits.
#pragma once

#include "geometry/order/finding.hpp"
#include "geometry/order/order.hpp"

#include <string>

namespace shankline {

/// Errors for every figure of foot, board and wishes that is not a number or lies outside its
/// limits; a board's widths are for check_board. `foot` is "left" or "right". What comes from an
/// order file was held to the same limits when it was read; this holds for orders that a program
/// puts together.
Findings outside_limits(const FootOrder& order, const std::string& foot);

} // namespace shankline
