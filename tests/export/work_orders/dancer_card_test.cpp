// The dancer's card: three figures of a skew line, and boxes that a hand can write in.
#include "export/work_orders/dancer_card.hpp"

#include "export/sets/order_sheets.hpp"
#include "geometry/fitting/next_cut.hpp"
#include "tests/export/said_on_page.hpp"
#include "tests/geometry/worked_order.hpp"
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/readback.hpp"
#include "tests/support/scratch_directory.hpp"

#include <algorithm>
#include <gtest/gtest.h>

namespace shankline::tests::dancer_card_test {
namespace {

std::string card_words(const Order& order) {
  return page_words(order, "Dancer's card") + page_words(order, "Dancer's card, tries");
}

std::string off(double mm) {
  return ruler_text(mm, Rounding::down);
}

// Before, a skew line's tries had the centre's figure alone, and its steps had all the others in
// one sentence.
TEST(DancerCard, ASkewLineHasItsThreeFiguresInATableAndAtEveryTry) {
  const Order order = worked_order();
  const Solution solution = solve(order);
  ASSERT_TRUE(solution.left && solution.left->trim);
  const FootSolution& foot = *solution.left;
  const SolvedTrim& trim = *foot.trim;
  const std::string words = card_words(order);
  for (const CutLine* line : {&*trim.first_cut, &trim.final_cut, &trim.stop_from, &trim.stop})
    for (const double at : {line->medial, line->centre, line->lateral})
      EXPECT_NE(words.find(off(at)), std::string::npos) << at;
  for (const BoardStation centre : cut_steps(trim)) {
    const CutLine line = *cut_line(foot.outline, centre, trim.skew);
    for (const std::string& figure : {"big toe " + off(line.medial), "centre " + off(line.centre),
                                      "little toe " + off(line.lateral),
                                      ruler_text(trim.witness.medial - line.medial, Rounding::up)})
      EXPECT_NE(words.find(figure), std::string::npos) << figure << ":\n" << words;
  }
  expect_said(words, {"its three figures are in the table above"});
  expect_said(card_words(doubtful_order()), {"First cut: left 52.5 off. Tape"},
              {"three figures", "little-toe side"});
}

// Before, the table said 52.6 and 47.4 where every other sheet has 52.5 and 47.5.
TEST(DancerCard, TriesAreRulerNumbers) {
  const Solution solution = solve(doubtful_order());
  ASSERT_TRUE(solution.left && solution.left->trim);
  const std::string words = card_words(doubtful_order());
  expect_said(words, {"52.5 first cut 47.5", "62.0 final cut 38.0"}, {"52.6", "47.4"});
}

TEST(DancerCard, GraveCautionsStandOnItInFull) {
  Order order = doubtful_order();
  order.left->foot.heel_front.reset();
  expect_said(card_words(order), {"Measure it before cutting. Slide a thumb"});
}

/// The card of a left board after one try.
std::string card_after(const TriedBefore& tried) {
  const Order order = doubtful_order();
  const Solution solution = solve(order);
  SheetWish wish;
  wish.card = true;
  wish.tried = {tried};
  const SheetSet set = card_set(order, solution, solution.findings, wish);
  return words_on(set, "Dancer's card") + words_on(set, "Dancer's card, tries");
}

// Before, a board that had been found too short was offered the next cut all the same.
TEST(DancerCard, OffersNoFurtherCutAfterATryThatStops) {
  const BoardStation first(52.5);
  expect_said(card_after({FootSide::left, first, "too-low", "2026-03-20", true}),
              {"too-low", "55.5", "62.0 final cut"}, {"cut no more"});
  expect_said(card_after({FootSide::left, first, "cut-too-far", "2026-03-20", false}),
              {"cut-too-far", "cut no more"}, {"55.5", "62.0 final cut"});
}

/// Gaps between neighbours among these places, those of one line counted once.
std::vector<double> gaps(std::vector<double> places) {
  std::sort(places.begin(), places.end());
  std::vector<double> between;
  for (std::size_t i = 1; i < places.size(); ++i)
    if (places[i] - places[i - 1] > 0.1) between.push_back(places[i] - places[i - 1]);
  return between;
}

// Before, a row was 7.6 high and the narrowest column 15.6 wide.
TEST(DancerCard, BoxesOfTheTriesHoldAFigureWrittenByHandStanding) {
  const ScratchDirectory scratch;
  const std::string pdf = (scratch.path() / "card.pdf").string();
  int tables = 0;
  for (const char* sample : {"plain", "whole_order", "different_feet"})
    for (const char* paper : {"a4", "letter"}) {
      const Finished cut = run({places::program, "cut", places::samples + "/" + sample + ".yaml",
                                "--card", "--paper", paper, "-o", pdf});
      ASSERT_EQ(cut.exit_code, 0) << cut.err;
      const PaperDocument document = read_document(pdf);
      std::size_t number = document.pages.size();
      double below_heads = 0; // of the word "feels"
      for (const Word& word : page_words(std::filesystem::path(pdf), number))
        if (word.text == "feels") below_heads = word.box.low.y;
      ASSERT_GT(below_heads, 0) << sample;
      const PaperPage& page = document.pages[number - 1];
      std::vector<double> rows;
      std::vector<double> columns;
      for (const PaperStroke& line : page.strokes) {
        if (line.points.size() != 2) continue;
        const Point& a = line.points[0];
        const Point& b = line.points[1];
        if (a.y == b.y && a.y < below_heads && a.x < 12) rows.push_back(a.y);
        if (a.x == b.x && std::min(a.y, b.y) < below_heads - 20) columns.push_back(a.x);
      }
      ASSERT_GE(rows.size(), 5u) << sample;
      for (const double height : gaps(rows))
        EXPECT_GE(height, 9) << sample << " on " << paper;
      ASSERT_EQ(columns.size(), 12u) << sample; // two tables of five columns
      int narrow = 0;                           // the one gap between the tables is no box
      for (const double width : gaps(columns))
        narrow += width < 16;
      EXPECT_EQ(narrow, 1) << sample << " on " << paper;
      ++tables;
    }
  EXPECT_EQ(tables, 6);
}

} // namespace
} // namespace shankline::tests::dancer_card_test
