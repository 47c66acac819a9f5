#include "geometry/learning/foot_filter.hpp"

#include "geometry/learning/house_coordinates.hpp"
#include "tests/geometry/learning_cases.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <memory>
#include <numbers>

namespace shankline::tests::foot_filter_test {
namespace {

FilterTables tables_at_medians(const LearningPriors& priors) {
  const HouseFigures figures = figures_at(priors, {});
  return {std::make_shared<AnswerTable>(figures, priors.slip), figures.drift, priors};
}

FootInHouse of_three(std::size_t i, const LearningPriors& priors) {
  const HouseRecords records = three_feet();
  return foot_in_house(records.feet[i], house_axes(records, priors), priors);
}

double Phi(double z) {
  return 0.5 * std::erfc(-z / std::numbers::sqrt2);
}

// Recorded from a prototype written apart from this code: every figure at its prior median, no
// habits, house or style.
TEST(FootFilter, GivesThePrototypesFigures) {
  struct Expected {
    double prior, log_likelihood, mean, variance;
  };
  const Expected expected[] = {{61.942285, -2.710296, 63.225222, 3.455575},
                               {65.454343, -2.833523, 63.115562, 4.010971},
                               {59.218263, 0, 59.218263, 22.984410}};
  const LearningPriors priors = without_jumps();
  const FilterTables tables = tables_at_medians(priors);
  for (std::size_t i = 0; i < 3; ++i) {
    const FilterFoot foot = of_three(i, priors).filter;
    EXPECT_NEAR(foot.centre, expected[i].prior, 1e-6);
    const FilterMessage message = message_of_trials(foot, tables, {0});
    EXPECT_NEAR(log_likelihood(foot, {0, 4}, message), expected[i].log_likelihood, 1e-6);
    const FilterBelief belief = belief_after(foot, {0, 4}, tables, {0}, 1);
    EXPECT_NEAR(belief.mean, expected[i].mean, 1e-6);
    EXPECT_NEAR(belief.variance, expected[i].variance, 1e-6);
  }
}

// One answer "too low" at x, without slips, politeness, or a shoe's shift: with t ~ N(μ, s²),
// P = Φ((μ − x − w)/√(s² + σ²)) = Φ(z), and t's mean becomes μ + s²/√(s² + σ²) · φ(z)/Φ(z)
// (skew-normal moments).
TEST(FootFilter, OneAnswerIsAClosedForm) {
  const LearningPriors priors = fixed_figures();
  const FilterTables tables = tables_at_medians(priors);
  for (const double end : {50.0, 58.3, 61.0, 64.7}) {
    FilterFoot foot{61, 9, {{0, 1, 0, {{end, Answer::too_low}}}}};
    const double s2 = 9 + 16, root = std::sqrt(s2 + 4), z = (61.5 - end - 3) / root;
    const FilterMessage message = message_of_trials(foot, tables, {0});
    EXPECT_NEAR(log_likelihood(foot, {0.5, 4}, message), std::log(Phi(z)), 1e-7) << end;
    const double ratio = std::exp(-z * z / 2) / std::sqrt(2 * std::numbers::pi) / Phi(z);
    const FilterBelief belief = belief_after(foot, {0.5, 4}, tables, {0}, 1);
    EXPECT_NEAR(belief.mean, 61.5 + s2 / root * ratio, 1e-6) << end;
    EXPECT_NEAR(belief.variance, s2 - s2 * s2 / (s2 + 4) * ratio * (z + ratio), 1e-5) << end;
    EXPECT_EQ(belief.jump_probability, 0); // fewer than two pairs
  }
}

// The shoe's own shift adds its variance to the noise of all answers of one shoe at once. For one
// answer that is a wider noise. The grid's Gaussian has a little more weight far out than the
// continuous one, hence the wider bound.
TEST(FootFilter, AShoesShiftWidensOneAnswer) {
  const LearningPriors priors = fixed_figures();
  const FilterTables tables = tables_at_medians(priors);
  const FilterFoot foot{61, 9, {{0, 1, 6.25, {{60, Answer::cut_too_far}}}}};
  const double z = (60 - 61 - 3) / std::sqrt(25 + 4 + 6.25);
  EXPECT_NEAR(log_likelihood(foot, {0, 4}, message_of_trials(foot, tables, {0})), std::log(Phi(z)),
              4e-4);
}

// Between two pairs t jumps with probability ρ. With answers that fix t before and after to two
// places 12 apart, Bayes' rule gives the probability of the jump.
TEST(FootFilter, AJumpIsFoundByBayesRule) {
  LearningPriors priors = fixed_figures();
  priors.noise.median = 0.3;
  priors.width.median = 0.75;
  priors.jump_probability = 0.02;
  priors.drift.median = 0.5;
  const FilterTables tables = tables_at_medians(priors);
  const auto jump_to = [&](double end) {
    const FilterFoot foot{
        61, 9, {{0, 1, 0, {{61, Answer::good}}}, {0, 1, 0, {{end, Answer::good}}}}};
    return belief_after(foot, {0, 4}, tables, {0}, 1).jump_probability;
  };
  EXPECT_LT(jump_to(61), 0.01); // staying is likelier than a jump back to the same place
  EXPECT_GT(jump_to(73), 0.999);
  EXPECT_GT(jump_to(49), 0.999);
}

TEST(FootFilter, KernelsHaveTheirVarianceAndLoseNothing) {
  for (const double variance : {0.0, 1e-6, 0.04, 0.25, 2.25, 6.25, 64.0}) {
    const GridKernel kernel = GridKernel::gaussian(variance);
    EXPECT_NEAR(kernel.variance(), variance, 1e-9 + 1e-9 * variance);
    GridValues point{};
    point[grid_places / 2] = 1;
    double sum = 0;
    for (const double value : kernel.spread(point))
      sum += value;
    EXPECT_NEAR(sum, 1, variance > 50 ? 1e-4 : 1e-12);
  }
}

// e^(−v) I_n(v) at v = 1: Abramowitz and Stegun, table 9.8 (from memory; recomputed).
TEST(FootFilter, KernelsAreBesselFunctions) {
  GridValues point{};
  point[50] = 1;
  const GridValues spread = GridKernel::gaussian(grid_step * grid_step).spread(point);
  EXPECT_NEAR(spread[50], 0.4657596076, 1e-10);
  EXPECT_NEAR(spread[51], 0.2079104154, 1e-10);
  EXPECT_EQ(spread[51], spread[49]);
}

// By Bessel functions of the library, over the whole grid and from one end of it to the other.
TEST(FootFilter, WideKernelsAreBesselFunctionsToo) {
  for (const double variance : {44.0, 46.0, 64.0, 66.0, 70.0}) {
    const GridKernel kernel =
        GridKernel::mixed(GridKernel::gaussian(0.25), GridKernel::gaussian(variance), 0.02);
    const auto weight = [](double v, std::size_t n) {
      v /= grid_step * grid_step;
      return std::exp(-v) * std::cyl_bessel_i(static_cast<double>(n), v);
    };
    for (const std::size_t from : {std::size_t{0}, std::size_t{31}, grid_places - 1}) {
      GridValues point{};
      point[from] = 1;
      const GridValues spread = kernel.spread(point);
      for (std::size_t to = 0; to < grid_places; ++to) {
        const std::size_t n = to > from ? to - from : from - to;
        const double expected = 0.98 * weight(0.25, n) + 0.02 * weight(variance, n);
        EXPECT_NEAR(spread[to], expected, 1e-13) << variance << " " << from << " " << to;
        EXPECT_GE(spread[to], 0);
      }
    }
    EXPECT_NEAR(kernel.variance(), 0.98 * 0.25 + 0.02 * variance, 1e-12);
  }
}

TEST(FootFilter, HundredsOfTrialsStayFinite) {
  FilterFoot foot{61, 9, {}};
  for (int k = 0; k < 300; ++k)
    foot.shoes.push_back({0, 1, 2.25, {{90, Answer::too_low}, {30, Answer::cut_too_far}}});
  const LearningPriors priors;
  const FilterTables tables = tables_at_medians(priors);
  const double log_l = log_likelihood(foot, {0, 4}, message_of_trials(foot, tables, {0}));
  EXPECT_TRUE(std::isfinite(log_l));
  EXPECT_LT(log_l, -1000);
  EXPECT_TRUE(std::isfinite(belief_after(foot, {0, 4}, tables, {0}, 1).mean));
}

TEST(AnswerModel, ThreeAnswersAddUpToOneAndMirror) {
  const HouseFigures figures{2.5, 1.7, 4, 0.5, 0.1};
  for (double d = -20; d <= 20; d += 0.37) {
    double sum = 0;
    for (const Answer a : {Answer::too_low, Answer::good, Answer::cut_too_far})
      sum += answer_probability(figures, 0.02, a, d);
    EXPECT_NEAR(sum, 1, 1e-14);
    EXPECT_DOUBLE_EQ(answer_probability(figures, 0.02, Answer::too_low, d),
                     answer_probability(figures, 0.02, Answer::cut_too_far, -d));
  }
  // A board much too long: low, but for slips and politeness.
  EXPECT_NEAR(answer_probability(figures, 0.02, Answer::too_low, 60), 0.98 * 0.9 + 0.02 / 3, 1e-12);
}

// With a prior that is flat over the grid the pairs may be told from the last to the first: what
// was a jump before the last pair but one is then a jump before the last.
TEST(FootFilter, TheEarlierJumpIsTheLastOfTheRowReversed) {
  const FilterTables tables = tables_at_medians(LearningPriors{});
  const FilterShoe first{0, 1, 2.25, {{56, Answer::too_low}, {59, Answer::good}}};
  FilterShoe second{0, 3, 2.25, {{62, Answer::too_low}, {65, Answer::good}}};
  FilterShoe third{0, 1, 2.25, {{66, Answer::good}}};
  const FilterPrior flat{0, 1e7};
  const FilterBelief forward = belief_after({61, 9, {first, second, third}}, flat, tables, {0}, 1);
  const double two_pairs =
      belief_after({61, 9, {first, second}}, flat, tables, {0}, 1).earlier_jump_probability;
  second.steps = 1, third.steps = 1;
  FilterShoe last = first;
  last.steps = 3;
  const FilterBelief backward = belief_after({61, 9, {third, second, last}}, flat, tables, {0}, 1);
  EXPECT_GT(forward.earlier_jump_probability, 2 * forward.jump_probability);
  EXPECT_NEAR(forward.earlier_jump_probability, backward.jump_probability, 1e-9);
  EXPECT_NEAR(forward.jump_probability, backward.earlier_jump_probability, 1e-9);
  EXPECT_EQ(two_pairs, 0);
}

TEST(AnswerModel, TheTableIsTheFormula) {
  for (const double noise : {0.3, 1.0, 2.0, 5.0}) {
    const HouseFigures figures{3, noise, 4, 0.5, 0.05};
    const AnswerTable table(figures, 0.02);
    for (const Answer answer : {Answer::too_low, Answer::good, Answer::cut_too_far}) {
      for (const double first : {-90.0, -61.23, -37.5, -11.117, 20.03}) {
        GridValues values;
        values.fill(1);
        table.multiply(values, answer, first);
        for (std::size_t i = 0; i < grid_places; ++i)
          ASSERT_NEAR(
              values[i],
              answer_probability(figures, 0.02, answer, first + grid_step * static_cast<double>(i)),
              noise < 1 ? 1e-5 : 1e-8)
              << noise << " " << first << " " << i;
      }
    }
  }
}

} // namespace
} // namespace shankline::tests::foot_filter_test
