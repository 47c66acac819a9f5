#include "geometry/order/ruler_number.hpp"

#include <cmath>

namespace shankline {

double ruler_number(double exact, Rounding rounding) {
  constexpr double hair = 1e-6; // of a step: readings are decimal, but their sums miss by a hair
  const double steps = exact / ruler_step;
  switch (rounding) {
  case Rounding::down:
    return ruler_step * std::floor(steps + hair);
  case Rounding::up:
    return ruler_step * std::ceil(steps - hair);
  case Rounding::nearest:
    break;
  }
  return ruler_step * std::round(steps);
}

} // namespace shankline
