// What is sewn to a pair, on one page: ribbons, elastics, casing and drawstring, the tuck.
#pragma once

#include "export/page/sheet_page.hpp"
#include "export/wording/work_words.hpp"
#include "geometry/solution/solution.hpp"

#include <vector>

namespace shankline {

/// Is anything sewn to this foot's shoe that needs a page?
bool is_sewn(const FootSolution& foot);

/// Of the feet that have something sewn. Nothing on it is at true size. `number` is the page's,
/// from 0.
Page sewing_sheet(const SheetContext& context, const std::vector<FootWork>& feet,
                  std::size_t number);

} // namespace shankline
