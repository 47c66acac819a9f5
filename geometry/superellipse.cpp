#include "geometry/superellipse.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace shankline {

double superellipse(double x, double exponent) {
  return std::pow(std::max(0.0, 1 - std::pow(std::abs(x), exponent)), 1 / exponent);
}

SuperellipsePoint superellipse_at(double t, double exponent) {
  if (t >= 1) return {0, 1}; // cos(π/2) is not quite 0
  const double angle = t * std::numbers::pi / 2;
  return {std::pow(std::cos(angle), 2 / exponent), std::pow(std::sin(angle), 2 / exponent)};
}

} // namespace shankline
