// The trim line of one foot as it was solved: every line of the board, and how sure they are.
#pragma once

#include "geometry/board/trim_doubt.hpp"
#include "geometry/board/trim_line.hpp"
#include "geometry/order/station.hpp"
#include "geometry/plane/point.hpp"
#include "geometry/uncertainty/uncertainty.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <vector>

namespace shankline {

/// Ends of the board by other rules; absent if one cannot be worked out.
struct OtherRules {
  PosedStation heel_front;
  std::optional<PosedStation> three_quarter;
  PosedStation short_reach;
  PosedStation tucked_reach;
};

struct SolvedTrim {
  FootStation station; ///< x_t
  double reach;        ///< of that station: 1 at the heel front; for every rule
  Window window;
  double skew = 0;         ///< radians
  std::string skew_reason; ///< why the line is square or skew, in words
  CutLine final_cut;
  /// `hold_back` short of the final one; absent where so little comes off that it is filed back.
  std::optional<CutLine> first_cut;
  CutLine stop; ///< past it nothing may be cut
  /// Near edge of the stop band: U_s short of the stop line, on a growing foot no farther than the
  /// heel front.
  CutLine stop_from;
  bool growing = false; ///< no line may lie ahead of the heel front
  /// The rule's own line would end inside the stop band: the final line was drawn at the band's
  /// near edge instead. This is where the rule would have put it.
  std::optional<BoardStation> held_from;
  bool may_enter_band = false; ///< a fitter's word allows lines in the stop band; not if growing
  double hold_back = 0;        ///< H, mm
  double usual_hold_back = 0;  ///< H as worked out, mm; `hold_back` unless the order gives its own
  double right_U = 0; ///< U_T, mm at 95 %: how well the right place of this dancer is known
  CutLine witness;
  CutLine lift_limit;
  std::optional<CutLine> bevel; ///< where the bevel begins
  Polyline end; ///< the kept board's end, medial to lateral, corners rounded if wished
  bool rounded() const { return end.size() > 2; }
  /// Arcs that round the board's end, at the medial and at the lateral edge, each up to where it
  /// meets the final line; both empty for a straight end.
  std::array<Polyline, 2> corners;
  std::optional<double> bevel_edge_thickness; ///< mm; absent if the thickness is not known
  OtherRules other_rules;
  std::optional<LearnedLine> learned; ///< the rule that it was cut by, where it was a learned line
  TrimDoubt doubt;                    ///< how sure the rule's line is, and the stop line
  std::vector<RepeatGain> gains;      ///< which reading to take again, the most worth first

  /// The doubt of the final line as drawn: that of the stop line if the final line was held at its
  /// band.
  const Uncertain& final_doubt() const { return held_from ? doubt.stop : doubt.board; }
  /// The stretch that holds the right final line at 95 %: from its heel side to its toe side, up to
  /// the stop band.
  struct Band {
    BoardStation from;
    BoardStation to;
  };
  Band band() const {
    const double U = final_doubt().expanded();
    return {final_cut.centre - U, std::min(final_cut.centre + U, stop_from.centre)};
  }
  /// The line that is cut as long as no try is on record.
  const CutLine& line_to_cut() const { return first_cut ? *first_cut : final_cut; }
  /// Past this line the tool gives out none; on the centre line.
  BoardStation limit() const { return may_enter_band ? stop.centre : stop_from.centre; }
};

} // namespace shankline
