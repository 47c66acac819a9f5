// Every figure of one solved foot with its doubt: lines for the knife, readings, estimates.
//
// Stations are in the foot frame whatever the order's pose, so that a foot measured pointed and one
// measured in the shoe have figures of the same meaning; a station read in the shoe then carries
// the doubt of the fold too.
#pragma once

#include "geometry/board/trim_doubt.hpp"
#include "geometry/breaking/foot_contact.hpp"
#include "geometry/order/order.hpp"
#include "geometry/solution/solution.hpp"
#include "geometry/uncertainty/doubted_figure.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace shankline {

/// One foot of an order that was solved.
struct SolvedFoot {
  const Order& order;
  const FootOrder& foot;
  const FootSolution& solution;
  const FootContact* contact = nullptr; ///< absent where it could not be estimated
  std::string why_no_contact;           ///< in words, then
};

/// Cut-offs, stop line, trim station, window, skew, what is kept: from the solution's own doubt.
FigureGroup knife_figures(const SolvedFoot& foot);

/// The lowered sides: heights, lengths, areas; through the solver by differences.
FigureGroup side_figures(const SolvedFoot& foot);

/// Stands in the name of a source that is the error of an estimate from foot length and no figure
/// of its own: "left.estimated.ankle_girth".
inline constexpr std::string_view estimated_mark = ".estimated.";

/// The rest of the work: layers of the board that are cut, a thinned stretch, darning, ribbons. All
/// of them are wishes, but for the ribbon's cut length, which goes through the solver by
/// differences.
FigureGroup finish_figures(const SolvedFoot& foot);

/// Every reading of foot and shoe, the estimated ones too.
FigureGroup reading_figures(const SolvedFoot& foot);

/// Contact figures of the board cut where it is drawn: break, gaps and heel pry; by differences on
/// the same contacts. Stiffness and pull carry their spread. A default or a grade by hand is the
/// same guess for both shoes of an order, so it is shared; a bending test, a hung weight or a
/// travel belongs to one shoe.
FigureGroup estimate_figures(const SolvedFoot& foot);

/// All of them, knife first.
std::vector<FigureGroup> foot_figures(const SolvedFoot& foot);

/// The arithmetic of stations of this foot, as solved.
TrimModel trim_model(const SolvedFoot& foot);

} // namespace shankline
