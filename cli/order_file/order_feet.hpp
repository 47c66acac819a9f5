// Reads the keys of a foot.
#pragma once

#include "cli/order_file/parse_context.hpp"
#include "geometry/order/order.hpp"

#include <span>

namespace shankline {

std::span<const Field<Foot>> foot_fields();

} // namespace shankline
