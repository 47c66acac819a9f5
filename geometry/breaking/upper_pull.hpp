// The pull of the upper towards the foot: a usual value, joined with the fitter's observation.
#pragma once

#include "geometry/numerics/result.hpp"
#include "geometry/order/order.hpp"
#include "geometry/strip/contact.hpp"
#include "geometry/uncertainty/bench_figure.hpp"

namespace shankline {

// Defaults from memory, common practice without a source; an order can override them.
inline constexpr double default_pull = 0.03;   ///< N/mm
inline constexpr double default_pull_sd = 0.5; ///< of the value

/// The even pull, N/mm, with which the shoe would stand off the foot by `travel`, known to
/// `travel_u` (standard uncertainty, mm). A travel says little where the gap hardly depends on the
/// pull, so it is joined with the default: of the logarithm of the pull the likeliest value, with
/// both normal, and the doubt that is left by the slope of the gap there (Laplace's approximation).
/// It lies between the default and the pull that gives the travel exactly, and is never less sure
/// than the default. `uncut` is the shoe as it was when it was thumbed up; its own pull is ignored.
/// Advice: for a travel that is none, or more than two `travel_u` above what is left of the gap
/// without any pull; a contact that is not found.
Result<BenchFigure> pull_from_travel(const ContactProblem& uncut, double travel, double travel_u,
                                     const ContactOptions& options = {});

/// The pull that the order gives: from its travel, with the doubt of one measurement of it; or a
/// number as given; otherwise the default.
Result<BenchFigure> upper_pull(const Pull& pull, const ContactProblem& uncut,
                               const ContactOptions& options = {});

} // namespace shankline
