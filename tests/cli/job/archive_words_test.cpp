// The archive's words about two entries.
#include "cli/job/archive_words.hpp"
#include "tests/support/pattern.hpp"

#include <gtest/gtest.h>
#include <string>

namespace shankline::tests::archive_words_test {
namespace {

TEST(ArchiveWords, ADifferenceHasASignAndAsManyDecimalsAsItsFigures) {
  const std::string words = difference_words(
      {}, {},
      {{"a", "1", "1.0001", 0.0001}, {"b", "62.25", "60", -2.25}, {"c", "words", "others", {}}});
  EXPECT_NE(words.find("+0.0001\n"), std::string::npos) << words;
  EXPECT_NE(words.find(" -2.25\n"), std::string::npos) << words;
  EXPECT_NE(words.find("others\n"), std::string::npos) << words;
}

TEST(ArchiveWords, TheInchesOfAListTakeASecondLine) {
  EntryHead head;
  head.kind = EntryKind::cut;
  head.summary = "left final line 62.0, right final line 63.0";
  const auto list = [&](Units units) {
    return Pattern("\\s+").replace_all(list_words({{head, 0}}, units), " ");
  };
  EXPECT_NE(list(Units::inch)
                .find("left final line 62.0 (2 7/16 in), right final line 63.0 (2 15/32 "
                      "in)"),
            std::string::npos)
      << list(Units::inch);
  EXPECT_NE(list(Units::mm).find("left final line 62.0, right final line 63.0"), std::string::npos);
}

TEST(ArchiveWords, ADateMoreThanAYearAfterSavingDoesNotCount) {
  EntryHead head;
  head.saved = "2026-03-14T09:26:53Z";
  EXPECT_EQ(day_of(head), "2026-03-14") << "no date";
  head.date = "2027-03-15"; // 366 days
  EXPECT_EQ(day_of(head), "2027-03-15");
  head.date = "2027-03-16";
  EXPECT_EQ(day_of(head), "2026-03-14");
  head.date = "1999-12-31";
  EXPECT_EQ(day_of(head), "1999-12-31") << "kept later than cut";
  head.date = "in spring";
  EXPECT_EQ(day_of(head), "in spring") << "from an archive of elsewhere";
  head.date = "2026-03-14";
  head.saved = "1970-01-01T00:00:00Z";
  EXPECT_EQ(day_of(head), "2026-03-14") << "a computer without a clock";
}

} // namespace
} // namespace shankline::tests::archive_words_test
