#include "geometry/order/ruler_number.hpp"

#include <cmath>

namespace shankline {

double ruler_number(double exact, Rounding rounding) {
  constexpr double rounding_error = 1e-6; // of a step: sums of decimals are not exact in binary
  const double steps = exact / ruler_step;
  switch (rounding) {
  case Rounding::down:
    return ruler_step * std::floor(steps + rounding_error);
  case Rounding::up:
    return ruler_step * std::ceil(steps - rounding_error);
  case Rounding::nearest:
    break;
  }
  return ruler_step * std::round(steps);
}

} // namespace shankline
