// A board's page cut out: what is left on the paper names itself and is large enough to be read.
#include "export/page/sheet_page.hpp"
#include "export/sets/order_sheets.hpp"
#include "geometry/solution/solution.hpp"
#include "tests/geometry/random_orders.hpp"
#include "tests/geometry/worked_order.hpp"
#include "tests/support/fewer_cases.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace shankline::tests::board_page_test {
namespace {

constexpr double seven_points = 7 * 25.4 / 72;

struct Case {
  const char* name;
  void (*change)(Order&);
};

Reading repeated(std::vector<double> values) {
  Reading reading = measured(0, 1);
  reading.values = std::move(values);
  return reading;
}

/// Two breaks so far apart, and so well known, that the line runs skew.
void skew(Order& order) {
  order.left->foot.heel_front = repeated({61, 61, 62});
  order.left->foot.arch_break.medial = repeated({99, 99, 100});
  order.left->foot.arch_break.lateral = repeated({92, 92, 91});
}

const Case cases[]{
    {"plain", [](Order&) {}},
    {"skew_and_rounded",
     [](Order& order) {
       skew(order);
       order.left->alterations.shank->end = BoardEnd::rounded;
     }},
    {"held_at_the_band",
     [](Order& order) {
       skew(order);
       order.left->alterations.shank->rule = ReachRule{0.75, "short"};
     }},
    {"by_the_layer",
     [](Order& order) {
       order.left->shoe.board.layers = 3;
       order.left->alterations.shank->layers = 2;
     }},
    {"in_the_shoe",
     [](Order& order) {
       skew(order);
       order.left->shoe.board.state = BoardState::in_shoe;
       order.left->shoe.board.length.reset();
       order.left->shoe.board.widths = {{20, 23, 23}, {64, 18.5, 18.5}};
     }},
    {"narrow",
     [](Order& order) {
       Foot& foot = order.left->foot;
       foot.length = measured(218);
       foot.ball_length = measured(160);
       foot.heel_front = measured(56, 3);
       foot.arch_break.medial = measured(88, 4);
       foot.arch_break.lateral.reset();
       Board& board = order.left->shoe.board;
       board.length = measured(192, 1);
       board.widths = {{20, 19.5, 19.5}, {84, 14.4, 14.4}, {142, 24, 24}};
     }},
};

class BoardPage : public testing::TestWithParam<std::tuple<Case, const char*>> {
protected:
  void SetUp() override {
    order_ = worked_order();
    std::get<0>(GetParam()).change(order_);
    solution_ = solve(order_);
    ASSERT_FALSE(has_error(solution_.findings));
    const auto paper = std::find_if(papers().begin(), papers().end(), [](const Paper& each) {
      return each.name == std::get<1>(GetParam());
    });
    set_ = sheet_set(order_, solution_, solution_.findings, {*paper, Units::mm, "4f9c 2107"});
    for (const Template& part : set_.templates)
      if (part.part == "board") board_ = &part;
    ASSERT_TRUE(board_);
  }

  const shankline::Page& page() const { return set_.drawing.pages[board_->page]; }
  const SolvedTrim& trim() const { return *solution_.left->trim; }

  /// The board's frame runs up the page.
  double station(const Text& text) const { return text.at.y - board_->placement.origin.y; }

  std::vector<Text> on_the_paper() const {
    const Box piece = bounds(board_->lines, board_->placement);
    std::vector<Text> texts;
    for (const Mark& mark : page().marks)
      if (const Text* text = std::get_if<Text>(&mark))
        if (text->at.x > piece.left && text->at.x < piece.right && text->at.y > piece.bottom &&
            text->at.y < piece.top && text->angle == 0)
          texts.push_back(*text);
    return texts;
  }

  void expect_named(const std::string& words, const CutLine& line) const {
    // A skew line runs up or down by this much from the centre to an edge.
    const double skew = std::max(line.medial, line.lateral) - line.centre;
    bool named = false;
    for (const Text& text : on_the_paper())
      named = named || (text.words == words && std::abs(station(text) - line.centre) < 6 + skew);
    EXPECT_TRUE(named) << words;
  }

  Order order_;
  Solution solution_;
  SheetSet set_;
  const Template* board_ = nullptr;
};

// Before, a narrow board's gauge said "4f9c 2…".
TEST_P(BoardPage, HasTheDigestWholeOrInTwoLines) {
  int halves = 0;
  int wholes = 0;
  for (const Text& text : on_the_paper()) {
    EXPECT_EQ(text.words.find("\u2026"), std::string::npos) << text.words;
    wholes += text.words == "4f9c 2107" ? 1 : 0;
    halves += text.words == "4f9c" || text.words == "2107" ? 1 : 0;
  }
  EXPECT_EQ(wholes + halves / 2, 2); // what comes off, and the gauge
  EXPECT_EQ(halves % 2, 0);
  EXPECT_EQ(halves > 0, std::get<0>(GetParam()).name == std::string("narrow"));
}

TEST_P(BoardPage, EachLineKeepsItsNameWhenThePaperIsCutOut) {
  ASSERT_TRUE(trim().first_cut);
  expect_named("1 FIRST", *trim().first_cut);
  expect_named("2 FINAL", trim().final_cut);
  expect_named("STOP", trim().stop);
  expect_named("WITNESS", trim().witness);
}

TEST_P(BoardPage, TheGaugeSaysWhoseItIs) {
  int dancers = 0;
  for (const Text& text : on_the_paper())
    dancers += text.words == "M-07" && station(text) > trim().stop.centre &&
               station(text) < trim().witness.centre;
  EXPECT_EQ(dancers, 1);
}

/// Words that find no room ahead of the stop line do not go behind it: that piece may come off.
TEST(BoardPageGauge, NamesItsDancerOnRandomBoards) {
  Draw draw(20261128);
  int boards = 0;
  for (int i = 0; i < fewer_cases(300); ++i) {
    const Order order = random_order(draw);
    const Solution solution = solve(order);
    if (has_error(solution.findings)) continue;
    const SheetSet set =
        sheet_set(order, solution, solution.findings, {papers()[1], Units::mm, "4f9c 2107"});
    for (const Template& part : set.templates) {
      if (part.part != "board") continue;
      const SolvedTrim& trim = *solution.foot(part.foot)->trim;
      int names = 0;
      for (const Mark& mark : set.drawing.pages[part.page].marks)
        if (const Text* text = std::get_if<Text>(&mark); text && text->words == order.dancer) {
          const double station = text->at.y - part.placement.origin.y;
          names += text->angle == 0 && station > trim.stop.centre && station < trim.witness.centre;
        }
      EXPECT_EQ(names, 1) << "order " << i << ", stop at " << trim.stop.centre;
      ++boards;
    }
  }
  EXPECT_GT(boards, fewer_cases(300));
}

TEST_P(BoardPage, WordsOnThePaperAreSevenPointsOrMore) {
  const std::vector<Text> texts = on_the_paper();
  EXPECT_GE(texts.size(), 12u);
  for (const Text& text : texts)
    EXPECT_GE(text.size, seven_points) << text.words;
}

// Before, the part that may come off after trying was hatched too, only lighter.
TEST_P(BoardPage, OnlyWhatTheFirstCutTakesOffIsHatched) {
  const CutLine& first = *trim().first_cut;
  const double end = std::max({first.medial_end.x, first.lateral_end.x});
  int lines = 0;
  double farthest = 0;
  for (const Mark& mark : page().marks) {
    const Stroke* line = std::get_if<Stroke>(&mark);
    if (!line) continue;
    EXPECT_NE(line->kind, LineKind::hatch_light);
    if (line->kind != LineKind::hatch) continue;
    ++lines;
    for (const Point& p : line->points)
      farthest = std::max(farthest, p.y - board_->placement.origin.y);
  }
  EXPECT_GT(lines, 10);
  EXPECT_LE(farthest, end + 0.01);
  EXPECT_GT(farthest, end - 6);
}

INSTANTIATE_TEST_SUITE_P(
    Orders, BoardPage, testing::Combine(testing::ValuesIn(cases), testing::Values("a4", "letter")),
    [](const auto& drawn) {
      return std::string(std::get<0>(drawn.param).name) + "_" + std::get<1>(drawn.param);
    });

std::string words_of_board(const Order& order) {
  const Solution solution = solve(order);
  const SheetSet set =
      sheet_set(order, solution, solution.findings, {papers().front(), Units::mm, "4f9c 2107"});
  std::string words;
  for (const shankline::Page& page : set.drawing.pages)
    if (page.title == "Board, left foot")
      for (const Mark& mark : page.marks)
        if (const Text* text = std::get_if<Text>(&mark)) words += text->words + " ";
  return words;
}

TEST(BoardPageWords, TheKnifeGoesOnTheHeelSideOfTheFirstCut) {
  EXPECT_NE(words_of_board(worked_order()).find("1 FIRST knife on this side"), std::string::npos);
}

// If a board has layers, only the layers that are cut end at the line: their end is bevelled.
TEST(BoardPageWords, OnlyTheCutLayersAreBevelledAndLifted) {
  Order order = worked_order();
  order.left->shoe.board.layers = 3;
  order.left->alterations.shank->layers = 2;
  const std::string words = words_of_board(order);
  for (const char* said :
       {"last, bevel the end of the cut layers from here", "down to the layer that stays",
        "raise the cut layers no farther", "bevel the new end of the cut layers over its last 12"})
    EXPECT_NE(words.find(said), std::string::npos) << said << ":\n" << words;
  for (const char* said : {"bevel the foot side", "raise the board", "bevel the new end over"})
    EXPECT_EQ(words.find(said), std::string::npos) << said << ":\n" << words;
}

// Bevel and lift limit may lie ahead of the stop line, where no knife goes: they say why.
TEST(BoardPageWords, WhatLiesPastTheStopBandSaysThatNothingIsCutThere) {
  Order order = worked_order();
  order.left->foot.arch_break.medial = measured(97, 4);
  order.left->foot.arch_break.lateral = measured(93, 5);
  order.left->foot.fold = measured(6, 3);
  const Solution solution = solve(order);
  ASSERT_TRUE(solution.left);
  ASSERT_GT(solution.left->trim->bevel->centre, solution.left->trim->stop_from.centre);
  ASSERT_GT(solution.left->trim->lift_limit.centre, solution.left->trim->stop_from.centre);
  const std::string words = words_of_board(order);
  EXPECT_NE(words.find("(thinned, not cut)"), std::string::npos) << words;
  EXPECT_EQ(words.find("lift limit"), std::string::npos) << "a loose board is not lifted";
  order.left->shoe.board.state = BoardState::in_shoe;
  order.left->shoe.board.length.reset();
  const std::string in_shoe = words_of_board(order);
  EXPECT_NE(in_shoe.find("raise the board no farther"), std::string::npos) << in_shoe;
  EXPECT_NE(in_shoe.find("; lift only, no cut"), std::string::npos) << in_shoe;
}

} // namespace
} // namespace shankline::tests::board_page_test
