// Words that begin a sentence.
#pragma once

#include <string>
#include <string_view>

namespace shankline {

/// Makes the first letter a capital if it is of the plain Latin alphabet.
inline std::string capital(std::string_view words) {
  std::string text(words);
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z')
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
  return text;
}

} // namespace shankline
