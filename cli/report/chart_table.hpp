// A table for the terminal: the estimated effect of each cut.
#pragma once

#include "geometry/breaking/break_chart.hpp"
#include "geometry/solution/solution.hpp"

#include <string>

namespace shankline {

std::string chart_table(const FootSolution& foot, const BreakChart& chart);

} // namespace shankline
