// The templates of an order as files of their own, one a part and format, for a plotter or a laser.
#pragma once

#include "export/page/sheet_set.hpp"

#include <string>
#include <vector>

namespace shankline {

struct PartFormats {
  bool svg = false;
  bool dxf = false;
};

struct PartFile {
  std::string suffix; ///< behind the stem of the PDF's name: "-board-left.svg"
  std::string bytes;
};

/// Every part that `sheets` has a template of, whole even where its template goes over several
/// pages. Boards come with the pieces that stay and go, closed, each on a layer of its own.
/// `digest` is the short one of the order's text.
std::vector<PartFile> part_files(const SheetSet& sheets, const Order& order,
                                 const Solution& solution, const std::string& digest,
                                 const PartFormats& formats);

} // namespace shankline
