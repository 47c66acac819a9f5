// Days of the calendar: read as people write them, kept as 2026-03-14.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace shankline {

/// Returns true if the text is year-month-day and there is such a day.
bool is_calendar_day(std::string_view text);

/// The user's own day as year-month-day, or that of SOURCE_DATE_EPOCH if it is set. Throws
/// EnvironmentFault where that variable holds something else.
std::string today();

/// Returns true if a year-month-day lies ahead of today(), and of the computer's clock too: a
/// SOURCE_DATE_EPOCH of last year makes no try of this year one to come. Throws like today().
bool lies_ahead(std::string_view day);

/// Returns the days from `from` to `to`, negative if `to` comes first; nullopt if one of them is
/// not a year-month-day of the calendar.
std::optional<int> days_between(std::string_view from, std::string_view to);

/// A day that was read, or why the text is none.
struct ParsedDay {
  std::string day;    ///< year-month-day; empty if the text is not a day
  std::string what;   ///< what is wrong with the text; empty if it is a day
  std::string advice; ///< how to write it
};

inline constexpr const char* day_forms = "2026-03-14, 14 March 2026, 14 Mar 2026 or March 14, 2026";

/// Reads year-month-day, and days with the month in English words. A day in figures with slashes
/// or points is refused, since countries read it differently, and "today" too: a file has to say
/// the same tomorrow.
ParsedDay read_calendar_day(std::string_view text);

/// Like read_calendar_day, for text that a person types: reads "today" too if standard input is a
/// terminal.
ParsedDay read_typed_day(std::string_view text);

} // namespace shankline
