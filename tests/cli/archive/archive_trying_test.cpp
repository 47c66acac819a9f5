// Tries kept by `next --save`, `archive tries` and `archive note`, as their users meet them.
#include "tests/cli/archive_program.hpp"
#include "tests/support/pattern.hpp"

#include <nlohmann/json.hpp>

namespace shankline::tests::archive_trying_test {
namespace {

using nlohmann::json;
using Words = std::vector<std::string>;

class ArchiveTrying : public ArchiveProgram {
protected:
  void SetUp() override { ASSERT_EQ(archive({"save", plain}).exit_code, 0); }

  Finished next(Words words) const {
    words.insert(words.begin(), {"next", plain, "--foot", "left"});
    return run(std::move(words));
  }
  /// The outcomes in the archive's notes on the entry: {"cut_off": 55.5, "seen": "good", ...}.
  std::vector<json> outcomes() const {
    std::vector<json> all;
    const json entry = json::parse(archive({"show", "1", "--json"}).out);
    for (const json& note : entry["notes"])
      all.push_back(note["outcome"]);
    return all;
  }
};

TEST_F(ArchiveTrying, NextKeepsATryAndGoesOnFromIt) {
  const Finished kept =
      next({"--cut", "52.5", "--seen", "too-low", "--save", "--by", "R2", "--day", "2026-03-20"});
  EXPECT_EQ(kept.exit_code, 0) << kept.err;
  EXPECT_NE(kept.out.find("kept as entry 2: left 52.5 off, seen too-low, by R2"), std::string::npos)
      << kept.out;
  EXPECT_EQ(outcomes(),
            (std::vector<json>{
                {{"foot", "left"}, {"seen", "too-low"}, {"cut_off", 52.5}, {"by", "R2"}}}));
  EXPECT_EQ(
      json::parse(archive({"show", "2", "--json"}).out)["saved"].get<std::string>().substr(0, 10),
      "2026-03-14");
  EXPECT_NE(archive({"history", "M-07"}).out.find("2026-03-20: left 52.5 off"), std::string::npos);
  // Measured back from the witness line, which lies at 100.
  ASSERT_EQ(next({"--back", "44.5", "--seen", "good", "--save"}).exit_code, 0);
  EXPECT_EQ(outcomes().back()["cut_off"], 55.5);
  // After wear, the board ends where it ended.
  const Finished worn = next({"--seen", "good", "--worn", "--save"});
  EXPECT_EQ(worn.exit_code, 0) << worn.err;
  EXPECT_NE(worn.out.find("55.5 cut off, as on record"), std::string::npos) << worn.out;
  EXPECT_EQ(outcomes().back()["worn"], true);
  EXPECT_EQ(json::parse(next({"--seen", "too-low", "--json"}).out)["cut_off"], 55.5);
  EXPECT_EQ(archive({"audit"}).exit_code, 0);
}

TEST_F(ArchiveTrying, AGoodAtTheBarreIsAskedAgainAfterWear) {
  const Finished good = next({"--cut", "52.5", "--seen", "good"});
  EXPECT_NE(good.out.find("Ask again after some wear"), std::string::npos) << good.out;
  for (const Words& words :
       {Words{"--cut", "52.5", "--seen", "good", "--worn"}, {"--cut", "52.5", "--seen", "too-low"}})
    EXPECT_EQ(next(words).out.find("Ask again"), std::string::npos);
  const Finished typed = archive({"tries", "1", "--foot", "right", "53.5:good"});
  EXPECT_NE(typed.out.find("right: ask again after some wear"), std::string::npos) << typed.out;
  EXPECT_EQ(archive({"tries", "1", "--foot", "right", "53.5:good,worn"}).out.find("ask again"),
            std::string::npos);
}

TEST_F(ArchiveTrying, ADayToComeIsASlip) {
  const auto expect_refused = [](const Finished& said) {
    EXPECT_EQ(said.exit_code, 1);
    EXPECT_EQ(said.out, "");
    EXPECT_NE(said.err.find("2999-01-01 lies ahead of today"), std::string::npos) << said.err;
  };
  expect_refused(next({"--cut", "52.5", "--seen", "too-low", "--save", "--day", "2999-01-01"}));
  expect_refused(archive({"note", "1", "--foot", "left", "--cut", "52.5", "--seen", "too-low",
                          "--day", "2999-01-01"}));
  expect_refused(archive({"note", "1", "--foot", "left", "--hours", "2", "--day", "2999-01-01"}));
  expect_refused(archive({"tries", "1", "--foot", "left", "52.5:too-low", "55.5:good,2999-01-01"}));
  EXPECT_TRUE(outcomes().empty());
}

TEST_F(ArchiveTrying, ABoardThatWouldGetLongerIsASlip) {
  ASSERT_EQ(next({"--cut", "55.5", "--seen", "too-low", "--save"}).exit_code, 0);
  const Finished longer = next({"--cut", "52.5", "--seen", "too-low", "--save"});
  EXPECT_EQ(longer.exit_code, 1);
  EXPECT_EQ(longer.out, "") << "no next line is given for it";
  EXPECT_NE(longer.err.find("archive withdraw 2"), std::string::npos) << longer.err;
  ASSERT_EQ(archive({"withdraw", "2", "--words", "the other foot"}).exit_code, 0);
  EXPECT_EQ(archive({"withdraw", "2"}).exit_code, 1) << "once";
  EXPECT_EQ(archive({"withdraw", "1"}).exit_code, 1) << "no note";
  EXPECT_EQ(next({"--cut", "52.5", "--seen", "too-low", "--save"}).exit_code, 0);
  EXPECT_NE(archive({"history", "M-07"}).out.find("(withdrawn)"), std::string::npos);
  EXPECT_NE(archive({"show", "1"}).out.find("withdraws note 2, the other foot"), std::string::npos)
      << archive({"show", "1"}).out;
}

// Before, it was kept without a word, and the pair's tries stood in an order that cannot be.
TEST_F(ArchiveTrying, ABoardThatGotLongerFromDayToDayIsDoubted) {
  const auto tried = [&](const std::string& word) {
    const Finished said = archive({"tries", "1", "--foot", "left", word});
    EXPECT_EQ(said.exit_code, 0) << said.err;
    return said.err;
  };
  EXPECT_EQ(tried("52.5:too-low,2026-03-20"), "");
  EXPECT_EQ(tried("52.5:good,2026-03-18"), "") << "it ended there on both days";
  EXPECT_NE(tried("55.5:too-low,2026-03-19")
                .find("caution: the left board of entry 1 got longer: 55.5 cut off on 2026-03-19, "
                      "and 52.5 cut off on 2026-03-20"),
            std::string::npos);
  EXPECT_NE(tried("54:too-low,2026-03-21")
                .find("got longer: 55.5 cut off on 2026-03-19, and 54.0 cut off on 2026-03-21"),
            std::string::npos);
  EXPECT_EQ(tried("58.5:good,2026-03-22"), "");
  EXPECT_EQ(outcomes().size(), 5u) << "kept all the same";
  const Finished next_day =
      next({"--cut", "61.5", "--seen", "good", "--save", "--day", "2026-03-17"});
  EXPECT_EQ(next_day.exit_code, 0);
  EXPECT_NE(next_day.err.find("got longer: 61.5 cut off on 2026-03-17"), std::string::npos)
      << next_day.err;
}

TEST_F(ArchiveTrying, ABoardThatGotLongerWithinADayIsDoubted) {
  ASSERT_EQ(archive({"tries", "1", "--foot", "left", "60:good"}).err, "");
  const Finished longer = archive({"tries", "1", "--foot", "left", "43.5:too-low"});
  EXPECT_NE(longer.err.find("the left board of entry 1 got longer: 60.0 cut off on 2026-03-14, and "
                            "43.5 cut off on 2026-03-14"),
            std::string::npos)
      << longer.err;
}

TEST_F(ArchiveTrying, TheSameTryIsKeptOnce) {
  ASSERT_EQ(next({"--cut", "55.5", "--seen", "good", "--save"}).exit_code, 0);
  const Finished again = next({"--cut", "55.5", "--seen", "good", "--save"});
  EXPECT_EQ(again.exit_code, 1);
  EXPECT_NE(again.err.find("on record already, as entry 2"), std::string::npos) << again.err;
  EXPECT_EQ(next({"--cut", "55.5", "--seen", "good", "--save", "--day", "2026-03-21"}).exit_code,
            0);
  EXPECT_EQ(archive({"tries", "1", "--foot", "left", "58.5:too-low", "58.5:too-low"}).exit_code, 1);
  EXPECT_EQ(outcomes().size(), 2u);
}

TEST_F(ArchiveTrying, ACardIsTypedInWholeOrNotAtAll) {
  for (const Words& words : {Words{"53.5:too-low", "50:good"}, // longer than before
                             {"53.5:too-low", "120:good"},     // past the witness line
                             {"53.5:too-low", "56.5:fine"},    // no such word
                             {"53.5:too-low", "56.5:good,2026-02-30"}}) {
    Words all{"tries", "1", "--foot", "right"};
    all.insert(all.end(), words.begin(), words.end());
    const Finished refused = archive(all);
    EXPECT_NE(refused.exit_code, 0) << words[1];
    EXPECT_NE(refused.err.find(words[1].substr(words[1].find(':') == 3 ? 0 : 5, 3)),
              std::string::npos)
        << refused.err;
    EXPECT_TRUE(outcomes().empty()) << words[1];
  }
  const Finished kept = archive({"tries", "1", "--foot", "right", "--by", "T-4", "--day",
                                 "2026-03-15", "53.5:too-low", "56.5:cut-too-far,worn,2026-04-02"});
  EXPECT_EQ(kept.exit_code, 0) << kept.err;
  EXPECT_EQ(
      outcomes(),
      (std::vector<json>{{{"foot", "right"}, {"seen", "too-low"}, {"cut_off", 53.5}, {"by", "T-4"}},
                         {{"foot", "right"},
                          {"seen", "cut-too-far"},
                          {"cut_off", 56.5},
                          {"worn", true},
                          {"by", "T-4"}}}));
  EXPECT_NE(archive({"history", "M-07"}).out.find("2026-04-02: right 56.5 off"), std::string::npos);
  // Counted back from the witness line.
  ASSERT_EQ(
      archive({"tries", "1", "--foot", "left", "--back", "47.5:too-low", "44.5:good"}).exit_code,
      0);
  EXPECT_EQ(outcomes().back()["cut_off"], 55.5);
  EXPECT_EQ(archive({"tries", "1", "53.5:good"}).exit_code, 1) << "which foot?";
}

TEST_F(ArchiveTrying, ANoteNamesTheFootWhereThereAreTwo) {
  const Finished bare = archive({"note", "1", "--seen", "good"});
  EXPECT_EQ(bare.exit_code, 1);
  EXPECT_NE(bare.err.find("two feet"), std::string::npos) << bare.err;
  EXPECT_EQ(archive({"note", "1", "--foot", "both", "--seen", "good"}).exit_code, 2);
  EXPECT_EQ(archive({"note", "1", "--foot", "both", "--hours", "3"}).exit_code, 0);
  const Finished endless = archive({"note", "1", "--foot", "left", "--seen", "good"});
  EXPECT_EQ(endless.exit_code, 0);
  EXPECT_NE(endless.err.find("nothing is learned"), std::string::npos) << endless.err;
  // The board's end is on record from now on, and the hours say that it was after wear.
  ASSERT_EQ(
      archive({"note", "1", "--foot", "left", "--seen", "too-low", "--cut", "52.5"}).exit_code, 0);
  ASSERT_EQ(archive({"note", "1", "--foot", "left", "--further", "3"}).exit_code, 0);
  EXPECT_EQ(archive({"note", "1", "--foot", "left", "--further", "60"}).exit_code, 1)
      << "past the witness line";
  const Finished worn = archive({"note", "1", "--foot", "left", "--seen", "good", "--hours", "4"});
  EXPECT_EQ(worn.err, "");
  EXPECT_EQ(
      outcomes().back(),
      (json{
          {"foot", "left"}, {"seen", "good"}, {"cut_off", 55.5}, {"worn", true}, {"hours", 4.0}}));
  // An order of one foot needs no word for it.
  std::string one = read_file(plain);
  one.erase(one.find("  right:"), one.find("shoe:") - one.find("  right:"));
  one.replace(one.find("  both:"), 7, "  left:");
  write_file(scratch.path() / "one.yaml", one);
  ASSERT_EQ(archive({"save", (scratch.path() / "one.yaml").string()}).exit_code, 0);
  const Finished alone = archive({"note", "7", "--seen", "good", "--cut", "55"});
  EXPECT_EQ(alone.exit_code, 0) << alone.err;
  EXPECT_NE(archive({"show", "8"}).out.find("left 55.0 off, seen good"), std::string::npos);
  EXPECT_EQ(archive({"note", "7", "--foot", "right", "--seen", "good"}).exit_code, 1);
}

TEST_F(ArchiveTrying, NextFindsThePairByItsOrderOrByItsEntry) {
  std::string other = read_file(plain);
  other += "# a word more\n";
  write_file(scratch.path() / "other.yaml", other);
  const std::string path_of_other = (scratch.path() / "other.yaml").string();
  const Words words{"--foot", "left", "--cut", "52.5", "--seen", "too-low", "--save"};
  const auto with = [&](Words first) {
    first.insert(first.end(), words.begin(), words.end());
    return run(first);
  };
  const Finished unknown = with({"next", path_of_other});
  EXPECT_EQ(unknown.exit_code, 1);
  EXPECT_NE(unknown.err.find("--entry 1"), std::string::npos) << unknown.err;
  EXPECT_EQ(with({"next", path_of_other, "--entry", "1"}).exit_code, 0);
  const Finished by_entry =
      run({"next", "--entry", "1", "--foot", "left", "--cut", "53", "--seen", "good", "--json"});
  EXPECT_EQ(json::parse(by_entry.out)["cut_off"], 53.0) << by_entry.err;
  EXPECT_EQ(run({"next", "--foot", "left", "--seen", "good"}).exit_code, 2);
  EXPECT_EQ(next({"--cut", "52.5", "--seen", "good", "--by", "R2"}).exit_code, 2) << "kept where?";
  other.replace(other.find("M-07"), 4, "K-12");
  write_file(scratch.path() / "other.yaml", other);
  const Finished another = with({"next", path_of_other, "--entry", "1"});
  EXPECT_EQ(another.exit_code, 1);
  EXPECT_NE(another.err.find("another dancer"), std::string::npos) << another.err;
}

TEST_F(ArchiveTrying, TriesOfAnOrderThatIsSavedAgainStayTogether) {
  ASSERT_EQ(next({"--cut", "52.5", "--seen", "too-low", "--save"}).exit_code, 0);
  ASSERT_EQ(archive({"save", plain}).exit_code, 0);
  EXPECT_EQ(next({"--cut", "50", "--seen", "too-low", "--save"}).exit_code, 1) << "no longer";
  EXPECT_EQ(next({"--cut", "55.5", "--seen", "good", "--save"}).exit_code, 0);
  EXPECT_EQ(outcomes().size(), 2u);
  EXPECT_EQ(json::parse(archive({"learn", "--json"}).out)["shoes"], 1);
}

TEST_F(ArchiveTrying, TwoPairsOfOneOrderAreToldApart) {
  ASSERT_EQ(archive({"save", plain}).exit_code, 0);
  const Words low{"--cut", "52.5", "--seen", "too-low", "--save"};
  const auto of_entry = [&](const char* entry, Words words) {
    words.insert(words.end(), {"--entry", entry});
    return next(words);
  };
  const Finished asked = next(low);
  EXPECT_EQ(asked.exit_code, 1) << "the archive cannot tell";
  EXPECT_EQ(asked.out, "");
  EXPECT_NE(asked.err.find("allowed: entry 2 or entry 1\n"), std::string::npos) << asked.err;
  EXPECT_EQ(next({"--seen", "too-low"}).exit_code, 1) << "nor where the board ends";
  EXPECT_EQ(of_entry("1", low).exit_code, 0);
  // One has tries now: it is taken, and the other is named.
  const Finished taken = next({"--cut", "55.5", "--seen", "good", "--save"});
  EXPECT_EQ(taken.exit_code, 0) << taken.err;
  EXPECT_NE(taken.err.find("about entry 1, which has tries"), std::string::npos) << taken.err;
  EXPECT_NE(taken.err.find("add --entry 2"), std::string::npos) << taken.err;
  ASSERT_EQ(of_entry("2", low).exit_code, 0);
  const Finished which = next({"--cut", "55.5", "--seen", "good", "--worn", "--save"});
  EXPECT_EQ(which.exit_code, 1);
  EXPECT_NE(which.err.find("do: say which pair it is: --entry 2 or --entry 1"), std::string::npos)
      << which.err;
  // The first pair is worn out: the second one is meant.
  ASSERT_EQ(archive({"note", "1", "--foot", "both", "--ended", "box"}).exit_code, 0);
  const Finished second = next({"--cut", "55.5", "--seen", "good", "--save"});
  EXPECT_EQ(second.exit_code, 0) << second.err;
  EXPECT_EQ(second.err.find("also"), std::string::npos) << second.err;
  const Finished done = of_entry("1", {"--cut", "58.5", "--seen", "good", "--save"});
  EXPECT_EQ(done.exit_code, 1);
  EXPECT_NE(done.err.find("worn no longer since"), std::string::npos) << done.err;
}

TEST_F(ArchiveTrying, CutAndCardGoOnFromWhereTheBoardEnds) {
  ASSERT_EQ(archive({"tries", "1", "--foot", "left", "52.5:too-low", "55.5:too-low"}).exit_code, 0);
  const Finished cut = run({"cut", plain, "-o", "cut.pdf"});
  EXPECT_TRUE(Pattern("now left\\s+board\\s+55\\.5\\s+off,\\s+seen\\s+too-low").is_in(cut.out))
      << cut.out;
  const Finished card = archive({"card", "1", "-o", "card.pdf"});
  ASSERT_EQ(card.exit_code, 0) << card.err;
  const std::string text =
      run_shell("pdftotext -layout '" + (scratch.path() / "card.pdf").string() +
                "' - | grep -A40 'Tries, LEFT'")
          .out;
  EXPECT_NE(text.find("too-low"), std::string::npos) << text;
  EXPECT_NE(text.find("2026-03-14"), std::string::npos) << text;
  EXPECT_NE(text.find("58.5"), std::string::npos) << text; // the step after 55.5
  EXPECT_NE(text.find("worn"), std::string::npos) << text;
}

/// Notes tries of one pair, then cuts the next one and reads its caution on paper and terminal.
class AfterTheLastPair : public ArchiveTrying {
protected:
  void SetUp() override {
    ArchiveTrying::SetUp();
    write_file(scratch.path() / "next.yaml", read_file(plain) + "# the next pair\n");
  }
  std::string caution_after(const std::string& end, const Words& seen) {
    Words note{"note", "1", "--foot", "left", "--cut", end, "--seen"};
    note.insert(note.end(), seen.begin(), seen.end());
    const Finished noted = archive(note);
    EXPECT_EQ(noted.exit_code, 0) << noted.err;
    const std::string cut = (scratch.path() / "next.pdf").string();
    const Finished done = run({"cut", (scratch.path() / "next.yaml").string(), "-o", cut});
    EXPECT_EQ(done.exit_code, 0) << done.err;
    const std::string paper =
        Pattern("\\s+").replace_all(run_shell("pdftotext -layout '" + cut + "' -").out, " ");
    EXPECT_EQ(done.err.find("last pair") != std::string::npos,
              paper.find("last pair's left board (entry 1 of 2026-03-14)") != std::string::npos)
        << paper;
    const std::string order = (scratch.path() / "next.yaml").string();
    EXPECT_EQ(run({"check", order}).err, done.err);
    EXPECT_EQ(run({"next", order, "--foot", "left", "--cut", "52", "--seen", "too-low"}).err,
              done.err);
    EXPECT_EQ(run({"rack", order}).err.find("last pair") != std::string::npos, !done.err.empty());
    return done.err;
  }
};

// The final line of the order is at 62.
TEST_F(AfterTheLastPair, ALineFartherThanItsGoodOneIsACaution) {
  EXPECT_EQ(caution_after("57.5", {"too-low"}), "");
  const std::string far = caution_after("60.4", {"good", "--worn"});
  EXPECT_NE(
      far.find("left foot: the last pair's left board (entry 1 of 2026-03-14) was good after wear "
               "at 60.4 mm; this final line is at 62 mm"),
      std::string::npos)
      << far;
  EXPECT_EQ(caution_after("60.5", {"good"}), "") << "no more than a knife may leave";
}

// In capitals or not, it is most likely the same dancer, whose last pair is not looked at then.
TEST_F(AfterTheLastPair, ACodeInSmallLettersIsAskedAbout) {
  const std::string text = read_file(plain);
  const std::size_t at = text.find("M-07");
  const auto order = [&](const std::string& code) {
    std::string file = (scratch.path() / (code + ".yaml")).string();
    write_file(file, text.substr(0, at) + code + text.substr(at + 4));
    return file;
  };
  EXPECT_NE(
      run({"check", order("m-07")}).err.find("the archive has nothing of m-07, but it knows M-07"),
      std::string::npos);
  EXPECT_EQ(run({"check", order("m-08")}).err, "");
  const std::string meant = "did you mean M-07?";
  for (const Words& words : {Words{"history", "m-07"}, Words{"find", "m-07"},
                             Words{"pairs", "m-07"}, Words{"export", "--dancer", "m-07"}}) {
    const Finished unknown = archive(words);
    EXPECT_EQ(unknown.exit_code, 1) << words[0];
    EXPECT_NE(unknown.err.find(meant), std::string::npos) << words[0] << unknown.err;
  }
  EXPECT_NE(archive({"list", "--dancer", "m-07"}).out.find(meant), std::string::npos);
  EXPECT_NE(run({"again", "m-07"}).err.find(meant), std::string::npos);
  EXPECT_EQ(archive({"history", "m-08"}).err.find("did you mean"), std::string::npos);
  // Once there are both, they are two dancers.
  ASSERT_EQ(archive({"save", order("m-07")}).exit_code, 0);
  EXPECT_EQ(run({"check", order("m-07")}).err, "");
}

TEST_F(AfterTheLastPair, AnOrderDatedFarAheadDoesNotStayTheLastPair) {
  const auto order = [&](const char* name, const char* date) {
    std::string file = (scratch.path() / name).string();
    const std::string text = read_file(plain);
    const std::size_t at = text.find("date: ");
    write_file(file, text.substr(0, at) + "date: " + date + text.substr(at + 16));
    return file;
  };
  const Finished slip = archive({"save", order("slip.yaml", "2062-03-15")});
  EXPECT_EQ(slip.exit_code, 0);
  EXPECT_NE(slip.err.find("the order's date 2062-03-15 lies more than a year ahead: the archive "
                          "counts this pair by 2026-03-14"),
            std::string::npos)
      << slip.err;
  ASSERT_EQ(archive({"save", order("later.yaml", "2026-04-01")}).exit_code, 0);
  const std::string out = run({"cut", plain, "-o", (scratch.path() / "next.pdf").string()}).out;
  EXPECT_NE(out.find("last time 2026-04-01, entry 3"), std::string::npos) << out;
}

// No try is on record: the readings alone tell. The feet of the archive's pair are alike.
TEST_F(AfterTheLastPair, ExchangedFeetAreACautionOnPaperAndTerminal) {
  const auto order = [&](const char* name, const char* left, const char* right) {
    std::string file = (scratch.path() / name).string();
    write_file(file, "format: shankline-order/1\ndancer: M-11\ndate: 2026-03-20\npair: " +
                         std::string(name) + "\nfeet:\n  left: " + left + "\n  right: " + right +
                         "\nshoe:\n  board: {state: loose, length: 220, inset: 5, widths: [[22, "
                         "45], [96, 33], [164, 56]]}\nalterations: {shank: {reach: edge}}\n");
    return file;
  };
  const char* const shorter = "{length: 235, heel_front: 66, arch_break: 101, fold: 6}";
  const char* const longer = "{length: 238, heel_front: 61, arch_break: 95, fold: 6}";
  ASSERT_EQ(archive({"save", order("first.yaml", longer, shorter)}).exit_code, 0);
  const std::string same = order("same.yaml", longer, shorter);
  EXPECT_EQ(run({"check", same}).err.find("exchanged"), std::string::npos);
  const std::string exchanged = order("exchanged.yaml", shorter, longer);
  const std::string cut = (scratch.path() / "exchanged.pdf").string();
  const Finished done = run({"cut", exchanged, "-o", cut});
  const std::string words =
      "left and right look exchanged against the last pair (entry 2 of 2026-03-20): foot "
      "length then 238 mm left, 235 mm right; now 235 mm left, 238 mm right";
  EXPECT_NE(done.err.find(words), std::string::npos) << done.err;
  const std::string paper =
      Pattern("\\s+").replace_all(run_shell("pdftotext -f 2 '" + cut + "' -").out, " ");
  const std::string on_board = "left and right look exchanged against the last pair";
  EXPECT_NE(paper.find(on_board), std::string::npos) << "on the left board" << paper;
  EXPECT_NE(paper.find(on_board), paper.rfind(on_board)) << "on the right board" << paper;
}

TEST_F(AfterTheLastPair, TheCardOfASavedPairSaysItToo) {
  ASSERT_NE(caution_after("57", {"good", "--worn"}), "");
  ASSERT_EQ(archive({"save", (scratch.path() / "next.yaml").string()}).exit_code, 0);
  const std::string card = (scratch.path() / "card.pdf").string();
  const auto cautioned = [&](const char* entry) {
    EXPECT_EQ(archive({"card", entry, "-o", card}).exit_code, 0);
    return Pattern("\\s+")
               .replace_all(run_shell("pdftotext -layout '" + card + "' -").out, " ")
               .find("was good after wear at 57 mm") != std::string::npos;
  };
  EXPECT_TRUE(cautioned("3"));
  EXPECT_FALSE(cautioned("1")) << "that pair itself";
}

TEST_F(AfterTheLastPair, ALineWhereItHurtIsACaution) {
  EXPECT_NE(caution_after("63.4", {"pain"}).find("was seen pain at 63.4 mm"), std::string::npos);
  EXPECT_EQ(caution_after("63.5", {"cut-too-far"}), "") << "well before it";
}

// The final line is at 62 and the first cut at 52.5: 6 behind an end at 58.5.
TEST_F(AfterTheLastPair, AFirstCutNearAnEndThatWasTooFarNamesTheHoldBackThatMendsIt) {
  const std::string near = caution_after("58.4", {"cut-too-far"});
  EXPECT_NE(near.find("the first cut at 52.5 mm is already too near"), std::string::npos) << near;
  EXPECT_NE(near.find("Do not cut by this sheet. Write hold_back: 10 into"), std::string::npos)
      << near;
  const std::string text =
      Pattern("shank: \\{").replace_all(read_file(plain), "shank: {hold_back: 10, ");
  write_file(scratch.path() / "held.yaml", text);
  const Finished held = run({"check", (scratch.path() / "held.yaml").string()});
  EXPECT_EQ(held.exit_code, 0);
  EXPECT_EQ(held.err.find("Do not cut"), std::string::npos) << held.err;
  EXPECT_EQ(caution_after("58.6", {"cut-too-far"}).find("Do not cut"), std::string::npos);
}

TEST_F(AfterTheLastPair, NextDoesNotGoOnPastAStopOfThisPair) {
  const std::string order = plain;
  const auto next = [&](const std::string& end, const std::string& seen) {
    return run({"next", order, "--foot", "left", "--cut", end, "--seen", seen});
  };
  ASSERT_EQ(archive({"note", "1", "--foot", "left", "--cut", "54", "--seen", "pain"}).exit_code, 0);
  const Finished stopped = next("54", "too-low");
  EXPECT_EQ(stopped.exit_code, 1);
  EXPECT_EQ(stopped.out, "");
  EXPECT_NE(stopped.err.find("this left board was seen pain at 54.0"), std::string::npos)
      << stopped.err;
  EXPECT_NE(stopped.err.find("shankline archive withdraw 2"), std::string::npos) << stopped.err;
  EXPECT_EQ(run({"next", order, "--foot", "left", "--cut", "54", "--seen", "too-low", "--save"})
                .exit_code,
            1);
  EXPECT_EQ(run({"next", order, "--foot", "right", "--cut", "54", "--seen", "too-low"}).exit_code,
            0);
  EXPECT_EQ(next("54", "pain").exit_code, 0) << "what to do then is told as ever";
  ASSERT_EQ(archive({"withdraw", "2"}).exit_code, 0);
  EXPECT_EQ(next("54", "too-low").exit_code, 0);
}

// Before, one short try on a new pair silenced what the pair before it had told.
TEST_F(AfterTheLastPair, ABoardThatIsStillTooLongHidesOnlyWhatItContradicts) {
  write_file(scratch.path() / "second.yaml", read_file(plain) + "# the second pair\n");
  EXPECT_NE(caution_after("57", {"good", "--worn"}), "");
  ASSERT_EQ(archive({"save", (scratch.path() / "second.yaml").string()}).exit_code, 0);
  const auto cut_after_low_at = [&](const std::string& end) {
    EXPECT_EQ(archive({"note", "3", "--foot", "left", "--cut", end, "--seen", "too-low"}).exit_code,
              0);
    return run({"check", (scratch.path() / "next.yaml").string()}).err;
  };
  EXPECT_NE(cut_after_low_at("56.9").find("was good after wear at 57 mm"), std::string::npos);
  EXPECT_EQ(cut_after_low_at("57.1"), "");
}

TEST_F(AfterTheLastPair, NothingIsSaidOfThisVeryPairOrOfABoardThatWasCutOn) {
  EXPECT_NE(caution_after("58", {"good"}), "");
  EXPECT_EQ(run({"cut", plain, "-o", (scratch.path() / "same.pdf").string()}).err, "");
  ASSERT_EQ(archive({"note", "1", "--foot", "left", "--cut", "59"}).exit_code, 0);
  const Finished cut_on = run(
      {"cut", (scratch.path() / "next.yaml").string(), "-o", (scratch.path() / "on.pdf").string()});
  EXPECT_EQ(cut_on.err, "");
}

// Before, "good" was kept at the place that had just been called too low.
TEST_F(ArchiveTrying, AfterTooLowTheNewEndHasToBeSaid) {
  const auto next = [&](Words more) {
    Words words{"next", plain, "--foot", "left"};
    words.insert(words.end(), more.begin(), more.end());
    return run(words);
  };
  EXPECT_EQ(next({"--cut", "55.5", "--seen", "too-low", "--save"}).exit_code, 0);
  const Finished silent = next({"--seen", "good", "--save"});
  EXPECT_EQ(silent.exit_code, 2);
  EXPECT_NE(silent.err.find("still too long at 55.5"), std::string::npos) << silent.err;
  EXPECT_EQ(next({"--cut", "58.5", "--seen", "good", "--save"}).exit_code, 0);
  EXPECT_EQ(next({"--seen", "good", "--worn", "--save"}).exit_code, 0) << "nothing was cut since";
}

TEST_F(ArchiveTrying, AWornPairThatWasCopiedIsKept) {
  const std::string order = places::samples + "/sides_lowered.yaml";
  const std::string worn = places::samples + "/pairs/worn.yaml";
  EXPECT_EQ(run({"match", worn, order, "--save"}).exit_code, 1) << "its order is not saved yet";
  ASSERT_EQ(archive({"save", order}).exit_code, 0);
  const Finished kept = run({"match", worn, order, "--save"});
  EXPECT_EQ(kept.exit_code, 0) << kept.err;
  EXPECT_NE(kept.out.find("copied from a worn pair, seen good after wear"), std::string::npos)
      << kept.out;
  EXPECT_EQ(run({"match", worn, order, "--save"}).exit_code, 1) << "once";
  const json learned = json::parse(archive({"learn", "--json"}).out);
  EXPECT_EQ(learned["shoes"], 2);
  for (const json& foot : learned["feet"])
    EXPECT_EQ(foot["good_after_wear"], 1);
}

} // namespace
} // namespace shankline::tests::archive_trying_test
