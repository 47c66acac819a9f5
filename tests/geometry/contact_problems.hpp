// Contact problems to test with: the worked case, closed forms' kinked foot, ordinary feet drawn.
#pragma once

#include "geometry/strip/contact.hpp"
#include "tests/geometry/random_orders.hpp"

#include <string>

namespace shankline::tests {

/// Ball 172, break 95, heel front 61, bend 27°, clamp at the ball; board and sole 96,000 N·mm²,
/// sole alone 6,000, no bevel. `trim` is a station (0: uncut).
ContactProblem worked_contact(double pull, double trim);

/// A straight foot with one kink of `bend` at u = b, on a strip of even stiffness and free length ℓ
/// with an even pull all along.
ContactProblem kinked_foot(double bend, double b, double length, double stiffness, double pull);

/// An ordinary foot in a shoe of the default grades with their spread, cut with a bevel or uncut.
struct RandomContact {
  ContactProblem problem;
  double ball, break_at, heel_front; ///< stations
};
RandomContact random_contact(Draw& draw);

/// The conditions of Karush, Kuhn and Tucker along the whole strip, from the curves and forces
/// alone: no entry, no pulling contact, force only where the gap is closed, balance of moments,
/// curvature from moment, gap from curvature. Empty, or what is wrong.
std::string broken_condition(const ContactProblem& problem, const ContactSolution& solution,
                             double tolerance = 1e-6);

} // namespace shankline::tests
