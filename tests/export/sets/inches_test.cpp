// Inches beside millimetres on every sheet: a length that somebody measures off a page has them in
// the same words, or in the words below or beside it.
#include "export/overlays/compare_sheet.hpp"
#include "export/sets/order_sheets.hpp"
#include "export/work_orders/label_sheet.hpp"
#include "export/work_orders/rack_sheet.hpp"
#include "tests/export/said_on_page.hpp"
#include "tests/geometry/compared_order.hpp"
#include "tests/geometry/random_orders.hpp"
#include "tests/geometry/worked_order.hpp"
#include "tests/support/pattern.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <map>
#include <set>
#include <string>
#include <variant>
#include <vector>

namespace shankline::tests::inches_test {
namespace {

constexpr double mm_in_an_inch = 25.4;

/// Every length in inches that the words hold, mm: "2 7/16", "13/32", "3 in".
std::vector<double> inches_in(const std::string& words) {
  static const Pattern fraction("(?:([0-9]+) )?([0-9]+)/(2|4|8|16|32)(?![0-9])");
  static const Pattern whole("(?:^|[(\u00b1 ])([0-9]+)(?: in| \u00b1|$)");
  std::vector<double> found;
  const auto number = [](const std::string& digits) {
    return digits.empty() ? 0.0 : std::stod(digits);
  };
  for (const PatternMatch& match : fraction.all_in(words)) {
    const std::vector<std::string>& part = match.groups;
    found.push_back(mm_in_an_inch * (number(part[1]) + number(part[2]) / std::stod(part[3])));
  }
  for (const PatternMatch& match : whole.all_in(words))
    found.push_back(mm_in_an_inch * number(match.groups[1]));
  return found;
}

/// Lengths with a decimal, "62.0", mm. Tolerances, shares and thin stock are none that an inch
/// ruler shows.
std::vector<double> lengths_in(const std::string& words) {
  constexpr double least = 5;
  static const Pattern length("(?:^|[^0-9./+\u00b1\u2212-])([0-9]+\\.[05])(?![0-9]| ?%|\u00b0| "
                              "m[ ,]| m$| cm| g| N| tex|\\.[0-9])");
  std::vector<double> found;
  for (const PatternMatch& match : length.all_in(words))
    if (const double mm = std::stod(match.groups[1]); mm >= least) found.push_back(mm);
  return found;
}

/// Whole millimetres after or before a word that says that they are a length.
bool names_a_bare_length(const std::string& words) {
  static const Pattern before(
      "(radius|bevel|inset|allowance|line at|goes on to|over its last|seat less) "
      "[0-9]+(\\.[0-9]+)?(?![0-9.]| \\(| mm| \u00b1|$)");
  static const Pattern after(
      "(^|[ (])([5-9]|[0-9][0-9]+)(\\.[0-9]+)? "
      "(long|wide|high|down\\b|more at a time|above the new|from the heel|all round|at each end|"
      "of each end|of one end|a side to turn)");
  static const Pattern pitch("every [0-9]+\\.[0-9](?! \\()");
  return before.is_in(words) || after.is_in(words) || pitch.is_in(words);
}

std::vector<Text> texts_of(const Page& page) {
  std::vector<Text> texts;
  for (const Mark& mark : page.marks)
    if (const auto* text = std::get_if<Text>(&mark)) texts.push_back(*text);
  return texts;
}

/// The words, and those of the line below where a paragraph goes on: a line may end between a
/// length and its inches.
std::string with_next_line(const Text& text, const std::vector<Text>& texts) {
  constexpr double line = 8; // mm, at most
  const Text* next = nullptr;
  for (const Text& other : texts)
    if (other.at.x == text.at.x && other.at.y < text.at.y && text.at.y - other.at.y < line &&
        (!next || other.at.y > next->at.y))
      next = &other;
  return next ? text.words + " " + next->words : text.words;
}

/// Rows that are compared and not measured off stay in millimetres: the stock's heights and those
/// of an overlay.
std::set<double> rows_in_mm(const std::vector<Text>& texts) {
  std::set<double> rows;
  for (const Text& text : texts)
    if (text.words.find("stock") != std::string::npos || text.words.starts_with("new height, ") ||
        text.words == "difference")
      rows.insert(text.at.y);
  return rows;
}

std::vector<std::string> bare_lengths(const Page& page) {
  constexpr double beside = 13;       // mm, up or down the page: the row below, or the next line
  constexpr double by_rounding = 1.3; // mm: half a millimetre, and a 32nd of an inch
  const std::vector<Text> texts = texts_of(page);
  const std::set<double> in_mm = rows_in_mm(texts);
  std::vector<std::string> bare;
  for (const Text& text : texts) {
    if (text.words.ends_with("\u2026")) continue; // cut short: it stands whole elsewhere
    if (names_a_bare_length(text.words)) bare.push_back(text.words);
    if (in_mm.contains(text.at.y)) continue;
    const std::string before_yarn = text.words.substr(0, text.words.find("yarn")); // its count
    for (const double mm : lengths_in(before_yarn)) {
      const bool said = std::any_of(texts.begin(), texts.end(), [&](const Text& other) {
        if (std::abs(other.at.y - text.at.y) > beside) return false;
        const std::vector<double> found = inches_in(with_next_line(other, texts));
        return std::any_of(found.begin(), found.end(),
                           [&](double inch) { return std::abs(inch - mm) < by_rounding; });
      });
      if (!said) bare.push_back(text.words);
    }
  }
  return bare;
}

class SheetsInInches : public testing::Test {
protected:
  void look(const SheetSet& set, const std::string& about) {
    for (const Page& page : set.drawing.pages) {
      ++pages_[page.title.substr(0, page.title.find_first_of(",:"))];
      for (const std::string& words : bare_lengths(page))
        ADD_FAILURE() << about << ", " << page.title << ": " << words;
    }
  }

  void look(const ComparedOrder& now, const std::string& about) {
    for (const Paper& paper : papers())
      if (!paper.roll)
        look(sheet_set(now.order, now.solution, now.solution.findings,
                       {paper, Units::inch, "4f9c 2107", {}, true, true}),
             about + " on " + std::string(paper.name));
    const std::vector<RackShoe> shoes = rack_shoes(now.order, now.solution, "4f9c 2107");
    look(rack_set(shoes, {papers().front(), Units::inch, {}}), about);
    look(label_set(shoes, {papers().front(), Units::inch, {}}), about);
    if (now.solution.left && now.solution.right)
      look(comparison_set(compare_feet(now.operand()), now.operand(), now.operand(),
                          {papers().front(), Units::inch, "4f9c 2107"}),
           about);
  }

  std::map<std::string, int> pages_; ///< of each kind
};

TEST_F(SheetsInInches, HaveThemAtEveryLengthThatIsMeasuredOff) {
  look(ComparedOrder(worked_order()), "the worked order, with a skew line");
  look(ComparedOrder(doubtful_order()), "the order with doubts");
  Draw draw(20260316);
  Draw sides(20260317);
  Draw work(20260318);
  for (int i = 0; i < 16; ++i) {
    Order order = random_order_with_sides(draw, sides, Population::women);
    for (std::optional<FootOrder>* foot : {&order.left, &order.right})
      if (*foot) add_random_work(work, **foot);
    const ComparedOrder now(std::move(order));
    if (has_error(now.solution.findings) || (!now.solution.left && !now.solution.right)) continue;
    look(now, "order " + std::to_string(i));
    if (HasFailure()) return; // one order's faults are enough to read
  }
  for (const char* kind : {"Order", "Order for the maker", "Dancer's card", "Board", "Side",
                           "Liner", "Darning", "Ribbons and sewing", "Boards", "Rack", "Labels"})
    EXPECT_GE(pages_[kind], 1) << kind;
}

TEST(SheetInInches, CheckObjectsToALengthWithoutThem) {
  Page page;
  const auto bare = [&](std::vector<Text> texts) {
    page.marks.assign(texts.begin(), texts.end());
    return bare_lengths(page).size();
  };
  EXPECT_EQ(bare({{{0, 50}, "STOP at 62.0"}}), 1u);
  EXPECT_EQ(bare({{{0, 50}, "STOP at 62.0 (2 7/16 in)"}}), 0u);
  EXPECT_EQ(bare({{{0, 50}, "62.0"}, {{0, 46}, "2 7/16 in"}}), 0u);
  EXPECT_EQ(bare({{{0, 50}, "62.0"}, {{0, 46}, "2 1/16 in"}}), 1u);
  EXPECT_EQ(bare({{{0, 50}, "62.0"}, {{0, 10}, "2 7/16 in"}}), 1u);
  EXPECT_EQ(bare({{{0, 50}, "76.0 \u00b16.5 (3 \u00b19/32 in) +1.5 \u22120, 72.5 %"}}), 0u);
  EXPECT_EQ(bare({{{0, 50}, "round the corners: radius 6 \u00b10.5"}}), 0u);
  EXPECT_EQ(bare({{{0, 50}, "round the corners: radius 6, then"}}), 1u);
  EXPECT_EQ(bare({{{0, 50}, "39, every 3.0"}}), 1u);
  EXPECT_EQ(bare({{{0, 50}, "39, every 3.0 (1/8 in)"}}), 0u);
  EXPECT_EQ(bare({{{0, 50}, "12 \u00b10.5 long"}}), 0u);
  EXPECT_EQ(bare({{{0, 50}, "loose, 220 long"}}), 1u);
}

} // namespace
} // namespace shankline::tests::inches_test
