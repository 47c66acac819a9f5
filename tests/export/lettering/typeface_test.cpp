#include "export/lettering/typeface.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::typeface_test {
namespace {

using Lines = std::vector<std::string>;

constexpr double size = 8;

/// Wrapped where `fits` just fits.
Lines wrapped(const std::string& words, const std::string& fits) {
  const Typeface face(Lettering{});
  return face.wrap(words, face.width(fits, size) + 1e-9, size);
}

TEST(Typeface, WrapsWhereTheLineIsFull) {
  EXPECT_EQ(wrapped("one two three", "one two"), (Lines{"one two", "three"}));
  EXPECT_EQ(wrapped("one two three", "one tw"), (Lines{"one", "two", "three"}));
  EXPECT_EQ(wrapped("one two three", "one two three"), (Lines{"one two three"}));
  EXPECT_EQ(wrapped("", "x"), Lines{});
}

TEST(Typeface, AWordWiderThanTheLineIsBroken) {
  EXPECT_EQ(wrapped("a unbreakable b", "unbreakable"), (Lines{"a", "unbreakable", "b"}));
  EXPECT_EQ(wrapped("a unbreakable b", "unbr"), (Lines{"a", "unbr", "eak", "able", "b"}));
  EXPECT_EQ(wrapped("WWW", "i"), (Lines{"W", "W", "W"}));
  EXPECT_EQ(wrapped("Ze\u0301e\u0301", "Z\u00e9"), (Lines{"Z\u00e9", "\u00e9"}))
      << "a mark stays with its letter";
}

TEST(Typeface, TolerancesAndUnitsStayWithTheirFigure) {
  EXPECT_EQ(wrapped("long 45.0 \u00b10.8, thick", "45.0 \u00b10.8,"),
            (Lines{"long", "45.0 \u00b10.8,", "thick"}));
  EXPECT_EQ(wrapped("each +0 \u22121.5 off", "each +0"), (Lines{"each", "+0 \u22121.5", "off"}));
  EXPECT_EQ(wrapped("then becomes \u00b15 so", "then becomes"),
            (Lines{"then becomes", "\u00b15 so"}));
  EXPECT_EQ(wrapped("by 5.8 mm. Then", "5.8 mm."), (Lines{"by", "5.8 mm.", "Then"}));
  EXPECT_EQ(wrapped("to 12 % more", "12 %"), (Lines{"to", "12 %", "more"}));
  EXPECT_EQ(wrapped("of 3 7/16 in) and", "3 7/16 in)"), (Lines{"of", "3 7/16 in)", "and"}));
  EXPECT_EQ(wrapped("the 3 in a row", "the 3"), (Lines{"the 3", "in a", "row"}));
  EXPECT_EQ(wrapped("takes 0.07 g of", "takes 0.07"), (Lines{"takes", "0.07 g of"}));
  EXPECT_EQ(wrapped("1 +1 +1 +1", "+1 +1"), (Lines{"1 +1", "+1 +1"}))
      << "but not where no line takes them all";
}

// Adobe's metrics of Helvetica and Helvetica-Bold (core 14, from memory), in thousandths.
TEST(Typeface, WidthsOfTheBaseFace) {
  const Typeface face(Lettering{});
  EXPECT_NEAR(face.width("A", 1000), 667, 1e-9);
  EXPECT_NEAR(face.width("i", 1000), 222, 1e-9);
  EXPECT_NEAR(face.width(" ", 1000), 278, 1e-9);
  EXPECT_NEAR(face.width("A", 1000, Weight::bold), 722, 1e-9);
  EXPECT_NEAR(face.width("i", 1000, Weight::bold), 278, 1e-9);
  EXPECT_NEAR(face.width("\u00b1", 1000), 584, 1e-9);
  EXPECT_NEAR(face.width("0\u00b1", 1000), 556 + 584, 1e-9);
}

} // namespace
} // namespace shankline::tests::typeface_test
