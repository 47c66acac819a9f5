#include "geometry/plane/superellipse.hpp"

#include <algorithm>
#include <boost/math/quadrature/gauss.hpp>
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

namespace {

/// Integrates from the end of half-axis `a` half-way (in x/a = (½)^(1/n)) to the other: |slope|
/// stays moderate over x there, so the integral is over x.
double flat_half(double a, double b, double n) {
  using Rule = boost::math::quadrature::gauss<double, 20>;
  constexpr int parts = 8;
  const double to = std::pow(0.5, 1 / n);
  const auto element = [&](double x) {
    const double slope = b / a * std::pow(x, n - 1) * std::pow(1 - std::pow(x, n), 1 / n - 1);
    return std::hypot(1, slope);
  };
  // Shorter pieces towards x = 0, where a fractional power makes the slope less smooth.
  double sum = 0;
  double high = to;
  for (int i = 0; i < parts; ++i) {
    const double low = i + 1 == parts ? 0 : high / 2;
    sum += Rule::integrate(element, low, high);
    high = low;
  }
  return sum * a;
}

} // namespace

double superellipse_perimeter(double a, double b, double exponent) {
  return 4 * (flat_half(a, b, exponent) + flat_half(b, a, exponent));
}

double superellipse_area(double a, double b, double exponent) {
  const double gamma = std::tgamma(1 + 1 / exponent);
  return 4 * a * b * gamma * gamma / std::tgamma(1 + 2 / exponent);
}

} // namespace shankline
