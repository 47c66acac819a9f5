#include "export/drawing/length_text.hpp"

#include <cstdio>
#include <gtest/gtest.h>

namespace shankline::tests::length_text_test {
namespace {

TEST(LengthText, WritesInchesInLowestTerms) {
  EXPECT_EQ(inches(25.4), "1");
  EXPECT_EQ(inches(0), "0");
  EXPECT_EQ(inches(25.4 * 2.4375), "2 7/16");
  EXPECT_EQ(inches(25.4 / 32), "1/32");
  EXPECT_EQ(inches(25.4 * 13 / 32), "13/32");
  EXPECT_EQ(inches(-25.4 / 2), "\u22121/2");
}

TEST(LengthText, RoundsACutOffDownSoThatItStaysShortOfItsLine) {
  for (int tenths = 0; tenths < 3000; ++tenths) {
    const double mm = tenths / 10.0;
    const std::string text = inches(mm, Rounding::down);
    double value = 0;
    int whole = 0;
    int above = 0;
    int below = 1;
    if (std::sscanf(text.c_str(), "%d %d/%d", &whole, &above, &below) == 3)
      value = whole + double(above) / below;
    else if (std::sscanf(text.c_str(), "%d/%d", &above, &below) == 2)
      value = double(above) / below;
    else
      value = std::stod(text);
    EXPECT_LE(value * 25.4, mm + 1e-9) << text;
    EXPECT_GT(value * 25.4, mm - 25.4 / 32 - 1e-9) << text;
  }
}

TEST(LengthText, PutsInchesBesideTheMillimetres) {
  EXPECT_EQ(length_text(62, Units::mm), "62.0");
  EXPECT_EQ(length_text(62, Units::inch, Rounding::down), "62.0 (2 7/16 in)");
}

TEST(LengthText, WritesTolerancesOneSidedAndEven) {
  EXPECT_EQ(tolerance_text({0, -1.5}), "+0 \u22121.5");
  EXPECT_EQ(tolerance_text({1.5, 0}), "+1.5 \u22120");
  EXPECT_EQ(tolerance_text({0.5, -0.5}), "\u00b10.5");
}

} // namespace
} // namespace shankline::tests::length_text_test
