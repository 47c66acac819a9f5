#include "export/lettering/winansi.hpp"

#include <algorithm>
#include <array>

namespace shankline {
namespace {

// 0x80 to 0x9f of WinAnsiEncoding; 0 where there is no character.
constexpr std::array<char32_t, 32> high_controls{
    0x20ac, 0,      0x201a, 0x0192, 0x201e, 0x2026, 0x2020, 0x2021, 0x02c6, 0x2030, 0x0160,
    0x2039, 0x0152, 0,      0x017d, 0,      0,      0x2018, 0x2019, 0x201c, 0x201d, 0x2022,
    0x2013, 0x2014, 0x02dc, 0x2122, 0x0161, 0x203a, 0x0153, 0,      0x017e, 0x0178};
constexpr char32_t minus_sign = 0x2212;

} // namespace

char winansi_byte(char32_t code) {
  if (code == minus_sign) return minus_code;
  if ((code >= 0x20 && code < 0x7f) || (code >= 0xa0 && code <= 0xff))
    return static_cast<char>(static_cast<unsigned char>(code));
  const auto found = std::find(high_controls.begin(), high_controls.end(), code);
  if (code == 0 || found == high_controls.end()) return 0;
  return static_cast<char>(
      static_cast<unsigned char>(0x80 + std::distance(high_controls.begin(), found)));
}

} // namespace shankline
