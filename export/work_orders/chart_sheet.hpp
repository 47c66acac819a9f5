// The break chart: foot and shoe in profile, uncut above and as ordered below, and what other cuts,
// or other thicknesses of a board that is only thinned, would do.
#pragma once

#include "export/page/sheet_page.hpp"
#include "geometry/breaking/break_chart.hpp"
#include "geometry/solution/solution.hpp"

namespace shankline {

/// `chart` must have a contact of the cut or thinned shoe as well as of the uncut one. The profiles
/// are at true size, or at half of it if the page is too narrow. `number` is the page's number,
/// from 0.
Page chart_sheet(const SheetContext& context, const FootSolution& foot, const BreakChart& chart,
                 std::size_t number);

} // namespace shankline
