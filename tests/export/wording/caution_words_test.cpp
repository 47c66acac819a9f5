// Which caution heads a sheet.
#include "export/wording/caution_words.hpp"

#include <gtest/gtest.h>
#include <string>
#include <vector>

namespace shankline::tests::caution_words_test {
namespace {

Finding caution(const std::string& key, int rank = 0) {
  return {Severity::caution, Key(key), "It is so.", "", "Do that.", rank};
}

TEST(CautionWords, TheGravestHeadsTheSheet) {
  const Finding heel_front = caution("feet.left.heel_front");
  const Finding shank = caution("alterations.left.shank.reach");
  const Finding first = caution("alterations.left.shank", rank_of_short_board);
  const Finding ribbons = caution("alterations.left.ribbons");
  const auto heads = [](const Findings& cautions) {
    const Finding* found = gravest_caution(cautions);
    return found ? found->key.path() : std::string("none");
  };
  EXPECT_EQ(heads({ribbons}), "none");
  EXPECT_EQ(heads({ribbons, heel_front}), "heel_front");
  EXPECT_EQ(heads({heel_front, shank}), shank.key.path());
  EXPECT_EQ(heads({shank, heel_front}), shank.key.path());
  EXPECT_EQ(heads({shank, first, heel_front}), first.key.path());
}

TEST(CautionWords, OneWithARankThatNamesNoFootHeadsTheSheetsOfBoth) {
  const Findings cautions{caution("feet", rank_of_last_pair), caution("feet.left.heel_front"),
                          caution("shoe")};
  for (const FootSide foot : {FootSide::left, FootSide::right})
    EXPECT_EQ(gravest_caution(cautions, foot), &cautions[0]);
  const Findings without_rank{caution("shoe"), caution("feet.left.heel_front")};
  EXPECT_EQ(gravest_caution(without_rank, FootSide::left), &without_rank[1]);
  EXPECT_EQ(gravest_caution(without_rank, FootSide::right), nullptr);
}

TEST(CautionWords, OfOneGravityStandInTheOrderInWhichTheyWereFound) {
  Findings cautions;
  for (const char* name : {"alpha", "beta", "gamma", "delta"}) {
    cautions.push_back(caution("feet.left.heel_front"));
    cautions.back().what = name;
  }
  const std::vector<CautionLine> lines = caution_lines(cautions, Units::mm);
  ASSERT_EQ(lines.size(), 4u);
  for (std::size_t i = 0; i < 4; ++i)
    EXPECT_NE(lines[i].words.find(std::vector{"Alpha", "Beta", "Gamma", "Delta"}[i]),
              std::string::npos)
        << lines[i].words;
}

} // namespace
} // namespace shankline::tests::caution_words_test
