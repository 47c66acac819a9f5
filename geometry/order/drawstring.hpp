// Lengths that a drawstring and its casing need beyond the line that they lie on. From memory,
// common practice, no source.
#pragma once

#include "geometry/order/order.hpp"

namespace shankline {

inline constexpr double casing_end = 15; ///< mm turned under at each end of the casing strip
inline constexpr double casing_turn = 5; ///< mm of the strip turned under along both of its edges

/// The length in mm left at each end of a drawstring: cotton to tie, elastic to sew or knot.
constexpr double drawstring_end(Drawstring kind) {
  return kind == Drawstring::elastic ? 20 : 150;
}

/// The cut length in mm of a drawstring that lies `worn` mm long in its casing. `stretch` is the
/// working stretch of an elastic one, a fraction.
constexpr double drawstring_length(Drawstring kind, double worn, double stretch) {
  const double slack = kind == Drawstring::elastic ? worn / (1 + stretch) : worn;
  return slack + 2 * drawstring_end(kind);
}

} // namespace shankline
