#include "geometry/learning/pair_lifetimes.hpp"

#include "tests/geometry/random_orders.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <utility>
#include <vector>

namespace shankline::tests::pair_lifetimes_test {
namespace {

// Data `ovarian` of the R package survival (Edmunson et al. 1979): days, and whether they ended.
std::vector<PairLife> ovarian() {
  return {{59, true},    {115, true},   {156, true},   {421, false}, {431, true},   {448, false},
          {464, true},   {475, true},   {477, false},  {563, true},  {638, true},   {744, false},
          {769, false},  {770, false},  {803, false},  {855, false}, {1040, false}, {1106, false},
          {1129, false}, {1206, false}, {1227, false}, {268, true},  {329, true},   {353, true},
          {365, true},   {377, false}};
}

// R: survreg(Surv(futime, fustat) ~ 1, dist = "weibull").
TEST(PairLifetimes, GivesTheFitOfSurvreg) {
  const auto life = fit_lifetimes(ovarian());
  ASSERT_TRUE(life);
  EXPECT_NEAR(life->log_scale_hours, 7.1110381, 1e-6);
  EXPECT_NEAR(life->log_scale_se, 0.2927, 5e-5);
  EXPECT_NEAR(life->log_shape, -0.1026105, 1e-6);
  EXPECT_NEAR(life->log_shape_se, 0.2536, 5e-5);
  EXPECT_NEAR(std::exp(life->log_shape), 0.9024784, 1e-6);
  EXPECT_NEAR(life->quantile(0.1), 160.795, 1e-3);
  EXPECT_NEAR(life->quantile(0.5), 880.305, 1e-3);
  EXPECT_NEAR(life->quantile(0.9), 2601.216, 1e-2);
  EXPECT_NEAR(life->survival(life->quantile(0.3)), 0.7, 1e-12);
}

// R: survfit(Surv(futime, fustat) ~ 1): median 638, lower limit 464.
TEST(PairLifetimes, GivesTheMedianOfSurvfit) {
  const auto steps = survival_steps(ovarian());
  EXPECT_EQ(steps.size(), 12U);
  EXPECT_EQ(median_life(steps), 638);
  EXPECT_EQ(median_life_at_least(steps), 464);
}

// Without censoring the product-limit estimate is the share that is left, by counting.
TEST(PairLifetimes, WithoutPairsInUseItIsCounting) {
  const std::vector<PairLife> pairs{{4, true}, {8, true}, {8, true}, {12, true}};
  const auto steps = survival_steps(pairs);
  ASSERT_EQ(steps.size(), 3U);
  EXPECT_DOUBLE_EQ(steps[0].share, 0.75);
  EXPECT_DOUBLE_EQ(steps[1].share, 0.25);
  EXPECT_DOUBLE_EQ(steps[2].share, 0);
  EXPECT_NEAR(steps[0].log_se, std::sqrt(0.25 / (4 * 0.75)), 1e-12);
  EXPECT_EQ(median_life(steps), 8);
}

TEST(PairLifetimes, OtherUnitsOfTimeMoveTheScaleOnly) {
  std::vector<PairLife> hours = ovarian();
  for (PairLife& pair : hours)
    pair.hours *= 1e5;
  const auto a = fit_lifetimes(ovarian()), b = fit_lifetimes(hours);
  ASSERT_TRUE(a && b);
  EXPECT_NEAR(b->log_scale_hours, a->log_scale_hours + std::log(1e5), 1e-9);
  EXPECT_NEAR(b->log_shape, a->log_shape, 1e-9);
  EXPECT_NEAR(b->log_shape_se, a->log_shape_se, 1e-9);
}

TEST(PairLifetimes, TooLittleGivesNothing) {
  EXPECT_FALSE(fit_lifetimes(std::vector<PairLife>{}));
  EXPECT_FALSE(fit_lifetimes(std::vector<PairLife>{{5, true}, {9, false}}));
  EXPECT_FALSE(fit_lifetimes(std::vector<PairLife>{{5, true}, {5, true}}));
  EXPECT_FALSE(fit_lifetimes(std::vector<PairLife>{{5, true}, {0, true}, {7, true}}));
  EXPECT_FALSE(fit_lifetimes(std::vector<PairLife>{
      {5, true}, {std::numeric_limits<double>::quiet_NaN(), true}, {7, true}}));
  EXPECT_TRUE(fit_lifetimes(std::vector<PairLife>{{5, true}, {7, true}}));
}

TEST(PairLifetimes, ADancersOwnScaleIsShrunkToTheHouses) {
  const auto house = fit_lifetimes(ovarian());
  ASSERT_TRUE(house);
  const std::vector<PairLife> two{{100, true}, {120, true}, {90, false}};
  const std::vector<PairLife> three{{100, true}, {120, true}, {90, true}};
  std::vector<PairLife> many;
  for (int k = 0; k < 20; ++k)
    many.insert(many.end(), three.begin(), three.end());
  const std::vector<std::pair<std::string, std::vector<PairLife>>> dancers{
      {"M-07", two}, {"M-08", three}, {"M-09", many}};
  const auto lives = dancers_lives(*house, dancers);
  EXPECT_FALSE(lives[0].own_scale); // two ended
  EXPECT_EQ(lives[0].life.log_scale_hours, house->log_scale_hours);
  EXPECT_TRUE(lives[1].own_scale);
  // The exact mean of an exponential's (s = 1) scale is near her mean; s 0.9 hardly differs.
  const double own = std::log(103.3);
  EXPECT_LT(lives[1].life.log_scale_hours, house->log_scale_hours);
  EXPECT_GT(lives[1].life.log_scale_hours, own);
  EXPECT_NEAR(lives[2].life.log_scale_hours, own, 0.25);
  EXPECT_LT(lives[2].life.log_scale_se, lives[1].life.log_scale_se);
}

// By hand: her own scale has the variance s²/d; with the weight w of her own one, what is left of
// the house's doubt is 1 − w.
TEST(PairLifetimes, ADancersScaleIsAsSureAsItsTwoParts) {
  WeibullLife house;
  house.log_scale_hours = std::log(12.0);
  house.log_scale_se = 0.3;
  house.log_shape = std::log(0.5);
  const std::vector<std::pair<std::string, std::vector<PairLife>>> dancers{
      {"M-07", {{9, true}, {9, true}, {9, true}, {9, true}}}};
  const WeibullLife life = dancers_lives(house, dancers, 0.25).front().life;
  // s²/d is 0.25/4 and the spread 0.25² as well, so that w is a half; her own mean is ln 9.
  EXPECT_NEAR(life.log_scale_hours, (std::log(9.0) + std::log(12.0)) / 2, 1e-12);
  EXPECT_NEAR(life.log_scale_se, std::sqrt(0.0625 / 2 + 0.09 / 4), 1e-12);
  EXPECT_EQ(life.log_shape, house.log_shape);
}

/// ln likelihood as it is written in text-books: the density of a pair that ended, the chance of
/// lasting longer of any other.
double log_likelihood(const std::vector<PairLife>& pairs, double mu, double s) {
  double sum = 0;
  for (const PairLife& pair : pairs) {
    const double hazard = std::pow(pair.hours / std::exp(mu), 1 / s);
    sum -= hazard;
    if (pair.ended) sum += std::log(hazard / s);
  }
  return sum;
}

TEST(PairLifetimes, OfRandomPairsNoOtherFigureIsLikelier) {
  Draw draw(20261129);
  int fitted = 0;
  for (int i = 0; i < 200; ++i) {
    const double mu = draw.uniform(-1, 6);
    const double s = std::exp(draw.uniform(-2.5, 1));
    std::vector<PairLife> pairs;
    for (std::size_t n = 3 + draw.below(20); n > 0; --n) {
      const double life = std::exp(mu + s * std::log(-std::log(draw.uniform(0.001, 0.999))));
      const bool ended = draw.chance(0.7);
      pairs.push_back({ended ? life : life * draw.uniform(0.1, 1), ended});
    }
    const auto life = fit_lifetimes(pairs);
    if (!life) continue;
    ++fitted;
    const double at_most = log_likelihood(pairs, life->log_scale_hours, std::exp(life->log_shape));
    for (const double off_mu : {-1e-3, 0.0, 1e-3})
      for (const double off_s : {-1e-3, 0.0, 1e-3})
        EXPECT_LE(log_likelihood(pairs, life->log_scale_hours + off_mu,
                                 std::exp(life->log_shape + off_s)),
                  at_most + 1e-9)
            << i << ", " << pairs.size() << " pairs";
  }
  EXPECT_GT(fitted, 190);
}

} // namespace
} // namespace shankline::tests::pair_lifetimes_test
