// Instructions on the pages: those for the work that the order asks for and no others, alike on
// every page.
#include "export/sets/order_sheets.hpp"
#include "export/templates/board_sheet.hpp"
#include "export/templates/side_lines.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/solution/solution.hpp"
#include "tests/export/said_on_page.hpp"
#include "tests/geometry/sides_of_order.hpp"
#include "tests/geometry/worked_order.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <set>
#include <string>
#include <tuple>
#include <variant>

namespace shankline::tests::page_words_test {
namespace {

std::string board_words(const Order& order) {
  return page_words(order, "Board, left foot");
}
std::string card_words(const Order& order) {
  return page_words(order, "Dancer's card");
}

/// One foot with everything that is sewn.
Order sewn() {
  Order order;
  order.dancer = "M-07";
  order.left = worked_sides();
  order.left->shoe.sides->throat = 120;
  order.left->shoe.sides->casing = 9;
  order.left->alterations.sides->drawstring = Drawstring::elastic;
  order.left->alterations.sides->stretch = 0.12;
  order.left->foot.ankle_girth = measured(208);
  RibbonWish ribbons;
  ribbons.stretch = 0.12;
  ribbons.rise = 70;
  order.left->alterations.ribbons = ribbons;
  ElasticWish elastics;
  elastics.over = 121;
  elastics.stretch = 0.25;
  elastics.heel_loop = true;
  order.left->alterations.elastics = elastics;
  order.left->shoe.platform = Platform{44, 26};
  order.left->alterations.darning = DarningWish{};
  return order;
}

// The order and the maker's page once said 36.5 for a height of 36.00003.
TEST(SideWords, LowestHeightIsTheSameOnEveryPage) {
  const Order order = sewn();
  const Solution solution = solve(order);
  const SolvedSides& sides = *solution.left->sides;
  EXPECT_NEAR(sides.medial.low, 36, 1e-3);
  EXPECT_GT(sides.medial.low, 36) << "the case that was wrong";
  const std::string medial = figure(sides.medial.low);
  const std::string lateral = figure(sides.lateral.low);
  expect_said(page_words(order, "Order"),
              {("big-toe side " + medial + ", little-toe side " + lateral).c_str()});
  expect_said(
      page_words(order, "Order for the maker"),
      {("big-toe side " + medial + " at 126; little-toe side " + lateral + " at 126").c_str(),
       "from the back seam both sides 81 to 155, in full 105 to 125 along the sole edge"});
  expect_said(page_words(order, "Sides, left foot"), {("low point, " + medial + " high").c_str(),
                                                      ("low point, " + lateral + " high").c_str()});
}

// Before: "elastic, 388.5 ±1.2 unstretched", "edges and ends turned under", and a loop of 46.0
// ±0.8.
TEST(SewingWords, SayWhatTheEndsAreFor) {
  Order order = sewn();
  expect_said(page_words(order, "Ribbons and sewing"),
              {"unstretched, with 20 at each end to sew or knot",
               "long, 28.0 ±0.5 wide, with 15 at each end and 5 a side to turn under",
               "46 ±0.8, with 10 at each end to sew"});
  order.left->alterations.sides->drawstring = Drawstring::cotton;
  expect_said(page_words(order, "Ribbons and sewing"), {"with 150 at each end to tie"},
              {"to sew or knot"});
}

bool has_decimal_before(const std::string& words, const std::string& after) {
  const std::size_t at = words.find(after);
  if (at == std::string::npos || at < 2) return true;
  return words[at - 2] == '.';
}

// Before, these lengths were printed to a tenth of a millimetre, and the stitches to a hundredth.
TEST(SewingWords, LengthsOfClothAreWholeMillimetres) {
  const Order order = sewn();
  const std::string words = page_words(order, "Ribbons and sewing");
  for (const char* after : {" ±2, ring of stretch ribbon", " ±0.8, 20 wide, stretched to",
                            " ±2 unstretched", " ±1.2 long"})
    EXPECT_FALSE(has_decimal_before(words, after)) << after << ":\n" << words;
  expect_said(words, {"from one end 15, 78, "}, {"15.0"});
  const std::string darning = page_words(order, "Darning");
  const std::size_t every = darning.find("every 3.");
  ASSERT_NE(every, std::string::npos) << darning;
  EXPECT_EQ(darning[every + 9], ' ') << darning;
}

// They are read when the paper is cut out. Before, the darning wrap's tab had 6 pt.
// Before, a short liner had "order b843 b1fa · …" and no page.
TEST(PieceWords, AShortLinerHasItsPageOnALineBelow) {
  Order order = doubtful_order();
  order.left->alterations.liner = LinerWish{1.5, 180.0};
  const SheetSet set = every_sheet(order);
  const std::string words = words_on(set, "Liner, left foot");
  const auto page = std::find_if(set.drawing.pages.begin(), set.drawing.pages.end(),
                                 [](const Page& one) { return one.title == "Liner, left foot"; });
  ASSERT_NE(page, set.drawing.pages.end());
  const std::string number = "page " + std::to_string(page - set.drawing.pages.begin() + 1);
  expect_said(words, {"LINER"}, {"\u2026"});
  bool alone = false;
  for (const Mark& mark : page->marks)
    if (const auto* text = std::get_if<Text>(&mark)) alone = alone || text->words == number;
  EXPECT_TRUE(alone) << words;
}

// Before, one page said "leave 1.85" and "THIN to 1.9 mm", and inches 1/16, below the tolerance.
TEST(ThinnedWords, EveryPageLeavesTheSameThickness) {
  Order order = doubtful_order();
  order.left->shoe.board.thickness = 3.2;
  order.left->alterations.shank.reset();
  for (const auto& [left, words, in_inches] :
       {std::tuple{1.85, "1.85", ""}, std::tuple{2.7, "2.7", ""}, std::tuple{2.2, "2.2", "3/32"}}) {
    order.left->alterations.thinned = ThinWish{60.3, 110.7, left};
    const Solution solution = solve(order);
    for (const Units units : {Units::mm, Units::inch}) {
      const SheetSet set = sheet_set(order, solution, solution.findings,
                                     {papers().front(), units, "4f9c 2107", {}, true, true});
      for (const Page& page : set.drawing.pages) {
        const std::string said = words_on(set, page.title);
        EXPECT_EQ(said.find("1.9"), std::string::npos) << page.title << ": " << said;
        EXPECT_EQ(said.find("1/16 in"), std::string::npos) << page.title << ": " << said;
        const bool inches = units == Units::inch && *in_inches;
        EXPECT_EQ(said.find("(3/32 in)") != std::string::npos,
                  inches && (page.title.starts_with("Order") || page.title.starts_with("Board")))
            << page.title << ": " << said;
      }
      for (const char* title : {"Order", "Order for the maker", "Board, left foot"})
        EXPECT_NE(words_on(set, title).find(words), std::string::npos) << title;
    }
  }
}

TEST(PieceWords, AreSevenPointsOrMore) {
  constexpr double seven_points = 7 * 25.4 / 72;
  Order order = sewn();
  order.pair = "touring, second pair";
  order.date = "2026-03-14";
  order.left->alterations.liner = LinerWish{};
  const Solution solution = solve(order);
  std::set<std::string> parts;
  for (const Paper& paper : papers()) {
    const SheetSet set =
        sheet_set(order, solution, solution.findings, {paper, Units::inch, "4f9c 2107"});
    for (const Template& part : set.templates) {
      const Box piece = bounds(part.lines, part.placement);
      for (const Mark& mark : set.drawing.pages[part.page].marks)
        if (const Text* text = std::get_if<Text>(&mark))
          if (text->at.x > piece.left && text->at.x < piece.right && text->at.y > piece.bottom &&
              text->at.y < piece.top) {
            parts.insert(part.part);
            EXPECT_GE(text->size, seven_points) << part.part << ": " << text->words;
          }
    }
  }
  EXPECT_EQ(parts,
            (std::set<std::string>{"board", "darning", "liner", "side_lateral", "side_medial"}));
}

Order with_sides(SideEdge edge, double turn = 5) {
  Order order;
  order.dancer = "M-07";
  order.left = worked_sides();
  order.left->alterations.sides->edge = edge;
  order.left->alterations.sides->turn = turn;
  return order;
}

// Before, the pages said "short of the line is safe, past it is not": a cut may fall short by no
// more than its tolerance.
TEST(BoardWords, HowFarACutMayFallShortIsTheOrdersTolerance) {
  Order order = worked_order();
  order.tolerances.cut = 1.2;
  expect_said(board_words(order), {"every cut +0 −1.2: up to 1.2 short of the line, never past it"},
              {"is safe"});
  for (const SideEdge edge : {SideEdge::bound, SideEdge::turned, SideEdge::folded}) {
    order = with_sides(edge);
    order.tolerances.cut = 0.8;
    const Solution solution = solve(order);
    const SheetSet set =
        sheet_set(order, solution, solution.findings, {papers().front(), Units::mm, "4f9c 2107"});
    std::string words;
    for (const Page& page : set.drawing.pages)
      if (page.title.starts_with("Side")) words += words_on(set, page.title);
    expect_said(words, {"may fall short of the line by up to 0.8, never past it."}, {"is safe"});
  }
}

TEST(BoardWords, OnlyWhatIsToBeBevelledIs) {
  Order order = worked_order();
  const std::string with = board_words(order);
  EXPECT_NE(with.find("After the last cut only: bevel the new end over its last 12, "),
            std::string::npos)
      << with;
  order.left->alterations.shank->bevel = 0;
  const std::string without = board_words(order);
  EXPECT_NE(without.find("After the last cut only: seal"), std::string::npos) << without;
  EXPECT_EQ(without.find("bevel"), std::string::npos) << without;
}

// Who holds this page must not cut through what stays.
TEST(BoardWords, ABoardCutByTheLayerSaysSoInTheBoxOnThePieceAndInTheSteps) {
  Order order = worked_order();
  const std::string through = board_words(order);
  order.left->shoe.board.layers = 3;
  order.left->alterations.shank->layers = 2;
  const std::string by_layer = board_words(order);
  for (const char* words : {"Cut 2 of 3 layers only, from the foot side", "CUT OFF 2 of 3 layers",
                            "Part the layers at the heel end."}) {
    EXPECT_NE(by_layer.find(words), std::string::npos) << words << ":\n" << by_layer;
    EXPECT_EQ(through.find(words), std::string::npos) << words;
  }
}

TEST(BoardWords, TheBevelSaysWhereItEnds) {
  Order order = worked_order();
  const std::string through = board_words(order);
  EXPECT_NE(through.find("edge 0.8 ±0.2"), std::string::npos) << through;
  EXPECT_EQ(through.find("layer"), std::string::npos) << through;

  order.left->shoe.board.layers = 2;
  order.left->alterations.shank->layers = 1;
  const std::string by_layer = board_words(order);
  EXPECT_NE(by_layer.find("to the layer that stays"), std::string::npos) << by_layer;
  EXPECT_EQ(by_layer.find("edge 0.8"), std::string::npos) << by_layer;
}

// Pricked at its edges and joined, the heaviest line is the one that the numbers mean.
TEST(BoardWords, TheFinalCutIsStraightAndTheCornersComeLast) {
  Order order = worked_order();
  order.left->alterations.shank->end = BoardEnd::rounded;
  const Solution solution = solve(order);
  ASSERT_TRUE(solution.left);
  const SolvedTrim& trim = *solution.left->trim;
  const double slope = (trim.final_cut.medial - trim.final_cut.lateral) /
                       (trim.final_cut.medial_end.y - trim.final_cut.lateral_end.y);
  const auto ahead = [&](const Point& p) { return p.x - trim.final_cut.centre - slope * p.y; };
  int corners = 0;
  for (const Stroke& line : board_lines(*solution.left, 100)) {
    if (line.kind == LineKind::corner) {
      ++corners;
      EXPECT_GT(line.points.size(), 2u);
      EXPECT_LT(line.points.size(), trim.end.size());
      for (const Point& p : line.points)
        EXPECT_GE(ahead(p), -1e-9);
    }
    if (line.kind != LineKind::final_cut) continue;
    ASSERT_EQ(line.points.size(), 2u);
    for (const Point& p : line.points)
      EXPECT_NEAR(ahead(p), 0, 1e-9);
  }
  EXPECT_EQ(corners, 2);
  expect_said(board_words(order), {"round the corners after the last cut: radius 6",
                                   "After the last cut only: round the corners"});
  expect_said(card_words(order), {"round the corners"});
  expect_said(card_words(worked_order()), {}, {"corners"});
}

TEST(CardWords, ThinningIsMarkedBeforeTheCutAndDoneBeforeTheGlue) {
  Order order = worked_order();
  order.left->alterations.thinned = ThinWish{};
  order.left->alterations.thinned->from = 70;
  order.left->alterations.thinned->to = 90;
  order.left->alterations.thinned->thickness = 2;
  const std::string words = card_words(order);
  const auto mark = words.find("Mark the stretch");
  const auto cut = words.find("First cut");
  const auto thin = words.find("Thin the marked stretch");
  const auto glue = words.find("glue the board down");
  ASSERT_NE(mark, std::string::npos) << words;
  EXPECT_LT(mark, cut);
  EXPECT_LT(cut, thin);
  EXPECT_LT(thin, glue);
  EXPECT_NE(glue, std::string::npos);
  expect_said(board_words(order), {"Also thinned"});
}

TEST(CardWords, EachEdgeOfTheSidesHasItsOwnStep) {
  expect_said(card_words(with_sides(SideEdge::bound)), {"try it before cutting"},
              {"allowance", "nothing is cut"});
  expect_said(card_words(with_sides(SideEdge::turned)), {"above it by the allowance"},
              {"nothing is cut"});
  expect_said(card_words(with_sides(SideEdge::folded)), {"nothing is cut"},
              {"allowance", "before cutting"});
}

// The side is lowered by 5 on one side and by 4 on the other.
TEST(SideWords, ATurnedEdgeIsCutOnlyWhereThereIsCloth) {
  for (const double turn : {3.0, 4.5}) {
    const Order order = with_sides(SideEdge::turned, turn);
    const Solution solution = solve(order);
    ASSERT_TRUE(solution.left && solution.left->sides);
    const SolvedSides& sides = *solution.left->sides;
    for (const SolvedSide* side : {&sides.medial, &sides.lateral}) {
      int cuts = 0;
      for (const Stroke& line : side_lines(*side, *order.left))
        cuts += line.kind == LineKind::final_cut;
      EXPECT_EQ(cuts, side->profile.depth > turn ? 1 : 0) << turn << ", " << side->profile.depth;
    }
    EXPECT_EQ(solution.findings.size(), turn < 4 ? 0u : 1u);
  }
  expect_said(
      page_words(with_sides(SideEdge::turned, 3), "Sides, left foot"),
      {"big-toe side: cut (\u2013: none)", "little-toe side: cut (\u2013: none)", "never on it"});
  expect_said(page_words(with_sides(SideEdge::bound), "Sides, left foot"),
              {"big-toe side: new +1.5 \u22120"}, {": cut (", "allowance"});
  // A side alone on its page has the words of one side.
  Order one = with_sides(SideEdge::turned, 3);
  one.left->alterations.sides->lateral = 0;
  expect_said(page_words(one, "Side, left foot, big-toe side"), {"cut at (", "never on it"});
}

TEST(SewingWords, SayAsManyWrapsAsAreOrdered) {
  Order order = worked_order();
  order.left->alterations.ribbons = RibbonWish{};
  order.left->alterations.ribbons->stretch = 0.1;
  expect_said(card_words(order), {"twice round the ankle"});
  order.left->alterations.ribbons->wraps = 3;
  for (const char* page : {"Dancer's card", "Ribbons and sewing"})
    expect_said(page_words(order, page), {"3 times round the ankle"}, {"twice"});
  order.left->alterations.ribbons->ring = false;
  order.left->alterations.ribbons->wraps.reset();
  expect_said(page_words(order, "Ribbons and sewing"),
              {"stretch ribbon 22 wide", "15 of one end of each"}, {"of each end"});
}

TEST(OrderWords, NameTheAdultWhoDecides) {
  Order order = worked_order();
  order.growing = true;
  order.decided_by = "T-4";
  for (const char* page : {"Order", "Order for the maker"})
    expect_said(page_words(order, page), {"Who decides for this dancer: T-4."});
  order.decided_by.clear();
  order.growing = false;
  for (const char* page : {"Order", "Order for the maker"})
    expect_said(page_words(order, page), {}, {"Who decides"});
}

} // namespace
} // namespace shankline::tests::page_words_test
