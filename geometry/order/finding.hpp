// A check's finding about an order: an error stops the work, a caution goes onto the sheet.
#pragma once

#include "geometry/numerics/result.hpp"
#include "geometry/order/key.hpp"

#include <algorithm>
#include <string>
#include <vector>

namespace shankline {

enum class Severity { caution, error };

/// One thing found, in the words that a fitter reads. Geometry knows no files: `key` is the dotted
/// path of the reading or wish that has to change ("feet.left.arch_break.medial"), and whoever read
/// the file turns it into a line and a column.
struct Finding : Advice {
  Finding() = default;
  Finding(Severity how, Key where, Advice words, int first = 0)
      : Advice(std::move(words)), severity(how), key(std::move(where)), rank(first) {}
  Finding(Severity how, Key where, std::string wrong, std::string may = {}, std::string next = {},
          int first = 0)
      : Finding(how, std::move(where), Advice{std::move(wrong), std::move(may), std::move(next)},
                first) {}

  Severity severity = Severity::error;
  Key key;
  /// Cautions of a higher rank are printed first. 0 is the usual one.
  int rank = 0;
};

// Ranks of the cautions that head a sheet.
inline constexpr int rank_of_short_board = 1; ///< little is left behind the arch break
inline constexpr int rank_of_last_pair = 1;   ///< the last pair speaks against this final line
inline constexpr int rank_of_stop_band = 2;   ///< the line was held at the stop band, or lies in it
inline constexpr int rank_of_growing_foot = 3; ///< ask a physiotherapist or podiatrist first
inline constexpr int rank_of_repeated_end = 4; ///< the first cut would repeat a cut too far

using Findings = std::vector<Finding>;

inline bool has_error(const Findings& findings) {
  return std::any_of(findings.begin(), findings.end(),
                     [](const Finding& f) { return f.severity == Severity::error; });
}

} // namespace shankline
