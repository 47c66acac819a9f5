// Letters and the marks that follow them, put together where there is one character for both.
#pragma once

#include <string>
#include <string_view>

namespace shankline {

/// As in Unicode's form NFC for Latin, Greek and Cyrillic letters, kana and Hangul syllables, for
/// marks in their canonical order. Other characters, and marks without such a form, stay as they
/// are.
std::u32string composed(std::u32string_view characters);

} // namespace shankline
