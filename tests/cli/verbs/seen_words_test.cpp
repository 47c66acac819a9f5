// Words for what was seen on pointe: those that are offered, and those that are only read.
#include "cli/order_file/seen_words.hpp"

#include "cli/archive/archive_outcome.hpp"

#include <gtest/gtest.h>
#include <string>

namespace shankline::tests::seen_words_test {
namespace {

TEST(SeenWords, AreReadInAnyCaseAndWithAnyGap) {
  for (const Word<Seen>& seen : seen_words)
    EXPECT_EQ(seen_word(seen.word), seen.word);
  for (const char* typed : {"too-far-back", "Too_Far_Back", "TOO FAR BACK"})
    EXPECT_EQ(seen_word(typed), "too-far-back") << typed;
  for (const char* typed : {"", "left", "lo", "rolls", "painful"})
    EXPECT_EQ(seen_word(typed), "") << typed;
}

TEST(SeenWords, OfEarlierVersionsAreStillReadAndNotOffered) {
  EXPECT_EQ(seen_word("right"), "good");
  EXPECT_EQ(seen_word("low"), "too-low");
  EXPECT_EQ(seen_word("over"), "rolls-over");
  for (const Word<Seen>& seen : seen_words)
    EXPECT_TRUE(seen.word != "right" && seen.word != "low" && seen.word != "over") << seen.word;
  EXPECT_EQ(std::string(seen_help).find("right"), std::string::npos);
}

// A note of an earlier version says "seen right" of either foot.
TEST(SeenWords, OfOldNotesAreShownInTheWordsOfToday) {
  Outcome outcome;
  outcome.seen = "right";
  EXPECT_EQ(outcome_words(outcome), "seen good");
  outcome.seen = "some other word";
  EXPECT_EQ(outcome_words(outcome), "seen some other word");
}

} // namespace
} // namespace shankline::tests::seen_words_test
