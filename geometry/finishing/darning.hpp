// The darning round the platform: a wrap of its edge, unrolled, and the yarn it takes.
#pragma once

#include "geometry/order/finding.hpp"
#include "geometry/order/order.hpp"

#include <optional>
#include <string>

namespace shankline {

/// The platform's edge is a superellipse (exponent as of the board's ends). Unrolled, s runs from
/// the middle of the pleats (sole side) to the right as seen from outside, shoe on its platform: on
/// a left foot over the big-toe side first, on a right foot over the little-toe side. Lengths in
/// mm.
struct SolvedDarning {
  double perimeter = 0;
  double height = 0;   ///< of the wrap, h₀
  double raise = 0;    ///< on top of it in the middle of the rolling side
  double raise_at = 0; ///< s of that middle
  double raise_width = 0;
  int stitches = 0; ///< round the edge, a whole number of them
  double pitch = 0; ///< from stitch to stitch, for a whole number of stitches
  int passes = 0;
  double wrap_area = 0;        ///< mm²
  double face_area = 0;        ///< mm², 0 where the face stays bare
  double yarn = 0;             ///< mm, allowance included
  std::optional<double> grams; ///< of the yarn; absent if its fineness is not given

  /// h₀ + raise·½(1 + cos(2π(s − raise_at)/raise_width)) within the bump, h₀ elsewhere.
  double height_at(double s) const;
};

/// Yarn: every stitch goes up over the face of the wrap and back beneath it, and once along the
/// edge to the next; so a pass takes 2·area/pitch + perimeter, a darned face 2·area/pitch more.
/// `name` is "left". Errors: the platform is not measured; a raise without a side to raise.
std::optional<SolvedDarning> solve_darning(const FootOrder& order, FootSide side,
                                           const std::string& name, Findings& findings);

} // namespace shankline
