// The template of one side: the wall laid flat, outside face up, old and new top line, and the same
// line as ruler heights.
#pragma once

#include "export/sheet_page.hpp"
#include "export/template.hpp"
#include "geometry/solution.hpp"

namespace shankline {

struct SideSheet {
  Page page;
  Template side;
  Proof proof;
};

SideSheet side_sheet(const SheetContext& context, FootSide foot, const SolvedSide& side,
                     const FootOrder& order, std::size_t number);

/// The wall's lines by kind, laid flat: back seam at the origin, base leaving it along +x.
std::vector<Stroke> side_lines(const SolvedSide& side, const FootOrder& order);

} // namespace shankline
