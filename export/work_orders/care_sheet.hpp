// Breaking in and repair, one page a pair: where water, hardener and stitches go, what each is for,
// when to stop, and a table to fill in by hand.
#pragma once

#include "export/page/sheet_page.hpp"
#include "export/wording/work_words.hpp"
#include "export/work_orders/shoe_since.hpp"

#include <vector>

namespace shankline {

/// Platform and shoe are drawn by their readings; ordinary ones stand in for what was not taken,
/// and are marked so. All of it is common practice, no source. The first page has this number, from
/// 0. Where `since` says where a board ends now, that stands in place of its first cut.
std::vector<Page> care_sheet(const SheetContext& context, const std::vector<FootWork>& feet,
                             std::size_t number, const PairSince& since = {});

} // namespace shankline
