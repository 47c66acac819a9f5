#include "export/drawing/length_text.hpp"

#include "export/drawing/inch.hpp"
#include "geometry/order/figure.hpp"

#include <cmath>
#include <cstdlib>
#include <numeric>
#include <optional>
#include <string_view>

namespace shankline {
namespace {

constexpr long parts = 32;
// A length that lies this close below a whole 1/32, in 1/32 inch, counts as that 1/32: decimal
// millimetres are not exact in binary.
constexpr double rounding_error = 1e-9;

/// `mm` is not negative.
long steps(double mm, Rounding rounding) {
  const double exact = mm / mm_per_inch * parts;
  return rounding == Rounding::down ? std::lround(std::floor(exact + rounding_error))
         : rounding == Rounding::up ? std::lround(std::ceil(exact - rounding_error))
                                    : std::lround(exact);
}

bool is_of_a_number(char c) {
  return (c >= '0' && c <= '9') || c == '.';
}
/// A letter, or the first byte of one that is not ASCII: mm² is not a length.
bool goes_on(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || static_cast<unsigned char>(c) >= 0x80;
}

double number(const std::string& words, std::size_t begin, std::size_t end) {
  return std::strtod(words.substr(begin, end - begin).c_str(), nullptr);
}

/// The figure that ends before `joint`, which ends the words; null where there is none.
std::optional<double> figure_before(std::string_view joint, const std::string& words) {
  std::size_t end = words.size() - joint.size();
  if (end > 0 && words[end - 1] == ' ') --end;
  std::size_t begin = end;
  while (begin > 0 && is_of_a_number(words[begin - 1]))
    --begin;
  if (begin == end) return std::nullopt;
  return number(words, begin, end);
}

/// Gives both figures of "33 ±7 mm" and of "195 to 275 mm"; an uncertainty is rounded up. `before`
/// ends where the last figure begins.
std::string in_inches(const std::string& before, double last) {
  constexpr std::string_view doubt = "\u00b1";
  constexpr std::string_view range = " to ";
  if (before.ends_with(range)) {
    const std::optional<double> first = figure_before(range, before);
    return first ? inches(*first) + std::string(range) + inches(last) : inches(last);
  }
  if (!before.ends_with(doubt)) return inches(last);
  const std::string known = std::string(doubt) + inches(last, Rounding::up);
  const std::optional<double> of = figure_before(doubt, before);
  return of ? inches(*of) + " " + known : known;
}

} // namespace

std::string inches(double mm, Rounding rounding) {
  const long count = steps(std::abs(mm), rounding);
  const long whole = count / parts;
  const long rest = count % parts;
  std::string text = mm < 0 && count > 0 ? "\u2212" : "";
  if (whole > 0 || rest == 0) text += std::to_string(whole);
  if (rest == 0) return text;
  const long shared = std::gcd(rest, parts);
  if (whole > 0) text += " ";
  return text + std::to_string(rest / shared) + "/" + std::to_string(parts / shared);
}

double in_inch_steps(double mm, Rounding rounding) {
  const long count = steps(std::abs(mm), rounding);
  return (mm < 0 ? -1 : 1) * static_cast<double>(count) * mm_per_inch / parts;
}

std::string inches_beside(double mm, Units units, Rounding rounding) {
  return units == Units::inch ? " (" + inches(mm, rounding) + " in)" : std::string();
}

std::string ruler_text(double mm, Rounding rounding) {
  return figure(rounding == Rounding::nearest ? mm : ruler_number(mm, rounding));
}

std::string length_text(double mm, Units units, Rounding rounding) {
  return ruler_text(mm, rounding) + inches_beside(mm, units, rounding);
}

std::string doubted_inches_beside(double mm, double doubt, Units units, Rounding rounding) {
  if (units == Units::mm) return {};
  return " (" + inches(mm, rounding) + " \u00b1" + inches(doubt, Rounding::up) + " in)";
}

std::string doubted_text(double mm, double doubt, Units units, Rounding rounding) {
  const std::string words = ruler_text(mm, rounding) + " \u00b1" + figure(doubt);
  return words + doubted_inches_beside(mm, doubt, units, rounding);
}

std::string doubt_text(double mm, Units units) {
  const std::string words = "\u00b1" + figure(mm);
  return units == Units::mm ? words : words + " (\u00b1" + inches(mm, Rounding::up) + " in)";
}

std::string short_length_text(double mm, Units units, Rounding rounding) {
  return short_figure(mm) + inches_beside(mm, units, rounding);
}

std::string height_text(double mm, Units units) {
  return figure(mm) + inches_beside(mm, units, Rounding::up);
}

std::string thickness_text(double mm) {
  constexpr double step = 0.01;
  return short_figure(std::ceil(mm / step - rounding_error) * step, 2);
}

std::string inches_inside(double mm, const Tolerance& tolerance, Units units, Rounding rounding) {
  const double off = in_inch_steps(mm, rounding) - mm;
  const bool inside =
      off <= tolerance.plus + rounding_error && off >= tolerance.minus - rounding_error;
  return inside ? inches_beside(mm, units, rounding) : std::string();
}

std::string depth_text(double mm, Units units) {
  return figure(mm) + inches_beside(mm, units, Rounding::down);
}

std::string whole_length_text(double mm, Units units) {
  return figure(mm, 0) + inches_beside(mm, units);
}

std::string with_inches(const std::string& words, Units units) {
  constexpr std::string_view unit = " mm";
  if (units == Units::mm) return words;
  std::string text;
  std::size_t from = 0;
  for (std::size_t at = words.find(unit); at != std::string::npos; at = words.find(unit, from)) {
    const std::size_t end = at + unit.size();
    std::size_t begin = at;
    while (begin > from && is_of_a_number(words[begin - 1]))
      --begin;
    const bool whole_word = end == words.size() || !goes_on(words[end]);
    text += words.substr(from, end - from);
    if (begin < at && whole_word)
      text += " (" + in_inches(words.substr(from, begin - from), number(words, begin, at)) + " in)";
    from = end;
  }
  return text + words.substr(from);
}

std::string tolerance_text(const Tolerance& tolerance) {
  if (tolerance.plus == -tolerance.minus) return "\u00b1" + short_figure(tolerance.plus);
  return "+" + short_figure(tolerance.plus) + " \u2212" + short_figure(-tolerance.minus);
}

} // namespace shankline
