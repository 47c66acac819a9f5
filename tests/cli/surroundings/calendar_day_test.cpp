// Days as people write them; what may be one of two days is never guessed.
#include "cli/surroundings/calendar_day.hpp"

#include <cstdlib>
#include <gtest/gtest.h>
#include <string>

namespace shankline::tests::calendar_day_test {
namespace {

TEST(CalendarDay, IsReadAsPeopleWriteIt) {
  for (const char* text : {"2026-03-12", "12 March 2026", "12 Mar 2026", "March 12, 2026",
                           "Mar 12 2026", "12. march 2026", "12 MAR. 2026", "12th March, 2026",
                           " 12  March  2026 ", "March 12th, 2026"})
    EXPECT_EQ(read_calendar_day(text).day, "2026-03-12") << text;
  EXPECT_EQ(read_calendar_day("1 May 2026").day, "2026-05-01");
  EXPECT_EQ(read_calendar_day("22nd Sept 2026").day, "2026-09-22");
  EXPECT_EQ(read_calendar_day("29 February 2028").day, "2028-02-29");
}

TEST(CalendarDay, OfTwoMeaningsIsRefusedWithBoth) {
  for (const char* text : {"03/04/2026", "3/4/2026", "03.04.2026", "03-04-2026", "3. 4. 2026"}) {
    const ParsedDay read = read_calendar_day(text);
    EXPECT_EQ(read.day, "") << text;
    EXPECT_NE(read.what.find("some countries write the day first"), std::string::npos) << read.what;
    EXPECT_NE(read.advice.find("2026-04-03 or 3 April 2026"), std::string::npos) << read.advice;
    EXPECT_NE(read.advice.find("2026-03-04 or 4 March 2026"), std::string::npos) << read.advice;
  }
}

// Whoever writes 25/12/2026 today writes 05/12/2026 tomorrow: the same advice for both.
TEST(CalendarDay, InFiguresAloneIsRefusedEvenWithOneMeaning) {
  EXPECT_EQ(read_calendar_day("25/12/2026").day, "");
  EXPECT_EQ(read_calendar_day("25/12/2026").advice, "write 2026-12-25 or 25 December 2026");
  EXPECT_EQ(read_calendar_day("12/25/2026").advice, "write 2026-12-25 or 25 December 2026");
  EXPECT_EQ(read_calendar_day("04/04/2026").advice, "write 2026-04-04 or 4 April 2026");
  for (const char* text : {"3/4/26", "99/99/2026"}) {
    EXPECT_EQ(read_calendar_day(text).day, "") << text;
    EXPECT_NE(read_calendar_day(text).advice.find("the month in words"), std::string::npos) << text;
  }
}

TEST(CalendarDay, OtherTextIsNoDay) {
  for (const char* text :
       {"", " ", "yesterday", "2026-02-30", "31 February 2026", "0 March 2026", "12 Ma 2026",
        "12 Marching 2026", "March 2026", "12 March 26", "12 March 02026", "2026/03/12",
        "12 12 2026", "March March 2026", "-", "12 March 2026 or so", "\xc3\xa9 March 2026"}) {
    const ParsedDay read = read_calendar_day(text);
    EXPECT_EQ(read.day, "") << text;
    EXPECT_NE(read.what.find("is not a day of the calendar"), std::string::npos) << read.what;
    EXPECT_NE(read.advice.find("14 March 2026"), std::string::npos) << read.advice;
  }
}

TEST(CalendarDay, DaysBetweenCountsLeapDaysAndKnowsNoOthers) {
  EXPECT_EQ(days_between("2025-03-14", "2026-03-14"), 365);
  EXPECT_EQ(days_between("2023-03-14", "2024-03-14"), 366);
  EXPECT_EQ(days_between("2026-03-14", "2026-03-13"), -1);
  for (const char* text : {"", "2026-02-29", "2026-3-14", "2026-03-14T"}) {
    EXPECT_FALSE(days_between(text, "2026-03-14")) << text;
    EXPECT_FALSE(days_between("2026-03-14", text)) << text;
  }
}

// Tests have no terminal for their input: see ask_terminal_test for one.
TEST(CalendarDay, TodayIsAnotherDayTomorrow) {
  for (const char* text : {"today", "Today"}) {
    EXPECT_EQ(read_calendar_day(text).day, "") << text;
    EXPECT_EQ(read_calendar_day(text).what, "'today' is another day tomorrow") << text;
  }
}

TEST(CalendarDay, LiesAheadOnlyIfNeitherClockNorGivenDayHasReachedIt) {
  const char* const before = std::getenv("SOURCE_DATE_EPOCH");
  const std::string kept = before ? before : "";
  unsetenv("SOURCE_DATE_EPOCH");
  EXPECT_FALSE(lies_ahead(today()));
  EXPECT_TRUE(lies_ahead("2999-01-01"));
  const std::string now = today();
  setenv("SOURCE_DATE_EPOCH", "86400", 1); // 1970-01-02
  EXPECT_FALSE(lies_ahead("1970-01-03"));
  EXPECT_FALSE(lies_ahead(now));
  setenv("SOURCE_DATE_EPOCH", "32503680000", 1); // 3000-01-01
  EXPECT_FALSE(lies_ahead("3000-01-01"));
  EXPECT_TRUE(lies_ahead("3000-01-02"));
  if (before)
    setenv("SOURCE_DATE_EPOCH", kept.c_str(), 1);
  else
    unsetenv("SOURCE_DATE_EPOCH");
}

} // namespace
} // namespace shankline::tests::calendar_day_test
