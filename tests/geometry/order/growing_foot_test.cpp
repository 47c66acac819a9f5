#include "geometry/order/growing_foot.hpp"

#include "geometry/order/foot_estimates.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::growing_foot_test {
namespace {

FootOrder foot_of(double length) {
  FootOrder foot;
  foot.foot.length.emplace().values = {length};
  foot.alterations.shank.emplace();
  return foot;
}

bool counts_as_growing(double length) {
  return is_growing(Order(), foot_of(length).foot);
}

// 215 is from memory: practice has no source for it.
TEST(GrowingFoot, ShorterThanTheLimitCounts) {
  EXPECT_TRUE(counts_as_growing(214.9));
  EXPECT_FALSE(counts_as_growing(215)) << "at the limit a foot counts as grown";
  EXPECT_FALSE(counts_as_growing(238));
  EXPECT_FALSE(is_growing(Order(), Foot())) << "without a length nothing tells";
}

TEST(GrowingFoot, OrderHasTheLastWord) {
  Order order;
  order.growing = true;
  EXPECT_TRUE(is_growing(order, foot_of(250).foot));
  order.growing = false;
  EXPECT_FALSE(is_growing(order, foot_of(200).foot));
}

TEST(GrowingFoot, NeedsAnAdultWhateverIsCut) {
  Order order;
  FootOrder foot = foot_of(200);
  EXPECT_EQ(growing_foot(foot, order, "left").size(), 2u) << "a caution and an error";
  order.decided_by = "T-1";
  EXPECT_EQ(growing_foot(foot, order, "left").size(), 1u) << "the caution stays";
  EXPECT_EQ(growing_foot(foot, order, "left").front().severity, Severity::caution);
  order.decided_by.clear();
  foot.alterations.shank.reset();
  EXPECT_TRUE(growing_foot(foot, order, "left").empty()) << "a liner may be made for anybody";
  foot.alterations.sides.emplace();
  EXPECT_EQ(growing_foot(foot, order, "left").size(), 2u) << "lowered sides alone";
  foot.alterations.sides.reset();
  foot.alterations.thinned.emplace();
  EXPECT_EQ(growing_foot(foot, order, "left").size(), 2u) << "a thinned board alone";
}

TEST(UsualRange, IsTwiceTheEstimatesSpreadToEitherSide) {
  const auto fold = usual_range(Population::women, "fold", {});
  ASSERT_TRUE(fold);
  EXPECT_DOUBLE_EQ(fold->least, 0) << "6 - 2 x 3, never less than none";
  EXPECT_DOUBLE_EQ(fold->most, 12) << "6 + 2 x 3, from memory";
  const Reading guess = estimated_heel_front(Population::women, 238);
  const auto heel = usual_range(Population::women, "heel_front", 238);
  ASSERT_TRUE(heel);
  EXPECT_NEAR(heel->most - guess.value(), guess.value() - heel->least, 1e-9);
  EXPECT_NEAR(heel->most - heel->least, 4 * guess.estimate_sd, 1e-9);
}

} // namespace
} // namespace shankline::tests::growing_foot_test
