// A growing foot: which feet count as such, and what its order needs before any line is given out.
#pragma once

#include "geometry/order/finding.hpp"
#include "geometry/order/order.hpp"

#include <string>

namespace shankline {

/// True if the order says so, or if the foot is shorter than `growing_below` and the order does not
/// deny it.
bool is_growing(const Order& order, const Foot& foot);

/// Returns the findings for a growing foot whose board or sides are cut: a caution to ask a
/// physiotherapist or podiatrist first, and an error unless the order names the adult who decides.
/// `name` is "left" or "right".
Findings growing_foot(const FootOrder& foot, const Order& order, const std::string& name);

} // namespace shankline
