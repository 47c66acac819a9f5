// Reads an order file into the order: all that is wrong with it together, and where each key
// stands.
#pragma once

#include "cli/order_file/key_places.hpp"
#include "cli/order_file/value_shape.hpp"
#include "cli/text/message.hpp"
#include "geometry/order/finding.hpp"
#include "geometry/order/order.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace shankline {

inline constexpr std::string_view order_format = "shankline-order/1";

struct ReadOrder {
  Order order;                   ///< complete only when ok()
  std::vector<Message> messages; ///< in line order
  std::string file;
  KeyPlaces places; ///< of keys as findings name them: "feet.left.arch_break.medial"

  bool ok() const { return !has_error(messages); }

  /// A finding at the place of the value that it speaks of, or of the nearest enclosing key.
  Message place(const Finding& finding) const;
  /// The same for many, in line order; what holds for both feet is said once.
  std::vector<Message> place(const Findings& findings) const;
};

ReadOrder read_order(std::string_view text, std::string file_name);

/// What an order file may look like, without what only the whole order can tell.
ValueShape order_shape();

} // namespace shankline
