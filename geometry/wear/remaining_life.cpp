#include "geometry/wear/remaining_life.hpp"

#include <array>
#include <cmath>
#include <numbers>

namespace shankline {
namespace {

constexpr std::size_t points = 32; // of the spread of ln scale, equally likely

/// Returns the quantile of the standard normal distribution at `share`, by bisection.
double normal_quantile(double share) {
  double low = -10, high = 10;
  for (int i = 0; i < 80; ++i) {
    const double middle = (low + high) / 2;
    (0.5 * std::erfc(-middle / std::numbers::sqrt2) < share ? low : high) = middle;
  }
  return (low + high) / 2;
}

const std::array<double, points>& deviations() {
  static const std::array<double, points> all = [] {
    std::array<double, points> made{};
    double square = 0;
    for (std::size_t i = 0; i < points; ++i) {
      made[i] = normal_quantile((static_cast<double>(i) + 0.5) / points);
      square += made[i] * made[i];
    }
    // The middles of equal shares spread too little: their variance is brought back to 1.
    for (double& one : made)
      one /= std::sqrt(square / points);
    return made;
  }();
  return all;
}

} // namespace

WeibullLife usual_life() {
  constexpr double early = 4, late = 20; // hours
  const double at_tenth = std::log(-std::log(0.9)), at_nine_tenths = std::log(-std::log(0.1));
  WeibullLife life;
  const double s = std::log(late / early) / (at_nine_tenths - at_tenth);
  life.log_scale_hours = std::log(early) - s * at_tenth;
  life.log_scale_se = 0.4;
  life.log_shape = std::log(s);
  return life;
}

double chance_to_last(const WeibullLife& life, double hours, double more) {
  const double power = std::exp(-life.log_shape);
  double sum = 0;
  for (const double deviation : deviations()) {
    const double scale = std::exp(life.log_scale_hours + life.log_scale_se * deviation);
    sum += std::exp(std::pow(hours / scale, power) - std::pow((hours + more) / scale, power));
  }
  return sum / points;
}

double hours_left(const WeibullLife& life, double hours, double share) {
  double high = std::exp(life.log_scale_hours);
  for (int i = 0; i < 60 && chance_to_last(life, hours, high) > 1 - share; ++i)
    high *= 2;
  double low = 0;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (chance_to_last(life, hours, middle) > 1 - share ? low : high) = middle;
  }
  return (low + high) / 2;
}

} // namespace shankline
