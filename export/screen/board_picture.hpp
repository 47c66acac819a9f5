// The rear of a board as a picture for a screen: what moves while somebody types.
#pragma once

#include "export/drawing/length_text.hpp"
#include "geometry/solution/solution.hpp"

#include <string>

namespace shankline {

/// The board from its heel end, below, to a little ahead of the witness line, with the same lines
/// as its sheet, and beside them their names and distances from the heel end. The big-toe side of a
/// left board is on the right, as it lies on the bench with the foot side up. It says that it is
/// not to scale. Empty for a foot without work on its board. Classes of its texts: `t-name`,
/// `t-first` (the name of the line to cut now), `t-side`, `t-warn`.
std::string board_picture(const FootSolution& foot, Units units);

} // namespace shankline
