#include "cli/text_columns.hpp"

#include <algorithm>

namespace shankline {

std::size_t characters_in(const std::string& text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xc0) != 0x80;
  }));
}

std::string padded(std::string text, std::size_t width) {
  const std::size_t length = characters_in(text);
  if (length < width) text.append(width - length, ' ');
  return text;
}

std::string right_aligned(const std::string& text, std::size_t width) {
  const std::size_t length = characters_in(text);
  return length < width ? std::string(width - length, ' ') + text : text;
}

std::vector<std::string> wrapped(std::string_view words, std::size_t width) {
  std::vector<std::string> lines;
  while (!words.empty()) {
    const std::string word(words.substr(0, words.find(' ')));
    words.remove_prefix(std::min(words.size(), word.size() + 1));
    const bool fits =
        !lines.empty() && characters_in(lines.back()) + 1 + characters_in(word) <= width;
    if (fits)
      lines.back() += ' ' + word;
    else
      lines.push_back(word);
  }
  return lines;
}

} // namespace shankline
