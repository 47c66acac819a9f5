// Many orders on one bench: a line a shoe with boxes to tick.
#pragma once

#include "export/page/sheet_set.hpp"
#include "export/work_orders/rack_shoe.hpp"

#include <vector>

namespace shankline {

/// The shoes in the order given; `shoes` is not empty. The paper is turned. Of the wish only paper
/// and faces matter.
SheetsInTurn rack_sheets(const std::vector<RackShoe>& shoes, const SheetWish& wish);
SheetSet rack_set(const std::vector<RackShoe>& shoes, const SheetWish& wish);

} // namespace shankline
