#include "export/json/json_figure.hpp"

#include <cmath>
#include <stdexcept>

namespace shankline {

double json_figure(double value) {
  if (!std::isfinite(value)) throw std::domain_error("a figure that is not a number");
  constexpr double decimals = 1e9;
  const double rounded = std::round(value * decimals) / decimals;
  return rounded == 0 ? 0.0 : rounded;
}

} // namespace shankline
