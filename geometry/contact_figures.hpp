// A solved strip, read as a fitter reads it.
#pragma once

#include "geometry/contact.hpp"

namespace shankline {

ContactFigures read_figures(const ContactProblem& problem, const ContactCurves& curves,
                            const std::vector<ContactForce>& forces);

/// A cubic from values and slopes at both ends of a cell of length h, at t in [0, 1].
double hermite(double g0, double s0, double g1, double s1, double h, double t);

} // namespace shankline
