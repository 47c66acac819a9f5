// Pages as they were when somebody looked at them last: every word in its place, every kind of line
// with its look, length and extent. tests/export/sets/pages_as_seen holds them, a file an order.
// With SHANKLINE_ACCEPT=1 in the environment this test rewrites the files that differ; look at the
// pages (`pdftoppm -r 80 -png`) before keeping them.
#include "export/sets/order_sheets.hpp"
#include "geometry/breaking/pair_contact.hpp"
#include "geometry/solution/solution.hpp"
#include "tests/export/said_on_page.hpp"
#include "tests/geometry/random_orders.hpp"
#include "tests/geometry/sides_of_order.hpp"
#include "tests/geometry/worked_order.hpp"
#include "tests/support/case_file.hpp"
#include "tests/support/places.hpp"
#include "tests/support/scratch_directory.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <gtest/gtest.h>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>

namespace shankline::tests::pages_as_seen_test {
namespace {

/// A hundredth of a millimetre; no "-0.00", which depends on the last digit.
std::string mm(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.2f", std::abs(value) < 0.005 ? 0.0 : value);
  return text;
}

std::string described(const Text& text) {
  std::string words = mm(text.at.x) + " " + mm(text.at.y) + " size " + mm(text.size);
  if (text.weight == Weight::bold) words += " bold";
  if (text.align != Align::left) words += text.align == Align::centre ? " centred" : " to the left";
  if (text.angle != 0) words += " at " + mm(text.angle) + " degrees";
  return words + ": " + text.words + "\n";
}

struct Lines {
  int count = 0;
  double length = 0;
  Box extent = nowhere;
};

std::string described(LineKind kind, const Lines& lines) {
  const LineStyle& style = line_style(kind);
  std::string words = std::string(style.name) + " " + mm(style.width) + " wide, grey " +
                      mm(style.grey) + ", dashes";
  for (const int points : style.dash)
    if (points != 0) words += " " + std::to_string(points);
  const Box& box = lines.extent;
  return words + ": " + std::to_string(lines.count) + ", " + mm(lines.length) + " long, from " +
         mm(box.left) + " " + mm(box.bottom) + " to " + mm(box.right) + " " + mm(box.top) + "\n";
}

std::string described(const Page& page) {
  std::string words =
      "# " + page.title + ", " + mm(page.paper.width) + " x " + mm(page.paper.height) + "\n";
  std::map<LineKind, Lines> kinds;
  for (const Mark& mark : page.marks) {
    if (const Text* text = std::get_if<Text>(&mark)) words += described(*text);
    if (const Stroke* line = std::get_if<Stroke>(&mark)) {
      Lines& lines = kinds[line->kind];
      Polyline points = line->points;
      if (line->closed) points.push_back(points.front());
      ++lines.count;
      lines.length += length_of(points);
      for (const Point& p : points)
        widen(lines.extent, p);
    }
  }
  for (const auto& [kind, lines] : kinds)
    words += described(kind, lines);
  return words + "\n";
}

bool holds_a_part(const SheetSet& set, std::size_t page) {
  return std::any_of(set.templates.begin(), set.templates.end(),
                     [&](const Template& part) { return part.page == page; });
}

/// All of the pages of parts and of sewing; of the others the words, which stand one below the
/// other.
std::string described(const SheetSet& set) {
  std::string words;
  for (std::size_t i = 0; i < set.drawing.pages.size(); ++i) {
    const Page& page = set.drawing.pages[i];
    if (page.title == "Ribbons and sewing" || holds_a_part(set, i)) {
      words += described(page);
    } else {
      words += "# " + page.title + "\n" + words_on(set, page.title) + "\n\n";
    }
  }
  return words;
}

std::string pages_of_sides(const SheetSet& set) {
  std::string words;
  for (const Page& page : set.drawing.pages)
    if (page.title.starts_with("Side")) words += described(page);
  return words;
}

SheetSet sheets(const Order& order, const Paper& paper, Units units) {
  const Solution solution = solve(order);
  EXPECT_FALSE(has_error(solution.findings));
  return sheet_set(order, solution, solution.findings, {paper, units, "4f9c 2107", {}, true, true});
}

/// Fails where the pages are no longer what the file says.
void expect_as_seen(const std::string& name, const std::string& said) {
  const std::filesystem::path file = std::filesystem::path(places::source_tree) /
                                     "tests/export/sets/pages_as_seen" / (name + ".txt");
  const std::string seen = std::filesystem::exists(file) ? read_file(file) : std::string();
  if (seen == said) return;
  const char* const wish = std::getenv("SHANKLINE_ACCEPT");
  if (wish == nullptr || std::string_view(wish) != "1") {
    ADD_FAILURE() << file.string() << " (- seen, + drawn now):\n" << difference(seen, said);
    return;
  }
  write_file(file, said);
  GTEST_SKIP() << file.string() << " rewritten";
}

/// Everything that can be done to a foot, but for a board that is thinned only.
FootOrder everything() {
  FootOrder foot = worked_sides();
  foot.shoe.sides->throat = 120;
  foot.shoe.sides->casing = 9;
  foot.shoe.platform = Platform{44, 26};
  foot.foot.ankle_girth = measured(208);
  RibbonWish ribbons;
  ribbons.stretch = 0.12;
  ribbons.rise = 70;
  foot.alterations.ribbons = ribbons;
  ElasticWish elastics;
  elastics.over = 121;
  elastics.heel_loop = true;
  foot.alterations.elastics = elastics;
  foot.alterations.darning = DarningWish{};
  foot.alterations.darning->raise = 2;
  foot.foot.roll = {RollSide::in, 2};
  foot.alterations.liner = LinerWish{};
  foot.alterations.filler = true;
  return foot;
}

Order with(std::optional<FootOrder> left, std::optional<FootOrder> right) {
  Order order;
  order.dancer = "M-07";
  order.pair = "touring, second pair";
  order.date = "2026-03-14";
  order.left = std::move(left);
  order.right = std::move(right);
  return order;
}

TEST(PagesAsSeen, OfALeftFootWithEverything) {
  expect_as_seen("left_everything",
                 described(sheets(with(everything(), {}), papers()[0], Units::mm)));
}

/// With the doubts of ordinary readings, a turned edge and a board by the layer.
TEST(PagesAsSeen, OfARightFootInInches) {
  FootOrder foot = everything();
  foot.foot = doubtful_order().left->foot;
  foot.foot.ankle_girth = measured(208);
  foot.alterations.darning->raise.reset();
  foot.alterations.elastics.reset();
  foot.alterations.sides->edge = SideEdge::turned;
  foot.shoe.board.layers = 3;
  foot.alterations.shank->layers = 2;
  foot.alterations.shank->end = BoardEnd::rounded;
  expect_as_seen("right_inches",
                 described(sheets(with({}, foot), *read_paper("letter"), Units::inch)));
}

TEST(PagesAsSeen, OfSidesAndALinerInTiles) {
  expect_as_seen("tiles",
                 described(sheets(with(everything(), {}), Paper{"short", 210, 245}, Units::mm)));
}

/// The board of the right foot stays in its shoe.
TEST(PagesAsSeen, OfAThinnedBoardAndOneInTheShoe) {
  Order order = with(doubtful_order().left, worked_order().left);
  order.left->alterations.shank.reset();
  order.left->alterations.thinned = ThinWish{70, 104.5, 1.8};
  Board& board = order.right->shoe.board;
  board.state = BoardState::in_shoe;
  board.length.reset();
  board.widths = {{20, 23, 23}, {64, 18.5, 18.5}};
  expect_as_seen("thinned", described(sheets(order, papers()[0], Units::mm)));
}

/// The back is so high that each side has a page, whose notes stand close.
TEST(PagesAsSeen, OfHighSides) {
  FootOrder foot = worked_sides();
  foot.shoe.sides->back = 75;
  foot.shoe.sides->low = 44;
  expect_as_seen("high_sides",
                 pages_of_sides(sheets(with(foot, {}), *read_paper("letter"), Units::mm)));
}

/// The narrowest roll, in inches: each side is in two tiles, and the edge is turned.
TEST(PagesAsSeen, OfHighSidesOnTheNarrowestRoll) {
  FootOrder foot = worked_sides();
  foot.shoe.sides->back = 74;
  foot.alterations.sides->edge = SideEdge::turned;
  expect_as_seen("narrow_roll",
                 pages_of_sides(sheets(with(foot, {}), *read_paper("roll:210"), Units::inch)));
}

/// Takes the first random order whose side leans on a short paper.
TEST(PagesAsSeen, OfASideThatLeans) {
  Draw draw(20260318);
  Draw sides(20260319);
  std::string leaning;
  for (int i = 0; i < 12 && leaning.empty(); ++i) {
    const Order order = random_order_with_sides(draw, sides);
    const Solution solution = solve(order);
    if (has_error(solution.findings) || !solution.left) continue;
    const SheetSet set = sheet_set(order, solution, solution.findings,
                                   {Paper{"short", 210, 245}, Units::mm, "4f9c 2107"});
    for (const Template& part : set.templates)
      if (const Page& page = set.drawing.pages[part.page]; page.title.starts_with("Side") &&
                                                           !part.tile && leaning.empty() &&
                                                           std::abs(part.placement.along.y) > 0.1)
        leaning = described(page);
  }
  EXPECT_NE(leaning, "");
  expect_as_seen("leaning", leaning);
}

} // namespace
} // namespace shankline::tests::pages_as_seen_test
