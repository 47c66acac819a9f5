// Two entries set against each other: a reader subtracts the figures that are shown.
#include "cli/archive/archive_json.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::archive_differences_test {
namespace {

// Exactly 0.00006 apart, and shown as 1.0000 and 1.0001, then 2.0001 and 2.0003.
TEST(ArchiveDifferences, AreThoseOfTheFiguresShown) {
  const auto rows = solution_differences(R"({"a": 1.00002, "b": 2.00014999, "c": 62.25})",
                                         R"({"a": 1.00008, "b": 2.00025001, "c": 60.0})");
  ASSERT_EQ(rows.size(), 3u);
  EXPECT_EQ(rows[0].first, "1");
  EXPECT_EQ(rows[0].second, "1.0001");
  EXPECT_DOUBLE_EQ(*rows[0].difference, 0.0001);
  EXPECT_EQ(rows[1].first, "2.0001");
  EXPECT_EQ(rows[1].second, "2.0003");
  EXPECT_DOUBLE_EQ(*rows[1].difference, 0.0002);
  EXPECT_EQ(rows[2].first, "62.25");
  EXPECT_EQ(rows[2].second, "60");
  EXPECT_DOUBLE_EQ(*rows[2].difference, -2.25);
}

// Six digits were shown before, so that areas had one decimal and their differences four.
TEST(ArchiveDifferences, OfLargeFiguresAreThoseShownToo) {
  const auto rows = solution_differences(R"({"area": 7300.12344})", R"({"area": 7311.98766})");
  ASSERT_EQ(rows.size(), 1u);
  EXPECT_EQ(rows[0].first, "7300.1234");
  EXPECT_EQ(rows[0].second, "7311.9877");
  EXPECT_DOUBLE_EQ(*rows[0].difference, 11.8643);
}

TEST(ArchiveDifferences, LeaveOutWhatIsAlikeAsItIsShown) {
  EXPECT_TRUE(solution_differences(R"({"a": 1.00001})", R"({"a": 1.00002})").empty());
  EXPECT_EQ(solution_differences(R"({"a": 1.00004})", R"({"a": 1.00006})").size(), 1u);
  EXPECT_EQ(solution_differences(R"({"a": null})", R"({"a": "none"})").size(), 1u);
}

} // namespace
} // namespace shankline::tests::archive_differences_test
