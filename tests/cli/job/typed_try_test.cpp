// Tries as they are typed in from a filled-in card.
#include "cli/job/typed_try.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::typed_try_test {
namespace {

TEST(TypedTry, IsAnEndAWordAndWhatElseIsSaid) {
  const auto plain = read_typed_try("52.5:too-low");
  ASSERT_TRUE(plain);
  EXPECT_EQ(plain->end, 52.5);
  EXPECT_EQ(plain->seen, "too-low");
  EXPECT_FALSE(plain->worn);
  EXPECT_EQ(plain->day, "");
  const auto whole = read_typed_try("58.5: Too Low , 2 April 2026, worn");
  ASSERT_TRUE(whole);
  EXPECT_EQ(whole->seen, "too-low");
  EXPECT_TRUE(whole->worn);
  EXPECT_EQ(whole->day, "2026-04-02");
  EXPECT_EQ(read_typed_try("0:low")->end, 0);
  EXPECT_NEAR(read_typed_try("2 in:good")->end, 50.8, 1e-9);
  EXPECT_EQ(read_typed_try("58:cut-too-far")->seen, "cut-too-far");
}

TEST(TypedTry, AnythingElseIsRefusedWithTheFormThatIsRead) {
  for (const char* typed :
       {"", ":", "52.5", "52.5:", "52.5:fine", ":good", "x:good", "-1:good", "401:good", "nan:good",
        "52.5:good,late", "52.5:good,worn,worn", "52.5:good,2026-02-30",
        "52.5:good,2026-03-01,2026-03-02", "52.5:good:worn", "1e:good"}) {
    const auto read = read_typed_try(typed);
    ASSERT_FALSE(read) << typed;
    EXPECT_FALSE(read.why().what.empty()) << typed;
    EXPECT_NE(read.why().allowed.find("58.5:good,worn"), std::string::npos) << typed;
  }
}

} // namespace
} // namespace shankline::tests::typed_try_test
