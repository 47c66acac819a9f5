#include "geometry/numerics/banded_programme.hpp"

#include "tests/geometry/random_orders.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

namespace shankline::tests::banded_programme_test {
namespace {

/// LLᵀ of a drawn band matrix, so positive definite; loads of both signs.
BandedProgramme random_programme(Draw& draw, std::size_t n) {
  std::vector<double> l0(n), l1(n), l2(n);
  BandedProgramme p;
  p.diagonal.resize(n);
  p.beside.resize(n - 1);
  p.beyond.resize(n - 2);
  p.linear.resize(n);
  for (std::size_t i = 0; i < n; ++i) {
    l0[i] = draw.uniform(0.5, 2);
    l1[i] = i > 0 ? draw.uniform(-1.5, 1.5) : 0; // row i, column i − 1
    l2[i] = i > 1 ? draw.uniform(-1, 1) : 0;
    p.linear[i] = draw.uniform(-1, 1);
  }
  for (std::size_t i = 0; i < n; ++i) {
    p.diagonal[i] = l0[i] * l0[i] + l1[i] * l1[i] + l2[i] * l2[i];
    if (i + 1 < n) p.beside[i] = l0[i] * l1[i + 1] + l1[i] * l2[i + 1];
    if (i + 2 < n) p.beyond[i] = l0[i] * l2[i + 2];
  }
  return p;
}

double energy(const BandedProgramme& p, const std::vector<double>& x) {
  double e = 0;
  for (std::size_t i = 0; i < p.size(); ++i) {
    e += p.linear[i] * x[i] + p.diagonal[i] * x[i] * x[i] / 2;
    if (i + 1 < p.size()) e += p.beside[i] * x[i] * x[i + 1];
    if (i + 2 < p.size()) e += p.beyond[i] * x[i] * x[i + 2];
  }
  return e;
}

TEST(BandedProgramme, OneFreeOneHeld) {
  // ½(2x² + 2y² + z²) − 2x + y − z: x = 1, y held, z = 1.
  const BandedProgramme p{{2, 2, 1}, {0, 0}, {0}, {-2, 1, -1}};
  for (const ProgrammeSolution& s :
       {solve_active_set(p, {0, 0, 0}), solve_active_set(p, {1, 1, 1}), solve_interior_point(p)}) {
    EXPECT_TRUE(s.converged);
    EXPECT_NEAR(s.x[0], 1, 1e-7);
    EXPECT_NEAR(s.x[1], 0, 1e-7);
    EXPECT_NEAR(s.x[2], 1, 1e-7);
    EXPECT_NEAR(s.force[1], 1, 1e-7);
    EXPECT_EQ(s.held, (std::vector<char>{0, 1, 0}));
  }
}

// How stiff the matrix is must not decide when a solution is good enough.
TEST(BandedProgramme, AStiffMatrixIsSolvedAsWellAsASoftOne) {
  for (const double stiff : {1e-12, 1e-6, 1e6, 1e12}) {
    const BandedProgramme p{{2 * stiff, 2 * stiff, stiff}, {0, 0}, {0}, {-2, 1, -1}};
    const ProgrammeSolution s = solve_interior_point(p);
    EXPECT_TRUE(s.converged) << stiff;
    EXPECT_NEAR(s.x[0] * stiff, 1, 1e-6) << stiff;
    EXPECT_NEAR(s.x[1] * stiff, 0, 1e-6) << stiff;
    EXPECT_NEAR(s.x[2] * stiff, 1, 1e-6) << stiff;
    EXPECT_NEAR(s.force[1], 1, 1e-6) << stiff;
  }
}

TEST(BandedProgramme, AllHeldWhenEveryLoadPresses) {
  const BandedProgramme p{{3, 3, 3, 3}, {1, 1, 1}, {0.5, 0.5}, {1, 2, 3, 4}};
  const ProgrammeSolution s = solve_active_set(p, {0, 0, 0, 0});
  EXPECT_TRUE(s.converged);
  for (const double x : s.x)
    EXPECT_EQ(x, 0);
  EXPECT_EQ(s.force, p.linear);
}

TEST(BandedProgramme, WithoutALoadNothingMoves) {
  const BandedProgramme p{{2, 2, 1}, {0.5, 0.25}, {0.1}, {0, 0, 0}};
  for (const ProgrammeSolution& s : {solve_active_set(p, {0, 0, 0}), solve_interior_point(p)}) {
    EXPECT_TRUE(s.converged);
    for (const double x : s.x)
      EXPECT_NEAR(x, 0, 1e-100);
  }
}

TEST(BandedProgramme, AgainstEverySetOfHeldUnknowns) {
  // Nine unknowns have 512 sets: the one that satisfies the conditions is found by trying all.
  Draw draw(7);
  constexpr std::size_t n = 9;
  int by_active_set = 0;
  for (int trial = 0; trial < 60; ++trial) {
    const BandedProgramme p = random_programme(draw, n);
    const ProgrammeSolution ip = solve_interior_point(p);
    ASSERT_TRUE(ip.converged);
    double least = HUGE_VAL;
    for (unsigned set = 0; set < 1U << n; ++set) {
      // Dense elimination over the free ones.
      std::vector<std::size_t> free;
      for (std::size_t i = 0; i < n; ++i)
        if ((set >> i & 1U) == 0) free.push_back(i);
      const std::size_t m = free.size();
      const auto h = [&](std::size_t i, std::size_t j) {
        if (i > j) std::swap(i, j);
        return j == i ? p.diagonal[i] : j == i + 1 ? p.beside[i] : j == i + 2 ? p.beyond[i] : 0.0;
      };
      std::vector<std::vector<double>> a(m, std::vector<double>(m + 1));
      for (std::size_t i = 0; i < m; ++i) {
        for (std::size_t j = 0; j < m; ++j)
          a[i][j] = h(free[i], free[j]);
        a[i][m] = -p.linear[free[i]];
      }
      for (std::size_t k = 0; k < m; ++k)
        for (std::size_t i = k + 1; i < m; ++i)
          for (std::size_t j = m + 1; j-- > k;)
            a[i][j] -= a[i][k] / a[k][k] * a[k][j];
      std::vector<double> x(n, 0);
      bool allowed = true;
      for (std::size_t k = m; k-- > 0;) {
        double sum = a[k][m];
        for (std::size_t j = k + 1; j < m; ++j)
          sum -= a[k][j] * x[free[j]];
        x[free[k]] = sum / a[k][k];
        allowed = allowed && x[free[k]] >= -1e-12;
      }
      if (allowed) least = std::min(least, energy(p, x));
    }
    EXPECT_NEAR(energy(p, ip.x), least, 1e-7);
    const ProgrammeSolution active = solve_active_set(p, std::vector<char>(n));
    if (!active.converged) continue; // may cycle on matrices that no strip has
    ++by_active_set;
    EXPECT_NEAR(energy(p, active.x), least, 1e-10);
    EXPECT_LE(active.residual, programme_tolerance);
  }
  EXPECT_GE(by_active_set, 30);
}

TEST(BandedProgramme, GivesUpWithoutAnAnswer) {
  const BandedProgramme indefinite{{1, -1, 1}, {0, 0}, {0}, {-1, -1, -1}};
  EXPECT_FALSE(solve_active_set(indefinite, {0, 0, 0}).converged);
  Draw draw(8);
  const BandedProgramme p = random_programme(draw, 50);
  EXPECT_FALSE(solve_interior_point(p, 2).converged);
  EXPECT_GT(solve_interior_point(p, 2).residual, programme_tolerance);
}

} // namespace
} // namespace shankline::tests::banded_programme_test
