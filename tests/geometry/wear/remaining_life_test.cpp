#include "geometry/wear/remaining_life.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <random>

namespace shankline::tests::remaining_life_test {
namespace {

TEST(RemainingLife, UsualPairsLastFourToTwentyHours) {
  const WeibullLife life = usual_life();
  EXPECT_NEAR(life.quantile(0.1), 4, 1e-9);
  EXPECT_NEAR(life.quantile(0.9), 20, 1e-9);
  EXPECT_LT(std::exp(life.log_shape), 1); // pairs wear out
  EXPECT_EQ(life.log_scale_se, 0.4);
}

TEST(RemainingLife, WithoutDoubtItIsTheRatioOfTwoSurvivals) {
  const WeibullLife life{std::log(12), 0, std::log(0.5), 0};
  for (const double hours : {0.0, 3.0, 11.0})
    for (const double more : {0.0, 0.5, 6.0}) {
      const double before = hours > 0 ? life.survival(hours) : 1;
      const double after = hours + more > 0 ? life.survival(hours + more) : 1;
      EXPECT_NEAR(chance_to_last(life, hours, more), after / before, 1e-12);
    }
  EXPECT_NEAR(hours_left(life, 0, 0.5), life.quantile(0.5), 1e-9);
}

TEST(RemainingLife, ConstantRiskForgetsWhatWasWorn) {
  const WeibullLife life{std::log(8), 0, 0, 0};
  for (const double hours : {0.0, 5.0, 40.0})
    EXPECT_NEAR(hours_left(life, hours, 0.5), 8 * std::log(2), 1e-9);
}

TEST(RemainingLife, APairThatWearsOutHasLessLeftTheMoreItWasWorn) {
  const WeibullLife life = usual_life();
  double before = 1e9;
  for (const double hours : {0.0, 4.0, 8.0, 16.0, 30.0}) {
    const double left = hours_left(life, hours, 0.5);
    EXPECT_LT(left, before);
    EXPECT_GT(left, 0);
    EXPECT_LT(hours_left(life, hours, 0.1), left);
    EXPECT_GT(hours_left(life, hours, 0.9), left);
    EXPECT_NEAR(chance_to_last(life, hours, left), 0.5, 1e-9);
    before = left;
  }
}

// The mean over the doubt of the scale, against draws of it.
TEST(RemainingLife, AveragesOverTheDoubtOfTheScale) {
  const WeibullLife life{std::log(12), 0.35, std::log(0.5), 0};
  std::mt19937_64 engine(3);
  std::normal_distribution<double> normal(life.log_scale_hours, life.log_scale_se);
  constexpr int draws = 400000;
  double sum = 0, square = 0;
  for (int i = 0; i < draws; ++i) {
    const WeibullLife one{normal(engine), 0, life.log_shape, 0};
    const double lasts = one.survival(11) / one.survival(5);
    sum += lasts;
    square += lasts * lasts;
  }
  const double mean = sum / draws;
  const double error = std::sqrt((square / draws - mean * mean) / draws);
  EXPECT_NEAR(chance_to_last(life, 5, 6), mean, 4 * error + 0.001);
}

} // namespace
} // namespace shankline::tests::remaining_life_test
