#include "export/lettering/composition.hpp"

#include "export/lettering/code_point.hpp"

#include <algorithm>

namespace shankline {

bool stays_as_it_is(char32_t character) {
  constexpr char32_t combining_first = 0x0300;
  constexpr char32_t dashes_first = 0x2010; // and quotation marks, dots
  constexpr char32_t dashes_end = 0x2028;
  constexpr char32_t minus = 0x2212;
  return character < combining_first || (character >= dashes_first && character < dashes_end) ||
         character == minus;
}

std::u32string composed(std::u32string_view characters) {
  if (std::all_of(characters.begin(), characters.end(), stays_as_it_is))
    return std::u32string(characters);
  return code_points(normal_form(to_utf8(characters)));
}

} // namespace shankline
