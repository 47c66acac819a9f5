// Several words in one text.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace shankline {

/// All of them, with `between` between two.
template <class Words> std::string joined(const Words& words, std::string_view between) {
  std::string text;
  bool first = true;
  for (const auto& word : words) {
    if (!first) text += between;
    text += word;
    first = false;
  }
  return text;
}

/// "cut, check and chart", or with "or" before the last.
std::string in_words(const std::vector<std::string>& words, std::string_view last = "and");

} // namespace shankline
