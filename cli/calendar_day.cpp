#include "cli/calendar_day.hpp"

#include "cli/characters.hpp"

#include <charconv>
#include <chrono>

namespace shankline {

bool is_calendar_day(std::string_view text) {
  constexpr std::string_view form = "0000-00-00";
  if (text.size() != form.size()) return false;
  for (std::size_t i = 0; i < form.size(); ++i) {
    if (form[i] == '0' ? !is_digit(text[i]) : text[i] != form[i]) return false;
  }
  const auto number = [text](std::size_t from, std::size_t count) {
    unsigned value = 0;
    std::from_chars(text.data() + from, text.data() + from + count, value);
    return value;
  };
  const std::chrono::year_month_day day{std::chrono::year(static_cast<int>(number(0, 4))),
                                        std::chrono::month(number(5, 2)),
                                        std::chrono::day(number(8, 2))};
  return day.ok();
}

} // namespace shankline
