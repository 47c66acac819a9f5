// The sheets of a comparison: boards and lowered sides laid over each other, where they part, by
// how much, and whether that is known.
#pragma once

#include "export/page/sheet_set.hpp"
#include "geometry/comparison/comparison.hpp"

namespace shankline {

/// Every overlay of a comparison: of each foot the boards, then the lowered sides; what the paper
/// does not take is left out and said. No page at all where neither boards are cut nor sides
/// lowered on both. `digest` in the wish names both orders.
SheetSet comparison_set(const Comparison& comparison, const Operand& a, const Operand& b,
                        const SheetWish& wish);

} // namespace shankline
