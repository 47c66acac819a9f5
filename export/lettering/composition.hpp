// Letters and the marks that follow them, put together where there is one character for both.
#pragma once

#include <string>
#include <string_view>

namespace shankline {

/// Unicode's normalization form C (UAX 15). Marks without such a form stay as they are.
std::u32string composed(std::u32string_view characters);

} // namespace shankline
