// Writes an order file from plain structs: every figure beside what it is, in words.
#pragma once

#include "geometry/order/order.hpp"

#include <string>
#include <vector>

namespace shankline {

struct OrderRemarks {
  std::vector<std::string> head; ///< comment lines at the top of the file
  std::vector<std::string> foot; ///< and at its end
};

/// A file in the format of cli/order_reader that reads back as the same order; nothing that has its
/// default is written. Figures are written to a millionth of a millimetre. What holds for both feet
/// is written once.
std::string order_file_text(const Order& order, const OrderRemarks& remarks = {});

} // namespace shankline
