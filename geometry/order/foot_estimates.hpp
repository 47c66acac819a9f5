// Estimates missing readings from those that were taken, and finds unlikely ones.
#pragma once

#include "geometry/order/finding.hpp"
#include "geometry/order/order.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace shankline {

/// One line of the published regressions on foot length: estimate = slope·length + intercept ± sd,
/// and the 1st and 99th percentile of the ratio to foot length.
struct FootRegression {
  std::string_view key; ///< "ball_length"
  double slope;
  double intercept;
  double sd;
  double ratio_p1;
  double ratio_p99;
};
/// ANSUR II (2012), NATICK/TR-15/007; null for a key that has none.
const FootRegression* foot_regression(Population population, std::string_view key);

inline constexpr double likely_foot_least = 195; ///< mm, from memory
inline constexpr double likely_foot_most = 275;  ///< mm
/// A foot shorter than this counts as growing unless the order says otherwise, mm; from memory.
inline constexpr double growing_below = 215;

/// Between which figures a reading mostly lies.
struct UsualRange {
  double least;
  double most;

  bool holds(double value) const { return value >= least && value <= most; } ///< its ends too
};

/// Most boards end this far ahead of the inside back, mm (common practice, from memory).
inline constexpr UsualRange usual_insets{2, 10};

/// Between which figures a reading of a foot of this length mostly lies (nothing where no rule
/// tells): foot length as above, ratios from the 1st to the 99th percentile, estimates from memory
/// give or take twice their spread, from the back of the heel, as on the bare foot. A board's inset
/// is that of any foot.
std::optional<UsualRange> usual_range(Population population, std::string_view key,
                                      std::optional<double> foot_length);

/// "If this is in centimetres, write 0.5 cm. " where ten times the value, mm, is usual; else empty.
std::string in_centimetres_words(const UsualRange& usual, double value);

/// True if a foot length, mm, lies between the 1st and the 99th percentile of the survey's feet of
/// this population: women 219 to 276, men 242 to 302 (ANSUR II).
bool inside_survey(Population population, double foot_length);

// Estimates from the foot length. Outside the survey's range their spread is doubled (from memory),
// and the source says so.

/// The estimate by the regression of `key`, which must have one, ± its residual standard deviation;
/// mm.
Reading estimated_by_length(Population population, std::string_view key, double foot_length);
Reading estimated_ball_length(Population population, double foot_length);
/// An estimate measured from the back of the heel, mm; from memory.
Reading estimated_heel_front(Population population, double foot_length);
Reading estimated_fold();                        ///< 6 ± 3, from memory
double default_wing_station(double foot_length); ///< 158/238 of foot length, from memory

/// The estimate that replaces a missing reading, as it is listed beside the result.
struct Estimated {
  std::string key;    ///< "ball_length"
  std::string name;   ///< "ball length"
  double value;       ///< mm, in the order's pose
  double sd;          ///< mm
  std::string source; ///< "foot length, 1,986 measured women"
};

/// Cautions: foot length outside 195 to 275 and ratios to foot length outside the published 1st to
/// 99th percentile. `path` is "feet.left".
Findings unlikely_readings(const Foot& foot, Population population, const std::string& path);

} // namespace shankline
