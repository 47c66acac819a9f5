// One figure on the terminal and on paper, and every inch on the safe side of its millimetres.
#include "tests/support/pattern.hpp"
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <fstream>
#include <gtest/gtest.h>
#include <stdexcept>
#include <string>
#include <vector>

namespace shankline::tests::same_figures_test {
namespace {

constexpr const char* whole_board = R"(format: shankline-order/1
dancer: B-01
date: 2026-03-14
feet:
  both:
    length: 238
    ball_length: 172
    heel_front: 61
    arch_break: {medial: 97, lateral: 93}
    arch_depth: 12.5
    fold: 6
shoe:
  board: {state: loose, length: 220, inset: 5, thickness: 3.2, widths: [[22, 45], [96, 33], [164, 56]]}
alterations:
  shank: {reach: edge, bevel: 12}
)";

constexpr const char* sides_alone = R"(format: shankline-order/1
dancer: S-01
date: 2026-03-14
feet:
  both: {length: 238, ball_length: 172, heel_front: 61, arch_break: 95, fold: 6}
shoe:
  board: {state: loose, length: 220, inset: 5, widths: [[22, 45], [96, 33], [164, 56]]}
  sides: {back: 52, low: 41, low_at: 105, wing: 46, wing_at: 158, lean: 10, casing: 9, throat: 120}
alterations:
  sides: {medial: 4.9, lateral: 4}
)";

std::string with(std::string text, const std::string& piece, const std::string& instead) {
  const std::size_t at = text.find(piece);
  if (at == std::string::npos) throw std::logic_error("no '" + piece + "' in the order");
  return text.replace(at, piece.size(), instead);
}

class SameFigures : public testing::Test {
protected:
  /// What the verb says of the order, on the terminal and in the PDF "out.pdf", spaces made one.
  std::string said(const std::string& order, std::vector<std::string> words,
                   bool on_paper = false) const {
    std::ofstream(scratch_.path() / "order.yaml", std::ios::binary) << order;
    words.insert(words.begin() + 1, "order.yaml");
    words.insert(words.begin(), places::program);
    Surroundings there;
    there.directory = scratch_.path();
    const Finished done = run(words, there);
    std::string text = done.out + done.err;
    if (on_paper)
      text = run({"pdftotext", "-raw", (scratch_.path() / "out.pdf").string(), "-"}, there).out;
    return Pattern("\\s+").replace_all(text, " ");
  }
  static bool has(const std::string& words, const std::string& part) {
    return words.find(part) != std::string::npos;
  }

  ScratchDirectory scratch_;
};

// 1.85 mm is no 32nd of an inch: 1/16 in is 1.59, below 1.85 − 0.2.
TEST_F(SameFigures, AThicknessIsOneFigureAndItsInchesKeepItsTolerance) {
  const auto thinned = [](const std::string& left) {
    return with(whole_board, "shank: {reach: edge, bevel: 12}",
                "thinned: {from: 60.3, to: 110.7, thickness: " + left + "}");
  };
  const std::string table = said(thinned("1.85"), {"check", "--units", "in"});
  EXPECT_TRUE(has(table, "60.3 to 110.7, to 1.85 thick")) << table;
  const Pattern inches("[0-9]/[0-9]+ thick");
  EXPECT_FALSE(inches.is_in(table)) << table;
  EXPECT_TRUE(has(said(thinned("2.2"), {"check", "--units", "in"}), "4 11/32, to 3/32 thick"));
  EXPECT_FALSE(inches.is_in(said(thinned("2.7"), {"check", "--units", "in"})));
}

// 41 − 4.9 is 36.1 mm, 1 13/32 in and 0.4 mm: less than that would be too low.
TEST_F(SameFigures, TheLeastHeightIsRoundedUpOnTheTerminalAsOnThePage) {
  const std::vector<std::string> cut{"cut", "--units", "in", "-o", "out.pdf"};
  const std::string table = said(sides_alone, cut);
  EXPECT_TRUE(has(table, "in inches big-toe 1 7/16, little 1 15/32")) << table;
  EXPECT_FALSE(has(table, "1 13/32")) << table;
  EXPECT_TRUE(has(said(sides_alone, {"check", "--units", "in"}), "1 7/16"));
}

// With an inset of 4.4 the final cut lies at 62.6 mm, 2 7/16 in and 0.7 mm.
TEST_F(SameFigures, ACutOffIsRoundedDownWhereFeetAreCompared) {
  const std::string order = with(whole_board, "inset: 5", "inset: 4.4");
  const std::string table = said(order, {"compare", "--units", "in", "-o", "out.pdf"});
  EXPECT_TRUE(has(table, "final cut, centre 62.6 62.6 0.0 ")) << table;
  EXPECT_TRUE(has(table, "in inches 2 7/16 2 7/16 0 ")) << table;
  EXPECT_TRUE(has(said(order, {"check", "--units", "in"}), "2 7/16 2 7/16 2 7/16"));
  std::ifstream pdf(scratch_.path() / "out.pdf");
  ASSERT_TRUE(pdf);
  Surroundings there;
  there.directory = scratch_.path();
  const std::string paper = run({"pdftotext", "-raw", "out.pdf", "-"}, there).out;
  EXPECT_TRUE(has(paper, "2 7/16")) << paper;
}

// 3/4 of 221 leaves 55.25 to come off: never 55.3.
TEST_F(SameFigures, TheCutOfAnotherRuleIsRoundedDown) {
  const std::string table = said(with(whole_board, "length: 220", "length: 221"), {"check"});
  EXPECT_TRUE(has(table, "heel front 62.0 \u00b16.5, 3/4 55.0 ")) << table;
}

// 3 mm is 3/32 in and 0.6 mm, 6.0 is 7/32 in and 0.4: more would be taken than was said.
TEST_F(SameFigures, WhatIsStillToBeTakenIsRoundedDown) {
  const std::string paper =
      said(whole_board, {"cut", "--units", "in", "--card", "-o", "out.pdf"}, true);
  EXPECT_TRUE(has(paper, "3 (3/32 in) more at a time")) << paper;
  EXPECT_FALSE(has(paper, "3 (1/8 in) more")) << paper;
  const std::string next = said(
      whole_board, {"next", "--foot", "left", "--cut", "53", "--seen", "low", "--units", "in"});
  EXPECT_TRUE(has(next, "6.0 (7/32 in) then left to the final line")) << next;
}

TEST_F(SameFigures, ARollOfAMetreAndAUnitThatIsNotKnownIsToldToBeMillimetres) {
  const std::string words = said(whole_board, {"cut", "--paper", "roll:0.9m", "-o", "out.pdf"});
  EXPECT_TRUE(has(words, "a whole number of millimetres")) << words;
  EXPECT_FALSE(has(words, "without a width")) << words;
}

} // namespace
} // namespace shankline::tests::same_figures_test
