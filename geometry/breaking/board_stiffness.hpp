// Bending stiffness of board and sole, from tests at the bench.
#pragma once

#include "geometry/numerics/result.hpp"
#include "geometry/order/order.hpp"
#include "geometry/uncertainty/bench_figure.hpp"

namespace shankline {

// Defaults from memory, common practice without a source; an order can override them. A wrong grade
// moves every moment in proportion and the gaps by far less.
inline constexpr double default_sole_stiffness = 4000; ///< N·mm²
double grade_stiffness(Grade grade);                   ///< of the board alone, N·mm²

inline constexpr double newtons_per_gram = 9.80665e-3; ///< standard gravity, ISO 80000-3

/// A cantilever of length L with a dead weight P at its tip, any droop (Bisshopp and Drucker,
/// Quart. Appl. Math. 3 (1945) 272–275; citation from memory). With φ the slope of the tip, k² = (1
/// + sin φ)/2 and tan θ = 1/√(sin φ):
///   √(P L²/B) = α = K(k) − F(k, θ),  droop/L = 1 − 2/α (E(k) − E(k, θ)).
struct TipLoad {
  double load;       ///< P L²/B
  double droop;      ///< over L
  double shortening; ///< over L: how far the tip comes nearer
};
TipLoad tip_load(double tip_slope); ///< radians, above 0, below a quarter turn

/// B of a strip that droops so far under a weight at its end, N·mm². The strip's own weight is not
/// counted: read the droop as the difference that the weight makes.
Result<double> stiffness_from_droop(double droop, double weight_grams, double free_length);

struct BoardAndSole {
  BenchFigure board;
  BenchFigure sole;
};
Result<BoardAndSole> board_and_sole(const Stiffness& stiffness);

} // namespace shankline
