// Hours, ends and the order book as their users type them in.
#include "tests/cli/archive_program.hpp"

#include <filesystem>
#include <nlohmann/json.hpp>

namespace shankline::tests::archive_wearing_test {
namespace {

using nlohmann::json;
using Words = std::vector<std::string>;

/// The program's today is 2026-03-14.
class ArchiveWearing : public ArchiveProgram {
protected:
  void SetUp() override { ASSERT_EQ(archive({"save", plain}).exit_code, 0); }

  std::size_t entries() const {
    return json::parse(archive({"list", "--json", "--rows", "1000"}).out)["entries"].size();
  }
  json pairs(Words words = {}) const {
    words.insert(words.begin(), {"pairs", "--json"});
    const Finished said = archive(words);
    EXPECT_EQ(said.exit_code, 0) << said.err;
    return json::parse(said.out);
  }
  void expect_refused(const Words& words, const std::string& why, int code = 1) const {
    const std::size_t before = entries();
    const Finished said = archive(words);
    EXPECT_EQ(said.exit_code, code) << said.out;
    EXPECT_NE(said.err.find(why), std::string::npos) << said.err;
    EXPECT_EQ(entries(), before) << "nothing is kept";
  }
  std::string file(const std::string& text) const {
    std::string name = (scratch.path() / "worn.csv").string();
    write_file(name, text);
    return name;
  }
};

TEST_F(ArchiveWearing, WhatWasSeenThenBelongsToTheBoardOfThen) {
  ASSERT_EQ(archive({"tries", "1", "--foot", "left", "52.5:too-low,2026-03-02",
                     "58.5:too-low,2026-03-12"})
                .exit_code,
            0);
  const Finished worn = archive(
      {"worn", "1", "--hours", "1", "--on", "2026-03-10", "--foot", "left", "--seen", "good"});
  EXPECT_NE(worn.out.find("left 52.5 off, seen good"), std::string::npos) << worn.out;
}

TEST_F(ArchiveWearing, ATableThatIsTypedInTwiceIsDoubted) {
  const std::string table = file("entry,hours,day\n1,2,2026-03-14\n");
  EXPECT_EQ(archive({"worn", "--from", table}).err, "");
  const Finished again = archive({"worn", "--from", table});
  EXPECT_NE(again.err.find("entry 1 of M-07, 2026-03-14: as many hours of that day are on record "
                           "already, as entry 2"),
            std::string::npos)
      << again.err;
}

TEST_F(ArchiveWearing, APairThatIsDoneOrRefusedIsNotInUse) {
  ASSERT_EQ(archive({"mark", "1", "--refused", "2026-03-02"}).exit_code, 0);
  expect_refused({"mark", "1", "--in-use", "2026-03-03"}, "add --accepted 2026-03-03");
  ASSERT_EQ(archive({"mark", "1", "--accepted", "2026-03-03", "--in-use", "2026-03-03"}).exit_code,
            0);
  ASSERT_EQ(archive({"end", "1", "--reason", "box", "--on", "2026-03-05"}).exit_code, 0);
  expect_refused({"mark", "1", "--in-use", "2026-03-06"}, "is done since 2026-03-05");
  expect_refused({"note", "1", "--foot", "both", "--ended", "board"}, "is worn no longer since");
  const Finished next =
      run({"next", "--entry", "1", "--foot", "left", "--cut", "55", "--seen", "too-low"});
  EXPECT_EQ(next.exit_code, 1) << next.out;
}

TEST_F(ArchiveWearing, ARefusedPairLeavesItsOrderOpen) {
  const std::string due = (scratch.path() / "due.yaml").string();
  std::string text = read_file(plain);
  text.replace(text.find("2026-03-14"), 10, "2026-02-01\ndue: 2026-03-10");
  write_file(due, text);
  ASSERT_EQ(archive({"save", due}).exit_code, 0);
  ASSERT_EQ(archive({"mark", "2", "--refused", "2026-03-08"}).exit_code, 0);
  const auto rows = [&] { return archive({"overview"}).out; };
  EXPECT_NE(rows().find("late"), std::string::npos) << rows();
  EXPECT_NE(rows().find("refused 2026-03-08"), std::string::npos) << rows();
  ASSERT_EQ(archive({"save", plain}).exit_code, 0);
  EXPECT_EQ(rows().find("refused 2026-03-08"), std::string::npos) << "a later order is there";
}

TEST_F(ArchiveWearing, OneLineADayAddsUpAndSaysWhenThePairIsDry) {
  const Finished first = archive({"worn", "1", "--hours", "2", "--on", "2026-03-10"});
  EXPECT_EQ(first.exit_code, 0) << first.err;
  EXPECT_NE(first.out.find("kept as entry 2: 2026-03-10, both feet, 2.0 h"), std::string::npos)
      << first.out;
  EXPECT_NE(first.out.find("entry 1 of M-07: 2.0 h so far, dry from 2026-03-12"), std::string::npos)
      << first.out;
  ASSERT_EQ(archive({"worn", "1", "--hours", "1.5", "--foot", "left", "--where", "stage", "--wet",
                     "--done", "water on the vamp", "--done", "a few stitches"})
                .exit_code,
            0);
  const json row = pairs()["pairs"][0];
  EXPECT_EQ(row["entry"], 1);
  EXPECT_EQ(row["state"], "in use");
  EXPECT_EQ(row["hours"], 3.5);
  EXPECT_EQ(row["left_hours"], 3.5);
  EXPECT_EQ(row["right_hours"], 2);
  EXPECT_EQ(row["last_worn"], "2026-03-14");
  EXPECT_EQ(row["dry_from"], "2026-03-17"); // worn wet: 54 hours
  EXPECT_EQ(row["dry"], false);
  EXPECT_EQ(row["done"], (json{"2026-03-14 water on the vamp", "2026-03-14 a few stitches"}));
  EXPECT_EQ(pairs({"--drying", "12"})["pairs"][0]["dry_from"], "2026-03-15");
  const Finished table = archive({"pairs"});
  EXPECT_NE(table.out.find("damp until 2026-03-17"), std::string::npos) << table.out;
  EXPECT_NE(table.out.find("common practice, 4 to 20 hours: no pair has ended on record yet"),
            std::string::npos)
      << table.out;
  EXPECT_EQ(archive({"audit"}).exit_code, 0);
}

TEST_F(ArchiveWearing, WhatCannotBeWearIsRefused) {
  expect_refused({"worn", "1", "--hours", "2", "--on", "2026-03-15"}, "lies ahead of today");
  expect_refused({"worn", "7", "--hours", "2"}, "the archive has no entry 7");
  expect_refused({"worn", "1"}, "say how long it was worn", 2);
  expect_refused({"worn", "1", "--hours", "0"}, "say how long it was worn", 2);
  expect_refused({"worn", "1", "--hours", "25"}, "--hours", 2);
  expect_refused({"worn", "--hours", "2"}, "give the pair's entry", 2);
  expect_refused({"worn", "1", "--hours", "2", "--seen", "good"}, "noted foot by foot", 2);
  expect_refused({"worn", "1", "--hours", "2", "--from", "a.csv"}, "leave the rest out", 2);
  ASSERT_EQ(archive({"mark", "1", "--refused", "2026-03-02"}).exit_code, 0);
  EXPECT_EQ(archive({"worn", "1", "--hours", "1", "--on", "2026-03-01"}).exit_code, 0)
      << "before it was refused";
  expect_refused({"worn", "1", "--hours", "2", "--on", "2026-03-02"}, "was refused on 2026-03-02");
  ASSERT_EQ(archive({"mark", "1", "--accepted", "2026-03-03"}).exit_code, 0);
  EXPECT_EQ(archive({"worn", "1", "--hours", "2", "--on", "2026-03-03"}).exit_code, 0);
  ASSERT_EQ(archive({"end", "1", "--reason", "box", "--on", "2026-03-12"}).exit_code, 0);
  expect_refused({"worn", "1", "--hours", "2", "--on", "2026-03-13"}, "is done since 2026-03-12");
  EXPECT_EQ(archive({"worn", "1", "--hours", "2", "--on", "2026-03-12"}).exit_code, 0);
}

TEST_F(ArchiveWearing, WhatWasSeenAfterWearIsATry) {
  ASSERT_EQ(archive({"tries", "1", "--foot", "left", "52.5:good"}).exit_code, 0);
  const Finished kept =
      archive({"worn", "1", "--hours", "2", "--foot", "left", "--seen", "good", "--by", "T-4"});
  EXPECT_EQ(kept.exit_code, 0) << kept.err;
  EXPECT_NE(kept.out.find("left 52.5 off, seen good after wear, by T-4, 2.0 h"), std::string::npos)
      << kept.out;
  EXPECT_EQ(json::parse(archive({"learn", "--json"}).out)["answers"], 2);
}

TEST_F(ArchiveWearing, TheSameHoursOfADayAreAskedAbout) {
  ASSERT_EQ(archive({"worn", "1", "--hours", "2"}).exit_code, 0);
  const Finished again = archive({"worn", "1", "--hours", "2"});
  EXPECT_EQ(again.exit_code, 0);
  EXPECT_NE(again.err.find("on record already, as entry 2"), std::string::npos) << again.err;
  EXPECT_EQ(archive({"worn", "1", "--hours", "1"}).err, "");
}

TEST_F(ArchiveWearing, APairEndsOnceAndNotBeforeItWasWorn) {
  ASSERT_EQ(archive({"worn", "1", "--hours", "2", "--on", "2026-03-10"}).exit_code, 0);
  expect_refused({"end", "1", "--reason", "board", "--on", "2026-03-09"}, "was worn on 2026-03-10");
  expect_refused({"end", "1", "--reason", "age"}, "--reason", 2);
  expect_refused({"end", "1"}, "--reason", 2);
  const Finished done = archive({"end", "1", "--reason", "board", "--words", "at the bevel"});
  EXPECT_EQ(done.exit_code, 0) << done.err;
  EXPECT_NE(done.out.find("2.0 h so far, done: board"), std::string::npos) << done.out;
  EXPECT_TRUE(pairs()["pairs"].empty());
  expect_refused({"end", "1", "--reason", "box"}, "is done since 2026-03-14: board");
  ASSERT_EQ(archive({"withdraw", "3"}).exit_code, 0);
  EXPECT_EQ(pairs()["pairs"].size(), 1u);
  ASSERT_EQ(archive({"save", plain}).exit_code, 0);
  EXPECT_NE(archive({"end", "5", "--reason", "box"}).err.find("no hours are on record"),
            std::string::npos);
}

TEST_F(ArchiveWearing, ATableIsKeptAsAWholeOrNotAtAll) {
  ASSERT_EQ(archive({"save", plain}).exit_code, 0);
  const Finished kept = archive({"worn", "--from",
                                 file("entry,hours,day,foot,where,wet,seen,done,by,words\r\n"
                                      "1,2,2026-03-10,,stage,yes,,water on the vamp; glue,,\r\n"
                                      "2,1.5,2026-03-10,left,,,,,,\"two, words\"\r\n"
                                      "1,1,11 March 2026,,,,,,,\r\n")});
  EXPECT_EQ(kept.exit_code, 0) << kept.err;
  EXPECT_NE(kept.out.find("3 wears kept, as entries 3 to 5"), std::string::npos) << kept.out;
  const json rows = pairs()["pairs"];
  ASSERT_EQ(rows.size(), 2u);
  EXPECT_EQ(rows[0]["hours"], 3);
  EXPECT_EQ(rows[0]["done"], (json{"2026-03-10 water on the vamp", "2026-03-10 glue"}));
  EXPECT_EQ(rows[1]["left_hours"], 1.5);
  EXPECT_EQ(rows[1]["right_hours"], 0);
}

TEST_F(ArchiveWearing, EveryWrongCellIsNamedByRowAndColumn) {
  const std::string name = file("entry,hours,day,foot,wet,seen\n"
                                "1,2,2026-03-10,,,\n"
                                "9,2,2026-03-10,,,\n"
                                "1,none,2026-02-30,both feet,maybe,\n"
                                "1,25,2026-03-20,,,god\n"
                                "one,,03/04/2026,,,\n"
                                "1,1,2026-03-20,,,\n"
                                "1,1,2026-03-10,,,good\n");
  const std::size_t before = entries();
  const Finished refused = archive({"worn", "--from", name});
  EXPECT_EQ(refused.exit_code, 1);
  EXPECT_EQ(entries(), before);
  for (const char* place :
       {":3:1: error: row 2, entry: the archive has no entry 9",
        ":4:2: error: row 3, hours: 'none'", ":4:3: error: row 3, day:",
        ":4:4: error: row 3, foot: 'both feet'", ":4:5: error: row 3, wet: 'maybe'",
        ":5:2: error: row 4, hours: '25'", ":5:6: error: row 4, seen: 'god'",
        ":6:1: error: row 5, entry: 'one'", ":6:2: error: row 5, hours: the cell is empty",
        ":6:3: error: row 5, day:", ":7:3: error: row 6, day: 2026-03-20 lies ahead of today",
        ":8:6: error: row 7, seen: what was seen is noted foot by foot", "nothing was kept"})
    EXPECT_NE(refused.err.find(place), std::string::npos) << place << "\n" << refused.err;
  EXPECT_NE(refused.err.find("did you mean 'good'?"), std::string::npos);
  for (const auto& [text, what] : std::vector<std::pair<std::string, std::string>>{
           {"", "the file is empty"},
           {"entry,hours\n1,2\n", "the column day is missing"},
           {"entry,hours,day,hour\n", "'hour' is not a name of a column"},
           {"entry,entry,hours,day\n", "'entry' stands there twice"},
           {"entry,hours,day\n", "there is no wear in this table"},
           {"entry,hours,day\n1,2,2026-03-10,left\n", "the row has 4 cells"},
           {"entry,hours,day\n1,2,\"2026-03-10\n", "is never closed"},
           {"entry,hours,day\n1,2,\xff\n", "UTF-8"}}) {
    const Finished wrong = archive({"worn", "--from", file(text)});
    EXPECT_EQ(wrong.exit_code, 1) << text;
    EXPECT_NE(wrong.err.find(what), std::string::npos) << text << wrong.err;
  }
  EXPECT_EQ(archive({"worn", "--from", "no-such-file.csv"}).exit_code, 1);
  EXPECT_EQ(entries(), before);
}

TEST_F(ArchiveWearing, TheOrderBookGoesStepByStep) {
  const Finished sent = archive({"mark", "1", "--sent", "2026-02-01"});
  EXPECT_EQ(sent.exit_code, 0) << sent.err;
  EXPECT_NE(sent.out.find("entry 1 of M-07 is now: ordered"), std::string::npos) << sent.out;
  expect_refused({"mark", "1", "--received", "2026-01-31"},
                 "received on 2026-01-31 comes before sent on 2026-02-01");
  expect_refused({"mark", "1", "--received", "2026-03-15"}, "lies ahead of today");
  expect_refused({"mark", "1", "--sent", "2026-02-01"}, "already");
  expect_refused({"mark", "1"}, "say what is to be marked", 2);
  expect_refused({"mark", "1", "--for", "show"}, "--for", 2);
  const Finished there = archive({"mark", "1", "--received", "2026-03-01", "--for", "stage"});
  EXPECT_EQ(there.exit_code, 0) << there.err;
  EXPECT_NE(there.out.find("is now: received, kept for stage"), std::string::npos) << there.out;
  EXPECT_EQ(pairs()["pairs"][0]["kept_for"], "stage");
  EXPECT_EQ(pairs()["pairs"][0]["hours"], 0);
}

TEST_F(ArchiveWearing, SeveralPairsAreMarkedTogetherOrNone) {
  ASSERT_EQ(archive({"save", places::samples + "/plain.yaml"}).exit_code, 0);
  ASSERT_EQ(archive({"mark", "2", "--sent", "2026-03-02"}).exit_code, 0);
  const std::size_t before = entries();
  const Finished early = archive({"mark", "1", "2", "--received", "2026-03-01"});
  EXPECT_EQ(early.exit_code, 1) << "the second was sent later";
  EXPECT_EQ(entries(), before);
  const Finished both = archive({"mark", "1", "2", "1", "--received", "2026-03-03"});
  EXPECT_EQ(both.exit_code, 0) << both.err;
  EXPECT_EQ(entries(), before + 2) << "named twice, marked once";
  EXPECT_NE(both.out.find("entry 1 of M-07 is now: received"), std::string::npos) << both.out;
  EXPECT_NE(both.out.find("entry 2 of M-07 is now: received"), std::string::npos) << both.out;
}

TEST_F(ArchiveWearing, AcceptKeepsItsVerdict) {
  const std::string order = places::samples + "/sides_lowered.yaml";
  const std::string measured = places::samples + "/pairs/measured.yaml";
  const Words judged{"accept", order, measured, "--save"};
  const Finished unknown = run(judged);
  EXPECT_EQ(unknown.exit_code, 1) << "the archive has no such order";
  ASSERT_EQ(archive({"save", order}).exit_code, 0);
  const Finished verdict = run(judged);
  const json entry = json::parse(archive({"show", "2", "--json"}).out);
  if (verdict.exit_code == 5) {
    EXPECT_NE(verdict.out.find("nothing was kept"), std::string::npos) << verdict.out;
    EXPECT_TRUE(entry["notes"].empty());
  } else {
    ASSERT_EQ(entry["notes"].size(), 1u) << verdict.err;
    EXPECT_EQ(entry["notes"][0]["outcome"]["mark"],
              verdict.exit_code == 0 ? "accepted" : "refused");
  }
  EXPECT_EQ(run({"accept", order, "--blank", "--save", "-o", "x.pdf"}).exit_code, 2);
}

TEST_F(ArchiveWearing, ALabelLeadsBackToItsEntry) {
  const std::string labels = (scratch.path() / "labels.pdf").string();
  const Finished printed = archive({"labels", "1", "-o", labels});
  ASSERT_EQ(printed.exit_code, 0) << printed.err;
  const std::string words = tests::run({"pdftotext", "-layout", labels, "-"}).out;
  EXPECT_NE(words.find("entry"), std::string::npos) << words;
  const std::size_t at = words.find("order ");
  ASSERT_NE(at, std::string::npos) << words;
  const std::string digest = words.substr(at + 6, 9);
  for (const std::string& text :
       {std::string("1"), std::string("#1"), std::string("entry 1"), digest, digest.substr(0, 4),
        std::string("M-07"), std::string("second pair")}) {
    const Finished found = archive({"find", text, "--json"});
    EXPECT_EQ(found.exit_code, 0) << text << found.err;
    ASSERT_EQ(json::parse(found.out)["entries"].size(), 1u) << text;
    EXPECT_EQ(json::parse(found.out)["entries"][0]["id"], 1);
  }
  EXPECT_EQ(archive({"find", "K-99"}).exit_code, 1);
  EXPECT_EQ(archive({"find", "0000 0000"}).exit_code, 1);
}

TEST_F(ArchiveWearing, LabelsAndCareSayWhatAPairIsCutToByNow) {
  const auto words_of = [&](const std::string& what) {
    const std::string pdf = (scratch.path() / (what + ".pdf")).string();
    EXPECT_EQ(archive({what, "1", "-o", pdf}).exit_code, 0);
    return tests::run({"pdftotext", "-layout", pdf, "-"}).out;
  };
  EXPECT_NE(words_of("labels").find("first 52.5"), std::string::npos);
  // Tried again after wear, it was cut on the day before.
  ASSERT_EQ(archive({"tries", "1", "--foot", "left", "52.5:too-low,2026-03-14",
                     "55.5:too-low,2026-03-15", "55.5:good,worn,2026-03-16"})
                .exit_code,
            0);
  const std::string labels = words_of("labels");
  EXPECT_NE(labels.find("cut to 55.5 on 2026-03-15"), std::string::npos) << labels;
  EXPECT_EQ(labels.find("first 52.5"), std::string::npos) << labels;
  EXPECT_NE(labels.find("first 53.5"), std::string::npos) << "the right one was not tried";
  EXPECT_NE(words_of("care").find("cut to 55.5 off on 2026-03-15"), std::string::npos);
  ASSERT_EQ(archive({"end", "1", "--reason", "box", "--on", "2026-03-14"}).exit_code, 0);
  EXPECT_NE(words_of("labels").find("ended 2026-03-14: box"), std::string::npos);
  EXPECT_NE(words_of("care").find("this pair ended 2026-03-14: box"), std::string::npos);
}

// Before, wear and tries of a day before the pair was there were kept without a word.
TEST_F(ArchiveWearing, ADayBeforeThePairWasThereIsDoubted) {
  EXPECT_EQ(archive({"worn", "1", "--hours", "1", "--on", "2026-03-14"}).err, "");
  const Finished early = archive({"worn", "1", "--hours", "2", "--on", "2026-03-13"});
  EXPECT_EQ(early.exit_code, 0);
  EXPECT_NE(early.err.find("caution: 2026-03-13 comes before the date of the order of entry 1, "
                           "2026-03-14"),
            std::string::npos)
      << early.err;
  EXPECT_EQ(pairs()["pairs"][0]["hours"], 3) << "kept all the same";
  ASSERT_EQ(archive({"mark", "1", "--received", "2026-03-12"}).exit_code, 0);
  const Finished before = archive({"tries", "1", "--foot", "left", "52.5:too-low,2026-03-11"});
  EXPECT_EQ(before.exit_code, 0);
  EXPECT_NE(before.err.find("caution: 2026-03-11 comes before entry 1 was received, on 2026-03-12"),
            std::string::npos)
      << before.err;
  const Finished table =
      archive({"worn", "--from", file("entry,hours,day\n1,1,2026-03-11\n1,2,2026-03-11\n")});
  EXPECT_EQ(table.exit_code, 0);
  const std::size_t once = table.err.find("2026-03-11 comes before entry 1 was received");
  EXPECT_NE(once, std::string::npos) << table.err;
  EXPECT_EQ(table.err.find("2026-03-11 comes before", once + 1), std::string::npos) << table.err;
}

TEST_F(ArchiveWearing, RackKeepsPairsAndPrintsTheirNumbers) {
  const std::string labels = (scratch.path() / "labels.pdf").string();
  const Finished kept = run(
      {"rack", plain, places::samples + "/inches.yaml", "--save", "--labels", labels, "--json"});
  ASSERT_EQ(kept.exit_code, 0) << kept.err;
  const json shoes = json::parse(kept.out)["shoes"];
  for (const json& shoe : shoes)
    EXPECT_EQ(shoe["entry"], shoe["dancer"] == "M-07" ? 1 : 2) << shoe;
  EXPECT_EQ(entries(), 2u) << "the first was kept before";
  const std::string words = tests::run({"pdftotext", "-layout", labels, "-"}).out;
  EXPECT_NE(words.find("entry"), std::string::npos) << words;
  EXPECT_FALSE(json::parse(run({"rack", plain, "--json"}).out)["shoes"][0].contains("entry"));
}

// Before, every order of a folder that was racked again was kept a second time without a word.
TEST_F(ArchiveWearing, RackRunAgainKeepsOnlyWhatTheArchiveHasNot) {
  const std::string orders = (scratch.path() / "orders").string();
  std::filesystem::create_directory(orders);
  const std::string text = read_file(plain);
  write_file(orders + "/a.yaml", text);
  write_file(orders + "/b.yaml", text + "# mended\n");
  const Words again{"rack", orders, "--save", "--json"};
  const Finished first = run(again);
  ASSERT_EQ(first.exit_code, 0) << first.err;
  EXPECT_EQ(entries(), 2u) << "the same but for a comment is another order";
  EXPECT_NE(first.err.find("a.yaml: caution: already kept as entry 1; not kept again"),
            std::string::npos)
      << first.err;
  EXPECT_NE(first.err.find("archive save " + orders + "/a.yaml"), std::string::npos) << first.err;
  EXPECT_EQ(first.err.find("b.yaml"), std::string::npos) << first.err;
  const Finished second = run(again);
  ASSERT_EQ(second.exit_code, 0) << second.err;
  EXPECT_EQ(entries(), 2u);
  EXPECT_NE(second.err.find("b.yaml: caution: already kept as entry 2;"), std::string::npos)
      << second.err;
  EXPECT_EQ(json::parse(second.out)["shoes"][3]["entry"], 2) << "its label";
  // Who wants one more pair of an order says so.
  const Finished more = archive({"save", plain});
  EXPECT_EQ(more.exit_code, 0);
  EXPECT_NE(more.err.find("caution: entry 1 is the same order: this is one more pair, entry 3"),
            std::string::npos)
      << more.err;
  EXPECT_NE(more.err.find("archive end 3 --reason other"), std::string::npos) << more.err;
  const Finished cut = run({"cut", plain, "--save", "-o", "a.pdf"});
  EXPECT_EQ(cut.exit_code, 0);
  EXPECT_NE(cut.err.find("entries 1 and 3 are the same order: this is one more pair, entry 4"),
            std::string::npos)
      << cut.err;
  EXPECT_EQ(entries(), 4u);
  const Finished third = run(again);
  EXPECT_NE(third.err.find("already kept as entries 1, 3 and 4; not kept again"), std::string::npos)
      << third.err;
  EXPECT_FALSE(json::parse(third.out)["shoes"][0].contains("entry")) << "it may be any of them";
  EXPECT_EQ(entries(), 4u);
}

// Before, a pair with tries was awaited or late for ever, and no pair to wear.
TEST_F(ArchiveWearing, APairThatWasTriedIsThere) {
  const auto overview = [&] { return json::parse(archive({"overview", "--json"}).out)["rows"]; };
  ASSERT_EQ(archive({"mark", "1", "--sent", "2026-02-01"}).exit_code, 0);
  EXPECT_EQ(overview()[0]["what"], "awaited");
  EXPECT_TRUE(pairs()["pairs"].empty());
  ASSERT_EQ(archive({"tries", "1", "--foot", "left", "52.5:too-low,2026-03-10",
                     "55.5:good,worn,2026-03-12"})
                .exit_code,
            0);
  ASSERT_EQ(pairs()["pairs"].size(), 1u);
  EXPECT_EQ(pairs()["pairs"][0]["state"], "received");
  const json row = overview()[0];
  EXPECT_EQ(row["what"], "in use");
  EXPECT_EQ(row["day"], "2026-03-10");
  EXPECT_EQ(row["words"],
            "first tried 2026-03-10, no hours noted: shankline archive worn 1 --hours "
            "HOURS");
  // A day of receipt that somebody notes goes before the day of the first try.
  ASSERT_EQ(archive({"mark", "1", "--received", "2026-03-01"}).exit_code, 0);
  EXPECT_EQ(overview()[0]["what"], "to judge");
  ASSERT_EQ(archive({"mark", "1", "--refused", "2026-03-13"}).exit_code, 0);
  EXPECT_TRUE(pairs()["pairs"].empty());
}

// Before, an order that was never marked as sent was at most "no word yet".
TEST_F(ArchiveWearing, AnOrderThatIsDueIsAwaitedEvenIfNobodySentIt) {
  const std::string order = (scratch.path() / "due.yaml").string();
  for (const char* due : {"2026-03-13", "2026-03-14"}) {
    std::string text = read_file(plain);
    text.replace(text.find("date: 2026-03-14"), 16, std::string("date: 2026-01-05\ndue: ") + due);
    write_file(order, text);
    ASSERT_EQ(archive({"save", order}).exit_code, 0);
  }
  const json rows = json::parse(archive({"overview", "--json"}).out)["rows"];
  ASSERT_GE(rows.size(), 2u);
  EXPECT_EQ(rows[0]["what"], "late");
  EXPECT_EQ(rows[0]["words"], "not marked as sent, due 2026-03-13, 1 day late");
  EXPECT_EQ(rows[1]["what"], "awaited");
  EXPECT_EQ(rows[1]["words"], "not marked as sent, due 2026-03-14");
  ASSERT_EQ(archive({"note", "2", "--foot", "both", "--comfort", "4"}).exit_code, 0);
  EXPECT_EQ(json::parse(archive({"overview", "--json"}).out)["rows"][0]["entry"], 3)
      << "somebody had it on";
}

TEST_F(ArchiveWearing, TheOverviewPutsWhatNeedsDoingFirst) {
  const std::string order = (scratch.path() / "due.yaml").string();
  const auto save = [&](const std::string& dancer, const std::string& due) {
    std::string text = read_file(plain);
    text.replace(text.find("M-07"), 4, dancer);
    const std::size_t at = text.find("date: ");
    text.replace(at, text.find('\n', at) - at, "date: 2025-01-05\ndue: " + due);
    write_file(order, text);
    ASSERT_EQ(archive({"save", order}).exit_code, 0);
  };
  save("D-10", "2026-03-01"); // 2
  save("D-2", "2026-04-01");  // 3
  save("E-1", "2026-02-01");  // 4
  save("F-1", "2026-02-01");  // 5
  for (const char* id : {"2", "3", "4"})
    ASSERT_EQ(archive({"mark", id, "--sent", "2026-01-15"}).exit_code, 0);
  ASSERT_EQ(archive({"mark", "4", "--received", "2026-02-20"}).exit_code, 0);
  ASSERT_EQ(archive({"worn", "5", "--hours", "24", "--on", "2026-03-01"}).exit_code, 0);
  ASSERT_EQ(archive({"worn", "5", "--hours", "24", "--on", "2026-03-02"}).exit_code, 0);
  const Finished said = archive({"overview", "--json"});
  ASSERT_EQ(said.exit_code, 0) << said.err;
  const json overview = json::parse(said.out);
  std::vector<std::string> what;
  for (const json& row : overview["rows"])
    what.push_back(row["what"].get<std::string>() + " " + row["dancer"].get<std::string>());
  const Words first(what.begin(), what.begin() + 4);
  EXPECT_EQ(first, (Words{"late D-10", "nearly done F-1", "to judge E-1", "awaited D-2"}));
  EXPECT_EQ(std::count(what.begin(), what.end(), "old readings D-2"), 1);
  EXPECT_EQ(std::count(what.begin(), what.end(), "old readings M-07"), 0);
  EXPECT_EQ(overview["dancers"], 5);
  EXPECT_NE(overview["rows"][0]["words"].get<std::string>().find("13 days late"),
            std::string::npos);
  const std::string pdf = (scratch.path() / "overview.pdf").string();
  const Finished table = archive({"overview", "-o", pdf});
  ASSERT_EQ(table.exit_code, 0) << table.err;
  EXPECT_LT(table.out.find("D-10"), table.out.find("D-2"));
  EXPECT_NE(tests::run({"pdftotext", pdf, "-"}).out.find("13 days late"), std::string::npos);
  const Finished csv = archive({"overview", "--csv"});
  EXPECT_EQ(csv.out.substr(0, csv.out.find('\r')),
            "what,dancer,entry,day,words,hours,left_least,left_middle,left_most");
  EXPECT_EQ(std::count(csv.out.begin(), csv.out.end(), '\n'),
            static_cast<long>(overview["rows"].size()) + 1);
}

TEST_F(ArchiveWearing, ACutWithoutAWordIsNamedAfterTwoWeeks) {
  const auto rows = [&] {
    std::vector<std::string> what;
    const json overview = json::parse(archive({"overview", "--json"}).out);
    for (const json& row : overview["rows"])
      what.push_back(row["what"]);
    return what;
  };
  const auto count = [&](const std::string& what) {
    const auto all = rows();
    return std::count(all.begin(), all.end(), what);
  };
  EXPECT_EQ(count("no word yet"), 0) << "of today";
  const std::string order = (scratch.path() / "old.yaml").string();
  std::string text = read_file(plain);
  text.replace(text.find("2026-03-14"), 10, "2026-02-28");
  write_file(order, text);
  ASSERT_EQ(archive({"save", order}).exit_code, 0);
  EXPECT_EQ(count("no word yet"), 1);
  ASSERT_EQ(archive({"note", "2", "--foot", "both", "--comfort", "4"}).exit_code, 0);
  EXPECT_EQ(count("no word yet"), 0);
}

} // namespace
} // namespace shankline::tests::archive_wearing_test
