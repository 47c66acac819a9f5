// The numbers as a fitter reads them on a terminal: the two feet side by side, ruler numbers first.
#pragma once

#include "export/length_text.hpp"
#include "geometry/pair_contact.hpp"
#include "geometry/solution.hpp"

#include <string>

namespace shankline {

std::string report_text(const Order& order, const Solution& solution, const PairContact& contact,
                        Units units);

} // namespace shankline
