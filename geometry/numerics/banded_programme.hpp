// A convex quadratic programme with a pentadiagonal matrix and bounds at zero:
//   minimise ½ xᵀHx + qᵀx  subject to  x ≥ 0.
// With f = Hx + q the solution is where x ≥ 0, f ≥ 0 and x·f = 0 (Karush, Kuhn and Tucker).
#pragma once

#include <cstddef>
#include <vector>

namespace shankline {

struct BandedProgramme {
  std::vector<double> diagonal; ///< H(i, i)
  std::vector<double> beside;   ///< H(i, i + 1), one fewer
  std::vector<double> beyond;   ///< H(i, i + 2), two fewer
  std::vector<double> linear;   ///< q
  std::size_t size() const { return diagonal.size(); }
};

struct ProgrammeSolution {
  bool converged = false;
  std::vector<double> x;
  std::vector<double> force; ///< f
  std::vector<char> held; ///< where x = 0 was imposed (active set), or where f > x (interior point)
  int steps = 0;          ///< factorizations
  double residual = 0;    ///< as programme_residual returns it
};

/// Largest violation of x ≥ 0 and of f ≥ 0, and largest min(x, f), each relative to the size of x
/// and of f. A converged solution has at most `programme_tolerance`.
double programme_residual(const BandedProgramme& programme, const std::vector<double>& x,
                          const std::vector<double>& force);
inline constexpr double programme_tolerance = 1e-8;

/// Primal–dual active set (Hintermüller, Ito and Kunisch, SIAM J. Optim. 13 (2002) 865–888; from
/// memory): solve with x = 0 on the set and f = 0 off it, let go where f < 0, hold where x < 0,
/// until nothing changes. If it ends, the result is exact; it gives up if a set comes again. `held`
/// is the set to begin with; the closer it is to the solution's, the fewer steps.
ProgrammeSolution solve_active_set(const BandedProgramme& programme, std::vector<char> held,
                                   int most_steps = 60);

/// Interior point with predictor and corrector (Mehrotra, SIAM J. Optim. 2 (1992) 575–601; from
/// memory). Slower; needs no set to begin with, and cannot cycle.
ProgrammeSolution solve_interior_point(const BandedProgramme& programme, int most_steps = 100);

} // namespace shankline
