// The banded programme against an exact solver for quadratic programmes, in numbers of any length.
#include "geometry/strip/contact_mesh.hpp"

#include "tests/geometry/contact_problems.hpp"

#include <CGAL/Gmpzf.h>
#include <CGAL/QP_functions.h>
#include <CGAL/QP_models.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace shankline::tests::banded_programme_exact_test {
namespace {

/// Bland's rule and bounds of zero written as bounds: its default pricing and its own variant for
/// x ≥ 0 are known to fail from about 120 unknowns on, silently. Its validator is asked every time.
std::vector<double> exact_solution(const BandedProgramme& p) {
  using Program = CGAL::Quadratic_program<double>;
  Program qp(CGAL::SMALLER, true, 0, false, 0);
  const auto index = [](std::size_t i) { return static_cast<int>(i); };
  for (std::size_t i = 0; i < p.size(); ++i) {
    qp.set_c(index(i), p.linear[i]);
    qp.set_d(index(i), index(i), p.diagonal[i]); // takes 2D, minimises xᵀDx
    if (i + 1 < p.size()) qp.set_d(index(i + 1), index(i), p.beside[i]);
    if (i + 2 < p.size()) qp.set_d(index(i + 2), index(i), p.beyond[i]);
  }
  CGAL::Quadratic_program_options options;
  options.set_pricing_strategy(CGAL::QP_BLAND);
  auto solution = CGAL::solve_quadratic_program(qp, CGAL::Gmpzf(), options);
  EXPECT_TRUE(solution.is_optimal());
  EXPECT_TRUE(solution.solves_quadratic_program(qp));
  std::vector<double> x;
  for (auto it = solution.variable_values_begin(); it != solution.variable_values_end(); ++it)
    x.push_back(CGAL::to_double(*it));
  x.resize(p.size());
  return x;
}

void expect_exact(const ContactProblem& problem, int cells) {
  const StripIntegrals strip(problem.strip, problem.pull, problem.clamp, problem.end);
  const BandedProgramme p = contact_mesh(problem, strip, cells).programme;
  const std::vector<double> exact = exact_solution(p);
  const double most = *std::max_element(exact.begin(), exact.end());
  const ProgrammeSolution active = solve_active_set(p, std::vector<char>(p.size()));
  const ProgrammeSolution interior = solve_interior_point(p);
  ASSERT_TRUE(active.converged);
  ASSERT_TRUE(interior.converged);
  for (std::size_t i = 0; i < p.size(); ++i) {
    EXPECT_NEAR(active.x[i], exact[i], 1e-6 * std::max(1.0, most)) << i;
    EXPECT_NEAR(interior.x[i], exact[i], 1e-5 * std::max(1.0, most)) << i << ": stops at 1e-8";
  }
}

TEST(LongBandedProgrammeExact, WorkedCase) {
  for (const double trim : {0.0, 61.0, 75.0})
    expect_exact(worked_contact(0.05, trim), 43);
  expect_exact(worked_contact(0.05, 61), 80);
}

TEST(LongBandedProgrammeExact, RandomCases) {
  Draw draw(81);
  for (int i = 0; i < 12; ++i) {
    SCOPED_TRACE(i);
    ContactProblem problem = random_contact(draw).problem;
    if (i % 3 == 0) // strips that lie on the foot in places
      for (PullStretch& p : problem.pull)
        p.at_from = p.at_to = draw.uniform(0.2, 1);
    expect_exact(problem, 40);
  }
}

} // namespace
} // namespace shankline::tests::banded_programme_exact_test
