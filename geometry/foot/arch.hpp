// The arch on pointe: where the sole bends, how much, and how deep that makes it.
#pragma once

#include "geometry/numerics/degree.hpp"
#include "geometry/plane/point.hpp"

#include <optional>

namespace shankline {

/// The sole's curvature along u, the distance from the ball towards the heel: an asymmetric raised
/// cosine that peaks at the break,
///   κ(u) = bend · 2/(Wf + Wh) · ½(1 + cos(π (u − u_break)/W)),  W = Wf ahead of the break, Wh
///   behind.
/// Millimetres and radians.
struct Arch {
  double to_break;     ///< u of the break: ball to break along the sole
  double to_chord_end; ///< u where the straightedge of the depth reading ends (mid-pad)
  double width_front;  ///< Wf; an ordinary foot: ball to break
  double width_heel;   ///< Wh; an ordinary foot: break to heel front
  double bend;         ///< Θ, the whole angle
};

/// The arch of an ordinary foot from stations on it (from the back of the heel):
/// heel_front < break_at < ball.
Arch arch_of_foot(double ball, double break_at, double heel_front, double bend);

double peak_curvature(const Arch& arch);          ///< κ at the break, 1/mm
double curvature(const Arch& arch, double u);     ///< 1/mm
double tangent_angle(const Arch& arch, double u); ///< ∫κ from 0 to u, closed form
Point sole_point(const Arch& arch, double u);     ///< from the ball along the sole, ball at (0, 0)

/// Millimetres.
struct ArchDepth {
  double depth; ///< largest distance of the sole from the straightedge
  double at_u;  ///< its place along the sole from the ball
};
/// Computes the depth for bends up to 120°; the straightedge runs from the ball (u = 0) to
/// `to_chord_end`.
ArchDepth arch_depth(const Arch& arch);

/// The bend that gives this depth; nullopt if none up to `largest_bend` does.
inline constexpr double largest_bend = 90 * degree;
std::optional<double> bend_from_depth(Arch arch, double depth);

/// Break station and bend from depth and the station of the deepest point; nullopt if no arch of
/// this foot has them.
struct BreakAndBend {
  double break_at; ///< station from the back of the heel
  double bend;
};
std::optional<BreakAndBend> break_from_deepest(double ball, double heel_front, double depth,
                                               double deepest_at);

/// Range of the deepest point of an arch of this depth: every station from `least` to `most` (mm)
/// has a break that break_from_deepest finds. Empty if no arch of this foot is so deep.
struct DeepestRange {
  double least;
  double most;
};
std::optional<DeepestRange> deepest_range(double ball, double heel_front, double depth);

/// The largest depth (mm) that an arch between heel front and ball can have, at a bend of
/// `largest_bend` and the break that gives most.
double largest_depth(double ball, double heel_front);

} // namespace shankline
