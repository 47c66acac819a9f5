// The sizes of an order that are measured on the made pair, and the verdict on a pair.
#include "geometry/fitting/acceptance_lines.hpp"

#include "tests/geometry/worked_order.hpp"

#include <algorithm>
#include <gtest/gtest.h>

namespace shankline::tests::acceptance_lines_test {
namespace {

std::vector<AcceptanceLine> worked_lines() {
  const Order order = worked_order();
  return acceptance_lines(order, solve(order));
}

std::vector<MadeSize> made_as(const std::vector<AcceptanceLine>& lines, double off, double U) {
  std::vector<MadeSize> made;
  for (const AcceptanceLine& line : lines) {
    const SizeLimits limits = line.limits();
    made.push_back({line.foot, line.key, (*limits.least + *limits.most) / 2 + off, U, "rule"});
  }
  return made;
}

TEST(AcceptanceLines, AreMeasuredFromWhereTheKnifeLeftSomething) {
  const Order order = worked_order();
  const Solution solution = solve(order);
  const auto lines = acceptance_lines(order, solution);
  const auto end = std::find_if(lines.begin(), lines.end(), [](const AcceptanceLine& line) {
    return line.foot == FootSide::left && line.key == "end.centre";
  });
  ASSERT_NE(end, lines.end());
  EXPECT_DOUBLE_EQ(end->nominal,
                   solution.left->trim->final_cut.centre + order.left->shoe.board.inset->value());
  // A cut may fall short of its line, never pass it.
  EXPECT_DOUBLE_EQ(end->tolerance.plus, 0);
  EXPECT_DOUBLE_EQ(end->tolerance.minus, -order.tolerances.cut);
}

// A rounded corner ends ahead of the line that its edge was cut to.
TEST(AcceptanceLines, OfARoundedEndOnlyTheMiddleIsMeasured) {
  Order order = worked_order();
  order.left->alterations.shank->end = BoardEnd::rounded;
  const auto lines = acceptance_lines(order, solve(order));
  const auto has = [&](const char* key) {
    return std::any_of(lines.begin(), lines.end(),
                       [&](const AcceptanceLine& line) { return line.key == key; });
  };
  EXPECT_TRUE(has("end.centre"));
  EXPECT_FALSE(has("end.medial") || has("end.lateral"));
}

TEST(AcceptanceLines, AskForAnInstrumentThatCanProveThem) {
  const auto lines = worked_lines();
  ASSERT_EQ(lines.size(), 6u);
  int asked = 0;
  for (const AcceptanceLine& line : lines) {
    if (!line.instrument) continue;
    ++asked;
    EXPECT_TRUE(can_prove(instrument_guide(*line.instrument).U, line.limits())) << line.key;
  }
  EXPECT_EQ(asked, 5); // a thin edge is beyond them
}

TEST(JudgedPair, IsAcceptedWhenEveryLineIs) {
  const auto lines = worked_lines();
  EXPECT_EQ(judge_pair(lines, made_as(lines, 0, 0.05)).verdict, Acceptance::accepted);
}

TEST(JudgedPair, OneLineRefusedRefusesThePair) {
  const auto lines = worked_lines();
  auto made = made_as(lines, 0, 0.05);
  made.back().value += 20;
  const JudgedPair pair = judge_pair(lines, made);
  EXPECT_EQ(pair.verdict, Acceptance::refused);
  EXPECT_EQ(
      std::count_if(pair.lines.begin(), pair.lines.end(),
                    [](const JudgedLine& judged) { return judged.verdict == Acceptance::refused; }),
      1);
}

TEST(JudgedPair, WhatWasNotMeasuredLeavesItOpen) {
  const auto lines = worked_lines();
  auto made = made_as(lines, 0, 0.05);
  made.pop_back();
  EXPECT_EQ(judge_pair(lines, made).verdict, Acceptance::not_decided);
  EXPECT_EQ(judge_pair({}, {}).verdict, Acceptance::not_decided);
}

TEST(JudgedPair, ATapeProvesNothingOfACut) {
  const auto lines = worked_lines();
  const JudgedPair pair =
      judge_pair(lines, made_as(lines, 0, instrument_guide(Instrument::tape).U));
  EXPECT_EQ(pair.verdict, Acceptance::not_decided);
  for (const JudgedLine& judged : pair.lines)
    EXPECT_FALSE(judged.can_be_proven) << judged.line.key;
}

} // namespace
} // namespace shankline::tests::acceptance_lines_test
