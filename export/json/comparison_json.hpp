// A comparison as JSON, format shankline-comparison/1.
#pragma once

#include "export/page/sheet_set.hpp"
#include "geometry/comparison/comparison.hpp"

#include <string>

namespace shankline {

/// Lengths in mm, angles in degrees, areas in mm², moments in N mm, nine decimals at most; stations
/// from the back of the heel in either pose. A difference is a − b. What does not exist is null.
/// With `sheets` also every template's lines and the pages' proofs of scale.
std::string comparison_json(const Comparison& comparison, const Operand& a, const Operand& b,
                            const SheetSet* sheets);

} // namespace shankline
