// Says where a shoe's board ends now and whether its pair has ended. Labels and the care page of a
// pair that was ordered earlier print it.
#pragma once

#include "geometry/board/trim_line.hpp"

#include <optional>
#include <string>

namespace shankline {

struct ShoeSince {
  std::optional<double> cut_off; ///< mm from the board's heel end, where it ends now
  std::string day;               ///< since when it ends there, YYYY-MM-DD
  std::string ended;             ///< the pair is used no longer: "2026-03-10: board"
  /// A try speaks against cutting on: "seen pain 2026-03-20"; else empty.
  std::string stopped = {};

  /// Returns true if the board was cut as far as that line, to tenths.
  bool has_reached(const CutLine& line) const {
    return cut_off && *cut_off >= line.centre.mm() - 0.05;
  }
};

struct PairSince {
  ShoeSince left, right;
};

} // namespace shankline
