// The sizes of an order that can be measured on the made pair, line by line, and the verdict on
// each.
#pragma once

#include "geometry/fitting/acceptance.hpp"
#include "geometry/order/order.hpp"
#include "geometry/solution/solution.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace shankline {

/// The board's line that a delivered pair is judged against.
enum class JudgedAt { final_cut, first_cut };

/// The board's line that a size was worked out from; a board without a first cut has only one.
enum class BoardCut { final_cut, first_cut, only_cut };

struct AcceptanceLine {
  FootSide foot = FootSide::left;
  std::string key;    ///< as in the measured file: "end.medial", "kept", "sides.back"
  std::string name;   ///< "inside back to board's end, big-toe edge"
  double nominal = 0; ///< mm
  Tolerance tolerance{};
  std::optional<Instrument> instrument; ///< the coarsest that leaves a good part a fair chance
  std::optional<BoardCut> cut{};        ///< of the board's lines
  bool is_thickness = false;            ///< what is left of a board that was thinned or bevelled
  bool counted = false; ///< a number of things, which is counted and has no uncertainty

  SizeLimits limits() const { return size_limits(nominal, tolerance); }
};

/// Left foot first, in the order in which they are measured. A board's end is measured from the
/// shoe's inside back: the heel end, where the cut was marked from, is gone. The exact line is the
/// upper limit of what came off; the lower one is the ruler number less the tolerance, since a hand
/// works by the ruler number. A board without a first cut is judged at its one line. Corners are
/// rounded, like the bevel is cut, after the last cut: at the first cut they are not judged. A
/// thinned stretch is measured from the shoe's inside back too.
std::vector<AcceptanceLine> acceptance_lines(const Order& order, const Solution& solution,
                                             JudgedAt at = JudgedAt::final_cut);

/// A size that was measured on a made part.
struct MadeSize {
  FootSide foot = FootSide::left;
  std::string key;
  double value = 0;   ///< mm
  double U = 0;       ///< mm at 95 %
  std::string with{}; ///< the instrument, in words; may be empty
  bool own_U = false; ///< U was given with the size, not taken from the instrument
};

struct JudgedLine {
  AcceptanceLine line;
  std::optional<MadeSize> made; ///< absent: not measured
  Acceptance verdict = Acceptance::not_decided;
  bool can_be_proven = true; ///< with the instrument that was used
};

struct JudgedPair {
  std::vector<JudgedLine> lines;
  Acceptance verdict = Acceptance::not_decided; ///< the worst of its lines
};

/// Sizes of lines that the order does not have are left out: whoever reads them complains.
JudgedPair judge_pair(std::vector<AcceptanceLine> lines, std::span<const MadeSize> made);

} // namespace shankline
