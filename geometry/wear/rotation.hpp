// Plans which pair to wear on which day, and predicts how likely two good dry pairs are and when
// the next pairs must be ordered. Days are whole numbers from any beginning; hours are hours on
// pointe.
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

/// The hours from wear until a pair is dry: common practice, no source, from memory.
inline constexpr double usual_drying_hours = 36;
/// The factor by which a pair that was worn wet dries longer, and the number of good dry pairs
/// below which there are too few: common practice, no source, from memory.
inline constexpr double wet_factor = 1.5;
inline constexpr int wanted_pairs = 2;

/// Returns the number of days from wear to the first day on which the pair is dry again.
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

/// Returns the index of the pair to wear among those that are there and good: a dry one; on stage
/// one that is kept for it before others; then the one that rested longest, the one with fewer
/// hours, the first. If none is dry, the one that is dry soonest. In class a pair that is kept for
/// the stage is worn only if there is no other one, dry or damp. Returns nullopt if no pair is
/// good. `good[i]` is not 0 if pair i is good.
std::optional<std::size_t> pair_to_wear(std::span<const RotationPair> pairs,
                                        std::span<const char> good, const DanceDay& day);

struct PlannedDay {
  DanceDay day;
  std::optional<std::size_t> pair; ///< nullopt if none is left
  bool dry = true;                 ///< else it is still damp from the last wear
  bool off_stage = false;          ///< a pair that is kept for the stage, for want of another one
};

/// Returns the expected plan: every pair lasts for its median hours. `days` must be sorted by day.
std::vector<PlannedDay> rotation_plan(std::vector<RotationPair> pairs,
                                      std::span<const DanceDay> days, const WeibullLife& life,
                                      const RotationRule& rule = {});

/// Returns for each of `days` (sorted by day) the share of runs in which fewer than `rule.wanted`
/// good dry pairs were there when it began. For its standard error see chance_error. The same seed
/// gives the same figures on every machine, and a pair keeps its draws when others are added behind
/// it.
std::vector<double> chance_of_too_few(const std::vector<RotationPair>& pairs,
                                      std::span<const DanceDay> days, const WeibullLife& life,
                                      const RotationRule& rule = {});

/// Returns the standard error of a chance drawn in so many runs.
double chance_error(double chance, std::size_t runs);

/// The largest number of pairs that is ordered at once.
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

/// Returns when to order how many pairs; nullopt if the chance stays below `limit` on all days.
/// `lead_days` pass from the order until the pairs are there.
std::optional<OrderAdvice> order_advice(const std::vector<RotationPair>& pairs,
                                        std::span<const DanceDay> days, const WeibullLife& life,
                                        int today, int lead_days, double limit = 0.05,
                                        const RotationRule& rule = {});

} // namespace shankline
