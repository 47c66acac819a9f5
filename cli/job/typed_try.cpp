#include "cli/job/typed_try.hpp"

#include "cli/job/allowed_value.hpp"
#include "cli/order_file/seen_words.hpp"
#include "cli/surroundings/calendar_day.hpp"
#include "cli/text/message.hpp"
#include "cli/text/quantity.hpp"

#include <algorithm>
#include <utility>

namespace shankline {
namespace {

constexpr double longest_board = 400; // mm

std::string trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(' ');
  if (first == std::string_view::npos) return {};
  return std::string(text.substr(first, text.find_last_not_of(' ') - first + 1));
}

Advice form(std::string what) {
  while (what.ends_with('.'))
    what.pop_back();
  return {std::move(what), typed_try_form, "write each try as one word"};
}

} // namespace

Result<TypedTry> read_typed_try(std::string_view text) {
  const std::size_t colon = text.find(':');
  if (colon == std::string_view::npos) return form(shown(std::string(text)) + " is not a try");
  TypedTry typed;
  const auto end = parse_quantity(trimmed(text.substr(0, colon)), Quantity::length);
  if (!end) return form(end.why().what);
  if (*end < 0 || *end > longest_board)
    return form("an end of " + number_text(*end) + " lies on no board");
  typed.end = *end;
  std::string_view rest = text.substr(colon + 1);
  for (bool first = true; first || !rest.empty(); first = false) {
    const std::size_t comma = std::min(rest.find(','), rest.size());
    const std::string word = trimmed(rest.substr(0, comma));
    rest.remove_prefix(std::min(comma + 1, rest.size()));
    if (first) {
      typed.seen = seen_word(word);
      if (typed.seen.empty()) return form(one_of(names_of(seen_words)).fault(word));
    } else if (word == "worn" && !typed.worn) {
      typed.worn = true;
    } else {
      ParsedDay day = read_typed_day(word);
      if (!day.what.empty()) return form(day.what + ": " + day.advice);
      if (!typed.day.empty()) return form("two days are given: " + shown(std::string(text)));
      typed.day = std::move(day.day);
    }
  }
  return typed;
}

} // namespace shankline
