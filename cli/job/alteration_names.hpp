// Names of the alterations of a pair, one word for each kind of work.
#pragma once

#include "geometry/order/order.hpp"

#include <string>
#include <vector>

namespace shankline {

/// All there are: shank, sides, liner ...
std::vector<std::string> alteration_names();

/// Names of those that an order asks for on either foot: "shank, sides"; may be empty.
std::string alterations_of(const Order& order);

} // namespace shankline
