// The keys of a shoe.
#pragma once

#include "cli/order_file/parse_context.hpp"
#include "geometry/order/order.hpp"

#include <span>

namespace shankline {

std::span<const Field<Shoe>> shoe_fields();

/// What one foot's shoe cannot go without, once both parts of the section are merged.
void require_shoe_keys(ParseContext context, const KeyPlaces& places);

} // namespace shankline
