// Labels to stick into the shoes of many orders, with dashed lines to cut along.
#pragma once

#include "export/page/sheet_set.hpp"
#include "export/work_orders/rack_shoe.hpp"

#include <vector>

namespace shankline {

/// A label a shoe, in the order given; `shoes` is not empty. Of the wish only paper and faces
/// matter.
SheetsInTurn label_sheets(const std::vector<RackShoe>& shoes, const SheetWish& wish);
SheetSet label_set(const std::vector<RackShoe>& shoes, const SheetWish& wish);

} // namespace shankline
