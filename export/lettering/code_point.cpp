#include "export/lettering/code_point.hpp"

#include <array>

namespace shankline {

std::pair<std::uint32_t, std::size_t> next_code_point(std::string_view utf8) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(utf8[i]); };
  const unsigned char lead = byte(0);
  if (lead < 0x80) return {lead, 1};
  const std::size_t length = lead >= 0xf0 ? 4 : lead >= 0xe0 ? 3 : lead >= 0xc2 ? 2 : 0;
  if (length == 0 || length > utf8.size()) return {0xfffd, 1};
  constexpr std::array<std::uint32_t, 5> least{0, 0, 0x80, 0x800, 0x10000}; // by length
  std::uint32_t code = lead & (0x7fu >> length);
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xc0) != 0x80) return {0xfffd, 1};
    code = code << 6 | (byte(i) & 0x3fu);
  }
  if (code < least[length]) return {0xfffd, 1};
  return {code, length};
}

bool is_control(std::uint32_t code) {
  return code < 0x20 || (code >= 0x7f && code < 0xa0) || (code >= 0xd800 && code < 0xe000) ||
         (code & 0xfffeu) == 0xfffeu || code > 0x10ffff || is_direction_mark(code);
}

std::string with_controls_escaped(std::string_view json) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string escaped;
  escaped.reserve(json.size());
  while (!json.empty()) {
    const auto [code, length] = next_code_point(json);
    if (code >= 0x7f && code <= 0xffff && is_control(code)) {
      escaped += "\\u";
      for (const unsigned shift : {12u, 8u, 4u, 0u})
        escaped += digits[code >> shift & 0xfu];
    } else {
      escaped += json.substr(0, length);
    }
    json.remove_prefix(length);
  }
  return escaped;
}

std::u32string code_points(std::string_view utf8) {
  std::u32string characters;
  characters.reserve(utf8.size());
  while (!utf8.empty()) {
    const auto [code, length] = next_code_point(utf8);
    characters += static_cast<char32_t>(code);
    utf8.remove_prefix(length);
  }
  return characters;
}

std::string to_utf8(char32_t character) {
  const auto c = static_cast<std::uint32_t>(character);
  const auto byte = [](std::uint32_t bits) {
    return static_cast<char>(static_cast<unsigned char>(bits));
  };
  const auto tail = [&](int shift) { return byte(0x80 | (c >> shift & 0x3f)); };
  if (c < 0x80) return {byte(c)};
  if (c < 0x800) return {byte(0xc0 | c >> 6), tail(0)};
  if (c < 0x10000) return {byte(0xe0 | c >> 12), tail(6), tail(0)};
  return {byte(0xf0 | c >> 18), tail(12), tail(6), tail(0)};
}

std::string to_utf8(std::u32string_view characters) {
  std::string utf8;
  for (const char32_t character : characters)
    utf8 += to_utf8(character);
  return utf8;
}

} // namespace shankline
