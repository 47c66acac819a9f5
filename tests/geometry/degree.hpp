// Angles of the tests are written in degrees.
#pragma once

#include <numbers>

namespace shankline::tests {

inline constexpr double degree = std::numbers::pi / 180; ///< rad

} // namespace shankline::tests
