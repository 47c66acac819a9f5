// How far a made part may differ from the drawn one.
#pragma once

#include "geometry/order.hpp"

#include <optional>

namespace shankline {

struct Tolerance {
  double plus = 0;
  double minus = 0; ///< zero or negative
};

/// ISO 2768-1:1989, table 1, permissible deviation ±; nothing where the table has none (below 0.5,
/// over 400, very coarse below 3).
std::optional<double> general_tolerance(ToleranceClass tolerance_class, double nominal);

/// For a dimension that is not a cut. Below what the class covers, its smallest row holds; beyond
/// 400 its largest.
Tolerance dimension_tolerance(const ToleranceWish& wish, double nominal);

/// Of a cut-off: +0 −cut. Short of the line is safe, past it is not.
Tolerance cut_off_tolerance(const ToleranceWish& wish);
/// Of what is kept: +cut −0.
Tolerance keep_tolerance(const ToleranceWish& wish);

} // namespace shankline
