// The order on paper: every figure left and right, what was estimated, cautions, signatures.
#pragma once

#include "export/page/sheet_page.hpp"
#include "geometry/order/finding.hpp"
#include "geometry/solution/solution.hpp"

#include <vector>

namespace shankline {

/// One page, or more where there is much to say; the first has this number, from 0.
std::vector<Page> order_sheet(const SheetContext& context, const Solution& solution,
                              const Findings& cautions, std::size_t number);

} // namespace shankline
