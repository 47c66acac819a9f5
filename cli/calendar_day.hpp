// Days of the calendar as they are written: 2026-03-14.
#pragma once

#include <string_view>

namespace shankline {

/// Whether the text is year-month-day and there is such a day.
bool is_calendar_day(std::string_view text);

} // namespace shankline
