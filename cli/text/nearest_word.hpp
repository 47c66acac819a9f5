// The known word that a misspelt one was most likely meant to be.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

/// The known word with the fewest slips of the pen (a letter more, less, other, or two swapped;
/// case does not count), the first of equals; nullopt if even that one is too different.
std::optional<std::string_view> nearest_word(std::string_view word,
                                             std::span<const std::string_view> known);

/// " Did you mean 'cut'?", or empty.
std::string guess_words(std::string_view word, std::span<const std::string_view> known);
std::string guess_words(std::string_view word, const std::vector<std::string>& known);

} // namespace shankline
