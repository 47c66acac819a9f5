// Left against right, or one order against another: every figure with its difference, how well that
// is known, and whether it is a difference at all.
//
// What two feet have in common cancels:
// - left against right of one order: one reader, so that the habit of finding each place does; one
//   printer, so that its scale does; and what was guessed for both shoes alike (a grade by hand,
//   the default pull). Tape, finding, tracing, knife and laying flat are fresh for each foot.
// - two orders: nothing, unless it is said that one reader took both. The printer is taken to be
//   another one, or the same on another day. Of one dancer's foot what stands in for a reading by a
//   rule of foot length (ball, heel front) is as far off in both orders, so it does cancel.
// A reading said once for both feet is taken as found on each shoe: the two shoes are two things.
#pragma once

#include "geometry/breaking/pair_contact.hpp"
#include "geometry/comparison/cut_alike.hpp"
#include "geometry/comparison/foot_figures.hpp"
#include "geometry/order/order.hpp"
#include "geometry/plane/outline_distance.hpp"
#include "geometry/solution/solution.hpp"
#include "geometry/uncertainty/doubted_figure.hpp"

#include <optional>
#include <string>
#include <vector>

namespace shankline {

struct Shared {
  bool reader = false;
  bool printer = false;
  bool guesses = false;   ///< what was not measured and taken alike for both shoes
  bool same_foot = false; ///< one foot at two times
};
inline constexpr Shared shared_by_a_pair{true, true, true, false};

enum class Verdict { differs, not_told_apart, cannot_be_compared };

struct ComparedFigure {
  std::string key;
  std::string name;
  FigureRank rank = FigureRank::knife;
  FigureUnit unit = FigureUnit::mm;
  std::optional<double> a; ///< in `unit`; absent: missing
  std::optional<double> b;
  bool estimated_a = false;
  bool estimated_b = false;
  bool chosen = false;                 ///< wishes on both sides: there is no doubt to speak of
  std::optional<Uncertain> difference; ///< a − b
  Verdict verdict = Verdict::cannot_be_compared;
  std::string why_not; ///< why it cannot be compared
};

/// Two outlines laid over each other.
struct ComparedOutline {
  std::string part;    ///< "board that stays", "big-toe side"
  std::string aligned; ///< "at the board's front"
  Outline a;           ///< in the frame of the overlay, mm
  Outline b;
  LargestDistance largest;
  std::optional<double> area; ///< mm² that only one of them covers; closed outlines only
};

struct FootComparison {
  FootSide side_a = FootSide::left;
  FootSide side_b = FootSide::right;
  std::vector<ComparedFigure> figures; ///< by rank; what differs is not put first
  /// Boards: x from the place where they are aligned towards the toes, y towards the big toe.
  std::optional<ComparedOutline> whole;
  std::optional<ComparedOutline> kept;   ///< or, of boards in the shoe, the part cut away
  std::optional<ComparedOutline> medial; ///< lowered sides, laid flat from the back seam
  std::optional<ComparedOutline> lateral;
  double align_a = 0; ///< X of each board, mm, where the overlay has x = 0
  double align_b = 0;
  CutAlike a_on_b; ///< the effect of a's cut on b's foot
  CutAlike b_on_a;
};

/// Either of the two operands of a comparison; what it points to outlives it.
struct Operand {
  const Order& order;
  const Solution& solution;
  const PairContact& contact;
};

struct Comparison {
  std::string short_a; ///< "left", or "first": what a difference is read by
  std::string short_b;
  std::string name_a; ///< what tells the two apart in full
  std::string name_b;
  Shared shared;
  std::vector<FootComparison> feet;
  std::vector<std::string> left_out; ///< what cannot be compared at all, and why
};

/// `a` against `b`, one foot of each.
FootComparison compare(const SolvedFoot& a, const SolvedFoot& b, const Shared& shared);

/// Left against right. Nothing in `feet` unless both are solved; `left_out` says why.
Comparison compare_feet(const Operand& pair);

/// Left against left and right against right. One person read both if `same_reader` says so, or if
/// both orders name the same reader.
Comparison compare_orders(const Operand& a, const Operand& b, bool same_reader);

/// Compares two feet by their figures, for a caller that has these already.
std::vector<ComparedFigure> compare_figures(const std::vector<FigureGroup>& a,
                                            const std::vector<FigureGroup>& b,
                                            const Shared& shared);

} // namespace shankline
