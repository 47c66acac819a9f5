// Reads the keys of the section `alterations`.
#pragma once

#include "cli/order_file/parse_context.hpp"
#include "geometry/order/order.hpp"

#include <span>

namespace shankline {

std::span<const Field<Alterations>> alteration_fields();

/// Reports a caution for every wish of one foot that has no effect. Call it after the shared part
/// and the foot's own part are merged.
void caution_of_unused(ParseContext context, const Alterations& wish, const KeyPlaces& places);

} // namespace shankline
