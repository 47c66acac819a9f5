// Where the board is cut: rule, window, skew, and the lines that the knife follows.
#pragma once

#include "geometry/board_outline.hpp"
#include "geometry/degree.hpp"
#include "geometry/order.hpp"
#include "geometry/point.hpp"

#include <array>
#include <optional>
#include <string_view>

namespace shankline {

/// A straight line across the board. It passes through (centre, 0) and leans by `skew`.
struct CutLine {
  double centre = 0;  ///< station X on the centre line
  double medial = 0;  ///< station X where it meets the big-toe edge
  double lateral = 0; ///< and the little-toe edge
  Point medial_end;   ///< those places as points
  Point lateral_end;
};

/// The line through (centre, 0) at angle `skew` (radians, positive: the medial end lies nearer the
/// toes) meets both edges, or nothing if it misses one.
std::optional<CutLine> cut_line(const BoardOutline& outline, double centre, double skew);

/// Angle of a line through two break marks, `across` apart: atan((medial − lateral)/across).
double skew_angle(double medial, double lateral, double across);

inline constexpr double largest_skew = 15 * degree; // common practice, no source
inline constexpr double first_cut_in_hand = 6;      // mm, likewise
inline constexpr double right_half_width = 3;       // mm, half the width of "right"; likewise
inline constexpr double least_first_cut = 10;       // mm, a first cut that comes off in one piece
inline constexpr double filed_at_most = 16;         // mm, a final cut that is filed back instead
inline constexpr double lift_past_cut = 10;         // mm, likewise
inline constexpr double witness_ahead_of_stop = 15; // mm, likewise

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
double station_of_reach(double reach, double break_at, double heel_front);
double reach_of_station(double station, double break_at, double heel_front);

/// How far ahead of a line a place lies, along the board.
double ahead_of(const CutLine& line, const Point& p);

struct Window {
  double from; ///< farthest under the heel
  double to;   ///< least bearing behind the break; the stop line
};
Window trim_window(double break_at, double heel_front, double tuck_max, double bearing_min);

/// The first whole ten that is at least 15 ahead of `stop`.
double witness_station(double stop);

/// The kept board's end as points from the medial edge to the lateral one: straight, or with both
/// corners rounded by tangent arcs. Nothing if the corners do not fit on the
/// line or `corner` is no length.
std::optional<Polyline> board_end(const BoardOutline& outline, const CutLine& line, BoardEnd end,
                                  double corner, double chord_error = 0.02);

} // namespace shankline
