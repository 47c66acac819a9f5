#include "geometry/uncertainty/reading_doubt.hpp"

#include "tests/geometry/random_orders.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstddef>

namespace shankline::tests::reading_doubt_test {
namespace {

Reading repeats(std::vector<double> values, double finding) {
  Reading reading;
  reading.values = std::move(values);
  reading.finding = finding;
  return reading;
}

TEST(ReadingDoubt, OneReadingWorkedByHand) {
  // h = 3: σ0² = 10/3, habit 1.5 as a half-width.
  const ReadingDoubt doubt = reading_doubt(measured(61, 3));
  EXPECT_NEAR(doubt.scatter, std::sqrt(10.0 / 3), 1e-12);
  EXPECT_NEAR(doubt.habit(), 1.5, 1e-12);
  EXPECT_NEAR(doubt.u(), std::sqrt(10.0 / 3 + 0.75), 1e-12);
  EXPECT_EQ(doubt.freedom, 8);
}

TEST(ReadingDoubt, RepeatsArePooledWithTheDefault) {
  // h = 2: σ0² = 5/3; 60, 62, 64 have s² = 4: s_p² = (8·5/3 + 2·4)/10 = 32/15.
  const ReadingDoubt doubt = reading_doubt(repeats({60, 62, 64}, 2));
  EXPECT_NEAR(doubt.scatter * doubt.scatter, 32.0 / 15, 1e-12);
  EXPECT_EQ(doubt.freedom, 10);
  EXPECT_NEAR(doubt.fresh() * doubt.fresh(), 32.0 / 45, 1e-12);
  EXPECT_NEAR(doubt.u() * doubt.u(), 32.0 / 45 + 1.0 / 3, 1e-12);
}

TEST(ReadingDoubt, HabitIsNotTakenAwayByRepeats) {
  const ReadingDoubt doubt = reading_doubt(repeats(std::vector<double>(1000, 61), 3));
  EXPECT_NEAR(doubt.u(), 1.5 / std::sqrt(3.0), 0.01);
}

TEST(ReadingDoubt, EstimateCarriesItsSpreadOnly) {
  const ReadingDoubt doubt = reading_doubt(estimate(6, 3, "common practice"));
  EXPECT_EQ(doubt.u(), 3);
  EXPECT_EQ(doubt.habit(), 0);
  EXPECT_EQ(doubt.freedom, known);
}

TEST(ReadingDoubt, AngleHasAnInstrumentOfItsOwn) {
  EXPECT_NEAR(reading_doubt(measured(0.4, 0.07), 0.02).u(),
              std::sqrt((0.02 * 0.02 + 0.07 * 0.07 + 0.035 * 0.035) / 3), 1e-12);
}

TEST(ReadingDoubt, RepeatsThatAgreeWithTheDefaultNeverWidenIt) {
  Draw draw(11);
  int tried = 0;
  for (int i = 0; i < 300; ++i) {
    const double h = draw.uniform(0.5, 5);
    const double sd = std::sqrt((1 + h * h) / 3);
    double before = INFINITY;
    for (int n = 1; n <= 8; ++n) {
      // Repeats whose sample variance is the expected one exactly.
      std::vector<double> values(static_cast<std::size_t>(n), 61.0);
      const double off = n > 1 ? sd * std::sqrt((n - 1) / 2.0) : 0;
      values.front() += off;
      values.back() -= off;
      const ReadingDoubt doubt = reading_doubt(repeats(values, h));
      ASSERT_NEAR(doubt.scatter, sd, 1e-9);
      Inputs inputs;
      add_reading(inputs, "x", "x", "left", 61, doubt);
      const double U =
          propagate(inputs, [](std::span<const double> in) { return in[0]; }).expanded();
      ASSERT_LT(U, before) << n << " readings, h " << h;
      before = U;
      ++tried;
    }
  }
  EXPECT_EQ(tried, 2400);
}

TEST(ReadingDoubt, WildRepeatsWidenLessThanTheyWouldAlone) {
  // Two readings 20 apart: alone, t for one degree of freedom would say ± 127.
  Inputs inputs;
  add_reading(inputs, "x", "x", "left", 60, reading_doubt(repeats({50, 70}, 3)));
  const double U = propagate(inputs, [](std::span<const double> in) { return in[0]; }).expanded();
  const Reading once = measured(60, 3);
  EXPECT_GT(U, 2 * reading_doubt(once).u());
  EXPECT_LT(U, 14);
}

TEST(ReadingDoubt, TakenAgainIsWhatMoreOfTheSameWouldGive) {
  const ReadingDoubt now = reading_doubt(repeats({60, 62}, 3));
  const ReadingDoubt then = taken_again(now, false, 2, 3);
  EXPECT_NEAR(then.fresh(), now.scatter / 2, 1e-12);
  EXPECT_EQ(then.freedom, 11);
  EXPECT_EQ(then.habit(), now.habit());
  const ReadingDoubt first = taken_again(reading_doubt(estimate(61, 5, "rule")), true, 1, 3);
  EXPECT_EQ(first.u(), reading_doubt(measured(61, 3)).u());
  EXPECT_EQ(first.freedom, 8);
  const ReadingDoubt twice = taken_again(reading_doubt(estimate(61, 5, "rule")), true, 2, 3);
  EXPECT_NEAR(twice.fresh() * twice.fresh(), 10.0 / 3 / 2, 1e-12);
  EXPECT_EQ(twice.habit(), 1.5);
  EXPECT_EQ(twice.freedom, 9);
}

TEST(ReadingDoubt, HabitIsSharedByKindAndTheRestIsNot) {
  Inputs inputs;
  const ReadingDoubt medial = reading_doubt(measured(97, 4));
  const ReadingDoubt lateral = reading_doubt(measured(93, 5));
  add_reading(inputs, "arch_break.medial", "arch_break", "left", 97, medial);
  add_reading(inputs, "arch_break.lateral", "arch_break", "left", 93, lateral);
  add_reading(inputs, "fold", "fold", "left", 6, reading_doubt(measured(6, 3)));
  EXPECT_EQ(inputs.sources().size(), 5U); // three fresh, two habits
  const Uncertain apart =
      propagate(inputs, [](std::span<const double> in) { return in[0] - in[1]; });
  EXPECT_NEAR(apart.u * apart.u, 17.0 / 3 + 26.0 / 3 + (2.5 - 2) * (2.5 - 2) / 3, 1e-9);
}

/// Share of intervals mean ± U that hold the truth, with the scatter as the default has it.
double covered(int n, double h, int trials, std::uint64_t seed) {
  Draw draw(seed);
  int held = 0;
  for (int i = 0; i < trials; ++i) {
    const double habit = draw.uniform(-h / 2, h / 2);
    std::vector<double> values;
    for (int k = 0; k < n; ++k)
      values.push_back(61 + habit + draw.uniform(-1, 1) + draw.uniform(-h, h));
    const Reading reading = repeats(values, h);
    Inputs inputs;
    add_reading(inputs, "x", "x", "left", reading.value(), reading_doubt(reading));
    const Uncertain x = propagate(inputs, [](std::span<const double> in) { return in[0]; });
    if (std::abs(x.value - 61) <= x.expanded()) ++held;
  }
  return static_cast<double>(held) / trials;
}

TEST(ReadingDoubt, IntervalHoldsTheTruthOfOneReading) {
  for (const int n : {1, 2, 3, 5})
    for (const double h : {1.5, 3.0, 5.0}) {
      const double share = covered(n, h, 1000, 900 + static_cast<std::uint64_t>(n));
      EXPECT_GT(share, 0.92) << n << " repeats, h " << h;
      EXPECT_LT(share, 0.995) << n << " repeats, h " << h;
    }
}

} // namespace
} // namespace shankline::tests::reading_doubt_test
