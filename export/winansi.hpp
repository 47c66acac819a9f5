// The base fonts of a PDF: which byte shows a character.
#pragma once

namespace shankline {

/// By WinAnsiEncoding (ISO 32000-1, annex D); 0 where there is none. The minus sign U+2212, which
/// it lacks, becomes the en dash, which is as wide and as high in the base fonts.
char winansi_byte(char32_t character);

} // namespace shankline
