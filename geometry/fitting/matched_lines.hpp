// Copied lines beside what the model says: the same places, and whether the two differ.
#pragma once

#include "geometry/fitting/worn_pair.hpp"
#include "geometry/solution/solution.hpp"

#include <optional>
#include <string>
#include <vector>

namespace shankline {

struct MatchedLine {
  FootSide foot = FootSide::left;
  std::string key;  ///< "cut_off", "medial", "lateral", "back"
  std::string name; ///< "board, cut off, centre"
  Uncertain copied;
  /// The order's own line, mm; absent if the order asks for none or cannot be solved.
  std::optional<double> model;
  std::optional<double> model_U;
  std::optional<Uncertain> apart; ///< copied − model, where the model says how sure it is
};
using MatchedLines = std::vector<MatchedLine>;

/// `model` is the solution of the order as it was before the copying.
MatchedLines matched_lines(const MatchedOrder& matched, const Solution& model);

} // namespace shankline
