// Every sheet that an order asks for, in the order in which they are used, as one drawing.
#pragma once

#include "export/page/sheet_set.hpp"
#include "export/work_orders/shoe_since.hpp"
#include "geometry/order/finding.hpp"
#include "geometry/order/order.hpp"
#include "geometry/solution/solution.hpp"

#include <vector>

namespace shankline {

/// The break charts alone, a page a foot.
SheetSet chart_set(const Order& order, const Solution& solution,
                   const std::vector<FootChart>& charts, const SheetWish& wish);

/// The dancer's card alone, going on from the tries of the wish.
SheetSet card_set(const Order& order, const Solution& solution, const Findings& cautions,
                  const SheetWish& wish);

/// The page on breaking in and repair alone; `since` is what became of the pair since it was
/// ordered.
SheetSet care_set(const Order& order, const Solution& solution, const SheetWish& wish,
                  const PairSince& since = {});

/// `solution` has at least one foot. Cautions are the order's own and the solver's.
SheetSet sheet_set(const Order& order, const Solution& solution, const Findings& cautions,
                   const SheetWish& wish);

} // namespace shankline
