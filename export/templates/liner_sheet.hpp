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

/// The sheets of one foot's liner: one page if the liner fits upright, otherwise its tiles. The
/// liner is never shrunk. `number` is the number of the first page, from 0.
std::vector<LinerSheet> liner_sheets(const SheetContext& context, const FootSolution& foot,
                                     std::size_t number);

/// The liner's lines in its own frame.
std::vector<Stroke> liner_lines(const SolvedLiner& liner);

} // namespace shankline
