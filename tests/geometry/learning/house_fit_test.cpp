#include "geometry/learning/house_fit.hpp"

#include "geometry/learning/learned_place.hpp"
#include "tests/geometry/learning_cases.hpp"
#include "tests/geometry/simulated_company.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <random>
#include <stdexcept>

namespace shankline::tests::house_fit_test {
namespace {

LearnedPlace asked(const PlacePredictor& predictor, const FootRecords& foot,
                   const std::string& style, double shoe_u = 1.5) {
  return predictor.place(foot, {style, shoe_u, {}});
}

struct Expected {
  double mean, sd;
};

/// A company after some pairs, cut at what the readings say, 8 short.
HouseRecords tried_company(int feet, int pairs, std::uint64_t seed, const World& world = {}) {
  SimulatedCompany company(world, feet, seed);
  for (int k = 0; k < pairs; ++k)
    for (std::size_t i = 0; i < company.feet(); ++i)
      company.try_pair(i, company.records().feet[i].sessions[0].place - (k == 0 ? 8 : 4));
  return company.records();
}

// Recorded from JAGS 4.3.1, model and data in tests/geometry/learning/jags, 4 chains of 250,000.
// Bars: means within 0.05 mm, standard deviations within 2 %.
TEST(HouseFit, AgreesWithASampler) {
  const HouseRecords records = three_feet();
  const HouseFit fit = fit_house(records, fixed_figures());
  ASSERT_TRUE(fit.converged);
  const PlacePredictor predictor(fit);
  const auto expect = [](double mean, double sd, Expected jags) {
    EXPECT_NEAR(mean, jags.mean, 0.05);
    EXPECT_NEAR(sd, jags.sd, 0.02 * jags.sd);
  };
  const auto place = [&](std::size_t i, const std::string& style) {
    return asked(predictor, records.feet[i], style, 0);
  };
  expect(place(0, "s").mean, place(0, "s").sd, {63.0707, 1.6736});
  expect(place(1, "t").mean, place(1, "t").sd, {62.9761, 1.8529});
  expect(place(2, "s").mean, place(2, "s").sd, {59.7007, 5.6673});
  expect(place(0, "another").mean, place(0, "another").sd, {62.8438, 3.1057});
  expect(fit.readers[0].habit.mean, fit.readers[0].habit.sd, {-0.4137, 1.7451});
  expect(fit.readers[1].habit.mean, fit.readers[1].habit.sd, {0.6389, 1.7034});
  expect(fit.house.mean, fit.house.sd, {-0.1201, 2.4003});
}

// Recorded from the prototype, which differences in other directions.
TEST(HouseFit, GivesThePrototypesFiguresOfThreeFeet) {
  const HouseRecords records = three_feet();
  const HouseFit fit = fit_house(records, without_jumps());
  EXPECT_NEAR(fit.log_posterior, -5.1183, 1e-4);
  EXPECT_NEAR(fit.figures.width, 2.55527, 0.001);
  EXPECT_NEAR(fit.figures.noise, 1.66434, 0.001);
  EXPECT_NEAR(fit.figures.dancers, 3.13458, 0.001);
  EXPECT_NEAR(fit.figures.drift, 0.49520, 0.001);
  EXPECT_NEAR(fit.figures.politeness, 0.04455, 0.001);
  const PlacePredictor predictor(fit);
  const Expected expected[] = {{63.06532, 2.58978}, {62.96096, 2.61381}, {59.67634, 5.58967}};
  const std::array styles{"s", "t", "s"};
  for (std::size_t i = 0; i < 3; ++i) {
    const LearnedPlace place = asked(predictor, records.feet[i], styles[i]);
    EXPECT_NEAR(place.mean, expected[i].mean, 0.001);
    EXPECT_NEAR(place.sd, expected[i].sd, 0.001);
    EXPECT_NEAR(place.U, 1.96 * place.sd, 1e-12);
    EXPECT_EQ(place.jump_probability, 0);
  }
  EXPECT_EQ(asked(predictor, records.feet[0], "s").pairs, 2);
  EXPECT_EQ(asked(predictor, records.feet[2], "s").pairs, 0);
  EXPECT_FALSE(asked(predictor, records.feet[2], "s").last);
}

TEST(HouseFit, GivesThePrototypesFiguresOfSixFeet) {
  const HouseRecords records = six_feet();
  const HouseFit fit = fit_house(records, without_jumps());
  EXPECT_NEAR(fit.log_posterior, -29.5403, 1e-4);
  EXPECT_NEAR(fit.figures.width, 2.42132, 0.001);
  EXPECT_NEAR(fit.figures.noise, 1.68930, 0.001);
  EXPECT_NEAR(fit.figures.dancers, 2.60365, 0.001);
  EXPECT_NEAR(fit.figures.drift, 0.48792, 0.001);
  EXPECT_NEAR(fit.figures.politeness, 0.06237, 0.001);
  const PlacePredictor predictor(fit);
  const Expected expected[] = {{60.44196, 2.30103}, {65.21582, 2.52772}, {63.12263, 2.44425},
                               {51.78750, 2.38886}, {65.42245, 2.45023}, {63.66864, 4.88418}};
  for (std::size_t i = 0; i < 6; ++i) {
    const LearnedPlace place = asked(predictor, records.feet[i], style_of_six(i));
    EXPECT_NEAR(place.mean, expected[i].mean, 0.001) << i;
    EXPECT_NEAR(place.sd, expected[i].sd, 0.001) << i;
  }
}

TEST(HouseFit, GivesThePrototypesFiguresWithJumps) {
  const HouseRecords records = six_feet();
  const PlacePredictor predictor(fit_house(records));
  struct WithJump {
    double mean, sd, jump;
  };
  const WithJump expected[] = {{60.50360, 2.62443, 0.01221}, {65.22433, 2.86268, 0.01527},
                               {63.12263, 2.75728, 0.00962}, {50.97722, 3.85060, 0.11098},
                               {65.42962, 2.77393, 0.01223}, {63.68454, 4.89038, 0}};
  for (std::size_t i = 0; i < 6; ++i) {
    const LearnedPlace place = asked(predictor, records.feet[i], style_of_six(i));
    // If a jump is at all likely (foot 3), the place is least linear in the figures, and the
    // directions of the differences matter: 0.0011 and 0.0020 there.
    const double bar = i == 3 ? 0.0025 : 0.001;
    EXPECT_NEAR(place.mean, expected[i].mean, bar) << i;
    EXPECT_NEAR(place.sd, expected[i].sd, bar) << i;
    EXPECT_NEAR(place.jump_probability, expected[i].jump, 2e-5) << i;
  }
}

std::array<char, 5 * sizeof(double)> bytes_of(const LearnedPlace& place, const HouseFit& fit) {
  const double values[] = {place.mean, place.sd, place.U, place.jump_probability,
                           fit.log_posterior};
  std::array<char, sizeof values> bytes;
  std::memcpy(bytes.data(), values, sizeof values);
  return bytes;
}

TEST(HouseFit, OrderOfArrivalLeavesNoTrace) {
  for (std::uint64_t seed = 1; seed <= 3; ++seed) {
    const HouseRecords records = tried_company(6, 3, seed);
    const HouseFit fit = fit_house(records);
    HouseRecords shuffled = records;
    std::mt19937_64 engine(seed);
    std::ranges::reverse(shuffled.feet);
    for (FootRecords& foot : shuffled.feet) {
      std::shuffle(foot.shoes.begin(), foot.shoes.end(), engine);
      for (TriedShoe& shoe : foot.shoes)
        std::shuffle(shoe.trials.begin(), shoe.trials.end(), engine);
    }
    const HouseFit again = fit_house(shuffled);
    for (const FootRecords& foot : records.feet) {
      const auto same = std::ranges::find(shuffled.feet, foot.dancer, &FootRecords::dancer);
      ASSERT_NE(same, shuffled.feet.end());
      EXPECT_EQ(bytes_of(asked(PlacePredictor(fit), foot, "S1"), fit),
                bytes_of(asked(PlacePredictor(again), *same, "S1"), again));
    }
  }
}

TEST(HouseFit, TheDifferenceOfReadersHardlyDependsOnTheEstimate) {
  HouseRecords records = six_feet();
  const HouseFit fit = fit_house(records);
  const LearnedFigure forward = habit_difference(fit, 1, 0), back = habit_difference(fit, 0, 1);
  EXPECT_DOUBLE_EQ(forward.mean, -back.mean);
  EXPECT_DOUBLE_EQ(forward.sd, back.sd);
  EXPECT_NEAR(forward.mean, fit.readers[1].habit.mean - fit.readers[0].habit.mean, 1e-12);
  EXPECT_EQ(habit_difference(fit, 1, 1).sd, 0);
  // The common part of both readers cancels, since their habits are correlated.
  EXPECT_LT(forward.sd, std::hypot(fit.readers[0].habit.sd, fit.readers[1].habit.sd));
  for (FootRecords& foot : records.feet)
    foot.estimate += 6;
  const HouseFit moved = fit_house(records);
  const double habits = moved.readers[0].habit.mean - fit.readers[0].habit.mean;
  EXPECT_LT(habits, -0.1) << "a larger estimate makes a reader seem to mark farther back";
  EXPECT_LT(std::abs(habit_difference(moved, 1, 0).mean - forward.mean), std::abs(habits) / 2);
}

TEST(HouseFit, ADancerWhoIsForgottenWasNeverThere) {
  HouseRecords records = tried_company(6, 2, 5);
  HouseRecords others = records;
  others.feet.erase(others.feet.begin() + 2);
  const HouseFit with = fit_house(records);
  records.feet.erase(records.feet.begin() + 2);
  const HouseFit without = fit_house(records);
  EXPECT_EQ(without.log_posterior, fit_house(others).log_posterior);
  EXPECT_NE(without.log_posterior, with.log_posterior);
}

// A foot of the same records, moved: everything moves along, since nothing but differences enters.
TEST(HouseFit, MovingAllPlacesMovesAllResults) {
  const HouseRecords records = tried_company(5, 2, 9);
  HouseRecords moved = records;
  for (FootRecords& foot : moved.feet) {
    foot.estimate += 12.5;
    for (ReadingSession& session : foot.sessions)
      session.place += 12.5;
    for (TriedShoe& shoe : foot.shoes)
      for (Trial& trial : shoe.trials)
        trial.board_end += 12.5;
  }
  const PlacePredictor here(fit_house(records)), there(fit_house(moved));
  for (std::size_t i = 0; i < records.feet.size(); ++i) {
    const LearnedPlace a = asked(here, records.feet[i], "S1");
    const LearnedPlace b = asked(there, moved.feet[i], "S1");
    EXPECT_NEAR(b.mean, a.mean + 12.5, 1e-6);
    EXPECT_NEAR(b.sd, a.sd, 1e-6);
  }
}

// One more "good" where the board should end anyway agrees with everything known, so U must not
// grow by more than the figures' own wandering: 2 %.
TEST(HouseFit, AnAnswerThatAgreesNeverWidens) {
  int tried = 0;
  for (std::uint64_t seed = 1; seed <= 8; ++seed) {
    HouseRecords records = tried_company(6, 1 + static_cast<int>(seed % 3), 20 + seed);
    const LearnedPlace before =
        asked(PlacePredictor(fit_house(records)), records.feet[0], records.feet[0].shoes[0].style);
    Trial agrees;
    agrees.board_end = before.mean;
    agrees.after_wear = true;
    records.feet[0].shoes.back().trials.push_back(agrees);
    const LearnedPlace after =
        asked(PlacePredictor(fit_house(records)), records.feet[0], records.feet[0].shoes[0].style);
    EXPECT_LT(after.U, 1.02 * before.U) << seed;
    EXPECT_NEAR(after.mean, before.mean, 1.5) << seed;
    ++tried;
  }
  EXPECT_EQ(tried, 8);
}

TEST(HouseFit, EveryAnswerPullsItsOwnWay) {
  const HouseRecords records = tried_company(6, 2, 31);
  const std::string style = records.feet[0].shoes[0].style;
  const auto with = [&](Answer answer, double end) {
    HouseRecords more = records;
    Trial trial;
    trial.board_end = end;
    trial.answer = answer;
    more.feet[0].shoes.back().trials.push_back(trial);
    return asked(PlacePredictor(fit_house(more)), more.feet[0], style).mean;
  };
  const double before = asked(PlacePredictor(fit_house(records)), records.feet[0], style).mean;
  EXPECT_GT(with(Answer::too_low, before), before + 0.1);
  EXPECT_LT(with(Answer::cut_too_far, before), before - 0.1);
  // Pain and rolling over never move a line.
  EXPECT_EQ(with(Answer::pain, before), before);
  EXPECT_EQ(with(Answer::rolls_over, before), before);
}

TEST(HouseFit, AnEmptyHouseGivesThePrior) {
  const HouseFit fit = fit_house({});
  EXPECT_TRUE(fit.converged);
  EXPECT_EQ(fit.feet, 0U);
  EXPECT_NEAR(fit.house.sd, 3, 1e-9);
  EXPECT_NEAR(fit.figures.width, 3, 1e-9);
  FootRecords foot;
  foot.dancer = "M-07";
  foot.estimate_sd = 5;
  LearnedPlace place = asked(PlacePredictor(fit), foot, "S1", 2.5);
  EXPECT_NEAR(place.mean, 61, 1e-6);
  // Estimate, house, style, shoe, and τ² averaged over its prior to second order: 16·(1 + 2·0.5²).
  EXPECT_NEAR(place.sd, std::sqrt(25 + 9 + 4 + 6.25 + 16 * (1 + 2 * 0.25)), 0.03);
  // A reading by somebody unknown: its habit has a spread of 2.
  foot.sessions = {{"R9", 65, 2.8, 3}};
  place = asked(PlacePredictor(fit), foot, "S1", 2.5);
  const double weight = 1 / 7.84, precision = 1 / 25.0 + weight;
  EXPECT_NEAR(place.mean, 61 + 4 * weight / precision, 1e-6);
  const double habit = 2 * weight / precision;
  EXPECT_NEAR(place.sd, std::sqrt(1 / precision + habit * habit + 9 + 4 + 6.25 + 24), 0.03);
  // Read twice, and once with great doubt where the place is: the wider finding says how large this
  // reader's habit may be.
  for (const bool wide_first : {true, false}) {
    foot.sessions = {{"R9", 65, 2.8, wide_first ? 24.0 : 3},
                     {"R9", 65, 2.8, wide_first ? 3 : 24.0}};
    place = asked(PlacePredictor(fit), foot, "S1", 2.5);
    const double both = 1 / 25.0 + 2 * weight;
    const double wide = 24 / std::sqrt(12) * 2 * weight / both;
    EXPECT_NEAR(place.sd, std::sqrt(1 / both + wide * wide + 9 + 4 + 6.25 + 24), 0.03);
  }
}

TEST(HouseFit, TimeWithoutPairsWidens) {
  const HouseRecords records = tried_company(5, 3, 41);
  const PlacePredictor predictor(fit_house(records));
  const Day last = records.feet[0].shoes.back().ordered;
  const auto after = [&](int days) {
    return predictor.place(records.feet[0], {"S1", 1.5, last + std::chrono::days(days)}).U;
  };
  EXPECT_EQ(after(10), asked(predictor, records.feet[0], "S1").U);
  EXPECT_EQ(after(30), after(1)); // less than a month counts as one step
  EXPECT_GT(after(365), after(30) + 0.1);
}

TEST(HouseFit, AFootInTwoStylesIsOneFoot) {
  // In style b this dancer wants the board 4 longer than in a; two others say the same of b.
  HouseRecords records;
  for (const std::string dancer : {"A", "B", "C"}) {
    std::vector<TriedShoe> tried = shoes("a", "56l 59l 62g; 62g; 61g; 62g");
    for (TriedShoe& shoe : shoes("b", "55l 58g; 58g; 57g; 58g")) {
      shoe.pair += "b";
      shoe.ordered += std::chrono::days(100);
      tried.push_back(shoe);
    }
    records.feet.push_back(foot(dancer, {{"R1", 61, 2.8, 3}}, tried));
  }
  const HouseFit fit = fit_house(records);
  const PlacePredictor predictor(fit);
  const LearnedPlace a = asked(predictor, records.feet[0], "a");
  const LearnedPlace b = asked(predictor, records.feet[0], "b");
  EXPECT_GT(a.mean - b.mean, 1.5);
  EXPECT_LT(a.mean - b.mean, 4.5);
  EXPECT_EQ(a.pairs, 8);
  // A style not on record: between the two, and less sure than either.
  const LearnedPlace other = asked(predictor, records.feet[0], "c");
  EXPECT_GT(other.sd, std::max(a.sd, b.sd));
  EXPECT_EQ(fit.styles.size(), 2U);
  EXPECT_EQ(fit.styles[0].shoes, 12);
}

TEST(HouseFit, RefusesRecordsThatCannotBe) {
  HouseRecords records = three_feet();
  records.feet[1].shoes[0].trials[0].board_end = std::nan("");
  EXPECT_THROW(fit_house(records), std::invalid_argument);
  records = three_feet();
  records.feet[2].dancer = "A";
  EXPECT_THROW(fit_house(records), std::invalid_argument);
  records = three_feet();
  records.feet[0].sessions[0].scatter_u = 0;
  try {
    fit_house(records);
    FAIL();
  } catch (const std::invalid_argument& wrong) {
    EXPECT_STREQ(wrong.what(), "A, left: the u of a heel front is 0 (allowed: 0.01 to 200)");
  }
  const PlacePredictor predictor(fit_house(three_feet()));
  FootRecords elsewhere = foot("Z", {}, shoes("unknown", "60g"));
  EXPECT_THROW(predictor.place(elsewhere, {}), std::invalid_argument);
}

// Beyond a hundred feet the figures come from a drawn hundred; readers, styles and the house from
// all.
TEST(HouseFit, ALargeHouseFitsItsFiguresOnARandomHundred) {
  World world;
  world.habit_of_second = 4;
  world.habit_sd = 0;
  const HouseRecords records = tried_company(160, 2, 51, world);
  const HouseFit fit = fit_house(records);
  EXPECT_TRUE(fit.converged);
  EXPECT_EQ(fit.feet, 160U);
  EXPECT_EQ(fit.feet_for_figures, most_feet_for_figures);
  HouseRecords hundred = records;
  hundred.feet.resize(100);
  // More feet, surer readers.
  const HouseFit of_hundred = fit_house(hundred);
  EXPECT_LT(fit.readers[1].habit.sd, of_hundred.readers[1].habit.sd);
  // The figures are as sure as a hundred feet make them.
  for (std::size_t i = 1; i <= house_figures; ++i) {
    const auto variance = [i](const SymmetricMatrix& m) { return m(m.rows() - i, m.rows() - i); };
    EXPECT_NEAR(variance(fit.covariance) / variance(of_hundred.covariance), 1, 0.2) << i;
  }
  EXPECT_EQ(fit.readers[1].sessions, 80);
}

// House, two styles, then two readers, whose xi have variances 0.25 and 0.36 and covariance 0.1:
// habits of prior spreads 2 and 3 differ with the variance 4 · 0.25 + 9 · 0.36 − 2 · 2 · 3 · 0.1
// = 3.04.
TEST(HabitDifference, TakesTheCovarianceOfTheTwoReaders) {
  HouseFit fit;
  fit.styles.resize(2);
  fit.readers = {{"R1", 2, {1.5, 0}, 4}, {"R2", 3, {-0.5, 0}, 4}};
  fit.covariance = SymmetricMatrix(9);
  for (std::size_t i = 0; i < 9; ++i)
    fit.covariance(i, i) = 1;
  fit.covariance(3, 3) = 0.25;
  fit.covariance(4, 4) = 0.36;
  fit.covariance(3, 4) = fit.covariance(4, 3) = 0.1;
  const LearnedFigure apart = habit_difference(fit, 0, 1);
  EXPECT_DOUBLE_EQ(apart.mean, 2);
  EXPECT_NEAR(apart.sd, std::sqrt(3.04), 1e-12);
}

} // namespace
} // namespace shankline::tests::house_fit_test
