// The dancer's next order: which pair it repeats, how old its readings are called, and that it
// reads back and solves as the order that it repeats.
#include "cli/job/next_order.hpp"

#include "cli/archive/archive_store.hpp"
#include "cli/order_file/order_reader.hpp"
#include "cli/order_file/order_writer.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/solution/solution.hpp"

#include "tests/cli/tried_pairs.hpp"
#include "tests/geometry/random_orders.hpp"
#include "tests/support/fewer_cases.hpp"
#include "tests/support/scratch_directory.hpp"

#include <algorithm>
#include <gtest/gtest.h>

namespace shankline::tests::next_order_test {
namespace {

struct Next {
  NextOrderBasis basis;
  std::string text;
  std::string head; ///< the remarks, a line each
};

class NextOrderTest : public testing::Test {
protected:
  /// The next order of M-07 from an archive with these entries, added in this order.
  Next next(std::vector<ArchiveEntry> entries, const std::string& today = "2026-12-01") {
    ArchiveStore store((scratch_.path() / std::to_string(++files_)).string(), ArchiveUse::write);
    for (ArchiveEntry& entry : entries)
      store.add(std::move(entry));
    const auto pairs = recorded_pairs(store, "M-07");
    const RecordedPair* const from = pair_to_repeat(pairs);
    ReadOrder read = read_order(store.body(from->cut).order, "entry");
    EXPECT_TRUE(read.ok());
    Next made;
    made.basis = next_order_basis(store, pairs, *from, std::move(read.order));
    made.text = next_order_text(made.basis, today);
    for (const std::string& line : next_order_remarks(made.basis, today))
      made.head += line + "\n";
    return made;
  }

private:
  ScratchDirectory scratch_;
  int files_ = 0;
};

bool says(const Next& next, const std::string& words) {
  return next.head.find(words) != std::string::npos;
}

ArchiveEntry cut_on(const std::string& date, const std::string& pair = "a pair") {
  CutWords words;
  words.date = date;
  words.pair = pair;
  return tried_cut(words);
}

TEST_F(NextOrderTest, RepeatsTheLastPairThatWasGoodAfterWear) {
  const ArchiveEntry oldest = cut_on("2026-01-10");
  const ArchiveEntry worn = cut_on("2026-02-10");
  const ArchiveEntry barre = cut_on("2026-03-10");
  const ArchiveEntry low = cut_on("2026-04-10");
  const Next next =
      this->next({low, barre, worn, oldest, tried(oldest.head, {57, "good", true}),
                  tried(worn.head, {56, "too-low"}), tried(worn.head, {58.5, "good", true}),
                  tried(barre.head, {58, "good"}), tried(low.head, {58, "too-low"})});
  EXPECT_EQ(next.basis.from.cut.date, "2026-02-10");
  EXPECT_TRUE(next.head.starts_with("from entry 3 of 2026-02-10, good after wear\n")) << next.head;
  EXPECT_TRUE(says(next, "left board: 58.5 cut off where it ended, seen good after wear\n"))
      << next.head;
  EXPECT_TRUE(says(next, "entry 1 of 2026-04-10 is newer, but not used: left seen too-low."))
      << next.head;
  EXPECT_FALSE(says(next, "compare them")) << "its readings are the same ones";
}

TEST_F(NextOrderTest, ElseTheLastGoodOneElseTheLastOne) {
  const ArchiveEntry barre = cut_on("2026-03-10");
  const ArchiveEntry last = cut_on("2026-04-10");
  EXPECT_TRUE(says(next({barre, last, tried(barre.head, {58, "good"})}),
                   "from entry 1 of 2026-03-10, good at the barre; no pair was found good after"));
  EXPECT_TRUE(says(next({barre, last, tried(barre.head, {58, "cut-too-far"})}),
                   "from entry 2 of 2026-04-10, the last pair, without a try on record;"));
  const Next low = next({barre, last, tried(last.head, {58, "too-low"})});
  EXPECT_TRUE(says(low, "from entry 2 of 2026-04-10, the last pair; no pair was found good"));
  EXPECT_FALSE(says(low, "newer"));
}

// A "good" of before counts for nothing once something else was seen, or the board was cut on.
TEST_F(NextOrderTest, OnlyTheLastTryOfAPairCounts) {
  const ArchiveEntry older = cut_on("2026-03-10");
  const ArchiveEntry later = cut_on("2026-04-10");
  const std::vector<ArchiveEntry> good{older, later, tried(older.head, {58, "good", true}),
                                       tried(later.head, {58, "good", true})};
  EXPECT_TRUE(says(next(good), "from entry 2 of"));
  auto then = good;
  then.push_back(tried(later.head, {58, "pain", true, "", "2026-06-01"}));
  const Next hurt = next(then);
  EXPECT_TRUE(says(hurt, "from entry 1 of")) << hurt.head;
  EXPECT_TRUE(says(hurt, "It hurt on entry 2 of 2026-04-10: ask the teacher")) << hurt.head;
  then.back() = tried(later.head, {58, "pain", false, "", "2026-06-01"});
  EXPECT_TRUE(says(next(then), "from entry 1 of")) << "nobody said that it came after wear";
  then = good;
  then.push_back(tried(later.head, {58, "good", false, "", "2026-06-01"}));
  EXPECT_TRUE(says(next(then), "good after wear")) << "and good at the barre since";
  then = good;
  Outcome further;
  further.foot = "left";
  further.cut_off = 60;
  then.push_back(noted(later.head, further));
  EXPECT_TRUE(says(next(then), "from entry 1 of")) << next(then).head;
  then = good;
  then.push_back(tried(later.head, {58, "good", true, "", "2026-05-01"}));
  Outcome withdraws;
  for (const std::size_t wrong : {std::size_t(3), std::size_t(4)}) {
    withdraws.withdraws = then[wrong].head.digest;
    withdraws.words = "not so " + std::to_string(wrong);
    then.push_back(noted(later.head, withdraws));
  }
  EXPECT_TRUE(says(next(then), "from entry 1 of")) << next(then).head;
}

TEST_F(NextOrderTest, OfTwoOnOneDayTheLaterSavedOneIsTheLast) {
  EXPECT_TRUE(says(next({cut_on("2026-03-10", "one"), cut_on("2026-03-10", "two")}),
                   "from entry 2 of 2026-03-10"));
}

TEST_F(NextOrderTest, CallsReadingsOldAfterAYearAndNoDaySooner) {
  const ArchiveEntry cut = cut_on("2025-03-14");
  const Next young = next({cut}, "2026-03-14"); // 365 days
  EXPECT_TRUE(says(young, "left foot: readings of 2025-03-14\n")) << young.head;
  const Next old = next({cut}, "2026-03-15");
  EXPECT_TRUE(says(old, "left foot: readings of 2025-03-14, older than a year: measure again\n"))
      << old.head;
  EXPECT_EQ(young.text.find("older than a year"), std::string::npos);
}

// An order made by this very function repeats the readings under a new date.
TEST_F(NextOrderTest, AReadingIsAsOldAsTheFirstOrderThatHasIt) {
  CutWords measured_again;
  measured_again.heel_front = "63";
  measured_again.date = "2026-02-10";
  const ArchiveEntry oldest = cut_on("2025-01-10");
  const ArchiveEntry newer = tried_cut(measured_again);
  const Next next = this->next({oldest, newer});
  EXPECT_TRUE(says(next, "left foot: readings of 2025-01-10, older than a year: measure again "
                         "(length, arch_break, fold)\n"))
      << next.head;
  EXPECT_TRUE(says(next, "left foot: readings of 2026-02-10 (heel_front)\n")) << next.head;
  // Once more with the older figure: it was measured once more.
  measured_again.heel_front = "61";
  measured_again.date = "2026-03-10";
  const Next back = this->next({oldest, newer, tried_cut(measured_again)});
  EXPECT_TRUE(says(back, "left foot: readings of 2026-03-10 (heel_front)\n")) << back.head;
  // Another reader, or another pose to count from, is another reading.
  measured_again.read_by = "R3";
  EXPECT_TRUE(says(this->next({oldest, tried_cut(measured_again)}), "readings of 2026-03-10\n"));
  measured_again.read_by = "R2";
  measured_again.pose = "in_shoe";
  EXPECT_TRUE(says(this->next({oldest, tried_cut(measured_again)}),
                   "left foot: readings of 2026-03-10 (heel_front, arch_break)\n"))
      << this->next({oldest, tried_cut(measured_again)}).head;
}

TEST_F(NextOrderTest, ANewerPairWithOtherReadingsIsNamed) {
  CutWords words;
  words.heel_front = "66";
  words.date = "2026-05-10";
  const ArchiveEntry good = cut_on("2026-03-10");
  const Next next = this->next({good, tried_cut(words), tried(good.head, {58, "good", true})});
  EXPECT_TRUE(says(next, "entry 2 of 2026-05-10 is newer, but not used: no try on record. Its "
                         "readings are not these: compare\nthem.\n"))
      << next.head;
}

TEST_F(NextOrderTest, SaysWhatWasLearnedAndFromHowManyPairs) {
  std::vector<ArchiveEntry> entries;
  for (const char* date : {"2026-03-10", "2026-04-10", "2026-05-10"}) {
    entries.push_back(cut_on(date));
    const EntryHead cut = entries.back().head;
    entries.push_back(tried(cut, {56, "too-low"}));
    entries.push_back(tried(cut, {59, "good", true}));
  }
  const Next next = this->next(entries);
  ASSERT_EQ(next.basis.learned.size(), 1u);
  const LearnedPlace& place = next.basis.learned[0].place;
  EXPECT_EQ(place.pairs, 3);
  const std::string words = "left: learned from 3 pairs: " + figure(place.mean) + " ±" +
                            figure(place.U) +
                            " from the heel, an estimate; write reach: learned to cut by it";
  std::string one_line = next.head;
  std::replace(one_line.begin(), one_line.end(), '\n', ' ');
  EXPECT_NE(one_line.find(words), std::string::npos) << next.head;
  EXPECT_EQ(next.basis.order.left->alterations.shank->rule, TrimRule(ReachRule{1, "edge"}))
      << "nothing that is learned is applied unasked";
  NextOrderBasis jumped = next.basis;
  jumped.learned[0].measure_again = true;
  std::string head;
  for (const std::string& line : next_order_remarks(jumped, "2026-12-01"))
    head += line + " ";
  EXPECT_EQ(head.find("reach: learned"), std::string::npos) << head;
  EXPECT_NE(head.find("not to be used"), std::string::npos) << head;
  EXPECT_TRUE(this->next({cut_on("2026-03-10")}).basis.learned.empty());
}

TEST_F(NextOrderTest, SaysWhatOnePairDoesNotHandOn) {
  CutWords words;
  words.rule = "mark: 62";
  EXPECT_TRUE(says(next({tried_cut(words)}), "Mark the new one.")) << next({tried_cut(words)}).head;
  words.rule = "reach: edge, accept: in_stop_band";
  const Next asked_again = next({tried_cut(words)});
  EXPECT_TRUE(says(asked_again, "a fitter's word for that pair, and is left out. Ask again."));
  EXPECT_EQ(asked_again.text.find("accept: in_stop_band"), std::string::npos) << asked_again.text;
  words.rule = "reach: edge";
  EXPECT_FALSE(says(next({tried_cut(words)}), "for that pair"));
}

/// Everything that a solver says, in words.
std::string all_of(const Solution& solution) {
  std::string text;
  for (const Finding& finding : solution.findings)
    text += finding.key.path() + ": " + finding.what + "\n";
  for (const auto& foot : {solution.left, solution.right})
    if (foot && foot->trim)
      text += std::to_string(foot->trim->line_to_cut().centre) + " " +
              std::to_string(foot->trim->final_cut.centre) + " " +
              std::to_string(foot->trim->stop.centre) + "\n";
  return text;
}

TEST_F(NextOrderTest, EveryRandomOrderReadsBackAndSolvesAsBefore) {
  Draw draw(20261127);
  Draw sides(7);
  int solved = 0, taken = 0;
  const int orders = fewer_cases(60);
  for (int i = 0; i < orders; ++i) {
    Order order = random_order_with_sides(draw, sides);
    order.dancer = "M-07";
    order.date = "2024-02-29";
    ArchiveEntry cut = cut_on(order.date);
    cut.body.order = order_file_text(order);
    const ReadOrder before = read_order(cut.body.order, "before");
    if (!before.ok()) continue; // a drawn width may lie outside the reader's limits
    ++taken;
    seal(cut);
    std::vector<ArchiveEntry> entries{cut};
    if (i % 3 > 0) {
      TryWords words{58, i % 2 == 0 ? "good" : "pain", i % 5 > 1};
      entries.push_back(tried(cut.head, words));
    }
    const Next made = next(entries);
    const ReadOrder after = read_order(made.text, "after");
    ASSERT_TRUE(after.ok()) << to_text(after.messages.front()) << made.text;
    EXPECT_EQ(after.order.date, "2026-12-01");
    Order same_day = after.order;
    same_day.date = order.date;
    // Figures in the text are rounded to a millionth once.
    EXPECT_EQ(order_file_text(same_day), cut.body.order) << made.text;
    ASSERT_TRUE(made.text.starts_with("# from entry 1 of 2024-02-29, ")) << made.text;
    EXPECT_NE(made.text.find("older than a year: measure again"), std::string::npos) << made.text;
    const Solution solution = solve(after.order);
    EXPECT_EQ(all_of(solution), all_of(solve(before.order))) << made.text;
    for (const auto& foot : {solution.left, solution.right})
      solved += foot && foot->trim ? 1 : 0;
  }
  EXPECT_GT(taken, orders / 2);
  EXPECT_GT(solved, orders / 2);
}

} // namespace
} // namespace shankline::tests::next_order_test
