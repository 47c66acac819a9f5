// Ways in which figures are commonly written wrong, and how to write them instead.
#pragma once

#include "geometry/numerics/result.hpp"

#include <cstddef>
#include <optional>
#include <string_view>

namespace shankline {

/// Digits in a row that a figure may have.
inline constexpr std::size_t most_digits = 9;
/// Programs write out every digit of a float of 64 bits.
inline constexpr std::size_t most_decimals = 25;
inline constexpr std::size_t most_exponent_digits = 2;

/// Why `text`, which was meant for a figure, is not a valid one; nullopt if it does not resemble a
/// figure. `what` goes on from the text: "has an underscore between its digits".
std::optional<Advice> figure_slip(std::string_view text);

} // namespace shankline
