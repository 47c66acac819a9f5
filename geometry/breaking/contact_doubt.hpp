// Uncertainty of the contact figures: the readings of the arch and the fold, the board's, the
// sole's and the pull's own doubt carried through stations, arch and contact by differences, the
// board staying cut, or thinned, where it is. How well board and foot are laid together (inset,
// laying flat, the knife) and the wing's end are not in it: for a comparison, foot_figures has them
// too.
//
// Stiffness and pull are lognormal and enter by their logarithms (uncertainty.hpp). What a model of
// an elastic strip leaves out is not in it: these are how far the readings leave the figures open,
// no more.
//
// A share that is left cannot fall below 0: where hardly any is left, the differences vanish or do
// not hold, and a one-sided limit is drawn from the same inputs instead.
#pragma once

#include "geometry/breaking/foot_contact.hpp"
#include "geometry/order/order.hpp"
#include "geometry/solution/solution.hpp"
#include "geometry/uncertainty/uncertainty.hpp"

#include <optional>
#include <string>

namespace shankline {

struct ContactDoubt {
  Uncertain break_at;      ///< of the cut shoe, foot frame, mm
  Uncertain gap;           ///< of the cut shoe, mm
  Uncertain heel_gap;      ///< likewise
  Uncertain heel_pry_left; ///< cut over uncut
  Uncertain heel_gap_left; ///< likewise
  /// One-sided limits, 95 %, where hardly any of the share is left; absent where the ± serves.
  /// Infinite where more than one draw in twenty has no solution.
  std::optional<double> heel_pry_left_up_to = {};
  std::optional<double> heel_gap_left_up_to = {};
  std::optional<double> heel_gap_up_to = {}; ///< mm, with heel_gap_left_up_to
  Uncertain uncut_break_at = {};             ///< as of the cut shoe
  Uncertain uncut_gap = {};
  Uncertain uncut_heel_gap = {};
  /// Names the input that moves `heel_pry_left` most: "the arch depth"; empty if none does.
  std::string depends_on;
};

/// A share of the uncut shoe below this has a one-sided limit instead of ±.
inline constexpr double hardly_left = 0.05;

/// "±16 %", or "up to 12 %" where there is a one-sided limit, in whole per cent and never "±0 %".
std::string share_doubt_words(const Uncertain& share, const std::optional<double>& up_to);
/// "±4", in whole millimetres and never "±0".
std::string whole_doubt_words(const Uncertain& length);

/// `foot` was solved from `order`, `contact` from both. Returns nullopt if the board is neither cut
/// nor thinned, or if a reading moved by a hundredth of its doubt has no solution any more.
std::optional<ContactDoubt> contact_doubt(const Order& order, const FootSolution& foot,
                                          const FootContact& contact);

} // namespace shankline
