// Lengths in words for a sheet or a terminal: millimetres, and inches to 1/32 beside them.
#pragma once

#include "geometry/order/ruler_number.hpp"
#include "geometry/order/tolerance.hpp"

#include <string>

namespace shankline {

enum class Units { mm, inch };

/// Inches to 1/32, in lowest terms: "2 7/16", "13/32", "0". Rounding down is for cut-offs: a cut
/// may fall short of its line and never goes past it.
std::string inches(double mm, Rounding rounding = Rounding::nearest);

/// The length to the nearest 1/32 inch, mm: what inches() shows of it.
double in_inch_steps(double mm, Rounding rounding = Rounding::nearest);

/// " (2 7/16 in)" to follow a length in millimetres; empty where the units are millimetres.
std::string inches_beside(double mm, Units units, Rounding rounding = Rounding::nearest);

/// A ruler number in words, by half millimetres: "62.0", "61.5". Rounding::nearest gives tenths.
std::string ruler_text(double mm, Rounding rounding);

/// "62.0" or, with inches, "62.0 (2 7/16 in)". Millimetres are those of ruler_text; inches are
/// rounded from the exact length.
std::string length_text(double mm, Units units, Rounding rounding = Rounding::nearest);

/// " (2 7/16 ±9/32 in)" or, without inches, an empty text; the doubt is rounded up.
std::string doubted_inches_beside(double mm, double doubt, Units units,
                                  Rounding rounding = Rounding::nearest);

/// "62.0 ±6.5" or, with inches, "62.0 ±6.5 (2 7/16 ±9/32 in)"; the doubt is rounded up.
std::string doubted_text(double mm, double doubt, Units units,
                         Rounding rounding = Rounding::nearest);

/// "±6.5" or, with inches, "±6.5 (±9/32 in)", rounded up.
std::string doubt_text(double mm, Units units);

/// No decimals that are zero: "5" or "5 (3/16 in)".
std::string short_length_text(double mm, Units units, Rounding rounding = Rounding::nearest);

/// Gives a height that has to be left, to tenths: "36.0", and its inches rounded up. Every page
/// says the same figure.
std::string height_text(double mm, Units units);

/// A thickness that has to be left, to hundredths and rounded up: "1.85". Every page says the same
/// figure.
std::string thickness_text(double mm);

/// " (3/32 in)" behind a length that is made with a tolerance; empty where the units are
/// millimetres, and where the figure in inches would lie outside `tolerance`.
std::string inches_inside(double mm, const Tolerance& tolerance, Units units,
                          Rounding rounding = Rounding::nearest);

/// Gives how much lower a side becomes, to tenths: "5.0", and its inches rounded down.
std::string depth_text(double mm, Units units);

/// Gives whole millimetres, for cloth and string: "62" or "62 (2 7/16 in)".
std::string whole_length_text(double mm, Units units);

/// A sentence with inches behind each of its millimetres: "36 mm nearer the heel" becomes "36 mm
/// (1 13/32 in) nearer the heel". As it is where the units are millimetres.
std::string with_inches(const std::string& words, Units units);

/// "+0 −1.5", "±0.5".
std::string tolerance_text(const Tolerance& tolerance);

} // namespace shankline
