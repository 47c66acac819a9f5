#include "cli/job/calendar_file.hpp"

#include "cli/surroundings/loaded_library.hpp"
#include "cli/surroundings/source_date.hpp"
#include "export/formats/digest.hpp"

#include <libical/ical.h>

#include <cstdlib>
#include <memory>

namespace shankline {
namespace {

/// The functions of libical that are needed here, looked up by name.
class Library : LoadedLibrary {
public:
  decltype(&icalcomponent_new) component = nullptr;
  decltype(&icalcomponent_free) free_component = nullptr;
  decltype(&icalcomponent_add_property) add_property = nullptr;
  decltype(&icalcomponent_add_component) add_component = nullptr;
  decltype(&icalcomponent_as_ical_string_r) text = nullptr;
  decltype(&icalproperty_new_version) version = nullptr;
  decltype(&icalproperty_new_prodid) product = nullptr;
  decltype(&icalproperty_new_uid) uid = nullptr;
  decltype(&icalproperty_new_dtstamp) stamp = nullptr;
  decltype(&icalproperty_new_dtstart) start = nullptr;
  decltype(&icalproperty_new_duration) duration = nullptr;
  decltype(&icalproperty_new_summary) summary = nullptr;
  decltype(&icalproperty_new_description) description = nullptr;
  decltype(&icalproperty_new_transp) transparency = nullptr;
  decltype(&icaltime_from_string) time = nullptr;
  decltype(&icaldurationtype_from_int) seconds = nullptr;

  Library() : LoadedLibrary("libical.so.3") {
    ready_ = loaded() && look_up(component, "icalcomponent_new") &&
             look_up(free_component, "icalcomponent_free") &&
             look_up(add_property, "icalcomponent_add_property") &&
             look_up(add_component, "icalcomponent_add_component") &&
             look_up(text, "icalcomponent_as_ical_string_r") &&
             look_up(version, "icalproperty_new_version") &&
             look_up(product, "icalproperty_new_prodid") && look_up(uid, "icalproperty_new_uid") &&
             look_up(stamp, "icalproperty_new_dtstamp") &&
             look_up(start, "icalproperty_new_dtstart") &&
             look_up(duration, "icalproperty_new_duration") &&
             look_up(summary, "icalproperty_new_summary") &&
             look_up(description, "icalproperty_new_description") &&
             look_up(transparency, "icalproperty_new_transp") &&
             look_up(time, "icaltime_from_string") && look_up(seconds, "icaldurationtype_from_int");
  }
  bool ready() const { return ready_; }

private:
  bool ready_ = false;
};

const Library& library() {
  static const Library loaded;
  return loaded;
}

/// "20270104", and "20270104T193000" with a time.
std::string ical_time(std::string_view day, std::string_view at) {
  std::string text;
  for (const char c : day)
    if (c != '-') text += c;
  if (at.empty()) return text;
  return text + "T" + std::string(at.substr(0, 2)) + std::string(at.substr(3, 2)) + "00";
}

icalcomponent* event_of(const CalendarEvent& event, std::string_view stamped) {
  const Library& ical = library();
  icalcomponent* made = ical.component(ICAL_VEVENT_COMPONENT);
  const auto add = [&](icalproperty* property) { ical.add_property(made, property); };
  const std::string uid = sha256("shankline-calendar/1\n" + event.identity).substr(0, 40);
  add(ical.uid(uid.c_str()));
  add(ical.stamp(ical.time((ical_time(stamped, "00:00") + "Z").c_str())));
  add(ical.start(ical.time(ical_time(event.day, event.at).c_str())));
  if (!event.at.empty() && event.minutes > 0) add(ical.duration(ical.seconds(event.minutes * 60)));
  add(ical.summary(event.summary.c_str()));
  if (!event.description.empty()) add(ical.description(event.description.c_str()));
  // A reminder: it makes nobody busy.
  if (event.at.empty()) add(ical.transparency(ICAL_TRANSP_TRANSPARENT));
  return made;
}

} // namespace

std::string calendar_file(const std::vector<CalendarEvent>& events, std::string_view stamped) {
  const Library& ical = library();
  if (!ical.ready())
    throw EnvironmentFault("a calendar is written with the library libical, and it is not here: "
                           "install it, on Debian as libical3, or leave --calendar out");
  const std::unique_ptr<icalcomponent, decltype(ical.free_component)> calendar(
      ical.component(ICAL_VCALENDAR_COMPONENT), ical.free_component);
  ical.add_property(calendar.get(), ical.product("-//shankline//rotation//EN"));
  ical.add_property(calendar.get(), ical.version("2.0"));
  for (const CalendarEvent& event : events)
    ical.add_component(calendar.get(), event_of(event, stamped));
  const std::unique_ptr<char, void (*)(void*)> text(ical.text(calendar.get()), std::free);
  return text.get();
}

} // namespace shankline
