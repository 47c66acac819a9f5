// Columns of text on a terminal, by characters and not by bytes.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

/// Characters of a text in UTF-8.
std::size_t characters_in(const std::string& text);

std::string padded(std::string text, std::size_t width);
std::string right_aligned(const std::string& text, std::size_t width);

/// Lines of at most `width` characters, broken at spaces; a longer word stays whole.
std::vector<std::string> wrapped(std::string_view words, std::size_t width);

} // namespace shankline
