// The acceptance sheet: legible for drawn orders, with every line of the order on it.
#include "export/bench/acceptance_sheet.hpp"

#include "geometry/solution/solution.hpp"
#include "tests/export/layout_check.hpp"
#include "tests/geometry/random_orders.hpp"
#include "tests/geometry/worked_order.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <variant>

namespace shankline::tests::acceptance_sheet_test {
namespace {

std::size_t texts_with(const Drawing& drawing, const std::string& words) {
  std::size_t count = 0;
  for (const Page& page : drawing.pages)
    for (const Mark& mark : page.marks)
      if (const Text* text = std::get_if<Text>(&mark)) count += text->words == words ? 1u : 0u;
  return count;
}

std::vector<MadeSize> some_made(const std::vector<AcceptanceLine>& lines) {
  std::vector<MadeSize> made;
  for (std::size_t i = 0; i < lines.size(); ++i)
    if (i % 4 != 3)
      made.push_back({lines[i].foot, lines[i].key, lines[i].nominal + 0.25 * double(i % 3),
                      i % 2 == 0 ? 0.4 : 1.1, i % 2 == 0 ? "half-millimetre rule" : "tape"});
  return made;
}

TEST(AcceptanceSheet, IsLegibleBlankAndFilledInOnEveryPaper) {
  Draw draw(20260401);
  Draw sides(20260402);
  int sheets = 0;
  for (int i = 0; i < 40; ++i) {
    Order order = random_order_with_sides(draw, sides, Population::women);
    order.pair = "touring, spring, the second pair of the six for the long western leg";
    const Solution solution = solve(order);
    if (has_error(solution.findings)) continue;
    const auto lines = acceptance_lines(order, solution);
    const JudgedPair blank = judge_pair(lines, {});
    const JudgedPair filled = judge_pair(lines, some_made(lines));
    for (const Paper& paper : papers())
      for (const Units units : {Units::mm, Units::inch}) {
        const SheetWish wish{paper, units, "4f9c 2107"};
        const SheetSet form = acceptance_set(order, blank, {true, {}, {}}, wish);
        const SheetSet sheet =
            acceptance_set(order, filled, {false, "2026-04-02", "the bench"}, wish);
        EXPECT_EQ(texts_with(sheet.drawing, "not measured"), lines.size() / 4);
        EXPECT_EQ(texts_with(form.drawing, "yes"), lines.size());
        for (const SheetSet* set : {&form, &sheet})
          for (const Page& page : set->drawing.pages)
            for (const std::string& fault : layout_faults(page))
              ADD_FAILURE() << "order " << i << ", " << paper.name << ": " << fault;
        ++sheets;
      }
    if (testing::Test::HasFailure()) return;
  }
  EXPECT_GE(sheets, 60);
}

std::string words_of(const SheetSet& set) {
  std::string words;
  for (const Page& page : set.drawing.pages)
    for (const Mark& mark : page.marks)
      if (const Text* text = std::get_if<Text>(&mark)) words += text->words + " ";
  return words;
}

std::string sheet_words(const std::vector<MadeSize>& made, bool blank = false) {
  const Order order = worked_order();
  const JudgedPair pair = judge_pair(acceptance_lines(order, solve(order)), made);
  return words_of(
      acceptance_set(order, pair, {blank, {}, {}}, {papers()[0], Units::mm, "4f9c 2107"}));
}

// Before, the sheet named the instrument of a size without what it is taken to be good for, and a ±
// that somebody gave stood over an instrument's name.
TEST(AcceptanceSheet, NamesTheInstrumentsUsedAndWhatIsAssumedOfThem) {
  const FootSide left = FootSide::left;
  const std::string rule = sheet_words({{left, "end.centre", 66, 0.4, "half-millimetre rule"}});
  EXPECT_NE(
      rule.find("Measured with: half-millimetre rule, in steps of 0.5, \u00b10.4. The steps and "
                "the \u00b1 of an instrument are assumptions"),
      std::string::npos)
      << rule;
  EXPECT_EQ(rule.find("caliper, in steps"), std::string::npos) << rule;
  EXPECT_EQ(rule.find("gave this"), std::string::npos) << rule;

  const std::string given = sheet_words({{left, "end.centre", 66, 0.25, "caliper", true},
                                         {left, "kept", 159, 0.3, "as given", true}});
  for (const char* part :
       {"caliper, in steps of 0.1, \u00b10.2", "66 \u00b10.25 *", "159 \u00b10.3 *",
        "instrument not named", "* Whoever measured gave this \u00b1."})
    EXPECT_NE(given.find(part), std::string::npos) << part << ": " << given;

  EXPECT_EQ(sheet_words({}).find("Measured with"), std::string::npos);
}

TEST(AcceptanceSheet, ABlankAsksForTheInstrument) {
  const std::string blank = sheet_words({}, true);
  for (const char* part :
       {"Measured with", "tape, in steps of 1, \u00b11.1",
        "millimetre rule, in steps of 1, \u00b10.8",
        "half-millimetre rule, in steps of 0.5, \u00b10.4", "caliper, in steps of 0.1, \u00b10.2",
        "another, and its \u00b1 at 95 %:"})
    EXPECT_NE(blank.find(part), std::string::npos) << part << ": " << blank;
}

std::string judged_words(const Order& order, JudgedAt at, bool blank) {
  const JudgedPair pair = judge_pair(acceptance_lines(order, solve(order), at), {});
  return words_of(
      acceptance_set(order, pair, {blank, {}, {}}, {papers()[0], Units::mm, "4f9c 2107"}));
}

// Before, a pair that was accepted at its first cut looked like one that was finished.
TEST(AcceptanceSheet, LimitsAreRoundedInwards) {
  const auto words = [](double least, double most) {
    AcceptanceLine line;
    line.nominal = least;
    line.tolerance = {most - least, 0};
    EXPECT_DOUBLE_EQ(*line.limits().most, most);
    return limits_words(line);
  };
  EXPECT_EQ(words(55.58, 57.04), "55.6 to 57");
  EXPECT_EQ(words(55.6, 57.1), "55.6 to 57.1");
  EXPECT_EQ(words(0.604, 1.006), "0.61 to 1") << "a thickness";
}

// Before: "1.9 (1/16 in)" for 1.85 ±0.2, which is 0.06 mm below the tolerance.
TEST(AcceptanceSheet, AThicknessHasItsOwnFigureAndNoInchesOutsideItsTolerance) {
  Order order = worked_order();
  order.left->alterations.shank.reset();
  order.left->shoe.board.thickness = 3.2;
  const auto blank = [&](double left) {
    order.left->alterations.thinned = ThinWish{60.3, 110.7, left};
    return words_of(acceptance_set(order, judge_pair(acceptance_lines(order, solve(order)), {}),
                                   {true, {}, {}}, {papers()[0], Units::inch, "4f9c 2107"}));
  };
  EXPECT_NE(blank(1.85).find("with a caliper; even that may not decide 1.85 \u00b10.2"),
            std::string::npos)
      << blank(1.85);
  EXPECT_NE(blank(2.2).find("2.2 (3/32 in) \u00b10.2"), std::string::npos) << blank(2.2);
}

TEST(AcceptanceSheet, SaysAtWhichLineTheBoardIsJudged) {
  const Order order = worked_order();
  for (const bool blank : {true, false}) {
    const std::string first = judged_words(order, JudgedAt::first_cut, blank);
    EXPECT_NE(first.find("board judged at the first cut"), std::string::npos) << first;
    EXPECT_EQ(first.find("final cut"), std::string::npos) << first;
    const std::string last = judged_words(order, JudgedAt::final_cut, blank);
    EXPECT_NE(last.find("board judged at the final cut"), std::string::npos) << last;
    EXPECT_EQ(last.find("first cut"), std::string::npos) << last;
  }
}

TEST(AcceptanceSheet, ABoardWithoutAFirstCutIsJudgedAtItsOnlyLine) {
  Order order = worked_order();
  order.left->alterations.shank->rule = MarkRule{measured(5)};
  order.left->alterations.shank->accept_outside_window = true;
  ASSERT_FALSE(solve(order).left->trim->first_cut);
  for (const JudgedAt at : {JudgedAt::first_cut, JudgedAt::final_cut}) {
    const std::string words = judged_words(order, at, false);
    EXPECT_NE(words.find("board judged at its only line"), std::string::npos) << words;
  }
}

// What is counted has no instrument and no \u00b1.
TEST(AcceptanceSheet, LayersAreCountedAndCornersGauged) {
  Order order = worked_order();
  order.left->shoe.board.layers = 3;
  order.left->alterations.shank->layers = 2;
  order.left->alterations.shank->end = BoardEnd::rounded;
  const std::string blank = judged_words(order, JudgedAt::final_cut, true);
  for (const char* part :
       {"layers that go on to the heel count them at the line 1 no more, no less 1 yes no ?",
        "radius of the rounded corners by a radius gauge, or a half-millimetre rule 6.0 \u00b11 5 "
        "to 7",
        "inside back to the step, centre"})
    EXPECT_NE(blank.find(part), std::string::npos) << part << ": " << blank;
  const JudgedPair pair =
      judge_pair(acceptance_lines(order, solve(order)),
                 std::vector<MadeSize>{{FootSide::left, "layers", 0, 0, "counted"}});
  const std::string sheet =
      words_of(acceptance_set(order, pair, {false, {}, {}}, {papers()[0], Units::mm, "4f9c 2107"}));
  EXPECT_NE(sheet.find("1 no more, no less 1 0 counted refused"), std::string::npos) << sheet;
}

TEST(AcceptanceSheet, OfSidesAloneNoBoardIsNamed) {
  Draw draw(20260401);
  Draw sides(20260402);
  Order order = random_order_with_sides(draw, sides, Population::women);
  for (auto* foot : {&order.left, &order.right})
    if (*foot) (*foot)->alterations.shank.reset();
  const std::string words = judged_words(order, JudgedAt::final_cut, true);
  EXPECT_NE(words.find("height at its low point"), std::string::npos) << words;
  EXPECT_EQ(words.find("board judged"), std::string::npos) << words;
}

} // namespace
} // namespace shankline::tests::acceptance_sheet_test
