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

} // namespace shankline
