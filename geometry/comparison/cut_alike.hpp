// A pair cut alike: what the cut and the cut-downs that were meant for one foot would do on the
// other.
#pragma once

#include "geometry/comparison/foot_figures.hpp"
#include "geometry/order/finding.hpp"
#include "geometry/strip/contact.hpp"

#include <optional>

namespace shankline {

struct CutAlike {
  bool tried = false;    ///< both feet have shank work
  BoardStation board;    ///< the other foot's final cut, as ruler numbers would carry it over
  FootStation station;   ///< where the board would then end on this foot
  double deeper = 0;     ///< than this foot's own cut, mm; negative: short of it
  double board_left = 0; ///< mm of board behind this foot's arch break
  std::optional<FootContactFigures> contact; ///< by estimate
  std::optional<double> heel_pry_left;       ///< share of this shoe's uncut figure
  std::optional<double> heel_gap_left;
  Findings cautions; ///< why it would be wrong for this foot; empty where it would not be
};

/// `other`'s alterations on `foot`: the board cut at the same ruler number at the centre, the sides
/// lowered by as much.
CutAlike cut_alike(const SolvedFoot& foot, const SolvedFoot& other);

} // namespace shankline
