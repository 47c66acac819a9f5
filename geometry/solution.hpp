// From an order to solved lines: the whole of the geometry for one pair.
#pragma once

#include "geometry/board_outline.hpp"
#include "geometry/board_thinning.hpp"
#include "geometry/darning.hpp"
#include "geometry/finding.hpp"
#include "geometry/foot_estimates.hpp"
#include "geometry/foot_stations.hpp"
#include "geometry/heel_work.hpp"
#include "geometry/liner.hpp"
#include "geometry/order.hpp"
#include "geometry/pieces.hpp"
#include "geometry/ribbons.hpp"
#include "geometry/side_cut.hpp"
#include "geometry/tolerance.hpp"
#include "geometry/trim_doubt.hpp"
#include "geometry/trim_line.hpp"

#include <optional>
#include <string>
#include <vector>

namespace shankline {

struct OtherRules { ///< stations in the order's pose; absent where a rule cannot be worked out
  double heel_front;
  std::optional<double> three_quarter;
  double short_reach;
  double tucked_reach;
};

/// Board distances from the board's heel end.
struct SolvedTrim {
  double station;          ///< x_t, foot frame
  double reach;            ///< of that station, whichever rule gave it
  Window window;           ///< foot frame
  double skew = 0;         ///< radians
  std::string skew_reason; ///< why the line is square or skew, in words
  CutLine final_cut;
  /// `hold_back` short of the final one; absent where so little comes off that it is filed back.
  std::optional<CutLine> first_cut;
  CutLine stop;      ///< past it nothing may be cut
  CutLine stop_from; ///< near edge of the stop band, U_s short of the stop line
  /// The rule's own line would end inside the stop band: the final line was drawn ahead of it. This
  /// is where the rule would have put it, mm from the heel end.
  std::optional<double> held_from;
  bool may_enter_band = false; ///< a fitter's word allows lines inside the stop band
  double hold_back = 0;        ///< H, mm
  double usual_hold_back = 0;  ///< H as worked out, mm; `hold_back` unless the order gives its own
  double right_U = 0;          ///< U_T, mm at 95 %: how well the right place of this dancer is known
  CutLine witness;
  CutLine lift_limit;
  std::optional<CutLine> bevel; ///< where the bevel begins
  Polyline end; ///< the kept board's end, medial to lateral, corners rounded if wished
  bool rounded() const { return end.size() > 2; }
  std::optional<double> bevel_edge_thickness; ///< absent where the thickness is not known
  OtherRules other_rules;
  TrimDoubt doubt;               ///< how sure the rule's line is, and the stop line

  /// How sure the final line is as drawn: the stop line's doubt where it was held at its band.
  const Uncertain& final_doubt() const { return held_from ? doubt.stop : doubt.board; }
  /// The line that is cut as long as no try is on record.
  const CutLine& line_to_cut() const { return first_cut ? *first_cut : final_cut; }
  /// Past this line the tool gives out none, mm from the heel end on the centre line.
  double limit() const { return may_enter_band ? stop.centre : stop_from.centre; }
  std::vector<RepeatGain> gains; ///< which reading to take again, the most worth first
};

struct SolvedPieces { ///< mm and mm²; absent parts are not known for a board in the shoe
  std::optional<Piece> kept;
  std::optional<Piece> removed;
  std::optional<double> kept_length;
  double removed_length = 0;
  std::optional<double> kept_fraction; ///< by length
};

struct FootSolution {
  FootSide side;
  double shift = 0;      ///< X = x + shift for stations in the foot frame
  double pose_shift = 0; ///< station in the order's pose = x + pose_shift
  SolvedArch arch;
  BoardOutline outline;
  Polygon whole;                    ///< the outline as a polygon; empty for a board in the shoe
  std::optional<SolvedTrim> trim;   ///< where the order asks for shank work
  SolvedPieces pieces;              ///< likewise, at the final cut
  std::optional<SolvedSides> sides; ///< where the order asks for lowered sides
  std::vector<Estimated> estimated;
  // What else the order asks for.
  std::optional<CutLayers> layers = {}; ///< where the cut leaves some of the board's layers
  std::optional<SolvedThinning> thinned = {};
  std::optional<SolvedFiller> filler = {};
  std::optional<SolvedLiner> liner = {};
  std::optional<SolvedDarning> darning = {};
  std::optional<SolvedRibbons> ribbons = {};
  std::optional<SolvedElastics> elastics = {};
  std::optional<SolvedTuck> tuck = {};
  SolvedPieces pieces_to_cut = {}; ///< at trim->line_to_cut(); no `kept` where a first cut is drawn
  std::optional<Piece> after_trying = {}; ///< what comes off between first and final cut
};

/// Feet that the order does not name, or that could not be solved, are absent.
struct Solution {
  std::optional<FootSolution> left;
  std::optional<FootSolution> right;
  Findings findings; ///< errors and cautions of both feet, by key
};

Solution solve(const Order& order);

/// What the trim line of a foot that could be solved depends on, for whoever moves its readings.
TrimModel trim_model(const FootOrder& foot, const Order& order, FootSide side);

/// X_t of a solved foot by drawing from every reading, to hold the first-order U against; nothing
/// where the order cuts no board.
std::optional<Sampled> sampled_cut(const Order& order, const FootSolution& foot,
                                   const SamplingPlan& plan = {});

} // namespace shankline
