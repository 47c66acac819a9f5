// The trim line of the board: rule, window, skew, and the lines that the knife follows.
#pragma once

#include "geometry/board/board_outline.hpp"
#include "geometry/numerics/degree.hpp"
#include "geometry/order/order.hpp"
#include "geometry/order/station.hpp"
#include "geometry/plane/point.hpp"

#include <array>
#include <optional>
#include <string_view>

namespace shankline {

/// A straight line across the board. It passes through (centre, 0) and leans by `skew`.
struct CutLine {
  BoardStation centre;  ///< on the centre line
  BoardStation medial;  ///< where it meets the big-toe edge
  BoardStation lateral; ///< and the little-toe edge
  Point medial_end;     ///< those places as points
  Point lateral_end;
};

/// The line through (centre, 0) at angle `skew` (radians, positive: the medial end lies nearer the
/// toes) meets both edges. Returns nullopt if it misses one.
std::optional<CutLine> cut_line(const BoardOutline& outline, BoardStation centre, double skew);

/// Angle of a line through two break marks, `across` apart: atan((medial − lateral)/across).
double skew_angle(FootStation medial, FootStation lateral, double across);

// Figures of common practice, without a published source. Lengths are in mm.
inline constexpr double largest_skew = 15 * degree;
inline constexpr double first_cut_in_hand = 6;      ///< the first cut stops this far short, or more
inline constexpr double right_half_width = 3;       ///< a board this far off still counts as right
inline constexpr double least_first_cut = 10;       ///< less than this does not come off in a piece
inline constexpr double filed_at_most = 16;         ///< up to this much may be filed off instead
inline constexpr double lift_past_cut = 10;         ///< the board is lifted this far past the cut
inline constexpr double witness_ahead_of_stop = 15; ///< at least, from the stop line to the witness

/// Reaches that go by a name: common practice, no source, from memory.
struct ReachPreset {
  std::string_view name;
  double reach;
};
inline constexpr ReachPreset short_reach{"short", 0.75};
inline constexpr ReachPreset edge_reach{"edge", 1};
inline constexpr ReachPreset tucked_reach{"tucked", 1.15};
inline constexpr std::array reach_presets{short_reach, edge_reach, tucked_reach};
ReachRule rule_of(const ReachPreset& preset);

/// x_t = x_b − ρ (x_b − x_hf)
FootStation station_of_reach(double reach, FootStation break_at, FootStation heel_front);
double reach_of_station(FootStation station, FootStation break_at, FootStation heel_front);

/// Readings that the rules other than a reach use, mm.
struct RuleReadings {
  double whole = 0;   ///< of a KeepRule: the length that its fraction is taken of
  double mark = 0;    ///< of a MarkRule: from the board's heel end
  double learned = 0; ///< of a LearnedRule: from the back of the heel
};
/// The place on the foot and on the board where the rule ends the board.
struct RuleLine {
  FootStation foot;
  BoardStation board;
};
/// The one arithmetic of the rules: the solver and the uncertainty model both call it.
RuleLine rule_line(const TrimRule& rule, FootStation break_at, FootStation heel_front,
                   const Frames& frames, const RuleReadings& readings);

/// Distance by which `p` lies ahead of `line`, along the board, mm; negative behind it.
double ahead_of(const CutLine& line, const Point& p);

struct Window {
  FootStation from; ///< farthest under the heel
  FootStation to;   ///< least bearing behind the break; the stop line
};
Window trim_window(FootStation break_at, FootStation heel_front, double tuck_max,
                   double bearing_min);

/// The smallest multiple of 10 mm that is at least witness_ahead_of_stop ahead of `stop`.
BoardStation witness_station(BoardStation stop);

/// The kept board's end as points from the medial edge to the lateral one: straight, or with both
/// corners rounded by tangent arcs. Returns nullopt if the corners do not fit on the line or
/// `corner` is not a length.
std::optional<Polyline> board_end(const BoardOutline& outline, const CutLine& line, BoardEnd end,
                                  double corner, double chord_error = 0.02);

/// The arcs of a rounded `end` at the medial and at the lateral edge, each to where it meets
/// `line`; both empty for a straight one.
std::array<Polyline, 2> end_corners(const Polyline& end, const CutLine& line);

} // namespace shankline
