// The order for a maker or a workshop: a page that explains itself.
#pragma once

#include "export/page/sheet_page.hpp"
#include "export/wording/work_words.hpp"
#include "geometry/order/finding.hpp"

#include <vector>

namespace shankline {

/// Every caution, the order's note, small drawings, the lines to cut with all their doubts and room
/// to sign for the final one, every alteration with value and tolerance left and right, materials
/// with quantities, what was estimated, signatures. Not to scale. One page, or more where there is
/// much to say; the first has this number, from 0.
std::vector<Page> maker_sheet(const SheetContext& context, const std::vector<FootWork>& feet,
                              const Findings& cautions, std::size_t number);

} // namespace shankline
