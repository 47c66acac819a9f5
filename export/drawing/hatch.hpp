// Light parallel lines over the part that is cut away.
#pragma once

#include "export/drawing/box.hpp"
#include "geometry/plane/point.hpp"

#include <vector>

namespace shankline {

/// Lines at 45° through `area`, `spacing` mm apart, that leave every box of `spared` white.
std::vector<Polyline> hatch_lines(const Polygon& area, double spacing,
                                  const std::vector<Box>& spared);

} // namespace shankline
