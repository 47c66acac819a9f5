// Which pair on which day, how likely two good dry pairs are, and when the next pairs have to be
// ordered. Days are whole numbers from any beginning; hours are hours on pointe.
//
// A pair dries for so many hours after it was worn, as common practice has it. A day of wear ends
// in the evening and the next one begins in the morning after, so a pair is dry again after as many
// days as `drying` has begun days: 36 hours are two days. How long a pair lasts is drawn: its own
// life from the Weibull distribution of pair_lifetimes.hpp, given that it is still good, and one
// shift of ln scale for all pairs of a dancer, by how well that scale is known.
#pragma once

#include "geometry/learning/pair_lifetimes.hpp"

#include <climits>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace shankline {

/// Common practice, no source, from memory: hours from wear until a pair is dry.
inline constexpr double usual_drying_hours = 36;
/// How much longer a pair dries that was worn wet, and how few good dry pairs are too few: common
/// practice, no source, from memory.
inline constexpr double wet_factor = 1.5;
inline constexpr int wanted_pairs = 2;

/// From the day of wear to the first day on which the pair is dry again.
int drying_days(double drying_hours);

struct RotationPair {
  double hours = 0;         ///< worn so far
  int last_worn = INT_MIN;  ///< day; INT_MIN if it was never worn
  int dry_from = INT_MIN;   ///< the first day on which it is dry
  int there_from = INT_MIN; ///< the first day on which it is there at all
  bool for_stage = false;   ///< kept for the stage
};

struct DanceDay {
  int day = 0;
  double hours = 0; ///< over 0
  bool on_stage = false;
};

struct RotationRule {
  double drying_hours = usual_drying_hours;
  int wanted = wanted_pairs;
  std::size_t runs = 2000; ///< of the simulation
  std::uint64_t seed = 1;
};

/// Among pairs that are there and good, the one to wear: a dry one; on stage one that is kept for
/// it before others; then the one that rested longest, the one with fewer hours, the first. None
/// dry: the one that is dry soonest. In class a pair that is kept for the stage is worn only where
/// there is no other one, dry or damp. Nothing without a pair. `good` says for each pair whether it
/// is.
std::optional<std::size_t> pair_to_wear(std::span<const RotationPair> pairs,
                                        std::span<const char> good, const DanceDay& day);

struct PlannedDay {
  DanceDay day;
  std::optional<std::size_t> pair; ///< nothing where none is left
  bool dry = true;                 ///< else it is still damp from the last wear
  bool off_stage = false;          ///< a pair that is kept for the stage, for want of another one
};

/// The plan by what is expected: a pair is taken to last for its median hours. `days` by rising
/// day.
std::vector<PlannedDay> rotation_plan(std::vector<RotationPair> pairs,
                                      std::span<const DanceDay> days, const WeibullLife& life,
                                      const RotationRule& rule = {});

/// For each of `days` (by rising day): the share of runs in which fewer than `rule.wanted` good dry
/// pairs were there when it began. Its standard error is that of so many draws. The same seed gives
/// the same figures on every machine, and a pair keeps its draws when others are added behind it.
std::vector<double> chance_of_too_few(const std::vector<RotationPair>& pairs,
                                      std::span<const DanceDay> days, const WeibullLife& life,
                                      const RotationRule& rule = {});

/// Standard error of a chance drawn in so many runs.
double chance_error(double chance, std::size_t runs);

/// More pairs than this are not ordered at once.
inline constexpr int most_ordered = 40;

struct OrderAdvice {
  int too_few_from = 0; ///< the first day on which the chance is at its limit or above
  int order_by = 0;     ///< the last day of ordering; today where that day is gone
  int there_on = 0;     ///< the day on which they come if they are ordered then
  /// The fewest that keep the chance below its limit to the end; 0 where they would come only after
  /// the last day.
  int pairs = 0;
  bool too_late = false;   ///< what is ordered today comes after `too_few_from`
  double worst_before = 0; ///< too late: the highest chance until they come
  bool enough = true;      ///< false: not even `most_ordered` pairs would do
};

/// Nothing where the chance stays below `limit` on all days. `lead_days` pass from the order until
/// the pairs are there.
std::optional<OrderAdvice> order_advice(const std::vector<RotationPair>& pairs,
                                        std::span<const DanceDay> days, const WeibullLife& life,
                                        int today, int lead_days, double limit = 0.05,
                                        const RotationRule& rule = {});

} // namespace shankline
