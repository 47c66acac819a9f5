#include "export/lettering/winansi.hpp"

#include "export/lettering/lettering.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::winansi_test {
namespace {

/// The words as a page shows them if there are no faces but the base face.
std::string shown(const std::string& words) {
  std::string bytes;
  for (const LetterRun& run : letter_runs(words, {}))
    bytes += run.bytes;
  return bytes;
}

// Bytes from ISO 32000-1:2008, annex D.2, column WIN (octal there).
TEST(WinAnsi, WritesWesternLettersAndMarksByTheStandardsTable) {
  EXPECT_EQ(shown("A\u00e9\u00d8\u00df"), "A\xe9\xd8\xdf");
  EXPECT_EQ(shown("\u20ac\u2026\u2022\u2013\u2014\u0160\u017e\u0178"),
            "\x80\x85\x95\x96\x97\x8a\x9e\x9f");
  EXPECT_EQ(shown("\u00b1\u00b0\u00b7"), "\xb1\xb0\xb7");
}

TEST(WinAnsi, ShowsTheMinusSignByACodeThatTheStandardLeavesFree) {
  EXPECT_EQ(winansi_byte(U'\u2212'), '\x81');
  EXPECT_EQ(shown("\u22121.5"), "\x81"
                                "1.5");
}

TEST(WinAnsi, HasNoByteForOtherCharacters) {
  for (const char32_t character :
       {U'\u0141', U'\u017a', U'\U0001f600', U'\u0001', U'\u0081', U'\0'})
    EXPECT_EQ(winansi_byte(character), 0) << static_cast<std::uint32_t>(character);
  EXPECT_EQ(shown("\u0141\u00f3d\u017a \u0141 \U0001f600"), "?\xf3"
                                                            "d? ? ?");
}

TEST(WinAnsi, TakesBrokenBytesAsUnknownCharacters) {
  EXPECT_EQ(shown("a\xc3"), "a?");
  EXPECT_EQ(shown("\xff\x80z"), "??z");
  EXPECT_EQ(shown("\x01"), "?");
}

} // namespace
} // namespace shankline::tests::winansi_test
