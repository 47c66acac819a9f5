#include "export/json_figure.hpp"

#include <cmath>

namespace shankline {

double json_figure(double value) {
  constexpr double decimals = 1e9;
  const double rounded = std::round(value * decimals) / decimals;
  return rounded == 0 ? 0.0 : rounded;
}

} // namespace shankline
