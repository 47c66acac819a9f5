// The bending stiffness of board and sole along the shoe.
#pragma once

#include "geometry/foot/arch.hpp"

#include <optional>
#include <vector>

namespace shankline {

/// A stretch of the board that has only a fraction of its thickness: planed down, or with some of
/// its layers cut away.
struct ThinnedStretch {
  double from = 0; ///< u, the end nearer the ball
  double to = 0;
  double ratio = 1; ///< thickness left over full thickness, 0 to 1
  /// Length in mm of a bevel ahead of `from`, over which the thickness falls in a straight line
  /// from full to `ratio`; 0 for a square step.
  double bevel = 0;
};

/// Board on sole as one strip, along u, the distance from the ball towards the heel:
///   B(u) = sole + board·(t/t₀)³,
/// t the board's thickness: full, planed over a thinned stretch, falling over the bevel to the
/// edge, none behind the board's end. Where bevels and thinned stretch overlap the thinner one
/// counts.
struct Strip {
  double board = 0;      ///< N·mm², at full thickness; not negative
  double sole = 0;       ///< N·mm², positive
  double board_end = 0;  ///< u of the board's end: the trim, or of an uncut board its heel end
  double bevel = 0;      ///< mm that thin towards the end; 0 for a square end
  double edge_ratio = 1; ///< edge over full thickness, 0 to 1
  std::optional<ThinnedStretch> thinned;
  /// The curvature that the board has when nothing holds it (positive: as the arch); absent: flat.
  std::optional<Arch> pre_arch;
};

/// A stretch over which t/t₀ runs in a straight line.
struct StripPiece {
  double from = 0;
  double to = 0;
  double ratio_from = 0;
  double ratio_to = 0;
};
/// All of [from, to], in order, without empty pieces.
std::vector<StripPiece> strip_pieces(const Strip& strip, double from, double to);

enum class Side { ball, heel }; ///< which way to look from a place where the strip steps

/// Board alone and board with sole, N·mm².
double board_part(const Strip& strip, double u, Side side = Side::heel);
double bending_stiffness(const Strip& strip, double u, Side side = Side::heel);

/// κ₀ of board and sole together, the sole being flat: that of the board times its share of B.
double own_curvature(const Strip& strip, double u, Side side = Side::heel);

} // namespace shankline
