// A comparison as text on a terminal, 80 columns wide.
#pragma once

#include "geometry/comparison/comparison.hpp"

#include <string>

namespace shankline {

std::string comparison_table(const Comparison& comparison, const Operand& a, const Operand& b);

} // namespace shankline
