// A reading: what was measured, how often, and with what doubt.
#pragma once

#include <string>
#include <vector>

namespace shankline {

/// Lengths in millimetres, angles in radians. A list of values is repeats of one reading.
struct Reading {
  std::vector<double> values; ///< never empty
  /// Half-width of the doubt of finding the place on the foot (a rectangular spread), same unit as
  /// the values. From the order (`within`), else the default of the reading guide.
  double finding = 0;
  /// An estimated value was not measured: it comes from a rule, with that rule's own spread.
  bool estimated = false;
  double estimate_sd = 0; ///< standard deviation of the estimate, 0 for a measured value
  std::string source;     ///< where an estimate comes from, in words; empty for a measured value

  /// The mean of the repeats.
  double value() const;

  bool operator==(const Reading&) const = default;
};

Reading measured(double value, double finding = 0);
Reading estimate(double value, double sd, std::string source);

} // namespace shankline
