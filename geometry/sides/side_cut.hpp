// Lowered sides: the depth at each place, and the height that is left.
#pragma once

#include "geometry/board/board_outline.hpp"
#include "geometry/numerics/monotone_cubic.hpp"
#include "geometry/order/finding.hpp"
#include "geometry/order/order.hpp"
#include "geometry/order/station.hpp"
#include "geometry/sides/depth_profile.hpp"
#include "geometry/sides/side_wall.hpp"

#include <optional>
#include <string>
#include <vector>

namespace shankline {

/// Heights at one place for a ruler, mm.
struct RulerHeight {
  double along; ///< on the sole's edge from the back seam
  PosedStation station;
  double stock;
  double finished;
};

/// The end of a ribbon or an elastic that is sewn to the inside of a side, as it lies on the flat
/// wall; mm.
struct SewnEnd {
  enum class What { ribbon, elastic };
  What what = What::ribbon;
  double t = 0;     ///< of its middle
  double width = 0; ///< along the side
  double top = 0;   ///< heights above the sole's edge
  double low = 0;
};

/// One lowered side. Lengths in mm; t is the arc length along the sole's edge from the back seam.
struct SolvedSide {
  Edge edge = Edge::medial;
  SideWall wall;
  MonotoneCubic stock; ///< height over t
  DepthProfile profile;
  double wing = 0;        ///< t of the wing's end: the wall ends there
  PosedStation from = {}; ///< where the lowering begins
  PosedStation to = {};   ///< and where it ends
  double low = 0;         ///< lowest finished height
  double low_at = 0;      ///< t of it
  double base_length = 0;
  double stock_length = 0;
  double finished_length = 0;
  double uncovered = 0; ///< mm²
  /// Every 10 mm along the sole's edge over the lowered stretch.
  std::vector<RulerHeight> heights = {};
  std::vector<SewnEnd> sewn = {};

  bool is_cut() const { return profile.depth > 0 || profile.back > 0; }
  double finished(double t) const { return stock(t) - profile(t); }
  /// Both lines are copies: they stay valid when the side is moved or destroyed.
  SideWall::HeightLine stock_line() const;
  /// The finished line raised by `above`: the cut of a turned edge, or (negative) the stitch line.
  SideWall::HeightLine finished_line(double above = 0) const;
};

/// Both sides. Lengths in mm.
struct SolvedSides {
  SolvedSide medial;
  SolvedSide lateral;
  double lean = 0;                  ///< radians
  double top_line = 0;              ///< finished, from wing to wing round the back, tuck taken in
  double casing = 0;                ///< casing strip, cut length, from wing to wing
  std::optional<double> drawstring; ///< cut length; known where the throat is
  std::optional<double> casing_width = {}; ///< of the strip, flat; known where the casing is
};

struct SidesInput {
  FootStation break_at;
  FootStation heel_front;
  const Frames& frames;
  double foot_length; ///< mm
  const Shoe& shoe;
  const BoardOutline& outline;
  const SideWish& wish;
  std::string foot_name; ///< "left"; keys are "shoe.left.sides.low" and the like
  double taken_in = 0;   ///< mm that a tuck at the back takes off the top line
};

/// Returns nullopt after adding errors, which state the largest depth that fits and what would
/// allow more. Figures lie within their limits (order_limits.hpp).
std::optional<SolvedSides> solve_sides(const SidesInput& input, Findings& findings);

/// The end of a ribbon or elastic of `width`, sewn over `overlap` below the casing with its middle
/// at `at`. Returns nullopt if it does not lie between the back seam and the wing, or the side is
/// too low for it.
std::optional<SewnEnd> sewn_end(const SolvedSide& side, SewnEnd::What what, BoardStation at,
                                double width, double overlap, double casing);

} // namespace shankline
