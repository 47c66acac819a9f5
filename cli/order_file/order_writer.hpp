// Writes an order file from plain structs, with a comment beside each figure that says what it is.
#pragma once

#include "geometry/order/order.hpp"

#include <string>
#include <vector>

namespace shankline {

struct OrderRemarks {
  std::vector<std::string> head; ///< comment lines at the top of the file
  std::vector<std::string> foot; ///< and at its end
};

/// Returns an order file that reads back as the same order. Values that have their default are left
/// out, values that both feet share are written once, and figures have six decimals (mm).
std::string order_file_text(const Order& order, const OrderRemarks& remarks = {});

} // namespace shankline
