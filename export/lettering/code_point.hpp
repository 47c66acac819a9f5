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

/// Bytes of the character that begins here; 0 if none does, by the table of well-formed sequences
/// of the Unicode Standard (section 3.9). `utf8` is not empty.
std::size_t character_length(std::string_view utf8);

/// Unicode's normalization form C (UAX 15). Throws std::invalid_argument for what is no UTF-8.
std::string normal_form(std::string_view utf8);

/// Columns of a terminal that a text takes: two of a wide character (UAX 11), none of a mark.
std::size_t columns_of(std::string_view utf8);

/// Marks that turn the direction of writing, and separators of lines and paragraphs (Unicode, UAX 9
/// and UAX 14). Nobody sees them, and two figures of a line may change places at one: they count as
/// control characters.
constexpr bool is_direction_mark(std::uint32_t code) {
  return code == 0x061c || code == 0x200e || code == 0x200f || (code >= 0x2028 && code <= 0x202e) ||
         (code >= 0x2066 && code <= 0x2069);
}

/// C0, DEL, C1, direction marks, and what is not a character at all.
bool is_control(std::uint32_t code);

/// JSON as it was, but for each control character beyond ASCII, which becomes \uXXXX: the text of a
/// string stays the same, and a terminal obeys nothing.
std::string with_controls_escaped(std::string_view json);

std::u32string code_points(std::string_view utf8);

/// U+FFFD for what is not a character.
std::string to_utf8(char32_t character);
std::string to_utf8(std::u32string_view characters);

} // namespace shankline
