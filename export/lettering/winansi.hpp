// The faces that every PDF carries: which code shows a character.
#pragma once

namespace shankline {

/// The character's code in WinAnsiEncoding (ISO 32000-1, annex D); 0 if it has none. The minus sign
/// U+2212, which that encoding lacks, gets a code that it leaves free.
char winansi_byte(char32_t character);

inline constexpr char minus_code = '\x81';

} // namespace shankline
