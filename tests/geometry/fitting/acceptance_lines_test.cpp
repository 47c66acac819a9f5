// The sizes of an order that are measured on the made pair, and the verdict on a pair.
#include "geometry/fitting/acceptance_lines.hpp"

#include "tests/geometry/sides_of_order.hpp"
#include "tests/geometry/worked_order.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <string>
#include <vector>

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

const AcceptanceLine* line_of(const std::vector<AcceptanceLine>& lines, const std::string& key) {
  const auto found = std::find_if(lines.begin(), lines.end(),
                                  [&](const AcceptanceLine& line) { return line.key == key; });
  return found == lines.end() ? nullptr : &*found;
}

/// The verdict on one size of this line.
Acceptance verdict_on(const AcceptanceLine& line, double value, double U) {
  return judge_pair({line}, std::vector<MadeSize>{{line.foot, line.key, value, U}}).verdict;
}

TEST(AcceptanceLines, ARoundedCornerIsJudgedByItsRadiusAfterTheLastCut) {
  Order order = worked_order();
  EXPECT_FALSE(line_of(acceptance_lines(order, solve(order)), "corner")) << "a straight end";
  order.left->alterations.shank->end = BoardEnd::rounded;
  order.left->alterations.shank->corner = 5;
  const Solution solution = solve(order);
  ASSERT_TRUE(solution.left->trim->first_cut);
  EXPECT_FALSE(line_of(acceptance_lines(order, solution, JudgedAt::first_cut), "corner"));
  const auto lines = acceptance_lines(order, solution);
  const AcceptanceLine* corner = line_of(lines, "corner");
  ASSERT_TRUE(corner);
  EXPECT_EQ(corner->nominal, 5);
  EXPECT_EQ(corner->instrument, Instrument::half_millimetre_rule); // over 3 to 6: \u00b11
  EXPECT_EQ(verdict_on(*corner, 5.6, 0.4), Acceptance::accepted);
  EXPECT_EQ(verdict_on(*corner, 5.7, 0.4), Acceptance::not_decided);
  EXPECT_EQ(verdict_on(*corner, 3.5, 0.4), Acceptance::refused);
}

TEST(AcceptanceLines, OfLoweredSidesEachLowPointAndTheBackAreMeasured) {
  Order order;
  order.left = worked_sides();
  order.left->alterations.sides->back = 3;
  const Solution solution = solve(order);
  ASSERT_TRUE(solution.left && solution.left->sides);
  const SolvedSides& sides = *solution.left->sides;
  const auto lines = acceptance_lines(order, solution);
  for (const auto& [key, height] : {std::pair{"sides.medial", sides.medial.low},
                                    {"sides.lateral", sides.lateral.low},
                                    {"sides.back", sides.medial.finished(0)}}) {
    const AcceptanceLine* line = line_of(lines, key);
    ASSERT_TRUE(line) << key;
    EXPECT_DOUBLE_EQ(line->nominal, height) << key;
    EXPECT_DOUBLE_EQ(line->tolerance.minus, 0) << key;
  }
}

TEST(AcceptanceLines, LayersThatStayAreCounted) {
  Order order = worked_order();
  order.left->shoe.board.layers = 3;
  EXPECT_FALSE(line_of(acceptance_lines(order, solve(order)), "layers")) << "cut right through";
  order.left->alterations.shank->layers = 2;
  const Solution solution = solve(order);
  for (const JudgedAt at : {JudgedAt::final_cut, JudgedAt::first_cut}) {
    const auto lines = acceptance_lines(order, solution, at);
    const AcceptanceLine* layers = line_of(lines, "layers");
    ASSERT_TRUE(layers);
    EXPECT_TRUE(layers->counted);
    EXPECT_EQ(layers->nominal, 1);
    EXPECT_EQ(verdict_on(*layers, 1, 0), Acceptance::accepted);
    EXPECT_EQ(verdict_on(*layers, 0, 0), Acceptance::refused);
    EXPECT_EQ(verdict_on(*layers, 2, 0), Acceptance::refused);
    // The board itself goes on to the heel: its cut layers end in a step.
    EXPECT_EQ(line_of(lines, "end.centre")->name, "inside back to the step, centre");
  }
}

TEST(AcceptanceLines, AThinnedStretchIsMeasuredFromTheInsideBack) {
  Order order = worked_order();
  order.left->alterations.shank.reset();
  order.left->alterations.thinned = ThinWish{29, 96, 2};
  const auto lines = acceptance_lines(order, solve(order));
  ASSERT_EQ(lines.size(), 3u);
  const AcceptanceLine& from = *line_of(lines, "thinned.from");
  EXPECT_EQ(from.nominal, 29 + 5) << "and the inset";
  EXPECT_EQ(from.tolerance.plus, 0.5) << "of the 29 that are ordered";
  EXPECT_EQ(verdict_on(from, 34.1, 0.4), Acceptance::accepted);
  EXPECT_EQ(verdict_on(from, 34.2, 0.4), Acceptance::not_decided);
  EXPECT_EQ(verdict_on(from, 35, 0.4), Acceptance::refused);
  EXPECT_EQ(line_of(lines, "thinned.to")->nominal, 101);
  const AcceptanceLine& thickness = *line_of(lines, "thinned.thickness");
  EXPECT_EQ(thickness.nominal, 2);
  EXPECT_EQ(verdict_on(thickness, 2.1, 0.1), Acceptance::accepted);
  EXPECT_EQ(verdict_on(thickness, 1.6, 0.1), Acceptance::refused);
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
