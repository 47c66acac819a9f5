// The break chart: contact figures over the stations where the board may end, and a sentence about
// the cut.
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

struct BreakChart {
  FootContact contact;
  std::vector<ChartPoint> points;    ///< by rising station; only those with a solution
  std::optional<ContactDoubt> doubt; ///< of the figures at the ordered cut
};

/// `foot` was solved from `order`'s foot of that side. Returns nullopt if the board is not cut (one
/// that is only thinned has no other cuts to compare with), or if there is no contact to chart:
/// foot_contact gives the reason.
std::optional<BreakChart> break_chart(const Order& order, const FootSolution& foot,
                                      const FootContact& contact);

/// The farthest that the board may end: at the near edge of the stop band, at the stop line where a
/// fitter's word allows lines inside the band, and never short of the final line. Past it a chart
/// shows no figures, since most of them improve with a deeper cut and would reward it.
FootStation charted_to(const FootSolution& foot);

/// "breaks 78 mm nearer the heel than uncut; stands off the heel a quarter as far; pries it with a
/// third of the force; 36 mm of board left behind the arch break"
std::string sentence(const FootContact& contact);

} // namespace shankline
