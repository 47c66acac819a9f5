// The calendar, read back by the library that wrote it and by two readers of others.
#include "cli/job/calendar_file.hpp"

#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <libical/ical.h>
#include <memory>
#include <set>

namespace shankline::tests::calendar_file_test {
namespace {

std::vector<CalendarEvent> events() {
  std::vector<CalendarEvent> all{
      {"wear\nM-07\n2027-01-04\n0", "2027-01-04", "", 0, "M-07: pair 12, 2 h", ""},
      {"wear\nM-07\n2027-01-05\n0", "2027-01-05", "19:30", 90, "M-07: pair 13, damp; 1.5 h",
       "Commas, semicolons; a \\ and\ntwo lines."}};
  CalendarEvent longest = all[0];
  longest.identity = "order\nM-07";
  longest.day = "2027-02-28";
  longest.description = std::string(300, 'x') + " \u00e9\u4e00 end";
  all.push_back(longest);
  return all;
}

/// Value of a property of the event with this start, as libical reads it.
struct ReadEvent {
  std::string uid, start, summary, description, duration;
};

std::vector<ReadEvent> read_back(const std::string& text) {
  const std::unique_ptr<icalcomponent, void (*)(icalcomponent*)> calendar(
      icalparser_parse_string(text.c_str()), icalcomponent_free);
  EXPECT_TRUE(calendar);
  std::vector<ReadEvent> read;
  if (!calendar) return read;
  EXPECT_EQ(icalcomponent_count_errors(calendar.get()), 0);
  for (icalcomponent* event =
           icalcomponent_get_first_component(calendar.get(), ICAL_VEVENT_COMPONENT);
       event; event = icalcomponent_get_next_component(calendar.get(), ICAL_VEVENT_COMPONENT)) {
    const auto text_of = [](const char* said) { return std::string(said ? said : ""); };
    const icaltimetype start = icalcomponent_get_dtstart(event);
    EXPECT_FALSE(icaltime_is_utc(start)) << "local time";
    EXPECT_EQ(start.zone, nullptr) << "floating";
    read.push_back({text_of(icalcomponent_get_uid(event)), icaltime_as_ical_string(start),
                    text_of(icalcomponent_get_summary(event)),
                    text_of(icalcomponent_get_description(event)),
                    icaldurationtype_as_ical_string(icalcomponent_get_duration(event))});
  }
  return read;
}

TEST(CalendarFile, ReadsBackAsItWasWritten) {
  const std::string text = calendar_file(events(), "2027-01-02");
  const std::vector<ReadEvent> read = read_back(text);
  ASSERT_EQ(read.size(), 3u);
  EXPECT_EQ(read[0].start, "20270104");
  EXPECT_EQ(read[0].summary, "M-07: pair 12, 2 h");
  EXPECT_EQ(read[1].start, "20270105T193000");
  EXPECT_EQ(read[1].duration, "PT1H30M");
  EXPECT_EQ(read[1].description, "Commas, semicolons; a \\ and\ntwo lines.");
  EXPECT_EQ(read[2].description, events()[2].description);
  EXPECT_NE(text.find("DTSTAMP:20270102T000000Z"), std::string::npos) << text;
}

TEST(CalendarFile, FoldsLongLinesAndEndsEachWithCrLf) {
  const std::string text = calendar_file(events(), "2027-01-02");
  std::size_t longest = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find('\n', at);
    ASSERT_NE(end, std::string::npos);
    ASSERT_EQ(text[end - 1], '\r');
    longest = std::max(longest, end - 1 - at);
    at = end + 1;
  }
  EXPECT_LE(longest, 75u); // bytes, RFC 5545
  EXPECT_GT(longest, 60u);
}

TEST(CalendarFile, AnEventKeepsItsUidWhateverElseOfItChanges) {
  auto changed = events();
  changed[0].summary = "M-07: pair 13, 2 h";
  changed[1].at = "20:00";
  const auto before = read_back(calendar_file(events(), "2027-01-02"));
  const auto after = read_back(calendar_file(changed, "2027-01-09"));
  std::set<std::string> uids;
  for (std::size_t i = 0; i < before.size(); ++i) {
    EXPECT_EQ(before[i].uid, after[i].uid);
    uids.insert(before[i].uid);
    EXPECT_EQ(before[i].uid.find("M-07"), std::string::npos) << "nothing to read in it";
  }
  EXPECT_EQ(uids.size(), 3u);
  EXPECT_EQ(calendar_file(events(), "2027-01-02"), calendar_file(events(), "2027-01-02"));
}

TEST(CalendarFile, OtherReadersTakeIt) {
  constexpr const char* reader = R"(
import sys, icalendar
calendar = icalendar.Calendar.from_ical(open(sys.argv[1], 'rb').read())
assert not calendar.errors, calendar.errors
for event in calendar.walk('VEVENT'):
    assert not event.errors, event.errors
    print(event['DTSTART'].dt, getattr(event['DTSTART'].dt, 'tzinfo', None), event['SUMMARY'])
)";
  ScratchDirectory scratch;
  const std::string file = (scratch.path() / "a.ics").string();
  write_file(file, calendar_file(events(), "2027-01-02"));
  const Finished read = run({"/usr/bin/python3", "-c", reader, file});
  EXPECT_EQ(read.exit_code, 0) << read.err;
  EXPECT_EQ(read.out, "2027-01-04 None M-07: pair 12, 2 h\n"
                      "2027-01-05 19:30:00 None M-07: pair 13, damp; 1.5 h\n"
                      "2027-02-28 None M-07: pair 12, 2 h\n");
}

} // namespace
} // namespace shankline::tests::calendar_file_test
