// Reads the keys of a shoe.
#pragma once

#include "cli/order_file/parse_context.hpp"
#include "geometry/order/order.hpp"

#include <span>

namespace shankline {

std::span<const Field<Shoe>> shoe_fields();

/// Reports an error for every required key that one foot's shoe lacks. Call it after the shared
/// part and the foot's own part are merged.
void require_shoe_keys(ParseContext context, const KeyPlaces& places);

} // namespace shankline
