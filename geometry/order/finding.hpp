// What a check found in an order: an error stops the work, a caution goes onto the sheet.
#pragma once

#include <string>
#include <vector>

namespace shankline {

enum class Severity { caution, error };

/// One thing found, in the words that a fitter reads. Geometry knows no files: `key` is the dotted
/// path of the reading or wish that has to change ("feet.left.arch_break.medial"), and whoever read
/// the file turns it into a line and a column.
struct Finding {
  Severity severity = Severity::error;
  std::string key;
  std::string what;    ///< what was read and why it cannot be, or is unlikely
  std::string allowed; ///< what is allowed, with figures; may be empty for a caution
  std::string advice;  ///< what to do next
  /// Cautions of a higher rank are printed first. 0 is the usual one.
  int rank = 0;
};

// Ranks of the cautions that head a sheet.
inline constexpr int rank_of_short_board = 1;  ///< little is left behind the arch break
inline constexpr int rank_of_stop_band = 2;    ///< the line was held at the stop band, or lies in it
inline constexpr int rank_of_growing_foot = 3; ///< ask a physiotherapist or podiatrist first

using Findings = std::vector<Finding>;

bool has_error(const Findings& findings);

} // namespace shankline
