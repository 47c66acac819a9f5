// Counts how good the lines have been: compares promised places with places that were found good.
#pragma once

#include "geometry/learning/trial_records.hpp"

#include <chrono>
#include <optional>
#include <vector>

namespace shankline {

/// Shoes ordered in one month, or in all.
///
/// "Right at once" is not a measure and is not counted: first cuts are short on purpose.
struct TrackRecord {
  std::optional<std::chrono::year_month> month; ///< of the order; absent for all together
  int shoes = 0;                                ///< with an answer that places the board
  int ended_good = 0;                           ///< of these, by the last such answer
  int cut_too_far = 0;                          ///< of these, with any such answer
  int stopped = 0;                              ///< shoes of any kind that rolled over or hurt
  /// Mean number of tries up to the first "good", over the shoes that had one.
  std::optional<double> tries_until_good;
  /// Found good less promised, mm, over the shoes that ended good and had a promise: the mean,
  /// positive where boards end farther towards the toes than promised; the standard deviation with
  /// n − 1, from two on; and how many lay inside ± U. A board is called good over a stretch, so
  /// this spread is larger than that of the right place.
  int promised = 0;
  std::optional<double> mean_off;
  std::optional<double> sd_off;
  int inside_U = 0;
};

struct TrackRecords {
  TrackRecord all;
  std::vector<TrackRecord> months; ///< oldest first, only months with shoes that were tried
};

/// Returns the counts for all shoes and for each month. Trials must be in the order in which they
/// were made.
TrackRecords track_records(const HouseRecords& records);

} // namespace shankline
