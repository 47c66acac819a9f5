// Integrals of the strip's curvature, once (slope) and twice (shape) along it.
//
// Where the strip is off the foot its bending moment is M(s) = α + β s − S(s): two numbers and the
// pull's own moment. Its curvature is then κ₀ + M/B, and slope and shape follow from the integrals
// kept here. They are exact (polynomials) where the thickness does not change, and by a four-point
// Gauss rule for every few millimetres of a bevel.
#pragma once

#include "geometry/strip/strip_stiffness.hpp"

#include <vector>

namespace shankline {

/// The upper's pull towards the foot over a stretch, in a straight line from one value to another.
struct PullStretch {
  double from = 0; ///< u, distance from the ball
  double to = 0;
  double at_from = 0; ///< N/mm, not negative
  double at_to = 0;
};

/// Integrals at s = u − clamp. "slope" is the integral from the clamp, "shape" that integrated
/// again.
struct StripIntegral {
  double even_slope = 0, even_shape = 0;   ///< of 1/B
  double lever_slope = 0, lever_shape = 0; ///< of s/B
  double load_slope = 0, load_shape = 0;   ///< of κ₀ − S/B
  double pull_force = 0;                   ///< ∫ p, N
  double pull_moment = 0;                  ///< S(s) = ∫ p(t) (s − t) dt, N·mm
};

class StripIntegrals {
public:
  StripIntegrals(const Strip& strip, const std::vector<PullStretch>& pull, double clamp,
                 double end);

  StripIntegral at(double u) const;

  /// A stretch over which the thickness is one straight line and the pull another.
  struct Piece {
    double from, to;              ///< u
    bool even;                    ///< the thickness does not change
    double compliance, own_share; ///< of an even piece: 1/B, and the board's share of B
    double ratio, ratio_step;     ///< of an uneven one: t/t₀ at `from`, and per mm
    double pull, pull_step;       ///< N/mm at `from`, and per mm
    StripIntegral start;
  };
  const std::vector<Piece>& pieces() const { return pieces_; }
  StripIntegral within(const Piece& piece, double u) const;
  /// Continues `sum` from `from` to `to`, both within the piece. On an uneven piece they must be no
  /// more than a few millimetres apart.
  StripIntegral advance(const Piece& piece, const StripIntegral& sum, double from, double to) const;

private:
  struct Step {
    double from; ///< u
    double length;
    double pull; ///< N/mm at `from`
  };
  Piece piece_of(const StripPiece& stretch, const std::vector<PullStretch>& pull, double from,
                 double to) const;
  void bend_evenly(const Piece& piece, const StripIntegral& sum, const Step& step,
                   StripIntegral& r) const;
  void bend_unevenly(const Piece& piece, const StripIntegral& sum, const Step& step,
                     StripIntegral& r) const;

  Strip strip_;
  double clamp_;
  std::vector<Piece> pieces_;
};

} // namespace shankline
