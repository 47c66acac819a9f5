// A table for the terminal: the estimated effect of each cut, or of each thickness of a board that
// is only thinned.
#pragma once

#include "export/drawing/length_text.hpp"
#include "geometry/breaking/break_chart.hpp"
#include "geometry/solution/solution.hpp"

#include <string>

namespace shankline {

/// With Units::inch every row has its lengths in inches below it.
std::string chart_table(const FootSolution& foot, const BreakChart& chart, Units units = Units::mm);

} // namespace shankline
