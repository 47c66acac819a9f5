// The orders of a batch: files as named, and folders as the files in them.
#pragma once

#include "cli/job/request.hpp"
#include "cli/text/message.hpp"

#include <string>
#include <vector>

namespace shankline {

struct OrderList {
  std::vector<std::string> files;
  std::vector<Message> faults; ///< folders without an order, or that may not be read
  bool whole_folder = false;   ///< a folder was named: results are a batch's, even of one order
};

/// A folder stands for its *.yaml, *.yml and *.json, by name as people count; not those in folders
/// of its own, nor hidden ones.
OrderList list_orders(const std::vector<std::string>& named);

/// The orders of a request. Orders whose texts are here already are no files: their names are taken
/// as they are.
OrderList list_orders(const Request& request);

} // namespace shankline
