// Ruler numbers: what a hand measures with a half-millimetre rule.
//
// A cut may fall short of its line and never goes past it. So what comes off is rounded down, and
// what stays or is measured back from the witness line is rounded up: both leave the board longer.
#pragma once

namespace shankline {

enum class Rounding { nearest, down, up };

inline constexpr double ruler_step = 0.5; ///< mm

/// Returns `exact`, mm, rounded to half millimetres. A value that misses a half millimetre only by
/// binary rounding counts as that half millimetre.
double ruler_number(double exact, Rounding rounding);

} // namespace shankline
