// The lines of a side's template, whatever page they come to lie on.
#pragma once

#include "export/drawing/drawing.hpp"
#include "geometry/solution/solution.hpp"

#include <string>
#include <vector>

namespace shankline {

/// The wall's lines by kind, laid flat: back seam at the origin, base leaving it along +x.
std::vector<Stroke> side_lines(const SolvedSide& side, const FootOrder& order);

/// Length of the marks that `side_lines` sets at the sole's edge and at the new line, mm.
inline constexpr double height_tick = 3;

/// "left foot, big-toe side".
std::string side_name(FootSide foot, const SolvedSide& side);

} // namespace shankline
