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

TEST(LengthText, PutsInchesIntoSentences) {
  const Units in = Units::inch;
  EXPECT_EQ(with_inches("It bends 36 mm nearer the heel, \u00b16.5 mm.", in),
            "It bends 36 mm (1 13/32 in) nearer the heel, \u00b16.5 mm (\u00b19/32 in).");
  EXPECT_EQ(with_inches("left 33 \u00b17 mm, was 4.1 \u00b11.2 mm", in),
            "left 33 \u00b17 mm (1 5/16 \u00b19/32 in), was 4.1 \u00b11.2 mm (5/32 \u00b11/16 in)");
  EXPECT_EQ(with_inches("most dancers: 195 to 275 mm", in),
            "most dancers: 195 to 275 mm (7 11/16 to 10 13/16 in)");
  EXPECT_EQ(with_inches("from there to 275 mm", in), "from there to 275 mm (10 13/16 in)");
  EXPECT_EQ(with_inches("36 mm", Units::mm), "36 mm");
  for (const char* other : {"12 mm\u00b2 of it", "a mm", "66 N mm", "12 mmm", "", " mm"})
    EXPECT_EQ(with_inches(other, in).find("in)"), std::string::npos) << other;
}

TEST(LengthText, StepsOfInchesAreWhatIsShown) {
  for (const double mm : {0.0, 0.39, 0.4, 62.0, 62.7, -19.3})
    EXPECT_EQ(inches(in_inch_steps(mm)), inches(mm)) << mm;
  EXPECT_DOUBLE_EQ(in_inch_steps(0.8, Rounding::up), 25.4 * 2 / 32);
  EXPECT_DOUBLE_EQ(in_inch_steps(0.8, Rounding::down), 25.4 / 32);
  EXPECT_DOUBLE_EQ(in_inch_steps(-0.8), -25.4 / 32);
}

TEST(LengthText, PutsInchesBesideTheMillimetres) {
  EXPECT_EQ(length_text(62, Units::mm), "62.0");
  EXPECT_EQ(length_text(62, Units::inch, Rounding::down), "62.0 (2 7/16 in)");
}

TEST(LengthText, AThicknessThatIsLeftIsRoundedUp) {
  EXPECT_EQ(thickness_text(1.85), "1.85");
  EXPECT_EQ(thickness_text(2.2), "2.2");
  EXPECT_EQ(thickness_text(1.5875), "1.59"); // 1/16 in
  EXPECT_EQ(thickness_text(1.851), "1.86");
}

TEST(LengthText, InchesOutsideTheToleranceAreLeftOut) {
  const Tolerance fifth{0.2, -0.2};
  // Steps of 0.79375: 1.85 lies between 1.5875 and 2.38125, neither within 0.2.
  EXPECT_EQ(inches_inside(1.85, fifth, Units::inch, Rounding::up), "");
  EXPECT_EQ(inches_inside(1.85, fifth, Units::inch), "");
  EXPECT_EQ(inches_inside(2.19, fifth, Units::inch, Rounding::up), " (3/32 in)");
  EXPECT_EQ(inches_inside(2.18, fifth, Units::inch, Rounding::up), "");
  EXPECT_EQ(inches_inside(2.7, fifth, Units::inch, Rounding::up), "");
  EXPECT_EQ(inches_inside(2.38125, fifth, Units::mm, Rounding::up), "");
}

TEST(LengthText, WritesTolerancesOneSidedAndEven) {
  EXPECT_EQ(tolerance_text({0, -1.5}), "+0 \u22121.5");
  EXPECT_EQ(tolerance_text({1.5, 0}), "+1.5 \u22120");
  EXPECT_EQ(tolerance_text({0.5, -0.5}), "\u00b10.5");
}

} // namespace
} // namespace shankline::tests::length_text_test
