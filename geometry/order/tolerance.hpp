// Tolerances: the allowed difference of a made part from the drawn one.
#pragma once

#include "geometry/order/order.hpp"

#include <optional>

namespace shankline {

struct Tolerance {
  double plus = 0;  ///< mm
  double minus = 0; ///< mm, zero or negative
};

/// The permissible deviation ± of ISO 2768-1:1989, table 1, in mm. Returns nullopt where the table
/// has no deviation or is not known here: below 0.5, over 1000, very coarse up to 3.
std::optional<double> general_tolerance(ToleranceClass tolerance_class, double nominal);

/// The tolerance of a dimension that is not a cut, mm. Below the class's range its smallest row
/// holds; above 1000 its largest.
Tolerance dimension_tolerance(const ToleranceWish& wish, double nominal);

/// The tolerance of a rounded corner's radius, mm: ISO 2768-1:1989, table 2 (external radii), from
/// memory. Below its range the smallest row holds.
Tolerance radius_tolerance(const ToleranceWish& wish, double radius);

/// The tolerance of a cut-off: +0 −cut. The cut may fall short of the line by up to `cut`, never
/// past it.
Tolerance cut_off_tolerance(const ToleranceWish& wish);
/// The tolerance of a length that is kept: +cut −0.
Tolerance keep_tolerance(const ToleranceWish& wish);

} // namespace shankline
