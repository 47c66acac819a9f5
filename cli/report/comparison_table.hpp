// A comparison as text on a terminal, 80 columns wide.
#pragma once

#include "export/drawing/length_text.hpp"
#include "geometry/comparison/comparison.hpp"

#include <string>

namespace shankline {

/// With Units::inch every row of lengths has a row in inches below it.
std::string comparison_table(const Comparison& comparison, const Operand& a, const Operand& b,
                             Units units = Units::mm);

} // namespace shankline
