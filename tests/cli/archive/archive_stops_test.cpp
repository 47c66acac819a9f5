// Tests that a word against cutting a board farther stands on every sheet and in every list. It
// stands until it is withdrawn, or until a newer board was good or still too long there.
#include "tests/cli/archive_program.hpp"
#include "tests/support/pattern.hpp"

#include <nlohmann/json.hpp>

namespace shankline::tests::archive_stops_test {
namespace {

using nlohmann::json;
using Words = std::vector<std::string>;

/// The program's today is 2026-03-14. The orders are of one dancer, a month apart; the first and
/// the final line of the left board are at 52.5 and 62.0.
class ArchiveStops : public ArchiveProgram {
protected:
  std::string order(int month) const {
    std::string text = read_file(plain);
    text.replace(text.find("2026-03-14"), 10, "2025-0" + std::to_string(month) + "-01");
    std::string file = (scratch.path() / (std::to_string(month) + ".yaml")).string();
    write_file(file, text);
    return file;
  }
  /// Saves the order of a month and the tries of its left board; returns the entry's number.
  std::string saved(int month, Words tries = {}) const {
    const Finished kept = archive({"save", order(month), "--json"});
    EXPECT_EQ(kept.exit_code, 0) << kept.err;
    const json list = json::parse(archive({"list", "--json", "--rows", "1"}).out);
    std::string id = std::to_string(list["entries"][0]["id"].get<int>());
    if (tries.empty()) return id;
    tries.insert(tries.begin(), {"tries", id, "--foot", "left", "--day",
                                 "2025-0" + std::to_string(month) + "-02"});
    const Finished noted = archive(tries);
    EXPECT_EQ(noted.exit_code, 0) << noted.err;
    return id;
  }
  std::string cautions(int month) const {
    const Finished cut =
        run({"cut", order(month), "-q", "-o", (scratch.path() / "cut.pdf").string()});
    EXPECT_EQ(cut.exit_code, 0) << cut.err;
    return cut.err;
  }
  std::string page(Words words) const {
    const std::string file = (scratch.path() / "page.pdf").string();
    words.insert(words.end(), {"-o", file});
    const Finished made = archive(words);
    EXPECT_EQ(made.exit_code, 0) << made.err;
    return Pattern("\\s+").replace_all(run_shell("pdftotext -layout '" + file + "' -").out, " ");
  }
};

bool has(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

constexpr const char* do_not_cut = "Do not cut by this sheet";

TEST_F(ArchiveStops, AFurtherCutOfANewerBoardHidesNoStop) {
  saved(1, {"52.5:too-low", "55.5:cut-too-far"});
  const std::string newer = saved(2, {"45:too-low"});
  ASSERT_EQ(
      archive({"note", newer, "--foot", "left", "--further", "3", "--day", "2025-02-03"}).exit_code,
      0);
  const std::string said = cautions(3);
  EXPECT_TRUE(has(said, "an earlier pair's left board (entry 1 of 2025-01-01) was seen cut-too-far "
                        "at 55.5 mm"))
      << said;
  EXPECT_TRUE(has(said, do_not_cut)) << said;
}

// The newer pair was good at 55, which says nothing of 56. Once it is good at 56, the stop is gone.
TEST_F(ArchiveStops, OnlyANewerBoardThatWasGoodOrTooLongThereTakesAStopBack) {
  saved(1, {"56:cut-too-far"});
  const std::string good = saved(2, {"55:good"});
  saved(3, {"52:too-low"});
  EXPECT_TRUE(has(cautions(4), "was seen cut-too-far at 56 mm")) << cautions(4);
  ASSERT_EQ(archive({"tries", good, "--foot", "left", "--day", "2025-02-03", "56:good"}).exit_code,
            0);
  EXPECT_FALSE(has(cautions(4), "cut-too-far")) << cautions(4);
}

TEST_F(ArchiveStops, AStopStandsHoweverManyNewerPairsAreSilentAboutIt) {
  saved(1, {"54:pain"});
  for (int pair = 0; pair < 12; ++pair)
    saved(2, {std::to_string(30 + pair) + ":too-low"});
  EXPECT_TRUE(has(cautions(3), "was seen pain at 54 mm")) << cautions(3);
}

TEST_F(ArchiveStops, AnEndedPairOfTheSameOrderOpensNothing) {
  saved(1, {"58.5:cut-too-far"});
  const std::string twin = saved(1);
  const auto next = [&] {
    return run({"next", order(1), "--foot", "left", "--cut", "58.5", "--seen", "too-low"});
  };
  EXPECT_EQ(next().exit_code, 1) << "it may be either pair";
  ASSERT_EQ(archive({"end", twin, "--reason", "other"}).exit_code, 0);
  const Finished refused = next();
  EXPECT_EQ(refused.exit_code, 1) << refused.out;
  EXPECT_TRUE(has(refused.err, "this left board was seen cut-too-far at 58.5 on 2025-01-02"))
      << refused.err;
  ASSERT_EQ(archive({"withdraw", "2"}).exit_code, 0);
  EXPECT_EQ(next().exit_code, 0) << next().err;
}

TEST_F(ArchiveStops, AMatchedLineIsHeldAgainstThemToo) {
  saved(1, {"52.5:cut-too-far"});
  const std::string worn = (scratch.path() / "worn.yaml").string();
  write_file(worn, "format: shankline-worn/1\ndancer: M-07\nleft:\n  board_end: [168, 168.5]\n  "
                   "heel_end: 231\n");
  const Finished matched = run({"match", worn, order(2)});
  EXPECT_EQ(matched.exit_code, 0) << matched.err;
  EXPECT_TRUE(has(matched.err, do_not_cut)) << matched.err;
}

TEST_F(ArchiveStops, LabelsCareAndCardSayToCutNoMore) {
  const std::string id = saved(1, {"52.5:too-low", "55.5:pain"});
  // A later "too low" takes nothing back, and is doubted.
  const Finished later =
      archive({"tries", id, "--foot", "left", "--day", "2025-01-03", "57:too-low"});
  EXPECT_TRUE(has(later.err, "the left board of entry 1 was seen pain at 55.5 on 2025-01-02"))
      << later.err;
  EXPECT_TRUE(has(later.out, "57.0 off, seen too-low, but pain at 55.5 before")) << later.out;
  EXPECT_FALSE(has(later.out, "ask again")) << later.out;
  const std::string labels = page({"labels", id});
  EXPECT_TRUE(has(labels, "STOP, seen pain 2025-01-02")) << labels;
  EXPECT_TRUE(has(labels, "! see sheet")) << labels;
  EXPECT_FALSE(has(labels, "final 62.0")) << labels;
  EXPECT_TRUE(has(labels, "final 63.0, after trying")) << "of the right shoe";
  const std::string care = page({"care", id});
  EXPECT_TRUE(has(care, "STOP, seen pain 2025-01-02: cut no more")) << care;
  EXPECT_FALSE(has(care, "final 62.0, after trying")) << care;
  const std::string card = page({"card", id});
  EXPECT_TRUE(has(card, "cut no more")) << card;
  EXPECT_FALSE(has(card, "62.0 38.0")) << "no further line is offered: " << card;
  // A "good" takes it back.
  ASSERT_EQ(archive({"tries", id, "--foot", "left", "--day", "2025-01-04", "57:good"}).exit_code,
            0);
  EXPECT_FALSE(has(page({"labels", id}), "STOP"));
}

TEST_F(ArchiveStops, AStoppedPairIsToldFirstAndNotPlannedWith) {
  const std::string id = saved(1, {"52.5:rolls-over"});
  const std::string other = saved(2, {"52.5:good"});
  for (const std::string& pair : {id, other})
    ASSERT_EQ(archive({"mark", pair, "--in-use", "2026-03-01"}).exit_code, 0);
  EXPECT_TRUE(has(archive({"mark", id, "--for", "stage"}).err, "was seen rolls-over at 52.5"));
  EXPECT_EQ(archive({"mark", other, "--for", "stage"}).err, "");
  const json overview = json::parse(archive({"overview", "--json"}).out);
  EXPECT_EQ(overview["rows"][0]["what"], "stopped");
  EXPECT_EQ(overview["rows"][0]["entry"], 1);
  const json pairs = json::parse(archive({"pairs", "--json"}).out);
  ASSERT_EQ(pairs["pairs"].size(), 2u);
  EXPECT_EQ(pairs["pairs"][0]["state"], "stopped");
  EXPECT_EQ(pairs["pairs"][0]["stopped"], "left board seen rolls-over at 52.5 on 2025-01-02");
  EXPECT_EQ(pairs["pairs"][1]["stopped"], nullptr);
  const std::string schedule = (scratch.path() / "schedule.csv").string();
  write_file(schedule, "day,hours,stage,dancer\n2026-03-15,1,yes,M-07\n2026-03-16,1,no,M-07\n"
                       "2026-03-16,1,no,M-70\n");
  const json plan = json::parse(run({"rotation", "M-07", "--schedule", schedule, "--json"}).out);
  for (const json& day : plan["dancers"][0]["days"])
    EXPECT_NE(day["entry"], 1) << day;
  const std::string alone = run({"rotation", "M-07", "--schedule", schedule}).out;
  EXPECT_TRUE(has(alone, "Not counted: entry 1, left board seen rolls-over")) << alone;
  const Finished company = run({"rotation", "--schedule", schedule});
  EXPECT_TRUE(has(company.out, "entry 1 of M-07")) << company.out;
  // A mistyped code would leave its dancer without a plan.
  EXPECT_TRUE(has(company.out, "nothing of M-70")) << company.out;
  EXPECT_TRUE(has(run({"rotation", "--schedule", schedule, "--csv"}).err, "nothing of M-70"));
}

TEST_F(ArchiveStops, TheNextOrderSaysWhatHurtOnAnOlderPair) {
  saved(1, {"52.5:pain"});
  saved(2);
  const std::string again = run({"again", "M-07"}).out;
  EXPECT_TRUE(has(again, "It hurt on entry 1 of 2025-01-01")) << again;
  saved(3, {"52.5:good"});
  saved(4);
  EXPECT_FALSE(has(run({"again", "M-07"}).out, "It hurt")) << "a newer pair was good";
}

} // namespace
} // namespace shankline::tests::archive_stops_test
