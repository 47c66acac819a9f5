// Paper strips to measure a foot with: plain rulers of 300 mm at true size, one for each foot, laid
// along the sole from the back of the heel and marked by pencil.
#pragma once

#include "export/page/sheet_set.hpp"

namespace shankline {

inline constexpr double strip_length = 300; ///< mm, as printed
inline constexpr double strip_width = 22;

/// A page a foot. The strip lies slantwise, since no side of the usual papers is so long; the page
/// proves its own scale by both bars and a bank card.
SheetSet measuring_strips(const Paper& paper);

} // namespace shankline
