// Solves an order: the whole of the geometry for one pair.
//
//   const Solution solution = solve(order);
//   for (const Finding& finding : solution.findings) ...      // errors and cautions, in words
//   if (solution.left && solution.left->trim) {
//     const SolvedTrim& trim = *solution.left->trim;
//     trim.final_cut.centre.mm();                             // mm cut off from the heel end
//     if (trim.first_cut) trim.first_cut->centre.mm();        // the shorter cut, to try first
//   }
#pragma once

#include "geometry/board/board_outline.hpp"
#include "geometry/board/board_thinning.hpp"
#include "geometry/board/solved_trim.hpp"
#include "geometry/board/trim_doubt.hpp"
#include "geometry/board/trim_line.hpp"
#include "geometry/finishing/darning.hpp"
#include "geometry/finishing/heel_work.hpp"
#include "geometry/finishing/liner.hpp"
#include "geometry/finishing/ribbons.hpp"
#include "geometry/foot/foot_stations.hpp"
#include "geometry/order/finding.hpp"
#include "geometry/order/foot_estimates.hpp"
#include "geometry/order/order.hpp"
#include "geometry/order/station.hpp"
#include "geometry/order/tolerance.hpp"
#include "geometry/plane/pieces.hpp"
#include "geometry/sides/side_cut.hpp"

#include <optional>
#include <string>
#include <vector>

namespace shankline {

struct SolvedPieces { ///< mm and mm²; absent parts are not known for a board in the shoe
  std::optional<Piece> kept;
  std::optional<Piece> removed;
  std::optional<double> kept_length;
  double removed_length = 0;
  std::optional<double> kept_fraction; ///< by length
};

struct FootSolution {
  FootSide side;
  Frames frames;
  SolvedArch arch;
  BoardOutline outline;
  Polygon whole;                    ///< the outline as a polygon; empty for a board in the shoe
  std::optional<SolvedTrim> trim;   ///< where the order asks for shank work
  SolvedPieces pieces;              ///< likewise, at the final cut
  std::optional<SolvedSides> sides; ///< where the order asks for lowered sides
  std::vector<Estimated> estimated;
  // These are absent if the order does not ask for them.
  std::optional<CutLayers> layers = {}; ///< where the cut leaves some of the board's layers
  std::optional<SolvedThinning> thinned = {};
  std::optional<SolvedFiller> filler = {};
  std::optional<SolvedLiner> liner = {};
  std::optional<SolvedDarning> darning = {};
  std::optional<SolvedRibbons> ribbons = {};
  std::optional<SolvedElastics> elastics = {};
  std::optional<SolvedTuck> tuck = {};
  SolvedPieces pieces_to_cut = {}; ///< at trim->line_to_cut(); no `kept` where a first cut is drawn
};

/// Feet that the order does not name, or that could not be solved, are absent.
struct Solution {
  std::optional<FootSolution> left;
  std::optional<FootSolution> right;
  Findings findings; ///< errors and cautions of both feet, by key

  const std::optional<FootSolution>& foot(FootSide side) const {
    return side == FootSide::left ? left : right;
  }
  std::optional<FootSolution>& foot(FootSide side) { return side == FootSide::left ? left : right; }
};

/// Solves both feet. An error about a foot is among the findings, and that foot is absent.
Solution solve(const Order& order);

/// The inputs that the trim line of a solved foot depends on, for a caller that varies its
/// readings.
TrimModel trim_model(const FootOrder& foot, const Order& order, FootSide side);

/// Draws from all readings of a solved foot at random, to check the first-order U of X_t. Returns
/// nullopt if the order does not cut the board.
std::optional<Sampled> sampled_cut(const Order& order, const FootSolution& foot,
                                   const SamplingPlan& plan = {
                                       .interval = IntervalKind::equal_tails});

} // namespace shankline
