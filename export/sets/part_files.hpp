// Writes each template of an order as a file of its own, SVG or DXF, for a plotter or a laser.
#pragma once

#include "export/page/sheet_set.hpp"

#include <string>
#include <vector>

namespace shankline {

struct PartFormats {
  bool svg = false;
  bool dxf = false;
  bool cut_only = false; ///< write only the closed line to cut along: no labels, no other lines
};

struct PartFile {
  std::string suffix; ///< follows the PDF's name without ".pdf": "-board-left.svg"
  std::string bytes;  ///< the whole content of the file
};

struct PartFiles {
  std::vector<PartFile> files;
  std::vector<std::string> left_out; ///< with cut_only: titles of parts that have no closed line
};

/// Returns one file for each part that has a template in `sheets`, and for each requested format. A
/// part is written whole, even if its template is spread over several pages.
///
/// A board contains the closed outlines of the kept and the removed piece, each on its own layer.
/// With `cut_only` a board is the piece that is kept after the first cut; if the front of the board
/// is not measured, it is the piece that is removed. Any other part is its closed final cut or
/// edge. `digest` is the short digest of the order's text, as printed on the sheets.
PartFiles part_files(const SheetSet& sheets, const Order& order, const Solution& solution,
                     const std::string& digest, const PartFormats& formats);

} // namespace shankline
