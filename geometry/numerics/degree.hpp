// Angles are radians inside; people write and read degrees.
#pragma once

#include <numbers>

namespace shankline {

inline constexpr double degree = std::numbers::pi / 180; ///< radians

} // namespace shankline
