// Small slopes against a geometrically exact rod.
#include "geometry/strip/contact.hpp"

#include "tests/geometry/contact_problems.hpp"
#include "tests/geometry/exact_rod.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <numbers>
#include <vector>

namespace shankline::tests::contact_rod_test {
namespace {

constexpr double degree = std::numbers::pi / 180;

TEST(ContactRod, WorkedCaseOfTheOtherRod) {
  // Gaps of an exact rod of 172 segments written apart from this project, printed to two decimals.
  struct Row {
    double pull, trim, gap;
  };
  for (const Row& row : {Row{0, 0, 5.47}, Row{0, 61, 5.10}, Row{0, 75, 4.43}, Row{0.05, 0, 4.16},
                         Row{0.05, 61, 4.49}, Row{0.05, 75, 3.94}}) {
    const RodShape rod = exact_rod(worked_contact(row.pull, row.trim), 172);
    EXPECT_TRUE(rod.converged);
    EXPECT_NEAR(rod.largest_gap, row.gap, 0.01 * row.gap) << row.pull << ", " << row.trim;
  }
}

// The rod samples the stiffness by 200 parts a joint: an independent, finer discretisation. The
// bevel's share in the gap is larger than what the two differ by.
TEST(ContactRod, BevelOfACutLayer) {
  double without = 0;
  double rod_without = 0;
  for (const double bevel : {0.0, 6.0, 12.0, 20.0}) {
    ContactProblem problem = worked_contact(0.05, 0);
    problem.strip.thinned = ThinnedStretch{172 - 61, problem.strip.board_end, 0.5, bevel};
    const ContactResult result = solve_contact(problem);
    ASSERT_TRUE(result.solution);
    ContactOptions by_nodes;
    by_nodes.closed_form = false;
    by_nodes.programme_cells = 1376;
    const ContactResult programme = solve_contact(problem, by_nodes);
    ASSERT_TRUE(programme.solution);
    const RodShape rod = exact_rod(problem, 172);
    ASSERT_TRUE(rod.converged);
    const double gap = result.solution->figures.gap;
    EXPECT_NEAR(gap, programme.solution->figures.gap, 1e-3) << bevel;
    EXPECT_NEAR(result.solution->figures.heel_pry, programme.solution->figures.heel_pry,
                1e-3 * programme.solution->figures.heel_pry)
        << bevel;
    EXPECT_NEAR(gap, rod.largest_gap, 0.02 * rod.largest_gap) << bevel;
    if (bevel == 0) {
      without = gap;
      rod_without = rod.largest_gap;
      continue;
    }
    EXPECT_NEAR(gap / without, rod.largest_gap / rod_without, 3e-3) << bevel;
    EXPECT_GT(std::abs(gap / without - 1), 4e-3) << bevel;
  }
}

double value_at(const std::vector<double>& u, const std::vector<double>& v, double at) {
  const auto next = static_cast<std::size_t>(std::lower_bound(u.begin(), u.end(), at) - u.begin());
  if (next == 0) return v.front();
  if (next == u.size()) return v.back();
  const double h = u[next] - u[next - 1];
  return h > 0 ? v[next - 1] + (v[next] - v[next - 1]) * (at - u[next - 1]) / h : v[next];
}

void expect_rod_agrees(std::uint64_t seed, int count, int links) {
  Draw draw(seed);
  int curvatures = 0;
  double worst_gap = 0;
  double worst_curvature = 0;
  for (int i = 0; i < count; ++i) {
    SCOPED_TRACE("draw " + std::to_string(i));
    ContactProblem problem = random_contact(draw).problem;
    problem.arch.bend = std::min(problem.arch.bend, draw.uniform(15, 40) * degree);
    const ContactResult result = solve_contact(problem);
    ASSERT_TRUE(result.solution);
    const RodShape rod = exact_rod(problem, links);
    ASSERT_TRUE(rod.converged);
    const ContactSolution& s = *result.solution;
    worst_gap = std::max(worst_gap, std::abs(s.figures.gap / rod.largest_gap - 1));
    EXPECT_NEAR(s.figures.gap, rod.largest_gap, 0.04 * rod.largest_gap);
    // The rod's own mesh is too coarse where the stiffness changes or the contact begins.
    const double apart = 4 * rod.step;
    for (std::size_t k = 4; k + 4 < rod.curvature.size(); ++k) {
      const double u = rod.u[k];
      const double to_bevel = problem.strip.board_end - problem.strip.bevel;
      if (u > to_bevel - apart && u < problem.strip.board_end + apart) continue;
      if (std::abs(u - s.touches_at) < apart || u > s.touches_at) continue;
      ++curvatures;
      // The rod uses up less length than the foot under it: a millimetre in place is allowed.
      const double here = value_at(s.curves.u, s.curves.curvature, u);
      const double ahead = value_at(s.curves.u, s.curves.curvature, u - 1);
      const double behind = value_at(s.curves.u, s.curves.curvature, u + 1);
      const double off = std::max({0.0, rod.curvature[k] - std::max({here, ahead, behind}),
                                   std::min({here, ahead, behind}) - rod.curvature[k]}) /
                         s.figures.peak_curvature;
      worst_curvature = std::max(worst_curvature, off);
      EXPECT_LE(off, 0.04) << "at " << u;
    }
  }
  EXPECT_GE(curvatures, 20 * count);
  ::testing::Test::RecordProperty("worst_gap_permille", static_cast<int>(1000 * worst_gap));
  ::testing::Test::RecordProperty("worst_curvature_permille",
                                  static_cast<int>(1000 * worst_curvature));
}
TEST(ContactRod, AgreesUpToFortyDegrees) {
  expect_rod_agrees(71, 20, 100);
}
TEST(LongContactRod, AgreesUpToFortyDegrees) {
  expect_rod_agrees(72, 200, 172);
}

} // namespace
} // namespace shankline::tests::contact_rod_test
