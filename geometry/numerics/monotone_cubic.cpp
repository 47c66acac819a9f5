#include "geometry/numerics/monotone_cubic.hpp"

#include "geometry/numerics/hermite.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

namespace shankline {
namespace {

/// Slope at the middle of three points of the parabola through them.
double three_point_slope(double h0, double h1, double secant0, double secant1) {
  return (h1 * secant0 + h0 * secant1) / (h0 + h1);
}

/// Slope at the first of three points of the parabola through them.
double end_slope(double h0, double h1, double secant0, double secant1) {
  return secant0 + h0 * (secant0 - secant1) / (h0 + h1);
}

/// Fritsch and Carlson: on an interval with secant d the slopes (α d, β d) keep the cubic monotone
/// if α, β ≥ 0 and α² + β² ≤ 9.
void limit_to_circle(double secant, double& slope0, double& slope1) {
  if (secant == 0) {
    slope0 = slope1 = 0;
    return;
  }
  const double alpha = slope0 / secant;
  const double beta = slope1 / secant;
  const double radius = std::hypot(alpha, beta);
  if (radius <= 3) return;
  slope0 = 3 * alpha / radius * secant;
  slope1 = 3 * beta / radius * secant;
}

} // namespace

MonotoneCubic::MonotoneCubic(std::vector<double> x, std::vector<double> y,
                             std::optional<double> first_slope, std::optional<double> last_slope)
    : x_(std::move(x)), y_(std::move(y)) {
  const std::size_t n = x_.size();
  if (n < 2 || y_.size() != n) throw std::invalid_argument("monotone cubic: two points at least");
  std::vector<double> step(n - 1);
  std::vector<double> secant(n - 1);
  for (std::size_t i = 0; i + 1 < n; ++i) {
    step[i] = x_[i + 1] - x_[i];
    secant[i] = (y_[i + 1] - y_[i]) / step[i];
    if (!(step[i] > 0) || !std::isfinite(step[i]) || !std::isfinite(secant[i]))
      throw std::invalid_argument("monotone cubic: abscissae must rise, all numbers finite");
  }

  slope_.resize(n);
  for (std::size_t i = 1; i + 1 < n; ++i)
    slope_[i] = three_point_slope(step[i - 1], step[i], secant[i - 1], secant[i]);
  slope_.front() = n == 2 ? secant[0] : end_slope(step[0], step[1], secant[0], secant[1]);
  slope_.back() =
      n == 2 ? secant[0] : end_slope(step[n - 2], step[n - 3], secant[n - 2], secant[n - 3]);
  slope_.front() = first_slope.value_or(slope_.front());
  slope_.back() = last_slope.value_or(slope_.back());

  // A slope against the data on either side would overshoot: flat there.
  for (std::size_t i = 0; i < n; ++i) {
    const bool against_left = i > 0 && slope_[i] * secant[i - 1] <= 0;
    const bool against_right = i + 1 < n && slope_[i] * secant[i] <= 0;
    if (against_left || against_right) slope_[i] = 0;
  }
  for (std::size_t i = 0; i + 1 < n; ++i)
    limit_to_circle(secant[i], slope_[i], slope_[i + 1]);
}

namespace {

/// Index of the interval that holds x, which lies within the data.
std::size_t interval(const std::vector<double>& xs, double x) {
  const auto above = std::upper_bound(xs.begin() + 1, xs.end() - 1, x);
  return static_cast<std::size_t>(above - xs.begin()) - 1;
}

} // namespace

double MonotoneCubic::operator()(double x) const {
  if (x <= x_.front()) return y_.front();
  if (x >= x_.back()) return y_.back();
  const std::size_t i = interval(x_, x);
  const double span = x_[i + 1] - x_[i];
  return hermite({y_[i], slope_[i]}, {y_[i + 1], slope_[i + 1]}, span, (x - x_[i]) / span);
}

double MonotoneCubic::slope(double x) const {
  if (x < x_.front() || x > x_.back()) return 0;
  const std::size_t i = interval(x_, x);
  const double span = x_[i + 1] - x_[i];
  return hermite_slope({y_[i], slope_[i]}, {y_[i + 1], slope_[i + 1]}, span, (x - x_[i]) / span);
}

} // namespace shankline
