// Fits how long a pair lasts: hours on pointe until it is done, from pairs that ended and pairs
// that are still in use.
//
// A lifetime T is Weibull, ln T = μ + s · W with W standard extreme-value (smallest): the chance of
// lasting beyond t is exp(−(t/e^μ)^(1/s)). A pair that is still in use says only that T lies beyond
// its hours so far (censored on the right). Maximum likelihood by Newton's method in μ and ln s,
// with standard errors from the second derivatives, as survreg of R's package survival parametrizes
// it.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

namespace shankline {

/// One pair: hours over 0 (any unit of time will do, as long as it is one), and whether it is done.
struct PairLife {
  double hours = 0;
  bool ended = false; ///< else it was still in use after these hours
};

struct WeibullLife {
  double log_scale_hours = 0; ///< μ: ln of the hours that 37 % of pairs reach
  double log_scale_se = 0;    ///< standard error of μ
  double log_shape = 0;       ///< ln s; s = 1 is a constant risk, below 1 pairs wear out
  double log_shape_se = 0;

  double quantile(double share) const; ///< hours by which this share (0 to 1) of pairs is done
  double survival(double hours) const; ///< chance of lasting beyond
};

/// Returns nullopt if fewer than two ended lifetimes differ, since the spread would be unknown, or
/// if a figure is out of range.
std::optional<WeibullLife> fit_lifetimes(std::span<const PairLife> pairs);

/// A step of the product-limit estimate (Kaplan and Meier, J. Am. Stat. Assoc. 53 (1958) 457–481;
/// from memory): the share that lasts beyond `hours`.
struct SurvivalStep {
  double hours;
  double share;
  /// Standard error of ln share (Greenwood; from memory).
  double log_se;
};
std::vector<SurvivalStep> survival_steps(std::span<const PairLife> pairs);

/// The first hours at which at most half still last; nothing while more than half do.
std::optional<double> median_life(std::span<const SurvivalStep> steps);
/// Its lower limit at 95 %: the first hours at which the lower limit of the share, from
/// ln share − 1.96 log_se, is at most half.
std::optional<double> median_life_at_least(std::span<const SurvivalStep> steps);

/// The number of ended pairs from which a dancer has a scale of her own.
inline constexpr int ended_pairs_for_own_scale = 3;

/// One dancer's pairs within the house's.
struct DancerLife {
  std::string dancer;
  WeibullLife life; ///< the house's shape; her own scale, or the house's
  bool own_scale = false;
  int ended = 0;
};

/// Shrinks each dancer's own μ to the house's: with the house's shape, her own μ̂ has variance s²/d
/// about the true one (d her ended pairs), and true ones are spread about the house's with
/// standard deviation `spread` in ln hours (from memory).
std::vector<DancerLife>
dancers_lives(const WeibullLife& house,
              std::span<const std::pair<std::string, std::vector<PairLife>>> dancers,
              double spread = 0.4);

} // namespace shankline
