#include "geometry/fitting/acceptance.hpp"

#include "tests/geometry/random_orders.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

namespace shankline::tests::acceptance_test {
namespace {

const SizeLimits cut_off = size_limits(53.5, {0, -1.5});

TEST(Acceptance, OneSidedCutIsJudgedInsideItsGuardBands) {
  EXPECT_EQ(cut_off.least, 52.0);
  EXPECT_EQ(cut_off.most, 53.5);
  const double U = 0.4;
  EXPECT_EQ(judge(52.8, U, cut_off), Acceptance::accepted);
  EXPECT_EQ(judge(52.4, U, cut_off), Acceptance::accepted); // the guard band's own edge
  EXPECT_EQ(judge(53.1, U, cut_off), Acceptance::accepted);
  EXPECT_EQ(judge(53.2, U, cut_off), Acceptance::not_decided);
  EXPECT_EQ(judge(53.5, U, cut_off), Acceptance::not_decided);
  EXPECT_EQ(judge(53.9, U, cut_off), Acceptance::not_decided);
  EXPECT_EQ(judge(54.0, U, cut_off), Acceptance::refused);
  EXPECT_EQ(judge(52.3, U, cut_off), Acceptance::not_decided);
  EXPECT_EQ(judge(51.6, U, cut_off), Acceptance::not_decided);
  EXPECT_EQ(judge(51.5, U, cut_off), Acceptance::refused);
}

TEST(Acceptance, OneLimitAlone) {
  const SizeLimits keep_height{30, {}};
  EXPECT_EQ(judge(31.2, 1.1, keep_height), Acceptance::accepted);
  EXPECT_EQ(judge(30.5, 1.1, keep_height), Acceptance::not_decided);
  EXPECT_EQ(judge(28.8, 1.1, keep_height), Acceptance::refused);
  EXPECT_EQ(judge(1e6, 1.1, keep_height), Acceptance::accepted);
  EXPECT_EQ(judge(28.8, 1.1, {{}, 30}), Acceptance::accepted);
  EXPECT_EQ(judge(31.2, 1.1, {{}, 30}), Acceptance::refused);
}

TEST(Acceptance, TapeCanNeverProvePlusMinusPointEight) {
  const SizeLimits limits = size_limits(60, {0.8, -0.8});
  const double tape = instrument_guide(Instrument::tape).U;
  EXPECT_FALSE(can_prove(tape, limits));
  for (double x = 55; x < 65; x += 0.05)
    EXPECT_NE(judge(x, tape, limits), Acceptance::accepted);
  EXPECT_EQ(judge(57.9, tape, limits), Acceptance::refused); // but refuse it can
  EXPECT_EQ(instrument_for(limits), Instrument::half_millimetre_rule);
}

TEST(Acceptance, InstrumentIsTheCoarsestThatWillDo) {
  EXPECT_EQ(instrument_for(cut_off), Instrument::half_millimetre_rule);
  EXPECT_EQ(instrument_for(size_limits(150, {2.5, -2.5})), Instrument::tape);
  EXPECT_EQ(instrument_for(size_limits(150, {1.2, -1.2})), Instrument::millimetre_rule);
  EXPECT_EQ(instrument_for(size_limits(3, {0.3, -0.3})), Instrument::caliper);
  EXPECT_EQ(instrument_for(size_limits(3, {0.1, -0.1})), std::nullopt);
  EXPECT_EQ(instrument_for({30, {}}), Instrument::tape);
  double coarser = INFINITY;
  std::set<std::string_view> keys;
  for (const InstrumentGuide& guide : instrument_guides()) {
    EXPECT_LT(guide.U, coarser) << guide.key;
    coarser = guide.U;
    keys.insert(guide.key);
    EXPECT_EQ(instrument_guide(guide.key), &guide);
    EXPECT_EQ(&instrument_guide(guide.instrument), &guide);
  }
  EXPECT_EQ(keys.size(), 4U);
  EXPECT_EQ(instrument_guide("eyesight"), nullptr);
}

TEST(Acceptance, WhatIsNoNumberDecidesNothing) {
  EXPECT_EQ(judge(std::nan(""), 0.4, cut_off), Acceptance::not_decided);
  EXPECT_EQ(judge(INFINITY, 0.4, cut_off), Acceptance::not_decided);
  EXPECT_EQ(judge(52.8, std::nan(""), cut_off), Acceptance::not_decided);
  EXPECT_EQ(judge(52.8, -1, cut_off), Acceptance::not_decided);
  EXPECT_EQ(judge(52.8, INFINITY, cut_off), Acceptance::not_decided);
}

TEST(Acceptance, OneRefusedLineRefusesThePair) {
  using enum Acceptance;
  EXPECT_EQ(worst(accepted, accepted), accepted);
  EXPECT_EQ(worst(accepted, not_decided), not_decided);
  EXPECT_EQ(worst(refused, not_decided), refused);
  EXPECT_EQ(worst(accepted, refused), refused);
}

TEST(Acceptance, FinerInstrumentNeverTurnsOneVerdictIntoItsOpposite) {
  Draw draw(3);
  int decided = 0;
  for (int i = 0; i < 5000; ++i) {
    const double x = draw.uniform(50, 56);
    const Acceptance coarse = judge(x, draw.uniform(0.5, 1.5), cut_off);
    const Acceptance fine = judge(x, draw.uniform(0, 0.5), cut_off);
    if (coarse == Acceptance::not_decided) continue;
    ASSERT_EQ(coarse, fine) << x;
    ++decided;
  }
  EXPECT_GT(decided, 1000);
}

/// Share of parts made exactly at a limit that are accepted, and of those that are refused.
struct AtTheLimit {
  double accepted;
  double refused;
};
AtTheLimit at_the_limit(double made, double U, const SizeLimits& limits, int trials) {
  Draw draw(71);
  int accepted = 0;
  int refused = 0;
  for (int i = 0; i < trials; ++i) {
    const Acceptance verdict = judge(made + draw.normal(0, U / 1.959964), U, limits);
    if (verdict == Acceptance::accepted) ++accepted;
    if (verdict == Acceptance::refused) ++refused;
  }
  return {static_cast<double>(accepted) / trials, static_cast<double>(refused) / trials};
}

// JCGM 106:2012, 8.3: with a guard band of U, at most 2.5 % of what lies at the limit (and so does
// not conform any more) passes; the same holds for false refusal.
TEST(Acceptance, FalseVerdictsAtTheLimitAreRare) {
  constexpr int trials = 20'000;
  const double three_se = 3 * std::sqrt(0.025 * 0.975 / trials);
  int judged = 0;
  for (const InstrumentGuide& guide : instrument_guides())
    for (const double half : {0.8, 1.5, 2.5}) {
      const SizeLimits limits = size_limits(60, {half, -half});
      for (const double made : {60 - half, 60 + half}) {
        const AtTheLimit share = at_the_limit(made, guide.U, limits, trials);
        EXPECT_LE(share.accepted, 0.025 + three_se) << guide.key << " ± " << half;
        EXPECT_LE(share.refused, 0.025 + three_se) << guide.key << " ± " << half;
        if (half > 2 * guide.U) { // room on the other side: the share is the whole tail
          EXPECT_GE(share.accepted, 0.025 - three_se) << guide.key << " ± " << half;
          ++judged;
        }
      }
    }
  EXPECT_GE(judged, 14);
}

// A value measured exactly at the limit conforms with probability one half.
TEST(Acceptance, MeasuredAtTheLimitIsNotDecided) {
  for (const double U : {0.01, 0.4, 1.1}) {
    EXPECT_EQ(judge(*cut_off.most, U, cut_off), Acceptance::not_decided) << U;
    EXPECT_EQ(judge(*cut_off.least, U, cut_off), Acceptance::not_decided) << U;
  }
}

} // namespace
} // namespace shankline::tests::acceptance_test
