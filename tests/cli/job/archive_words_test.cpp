// The archive's words about two entries.
#include "cli/job/archive_words.hpp"

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
