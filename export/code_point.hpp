// UTF-8 taken apart, one character at a time, and put together.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>

namespace shankline {

/// The first code point of `utf8`, which is not empty, and its length in bytes. A stray byte, and
/// the first of a form longer than the character needs, counts as one unknown character, U+FFFD.
std::pair<std::uint32_t, std::size_t> next_code_point(std::string_view utf8);

/// C0, DEL, C1, and what is no character at all.
bool is_control(std::uint32_t code);

std::u32string code_points(std::string_view utf8);

std::string to_utf8(char32_t character);
std::string to_utf8(std::u32string_view characters);

} // namespace shankline
