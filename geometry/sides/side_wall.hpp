// The wall of one side: a strip that stands on the sole's edge, leans inwards, and lies flat.
#pragma once

#include "geometry/plane/point.hpp"
#include "geometry/sides/sole_edge.hpp"

#include <functional>
#include <optional>
#include <vector>

namespace shankline {

/// A developable strip: straight generators, square to its base when laid flat. The flat base turns
/// by sin(lean) times what the sole's edge turns (its geodesic curvature), towards the wall where
/// the edge is convex: the top comes out shorter than the base. Lean 0 gives a straight base; a
/// circular edge of radius R the sector of a cone frustum of radius R/sin(lean).
class SideWall {
public:
  SideWall(SoleEdge edge, double lean);

  const SoleEdge& edge() const { return edge_; }
  double lean() const { return lean_; }

  /// Laid flat: back seam at the origin, base leaving it along +x, wall towards +y.
  Point flat(double t, double height) const;

  /// A height over the base as a function of t, and its slope.
  struct HeightLine {
    std::function<double(double)> height;
    std::function<double(double)> slope;
  };

  /// ∫ √((1 − hκ sin(lean))² + h′²) dt
  double length(const HeightLine& line, double from, double to) const;

  /// Area between two lines, the upper one first: ∫ (h₀ − h₁)(1 − ½(h₀ + h₁) κ sin(lean)) dt.
  double area(const HeightLine& upper, const HeightLine& lower, double from, double to) const;

  /// The line laid flat, chord error at most `chord_error`.
  Polyline flat_line(const HeightLine& line, double from, double to,
                     double chord_error = 0.02) const;

private:
  template <class Integrand> double integral(const Integrand& f, double from, double to) const;
  SoleEdge edge_;
  double lean_;
  double sin_lean_;
  std::vector<Point> base_; ///< flat, at the edge's nodes
};

/// The lean that brings two walls from `across_sole` apart to `across_top` at this height along the
/// wall: sin(lean) = (across_sole − across_top)/(2 height). Returns nullopt if no wall can lean so.
std::optional<double> lean_from_widths(double across_sole, double across_top, double height);

} // namespace shankline
