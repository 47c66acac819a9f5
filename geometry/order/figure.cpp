#include "geometry/order/figure.hpp"

#include <array>
#include <charconv>
#include <cmath>

namespace shankline {

namespace {

/// Halves away from zero, as one rounds by hand; the nudge undoes what binary fractions lose.
double whole_steps(double value, double scale) {
  return std::round(value * scale * (1 + 1e-12));
}

} // namespace

std::string figure(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  double rounded = whole_steps(value, scale) / scale;
  if (rounded == 0) rounded = 0; // no minus zero
  std::array<char, 400> text{};
  const auto end = std::to_chars(text.data(), text.data() + text.size(), rounded,
                                 std::chars_format::fixed, decimals)
                       .ptr;
  return {text.data(), end};
}

std::string short_figure(double value, int decimals) {
  std::string text = figure(value, decimals);
  if (text.find('.') == std::string::npos) return text;
  while (text.back() == '0')
    text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text;
}

double shown_difference(double a, double b, int decimals) {
  const double scale = std::pow(10.0, decimals);
  return (whole_steps(a, scale) - whole_steps(b, scale)) / scale;
}

} // namespace shankline
