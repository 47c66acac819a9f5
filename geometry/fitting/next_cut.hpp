// After a try: the next line, or stop.
//
// A board can be cut again, never put back. From the first cut the work goes on by small steps
// towards the final line; past it only when asked by name; into the stop band only when the order
// accepts that with a fitter's word; past the stop line never.
#pragma once

#include "geometry/board/board_outline.hpp"
#include "geometry/board/trim_line.hpp"
#include "geometry/solution/solution.hpp"

#include <optional>
#include <string>
#include <vector>

namespace shankline {

inline constexpr double cut_step = 3;    // mm a try, common practice, no source
inline constexpr double least_cut = 0.5; // mm: less than that no knife takes off; from memory
/// mm: no more than this after a step is cut off with it, half a millimetre as it is read on the
/// rule.
inline constexpr double too_little_left = 0.75;

/// The sign that was seen when the shoe was tried on.
enum class Seen {
  low, ///< it bends ahead of where the foot bends: the board is still too long
  right,
  /// It bends at the board's end, which still lies too near the heel: the board is too long.
  too_far_back,
  /// The opposite: the board's end lies ahead of the right place, and its support is gone. The
  /// board is already too short.
  cut_too_far,
  over_the_platform, ///< the dancer is carried over: too little holds her back
  pain,
};

/// Returns true if the board is still too long, so that it may be cut on.
constexpr bool is_too_long(Seen seen) {
  return seen == Seen::low || seen == Seen::too_far_back;
}

struct Tried {
  BoardStation cut_off; ///< so far, on the centre line; 0 for the uncut board
  Seen seen = Seen::low;
  bool past_final = false; ///< asked for by name, with a teacher's or fitter's word
};

enum class StopReason {
  seen_right,
  seen_too_far,
  seen_over,
  seen_pain,
  final_line,
  stop_band,
  stop_line,
  final_passed,
  band_passed,
  stop_passed
};

struct NextCut {
  std::optional<CutLine> line;    ///< absent: stop
  std::optional<StopReason> stop; ///< absent: cut
  double more = 0;                ///< mm to cut off now, on the centre line
  double left_to_final = 0;       ///< mm from there; negative past the final line
  std::string reason;             ///< in words, one or two sentences
};

/// Returns nullopt if `cut_off` is not a length on this board behind the witness line: then it was
/// measured or written down wrong.
std::optional<NextCut> next_cut(const BoardOutline& outline, const SolvedTrim& trim,
                                const Tried& tried);

/// Distance of the line at `station` back from the witness line, mm: it can be measured once the
/// heel end is gone.
double back_from_witness(const SolvedTrim& trim, BoardStation station);

/// back_from_witness as set on the rule, mm: rounded up to half millimetres, as it is shown.
double ruler_back(const SolvedTrim& trim, BoardStation station);

/// Every line from the first cut to the final one, on the centre line, for a table to fill in by
/// hand; those ahead of `end`, where the board ends already.
std::vector<BoardStation> cut_steps(const SolvedTrim& trim, BoardStation end = {});

/// The length that was probably meant by `cut_off`, where its decimal point stands one place too
/// far left: it lies short of every line, and ten times as much among the lines. nullopt where it
/// may be as it was said.
std::optional<BoardStation> meant_by_a_slip(const SolvedTrim& trim, BoardStation cut_off);

} // namespace shankline
