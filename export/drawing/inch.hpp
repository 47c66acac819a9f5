// Inches and printer's points in millimetres: exact, by definition.
#pragma once

namespace shankline {

inline constexpr double mm_per_inch = 25.4;
inline constexpr double mm_per_point = mm_per_inch / 72;

} // namespace shankline
