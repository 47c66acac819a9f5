// Rotation as its users meet it: from the archive and a schedule to table, page and calendar.
#include "tests/cli/archive_program.hpp"
#include "tests/support/pattern.hpp"

#include <algorithm>
#include <cstdlib>
#include <nlohmann/json.hpp>

namespace shankline::tests::archive_rotation_test {
namespace {

using nlohmann::json;
using Words = std::vector<std::string>;

/// The program's today is 2026-03-14.
class ArchiveRotation : public ArchiveProgram {
protected:
  void SetUp() override {
    for (const char* dancer : {"M-07", "D-2", "D-10"}) {
      const std::string order = (scratch.path() / (std::string(dancer) + ".yaml")).string();
      std::string text = read_file(plain);
      text.replace(text.find("M-07"), 4, dancer);
      write_file(order, text);
      for (int pair = 0; pair < 3; ++pair)
        ASSERT_EQ(archive({"save", order}).exit_code, 0); // 1 to 3, 4 to 6, 7 to 9
    }
    for (const char* id : {"1", "2", "4", "5", "6", "7", "8", "9"})
      ASSERT_EQ(archive({"mark", id, "--in-use", "2026-03-01"}).exit_code, 0);
    ASSERT_EQ(archive({"mark", "2", "--for", "stage"}).exit_code, 0);
    ASSERT_EQ(archive({"worn", "1", "--hours", "3", "--on", "2026-03-13"}).exit_code, 0);
    std::string days = "day,hours,stage,at\n";
    for (int day = 10; day <= 30; ++day)
      days += "2026-03-" + std::to_string(day) + ",1.5," + (day == 17 ? "yes,19:30" : "no,") + "\n";
    write_file(schedule, days);
  }

  Finished rotation(Words words) const {
    words.insert(words.begin(), "rotation");
    words.insert(words.end(), {"--schedule", schedule});
    return run(std::move(words));
  }
  /// Returns the text with its line ends as spaces.
  std::string said(Words words) const {
    std::string flat;
    for (const char c : rotation(std::move(words)).out)
      if (c != '\n')
        flat += c;
      else if (!flat.empty() && flat.back() != ' ')
        flat += ' ';
    return flat;
  }
  json of_dancer(Words words = {}) const {
    words.insert(words.begin(), {"M-07", "--json"});
    const Finished said = rotation(words);
    EXPECT_EQ(said.exit_code, 0) << said.err;
    return json::parse(said.out);
  }

  const std::string schedule = (scratch.path() / "schedule.csv").string();
};

TEST_F(ArchiveRotation, PlansEachDayFromTodayOn) {
  const json job = of_dancer({"--lead-time", "5"});
  const json& one = job["dancers"][0];
  ASSERT_EQ(one["days"].size(), 17u); // four days are gone
  EXPECT_EQ(one["days"][0]["day"], "2026-03-14");
  // One of the two is for the stage, so the other is worn in class, damp or dry.
  for (const json& day : one["days"]) {
    if (day["entry"].is_null()) continue;
    EXPECT_EQ(day["entry"] == 2, day["stage"] == true || day["day"] > "2026-03-20") << day;
  }
  EXPECT_EQ(one["days"][0]["dry"], false); // worn yesterday
  EXPECT_EQ(one["days"][0]["chance_of_too_few"], 1);
  EXPECT_EQ(job["lead_days"], 5);
  EXPECT_EQ(one["order"]["too_late"], true);
  EXPECT_EQ(one["order"]["there_on"], "2026-03-19");
  EXPECT_GT(one["order"]["pairs"], 1);
  const std::string table = said({"M-07", "--lead-time", "5"});
  for (const char* words :
       {"Sat 2026-03-14", "damp", "It is late: order", "there on 2026-03-19",
        "Not counted, since nobody marked them as there, tried them or noted any wear: entries 3.",
        "4 days of the schedule are gone by", "common practice, 4 to 20 hours",
        "dry 36 hours after it was worn"})
    EXPECT_NE(table.find(words), std::string::npos) << words << "\n" << table;
  EXPECT_EQ(of_dancer({"--drying", "0"})["dancers"][0]["days"][0]["dry"], true);
}

TEST_F(ArchiveRotation, TakesWhatIsSettledWhereNoOptionIsGiven) {
  setenv("SHANKLINE_LEAD_TIME", "5", 1);
  setenv("SHANKLINE_CLIMATE", "1.5", 1);
  EXPECT_EQ(of_dancer()["lead_days"], 5);
  EXPECT_EQ(of_dancer({"--lead-time", "7"})["lead_days"], 7);
  EXPECT_NE(said({"M-07"}).find("dry 54 hours after it was worn"), std::string::npos);
  EXPECT_NE(said({"M-07", "--drying", "36"}).find("dry 36 hours after it was worn"),
            std::string::npos);
  unsetenv("SHANKLINE_LEAD_TIME");
  unsetenv("SHANKLINE_CLIMATE");
}

TEST_F(ArchiveRotation, TakesTheLongestTimeOnRecordWhereNoneIsGiven) {
  EXPECT_TRUE(of_dancer()["lead_days"].is_null());
  EXPECT_NE(said({"M-07"}).find("give the maker's time with --lead-time"), std::string::npos);
  ASSERT_EQ(archive({"mark", "3", "--sent", "2026-02-01", "--received", "2026-02-21"}).exit_code,
            0);
  ASSERT_EQ(archive({"mark", "6", "--sent", "2026-02-01", "--received", "2026-02-11"}).exit_code,
            0);
  EXPECT_EQ(of_dancer()["lead_days"], 20);
  EXPECT_NE(said({"M-07"}).find("20 days from order to arrival (the longest from order to "
                                "arrival on record, entry 3)"),
            std::string::npos);
}

TEST_F(ArchiveRotation, TheSameRecordsGiveTheSameFilesAndNothingIsDoubled) {
  const std::string pdf = (scratch.path() / "wall.pdf").string();
  const std::string ics = (scratch.path() / "m07.ics").string();
  const auto uids = [&] {
    std::vector<std::string> all;
    const std::string text = read_file(ics);
    for (std::size_t at = 0; (at = text.find("UID:", at)) != std::string::npos; ++at)
      all.push_back(text.substr(at, 44));
    std::sort(all.begin(), all.end());
    EXPECT_EQ(std::unique(all.begin(), all.end()), all.end());
    return all;
  };
  const Words words{"M-07", "--lead-time", "5", "-o", pdf, "--calendar", ics};
  ASSERT_EQ(rotation(words).exit_code, 0);
  const std::string first_pdf = read_file(pdf), first = read_file(ics);
  const auto first_uids = uids();
  EXPECT_EQ(first_uids.size(), 18u); // 17 days and the order
  ASSERT_EQ(rotation(words).exit_code, 0);
  EXPECT_EQ(read_file(pdf), first_pdf);
  EXPECT_EQ(read_file(ics), first);
  // Another plan changes the same events.
  ASSERT_EQ(archive({"worn", "1", "--hours", "9", "--on", "2026-03-12"}).exit_code, 0);
  ASSERT_EQ(rotation(words).exit_code, 0);
  EXPECT_NE(read_file(ics), first);
  EXPECT_EQ(uids(), first_uids);
  EXPECT_NE(first.find("DTSTART:20260317T193000\r\n"), std::string::npos);
  EXPECT_NE(first.find("DTSTART;VALUE=DATE:20260314\r\n"), std::string::npos);
  EXPECT_EQ(first.find("touring"), std::string::npos) << "no words of the order";
  for (const std::string& file : {ics, pdf}) {
    const auto rights = std::filesystem::status(file).permissions();
    EXPECT_EQ(rights & std::filesystem::perms::others_read, std::filesystem::perms::none) << file;
  }
  const std::string page = tests::run({"pdftotext", "-layout", pdf, "-"}).out;
  EXPECT_NE(page.find("Pairs of M-07, day by day"), std::string::npos) << page;
  // A file that is not a calendar is left unchanged.
  write_file(ics, "somebody's notes\n");
  EXPECT_NE(rotation(words).exit_code, 0);
  EXPECT_EQ(read_file(ics), "somebody's notes\n");
}

TEST_F(ArchiveRotation, ACompanyIsOneTableTheMostUrgentFirst) {
  const Finished said = rotation({"--lead-time", "5"});
  ASSERT_EQ(said.exit_code, 0) << said.err;
  EXPECT_LT(said.out.find("M-07"), said.out.find("D-2")) << said.out;
  const Finished csv = rotation({"--lead-time", "5", "--csv"});
  EXPECT_EQ(std::count(csv.out.begin(), csv.out.end(), '\n'), 4);
  EXPECT_EQ(csv.out.substr(0, csv.out.find('\r')),
            "dancer,pairs,too_few_from,order_by,there_on,order,too_late,worst_before");
  const json job = json::parse(rotation({"--lead-time", "5", "--json"}).out);
  ASSERT_EQ(job["dancers"].size(), 3u);
  EXPECT_EQ(job["dancers"][0]["dancer"], "D-2"); // as people count
  EXPECT_EQ(job["dancers"][1]["dancer"], "D-10");
  const std::string ics = (scratch.path() / "all.ics").string();
  ASSERT_EQ(rotation({"--lead-time", "5", "--calendar", ics}).exit_code, 0);
  const std::string text = read_file(ics);
  std::size_t events = 0;
  for (std::size_t at = 0; (at = text.find("BEGIN:VEVENT", at)) != std::string::npos; ++at)
    ++events;
  EXPECT_GE(events, 1u);
  EXPECT_EQ(text.find(": pair "), std::string::npos) << "orders only";
}

// Before, only the last line named them, and the figures for other programs left them out.
TEST_F(ArchiveRotation, ADancerWithoutAPairOrdersNow) {
  EXPECT_EQ(said({}).find("No pair is marked as there"), std::string::npos);
  for (const char* id : {"4", "5", "6"})
    ASSERT_EQ(archive({"end", id, "--reason", "board", "--on", "2026-03-13"}).exit_code, 0);
  const std::string table = said({});
  EXPECT_TRUE(
      Pattern("order\\s+words\\s+D-2\\s+0\\s+2026-03-14\\s+now\\s+–\\s+no pair is marked as there ")
          .is_in(table))
      << "the first row: " << table;
  EXPECT_NE(table.find("No pair is marked as there of D-2. See"), std::string::npos) << table;
  EXPECT_NE(rotation({"--csv"}).out.find("\r\nD-2,0,2026-03-14,2026-03-14,,,,\r\n"),
            std::string::npos);
  // With the maker's time known, it is told how many.
  const std::string late = said({"--lead-time", "5"});
  EXPECT_TRUE(Pattern("D-2\\s+0\\s+2026-03-14\\s+today, late ").is_in(late)) << late;
  const json of_all = json::parse(rotation({"--lead-time", "5", "--json"}).out);
  const json alone = json::parse(rotation({"D-2", "--lead-time", "5", "--json"}).out);
  ASSERT_EQ(of_all["dancers"].size(), 3u);
  EXPECT_EQ(of_all["dancers"][0], alone["dancers"][0]);
  EXPECT_EQ(of_all["dancers"][0]["pairs"], json::array());
  EXPECT_EQ(of_all["dancers"][0]["order"]["too_late"], true);
  // Nobody has a pair: that is the answer, and no fault.
  for (const char* id : {"1", "2", "7", "8", "9"})
    ASSERT_EQ(archive({"end", id, "--reason", "board", "--on", "2026-03-13"}).exit_code, 0);
  const Finished nobody = rotation({"-o", (scratch.path() / "wall.pdf").string()});
  EXPECT_EQ(nobody.exit_code, 0) << nobody.err;
  EXPECT_EQ(json::parse(rotation({"--json"}).out)["dancers"].size(), 3u);
}

TEST_F(ArchiveRotation, SaysWhyThereIsNothingToPlan) {
  const Finished unknown = rotation({"K-99"});
  EXPECT_EQ(unknown.exit_code, 1);
  EXPECT_NE(unknown.err.find("the archive has nothing of 'K-99'"), std::string::npos);
  EXPECT_EQ(run({"rotation", "M-07"}).exit_code, 2);
  write_file(schedule, "day,hours\n2026-03-10,2\n");
  const Finished gone = rotation({"M-07"});
  EXPECT_EQ(gone.exit_code, 1);
  EXPECT_NE(gone.err.find("there is no day of M-07 from 2026-03-14 on"), std::string::npos)
      << gone.err;
  write_file(schedule, "day,hours\n2026-03-40,2\n");
  EXPECT_EQ(rotation({"M-07"}).exit_code, 1);
  write_file(schedule, "day,hours\n2026-03-20,2\n");
  EXPECT_EQ(rotation({"M-07", "--drying", "-1"}).exit_code, 2);
  EXPECT_EQ(rotation({"M-07", "--json", "--csv"}).exit_code, 2);
}

} // namespace
} // namespace shankline::tests::archive_rotation_test
