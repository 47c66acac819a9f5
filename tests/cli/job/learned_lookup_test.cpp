// Learned lines that an order asks for: looked up, written into the order, or refused.
#include "cli/job/learned_lookup.hpp"

#include "cli/archive/archive_store.hpp"
#include "cli/order_file/order_reader.hpp"
#include "cli/order_file/order_writer.hpp"
#include "geometry/learning/learned_use.hpp"
#include "geometry/solution/solution.hpp"

#include "tests/cli/archive_program.hpp"
#include "tests/cli/tried_pairs.hpp"

#include <cmath>
#include <fstream>
#include <gtest/gtest.h>
#include <initializer_list>

namespace shankline::tests::learned_lookup_test {
namespace {

/// An order of the dancer's next pair that asks for what was learned.
std::string asking(const std::string& style = "S4", const std::string& date = "2026-09-01") {
  CutWords words;
  words.date = date;
  words.rule = "reach: learned";
  words.style = style;
  return tried_cut(words).body.order;
}

Order read_asking(const std::string& style = "S4") {
  ReadOrder read = read_order(asking(style), "order.yaml");
  EXPECT_TRUE(read.ok());
  return read.order;
}

class LearnedLookupTest : public ArchiveProgram {
protected:
  LearnedLookupTest() { wish.file = path.string(); }

  /// A pair a month, each too low up to 3 less than its good end, then good at the barre and after
  /// wear.
  void keep_pairs(std::initializer_list<double> good_ends) {
    std::filesystem::create_directories(path.parent_path());
    ArchiveStore store(path.string(), ArchiveUse::write);
    int month = 1;
    for (const double end : good_ends) {
      CutWords words;
      words.pair = "pair " + std::to_string(month);
      words.date = "2026-0" + std::to_string(month) + "-14";
      words.style = "S4";
      const ArchiveEntry cut = tried_cut(words);
      store.add(cut);
      for (const double short_by : {12, 9, 6, 3})
        store.add(tried(cut.head, {end - short_by, "too-low", false, "", words.date}));
      store.add(tried(cut.head, {end, "good", false, "", words.date}));
      store.add(tried(cut.head, {end, "good", true, "", words.date}));
      ++month;
    }
  }

  /// One more pair, later, whose only answer is that its board was cut too far.
  void keep_too_far(double end) {
    ArchiveStore store(path.string(), ArchiveUse::write);
    CutWords words;
    words.pair = "pair too far";
    words.date = "2026-09-01";
    words.style = "S4";
    const ArchiveEntry cut = tried_cut(words);
    store.add(cut);
    store.add(tried(cut.head, {end, "cut-too-far", false, "", words.date}));
  }

  static std::optional<LearnedLine> line(const Order& order) {
    return std::get<LearnedRule>(order.left->alterations.shank->rule).line;
  }
  /// The error about the one foot that asks.
  std::string refusal() {
    Order order = read_asking();
    const Order before = order;
    const Findings errors = LearnedLookup(wish).fill(order);
    EXPECT_EQ(order, before);
    if (errors.size() != 1) return "one error was expected";
    EXPECT_EQ(errors[0].key.text(), "alterations.left.shank.reach");
    EXPECT_NE(errors[0].advice.find("reach: edge"), std::string::npos) << errors[0].advice;
    return errors[0].what;
  }

  ArchiveWish wish;
};

TEST_F(LearnedLookupTest, OrdersThatDoNotAskNeedNoArchive) {
  Order order = read_order(tried_cut().body.order, "order.yaml").order;
  const Order before = order;
  EXPECT_TRUE(LearnedLookup(wish).fill(order).empty());
  EXPECT_EQ(order, before);
  EXPECT_FALSE(std::filesystem::exists(path));
}

TEST_F(LearnedLookupTest, WithoutAnArchiveTheOrderIsRefused) {
  EXPECT_NE(refusal().find("no archive"), std::string::npos);
  EXPECT_FALSE(std::filesystem::exists(path));
}

TEST_F(LearnedLookupTest, WithoutTriesOfTheFootTheOrderIsRefused) {
  keep_pairs({});
  EXPECT_NE(refusal().find("no tries"), std::string::npos);
}

TEST_F(LearnedLookupTest, WritesDownWhatTheRecordsTeach) {
  keep_pairs({58, 59, 58, 58});
  Order order = read_asking();
  EXPECT_TRUE(LearnedLookup(wish).fill(order).empty());
  const auto found = line(order);
  ASSERT_TRUE(found);
  EXPECT_EQ(found->pairs, 4);
  EXPECT_EQ(found->until, "2026-04-14");
  EXPECT_EQ(found->model, learning_model);
  EXPECT_EQ(found->worn_good, 4);
  // The good boards ended 57 and 58 from the back of the heel, with 3 mm to either side of right.
  EXPECT_GT(found->station, 54);
  EXPECT_LT(found->station, 61);
  EXPECT_DOUBLE_EQ(found->station, std::round(found->station * 10) / 10);
  EXPECT_LT(found->U, 9) << "12.4 by the readings alone";
  // Solved from its text alone, and the same text again.
  const std::string text = order_file_text(order);
  ReadOrder again = read_order(text, "order.yaml");
  ASSERT_TRUE(again.ok());
  EXPECT_EQ(line(again.order), found);
  EXPECT_TRUE(solve(again.order).left);
  EXPECT_TRUE(LearnedLookup({}).fill(again.order).empty());
}

TEST_F(LearnedLookupTest, AnotherStyleIsKnownLessWell) {
  keep_pairs({58, 59, 58, 58});
  Order known = read_asking("S4"), unknown = read_asking("S9");
  LearnedLookup lookup(wish);
  EXPECT_TRUE(lookup.fill(known).empty());
  EXPECT_TRUE(lookup.fill(unknown).empty());
  ASSERT_TRUE(line(known) && line(unknown));
  EXPECT_GT(line(unknown)->U, line(known)->U + 0.5);
}

TEST_F(LearnedLookupTest, AfterAJumpThePlaceIsNotUsed) {
  keep_pairs({50, 50, 50, 50, 50, 50, 68});
  EXPECT_NE(refusal().find("jumped"), std::string::npos);
}

TEST_F(LearnedLookupTest, AnEndThatWasTooFarIsWrittenDown) {
  keep_pairs({58, 59, 58, 58});
  keep_too_far(61.07);
  Order order = read_asking();
  EXPECT_TRUE(LearnedLookup(wish).fill(order).empty());
  ASSERT_TRUE(line(order));
  EXPECT_EQ(line(order)->too_far, 60.0) << "of the foot, rounded towards the heel";
  EXPECT_LE(line(order)->station, 57);
}

TEST_F(LearnedLookupTest, ALineIsHeldBehindAnEndThatWasTooFar) {
  keep_pairs({58, 59, 58, 58});
  keep_too_far(54);
  Order order = read_asking();
  EXPECT_TRUE(LearnedLookup(wish).fill(order).empty());
  ASSERT_TRUE(line(order));
  EXPECT_EQ(line(order)->too_far, 53.0);
  EXPECT_EQ(line(order)->station, 50.0);
  const ReadOrder again = read_order(order_file_text(order), "order.yaml");
  ASSERT_TRUE(again.ok()) << "its own text is one that the reader takes";
  EXPECT_EQ(line(again.order), line(order));
}

TEST_F(LearnedLookupTest, CutKeepsTheOrderAsItWasSolved) {
  keep_pairs({58, 59, 58, 58});
  const std::string order = (scratch.path() / "next.yaml").string();
  std::ofstream(order) << asking();
  const std::string sheets = (scratch.path() / "next.pdf").string();
  const Finished cut = run({"cut", order, "-o", sheets, "--archive", path.string(), "--save"});
  EXPECT_EQ(cut.exit_code, 0) << cut.err;
  EXPECT_NE(cut.out.find("from 4 pairs until 2026-04-14"), std::string::npos) << cut.out;
  ArchiveStore store(path.string(), ArchiveUse::read);
  const std::vector<EntryHead> newest_first = store.older(newest, 1);
  ASSERT_EQ(newest_first.size(), 1u);
  const std::string kept = store.body(newest_first[0]).order;
  EXPECT_NE(kept.find("reach: {learned: "), std::string::npos) << kept;
  // The kept text is solved without an archive, to the same lines.
  const std::string frozen = (scratch.path() / "frozen.yaml").string();
  std::ofstream(frozen) << kept;
  const std::string nowhere = (scratch.path() / "nowhere.sqlite").string();
  const Finished alone = run({"check", frozen, "--json", "--archive", nowhere});
  const Finished looked_up = run({"check", order, "--json", "--archive", path.string()});
  EXPECT_EQ(alone.exit_code, 0) << alone.err;
  // Messages apart: only with the archive is the last pair known.
  const auto figures = [](const std::string& text) {
    const std::size_t from = text.find("\"feet\"");
    return text.substr(from, text.find("\"cautions\"", from) - from);
  };
  EXPECT_NE(figures(alone.out).find("\"learned\""), std::string::npos) << alone.out;
  EXPECT_EQ(figures(alone.out), figures(looked_up.out));
  const Finished missing = run({"check", order, "--archive", nowhere});
  EXPECT_EQ(missing.exit_code, 1);
  EXPECT_NE(missing.err.find("no archive to learn from"), std::string::npos) << missing.err;
}

} // namespace
} // namespace shankline::tests::learned_lookup_test
