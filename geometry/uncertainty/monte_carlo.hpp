// Uncertainty of a result by random draws; unlike uncertainty.hpp it assumes no linear model.
//
// JCGM 101:2008, 7.9: blocks of draws until mean, u and both ends of the interval are settled to
// the digits asked for. Sources are drawn as their shapes say; a normal one of few degrees of
// freedom as Student's t (6.4.9), a rectangular one as if its width were known.
#pragma once

#include "geometry/uncertainty/uncertainty.hpp"

#include <cstddef>
#include <cstdint>
#include <vector>

namespace shankline {

/// Which interval of probability p. Both are the same where the spread is symmetric. The ends of
/// one with equal tails are settled by far fewer draws: intervals a little to either side of the
/// shortest are as short.
enum class IntervalKind {
  shortest,    ///< 5.3.4, 7.7.4
  equal_tails, ///< as much below it as above it (5.3.3, 7.7.2)
};

struct SamplingPlan {
  std::uint64_t seed = 1;
  int digits = 2; ///< significant digits of u to settle, 1 or 2
  double p = coverage;
  IntervalKind interval = IntervalKind::shortest;
  std::size_t block = 10'000;    ///< draws a block (7.9.4 b: at least 100/(1 − p))
  std::size_t most = 10'000'000; ///< draws at which to give up
};

struct Sampled {
  double mean = 0;
  double u = 0;
  double low = 0; ///< from here to `high` is the plan's interval
  double high = 0;
  std::size_t draws = 0;
  bool settled = false; ///< twice the standard error of each figure is below half its last digit
};

/// Mean, u and interval of `function`. One seed gives the same figures with every compiler: the
/// language standard fixes the engine, and the transforms are our own.
Sampled sample(const Inputs& inputs, const Measurand& function, const SamplingPlan& plan = {});

/// Returns for each of `results` the limit below which the result lies with probability `p`, by
/// `draws` draws. Meant for a result at a bound, where first differences vanish. A draw without a
/// finite result counts as beyond every limit, so a limit may be infinite. For p = 0.95 and 240
/// draws the limit is the 229th.
std::vector<double> upper_limits(const Inputs& inputs, const Measurands& function,
                                 std::size_t results, std::size_t draws = 240, double p = coverage,
                                 std::uint64_t seed = 1);

/// Half of the last of `digits` significant digits of u: 0.5 for 50, 0.05 for 9.8 (7.9.2).
double numerical_tolerance(double u, int digits);

} // namespace shankline
