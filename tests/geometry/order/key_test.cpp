#include "geometry/order/key.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::key_test {
namespace {

TEST(Key, KnowsSectionFootAndPath) {
  const Key key("feet.left.arch_break.medial");
  EXPECT_EQ(key.section(), "feet");
  EXPECT_EQ(key.foot(), FootSide::left);
  EXPECT_EQ(key.path(), "arch_break.medial");
  EXPECT_EQ(Key("shoe.right").foot(), FootSide::right);
  EXPECT_EQ(Key("shoe.right").path(), "");
}

TEST(Key, IsOfNoFootWhereNoneIsNamed) {
  const Key both("feet.both.left_over");
  EXPECT_EQ(both.foot(), std::nullopt);
  EXPECT_EQ(both.path(), "both.left_over");
  EXPECT_EQ(Key("decided_by").foot(), std::nullopt);
  EXPECT_EQ(Key("decided_by").section(), "decided_by");
  EXPECT_EQ(Key("alterations.sides.left").foot(), std::nullopt) << "the foot follows the section";
}

TEST(Key, MayBeginWithTheFoot) {
  const Key worn("left.board_end");
  EXPECT_EQ(worn.section(), "");
  EXPECT_EQ(worn.foot(), FootSide::left);
  EXPECT_EQ(worn.path(), "board_end");
}

TEST(Key, IsTheSameTextAgain) {
  for (const char* text : {"", "feet", "feet.left", "feet.left.fold", "left.board_end",
                           "shoe.both.board", "alterations.right.shank.reach"})
    EXPECT_EQ(Key(text).text(), text);
}

} // namespace
} // namespace shankline::tests::key_test
