// Quotation marks and brackets left open, found in the text itself: the YAML reader notices them
// only lines later.
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

namespace shankline {

/// Returns true if a text in quotation marks begins at this byte and does not end on its line.
bool leaves_quote_open(std::string_view text, std::size_t at);

/// The first such byte from `from` on.
std::optional<std::size_t> find_open_quote(std::string_view text, std::size_t from);

/// The innermost bracket that is still open at the byte `until`.
std::optional<std::size_t> find_open_bracket(std::string_view text, std::size_t until);

} // namespace shankline
