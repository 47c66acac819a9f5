// An archive's notes about tries become records to learn from: every word in its place, and the
// same from every store and in every order of adding.
#include "cli/job/house_history.hpp"

#include "cli/archive/archive_server.hpp"
#include "cli/archive/archive_store.hpp"
#include "cli/archive/server_prepare.hpp"
#include "cli/job/learned_house.hpp"
#include "cli/job/next_order.hpp"
#include "cli/order_file/order_reader.hpp"
#include "cli/report/learned_json.hpp"
#include "geometry/uncertainty/reading_doubt.hpp"

#include "tests/cli/tried_pairs.hpp"
#include "tests/support/private_server.hpp"
#include "tests/support/scratch_directory.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <random>

namespace shankline::tests::house_history_test {
namespace {

class HouseHistoryTest : public testing::Test {
protected:
  HouseHistory of(std::vector<ArchiveEntry> entries) {
    const std::string path = (scratch_.path() / std::to_string(++files_)).string();
    ArchiveStore store(path, ArchiveUse::write);
    for (ArchiveEntry& entry : entries)
      store.add(std::move(entry));
    return house_history(store);
  }

private:
  ScratchDirectory scratch_;
  int files_ = 0;
};

TEST_F(HouseHistoryTest, PutsEveryTryOnTheFoot) {
  const ArchiveEntry cut = tried_cut();
  const HouseHistory history =
      of({cut, tried(cut.head, {58, "good", false, "T-4", "2026-03-16"}),
          tried(cut.head, {56, "too-low"}), tried(cut.head, {58, "good", true, "", "2026-04-02"})});
  ASSERT_EQ(history.records.feet.size(), 1u);
  const FootRecords& foot = history.records.feet[0];
  EXPECT_EQ(foot.dancer, "M-07");
  EXPECT_EQ(foot.side, FootSide::left);
  EXPECT_NEAR(foot.estimate, 61, 1e-9); // of 238
  EXPECT_NEAR(foot.estimate_sd, 5, 1e-9);
  ASSERT_EQ(foot.sessions.size(), 1u);
  const ReadingDoubt doubt = reading_doubt(as_reading(61, "heel_front"));
  EXPECT_EQ(foot.sessions[0].reader, "R2");
  EXPECT_NEAR(foot.sessions[0].place, 61, 1e-9);
  EXPECT_NEAR(foot.sessions[0].scatter_u, doubt.fresh(), 1e-12);
  EXPECT_NEAR(foot.sessions[0].finding, doubt.finding, 1e-12);
  ASSERT_EQ(foot.shoes.size(), 1u);
  const TriedShoe& shoe = foot.shoes[0];
  EXPECT_EQ(shoe.pair, "first pair");
  EXPECT_EQ(shoe.ordered, Day(std::chrono::year(2026) / 3 / 14));
  EXPECT_EQ(shoe.shoe_u, shoe_u_pointed);
  ASSERT_TRUE(shoe.promised);
  EXPECT_NEAR(shoe.promised->place, 61, 1e-9); // 62 on the board
  EXPECT_NEAR(shoe.promised->U, 12.4, 1e-9);
  ASSERT_EQ(shoe.trials.size(), 3u);
  EXPECT_NEAR(shoe.trials[0].board_end, 55, 1e-9);
  EXPECT_EQ(shoe.trials[0].answer, Answer::too_low);
  EXPECT_NEAR(shoe.trials[1].board_end, 57, 1e-9);
  EXPECT_EQ(shoe.trials[1].answer, Answer::good);
  EXPECT_FALSE(shoe.trials[1].after_wear);
  EXPECT_EQ(shoe.trials[1].judged_by, "T-4");
  EXPECT_TRUE(shoe.trials[2].after_wear);
  EXPECT_EQ(shoe.trials[2].day, Day(std::chrono::year(2026) / 4 / 2));
  EXPECT_EQ(history.left_out.size() + history.unread + history.footless + history.endless, 0u);
}

// The two words that sound alike mean opposite things.
TEST_F(HouseHistoryTest, TooFarBackIsTooLongAndCutTooFarIsTooShort) {
  const std::pair<const char*, Answer> words[]{{"too-low", Answer::too_low},
                                               {"too-far-back", Answer::too_low},
                                               {"good", Answer::good},
                                               {"cut-too-far", Answer::cut_too_far},
                                               {"rolls-over", Answer::rolls_over},
                                               {"pain", Answer::pain}};
  for (const auto& [word, answer] : words) {
    const ArchiveEntry cut = tried_cut();
    const HouseHistory history = of({cut, tried(cut.head, {56, word})});
    EXPECT_EQ(history.records.feet.at(0).shoes.at(0).trials.at(0).answer, answer) << word;
  }
}

TEST_F(HouseHistoryTest, InTheShoeTheFoldIsTakenOff) {
  const ArchiveEntry cut = tried_cut({.heel_front = "67", .pose = "in_shoe"});
  const HouseHistory history = of({cut, tried(cut.head, {56})});
  const FootRecords& foot = history.records.feet.at(0);
  EXPECT_NEAR(foot.sessions.at(0).place, 61, 1e-9);
  EXPECT_EQ(foot.shoes.at(0).shoe_u, shoe_u_in_shoe);
  EXPECT_NEAR(foot.shoes.at(0).trials.at(0).board_end, 55, 1e-9); // 56 + 5 − 6
}

TEST_F(HouseHistoryTest, AReadingThatLaterOrdersRepeatCountsOnce) {
  const ArchiveEntry first = tried_cut();
  const ArchiveEntry second = tried_cut({.pair = "second pair", .date = "2026-05-01"});
  const ArchiveEntry third =
      tried_cut({.pair = "third pair", .date = "2026-06-01", .heel_front = "63"});
  const HouseHistory history =
      of({first, second, third, tried(first.head, {56}), tried(second.head, {57})});
  EXPECT_EQ(history.records.feet.at(0).sessions.size(), 2u);
  EXPECT_EQ(history.records.feet.at(0).shoes.size(), 2u) << "the third was never tried";
}

// Two thousand cuts that nobody tried are not read for nothing.
TEST_F(HouseHistoryTest, DancersOfWhomNothingWasNotedAreLeftOut) {
  const ArchiveEntry cut = tried_cut();
  const HouseHistory history = of({cut, tried_cut({.dancer = "K-12"}),
                                   tried_cut({.pair = "second pair"}), tried(cut.head, {56})});
  ASSERT_EQ(history.records.feet.size(), 1u);
  EXPECT_EQ(history.records.feet[0].dancer, "M-07");
}

TEST_F(HouseHistoryTest, OnlyALineAtTheHeelFrontPromises) {
  for (const auto& [rule, promises] : {std::pair("reach: edge", true),
                                       {"reach: 1", true},
                                       {"reach: tucked", false},
                                       {"keep: 0.7", false},
                                       {"mark: 60", false}}) {
    const ArchiveEntry cut = tried_cut({.rule = rule});
    const HouseHistory history = of({cut, tried(cut.head, {56})});
    EXPECT_EQ(history.records.feet.at(0).shoes.at(0).promised.has_value(), promises) << rule;
  }
}

TEST_F(HouseHistoryTest, WhatIsWithdrawnOrNamesNoFootIsNotLearnedFrom) {
  const ArchiveEntry cut = tried_cut();
  const ArchiveEntry wrong = tried(cut.head, {60, "cut-too-far"});
  Outcome withdrawal;
  withdrawal.withdraws = wrong.head.digest;
  Outcome footless; // as version 0.2.0 noted it
  footless.seen = "too-low";
  footless.cut_off = 50;
  Outcome endless;
  endless.foot = "left";
  endless.seen = "good";
  const HouseHistory history =
      of({cut, wrong, noted(cut.head, withdrawal), noted(cut.head, footless),
          noted(cut.head, endless), tried(cut.head, {56})});
  ASSERT_EQ(history.records.feet.at(0).shoes.at(0).trials.size(), 1u);
  EXPECT_EQ(history.records.feet[0].shoes[0].trials[0].answer, Answer::too_low);
  EXPECT_EQ(history.withdrawn, 1u);
  EXPECT_EQ(history.footless, 1u);
  EXPECT_EQ(history.endless, 1u);
}

TEST_F(HouseHistoryTest, AWornPairThatWasCopiedIsAShoeOfItsOwn) {
  const ArchiveEntry cut = tried_cut({.rule = "mark: 58"});
  Outcome copied;
  copied.foot = "left";
  copied.seen = "good";
  copied.worn = true;
  copied.cut_off = 58;
  copied.copied_U = 4.4;
  const HouseHistory history = of({cut, noted(cut.head, copied), tried(cut.head, {55})});
  const FootRecords& foot = history.records.feet.at(0);
  ASSERT_EQ(foot.shoes.size(), 2u);
  const auto shoe = std::find_if(foot.shoes.begin(), foot.shoes.end(),
                                 [](const TriedShoe& s) { return s.pair == "copied"; });
  ASSERT_NE(shoe, foot.shoes.end());
  EXPECT_NEAR(shoe->shoe_u, 2.2, 1e-12);
  ASSERT_EQ(shoe->trials.size(), 1u);
  EXPECT_EQ(shoe->trials[0].answer, Answer::good);
  EXPECT_TRUE(shoe->trials[0].after_wear);
  EXPECT_NEAR(shoe->trials[0].board_end, 57, 1e-9);
}

TEST_F(HouseHistoryTest, NotedGapsStandBesideTheModels) {
  const ArchiveEntry cut = tried_cut();
  Outcome worn;
  worn.foot = "left";
  worn.gap = 2.5;
  worn.break_at = 64;
  const HouseHistory history = of({cut, noted(cut.head, worn)});
  ASSERT_EQ(history.gaps.size(), 1u);
  EXPECT_EQ(history.gaps[0].noted, 2.5);
  EXPECT_EQ(history.gaps[0].predicted, 3.0);
  ASSERT_EQ(history.breaks.size(), 1u);
  EXPECT_EQ(history.breaks[0].noted, 64);
  EXPECT_EQ(history.breaks[0].predicted, 61);
}

// An end that lies on no foot must not spoil everybody's fit.
TEST_F(HouseHistoryTest, ARecordThatCannotBeIsNamedAndLeftOut) {
  const ArchiveEntry cut = tried_cut();
  const ArchiveEntry other = tried_cut({.dancer = "K-12"});
  const HouseHistory history =
      of({cut, other, tried(cut.head, {1e6, "good"}), tried(other.head, {56})});
  ASSERT_EQ(history.left_out.size(), 1u);
  EXPECT_EQ(history.left_out[0].dancer, "M-07");
  const LearnedHouse house = learned_house(history);
  EXPECT_EQ(house.shoes, 1);
  EXPECT_EQ(house.feet.size(), 2u);
}

/// Three dancers, two readers, two pairs each: whatever a fit goes by is there.
std::vector<ArchiveEntry> company() {
  std::vector<ArchiveEntry> entries;
  int n = 0;
  for (const char* dancer : {"M-07", "K-12", "N-01"}) {
    for (const char* pair : {"first pair", "second pair"}) {
      ++n;
      const ArchiveEntry cut = tried_cut({.dancer = dancer,
                                          .pair = pair,
                                          .date = "2026-0" + std::to_string(n) + "-14",
                                          .heel_front = std::to_string(57 + 2 * n),
                                          .read_by = n % 2 == 0 ? "R1" : "R2"});
      entries.push_back(cut);
      entries.push_back(tried(cut.head, {50.0 + n}));
      entries.push_back(tried(cut.head, {53.0 + n, n == 3 ? "cut-too-far" : "good"}));
      entries.push_back(tried(cut.head, {53.0 + n, "good", true}));
    }
  }
  return entries;
}

std::string learned_from(Store& store) {
  return learned_json(learned_house(house_history(store)));
}

TEST(HouseHistory, IsTheSameFromEveryStoreAndInEveryOrderOfAdding) {
  const ScratchDirectory scratch;
  const auto filled = [&](Store& store, unsigned seed) {
    std::vector<ArchiveEntry> entries = company();
    if (seed > 0) std::shuffle(entries.begin(), entries.end(), std::mt19937(seed));
    std::size_t next = 0;
    store.add_missing([&]() -> std::optional<ArchiveEntry> {
      if (next == entries.size()) return std::nullopt;
      return entries[next++];
    });
    EXPECT_EQ(next, 24u);
    return learned_from(store);
  };
  ArchiveStore file((scratch.path() / "a").string(), ArchiveUse::write);
  const std::string learned = filled(file, 0);
  EXPECT_NE(learned.find("\"answers\": 18"), std::string::npos) << learned;
  for (const unsigned seed : {1u, 2u, 3u}) {
    ArchiveStore shuffled((scratch.path() / std::to_string(seed)).string(), ArchiveUse::write);
    EXPECT_EQ(filled(shuffled, seed), learned);
  }
  PrivateServer& server = PrivateServer::of_this_program();
  const std::string address = server.address(server.new_database());
  prepare_server(address, std::chrono::seconds(10));
  ServerStore on_server(address, ArchiveUse::write, std::chrono::seconds(10));
  EXPECT_EQ(filled(on_server, 4), learned);
}

TEST(HouseHistory, TheNextOrderIsTheSameFromAFileAndFromAServer) {
  const auto next_from = [](Store& store) {
    for (const ArchiveEntry& entry : company())
      store.add(entry);
    const auto pairs = recorded_pairs(store, "K-12");
    const RecordedPair* const from = pair_to_repeat(pairs);
    ReadOrder read = read_order(store.body(from->cut).order, "entry");
    return next_order_text(next_order_basis(store, pairs, *from, std::move(read.order)),
                           "2026-12-01");
  };
  const ScratchDirectory scratch;
  ArchiveStore file((scratch.path() / "a").string(), ArchiveUse::write);
  PrivateServer& server = PrivateServer::of_this_program();
  const std::string address = server.address(server.new_database());
  prepare_server(address, std::chrono::seconds(10));
  ServerStore on_server(address, ArchiveUse::write, std::chrono::seconds(10));
  const std::string from_file = next_from(file);
  EXPECT_NE(from_file.find("good after wear"), std::string::npos) << from_file;
  EXPECT_NE(from_file.find("learned from 2 pairs"), std::string::npos) << from_file;
  EXPECT_EQ(next_from(on_server), from_file);
}

TEST(HouseHistory, AForgottenDancerWasNeverThere) {
  const ScratchDirectory scratch;
  ArchiveStore with((scratch.path() / "with").string(), ArchiveUse::write);
  ArchiveStore without((scratch.path() / "without").string(), ArchiveUse::write);
  for (const ArchiveEntry& entry : company()) {
    with.add(entry);
    if (entry.head.dancer != "K-12") without.add(entry);
  }
  EXPECT_NE(learned_from(with), learned_from(without));
  with.forget("K-12", "2026-08-01T00:00:00Z", "0.2.0");
  EXPECT_EQ(learned_from(with), learned_from(without));
}

} // namespace
} // namespace shankline::tests::house_history_test
