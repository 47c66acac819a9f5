// The order on paper: every figure left and right, what was estimated, cautions, signatures.
#pragma once

#include "export/page/sheet_page.hpp"
#include "geometry/order/finding.hpp"
#include "geometry/solution/solution.hpp"

#include <vector>

namespace shankline {

/// Returns one page, or more if the text is long; `number` is the first page's number, from 0.
std::vector<Page> order_sheet(const SheetContext& context, const Solution& solution,
                              const Findings& cautions, std::size_t number);

} // namespace shankline
