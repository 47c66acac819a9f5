// The break chart: contact figures over the stations where the board may end, or over the thickness
// that a stretch of it may keep, and a sentence about the work that was ordered.
#pragma once

#include "geometry/breaking/contact_doubt.hpp"
#include "geometry/breaking/foot_contact.hpp"
#include "geometry/order/order.hpp"
#include "geometry/solution/solution.hpp"

#include <optional>
#include <string>
#include <vector>

namespace shankline {

/// One place where the board may end. Fractions are of the uncut shoe's figures.
struct ChartPoint {
  FootStation station;
  FootStation break_at;
  double gap;      ///< fraction
  double heel_gap; ///< fraction
  double heel_pry; ///< fraction
};

/// One thickness that the thinned stretch may keep. Fractions are of the uncut shoe's figures.
struct ThicknessPoint {
  double thickness;      ///< mm
  double stiffness_left; ///< fraction of the full board's, without the sole's
  FootStation break_at;
  double gap;      ///< fraction
  double heel_gap; ///< fraction
  double heel_pry; ///< fraction
};

/// Either `points` (a board that is cut) or `thicknesses` (one that is only thinned) is filled.
struct BreakChart {
  FootContact contact;
  std::vector<ChartPoint> points;          ///< by rising station; only those with a solution
  std::vector<ThicknessPoint> thicknesses; ///< from the full board down; likewise
  std::optional<ContactDoubt> doubt;       ///< of the figures at the ordered cut or thickness
};

/// A chart of thicknesses ends at this share of the board's thickness, or at the ordered one if
/// that is less. There 4 % of the board's stiffness are left: less is a hinge, not a board.
inline constexpr double least_charted_share = 1.0 / 3;
inline constexpr double thickness_step = 0.1; ///< mm, between two thicknesses of a chart

/// `foot` was solved from `order`'s foot of that side. Returns nullopt if the board is neither cut
/// nor thinned, or if there is no contact to chart: foot_contact gives the reason.
std::optional<BreakChart> break_chart(const Order& order, const FootSolution& foot,
                                      const FootContact& contact);

/// The farthest that the board may end: at the near edge of the stop band, at the stop line where a
/// fitter's word allows lines inside the band, and never short of the final line. Past it a chart
/// shows no figures, since most of them improve with a deeper cut and would reward it.
FootStation charted_to(const FootSolution& foot);

/// "Cut to the final line, the shoe should bend 78 mm nearer the heel than uncut. Compared with
/// uncut it stands off the heel a quarter as far and pries it with a third of the force. 36 mm of
/// board stay behind the arch break." Says "Thinned like this" of a board that is only thinned, and
/// nothing of the length behind the break, which stays whole.
std::string sentence(const FootContact& contact);

} // namespace shankline
