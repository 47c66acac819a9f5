// One foot of an order taken through its stations and its board to the solved sides.
#pragma once

#include "geometry/board/board_outline.hpp"
#include "geometry/foot/foot_stations.hpp"
#include "geometry/order/finding.hpp"
#include "geometry/order/order.hpp"
#include "geometry/sides/side_cut.hpp"

#include <optional>
#include <string>

namespace shankline::tests {

/// Foot M-07 with stock sides 52 at the back, 41 at station 105, 46 at the wing (158), leaning by
/// 10°, to be lowered by 5 on the big-toe side and 4 on the little-toe side.
///
/// Worked by hand: board station = foot station + 1, so the heel front lies at 62, the deepest
/// place at 96, the low point at 106 and the wing at 159.
FootOrder worked_sides();

/// Board station = station of the foot + shift.
double shift_of(const FootOrder& order, const FootStations& stations);

std::optional<FootStations> stations_of(const FootOrder& order, Pose pose, Findings& findings,
                                        const std::string& foot = "left",
                                        Population population = Population::women);

BoardOutline outline_of(const FootOrder& order);

std::optional<SolvedSides> sides_of(const FootOrder& order, Pose pose, Findings& findings,
                                    const std::string& foot = "left",
                                    Population population = Population::women);

/// Big-toe side and little-toe side exchanged in every reading and every wish.
FootOrder mirrored(FootOrder order);

} // namespace shankline::tests
