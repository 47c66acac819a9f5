// The template of one side: the wall laid flat, outside face up, old and new top line, and the same
// line as ruler heights.
#pragma once

#include "export/sheet_page.hpp"
#include "export/template.hpp"
#include "geometry/solution.hpp"

#include <vector>

namespace shankline {

struct SideSheet {
  Page page;
  Template side;
  Proof proof;
};

/// One page where the strip fits, level or leaning; else its tiles. Never shrunk. The first page
/// has this number, from 0. Throws DoesNotFit.
std::vector<SideSheet> side_sheets(const SheetContext& context, FootSide foot,
                                   const SolvedSide& side, const FootOrder& order,
                                   std::size_t number);

} // namespace shankline
