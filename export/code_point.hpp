// UTF-8 taken apart, one character at a time.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <utility>

namespace shankline {

/// The first code point of `utf8`, which is not empty, and its length in bytes. A stray byte counts
/// as one unknown character, U+FFFD.
std::pair<std::uint32_t, std::size_t> next_code_point(std::string_view utf8);

/// C0, DEL, C1, and what is no character at all.
bool is_control(std::uint32_t code);

} // namespace shankline
