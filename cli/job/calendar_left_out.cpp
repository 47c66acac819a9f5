// Replaces calendar_file.cpp in builds without the header of libical.
#include "cli/job/calendar_file.hpp"

#include "cli/surroundings/source_date.hpp"

namespace shankline {

std::string calendar_file(const std::vector<CalendarEvent>&, std::string_view) {
  throw EnvironmentFault("this program was built without calendars: build it again with the Debian "
                         "package libical-dev, or leave --calendar out");
}

} // namespace shankline
