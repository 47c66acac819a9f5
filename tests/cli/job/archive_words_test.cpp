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

} // namespace
} // namespace shankline::tests::archive_words_test
