// What kind of character stands in a text in UTF-8; the same in every locale.
#pragma once

#include <cstddef>
#include <string_view>

namespace shankline {

constexpr bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
constexpr char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}
constexpr bool is_letter(char c) {
  return lower(c) >= 'a' && lower(c) <= 'z';
}

/// A byte that goes on with the character before it.
constexpr bool continues_character(char byte) {
  return (static_cast<unsigned char>(byte) & 0xc0) == 0x80;
}

/// Bytes of the control character that stands here: 1 for those of ASCII, 2 for U+0080 to U+009F,
/// which some terminals obey as well; 0 when it is none.
constexpr std::size_t control_length(std::string_view text, std::size_t at) {
  const auto byte = static_cast<unsigned char>(text[at]);
  if (byte < 0x20 || byte == 0x7f) return 1;
  const bool late = byte == 0xc2 && at + 1 < text.size() && continues_character(text[at + 1]) &&
                    static_cast<unsigned char>(text[at + 1]) < 0xa0;
  return late ? 2 : 0;
}

} // namespace shankline
