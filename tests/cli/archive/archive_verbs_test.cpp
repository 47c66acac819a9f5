// The archive as a program: what its verbs say and do. Words are held by tests/cases/archive.case.
#include "cli/archive/archive_drawing.hpp"
#include "cli/archive/archive_store.hpp"
#include "export/formats/digest.hpp"
#include "export/formats/pdf_writer.hpp"

#include "tests/cli/random_archive.hpp"
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <sqlite3.h>
#include <sstream>
#include <sys/stat.h>

namespace shankline::tests::archive_verbs_test {
namespace {

namespace fs = std::filesystem;
using namespace tests;
using nlohmann::json;

class ArchiveVerbs : public testing::Test {
protected:
  Finished run(std::vector<std::string> words, const std::string& input = {}) {
    words.insert(words.begin(), places::program);
    return tests::run(words, surroundings(input));
  }
  Finished archive(std::vector<std::string> words) {
    words.insert(words.begin(), "archive");
    return run(words);
  }
  Finished shell(const std::string& command) { return run_shell(command, surroundings({})); }
  Surroundings surroundings(const std::string& input) const {
    Surroundings there;
    there.directory = scratch.path();
    there.input = input;
    there.environment = {{"XDG_DATA_HOME", (scratch.path() / "data").string()},
                         {"XDG_CONFIG_HOME", (scratch.path() / "config").string()},
                         {"SOURCE_DATE_EPOCH", "1773480413"},
                         {"PROGRAM", places::program},
                         {"SAMPLES", places::samples}};
    return there;
  }
  ArchiveStore store() { return ArchiveStore(path.string(), ArchiveUse::write); }

  ScratchDirectory scratch;
  fs::path path = scratch.path() / "data" / "shankline" / "archive.sqlite";
  const std::string plain = places::samples + "/plain.yaml";
};

std::size_t characters(const std::string& line) {
  return static_cast<std::size_t>(std::count_if(line.begin(), line.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xc0) != 0x80;
  }));
}

/// Lines fit 100 columns, but for an order's as it was given, and hold nothing that a terminal
/// obeys.
void expect_readable(const Finished& finished) {
  EXPECT_FALSE(finished.out.empty());
  std::istringstream lines(finished.out);
  bool as_given = false;
  for (std::string line; std::getline(lines, line);) {
    EXPECT_TRUE(as_given || characters(line) <= 100) << line;
    as_given = as_given || line == "the order as it was given:";
    for (const char c : line)
      EXPECT_TRUE(static_cast<unsigned char>(c) >= 0x20 && c != 0x7f) << line;
  }
}

TEST_F(ArchiveVerbs, EverySampleIsSavedAndReprintedToTheLastByte) {
  int saved = 0;
  for (const auto& sample : fs::directory_iterator(places::samples)) {
    if (sample.path().extension() != ".yaml") continue;
    const Finished cut = run({"cut", "-q", "--save", sample.path().string(), "-o", "sheets.pdf"});
    if (cut.exit_code == 1) continue; // another kind of file
    ASSERT_EQ(cut.exit_code, 0) << cut.err;
    const Finished again = archive({"reprint", std::to_string(++saved), "-o", "again.pdf"});
    ASSERT_EQ(again.exit_code, 0) << again.err;
    EXPECT_EQ(read_file(scratch.path() / "again.pdf"), read_file(scratch.path() / "sheets.pdf"));
    ArchiveStore archive = store();
    const EntryBody body = archive.body(*archive.head(saved));
    EXPECT_EQ(body.sheets, sha256(read_file(scratch.path() / "sheets.pdf")));
    EXPECT_EQ(body.order, read_file(sample.path()));
    const Finished check = run({"check", sample.path().string(), "--json"});
    EXPECT_EQ(json::parse(body.solution)["feet"]["left"]["trim"],
              json::parse(check.out)["feet"]["left"]["trim"]);
  }
  EXPECT_GE(saved, 5);
}

TEST_F(ArchiveVerbs, NamesInOtherScriptsAndRollsAreReprintedToTheLastByte) {
  std::string order = read_file(plain);
  const std::size_t at = order.find("dancer: M-07");
  ASSERT_NE(at, std::string::npos);
  order.replace(at, 12, "dancer: Жанна Ωμέγα");
  write_file(scratch.path() / "order.yaml", order);
  ASSERT_EQ(
      run({"cut", "-q", "--save", "order.yaml", "-o", "cut.pdf", "--paper", "roll:914"}).exit_code,
      0);
  const Finished again = archive({"reprint", "1", "-o", "again.pdf"});
  ASSERT_EQ(again.exit_code, 0) << again.err;
  EXPECT_EQ(read_file(scratch.path() / "again.pdf"), read_file(scratch.path() / "cut.pdf"));
  expect_readable(archive({"list"}));
  EXPECT_EQ(archive({"forget", "Жанна Ωμέγα", "--yes"}).exit_code, 0);
}

TEST_F(ArchiveVerbs, SaveAndCutSaveKeepTheSame) {
  ASSERT_EQ(archive({"save", plain, "--paper", "letter", "--units", "in"}).exit_code, 0);
  ASSERT_EQ(run({"cut", "-q", "--save", plain, "-o", "x.pdf", "--paper", "letter", "--units", "in"})
                .exit_code,
            0);
  ArchiveStore archive = store();
  EXPECT_EQ(archive.body(*archive.head(1)), archive.body(*archive.head(2)));
  EXPECT_NE(archive.body(*archive.head(1)).options.find("letter"), std::string::npos);
}

TEST_F(ArchiveVerbs, NothingIsMadeUnlessSomethingIsSaved) {
  EXPECT_EQ(run({"cut", plain, "-o", "x.pdf"}).err, "");
  for (const char* action : {"list", "audit", "export"})
    EXPECT_EQ(archive({action}).exit_code, 3) << action;
  EXPECT_EQ(archive({"save", places::samples + "/mistakes/break_missing.yaml"}).exit_code, 1);
  write_file(scratch.path() / "no_bundle.yaml", "format: shankline-order/1\n");
  for (const std::vector<std::string>& words :
       {std::vector<std::string>{"note", "1", "--seen", "too-low"}, {"forget", "M-07", "--yes"}}) {
    const Finished refused = archive(words);
    EXPECT_EQ(refused.exit_code, 3);
    EXPECT_NE(refused.err.find("there is no archive here yet"), std::string::npos) << refused.err;
  }
  EXPECT_EQ(archive({"import", "no_bundle.yaml"}).exit_code, 1);
  EXPECT_EQ(archive({"import", "nowhere.yaml"}).exit_code, 1);
  EXPECT_FALSE(fs::exists(scratch.path() / "data"));
}

TEST_F(ArchiveVerbs, WordsOfAnyLengthFitTheScreen) {
  {
    ArchiveStore archive = store();
    const std::string longest(300, 'w');
    std::string accents;
    for (int i = 0; i < 120; ++i)
      accents += "Ż";
    for (const std::string& name : {std::string("M-07"), longest, accents}) {
      ArchiveEntry entry = random_cut(name, 1);
      entry.head.pair = entry.head.summary = name;
      entry.body.order = "dancer: " + name + "\n\x1b[31mred\tand \xc2\x9b so\n";
      const EntryHead cut = archive.add(entry);
      ArchiveEntry note = random_note(cut, 1);
      note.head.outcome = R"({"words":")" + name + R"(","ended":")" + name + R"("})";
      archive.add(note);
    }
  }
  expect_readable(archive({"list"}));
  for (const char* id : {"1", "2", "3", "4", "5", "6"})
    expect_readable(archive({"show", id}));
  expect_readable(archive({"compare", "1", "3"}));
  expect_readable(archive({"history", std::string(300, 'w')}));
  expect_readable(archive({"audit"}));
}

TEST_F(ArchiveVerbs, PagesOfListAndHistoryMeet) {
  {
    ArchiveStore archive = store();
    for (int n = 1; n <= 30; ++n) {
      const EntryHead cut = archive.add(random_cut(n % 2 ? "M-07" : "K-12", n, 10));
      if (n % 3 == 0) archive.add(random_note(cut, n));
    }
  }
  const auto all_ids = [&](const std::vector<std::string>& words, const char* rows_key) {
    std::vector<std::int64_t> ids;
    std::string before;
    for (int page = 0; page < 50; ++page) {
      std::vector<std::string> asked = words;
      if (!before.empty()) asked.insert(asked.end(), {"--before", before});
      const json said = json::parse(archive(asked).out);
      for (const json& row : said[rows_key])
        ids.push_back(row["id"]);
      if (said["older"].is_null()) return ids;
      before = std::to_string(said["older"].get<std::int64_t>());
    }
    ADD_FAILURE() << "pages without end";
    return ids;
  };
  const auto whole = all_ids({"list", "--json", "--rows", "1000"}, "entries");
  ASSERT_EQ(whole.size(), 40u);
  EXPECT_EQ(all_ids({"list", "--json", "--rows", "7"}, "entries"), whole);
  const std::vector<std::string> of_one{"list", "--json", "--dancer", "K-12", "--rows"};
  const auto with = [](std::vector<std::string> words, const std::string& last) {
    words.push_back(last);
    return words;
  };
  EXPECT_EQ(all_ids(with(of_one, "4"), "entries"), all_ids(with(of_one, "900"), "entries"));
  EXPECT_EQ(all_ids(with(of_one, "900"), "entries").size(), 20u);
  const auto cuts = all_ids({"history", "K-12", "--json", "--rows", "100"}, "cuts");
  EXPECT_EQ(cuts.size(), 15u);
  EXPECT_EQ(all_ids({"history", "K-12", "--json", "--rows", "4"}, "cuts"), cuts);
  const auto days = all_ids(
      {"list", "--json", "--from", "2026-03-10", "--to", "2026-03-12", "--rows", "2"}, "entries");
  EXPECT_EQ(days.size(), 3u);
}

TEST_F(ArchiveVerbs, ADancersPagesGoOnBelowAnyEntry) {
  {
    ArchiveStore archive = store();
    for (int n = 1; n <= 12; ++n)
      archive.add(random_cut(n % 2 ? "M-07" : "K-12", n, 10));
  }
  // Entry 6 is K-12's; of M-07 there are 1, 3 and 5 before it.
  const json list =
      json::parse(archive({"list", "--json", "--dancer", "M-07", "--before", "6"}).out);
  ASSERT_EQ(list["entries"].size(), 3u);
  EXPECT_EQ(list["entries"][0]["id"], 5);
  const json history = json::parse(archive({"history", "M-07", "--json", "--before", "6"}).out);
  ASSERT_EQ(history["cuts"].size(), 3u);
  EXPECT_EQ(history["cuts"][0]["id"], 5);
}

TEST_F(ArchiveVerbs, HistoryShowsEveryNoteWhateverThePage) {
  {
    ArchiveStore archive = store();
    std::vector<EntryHead> cuts;
    for (int n = 1; n <= 6; ++n)
      cuts.push_back(archive.add(random_cut("M-07", n, 10)));
    for (int n = 1; n <= 6; ++n) // long after all the cuts
      for (int more = 0; more < 2; ++more)
        archive.add(random_note(cuts[static_cast<std::size_t>(n - 1)], n));
  }
  int notes = 0;
  std::string before = "1000";
  for (int page = 0; page < 3; ++page) {
    std::vector<std::string> words{"history", "M-07", "--json", "--rows", "2"};
    if (page > 0) words.insert(words.end(), {"--before", before});
    const json said = json::parse(archive(words).out);
    for (const json& cut : said["cuts"]) {
      EXPECT_EQ(cut["notes"].size(), 2u) << cut["id"];
      for (const json& note : cut["notes"]) {
        EXPECT_EQ(note["about"], cut["digest"]);
        ++notes;
      }
    }
    before = said["older"].is_null() ? "" : std::to_string(said["older"].get<std::int64_t>());
  }
  EXPECT_EQ(notes, 12);
}

TEST_F(ArchiveVerbs, ReprintSaysWhichVersionWould) {
  {
    ArchiveStore archive = store();
    Drawing drawing;
    drawing.pages = {{papers()[0], "p", {Text{{50, 50}, "words"}}}};
    ArchiveEntry entry = random_cut("M-07", 1);
    entry.head.program = "9.8.7";
    entry.body.drawing = drawing_bytes(drawing);
    entry.body.sheets = sha256(pdf_bytes(drawing));
    archive.add(entry);
    entry.body.drawing = "shankline-drawing/9 whatever";
    archive.add(entry);
    drawing.pages[0].marks.emplace_back(Text{{-500, 50}, "off the page"});
    entry.body.drawing = drawing_bytes(drawing);
    archive.add(entry);
  }
  EXPECT_EQ(archive({"reprint", "1", "-o", "1.pdf"}).exit_code, 0);
  for (const char* id : {"2", "3"}) {
    const Finished again = archive({"reprint", id, "-o", "none.pdf"});
    EXPECT_EQ(again.exit_code, 1);
    EXPECT_NE(again.err.find("9.8.7"), std::string::npos) << again.err;
    EXPECT_FALSE(fs::exists(scratch.path() / "none.pdf"));
  }
}

Drawing one_page(const std::string& words) {
  Drawing drawing;
  drawing.pages = {{papers()[0], "p", {Text{{50, 50}, words}}}};
  return drawing;
}

// Before: exit code 1 and "error: entry 1 was drawn by version 0.1.0, and this one (0.1.0) would
// draw it otherwise; nothing was written".
TEST_F(ArchiveVerbs, TheSameDrawingIsReprintedWhateverBytesTheWriterMakes) {
  {
    ArchiveStore archive = store();
    ArchiveEntry entry = random_cut("M-07", 1);
    entry.body.drawing = drawing_bytes(one_page("words"));
    entry.body.sheets = sha256("what the writer of that version made of it");
    archive.add(entry);
    entry.head.program = "99.0.0";
    archive.add(entry);
  }
  const Finished older = archive({"reprint", "1", "-o", "1.pdf"});
  EXPECT_EQ(older.exit_code, 0) << older.err;
  EXPECT_EQ(read_file(scratch.path() / "1.pdf"), pdf_bytes(one_page("words")));
  EXPECT_NE(older.out.find("the same drawing, written by a newer version"), std::string::npos)
      << older.out << older.err;
  const Finished newer = archive({"reprint", "2", "-o", "2.pdf"});
  EXPECT_EQ(newer.exit_code, 0) << newer.err;
  EXPECT_NE(newer.out.find("the same drawing, written by an older version"), std::string::npos)
      << newer.out << newer.err;
}

// Before, the other drawing was taken for the one that was saved: nothing but the bytes of the PDF
// told them apart.
TEST_F(ArchiveVerbs, ADrawingThatIsNotTheOneThatWasSavedIsRefused) {
  const std::string saved = drawing_bytes(one_page("cut off 62.0"));
  const std::string other = drawing_bytes(one_page("cut off 82.0"));
  {
    ArchiveStore archive = store();
    ArchiveEntry entry = random_cut("M-07", 1);
    entry.body.drawing = saved.substr(0, saved.find('\n')) + other.substr(other.find('\n'));
    entry.body.sheets = sha256(pdf_bytes(one_page("cut off 82.0")));
    archive.add(entry);
  }
  const Finished said = archive({"reprint", "1", "-o", "x.pdf"});
  EXPECT_EQ(said.exit_code, 3);
  EXPECT_NE(said.err.find("its drawing is spoilt"), std::string::npos) << said.err;
  EXPECT_FALSE(fs::exists(scratch.path() / "x.pdf"));
}

// Before, nothing told such an entry from one that follows the present rule.
TEST_F(ArchiveVerbs, AnEntryFromBeforeTheRuleOfTheFirstCutSaysSo) {
  {
    ArchiveStore archive = store();
    ArchiveEntry entry = random_cut("M-07", 1);
    entry.body.drawing = drawing_bytes(one_page("words"));
    entry.body.sheets = sha256(pdf_bytes(one_page("words")));
    for (const char* version : {"0.1.0", "0.2.0", "0.10.0"}) {
      entry.head.program = version;
      entry.head.dancer = std::string("M-") + version[2];
      if (std::string(version) == "0.10.0") entry.head.dancer = "M-10";
      archive.add(entry);
    }
    entry.head.program = "0.1.0";
    entry.head.dancer = "M-9";
    entry.head.alterations = "liner"; // no board is cut, so there is no first cut
    archive.add(entry);
  }
  const auto one_line = [](std::string text) {
    for (std::size_t at = 0; (at = text.find('\n')) != std::string::npos;)
      text.replace(at, std::min(text.find_first_not_of(" \n", at), text.size()) - at, " ");
    return text;
  };
  const std::string words = "This entry is from before version 0.2.0: its first cut follows the "
                            "older rule. Solve the order again before you cut from it.";
  const std::vector<std::string> dancers{"M-1", "M-2", "M-10", "M-9"};
  for (int i = 1; i <= 4; ++i) {
    const std::string id = std::to_string(i);
    const Finished printed = archive({"reprint", id, "-o", id + ".pdf"});
    EXPECT_EQ(printed.exit_code, 0) << printed.err;
    const Finished shown = archive({"show", id});
    const Finished history = archive({"history", dancers[static_cast<std::size_t>(i - 1)]});
    for (const std::string& said : {printed.err, shown.out, history.out})
      EXPECT_EQ(one_line(said).find(words) != std::string::npos, i == 1) << i << "\n" << said;
    EXPECT_EQ(json::parse(archive({"show", id, "--json"}).out)["older_rule"], i == 1);
  }
}

TEST_F(ArchiveVerbs, DamageEndsWithThreeAndIsNamed) {
  ASSERT_EQ(archive({"save", plain, plain, plain}).exit_code, 0);
  const std::string guard = ask(path, "SELECT sql FROM sqlite_schema WHERE name = 'entries_hold'");
  tamper(path,
         "DROP TRIGGER entries_hold; UPDATE entries SET summary = 'left 1.0 off' WHERE id = 2;" +
             guard);
  for (const std::vector<std::string>& words :
       std::vector<std::vector<std::string>>{{"list"},
                                             {"history", "M-07"},
                                             {"show", "2"},
                                             {"compare", "1", "2"},
                                             {"export"},
                                             {"reprint", "2", "-o", "x.pdf"}}) {
    const Finished said = archive(words);
    EXPECT_EQ(said.exit_code, 3) << words[0];
    EXPECT_EQ(said.out.find("left 1.0"), std::string::npos) << words[0];
  }
  const Finished audit = archive({"audit"});
  EXPECT_EQ(audit.exit_code, 3);
  EXPECT_NE(audit.out.find("entry 2 was changed"), std::string::npos) << audit.out;
  EXPECT_FALSE(json::parse(archive({"audit", "--json"}).out)["clean"]);
  // A cut is cut all the same.
  const Finished cut = run({"cut", plain, "-o", "x.pdf"});
  EXPECT_EQ(cut.exit_code, 0);
  EXPECT_TRUE(fs::exists(scratch.path() / "x.pdf"));
}

TEST_F(ArchiveVerbs, FullDiskEndsWithThree) {
  ASSERT_EQ(archive({"save", plain}).exit_code, 0);
  // In blocks of 1 KB or 512 bytes; the limit stands for the disk.
  const Finished said =
      shell("trap '' XFSZ; ulimit -f 40; \"$PROGRAM\" archive save \"$SAMPLES/plain.yaml\"");
  EXPECT_EQ(said.exit_code, 3) << said.out << said.err;
  EXPECT_NE(said.err.find("archive.sqlite"), std::string::npos) << said.err;
  EXPECT_EQ(store().end().id, 1);
}

TEST_F(ArchiveVerbs, ForgetAsksOnATerminalAndNeedsYesElsewhere) {
  ASSERT_EQ(archive({"save", plain}).exit_code, 0);
  EXPECT_EQ(archive({"forget", "M-07"}).exit_code, 2);
  const auto typed = [&](const std::string& words) {
    return shell("(sleep 0.5; echo '" + words +
                 "'; sleep 0.5) | script -qec '\"$PROGRAM\" archive forget M-07' /dev/null");
  };
  const Finished no = typed("yes");
  EXPECT_NE(no.out.find("nothing was erased"), std::string::npos) << no.out;
  EXPECT_EQ(store().counted("M-07"), 1);
  const Finished yes = typed("M-07");
  EXPECT_NE(yes.out.find("1 entry erased"), std::string::npos) << yes.out;
  EXPECT_EQ(store().counted("M-07"), 0);
  EXPECT_EQ(archive({"forget", "M-07", "--yes"}).exit_code, 1);
}

TEST_F(ArchiveVerbs, ForgetSaysWhoElseSpeaksOfTheDancer) {
  {
    ArchiveStore archive = store();
    archive.add(random_cut("M-07", 1));
    ArchiveEntry other = random_cut("K-12", 1);
    other.body.order += "note: the same last as M-07\n";
    archive.add(other);
    archive.add(random_cut("K-12", 2));
  }
  const Finished said = archive({"forget", "M-07", "--yes"});
  EXPECT_EQ(said.exit_code, 0);
  EXPECT_NE(said.err.find("hold the same word: 2\n"), std::string::npos) << said.err;
}

TEST_F(ArchiveVerbs, EightProgramsAtOnceLoseNothing) {
  const Finished all = shell("for i in 1 2 3 4 5 6 7 8; do "
                             "\"$PROGRAM\" archive save \"$SAMPLES/plain.yaml\" & done; wait");
  EXPECT_EQ(all.err.find("error"), std::string::npos) << all.err;
  EXPECT_EQ(store().end().id, 8);
  EXPECT_EQ(archive({"audit"}).exit_code, 0);
}

using LongArchiveVerbs = ArchiveVerbs; // as long as the program is patient
TEST_F(LongArchiveVerbs, LockedByAnotherWriterEndsWithThree) {
  ASSERT_EQ(archive({"save", plain}).exit_code, 0);
  sqlite3* other = nullptr;
  ASSERT_EQ(sqlite3_open(path.c_str(), &other), SQLITE_OK);
  ASSERT_EQ(sqlite3_exec(other, "BEGIN IMMEDIATE", nullptr, nullptr, nullptr), SQLITE_OK);
  const Finished said = archive({"save", plain});
  EXPECT_EQ(said.exit_code, 3);
  EXPECT_NE(said.err.find("another program is using this archive"), std::string::npos) << said.err;
  EXPECT_EQ(archive({"list"}).exit_code, 0) << "reading goes on";
  sqlite3_close(other);
}

unsigned mode_of(const fs::path& file) {
  struct stat about {};
  return ::stat(file.c_str(), &about) == 0 ? about.st_mode & 0777u : 0;
}

TEST_F(ArchiveVerbs, WhatIsWrittenOutIsItsOwnersAlone) {
  ASSERT_EQ(archive({"save", plain}).exit_code, 0);
  const fs::path bundle = scratch.path() / "all.bundle";
  ASSERT_EQ(shell("umask 022; \"$PROGRAM\" archive export -o all.bundle").exit_code, 0);
  EXPECT_EQ(mode_of(bundle), 0600u);
  // A wider one is not left as wide as it was.
  fs::permissions(bundle, static_cast<fs::perms>(0666));
  ASSERT_EQ(shell("umask 022; \"$PROGRAM\" archive export -o all.bundle").exit_code, 0);
  EXPECT_EQ(mode_of(bundle), 0600u);
  ASSERT_EQ(shell("umask 022; \"$PROGRAM\" archive backup copy.sqlite").exit_code, 0);
  EXPECT_EQ(mode_of(scratch.path() / "copy.sqlite"), 0600u);
  // A sheet is for the bench.
  ASSERT_EQ(shell("umask 022; \"$PROGRAM\" archive reprint 1 -o sheets.pdf").exit_code, 0);
  EXPECT_EQ(mode_of(scratch.path() / "sheets.pdf"), 0644u);
}

} // namespace
} // namespace shankline::tests::archive_verbs_test
