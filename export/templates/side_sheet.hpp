// The templates of a foot's sides: each wall laid flat, outside face up, old and new top line, and
// the same line as ruler heights.
#pragma once

#include "export/drawing/template.hpp"
#include "export/page/sheet_page.hpp"
#include "export/templates/side_page.hpp"
#include "geometry/solution/solution.hpp"

#include <vector>

namespace shankline {

struct SideSheet {
  Page page;
  std::vector<Template> sides; ///< those on this page: one, both, or a tile of one
  Proof proof;
};

/// Both sides on one page where it has room for them; else a page for each, level or leaning, or
/// its tiles. Never shrunk. `sides` are those that are lowered; the first page has this number,
/// from 0. Throws DoesNotFit.
std::vector<SideSheet> side_sheets(const SheetContext& context, FootSide foot,
                                   const SidesOnPage& sides, const FootOrder& order,
                                   std::size_t number);

} // namespace shankline
