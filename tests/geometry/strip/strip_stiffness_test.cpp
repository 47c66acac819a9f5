#include "geometry/strip/strip_stiffness.hpp"

#include "geometry/strip/strip_integrals.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace shankline::tests::strip_stiffness_test {
namespace {

Strip bevelled() {
  Strip s;
  s.board = 80000;
  s.sole = 4000;
  s.board_end = 100;
  s.bevel = 12;
  s.edge_ratio = 0.25;
  return s;
}

TEST(StripStiffness, BoardBevelSole) {
  const Strip s = bevelled();
  EXPECT_NEAR(bending_stiffness(s, 50), 84000, 1e-6);
  EXPECT_NEAR(bending_stiffness(s, 94), 4000 + 80000 * std::pow(0.625, 3), 1e-2) << "half-way";
  EXPECT_NEAR(bending_stiffness(s, 100, Side::ball), 4000 + 80000 / 64.0, 1e-2) << "a quarter left";
  EXPECT_EQ(bending_stiffness(s, 100, Side::heel), 4000);
  EXPECT_EQ(bending_stiffness(s, 140), 4000);
}

TEST(StripStiffness, ThinnedStretchUnderTheBevelTheThinnerCounts) {
  Strip s = bevelled();
  s.thinned = ThinnedStretch{60, 95, 0.5};
  EXPECT_NEAR(bending_stiffness(s, 70), 4000 + 80000 / 8.0, 1e-6);
  EXPECT_NEAR(bending_stiffness(s, 90), 4000 + 80000 / 8.0, 1e-6) << "the bevel is thicker there";
  EXPECT_NEAR(bending_stiffness(s, 98), 4000 + 80000 * std::pow(0.25 + 0.75 * 2 / 12, 3), 1e-2);
  EXPECT_NEAR(bending_stiffness(s, 60, Side::ball), 84000, 1e-6);
  EXPECT_NEAR(bending_stiffness(s, 60, Side::heel), 14000, 1e-6);
  double at = 0;
  for (const StripPiece& piece : strip_pieces(s, 0, 150)) {
    EXPECT_EQ(piece.from, at);
    EXPECT_GT(piece.to, piece.from);
    at = piece.to;
    const double middle = (piece.from + piece.to) / 2;
    const double ratio = (piece.ratio_from + piece.ratio_to) / 2;
    EXPECT_NEAR(4000 + 80000 * ratio * ratio * ratio, bending_stiffness(s, middle), 2e-2);
  }
  EXPECT_EQ(at, 150);
}

void expect_pieces_follow(const Strip& s) {
  double at = 0;
  for (const StripPiece& piece : strip_pieces(s, 0, 150)) {
    EXPECT_EQ(piece.from, at);
    at = piece.to;
    for (const double part : {0.1, 0.5, 0.9}) {
      const double ratio = piece.ratio_from + part * (piece.ratio_to - piece.ratio_from);
      const double u = piece.from + part * (piece.to - piece.from);
      EXPECT_NEAR(s.sole + s.board * ratio * ratio * ratio, bending_stiffness(s, u), 2e-2) << u;
    }
  }
  EXPECT_EQ(at, 150);
}

TEST(StripStiffness, TheBevelOfACutLayerRunsOutOnTheLayerThatStays) {
  Strip s = bevelled();
  s.board_end = 140;
  s.bevel = 0;
  s.thinned = ThinnedStretch{100, 140, 0.5, 12};
  EXPECT_NEAR(bending_stiffness(s, 88), 84000, 2e-2) << "full up to the bevel";
  EXPECT_NEAR(bending_stiffness(s, 94), 4000 + 80000 * std::pow(0.75, 3), 1e-2) << "half-way";
  EXPECT_NEAR(bending_stiffness(s, 100, Side::ball), 14000, 1e-2) << "no step";
  EXPECT_NEAR(bending_stiffness(s, 139), 14000, 1e-6);
  expect_pieces_follow(s);
  s.bevel = 60; // a bevel of the end crosses the one of the layer
  s.edge_ratio = 0.25;
  expect_pieces_follow(s);
}

TEST(StripIntegrals, AgainstSums) {
  Strip s = bevelled();
  s.pre_arch = Arch{60, 0, 40, 30, 0.2};
  constexpr double clamp = 10;
  constexpr double end = 160;
  const std::vector<PullStretch> pull{{20, 120, 0.02, 0.05}, {60, 90, 0.04, 0.04}};
  const StripIntegrals strip(s, pull, clamp, end);
  const auto p = [](double u) {
    double sum = 0;
    if (u > 20 && u < 120) sum += 0.02 + 0.03 * (u - 20) / 100;
    if (u > 60 && u < 90) sum += 0.04;
    return sum;
  };
  constexpr int steps = 150000;
  constexpr double h = (end - clamp) / steps;
  StripIntegral sum;
  for (int i = 0; i < steps; ++i) {
    const double u = clamp + (i + 0.5) * h;
    if (i % 9973 == 0) {
      const StripIntegral now = strip.at(clamp + i * h);
      EXPECT_NEAR(now.even_slope, sum.even_slope, 1e-8);
      EXPECT_NEAR(now.even_shape, sum.even_shape, 1e-6);
      EXPECT_NEAR(now.lever_slope, sum.lever_slope, 1e-6);
      EXPECT_NEAR(now.lever_shape, sum.lever_shape, 1e-4);
      EXPECT_NEAR(now.load_slope, sum.load_slope, 1e-5);
      EXPECT_NEAR(now.load_shape, sum.load_shape, 1e-3);
      EXPECT_NEAR(now.pull_force, sum.pull_force, 1e-4);
      EXPECT_NEAR(now.pull_moment, sum.pull_moment, 1e-2);
    }
    const double b = bending_stiffness(s, u);
    const double half_force = sum.pull_force + p(u) * h / 2;
    const double load = own_curvature(s, u) - (sum.pull_moment + half_force * h / 2) / b;
    sum.even_shape += h * (sum.even_slope + h / 2 / b);
    sum.lever_shape += h * (sum.lever_slope + h / 2 * (u - clamp) / b);
    sum.load_shape += h * (sum.load_slope + h / 2 * load);
    sum.even_slope += h / b;
    sum.lever_slope += h * (u - clamp) / b;
    sum.load_slope += h * load;
    sum.pull_moment += h * half_force;
    sum.pull_force += h * p(u);
  }
}

} // namespace
} // namespace shankline::tests::strip_stiffness_test
