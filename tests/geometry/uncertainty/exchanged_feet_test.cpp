#include "geometry/uncertainty/exchanged_feet.hpp"

#include "tests/geometry/random_orders.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace shankline::tests::exchanged_feet_test {
namespace {

/// The true lengths of a foot, mm: a reading of each differs from it by chance.
struct TrueFoot {
  double length;
  double heel_front;
  double arch_break;
};

FootOrder measured_foot(const TrueFoot& truth) {
  FootOrder order;
  order.foot.length = measured(truth.length, 1);
  order.foot.heel_front = measured(truth.heel_front, 3);
  order.foot.arch_break.centre = measured(truth.arch_break, 4);
  return order;
}

Order both(const TrueFoot& left, const TrueFoot& right) {
  Order order;
  order.left = measured_foot(left);
  order.right = measured_foot(right);
  return order;
}

constexpr TrueFoot one{238, 61, 95};
constexpr TrueFoot other{235, 66, 101};

TEST(ExchangedFeet, AreFoundAndTheTellingReadingIsNamed) {
  const auto found = exchanged_feet(both(other, one), both(one, other));
  ASSERT_TRUE(found);
  EXPECT_EQ(found->name, "foot length");
  EXPECT_FALSE(exchanged_feet(both(one, other), both(one, other)));
}

// Worked by hand: one reading with finding 3 has the scatter 10/3, v = 13/3, s² = 9, so that
// -d_now d_then 9/(2 · 13/3 · 40/3) has to reach ln 20: differences of 6.21 mm the other way round.
TEST(ExchangedFeet, AreToldFromTwentyToOne) {
  const auto only_heel_front = [](double left, double right) {
    Order order;
    order.left.emplace().foot.heel_front = measured(left, 3);
    order.right.emplace().foot.heel_front = measured(right, 3);
    return order;
  };
  EXPECT_FALSE(exchanged_feet(only_heel_front(60, 66.2), only_heel_front(66.2, 60)));
  const auto found = exchanged_feet(only_heel_front(60, 66.22), only_heel_front(66.22, 60));
  ASSERT_TRUE(found);
  EXPECT_EQ(found->name, "heel front");
  EXPECT_EQ(found->left_then, 66.22);
  EXPECT_EQ(found->right_then, 60);
  EXPECT_EQ(found->left_now, 60);
  EXPECT_EQ(found->right_now, 66.22);
}

TEST(ExchangedFeet, GrowthAndAnotherHabitAreNoExchange) {
  const TrueFoot grown{one.length + 8, one.heel_front + 5, one.arch_break + 6};
  const TrueFoot grown_other{other.length + 8, other.heel_front + 5, other.arch_break + 6};
  EXPECT_FALSE(exchanged_feet(both(grown, grown_other), both(one, other)));
  EXPECT_TRUE(exchanged_feet(both(grown_other, grown), both(one, other)));
}

TEST(ExchangedFeet, OnlyReadingsOfBothFeetInOnePoseAreCompared) {
  Order now = both(other, one);
  const Order then = both(one, other);
  now.pose = Pose::in_shoe;
  EXPECT_FALSE(exchanged_feet(now, then)) << "another pose";
  now = both(other, one);
  now.right.reset();
  EXPECT_FALSE(exchanged_feet(now, then)) << "one foot";
  now = both(other, one);
  for (auto* foot : {&now.left->foot, &now.right->foot}) {
    foot->length = estimate(foot->length->value(), 3, "a guess");
    foot->heel_front = estimate(foot->heel_front->value(), 3, "a guess");
    foot->arch_break.centre.reset();
  }
  EXPECT_FALSE(exchanged_feet(now, then)) << "estimates";
  now = both(one, one);
  Order folded = both(one, one);
  now.left->foot.fold = folded.right->foot.fold = measured(2, 1);
  now.right->foot.fold = folded.left->foot.fold = measured(12, 1);
  EXPECT_FALSE(exchanged_feet(now, folded)) << "the fold is the shoe's";
}

// Feet that differ by N(0, 3), each reading off by what its half-width says and by a day's change.
TEST(ExchangedFeet, AreSeldomSeenWhereThereAreNoneAndOftenWhereTheyDiffer) {
  Draw draw(7);
  const auto reading = [&](double truth, double finding) {
    return truth + draw.uniform(-1, 1) + draw.uniform(-finding, finding) + draw.normal(0, 1);
  };
  const auto taken = [&](const TrueFoot& truth) {
    return TrueFoot{reading(truth.length, 1), reading(truth.heel_front, 3),
                    reading(truth.arch_break, 4)};
  };
  int false_alarms = 0, found = 0, far_apart = 0;
  constexpr int companies = 20000;
  for (int i = 0; i < companies; ++i) {
    const TrueFoot right{one.length + draw.normal(0, 3), one.heel_front + draw.normal(0, 3),
                         one.arch_break + draw.normal(0, 3)};
    const Order then = both(taken(one), taken(right));
    false_alarms += exchanged_feet(both(taken(one), taken(right)), then).has_value();
    if (std::abs(right.heel_front - one.heel_front) < 5) continue;
    ++far_apart;
    found += exchanged_feet(both(taken(right), taken(one)), then).has_value();
  }
  EXPECT_LE(false_alarms, companies / 200) << "0.4 %";
  EXPECT_GE(found, far_apart * 2 / 3) << "71 %";
}

} // namespace
} // namespace shankline::tests::exchanged_feet_test
