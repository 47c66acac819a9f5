#include "cli/bench_files/schedule_reader.hpp"

#include "tests/support/scratch_directory.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::schedule_reader_test {
namespace {

std::string words_of(const BenchFile<Schedule>& read) {
  std::string words;
  for (const Message& message : read.messages)
    words += to_text(message) + "\n";
  return words;
}

TEST(ScheduleReader, ReadsTheSameDaysFromBothKindsOfFile) {
  const auto yaml =
      read_schedule_text("format: shankline-schedule/1\n"
                         "days:\n"
                         "  - {day: 2027-01-05, hours: 1.5, stage: true, at: \"19:30\"}\n"
                         "  - {day: 4 January 2027, hours: 2, dancer: M-07}\n"
                         "  - {day: 2027-01-05, hours: 1, at: \"9:00\"}\n",
                         "s.yaml");
  const auto csv = read_schedule_csv("day,hours,stage,at,dancer\n"
                                     "2027-01-05,1.5,yes,19:30,\n"
                                     "4 January 2027,2,,,M-07\n"
                                     "2027-01-05,1,no,9:00,\n",
                                     "s.csv");
  for (const auto* read : {&yaml, &csv}) {
    ASSERT_TRUE(read->ok()) << words_of(*read);
    const auto& days = read->content.days;
    ASSERT_EQ(days.size(), 3u);
    EXPECT_EQ(days[0].day, "2027-01-04");
    EXPECT_EQ(days[0].hours, 2);
    EXPECT_EQ(days[0].dancer, "M-07");
    EXPECT_EQ(days[1].at, "09:00"); // by time
    EXPECT_EQ(days[2].at, "19:30");
    EXPECT_TRUE(days[2].stage);
    EXPECT_FALSE(days[1].stage);
    EXPECT_EQ(days[2].dancer, "");
  }
}

TEST(ScheduleReader, TheNameOfTheFileTellsWhichKindItIs) {
  ScratchDirectory scratch;
  const std::string csv = (scratch.path() / "s.csv").string();
  const std::string yaml = (scratch.path() / "s.yaml").string();
  write_file(csv, "day,hours\n2027-01-05,1\n");
  write_file(yaml, "format: shankline-schedule/1\ndays: [{day: 2027-01-05, hours: 1}]\n");
  for (const std::string& file : {csv, yaml})
    EXPECT_EQ(read_schedule_file(file).content.days.size(), 1u) << file;
  EXPECT_FALSE(read_schedule_file((scratch.path() / "none.csv").string()).ok());
  // A company's whole season.
  std::string many = "day,hours,dancer\n";
  for (int i = 0; i < 4800; ++i)
    many += "2027-01-05,1.5,M-" + std::to_string(i % 40) + "\n";
  write_file(csv, many);
  EXPECT_EQ(read_schedule_file(csv).content.days.size(), 4800u);
}

TEST(ScheduleReader, NamesEveryWrongCell) {
  const auto read = read_schedule_csv("day,hours,stage,at\n"
                                      "2027-02-30,0,perhaps,25:00\n"
                                      "2027-01-05,13,yes,7pm\n"
                                      "2027-01-05,1.5,yes,19:30\n"
                                      "05/01/2027,,,\n",
                                      "s.csv");
  const std::string words = words_of(read);
  for (const char* place :
       {"s.csv:2:1: error: row 1, day:", "s.csv:2:2: error: row 1, hours: '0'",
        "s.csv:2:3: error: row 1, stage: 'perhaps'", "s.csv:2:4: error: row 1, at: '25:00'",
        "s.csv:3:2: error: row 2, hours: '13'", "s.csv:3:4: error: row 2, at: '7pm'",
        "s.csv:5:1: error: row 4, day:", "s.csv:5:2: error: row 4, hours: the cell is empty"})
    EXPECT_NE(words.find(place), std::string::npos) << place << "\n" << words;
  EXPECT_EQ(words.find("row 3"), std::string::npos) << words;
}

TEST(ScheduleReader, RefusesWhatIsNoSchedule) {
  const std::string head = "format: shankline-schedule/1\n";
  for (const auto& [text, what] : std::vector<std::pair<std::string, std::string>>{
           {head, "there is no day in this schedule"},
           {head + "days: []\n", "a list of days is wanted here"},
           {head + "days: [{day: 2027-01-05}]\n", "hours is missing"},
           {head + "days: [{hours: 2}]\n", "day is missing"},
           {head + "days: [{day: 2027-01-05, hours: 0}]\n", "too small"},
           {head + "days: [{day: 2027-01-05, hours: 12.5}]\n", "too large"},
           {head + "days: [{day: 2027-01-05, hours: 1, at: 1930}]\n", "not a time of the day"},
           {head + "days: [{day: 2027-01-05, hours: 1, who: M-07}]\n", "'who'"},
           {"format: shankline-order/1\ndancer: M-07\n", "this file is an order"},
           {"days: [{day: 2027-01-05, hours: 1}]\n", "is missing"}}) {
    const auto read = read_schedule_text(text, "s.yaml");
    EXPECT_FALSE(read.ok()) << text;
    EXPECT_NE(words_of(read).find(what), std::string::npos) << text << words_of(read);
  }
}

} // namespace
} // namespace shankline::tests::schedule_reader_test
