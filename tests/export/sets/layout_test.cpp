// Every page that drawn orders give is legible: no text on a line or on another text, nothing off
// the page, on every paper, in millimetres and with inches.
#include "export/sets/order_sheets.hpp"
#include "geometry/breaking/pair_contact.hpp"
#include "geometry/solution/solution.hpp"
#include "tests/export/layout_check.hpp"
#include "tests/geometry/random_orders.hpp"

#include <cmath>
#include <gtest/gtest.h>

namespace shankline::tests::layout_test {
namespace {

/// The longest words that the order file lets through, on every other order.
void dress(Order& order, int i) {
  order.dancer = i % 2 == 0 ? "M-07" : "MM-WW-0000000000-WWWWWWWWWWWWWWWWWWWWWWW";
  order.pair = i % 2 == 0 ? "touring, second pair"
                          : "touring, spring, the second pair of the six for the long western leg";
  order.date = "2026-03-14";
  if (i % 3 == 0) order.note = "Board softened by hand before measuring; the left one twice.";
  if (i % 3 == 1) order.note = std::string(1000, 'W'); // no space to break it at
}

void expect_legible(int orders) {
  Draw draw(20260314);
  int pages = 0;
  for (int i = 0; i < orders; ++i) {
    Order order = random_order(draw, i % 3 == 0 ? Population::men : Population::women);
    dress(order, i);
    const Solution solution = solve(order);
    if (has_error(solution.findings) || (!solution.left && !solution.right)) continue;
    for (const Paper& paper : papers())
      for (const Units units : {Units::mm, Units::inch}) {
        const SheetSet set = sheet_set(order, solution, solution.findings,
                                       {paper, units, "4f9c 2107", {}, true, true});
        for (const Page& page : set.drawing.pages) {
          ++pages;
          for (const std::string& fault : layout_faults(page))
            ADD_FAILURE() << "order " << i << ", " << paper.name
                          << (units == Units::inch ? ", inches, " : ", ") << page.title << ": "
                          << fault;
        }
      }
    if (testing::Test::HasFailure()) return; // one order's faults are enough to read
  }
  EXPECT_GE(pages, orders * 8);
}

/// The left board is thinned about the arch break, by a thickness that depends on `i`, and not cut.
void thin_in_place_of_cutting(Order& order, int i) {
  if (!order.left || !order.left->alterations.shank) return;
  FootOrder& foot = *order.left;
  foot.alterations.shank.reset();
  if (!foot.shoe.board.thickness) foot.shoe.board.thickness = 3;
  foot.alterations.thinned = ThinWish{64, 98, *foot.shoe.board.thickness * (0.2 + 0.07 * (i % 12))};
}

void expect_legible_charts(int orders) {
  Draw draw(20260315);
  int pages = 0;
  for (int i = 0; i < orders; ++i) {
    Order order = random_order(draw, i % 3 == 0 ? Population::men : Population::women);
    dress(order, i);
    if (i % 3 == 1) thin_in_place_of_cutting(order, i);
    const Units units = i % 2 == 0 ? Units::mm : Units::inch;
    const Solution solution = solve(order);
    if (has_error(solution.findings)) continue;
    const PairContact contact = pair_contact(order, solution);
    std::vector<FootChart> charts;
    if (contact.left)
      if (auto chart = break_chart(order, *solution.left, *contact.left))
        charts.push_back({FootSide::left, std::move(*chart)});
    for (const Paper& paper : papers())
      for (const Page& page :
           chart_set(order, solution, charts, {paper, units, "4f9c 2107"}).drawing.pages) {
        ++pages;
        for (const std::string& fault : layout_faults(page))
          ADD_FAILURE() << "order " << i << ", " << paper.name << ", " << page.title << ": "
                        << fault;
      }
    if (testing::Test::HasFailure()) return;
  }
  EXPECT_GE(pages, orders / 2);
}

void expect_legible_sides(int orders) {
  Draw draw(20260316);
  Draw sides(20260317);
  int side_pages = 0;
  for (int i = 0; i < orders; ++i) {
    Order order =
        random_order_with_sides(draw, sides, i % 3 == 0 ? Population::men : Population::women);
    dress(order, i);
    const Solution solution = solve(order);
    if (has_error(solution.findings) || (!solution.left && !solution.right)) continue;
    for (const Paper& paper : papers())
      for (const Units units : {Units::mm, Units::inch}) {
        const SheetSet set = sheet_set(order, solution, solution.findings,
                                       {paper, units, "4f9c 2107", {}, true, true});
        for (const Page& page : set.drawing.pages) {
          if (page.title.rfind("Side", 0) == 0) ++side_pages;
          for (const std::string& fault : layout_faults(page))
            ADD_FAILURE() << "order " << i << ", " << paper.name << ", " << page.title << ": "
                          << fault;
        }
      }
    if (testing::Test::HasFailure()) return;
  }
  EXPECT_GE(side_pages, orders * 3);
}

/// The first line of the label that every tile carries, so that pieces cut apart are not confused.
bool says_what_the_tile_is(const Page& page, const Box& tile) {
  for (const Mark& mark : page.marks)
    if (const Text* text = std::get_if<Text>(&mark))
      if ((text->words == "OUTSIDE FACE UP" ||
           text->words.find(" \u00b7 row ") != text->words.npos) &&
          text->at.y > tile.bottom && text->at.y < tile.top)
        return true;
  return false;
}

/// On papers of no name, shorter than any, where most sides lean or are tiled, some in two rows.
void expect_legible_on_short_papers(int orders) {
  Draw draw(20260318);
  Draw sides(20260319);
  std::size_t tiles = 0;
  std::size_t second_rows = 0;
  std::size_t leaning = 0;
  for (int i = 0; i < orders; ++i) {
    Order order =
        random_order_with_sides(draw, sides, i % 3 == 0 ? Population::men : Population::women);
    dress(order, i);
    const Solution solution = solve(order);
    if (has_error(solution.findings) || (!solution.left && !solution.right)) continue;
    for (const Paper& paper :
         {Paper{"short", 210, 245}, Paper{"shorter", 212, 238}, Paper{"narrow", 210, 262}})
      for (const Units units : {Units::mm, Units::inch}) {
        const SheetSet set = sheet_set(order, solution, solution.findings,
                                       {paper, units, "4f9c 2107", {}, true, true});
        for (const Template& part : set.templates) {
          if (part.part == "board") continue; // its page is laid out for papers that exist
          tiles += part.tile.has_value();
          second_rows += part.tile && part.tile->row > 0;
          leaning += !part.tile && std::abs(part.placement.along.y) > 0.1;
          const Page& page = set.drawing.pages[part.page];
          EXPECT_TRUE(!part.tile || says_what_the_tile_is(page, bounds(part.lines, part.placement)))
              << "order " << i << ", " << paper.name << ", " << page.title;
          for (const std::string& fault : layout_faults(page))
            ADD_FAILURE() << "order " << i << ", " << paper.name
                          << (units == Units::inch ? ", inches, " : ", ") << page.title << ": "
                          << fault;
        }
      }
    if (testing::Test::HasFailure()) return;
  }
  EXPECT_GE(tiles, 2u * static_cast<std::size_t>(orders));
  EXPECT_GE(second_rows, static_cast<std::size_t>(orders) / 4);
  EXPECT_GE(leaning, static_cast<std::size_t>(orders) / 10);
}

// A roll is as long as the part needs: nothing has to be joined.
TEST(Layout, OnARollEveryPartIsWhole) {
  Draw draw(20260320);
  Draw sides(20260321);
  int high = 0;
  int parts = 0;
  for (int i = 0; i < 12; ++i) {
    Order order =
        random_order_with_sides(draw, sides, i % 3 == 0 ? Population::men : Population::women);
    dress(order, i);
    for (auto* foot : {&order.left, &order.right})
      if (*foot && !(*foot)->alterations.liner) (*foot)->alterations.liner = LinerWish{};
    const Solution solution = solve(order);
    if (has_error(solution.findings) || (!solution.left && !solution.right)) continue;
    for (const Units units : {Units::mm, Units::inch}) {
      for (const Page& page : sheet_set(order, solution, solution.findings,
                                        {*read_paper("roll:210"), units, "4f9c 2107"})
                                  .drawing.pages)
        EXPECT_LT(std::max(page.paper.width, page.paper.height), 700) << page.title;
      const SheetSet set = sheet_set(order, solution, solution.findings,
                                     {*read_paper("roll:610"), units, "4f9c 2107"});
      for (const Template& part : set.templates) {
        EXPECT_FALSE(part.tile) << "order " << i << ", " << part.part;
        high = std::max(high, static_cast<int>(set.drawing.pages[part.page].paper.height));
        ++parts;
      }
    }
  }
  EXPECT_GT(parts, 60);
  EXPECT_GT(high, 297);
}

TEST(Layout, OfTiledAndLeaningSidesIsLegible) {
  expect_legible_on_short_papers(6);
}
TEST(LongLayout, OfTiledAndLeaningSidesIsLegible) {
  expect_legible_on_short_papers(400);
}

TEST(Layout, OfLoweredSidesIsLegible) {
  expect_legible_sides(10);
}
TEST(LongLayout, OfLoweredSidesIsLegible) {
  expect_legible_sides(500);
}

/// Everything that can be asked for at once.
void expect_legible_work(int orders) {
  Draw draw(20260318);
  Draw sides(20260319);
  Draw work(20260320);
  int pages = 0;
  int refused = 0;
  for (int i = 0; i < orders; ++i) {
    Order order =
        random_order_with_sides(draw, sides, i % 3 == 0 ? Population::men : Population::women);
    for (std::optional<FootOrder>* foot : {&order.left, &order.right})
      if (*foot) add_random_work(work, **foot);
    dress(order, i);
    const Solution solution = solve(order);
    if (has_error(solution.findings) || (!solution.left && !solution.right)) {
      ++refused;
      continue;
    }
    for (const Paper& paper : papers())
      for (const Units units : {Units::mm, Units::inch}) {
        const SheetSet set = sheet_set(order, solution, solution.findings,
                                       {paper, units, "4f9c 2107", {}, true, true});
        for (const Page& page : set.drawing.pages) {
          for (const char* title : {"Liner", "Darning", "Ribbons"})
            if (page.title.rfind(title, 0) == 0) ++pages;
          for (const std::string& fault : layout_faults(page))
            ADD_FAILURE() << "order " << i << ", " << paper.name
                          << (units == Units::inch ? ", inches, " : ", ") << page.title << ": "
                          << fault;
        }
      }
    if (testing::Test::HasFailure()) return;
  }
  EXPECT_GE(pages, orders * 5);
  EXPECT_LE(refused, orders / 2);
}

TEST(Layout, OfEverythingElseIsLegible) {
  expect_legible_work(10);
}
TEST(LongLayout, OfEverythingElseIsLegible) {
  expect_legible_work(400);
}

TEST(Layout, OfBreakChartsIsLegible) {
  expect_legible_charts(8);
}
TEST(LongLayout, OfBreakChartsIsLegible) {
  expect_legible_charts(500);
}

TEST(Layout, IsLegibleForRandomOrders) {
  expect_legible(12);
}
TEST(LongLayout, IsLegibleForRandomOrders) {
  expect_legible(1000);
}

TEST(Layout, CheckObjectsToATextOnALineAndOffThePage) {
  Page page;
  page.paper = papers().front();
  page.marks.emplace_back(Text{{100, 100}, "words", 4});
  EXPECT_TRUE(layout_faults(page).empty());
  page.marks.emplace_back(Stroke{LineKind::edge, {{90, 101}, {200, 101}}, false});
  page.marks.emplace_back(Text{{105, 99}, "more", 4});
  page.marks.emplace_back(Text{{198, 250}, "outside", 4});
  EXPECT_EQ(layout_faults(page).size(), 4u); // the line crosses both words, which overlap
}

} // namespace
} // namespace shankline::tests::layout_test
