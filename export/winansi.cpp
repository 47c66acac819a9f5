#include "export/winansi.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <utility>

namespace shankline {
namespace {

// 0x80 to 0x9f of WinAnsiEncoding; 0 where there is no character.
constexpr std::array<std::uint32_t, 32> high_controls{
    0x20ac, 0,      0x201a, 0x0192, 0x201e, 0x2026, 0x2020, 0x2021, 0x02c6, 0x2030, 0x0160,
    0x2039, 0x0152, 0,      0x017d, 0,      0,      0x2018, 0x2019, 0x201c, 0x201d, 0x2022,
    0x2013, 0x2014, 0x02dc, 0x2122, 0x0161, 0x203a, 0x0153, 0,      0x017e, 0x0178};
constexpr std::uint32_t minus_sign = 0x2212;
constexpr char en_dash_byte = '\x96';

/// The next code point and its length in bytes; a stray byte counts as one unknown character.
std::pair<std::uint32_t, std::size_t> next_code_point(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char lead = byte(0);
  if (lead < 0x80) return {lead, 1};
  const std::size_t length = lead >= 0xf0 ? 4 : lead >= 0xe0 ? 3 : lead >= 0xc2 ? 2 : 0;
  if (length == 0 || length > text.size()) return {0xfffd, 1};
  std::uint32_t code = lead & (0x7fu >> length);
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xc0) != 0x80) return {0xfffd, 1};
    code = code << 6 | (byte(i) & 0x3fu);
  }
  return {code, length};
}

char winansi_byte(std::uint32_t code) {
  if (code == minus_sign) return en_dash_byte;
  if ((code >= 0x20 && code < 0x7f) || (code >= 0xa0 && code <= 0xff))
    return static_cast<char>(static_cast<unsigned char>(code));
  const auto found = std::find(high_controls.begin(), high_controls.end(), code);
  if (code == 0 || found == high_controls.end()) return 0;
  return static_cast<char>(
      static_cast<unsigned char>(0x80 + std::distance(high_controls.begin(), found)));
}

} // namespace

WinAnsiText to_winansi(std::string_view utf8) {
  WinAnsiText result;
  while (!utf8.empty()) {
    const auto [code, length] = next_code_point(utf8);
    const char byte = winansi_byte(code);
    result.bytes += byte ? byte : '?';
    if (!byte) {
      std::string character(utf8.substr(0, length));
      if (std::find(result.missing.begin(), result.missing.end(), character) ==
          result.missing.end())
        result.missing.push_back(std::move(character));
    }
    utf8.remove_prefix(length);
  }
  return result;
}

} // namespace shankline
