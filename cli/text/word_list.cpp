#include "cli/text/word_list.hpp"

#include <cstddef>

namespace shankline {

std::string in_words(const std::vector<std::string>& words, std::string_view last) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0 && i + 1 == words.size())
      text.append(" ").append(last).append(" ");
    else if (i > 0)
      text += ", ";
    text += words[i];
  }
  return text;
}

} // namespace shankline
