// Ways in which figures are commonly written wrong, and how to write them instead.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace shankline {

/// Digits in a row that a figure may have.
inline constexpr std::size_t most_digits = 9;

struct FigureSlip {
  std::string_view what; ///< goes on from the text: "has an underscore between its digits"
  std::string advice;
};

/// What is wrong with a text that was meant for a figure and is none; nothing when it looks like no
/// figure at all.
std::optional<FigureSlip> figure_slip(std::string_view text);

} // namespace shankline
