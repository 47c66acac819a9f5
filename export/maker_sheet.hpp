// The order for a maker or a workshop: one page a pair that explains itself.
#pragma once

#include "export/sheet_page.hpp"
#include "export/work_words.hpp"

#include <vector>

namespace shankline {

/// Small dimensioned drawings, every alteration with value and tolerance left and right, materials
/// with quantities, what was estimated, signatures. Not to scale. `number` is the page's, from 0.
Page maker_sheet(const SheetContext& context, const std::vector<FootWork>& feet,
                 std::size_t number);

} // namespace shankline
