// The liner template of one foot, at true size, foot side up.
#pragma once

#include "export/sheet_page.hpp"
#include "export/template.hpp"
#include "geometry/solution.hpp"

namespace shankline {

struct LinerSheet {
  Page page;
  Template liner;
  Proof proof;
};

/// Of a foot that has a liner. `number` is the page's, from 0.
LinerSheet liner_sheet(const SheetContext& context, const FootSolution& foot, std::size_t number);

/// The liner's lines in its own frame. `front` is how far they are drawn where the liner is longer
/// than the page.
std::vector<Stroke> liner_lines(const SolvedLiner& liner, double front);

} // namespace shankline
