// Maps the codes of an embedded face to characters, so that the text of a PDF can be searched and
// copied.
#pragma once

#include <string>
#include <string_view>

namespace shankline {

/// A ToUnicode CMap (ISO 32000-1, 9.10.3) for codes that are the characters themselves, of the
/// basic plane. The library writes a mapping that readers object to: of glyphs, where one of
/// characters belongs.
std::string character_map(std::u32string_view characters);

} // namespace shankline
