// One page for all that is sewn to a pair: ribbons, elastics, casing and drawstring, the tuck.
#pragma once

#include "export/page/sheet_page.hpp"
#include "export/wording/work_words.hpp"
#include "geometry/solution/solution.hpp"

#include <vector>

namespace shankline {

/// Is anything sewn to this foot's shoe that needs a page?
bool is_sewn(const FootSolution& foot);

/// The page for all feet that have something sewn. No drawing on it is at true size. `number` is
/// the page's number, from 0.
Page sewing_sheet(const SheetContext& context, const std::vector<FootWork>& feet,
                  std::size_t number);

} // namespace shankline
