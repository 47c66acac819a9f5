// The order on one page: every figure left and right, what was estimated, cautions, signatures.
#pragma once

#include "export/sheet_page.hpp"
#include "geometry/finding.hpp"
#include "geometry/solution.hpp"

namespace shankline {

Page order_sheet(const SheetContext& context, const Solution& solution, const Findings& cautions,
                 std::size_t number);

} // namespace shankline
