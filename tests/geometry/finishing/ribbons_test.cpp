#include "geometry/finishing/ribbons.hpp"

#include "geometry/solution/solution.hpp"
#include "tests/geometry/sides_of_order.hpp"
#include "tests/geometry/worked_order.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace shankline::tests::ribbons_test {
namespace {

// Elongation 100 (L − L₀)/L₀ as in ASTM D4964 and ISO 20932, from memory.
TEST(Ribbons, StretchIsOfTheSlackLength) {
  EXPECT_DOUBLE_EQ(slack_length(80, 0.25), 64);
  EXPECT_NEAR(slack_length(120, 0.4), 85.714, 5e-4);
  EXPECT_DOUBLE_EQ(slack_length(100, 0), 100);
  EXPECT_DOUBLE_EQ(wrap_length(40, 30), 50) << "3-4-5";
}

Order with_ribbons(const RibbonWish& wish) {
  Order order = worked_order();
  order.left->foot.ankle_girth = measured(200);
  order.left->alterations.ribbons = wish;
  return order;
}

RibbonWish ring() {
  RibbonWish wish;
  wish.stretch = 0.25;
  wish.pitch = 45;
  wish.rise = 70;
  return wish;
}

TEST(Ribbons, RingWorkedByHand) {
  const Solution solution = solve(with_ribbons(ring()));
  ASSERT_TRUE(solution.left && solution.left->ribbons);
  const SolvedRibbons& ribbons = *solution.left->ribbons;
  EXPECT_DOUBLE_EQ(ribbons.wrap, 205) << "200 and 45 make 205";
  EXPECT_DOUBLE_EQ(ribbons.worn, 2 * 70 + 2 * 205);
  EXPECT_DOUBLE_EQ(ribbons.cut, 550 / 1.25 + 2 * 15);
  ASSERT_EQ(ribbons.marks.size(), 5u);
  const double expected[]{15, 15 + 56, 15 + 56 + 164, 15 + 56 + 2 * 164, 455};
  for (std::size_t i = 0; i < 5; ++i)
    EXPECT_NEAR(ribbons.marks[i], expected[i], 1e-9);
  EXPECT_FALSE(ribbons.sewn_at) << "the back was not measured";
  EXPECT_TRUE(solution.findings.empty());
}

TEST(Ribbons, TiedOnesAreTwo) {
  RibbonWish wish;
  wish.ring = false;
  wish.pitch = 45;
  wish.rise = 70;
  wish.tie = 160;
  const Solution solution = solve(with_ribbons(wish));
  ASSERT_TRUE(solution.left && solution.left->ribbons);
  EXPECT_EQ(solution.left->ribbons->pieces, 2);
  EXPECT_DOUBLE_EQ(solution.left->ribbons->cut, 15 + 70 + 1.5 * 205 + 160);
}

TEST(Ribbons, RingOfRibbonThatDoesNotStretchIsRefused) {
  for (const double stretch : {0.0, 0.04}) {
    RibbonWish wish = ring();
    wish.stretch = stretch;
    const Solution solution = solve(with_ribbons(wish));
    EXPECT_FALSE(solution.left);
    ASSERT_EQ(solution.findings.size(), 1u);
    EXPECT_EQ(solution.findings[0].key, "alterations.left.ribbons.stretch");
    EXPECT_NE(solution.findings[0].what.find("stretch"), std::string::npos);
    wish.ring = false;
    EXPECT_TRUE(solve(with_ribbons(wish)).left) << "tied ribbons need none";
  }
}

TEST(Ribbons, WhatIsNotMeasuredIsEstimatedWithItsSpread) {
  RibbonWish wish = ring();
  wish.rise.reset();
  Order order = with_ribbons(wish);
  order.left->foot.ankle_girth.reset();
  const Solution solution = solve(order);
  ASSERT_TRUE(solution.left && solution.left->ribbons);
  const auto& estimated = solution.left->estimated;
  ASSERT_EQ(estimated.size(), 2u);
  // ANSUR II, women: 0.512962 · 238 + 89.4008, residual SD 13.4597.
  EXPECT_EQ(estimated[0].key, "ankle_girth");
  EXPECT_NEAR(estimated[0].value, 211.4858, 1e-3);
  EXPECT_NEAR(estimated[0].sd, 13.4597, 1e-9);
  EXPECT_EQ(estimated[1].key, "ribbons.rise");
  EXPECT_GT(estimated[1].sd, 15);
  ASSERT_EQ(solution.findings.size(), 1u);
  EXPECT_EQ(solution.findings[0].severity, Severity::caution);
  EXPECT_EQ(solution.findings[0].key, "feet.left.ankle_girth");
}

Order with_sides() {
  Order order = worked_order();
  *order.left = worked_sides();
  order.left->foot.ankle_girth = measured(200);
  order.left->shoe.sides->casing = 9;
  order.left->alterations.ribbons = ring();
  return order;
}

TEST(Ribbons, AreSewnWhereTheFoldedHeelMeetsTheSide) {
  const Solution solution = solve(with_sides());
  ASSERT_TRUE(solution.left && solution.left->sides && solution.left->ribbons->sewn_at);
  // The sole's edge begins 3 behind the board; the back is 52 high.
  EXPECT_DOUBLE_EQ(*solution.left->ribbons->sewn_at, 49);
  for (const SolvedSide* side : {&solution.left->sides->medial, &solution.left->sides->lateral}) {
    ASSERT_EQ(side->sewn.size(), 1u);
    const SewnEnd& end = side->sewn[0];
    EXPECT_NEAR(side->wall.edge().station(end.t), 49, 1e-6);
    EXPECT_DOUBLE_EQ(end.width, 22);
    EXPECT_DOUBLE_EQ(end.top - end.low, 15);
    for (const double beside : {-11.0, 0.0, 11.0})
      EXPECT_LE(end.top, side->finished(end.t + beside) - 9 + 1e-9) << "below the casing";
  }
}

TEST(Ribbons, CannotBeSewnOffTheSide) {
  Order order = with_sides();
  order.left->alterations.ribbons->sewn_at = 155;
  Solution solution = solve(order);
  EXPECT_FALSE(solution.left);
  ASSERT_FALSE(solution.findings.empty());
  EXPECT_EQ(solution.findings.back().key, "alterations.left.ribbons.sewn_at");
  order.left->alterations.ribbons->sewn_at = 60;
  order.left->alterations.ribbons->overlap = 40;
  solution = solve(order);
  EXPECT_FALSE(solution.left) << "no side is that high below its casing";
}

TEST(Ribbons, AndElasticSewnOneOverTheOtherAreACaution) {
  Order order = with_sides();
  ElasticWish wish;
  wish.over = 120;
  order.left->alterations.elastics = wish;
  for (const auto& [sewn_at, cautions] : {std::pair{55.0, 1}, std::pair{100.0, 0}}) {
    order.left->alterations.elastics->sewn_at = sewn_at;
    const Solution solution = solve(order);
    ASSERT_TRUE(solution.left);
    EXPECT_EQ(std::count_if(solution.findings.begin(), solution.findings.end(),
                            [](const Finding& finding) {
                              return finding.severity == Severity::caution &&
                                     finding.key == "alterations.left.elastics.sewn_at";
                            }),
              cautions)
        << sewn_at;
  }
}

TEST(Elastics, AreCutShorterThanTheirWay) {
  Order order = worked_order();
  ElasticWish wish;
  wish.over = 120;
  wish.stretch = 0.25;
  wish.heel_loop = true;
  order.left->alterations.elastics = wish;
  const Solution solution = solve(order);
  ASSERT_TRUE(solution.left && solution.left->elastics);
  EXPECT_DOUBLE_EQ(*solution.left->elastics->across, 96 + 20);
  EXPECT_DOUBLE_EQ(*solution.left->elastics->loop, 22 + 4 + 20);
  order.left->alterations.elastics = ElasticWish{};
  const Solution missing = solve(order);
  ASSERT_EQ(missing.findings.size(), 1u);
  EXPECT_EQ(missing.findings[0].key, "alterations.left.elastics.over");
}

} // namespace
} // namespace shankline::tests::ribbons_test
