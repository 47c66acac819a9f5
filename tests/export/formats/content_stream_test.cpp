// Operators by ISO 32000-1, annex A; numbers by 7.3.3, strings by 7.3.4.2.
#include "export/formats/content_stream.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <limits>
#include <random>

namespace shankline::tests::content_stream_test {
namespace {

std::string moved(double x, double y) {
  ContentStream content;
  content.move_to(x, y);
  return content.take();
}

TEST(ContentStream, WritesPlacesInHundredthsWithoutTrailingZeros) {
  EXPECT_EQ(moved(0, 0), "0 0 m\n");
  EXPECT_EQ(moved(-0.0, -0.004), "0 0 m\n");
  EXPECT_EQ(moved(283.4649, 841.9), "283.46 841.9 m\n");
  EXPECT_EQ(moved(0.05, 0.995), "0.05 1 m\n");
  EXPECT_EQ(moved(-12.345, 100), "-12.35 100 m\n");
  EXPECT_EQ(moved(10.005, 999999), "10.01 999999 m\n");
}

TEST(ContentStream, EveryNumberReadsBackWithinHalfAStep) {
  std::mt19937 random(20);
  std::uniform_real_distribution<double> place(-2000, 2000);
  for (int i = 0; i < 10000; ++i) {
    const double x = place(random);
    const std::string text = moved(x, 0);
    EXPECT_NEAR(std::stod(text), x, 0.005 + 1e-9) << text;
    EXPECT_EQ(text.find('e'), std::string::npos) << text; // 7.3.3: no exponents
  }
}

TEST(ContentStream, WritesAPath) {
  ContentStream content;
  content.butt_caps_and_round_joins();
  content.line_width(0.5 * 72 / 25.4);
  content.stroke_grey(0.35);
  const int lengths[] = {6, 3};
  content.dash(lengths);
  content.dash({});
  content.move_to(1, 2);
  content.line_to(3, 4);
  content.close_path();
  content.stroke();
  EXPECT_EQ(content.take(),
            "0 J\n1 j\n1.41732 w\n0.35 G\n[6 3 ] 0 d\n[] 0 d\n1 2 m\n3 4 l\nh\nS\n");
  EXPECT_EQ(content.take(), "");
}

TEST(ContentStream, WritesTextLevelAndLeaning) {
  ContentStream content;
  content.text("F1", 8.5, {10, 20}, "61.5");
  EXPECT_EQ(content.take(), "BT\n/F1 8.5 Tf\n10 20 Td\n(61.5) Tj\nET\n");
  content.text("F2", 8, {10, 20, 0, 1}, "61.5");
  EXPECT_EQ(content.take(), "BT\n/F2 8 Tf\n0 1 -1 0 10 20 Tm\n(61.5) Tj\nET\n");
}

TEST(ContentStream, GoesOnWithinAText) {
  ContentStream content;
  content.text_run("F1", 8.5, "61.5");
  EXPECT_EQ(content.take(), "/F1 8.5 Tf\n(61.5) Tj\n");
}

TEST(ContentStream, EscapesWhatEndsAString) {
  ContentStream content;
  content.text("F1", 8, {0, 0}, "a(b)c\\d\xb1\x07~");
  EXPECT_NE(content.take().find("(a\\(b\\)c\\\\d\\261\\007~) Tj"), std::string::npos);
}

TEST(ContentStream, RefusesWhatNoPageHasRoomFor) {
  for (const double wrong : {std::numeric_limits<double>::quiet_NaN(),
                             std::numeric_limits<double>::infinity(), 1e6, -1e300})
    EXPECT_THROW(moved(wrong, 0), std::invalid_argument) << wrong;
}

} // namespace
} // namespace shankline::tests::content_stream_test
