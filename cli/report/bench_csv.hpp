// Tables of the bench as comma-separated values, for spreadsheets.
#pragma once

#include "export/work_orders/rack_shoe.hpp"
#include "geometry/comparison/comparison.hpp"

#include <string>
#include <vector>

namespace shankline {

/// One row a shoe; lengths in mm, at the big-toe edge, on the centre line and at the little-toe
/// edge.
std::string rack_csv_head();
std::string rack_csv_row(const RackShoe& shoe);

/// One row a figure: lengths in mm, angles in degrees, areas in mm². A difference is a less b.
std::string comparison_csv(const Comparison& comparison);

} // namespace shankline
