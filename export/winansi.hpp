// Text for the base fonts of a PDF: UTF-8 to WinAnsi, and what that cannot show.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace shankline {

struct WinAnsiText {
  std::string bytes;                ///< unknown characters are '?'
  std::vector<std::string> missing; ///< those characters in UTF-8, each once, in order
};

/// 0 where there is none.
char winansi_byte(char32_t character);

/// WinAnsiEncoding as in ISO 32000-1, annex D. The minus sign U+2212, which it lacks, becomes the
/// en dash, which is as wide and as high in the base fonts.
WinAnsiText to_winansi(std::string_view utf8);

} // namespace shankline
