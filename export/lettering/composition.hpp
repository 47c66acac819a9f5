// Letters and the marks that follow them, put together where there is one character for both.
#pragma once

#include <string>
#include <string_view>

namespace shankline {

/// Unicode's normalization form C (UAX 15). Marks without such a form stay as they are.
std::u32string composed(std::u32string_view characters);

/// Characters of nearly every text, none of which is a mark, takes one, or has another form: a text
/// of them needs no library. Others may stay as they are as well.
bool stays_as_it_is(char32_t character);

} // namespace shankline
