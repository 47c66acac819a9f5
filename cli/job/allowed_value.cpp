#include "cli/job/allowed_value.hpp"

#include "cli/text/message.hpp"
#include "cli/text/nearest_word.hpp"
#include "cli/text/word_list.hpp"

#include <algorithm>
#include <charconv>
#include <utility>

namespace shankline {
namespace {

std::string range_words(long long least, long long most, const std::string& between) {
  return std::to_string(least) + between + std::to_string(most);
}

template <class Number>
AllowedValue number(long long least, long long most, const std::string& kind,
                    const std::string& type) {
  return {[=](const std::string& typed) {
            Number value{};
            const char* const end = typed.data() + typed.size();
            const auto [rest, error] = std::from_chars(typed.data(), end, value);
            // Written so that what is not a number at all (nan) is refused as well.
            if (error == std::errc() && rest == end && value >= static_cast<Number>(least) &&
                value <= static_cast<Number>(most))
              return std::string();
            return shown(typed) + " is not " + kind + " from " + range_words(least, most, " to ") +
                   '.' +
                   (typed.find(',') == std::string::npos ? "" : " Decimals stand behind a point.");
          },
          type + " in [" + range_words(least, most, " - ") + "]"};
}

} // namespace

AllowedValue one_of(std::vector<std::string> words) {
  const std::string list = "{" + joined(words, ",") + "}";
  return {[words = std::move(words)](const std::string& typed) {
            if (std::find(words.begin(), words.end(), typed) != words.end()) return std::string();
            return shown(typed) + " is not " + in_words(words, "or") + '.' +
                   guess_words(typed, words);
          },
          list};
}

AllowedValue whole_number(long long least, long long most) {
  return number<long long>(least, most, "a whole number", "INT");
}

AllowedValue plain_number(long long least, long long most) {
  return number<double>(least, most, "a number without a unit", "FLOAT");
}

} // namespace shankline
