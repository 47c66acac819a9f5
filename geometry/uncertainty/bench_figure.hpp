// A figure of board, sole or upper with its doubt, from a test at the bench; or why there is none.
#pragma once

#include "geometry/numerics/result.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace shankline {

/// A figure with its doubt: lognormal, its standard deviation as a fraction of the value.
struct BenchFigure {
  double value = 0;
  double relative_sd = 0;
  std::string source; ///< in words: "grade: bends over the knee"
};

/// Relative standard deviation of a number that is given without its doubt: from memory, common
/// practice, no source.
inline constexpr double given_sd = 0.1;

double log_sd(double relative_sd); ///< standard deviation of the logarithm of a lognormal figure
double relative_sd(double log_sd); ///< and back

/// A figure far beyond the limits of the guide's row `key`, where the contact would be sought in
/// figures that the machine cannot hold. The room leaves the uncertainty's draws alone.
std::optional<Advice> beyond_any(std::string_view key, double value);

} // namespace shankline
