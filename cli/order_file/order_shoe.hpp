// The keys of a shoe.
#pragma once

#include "cli/order_file/order_scribe.hpp"
#include "geometry/order/order.hpp"

#include <span>

namespace shankline {

std::span<const Field<Shoe>> shoe_fields();

/// What one foot's shoe cannot go without, once both parts of the section are merged.
void require_shoe_keys(Scribe scribe, const KeyPlaces& places);

} // namespace shankline
