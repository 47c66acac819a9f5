// The board template of one foot: laid on the board at true size, or read off with a ruler.
#pragma once

#include "export/drawing/template.hpp"
#include "export/page/sheet_page.hpp"
#include "geometry/solution/solution.hpp"

namespace shankline {

struct BoardSheet {
  Page page;
  Template board;
  Proof proof;
};

/// The sheet of a board that is cut, or thinned, or both. `number` is the page's number, from 0.
/// `warning` becomes the first line of the sheet; it may be empty.
BoardSheet board_sheet(const SheetContext& context, const FootSolution& foot,
                       const FootOrder& order, std::size_t number, const std::string& warning);

/// The board's lines by kind in its own frame: what the sheet draws and `--lines` prints.
/// `front` is how far the outline is drawn where it is longer than the page.
std::vector<Stroke> board_lines(const FootSolution& foot, double front);

} // namespace shankline
