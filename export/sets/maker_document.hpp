// One document for a maker who makes shoes for several dancers: what is ordered in all, then every
// dancer's page for the maker.
#pragma once

#include "export/page/sheet_set.hpp"
#include "geometry/solution/solution.hpp"

#include <string>
#include <vector>

namespace shankline {

struct MakerOrder {
  Order order;
  Solution solution;
  std::string digest; ///< of the order's text, short
};

/// A table of the orders with the sum of their quantities, then the orders' own pages as `cut
/// --maker` draws them, all numbered through. `orders` is not empty.
SheetSet maker_document(const std::vector<MakerOrder>& orders, const SheetWish& wish);

} // namespace shankline
