#include "export/winansi.hpp"

#include <gtest/gtest.h>

namespace shankline {
namespace {

// Bytes from ISO 32000-1:2008, annex D.2, column WIN (octal there).
TEST(WinAnsi, WritesWesternLettersAndMarksByTheStandardsTable) {
  EXPECT_EQ(to_winansi("A\u00e9\u00d8\u00df").bytes, "A\xe9\xd8\xdf");
  EXPECT_EQ(to_winansi("\u20ac\u2026\u2022\u2013\u2014\u0160\u017e\u0178").bytes,
            "\x80\x85\x95\x96\x97\x8a\x9e\x9f");
  EXPECT_EQ(to_winansi("\u00b1\u00b0\u00b7").bytes, "\xb1\xb0\xb7");
}

TEST(WinAnsi, ShowsTheMinusSignAsTheDashOfItsWidth) {
  const WinAnsiText text = to_winansi("\u22121.5");
  EXPECT_EQ(text.bytes, "\x96"
                        "1.5");
  EXPECT_TRUE(text.missing.empty());
}

TEST(WinAnsi, NamesEveryCharacterItCannotShowOnce) {
  const WinAnsiText text = to_winansi("\u0141\u00f3d\u017a \u0141 \U0001f600");
  EXPECT_EQ(text.bytes, "?\xf3"
                        "d? ? ?");
  EXPECT_EQ(text.missing, (std::vector<std::string>{"\u0141", "\u017a", "\U0001f600"}));
}

TEST(WinAnsi, TakesBrokenBytesAsUnknownCharacters) {
  EXPECT_EQ(to_winansi("a\xc3").bytes, "a?");
  EXPECT_EQ(to_winansi("\xff\x80z").bytes, "??z");
  EXPECT_EQ(to_winansi("\x01").bytes, "?");
}

} // namespace
} // namespace shankline
