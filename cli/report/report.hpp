// The numbers as a fitter reads them on a terminal: the two feet side by side, ruler numbers first.
#pragma once

#include "export/drawing/length_text.hpp"
#include "geometry/breaking/pair_contact.hpp"
#include "geometry/solution/solution.hpp"

#include <string>

namespace shankline {

std::string report_text(const Order& order, const Solution& solution, const PairContact& contact,
                        Units units);

/// The report in one line: "M-07, left cut off 55.5 then 62.0, right …".
std::string brief_text(const Order& order, const Solution& solution, Units units);

/// The uncertainty of the cuts by random draws, beside the first-order figure; one line for each
/// foot.
std::string sampled_text(const Order& order, const Solution& solution, Units units);

/// Names the reading to take again first, and how much that would win; one line for each foot,
/// empty if none.
std::string budget_text(const Solution& solution, Units units);

} // namespace shankline
