#include "cli/job/order_list.hpp"

#include "cli/text/natural_order.hpp"
#include "export/formats/system_reason.hpp"
#include "export/formats/whole_file.hpp"

#include <algorithm>
#include <filesystem>
#include <system_error>

namespace shankline {
namespace {

namespace fs = std::filesystem;

bool is_order_name(const fs::path& path) {
  const fs::path ending = path.extension();
  return (ending == ".yaml" || ending == ".yml" || ending == ".json") &&
         path.filename().string().front() != '.';
}

void add_folder(const std::string& folder, OrderList& list) {
  std::error_code error;
  std::vector<std::string> found;
  for (fs::directory_iterator entry(folder, error), end; !error && entry != end;
       entry.increment(error)) {
    std::error_code unknown;
    if (is_order_name(entry->path()) && !entry->is_directory(unknown))
      found.push_back(entry->path().string());
  }
  if (is_out_of_handles(error.value()))
    throw file_fault(folder, "this folder cannot be read", error.value());
  if (error || found.empty()) {
    Message fault;
    fault.file = folder;
    fault.what = error ? "this folder cannot be read: " + error.message()
                       : "there is no order in this folder";
    fault.allowed = error ? "" : "files whose names end in .yaml, .yml or .json";
    fault.advice = error ? "ask its owner, or copy it to a folder of yours"
                         : "name another folder, or the order files themselves";
    list.faults.push_back(std::move(fault));
    return;
  }
  std::sort(found.begin(), found.end(), naturally_before);
  list.files.insert(list.files.end(), found.begin(), found.end());
}

} // namespace

OrderList list_orders(const std::vector<std::string>& named) {
  OrderList list;
  for (const std::string& name : named) {
    std::error_code error;
    if (name == "-" || !fs::is_directory(name, error)) {
      list.files.push_back(name);
      continue;
    }
    list.whole_folder = true;
    add_folder(name, list);
  }
  return list;
}

OrderList list_orders(const Request& request) {
  if (request.order_texts.empty()) return list_orders(request.orders);
  return {request.orders, {}, false};
}

} // namespace shankline
