// A solved strip, read as a fitter reads it.
#pragma once

#include "geometry/strip/contact.hpp"

#include <vector>

namespace shankline {

ContactFigures read_figures(const ContactProblem& problem, const ContactCurves& curves,
                            const std::vector<ContactForce>& forces);

} // namespace shankline
