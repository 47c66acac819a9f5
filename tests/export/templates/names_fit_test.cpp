// Words that shrink or move on a small part do so only where they must, and keep their air.
#include "export/lettering/typeface.hpp"
#include "export/page/sheet_page.hpp"
#include "export/sets/order_sheets.hpp"
#include "geometry/solution/solution.hpp"
#include "tests/geometry/sides_of_order.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace shankline::tests::names_fit_test {
namespace {

struct Sheets {
  Solution solution;
  SheetSet set;
};

Sheets sheets_of(FootOrder foot, Units units) {
  Order order;
  order.dancer = "M-07";
  order.left = std::move(foot);
  Solution solution = solve(order);
  EXPECT_FALSE(has_error(solution.findings));
  SheetSet set = sheet_set(order, solution, solution.findings, {papers()[0], units, "4f9c 2107"});
  return {std::move(solution), std::move(set)};
}

/// The texts of the only page whose title begins so.
std::vector<Text> texts_on(const SheetSet& set, std::string_view title) {
  const auto page = std::find_if(set.drawing.pages.begin(), set.drawing.pages.end(),
                                 [&](const Page& p) { return p.title.starts_with(title); });
  std::vector<Text> texts;
  if (page == set.drawing.pages.end()) {
    ADD_FAILURE() << "no page " << title;
    return texts;
  }
  for (const Mark& mark : page->marks)
    if (const Text* text = std::get_if<Text>(&mark)) texts.push_back(*text);
  return texts;
}

/// Three names stand over a strip in quarters of its length.
TEST(NamesFit, OverADarningStripKeepAMillimetreAndShrinkNoMoreThanThatWants) {
  bool shrunk = false;
  bool whole = false;
  for (double wide = 15; wide <= 40; wide += 0.5) {
    FootOrder foot = worked_sides();
    foot.alterations.darning = DarningWish{};
    foot.shoe.platform = Platform{wide, 15};
    const Sheets sheets = sheets_of(foot, Units::mm);
    const Typeface typeface(sheets.set.drawing.lettering);
    const double quarter = sheets.solution.left->darning->perimeter / 4;
    for (const Text& text : texts_on(sheets.set, "Darning")) {
      if (text.words != "little-toe side") continue;
      const double air = quarter - typeface.width(text.words, text.size, text.weight);
      const double larger = quarter - typeface.width(text.words, text.size + 0.1, text.weight);
      EXPECT_GE(air, 1) << wide;
      if (text.size < 2.59) {
        EXPECT_LT(larger, 1 + 1e-9) << wide;
        shrunk = true;
      } else {
        EXPECT_NEAR(text.size, 2.6, 1e-9);
        whole = true;
      }
    }
  }
  EXPECT_TRUE(shrunk && whole);
}

/// A liner that is nearly as wide as the page pushes them to the left, and no farther than it must.
TEST(NamesFit, NumbersOfALinerEndInTheirBox) {
  bool pushed = false;
  bool free = false;
  for (double half = 20; half <= 50; half += 2) {
    FootOrder foot = worked_sides();
    foot.alterations.shank.reset(); // a board so wide does not fit beside its own numbers
    foot.alterations.sides.reset();
    foot.alterations.liner = LinerWish{};
    foot.shoe.board.widths = {{22, half, half}, {96, half, half}, {164, half, half}};
    const Sheets sheets = sheets_of(foot, Units::inch);
    const Typeface typeface(sheets.set.drawing.lettering);
    const std::vector<Text> texts = texts_on(sheets.set, "Liner");
    const auto name = std::find_if(texts.begin(), texts.end(),
                                   [](const Text& text) { return text.words == "length"; });
    ASSERT_TRUE(name != texts.end() && name + 1 != texts.end()) << half;
    const Text& number = *(name + 1);
    const double end = number.at.x + typeface.width(number.words, number.size, number.weight);
    const double edge = papers()[0].width - SheetPage::margin - 2;
    EXPECT_LE(end, edge + 1e-9) << half;
    if (number.at.x - name->at.x < 33.99) {
      EXPECT_NEAR(end, edge, 1e-9) << half;
      EXPECT_GT(number.at.x,
                name->at.x + typeface.width(name->words, name->size, name->weight) + 1);
      pushed = true;
    } else {
      free = true;
    }
  }
  EXPECT_TRUE(pushed && free);
}

/// The strip at the top of a board's page has room for two lines between the order and its rule.
TEST(NamesFit, TheGravestCautionStandsWholeOnOneLineOrTwo) {
  Order order;
  order.left = worked_sides();
  const Solution solution = solve(order);
  const double right = papers()[0].width - SheetPage::margin;
  bool large = false;
  bool two = false;
  bool too_long = false;
  std::string what = "one";
  for (int count = 1; count <= 60; ++count) {
    what += count % 3 == 0 ? " longer" : " one";
    const std::string words = "Caution: " + what;
    const Findings cautions{{Severity::caution, "feet.left.heel_front", what, "", ""}};
    const SheetSet set =
        sheet_set(order, solution, cautions, {papers()[0], Units::mm, "4f9c 2107"});
    const Typeface typeface(set.drawing.lettering);
    std::vector<Text> lines;
    for (const Text& text : texts_on(set, "Board"))
      if (text.words.starts_with("Caution: ") || text.words.starts_with("one") ||
          text.words.starts_with("longer"))
        lines.push_back(text);
    ASSERT_TRUE(lines.size() == 1 || lines.size() == 2) << words;
    for (const Text& line : lines) {
      EXPECT_GE(line.size, 2.5 - 1e-9);
      EXPECT_LE(line.at.x + typeface.width(line.words, line.size, line.weight), right + 1e-9);
    }
    const std::string said =
        lines.size() == 1 ? lines[0].words : lines[0].words + " " + lines[1].words;
    if (said == words) {
      EXPECT_FALSE(too_long) << "a shorter one was cut off";
    } else {
      EXPECT_TRUE(said.ends_with("\u2026")) << said;
      EXPECT_GT(typeface.width(words, 2.5, Weight::bold), 2 * (right - lines[0].at.x) - 20);
      too_long = true;
    }
    large = large || (lines.size() == 1 && lines[0].size > 2.99);
    if (lines.size() == 2) {
      EXPECT_GT(typeface.width(words, 2.6, Weight::bold), right - lines[0].at.x)
          << "it would have fitted on one line";
      EXPECT_GT(lines[0].at.y - lines[1].at.y, lines[0].size * 1.15);
      two = true;
    }
  }
  EXPECT_TRUE(large && two && too_long);
}

} // namespace
} // namespace shankline::tests::names_fit_test
