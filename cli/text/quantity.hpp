// One figure as people write it ("238", "9 3/8 in", "12 %") into a number.
#pragma once

#include "geometry/numerics/result.hpp"
#include "geometry/order/reading_guide.hpp"

#include <string>
#include <string_view>

namespace shankline {

/// The figure in mm, degrees, per cent or grams. A bare number is in that unit, except for per
/// cent: there the sign is wanted ("12 %"), or a fraction below 1 ("0.12"), because a bare 12 may
/// be either. Fractions ("9 3/8") are inches only. Strict on purpose: no exponent, no leading zero,
/// no comma, no nan or infinity. Says nothing about limits, and reads alike in every locale. Why
/// not begins with the text that was read.
Result<double> parse_quantity(std::string_view text, Quantity wanted);

/// "mm", "deg", "%", "g", or nothing for a plain number.
std::string_view unit_of(Quantity quantity);

/// The shortest decimal text that reads back as the same number.
std::string number_text(double value);

/// "238 mm"
std::string quantity_text(double value, Quantity quantity);

/// "160 to 330 mm"
std::string range_text(double least, double most, Quantity quantity);
/// The range that a reading may have, as text.
std::string range_text(const ReadingGuide& guide);

} // namespace shankline
