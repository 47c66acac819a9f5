// What happened to a cut pair afterwards, as somebody noted it.
#pragma once

#include <optional>
#include <string>

namespace shankline {

struct Outcome {
  std::string seen;            ///< on pointe: one of `seen_words`, or a word of an earlier version
  std::optional<double> gap;   ///< between arch and shoe, mm
  std::optional<int> comfort;  ///< 1 (bad) to 5 (good)
  std::optional<double> hours; ///< worn
  std::optional<int> days;     ///< on which it was worn
  std::optional<double> further; ///< cut off since, mm
  std::string ended;             ///< how the pair's use ended
  std::string words;

  bool operator==(const Outcome&) const = default;
};

bool says_nothing(const Outcome& outcome);

/// "seen too-low, gap 2.0, comfort 4 of 5, 12.0 h on 5 days, 3.0 more cut off"
std::string outcome_words(const Outcome& outcome);

} // namespace shankline
