// Classes of characters in a UTF-8 text; the same in every locale.
#pragma once

#include "export/lettering/code_point.hpp"

#include <cstddef>
#include <cstdint>
#include <string_view>

namespace shankline {

constexpr bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
constexpr char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}
constexpr char upper(char c) {
  return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
}
constexpr bool is_letter(char c) {
  return lower(c) >= 'a' && lower(c) <= 'z';
}

/// A byte that goes on with the character before it.
constexpr bool continues_character(char byte) {
  return (static_cast<unsigned char>(byte) & 0xc0) == 0x80;
}

/// Bytes of the direction mark that stands here, 2 or 3; 0 when it is none.
constexpr std::size_t direction_mark_length(std::string_view text, std::size_t at) {
  const auto byte = static_cast<unsigned char>(text[at]);
  const std::size_t length = byte == 0xd8 ? 2 : byte == 0xe2 ? 3 : 0;
  if (length == 0 || at + length > text.size()) return 0;
  std::uint32_t code = byte & (length == 2 ? 0x1fu : 0x0fu);
  for (std::size_t i = 1; i < length; ++i) {
    if (!continues_character(text[at + i])) return 0;
    code = code << 6 | (static_cast<unsigned char>(text[at + i]) & 0x3fu);
  }
  return is_direction_mark(code) ? length : 0;
}

/// Bytes of the control character that stands here: 1 for those of ASCII, 2 for U+0080 to U+009F,
/// which some terminals obey as well, those of a direction mark; 0 when it is none.
constexpr std::size_t control_length(std::string_view text, std::size_t at) {
  const auto byte = static_cast<unsigned char>(text[at]);
  if (byte < 0x20 || byte == 0x7f) return 1;
  const bool late = byte == 0xc2 && at + 1 < text.size() && continues_character(text[at + 1]) &&
                    static_cast<unsigned char>(text[at + 1]) < 0xa0;
  return late ? 2 : direction_mark_length(text, at);
}

/// Returns true if any control character stands in a text, line ends among them.
constexpr bool has_controls(std::string_view text) {
  for (std::size_t at = 0; at < text.size(); ++at)
    if (control_length(text, at) > 0) return true;
  return false;
}

/// Returns the number of characters of a text in UTF-8.
constexpr std::size_t characters_in(std::string_view text) {
  std::size_t count = 0;
  for (const char byte : text)
    count += continues_character(byte) ? 0 : 1;
  return count;
}

/// Returns the text without the spaces around it.
constexpr std::string_view without_outer_spaces(std::string_view text) {
  while (text.starts_with(' '))
    text.remove_prefix(1);
  while (text.ends_with(' '))
    text.remove_suffix(1);
  return text;
}

/// Returns true if a text is so many hexadecimal digits in lower case, as digests and salts are
/// written.
constexpr bool is_hex_of(std::string_view text, std::size_t digits) {
  return text.size() == digits &&
         text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

} // namespace shankline
