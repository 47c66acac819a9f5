#include "cli/surroundings/calendar_day.hpp"

#include "cli/surroundings/source_date.hpp"
#include "cli/text/characters.hpp"
#include "cli/text/message.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>
#include <ctime>
#include <unistd.h>
#include <vector>

namespace shankline {
namespace {

constexpr std::array<std::string_view, 12> months{"january",   "february", "march",    "april",
                                                  "may",       "june",     "july",     "august",
                                                  "september", "october",  "november", "december"};

/// Returns the text in lower case, without commas and without spaces at the ends.
std::string plain(std::string_view text) {
  std::string words;
  for (const char c : text) {
    const bool gap = c == ' ' || c == ',';
    if (gap && (words.empty() || words.back() == ' ')) continue;
    words += gap ? ' ' : lower(c);
  }
  if (words.ends_with(' ')) words.pop_back();
  return words;
}

std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words;
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    words.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return words;
}

/// The whole text as a number of at least `least` and at most `most` figures; 0 if it is none.
unsigned number(std::string_view text, std::size_t least, std::size_t most) {
  if (text.size() < least || text.size() > most || !std::all_of(text.begin(), text.end(), is_digit))
    return 0;
  unsigned value = 0;
  std::from_chars(text.data(), text.data() + text.size(), value);
  return value;
}

/// 1 to 12 for a month's name, or its beginning of three letters or more; 0 for another word.
unsigned month_named(std::string_view word) {
  if (word.ends_with('.')) word.remove_suffix(1);
  if (word.size() < 3 || !std::all_of(word.begin(), word.end(), is_letter)) return 0;
  for (unsigned i = 0; i < months.size(); ++i)
    if (months[i].starts_with(word)) return i + 1;
  return 0;
}

/// "12", "12." or "12th"; 0 for another word.
unsigned day_of_month(std::string_view word) {
  for (const std::string_view ending : {".", "st", "nd", "rd", "th"})
    if (word.ends_with(ending)) {
      word.remove_suffix(ending.size());
      break;
    }
  return number(word, 1, 2);
}

std::string two_digits(unsigned value) {
  return (value < 10 ? "0" : "") + std::to_string(value);
}

std::string iso(unsigned year, unsigned month, unsigned day) {
  return std::to_string(year) + "-" + two_digits(month) + "-" + two_digits(day);
}

std::string in_words(unsigned year, unsigned month, unsigned day) {
  std::string name(months[month - 1]);
  name[0] = upper(name[0]);
  return std::to_string(day) + " " + name + " " + std::to_string(year);
}

/// A day with its month in words, whether or not there is such a day; empty for other texts.
std::string with_month_in_words(const std::string& text) {
  const std::vector<std::string> words = words_of(text);
  if (words.size() != 3) return {};
  const unsigned year = number(words[2], 4, 4);
  for (const std::size_t month_first : {std::size_t(0), std::size_t(1)}) {
    const unsigned month = month_named(words[1 - month_first]);
    const unsigned day = day_of_month(words[month_first]);
    if (year > 0 && month > 0 && day > 0) return iso(year, month, day);
  }
  return {};
}

/// Figures with slashes, points or dashes between them, in whatever order; three of them.
std::vector<std::string> figures_alone(const std::string& text) {
  std::vector<std::string> parts(1);
  for (const char c : text) {
    if (is_digit(c))
      parts.back() += c;
    else if (c == '/' || c == '.' || c == '-')
      parts.emplace_back();
    else if (c != ' ')
      return {};
  }
  const bool whole =
      parts.size() == 3 && std::none_of(parts.begin(), parts.end(),
                                        [](const auto& p) { return p.empty() || p.size() > 4; });
  return whole ? parts : std::vector<std::string>();
}

/// Why a day in figures alone is not guessed, with the days that it may be.
ParsedDay refused_figures(std::string_view text, const std::vector<std::string>& parts) {
  const unsigned a = number(parts[0], 1, 2);
  const unsigned b = number(parts[1], 1, 2);
  const unsigned year = number(parts[2], 4, 4);
  const std::string day_first = year > 0 ? iso(year, b, a) : std::string();
  const std::string month_first = year > 0 ? iso(year, a, b) : std::string();
  ParsedDay refused{{},
                    shown(text) +
                        " is not read: some countries write the day first, some the month",
                    "write year-month-day, or the month in words: 2026-03-14 or 14 March 2026"};
  const bool may_be_day_first = is_calendar_day(day_first);
  const bool may_be_month_first = is_calendar_day(month_first);
  if (may_be_day_first && may_be_month_first && a != b)
    refused.advice = "write " + day_first + " or " + in_words(year, b, a) + "; or write " +
                     month_first + " or " + in_words(year, a, b);
  else if (may_be_day_first)
    refused.advice = "write " + day_first + " or " + in_words(year, b, a);
  else if (may_be_month_first)
    refused.advice = "write " + month_first + " or " + in_words(year, a, b);
  return refused;
}

/// The day that the text gives as year-month-day; nullopt if there is none.
std::optional<std::chrono::year_month_day> day_of_form(std::string_view text) {
  constexpr std::string_view form = "0000-00-00";
  if (text.size() != form.size()) return {};
  for (std::size_t i = 0; i < form.size(); ++i) {
    if (form[i] == '0' ? !is_digit(text[i]) : text[i] != form[i]) return {};
  }
  const auto part = [text](std::size_t at, std::size_t count) {
    unsigned value = 0;
    std::from_chars(text.data() + at, text.data() + at + count, value);
    return value;
  };
  const std::chrono::year_month_day day{std::chrono::year(static_cast<int>(part(0, 4))),
                                        std::chrono::month(part(5, 2)),
                                        std::chrono::day(part(8, 2))};
  if (!day.ok()) return {};
  return day;
}

std::string iso(const std::tm& parts) {
  return iso(static_cast<unsigned>(parts.tm_year + 1900), static_cast<unsigned>(parts.tm_mon + 1),
             static_cast<unsigned>(parts.tm_mday));
}

/// The user's own day by the computer's clock.
std::string clock_day() {
  const std::time_t now = std::time(nullptr);
  std::tm parts{};
  return iso(*localtime_r(&now, &parts));
}

} // namespace

bool is_calendar_day(std::string_view text) {
  return day_of_form(text).has_value();
}

std::optional<int> days_between(std::string_view from, std::string_view to) {
  const auto first = day_of_form(from);
  const auto last = day_of_form(to);
  if (!first || !last) return {};
  return static_cast<int>((std::chrono::sys_days(*last) - std::chrono::sys_days(*first)).count());
}

std::string today() {
  const auto given = source_date();
  if (!given) return clock_day();
  const std::time_t now = static_cast<std::time_t>(*given);
  std::tm parts{};
  return iso(*gmtime_r(&now, &parts));
}

bool lies_ahead(std::string_view day) {
  return day > std::max(today(), clock_day());
}

ParsedDay read_calendar_day(std::string_view text) {
  const std::string words = plain(text);
  if (is_calendar_day(words)) return {words, {}, {}};
  const std::string named = with_month_in_words(words);
  if (is_calendar_day(named)) return {named, {}, {}};
  if (words == "today")
    return {{}, "'today' is another day tomorrow", "write the day itself, such as 2026-03-14"};
  const std::vector<std::string> figures = figures_alone(words);
  if (!figures.empty() && figures[0].size() <= 2) return refused_figures(text, figures);
  return {
      {}, shown(text) + " is not a day of the calendar", std::string("write it as ") + day_forms};
}

ParsedDay read_typed_day(std::string_view text) {
  if (plain(text) == "today" && isatty(STDIN_FILENO) != 0) return {today(), {}, {}};
  return read_calendar_day(text);
}

} // namespace shankline
