// Columns of text on a terminal: a wide character takes two, a mark none.
#pragma once

#include "cli/text/characters.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

/// Width of an ordinary terminal, in columns.
inline constexpr std::size_t terminal_width = 80;
/// Width of sentences on it, so that they stay clear of its edge.
inline constexpr std::size_t prose_width = 78;

/// Columns for sentences on standard output: those of the terminal, from 40 to 120, and those of an
/// ordinary one where it is none.
std::size_t output_columns();

std::string padded(std::string text, std::size_t width);
std::string right_aligned(const std::string& text, std::size_t width);

/// Lines of at most `width` columns, broken at spaces, with one space between two words; a longer
/// word stays whole.
std::vector<std::string> wrapped(std::string_view words, std::size_t width);

} // namespace shankline
