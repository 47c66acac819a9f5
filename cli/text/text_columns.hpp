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

/// Rows below one another, columns as wide as they have to be, two apart; the first `left` of them
/// and the last begin at the left, the others end at the right. A line has no spaces at its end.
std::string columns_text(const std::vector<std::vector<std::string>>& rows, std::size_t left);

/// Lines of at most `width` columns, broken at spaces, with one space between two words; a longer
/// word stays whole.
std::vector<std::string> wrapped(std::string_view words, std::size_t width);

/// These lines as one text, each with its line end.
std::string wrapped_text(std::string_view words, std::size_t width);

} // namespace shankline
