// Reads an order file into an Order. It reports all errors together and remembers the place of each
// key.
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

struct ReadOrder {
  Order order;                   ///< complete only when ok()
  std::vector<Message> messages; ///< in line order
  std::string file;
  KeyPlaces places; ///< of keys as findings name them: "feet.left.arch_break.medial"

  bool ok() const { return !has_error(messages); }

  /// Returns the finding with the place of its value, or of the nearest enclosing key.
  Message place(const Finding& finding) const;
  /// Places many findings, in line order. A finding that is the same for both feet appears once.
  std::vector<Message> place(const Findings& findings) const;
};

ReadOrder read_order(std::string_view text, std::string file_name);

/// Returns the shape of an order file for the schema. Rules that need the whole order (which keys
/// belong together) are not part of it.
ValueShape order_shape();

} // namespace shankline
