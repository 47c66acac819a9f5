// A difference as it stands beside its two figures.
#include "export/wording/comparison_words.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::comparison_words_test {
namespace {

ComparedFigure compared(double a, double b, double u, Verdict verdict,
                        FigureUnit unit = FigureUnit::mm) {
  ComparedFigure figure;
  figure.unit = unit;
  figure.a = a;
  figure.b = b;
  figure.verdict = verdict;
  Uncertain difference;
  difference.value = a - b;
  difference.u = u;
  figure.difference = difference;
  return figure;
}

TEST(ComparisonWords, DifferenceIsThatOfTheFiguresShown) {
  // Shown as 61.5 and 54.5: 7.0, although the exact difference (6.92) rounds to 6.9.
  const ComparedFigure figure = compared(61.46, 54.54, 0, Verdict::differs);
  EXPECT_EQ(operand_words(figure, true), "61.5");
  EXPECT_EQ(operand_words(figure, false), "54.5");
  EXPECT_TRUE(difference_words(figure).starts_with("+7.0 ")) << difference_words(figure);
  EXPECT_TRUE(
      difference_words(compared(54.54, 61.46, 0, Verdict::differs)).starts_with("\u22127.0 "));
  // A difference that rounds to 0.0 has no direction.
  EXPECT_TRUE(
      difference_words(compared(0.16, 0.24, 1, Verdict::not_told_apart)).starts_with("0.0 "));
  const ComparedFigure share =
      compared(0.7181, 0.7136, 0.02, Verdict::not_told_apart, FigureUnit::fraction);
  EXPECT_EQ(operand_words(share, true), "71.8 %");
  EXPECT_EQ(operand_words(share, false), "71.4 %");
  EXPECT_TRUE(difference_words(share).starts_with("+0.4 ")) << difference_words(share);
}

// The verdict comes from the exact figures. Where one decimal would contradict it, there are two.
TEST(ComparisonWords, WhatIsShownDoesNotContradictTheVerdict) {
  const double coverage = compared(0, 0, 1, Verdict::differs).difference->expanded();
  ComparedFigure figure = compared(10.26, 9.84, 0.44 / coverage, Verdict::not_told_apart);
  EXPECT_EQ(operand_words(figure, true), "10.26"); // not 10.3 and 9.8, +0.5 ±0.4
  EXPECT_EQ(operand_words(figure, false), "9.84");
  EXPECT_EQ(difference_words(figure), "+0.42 \u00b10.44");
  EXPECT_EQ(verdict_words(figure), "too close to call");
  figure = compared(3.54, 2.38, 1.09 / coverage, Verdict::differs);
  EXPECT_EQ(operand_words(figure, true), "3.54"); // not 3.5 and 2.4, +1.1 ±1.1
  EXPECT_EQ(difference_words(figure), "+1.16 \u00b11.09");
  EXPECT_EQ(verdict_words(figure), "differs");
  figure = compared(3.54, 2.38, 0.9 / coverage, Verdict::differs);
  EXPECT_EQ(operand_words(figure, true), "3.5");
  EXPECT_EQ(difference_words(figure), "+1.1 \u00b10.9");
}

// As the sheets round: 62.6 is 78.86 parts of 32, 61.4 is 77.35.
TEST(ComparisonWords, InchesAreRoundedAsOnTheSheets) {
  ComparedFigure figure = compared(62.6, 61.4, 0.5, Verdict::differs);
  const auto both = [&](const char* key) {
    figure.key = key;
    return operand_inches(figure, true) + ", " + operand_inches(figure, false);
  };
  for (const char* off : {"trim.final.centre", "trim.final.medial", "trim.first.centre",
                          "trim.stop_from", "trim.stop", "sides.medial.depth"})
    EXPECT_EQ(both(off), "2 7/16, 2 13/32") << off;
  for (const char* stays : {"pieces.kept.length", "sides.lateral.low", "thinned.thickness"})
    EXPECT_EQ(both(stays), "2 15/32, 2 7/16") << stays;
  EXPECT_EQ(both("trim.station"), "2 15/32, 2 13/32");
  EXPECT_TRUE(difference_inches(figure).starts_with("+1/16 ")) << difference_inches(figure);
  figure.key = "trim.final.centre";
  EXPECT_TRUE(difference_inches(figure).starts_with("+1/32 ")) << difference_inches(figure);
}

TEST(ComparisonWords, AnglesAreInDegrees) {
  const ComparedFigure figure = compared(0.5, 0.25, 0.01, Verdict::differs, FigureUnit::angle);
  EXPECT_EQ(operand_words(figure, true), "28.6\u00b0");
  EXPECT_EQ(operand_words(figure, false), "14.3\u00b0");
}

TEST(ComparisonWords, SayWhichErrorsBothFeetShare) {
  EXPECT_EQ(shared_words({true, true, true, false}),
            "One reader and one printer: errors that both feet share cancel.");
  EXPECT_EQ(shared_words({true, true, false, true}),
            "Both orders were read by one person, whose habits cancel; estimates by foot length "
            "cancel for one foot.");
  EXPECT_EQ(shared_words({}), "Two readers are assumed, so their errors do not cancel.");
}

} // namespace
} // namespace shankline::tests::comparison_words_test
