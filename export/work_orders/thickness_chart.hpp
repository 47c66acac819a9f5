// The break chart of a board that is only thinned: contact figures over the thickness that is left.
#pragma once

#include "export/page/sheet_page.hpp"
#include "geometry/breaking/break_chart.hpp"
#include "geometry/solution/solution.hpp"

namespace shankline {

/// `foot` must have a thinned board that is cut nowhere, and `chart` be its chart. `number` is the
/// page's number, from 0.
Page thickness_chart_sheet(const SheetContext& context, const FootSolution& foot,
                           const BreakChart& chart, std::size_t number);

} // namespace shankline
