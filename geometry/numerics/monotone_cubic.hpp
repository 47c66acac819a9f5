// A smooth curve through measured points that never overshoots them.
#pragma once

#include <optional>
#include <vector>

namespace shankline {

/// Piecewise cubic Hermite interpolation. Slopes are three-point finite differences limited to the
/// circle of radius 3 of Fritsch and Carlson (SIAM J. Numer. Anal. 17, 1980), so that the curve is
/// monotone wherever the data are.
class MonotoneCubic {
public:
  /// Rising abscissae, at least two; throws std::invalid_argument otherwise. An end slope that is
  /// given replaces the one-sided difference (and is limited like the others).
  MonotoneCubic(std::vector<double> x, std::vector<double> y,
                std::optional<double> first_slope = {}, std::optional<double> last_slope = {});

  /// Constant beyond the ends.
  double operator()(double x) const;
  /// 0 beyond the ends.
  double slope(double x) const;

  const std::vector<double>& x() const { return x_; }
  const std::vector<double>& slopes() const { return slope_; }

private:
  std::vector<double> x_;
  std::vector<double> y_;
  std::vector<double> slope_;
};

} // namespace shankline
