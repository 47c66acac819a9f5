#include "geometry/breaking/upper_pull.hpp"

#include "geometry/order/figure.hpp"

#include "tests/geometry/contact_problems.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace shankline::tests::upper_pull_test {
namespace {

// Tape ± 1, finding ± 2 and its habit ± 1, each rectangular.
const double one_taking = std::sqrt((1 + 4 + 1) / 3.0);

/// Without any pull the uncut worked shoe stands off by 5.54 (two programs apart from this one).
constexpr double without_pull = 5.54;

ContactProblem uncut_shoe(double bend = 1) {
  ContactProblem uncut = worked_contact(0, 0);
  uncut.arch.bend *= bend; // the more the arch bends, the more the travel tells
  return uncut;
}

double gap(ContactProblem problem, double pull) {
  problem.pull = even_pull(pull, problem.clamp, problem.heel_front);
  return solve_contact(problem).solution->figures.gap;
}

BenchFigure found(const Result<BenchFigure>& pull) {
  EXPECT_TRUE(pull);
  return pull ? *pull : BenchFigure{};
}

TEST(UpperPull, AnExactTravelComesBack) {
  for (const double pull : {0.005, 0.03, 0.08, 0.4}) {
    const BenchFigure back = found(pull_from_travel(uncut_shoe(), gap(uncut_shoe(), pull), 1e-5));
    EXPECT_NEAR(back.value, pull, pull * 1e-3);
    EXPECT_LT(back.relative_sd, 1e-3);
  }
}

TEST(UpperPull, AWorthlessTravelLeavesTheDefault) {
  for (const double travel : {0.5, 3.0, 5.0}) {
    const BenchFigure left = found(pull_from_travel(uncut_shoe(), travel, 1e4));
    EXPECT_NEAR(left.value, default_pull, default_pull * 1e-4);
    EXPECT_NEAR(left.relative_sd, default_pull_sd, default_pull_sd * 1e-4);
  }
}

// If the gap is linear in the logarithm of the pull and both are normal, the answer is the mean
// weighted by 1/u².
TEST(UpperPull, NearTheDefaultItIsTheWeightedMean) {
  const ContactProblem uncut = uncut_shoe(2);
  const double usual = gap(uncut, default_pull);
  const double slope =
      (gap(uncut, default_pull * 1.01) - gap(uncut, default_pull / 1.01)) / (2 * std::log(1.01));
  for (const double u : {0.05, 0.2, one_taking}) {
    const double weight = slope * slope / (u * u);
    const double before = 1 / std::log1p(default_pull_sd * default_pull_sd);
    const double moved = 0.01; // mm
    const BenchFigure joined = found(pull_from_travel(uncut, usual + moved, u));
    const double expected = weight / (weight + before) * moved / slope;
    EXPECT_NEAR(std::log(joined.value / default_pull), expected, 0.02 * std::abs(expected)) << u;
    EXPECT_NEAR(joined.relative_sd, std::sqrt(std::expm1(1 / (weight + before))), 2e-3) << u;
  }
}

TEST(UpperPull, ATravelLiesBetweenTheDefaultAndItsOwnPullAndIsNeverLessSure) {
  for (const double bend : {1.0, 2.0})
    for (const double own : {0.004, 0.02, 0.03, 0.05, 0.2, 1.0})
      for (const double u : {0.1, 0.5, one_taking}) {
        const double travel = gap(uncut_shoe(bend), own);
        const BenchFigure joined = found(pull_from_travel(uncut_shoe(bend), travel, u));
        EXPECT_GE(joined.value, std::min(own, default_pull) * (1 - 1e-6)) << own << ", " << u;
        EXPECT_LE(joined.value, std::max(own, default_pull) * (1 + 1e-6)) << own << ", " << u;
        EXPECT_LT(joined.relative_sd, default_pull_sd) << own << ", " << u;
      }
}

TEST(UpperPull, TheBetterKnownTheMoreATravelCounts) {
  double before = default_pull;
  double sd = default_pull_sd;
  const double travel = gap(uncut_shoe(2), 0.1);
  for (const double u : {10.0, 2.0, 0.5, 0.1}) {
    const BenchFigure joined = found(pull_from_travel(uncut_shoe(2), travel, u));
    EXPECT_GT(joined.value, before) << u;
    EXPECT_LT(joined.relative_sd, sd) << u;
    before = joined.value;
    sd = joined.relative_sd;
  }
}

TEST(UpperPull, ImpossibleTravelsSayByHowMuch) {
  const auto far = pull_from_travel(uncut_shoe(), 7.5, 0.5);
  ASSERT_FALSE(far);
  const std::string by = short_figure(7.5 - (without_pull + 2 * 0.5));
  EXPECT_NE(far.why().what.find("that is " + by + " more than the gap"), std::string::npos)
      << far.why().what;
  for (const double none : {0.0, -1.0, std::nan("")})
    EXPECT_FALSE(pull_from_travel(uncut_shoe(), none, 0.5));
}

// Too large by no more than its doubt, a travel only says that the upper hardly pulls.
TEST(UpperPull, ATravelWithinItsDoubtIsNoContradiction) {
  EXPECT_LT(found(upper_pull(Travel{without_pull + 2}, uncut_shoe())).value, default_pull);
  EXPECT_FALSE(upper_pull(Travel{without_pull + 2 * one_taking + 0.1}, uncut_shoe()));
}

TEST(UpperPull, NumberDefaultAndTravel) {
  EXPECT_EQ(found(upper_pull({}, uncut_shoe())).value, 0.03);
  EXPECT_EQ(found(upper_pull(PullForce{0.07}, uncut_shoe())).value, 0.07);
  const BenchFigure seen = found(upper_pull(Travel{4.5}, uncut_shoe()));
  const BenchFigure same = found(pull_from_travel(uncut_shoe(), 4.5, one_taking));
  EXPECT_EQ(seen.value, same.value);
  EXPECT_EQ(seen.relative_sd, same.relative_sd);
}

} // namespace
} // namespace shankline::tests::upper_pull_test
