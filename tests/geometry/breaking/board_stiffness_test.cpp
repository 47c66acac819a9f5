#include "geometry/breaking/board_stiffness.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>
#include <tuple>

namespace shankline::tests::board_stiffness_test {
namespace {

double stiffness(double droop, double grams, double length) {
  const auto found = stiffness_from_droop(droop, grams, length);
  EXPECT_TRUE(found);
  return found ? *found : 0;
}

/// An elastic line under a dead weight at its end and along it, integrated from the clamp:
/// B θ″ = −(P + q (L − s)) cos θ, by shooting on the clamp moment. Knows no elliptic integrals.
struct Line {
  double across, shortening, slope, clamp_moment;
};
Line bent_line(double tip, double even) { // B = L = 1
  constexpr int steps = 2000;
  constexpr double h = 1.0 / steps;
  const auto run = [&](double moment) {
    double theta = 0, bend = moment, x = 0, y = 0;
    for (int i = 0; i < steps; ++i) {
      const double s = i * h;
      const auto turn = [&](double at, double angle) {
        return -(tip + even * (1 - at)) * std::cos(angle);
      };
      // Classical Runge–Kutta for the angle and its rate.
      const double a1 = bend, b1 = turn(s, theta);
      const double a2 = bend + h / 2 * b1, b2 = turn(s + h / 2, theta + h / 2 * a1);
      const double a3 = bend + h / 2 * b2, b3 = turn(s + h / 2, theta + h / 2 * a2);
      const double a4 = bend + h * b3, b4 = turn(s + h, theta + h * a3);
      const double middle = theta + h / 2 * a2;
      const double next = theta + h / 6 * (a1 + 2 * a2 + 2 * a3 + a4);
      x += h / 6 * (std::cos(theta) + 4 * std::cos(middle) + std::cos(next));
      y += h / 6 * (std::sin(theta) + 4 * std::sin(middle) + std::sin(next));
      bend += h / 6 * (b1 + 2 * b2 + 2 * b3 + b4);
      theta = next;
    }
    return std::array{bend, theta, x, y};
  };
  double low = 0;
  double high = tip + even / 2 + 1e-9; // the straight line's clamp moment
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (run(middle)[0] < 0 ? low : high) = middle;
  }
  const auto r = run(low);
  return {r[3], 1 - r[2], r[1], low};
}

struct BentRow {
  double load, across, shortening, slope;
};

// Bisshopp and Drucker, Quart. Appl. Math. 3 (1945) 272–275; Mattiasson, Int. J. Numer. Meth. Engng
// 17 (1981) 145–153 (citations from memory; values recomputed two ways).
constexpr BentRow tip_rows[] = {{0.2, 0.06636, 0.00265, 0.09964}, {0.6, 0.19235, 0.02249, 0.29074},
                                {1, 0.30172, 0.05643, 0.46135},   {2, 0.49346, 0.16064, 0.78175},
                                {3, 0.60325, 0.25442, 0.98602},   {5, 0.71379, 0.38763, 1.21537},
                                {10, 0.81061, 0.55500, 1.43029}};

TEST(BoardStiffness, LargeDeflectionTable) {
  for (const BentRow& row : tip_rows) {
    SCOPED_TRACE(row.load);
    // The tip's slope is found so that the load is the table's.
    double low = 1e-6;
    double high = std::numbers::pi / 2 - 1e-6;
    for (int i = 0; i < 60; ++i) {
      const double middle = (low + high) / 2;
      (tip_load(middle).load < row.load ? low : high) = middle;
    }
    const TipLoad t = tip_load(low);
    EXPECT_NEAR(t.droop, row.across, 6e-6);
    EXPECT_NEAR(t.shortening, row.shortening, 6e-6);
    EXPECT_NEAR(low, row.slope, 6e-6);
    const Line line = bent_line(row.load, 0);
    EXPECT_NEAR(line.across, t.droop, 1e-7);
    EXPECT_NEAR(line.shortening, t.shortening, 1e-7);
    // Exact: what the weight's lever is, the clamp carries.
    EXPECT_NEAR(line.clamp_moment / row.load, 1 - t.shortening, 1e-7);
    // The reverse: L = 120, the weight in grams.
    const double grams = row.load * 50000 / (120.0 * 120.0) / newtons_per_gram;
    EXPECT_NEAR(stiffness(row.across * 120, grams, 120), 50000, 50000 * 1e-4);
  }
}

TEST(BoardStiffness, TheTestsOwnLineUnderAnEvenLoad) {
  // Rohde, Quart. Appl. Math. 11 (1953), from memory; recomputed. It shows that the line above, by
  // which the inverse is checked, is right.
  constexpr BentRow rows[] = {{1, 0.12347, 0.00875, 0.16512},
                              {4, 0.42516, 0.10989, 0.58859},
                              {10, 0.70020, 0.34365, 1.05264}};
  for (const BentRow& row : rows) {
    const Line line = bent_line(0, row.load);
    EXPECT_NEAR(line.across, row.across, 6e-6);
    EXPECT_NEAR(line.shortening, row.shortening, 6e-6);
    EXPECT_NEAR(line.slope, row.slope, 6e-6);
  }
}

TEST(BoardStiffness, SlightDroopIsTheHandbooks) {
  // w = P L³/3B, as in Gere, Mechanics of Materials, and Roark's Formulas (from memory): b = 20,
  // h = 2, L = 100 mm, E = 200 GPa, 5 N at the tip: 0.625 mm, 0.009375 rad.
  EXPECT_NEAR(stiffness(0.625, 5 / newtons_per_gram, 100), 2666666.67, 2666666.67 * 1e-4);
  EXPECT_NEAR(stiffness(0.0625, 0.5 / newtons_per_gram, 100), 2666666.67, 1);
  EXPECT_NEAR(tip_load(0.009375).droop, 0.00625, 1e-6);
  // The two ways meet where one takes over.
  const double before = stiffness(0.0999, 100, 100) * 0.0999;
  const double after = stiffness(0.1001, 100, 100) * 0.1001;
  EXPECT_NEAR(before, after, 1e-5 * before);
}

TEST(BoardStiffness, BackAndForthOverTheWholeRange) {
  for (double slope = 0.002; slope < 1.45; slope *= 1.15) {
    const TipLoad t = tip_load(slope);
    if (t.droop > 0.9) continue;
    const double grams = t.load * 70000 / (140.0 * 140.0) / newtons_per_gram;
    EXPECT_NEAR(stiffness(t.droop * 140, grams, 140), 70000, 0.07) << slope;
  }
}

TEST(BoardStiffness, ImpossibleDroopsSayByHowMuch) {
  const auto beyond = stiffness_from_droop(130, 200, 120);
  ASSERT_FALSE(beyond);
  EXPECT_NE(beyond.why().what.find("10 more than the free length"), std::string::npos);
  const auto too_far = stiffness_from_droop(112, 200, 120);
  ASSERT_FALSE(too_far);
  EXPECT_NE(too_far.why().allowed.find("up to 108"), std::string::npos) << too_far.why().allowed;
  for (const auto& none : {stiffness_from_droop(0, 200, 120), stiffness_from_droop(10, 0, 120),
                           stiffness_from_droop(10, 200, -1), stiffness_from_droop(NAN, 200, 120)})
    EXPECT_FALSE(none);
}

TEST(BoardStiffness, GradesNumbersAndDefaults) {
  const auto of = [](const Stiffness& s) { return *board_and_sole(s); };
  EXPECT_EQ(of(Grade::one_thumb).board.value, 45000);
  EXPECT_EQ(of(Grade::two_thumbs).board.value, 70000);
  EXPECT_EQ(of(Grade::over_the_knee).board.value, 100000);
  EXPECT_EQ(of(Grade::hardly_over_the_knee).board.value, 140000);
  EXPECT_EQ(of(Grade::one_thumb).board.relative_sd, 0.25);
  EXPECT_EQ(of(Grade::one_thumb).sole.value, 4000);
  EXPECT_EQ(of(BendingStiffness{88000, 5000}).board.value, 88000);
  EXPECT_EQ(of(BendingStiffness{88000, 5000}).sole.value, 5000);
  EXPECT_EQ(of(BendingStiffness{88000, {}}).sole.value, 4000);
  EXPECT_GT(of({}).board.relative_sd, 0.25) << "nobody bent it";
  const BoardAndSole hung = of(Droop{20, 300, 120});
  EXPECT_GT(hung.board.value, 70000);
  EXPECT_LT(hung.board.relative_sd, 0.05);
}

// B ~ weight·length³/droop: tape ± 1, finding ± 0.5 and its habit ± 0.25; the scale ± 1 and ± 0.5.
TEST(BoardStiffness, AHungWeightHasTheDoubtOfItsReadings) {
  const double length = std::sqrt((1 + 0.25 + 0.0625) / 3);
  const double weight = std::sqrt((1 + 0.25) / 3);
  for (const auto& [droop, grams, free] :
       {std::tuple{20.0, 300.0, 120.0}, std::tuple{3.0, 20.0, 60.0}}) {
    const auto found = board_and_sole(Droop{droop, grams, free});
    EXPECT_NEAR(found->board.relative_sd,
                std::hypot(length / droop, 3 * length / free, weight / grams), 1e-12);
  }
}

} // namespace
} // namespace shankline::tests::board_stiffness_test
