// Which pair on which day, and how likely two good dry pairs are: against closed forms, against
// every way in which a short season can go, and against another simulation.
#include "geometry/wear/rotation.hpp"

#include "geometry/wear/remaining_life.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <map>
#include <random>
#include <vector>

namespace shankline::tests::rotation_test {
namespace {

WeibullLife life_of(double scale, double s, double se = 0) {
  return {std::log(scale), se, std::log(s), 0};
}

std::vector<DanceDay> season(int days, double hours, int stage_every = 0) {
  std::vector<DanceDay> all;
  for (int day = 0; day < days; ++day)
    all.push_back({day, hours, stage_every > 0 && day % stage_every == stage_every - 1});
  return all;
}

RotationPair used(double hours, int last_worn, int dry_from, bool for_stage = false) {
  return {hours, last_worn, dry_from, INT_MIN, for_stage};
}

/// The rule, written down anew: sorted by what the rule says, the first is taken.
std::optional<std::size_t> chosen(const std::vector<RotationPair>& pairs,
                                  const std::vector<char>& good, const DanceDay& day) {
  std::vector<std::size_t> there;
  for (std::size_t k = 0; k < pairs.size(); ++k)
    if (good[k] != 0 && pairs[k].there_from <= day.day) there.push_back(k);
  if (there.empty()) return {};
  if (!day.on_stage &&
      std::any_of(there.begin(), there.end(), [&](std::size_t k) { return !pairs[k].for_stage; }))
    std::erase_if(there, [&](std::size_t k) { return pairs[k].for_stage; });
  const auto key = [&](std::size_t k) {
    const RotationPair& pair = pairs[k];
    return std::tuple(std::max(pair.dry_from, day.day), day.on_stage && !pair.for_stage,
                      pair.last_worn, pair.hours, k);
  };
  return *std::min_element(there.begin(), there.end(),
                           [&](std::size_t a, std::size_t b) { return key(a) < key(b); });
}

int ready_on(const std::vector<RotationPair>& pairs, const std::vector<char>& good, int day) {
  int count = 0;
  for (std::size_t k = 0; k < pairs.size(); ++k)
    count += good[k] != 0 && pairs[k].there_from <= day && pairs[k].dry_from <= day ? 1 : 0;
  return count;
}

TEST(Rotation, APairIsDryAfterAsManyDaysAsItsHoursBegin) {
  EXPECT_EQ(drying_days(0), 0);
  EXPECT_EQ(drying_days(12), 1);
  EXPECT_EQ(drying_days(24), 1);
  EXPECT_EQ(drying_days(24.5), 2);
  EXPECT_EQ(drying_days(36), 2);
  EXPECT_EQ(drying_days(48), 2);
  EXPECT_EQ(drying_days(54), 3);
}

TEST(Rotation, TakesTheLongestRestedOfTheDryPairs) {
  const std::vector<char> good(3, 1);
  const std::vector<RotationPair> pairs{used(4, 3, 5), used(9, 1, 3), used(2, 4, 6)};
  EXPECT_EQ(pair_to_wear(pairs, good, {5, 1, false}), 1u);
  EXPECT_EQ(pair_to_wear(pairs, std::vector<char>{1, 0, 1}, {5, 1, false}), 0u);
  EXPECT_EQ(pair_to_wear(pairs, std::vector<char>{0, 0, 1}, {5, 1, false}), 2u); // damp
  EXPECT_EQ(pair_to_wear(pairs, std::vector<char>{1, 0, 1}, {4, 1, false}), 0u); // dry sooner
  EXPECT_EQ(pair_to_wear(pairs, std::vector<char>(3, 0), {5, 1, false}), std::nullopt);
  // Two pairs rested alike: the one with fewer hours is worn.
  EXPECT_EQ(pair_to_wear(std::vector<RotationPair>{used(4, 1, 3), used(3, 1, 3)},
                         std::vector<char>(2, 1), {5, 1, false}),
            1u);
}

TEST(Rotation, KeepsThePairOfTheStageForIt) {
  const std::vector<char> both(2, 1);
  const std::vector<RotationPair> pairs{used(1, 0, 2, true), used(8, 4, 6)};
  EXPECT_EQ(pair_to_wear(pairs, both, {5, 1, false}), 1u); // damp, and yet not the stage's
  EXPECT_EQ(pair_to_wear(pairs, both, {5, 1, true}), 0u);
  EXPECT_EQ(pair_to_wear(pairs, both, {6, 1, true}), 0u);
  EXPECT_EQ(pair_to_wear(pairs, both, {1, 1, true}), 0u); // dry sooner than the other
  EXPECT_EQ(pair_to_wear(pairs, std::vector<char>{1, 0}, {5, 1, false}), 0u);
  const std::vector<RotationPair> damp{used(1, 4, 6, true), used(8, 0, 2)};
  EXPECT_EQ(pair_to_wear(damp, both, {5, 1, true}), 1u); // dry before kept
  for (const bool on_stage : {false, true}) {
    const auto plan =
        rotation_plan({pairs[0]}, std::vector<DanceDay>{{5, 1, on_stage}}, life_of(50, 0.5));
    EXPECT_EQ(plan[0].off_stage, !on_stage);
  }
}

TEST(Rotation, ChoosesAsTheRuleWrittenDownAnew) {
  std::mt19937_64 dice(7);
  const auto below = [&](int n) { return static_cast<int>(dice() % static_cast<unsigned>(n)); };
  for (int i = 0; i < 20000; ++i) {
    std::vector<RotationPair> pairs;
    std::vector<char> good;
    for (int k = below(6); k >= 0; --k) {
      RotationPair pair = used(below(3), below(6), below(8), below(3) == 0);
      if (below(4) == 0) pair.there_from = below(8);
      pairs.push_back(pair);
      good.push_back(below(5) > 0 ? 1 : 0);
    }
    const DanceDay day{below(8), 1, below(2) == 0};
    ASSERT_EQ(pair_to_wear(pairs, good, day), chosen(pairs, good, day)) << i;
  }
}

TEST(Rotation, PlansEachDayAndRetiresAPairAtItsMedianHours) {
  const WeibullLife life = life_of(10, 0.5);
  const double median = hours_left(life, 0, 0.5);
  ASSERT_GT(median, 8);
  ASSERT_LT(median, 9);
  const auto plan = rotation_plan({RotationPair{}, RotationPair{}}, season(12, 2), life);
  std::map<std::size_t, int> worn;
  for (std::size_t i = 0; i < plan.size(); ++i) {
    if (i < 10) {
      ASSERT_TRUE(plan[i].pair);
      EXPECT_EQ(*plan[i].pair, i % 2);
      EXPECT_TRUE(plan[i].dry);
      ++worn[*plan[i].pair];
    } else {
      EXPECT_FALSE(plan[i].pair) << i;
    }
  }
  EXPECT_EQ(worn[0], 5); // 10 hours: the fifth wear passes the median
  const auto damp = rotation_plan({RotationPair{}}, season(3, 1), life);
  EXPECT_TRUE(damp[0].dry);
  EXPECT_FALSE(damp[1].dry); // worn yesterday
}

// One pair of constant risk: the chance that it is gone is 1 − e^(−hours/scale).
TEST(Rotation, OnePairOfConstantRiskHasTheClosedForm) {
  RotationRule rule;
  rule.drying_hours = 0;
  rule.wanted = 1;
  rule.runs = 40000;
  const auto days = season(20, 1.5);
  for (const double before : {0.0, 7.0}) { // constant risk forgets
    const auto chances = chance_of_too_few({used(before, -9, -7)}, days, life_of(12, 1), rule);
    for (std::size_t i = 0; i < days.size(); ++i) {
      const double exact = 1 - std::exp(-1.5 * static_cast<double>(i) / 12);
      EXPECT_NEAR(chances[i], exact, 4 * chance_error(exact, rule.runs) + 1e-12) << i;
    }
  }
}

/// Every way in which the season can go, each with its probability: a pair that is worn is done
/// after it, or not.
class EveryWay {
public:
  EveryWay(std::vector<DanceDay> days, const WeibullLife& life, const RotationRule& rule)
      : days_(std::move(days)), life_(life), rule_(rule), chances_(days_.size()) {}

  std::vector<double> chances(const std::vector<RotationPair>& pairs) {
    go(0, pairs, std::vector<char>(pairs.size(), 1), 1);
    return chances_;
  }

private:
  void go(std::size_t i, std::vector<RotationPair> pairs, std::vector<char> good, double weight) {
    if (i == days_.size()) return;
    const DanceDay& day = days_[i];
    if (ready_on(pairs, good, day.day) < rule_.wanted) chances_[i] += weight;
    const auto worn = chosen(pairs, good, day);
    if (!worn) return go(i + 1, std::move(pairs), std::move(good), weight);
    const double lasts = life_.survival(pairs[*worn].hours + day.hours) /
                         (pairs[*worn].hours > 0 ? life_.survival(pairs[*worn].hours) : 1);
    pairs[*worn].hours += day.hours;
    pairs[*worn].last_worn = day.day;
    pairs[*worn].dry_from = day.day + drying_days(rule_.drying_hours);
    go(i + 1, pairs, good, weight * lasts);
    good[*worn] = 0;
    go(i + 1, std::move(pairs), std::move(good), weight * (1 - lasts));
  }

  std::vector<DanceDay> days_;
  const WeibullLife& life_;
  const RotationRule& rule_;
  std::vector<double> chances_;
};

TEST(Rotation, AgreesWithEveryWayInWhichAShortSeasonCanGo) {
  RotationRule rule;
  rule.runs = 40000;
  for (const double drying : {0.0, 24.0, 36.0})
    for (const double s : {1.0, 0.45}) {
      rule.drying_hours = drying;
      const WeibullLife life = life_of(7, s);
      const std::vector<RotationPair> pairs{used(3, -2, 0), used(0.5, -1, 1, true), RotationPair{}};
      auto days = season(9, 1.5, 3);
      days.insert(days.begin() + 4, {4, 1, true}); // two sessions on a day
      std::swap(days[3].hours, days[2].hours);
      const auto exact = EveryWay(days, life, rule).chances(pairs);
      const auto drawn = chance_of_too_few(pairs, days, life, rule);
      ASSERT_EQ(exact.size(), drawn.size());
      for (std::size_t i = 0; i < exact.size(); ++i)
        EXPECT_NEAR(drawn[i], exact[i],
                    4.5 * chance_error(std::min(exact[i], 1.0), rule.runs) + 1e-12)
            << i << " drying " << drying << " s " << s;
      EXPECT_GT(exact.back(), 0.1);
    }
}

// Another engine, another way to the draws, and the scale of life known to a standard error only.
TEST(Rotation, AgreesWithAnotherSimulationWithinTheErrorOfBoth) {
  const WeibullLife life = life_of(11, 0.5, 0.3);
  const std::vector<RotationPair> pairs{used(3, -2, 0), used(6, -1, 1), used(1, -4, -2, true),
                                        RotationPair{}};
  const auto days = season(40, 1.2, 6);
  RotationRule rule;
  rule.runs = 20000;
  const auto drawn = chance_of_too_few(pairs, days, life, rule);

  std::mt19937_64 engine(99);
  std::normal_distribution<double> normal;
  std::vector<double> counts(days.size());
  for (std::size_t run = 0; run < rule.runs; ++run) {
    const double scale = std::exp(life.log_scale_hours + life.log_scale_se * normal(engine));
    std::weibull_distribution<double> of_life(1 / std::exp(life.log_shape), scale);
    std::vector<RotationPair> now = pairs;
    std::vector<double> ends;
    for (const RotationPair& pair : pairs) {
      double end = 0;
      while (end <= pair.hours) // drawn again until it lasts beyond what it has lasted
        end = of_life(engine);
      ends.push_back(end);
    }
    std::vector<char> good(pairs.size(), 1);
    for (std::size_t i = 0; i < days.size(); ++i) {
      counts[i] += ready_on(now, good, days[i].day) < 2 ? 1 : 0;
      if (const auto worn = chosen(now, good, days[i])) {
        now[*worn].hours += days[i].hours;
        now[*worn].last_worn = days[i].day;
        now[*worn].dry_from = days[i].day + 2;
        if (now[*worn].hours >= ends[*worn]) good[*worn] = 0;
      }
    }
  }
  for (std::size_t i = 0; i < days.size(); ++i) {
    const double other = counts[i] / static_cast<double>(rule.runs);
    EXPECT_NEAR(drawn[i], other,
                4.5 * std::sqrt(2.0) * chance_error((drawn[i] + other) / 2, rule.runs) + 1e-12)
        << i;
  }
  EXPECT_LT(drawn[1], 0.1);
  EXPECT_GT(drawn.back(), 0.5);
}

TEST(Rotation, TheSameSeedGivesTheSameFiguresAndAnotherDoesNot) {
  const std::vector<RotationPair> pairs{used(3, -2, 0), used(6, -1, 1), RotationPair{}};
  const auto days = season(15, 1.2);
  RotationRule rule;
  const auto first = chance_of_too_few(pairs, days, usual_life(), rule);
  EXPECT_EQ(chance_of_too_few(pairs, days, usual_life(), rule), first);
  rule.seed = 2;
  EXPECT_NE(chance_of_too_few(pairs, days, usual_life(), rule), first);
}

class Advice : public ::testing::Test {
protected:
  std::vector<double> with(int count, int there_on) const {
    std::vector<RotationPair> all = pairs;
    RotationPair added;
    added.there_from = there_on;
    all.resize(all.size() + static_cast<std::size_t>(count), added);
    return chance_of_too_few(all, days, life, rule);
  }
  double worst_from(const std::vector<double>& chances, int day) const {
    double worst = 0;
    for (std::size_t i = 0; i < days.size(); ++i)
      if (days[i].day >= day) worst = std::max(worst, chances[i]);
    return worst;
  }

  const std::vector<RotationPair> pairs{used(2, -2, 0), used(1, -1, 1), RotationPair{},
                                        RotationPair{}};
  const std::vector<DanceDay> days = season(60, 1);
  const WeibullLife life = life_of(12, 0.4, 0.1);
  const RotationRule rule{};
};

TEST_F(Advice, NamesTheLastDayOfOrderingAndTheFewestPairsThatDo) {
  constexpr int lead = 9;
  const auto advice = order_advice(pairs, days, life, 0, lead, 0.05, rule);
  ASSERT_TRUE(advice);
  const auto without = chance_of_too_few(pairs, days, life, rule);
  const int short_from = advice->too_few_from;
  ASSERT_GT(short_from, lead);
  EXPECT_GE(without[static_cast<std::size_t>(short_from)], 0.05);
  EXPECT_LT(without[static_cast<std::size_t>(short_from - 1)], 0.05);
  EXPECT_FALSE(advice->too_late);
  EXPECT_TRUE(advice->enough);
  EXPECT_EQ(advice->there_on, short_from);
  EXPECT_EQ(advice->order_by, short_from - lead);
  ASSERT_GT(advice->pairs, 1);
  EXPECT_LT(worst_from(with(advice->pairs, short_from), 0), 0.05);
  EXPECT_GE(worst_from(with(advice->pairs - 1, short_from), 0), 0.05);
  // A day later there would be too few on the way.
  EXPECT_GE(worst_from(with(advice->pairs, short_from + 1), 0), 0.05);
}

TEST_F(Advice, SaysSoWhereItIsTooLate) {
  const auto in_time = order_advice(pairs, days, life, 0, 9, 0.05, rule);
  ASSERT_TRUE(in_time);
  const int today = in_time->order_by; // still in time
  EXPECT_FALSE(order_advice(pairs, days, life, today, 9, 0.05, rule)->too_late);
  const auto late = order_advice(pairs, days, life, today + 3, 9, 0.05, rule);
  ASSERT_TRUE(late);
  EXPECT_TRUE(late->too_late);
  EXPECT_EQ(late->order_by, today + 3);
  EXPECT_EQ(late->there_on, in_time->there_on + 3);
  const auto without = chance_of_too_few(pairs, days, life, rule);
  double worst = 0;
  for (std::size_t i = 0; i < days.size(); ++i)
    if (days[i].day < late->there_on) worst = std::max(worst, without[i]);
  EXPECT_GE(worst, 0.05);
  EXPECT_DOUBLE_EQ(late->worst_before, worst) << "on the day itself they are there";
  EXPECT_GT(without[static_cast<std::size_t>(late->there_on)], worst);
  EXPECT_LT(worst_from(with(late->pairs, late->there_on), late->there_on), 0.05);
}

TEST_F(Advice, OrdersNothingThatComesAfterTheLastDay) {
  const auto advice = order_advice(pairs, days, life, 0, 60, 0.05, rule); // days 0 to 59
  ASSERT_TRUE(advice);
  EXPECT_TRUE(advice->too_late);
  EXPECT_EQ(advice->pairs, 0);
  EXPECT_EQ(advice->there_on, 60);
  EXPECT_GT(advice->worst_before, 0.5);
  EXPECT_GT(order_advice(pairs, days, life, 0, 59, 0.05, rule)->pairs, 0);
}

TEST_F(Advice, NothingWhereThePairsWillDoAndTheMostWhereNoneWould) {
  EXPECT_FALSE(order_advice(pairs, season(4, 0.5), life, 0, 9, 0.05, rule));
  const auto endless =
      order_advice(pairs, season(400, 3), life_of(3, 0.4), 0, 1, 0.05, RotationRule{36, 2, 200, 1});
  ASSERT_TRUE(endless);
  EXPECT_FALSE(endless->enough);
  EXPECT_EQ(endless->pairs, most_ordered);
}

// A share p of n independent seasons has the standard error √(p (1 − p)/n).
TEST(Rotation, TheErrorOfAChanceIsThatOfAShare) {
  EXPECT_DOUBLE_EQ(chance_error(0.5, 100), 0.05);
  EXPECT_DOUBLE_EQ(chance_error(0.1, 400), 0.015);
  EXPECT_DOUBLE_EQ(chance_error(0, 400), 0);
}

} // namespace
} // namespace shankline::tests::rotation_test
