// The liner template of one foot, at true size, foot side up.
#pragma once

#include "export/drawing/template.hpp"
#include "export/page/sheet_page.hpp"
#include "geometry/solution/solution.hpp"

namespace shankline {

struct LinerSheet {
  Page page;
  Template liner;
  Proof proof;
};

/// Of a foot that has a liner: one page where the liner fits upright, else its tiles. Never shrunk.
/// `number` is the first page's, from 0.
std::vector<LinerSheet> liner_sheets(const SheetContext& context, const FootSolution& foot,
                                     std::size_t number);

/// The liner's lines in its own frame.
std::vector<Stroke> liner_lines(const SolvedLiner& liner);

} // namespace shankline
