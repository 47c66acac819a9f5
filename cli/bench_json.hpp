// What next, match and accept found, for other programs.
#pragma once

#include "geometry/next_cut.hpp"
#include "geometry/order.hpp"
#include "geometry/solution.hpp"

#include <string>

namespace shankline {

/// "shankline-next/1". Lines as distances back from the witness line and from the heel end, mm.
std::string next_json(const Order& order, const FootSolution& foot, const Tried& tried,
                      const NextCut& next);

} // namespace shankline
