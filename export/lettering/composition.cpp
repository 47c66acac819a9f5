#include "export/lettering/composition.hpp"

#include "export/lettering/code_point.hpp"

#include <algorithm>

namespace shankline {

std::u32string composed(std::u32string_view characters) {
  // Nothing below U+0300 is a mark, or composes or changes by itself: nearly every text.
  constexpr char32_t combining_first = 0x0300;
  if (std::all_of(characters.begin(), characters.end(),
                  [](char32_t character) { return character < combining_first; }))
    return std::u32string(characters);
  return code_points(normal_form(to_utf8(characters)));
}

} // namespace shankline
