#include "cli/order_file/seen_words.hpp"

#include "cli/text/characters.hpp"

namespace shankline {
namespace {

/// Words of version 0.2. They were replaced because people took "right" for the right foot.
constexpr Word<Seen> former_words[] = {
    {"right", Seen::right},
    {"low", Seen::low},
    {"over", Seen::over_the_platform},
};

} // namespace

std::string seen_word(std::string_view typed) {
  std::string word;
  for (const char c : typed)
    word += c == ' ' || c == '_' ? '-' : lower(c);
  for (const Word<Seen>& offered : seen_words)
    if (offered.word == word) return word;
  for (const Word<Seen>& former : former_words)
    if (former.word == word) return word_for(former.meaning, seen_words);
  return {};
}

} // namespace shankline
