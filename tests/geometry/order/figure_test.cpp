#include "geometry/order/figure.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::figure_test {
namespace {

TEST(Figure, AlwaysWritesTheAskedDecimals) {
  EXPECT_EQ(figure(62), "62.0");
  EXPECT_EQ(figure(61.96), "62.0");
  EXPECT_EQ(figure(61.94), "61.9");
  EXPECT_EQ(figure(0.126, 2), "0.13");
  EXPECT_EQ(figure(1234.4, 0), "1234");
  EXPECT_EQ(figure(-0.5, 0), "-1") << "a half is rounded away from zero";
}

TEST(Figure, RoundsDecimalHalvesAwayFromZeroDespiteBinaryError) {
  EXPECT_EQ(figure(53.55), "53.6");
  EXPECT_EQ(figure(1.005, 2), "1.01") << "the binary number is a little below 1.005";
  EXPECT_EQ(figure(-1.005, 2), "-1.01");
  EXPECT_EQ(figure(0.0499), "0.0");
}

TEST(Figure, IsNeverMinusZero) {
  EXPECT_EQ(figure(-0.04), "0.0");
  EXPECT_EQ(figure(-0.0, 0), "0");
  EXPECT_EQ(short_figure(-0.04), "0");
}

TEST(Figure, ShortFigureDropsOnlyZerosAfterTheDecimalPoint) {
  EXPECT_EQ(short_figure(62), "62");
  EXPECT_EQ(short_figure(62.25), "62.3");
  EXPECT_EQ(short_figure(0.704, 2), "0.7");
  EXPECT_EQ(short_figure(100, 0), "100");
  EXPECT_EQ(short_figure(1200), "1200");
}

// A reader subtracts the printed figures, here 49.0 from 62.2, and must get the printed difference.
TEST(Figure, DifferenceIsThatOfTheRoundedFigures) {
  EXPECT_DOUBLE_EQ(shown_difference(62.16, 49.04), 13.2) << "the exact difference is 13.12";
  EXPECT_DOUBLE_EQ(shown_difference(49.04, 62.16), -13.2);
  EXPECT_DOUBLE_EQ(shown_difference(1.006, 0.994, 2), 0.02);
  EXPECT_DOUBLE_EQ(shown_difference(2.5, 1.4, 0), 2);
}

} // namespace
} // namespace shankline::tests::figure_test
