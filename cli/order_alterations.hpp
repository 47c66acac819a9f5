// The keys of what is to be done to a shoe.
#pragma once

#include "cli/order_scribe.hpp"
#include "geometry/order.hpp"

namespace shankline {

std::span<const Field<Alterations>> alteration_fields();

} // namespace shankline
