// Days as an iCalendar file (RFC 5545), for whatever calendar somebody keeps.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace shankline {

struct CalendarEvent {
  /// The event's UID is the hash of this text. An event that keeps it is changed by a second
  /// import, not added once more.
  std::string identity;
  std::string day; ///< YYYY-MM-DD
  std::string at;  ///< "19:30", floating local time; empty for the whole day
  int minutes = 0; ///< how long, where it has a time
  std::string summary;
  std::string description; ///< may be empty
};

/// Writes them with libical, which is loaded for it. `stamped` is the day that the file says it was
/// made on, so that the same records give the same bytes. Throws EnvironmentFault where the library
/// is missing.
std::string calendar_file(const std::vector<CalendarEvent>& events, std::string_view stamped);

} // namespace shankline
