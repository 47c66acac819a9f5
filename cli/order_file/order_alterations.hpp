// The keys of what is to be done to a shoe.
#pragma once

#include "cli/order_file/parse_context.hpp"
#include "geometry/order/order.hpp"

#include <span>

namespace shankline {

std::span<const Field<Alterations>> alteration_fields();

/// What one foot's wishes say and nothing comes of, once both parts of the section are merged.
void caution_of_unused(ParseContext context, const Alterations& wish, const KeyPlaces& places);

} // namespace shankline
