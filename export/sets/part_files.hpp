// The templates of an order as files of their own, one a part and format, for a plotter or a laser.
#pragma once

#include "export/page/sheet_set.hpp"

#include <string>
#include <vector>

namespace shankline {

struct PartFormats {
  bool svg = false;
  bool dxf = false;
  bool cut_only = false; ///< nothing but the closed line to cut along
};

struct PartFile {
  std::string suffix; ///< behind the stem of the PDF's name: "-board-left.svg"
  std::string bytes;
};

struct PartFiles {
  std::vector<PartFile> files;
  std::vector<std::string> left_out; ///< with cut_only: names of parts that have no closed line
};

/// Every part that `sheets` has a template of, whole even where its template goes over several
/// pages. Boards come with the pieces that stay and go, closed, each on a layer of its own.
/// With `cut_only` a board comes as the piece that stays after the first cut, or that goes where
/// the board is not measured as a whole; every other part as its closed cut or edge. `digest` is
/// the short one of the order's text.
PartFiles part_files(const SheetSet& sheets, const Order& order, const Solution& solution,
                     const std::string& digest, const PartFormats& formats);

} // namespace shankline
