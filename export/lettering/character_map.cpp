#include "export/lettering/character_map.hpp"

namespace shankline {

std::string character_map(std::u32string_view characters) {
  constexpr std::string_view digits = "0123456789ABCDEF";
  const auto code = [&](char32_t c) {
    std::string hex = "<";
    for (const int shift : {12, 8, 4, 0})
      hex += digits[c >> shift & 0xf];
    return hex + ">";
  };
  std::string map = "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
                    "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
                    "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
                    "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n";
  constexpr std::size_t most = 100; // entries of one list, by the format
  for (std::size_t i = 0; i < characters.size(); i += most) {
    const std::u32string_view part = characters.substr(i, most);
    map += std::to_string(part.size()) + " beginbfchar\n";
    for (const char32_t c : part)
      map += code(c) + " " + code(c) + "\n";
    map += "endbfchar\n";
  }
  return map + "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
}

} // namespace shankline
