#include "export/drawing/length_text.hpp"

#include "export/drawing/inch.hpp"
#include "geometry/order/figure.hpp"

#include <cmath>
#include <numeric>

namespace shankline {
namespace {

constexpr long parts = 32;
// A binary hair below a whole 1/32 still counts as that 1/32.
constexpr double hair = 1e-9;

} // namespace

std::string inches(double mm, Rounding rounding) {
  const double exact = std::abs(mm) / mm_per_inch * parts;
  const long count = rounding == Rounding::down ? std::lround(std::floor(exact + hair))
                     : rounding == Rounding::up ? std::lround(std::ceil(exact - hair))
                                                : std::lround(exact);
  const long whole = count / parts;
  const long rest = count % parts;
  std::string text = mm < 0 && count > 0 ? "\u2212" : "";
  if (whole > 0 || rest == 0) text += std::to_string(whole);
  if (rest == 0) return text;
  const long shared = std::gcd(rest, parts);
  if (whole > 0) text += " ";
  return text + std::to_string(rest / shared) + "/" + std::to_string(parts / shared);
}

std::string ruler_text(double mm, Rounding rounding) {
  return figure(rounding == Rounding::nearest ? mm : ruler_number(mm, rounding));
}

std::string length_text(double mm, Units units, Rounding rounding) {
  std::string text = ruler_text(mm, rounding);
  if (units == Units::inch) text += " (" + inches(mm, rounding) + " in)";
  return text;
}

std::string whole_length_text(double mm, Units units) {
  std::string text = figure(mm, 0);
  if (units == Units::inch) text += " (" + inches(mm) + " in)";
  return text;
}

std::string tolerance_text(const Tolerance& tolerance) {
  if (tolerance.plus == -tolerance.minus) return "\u00b1" + short_figure(tolerance.plus);
  return "+" + short_figure(tolerance.plus) + " \u2212" + short_figure(-tolerance.minus);
}

} // namespace shankline
