// Work at the heel besides cutting: a filler in the emptied seat, a tuck at the back seam.
#pragma once

#include "geometry/board/trim_line.hpp"
#include "geometry/order/finding.hpp"
#include "geometry/order/order.hpp"
#include "geometry/plane/point.hpp"

#include <optional>
#include <string>

namespace shankline {

/// Soft filler in the shape and the place of the piece cut off; mm.
struct SolvedFiller {
  Polygon outline; ///< in the board's frame
  double length = 0;
  double width = 0;
  double thickness = 0;
  double area = 0; ///< mm²
};

/// `removed` is the piece cut off at the line `cut`, null where nothing is cut; `part` of the
/// thickness is cut.
/// Errors: no cut, or the board's thickness is missing. `name` is "left".
std::optional<SolvedFiller> solve_filler(const Board& board, const Polygon* removed,
                                         const CutLine* cut, double part, const std::string& name,
                                         Findings& findings);

/// A tuck on the back seam, deepest at the top line, less and less deep down the seam; mm.
struct SolvedTuck {
  double depth = 0; ///< of the pinched fold
  double taken = 0; ///< length taken off the top line
  double down = 0;  ///< length down the seam
};

/// Length that a fold of this depth takes off the top line, mm.
inline double taken_by_tuck(double depth) {
  return 2 * depth;
}

/// `back` is the finished height of the back, where known. Errors: no depth and no fold to take it
/// from, a tuck deeper than a seam takes or longer than the back is high.
std::optional<SolvedTuck> solve_tuck(const Foot& foot, const TuckWish& wish,
                                     const std::optional<double>& back, const std::string& name,
                                     Findings& findings);

} // namespace shankline
