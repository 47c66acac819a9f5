#include "export/lettering/code_point.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <memory>
#include <new>
#include <optional>
#include <stdexcept>
#include <utf8proc.h>

namespace shankline {
namespace {

/// The first character of `utf8` and its length in bytes; nullopt if none begins there.
std::optional<std::pair<std::uint32_t, std::size_t>> valid_code_point(std::string_view utf8) {
  utf8proc_int32_t code = 0;
  const utf8proc_ssize_t length =
      utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(utf8.data()),
                       static_cast<utf8proc_ssize_t>(utf8.size()), &code);
  if (length <= 0) return {};
  return std::pair{static_cast<std::uint32_t>(code), static_cast<std::size_t>(length)};
}

} // namespace

std::pair<std::uint32_t, std::size_t> next_code_point(std::string_view utf8) {
  const auto byte = static_cast<unsigned char>(utf8.front());
  if (byte < 0x80) return {byte, 1};
  return valid_code_point(utf8).value_or(std::pair{std::uint32_t{0xfffd}, std::size_t{1}});
}

std::size_t character_length(std::string_view utf8) {
  const auto found = valid_code_point(utf8);
  return found ? found->second : 0;
}

std::string normal_form(std::string_view utf8) {
  utf8proc_uint8_t* bytes = nullptr;
  const utf8proc_ssize_t length =
      utf8proc_map(reinterpret_cast<const utf8proc_uint8_t*>(utf8.data()),
                   static_cast<utf8proc_ssize_t>(utf8.size()), &bytes,
                   static_cast<utf8proc_option_t>(UTF8PROC_STABLE | UTF8PROC_COMPOSE));
  if (length == UTF8PROC_ERROR_NOMEM) throw std::bad_alloc();
  if (length < 0) throw std::invalid_argument(utf8proc_errmsg(length));
  const std::unique_ptr<utf8proc_uint8_t, decltype(&std::free)> owned(bytes, &std::free);
  return {reinterpret_cast<const char*>(bytes), static_cast<std::size_t>(length)};
}

std::size_t columns_of(std::string_view utf8) {
  std::size_t columns = 0;
  while (!utf8.empty()) {
    const auto [code, length] = next_code_point(utf8);
    columns +=
        code < 0x7f
            ? 1
            : static_cast<std::size_t>(utf8proc_charwidth(static_cast<utf8proc_int32_t>(code)));
    utf8.remove_prefix(length);
  }
  return columns;
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
  std::array<utf8proc_uint8_t, 4> bytes{};
  auto length = utf8proc_encode_char(static_cast<utf8proc_int32_t>(character), bytes.data());
  if (length == 0) length = utf8proc_encode_char(0xfffd, bytes.data());
  return {reinterpret_cast<const char*>(bytes.data()), static_cast<std::size_t>(length)};
}

std::string to_utf8(std::u32string_view characters) {
  std::string utf8;
  for (const char32_t character : characters)
    utf8 += to_utf8(character);
  return utf8;
}

} // namespace shankline
