// A made part, measured, against its tolerance: accepted, refused, or measured too coarsely to
// tell.
//
// Guard bands as in JCGM 106:2012, 8.3, and ISO 14253-1 (both from memory): with tolerance limits
// and U_m at 95 %, conformity is proven only inside the limits by U_m, non-conformity only outside
// them by U_m.
#pragma once

#include "geometry/order/tolerance.hpp"

#include <optional>
#include <span>
#include <string_view>

namespace shankline {

/// Limits of size, mm; one-sided where one is absent.
struct SizeLimits {
  std::optional<double> least;
  std::optional<double> most;
};
SizeLimits size_limits(double nominal, const Tolerance& tolerance);

enum class Acceptance { accepted, not_decided, refused }; ///< in order of severity

/// `U` is that of the measured value at 95 %; a value or U that is no number decides nothing.
Acceptance judge(double measured, double U, const SizeLimits& limits);

/// The verdict on several lines: one refused line refuses the pair, one undecided line leaves it
/// undecided.
Acceptance worst(Acceptance a, Acceptance b);

enum class Instrument { tape, millimetre_rule, half_millimetre_rule, caliper };

/// U_m of one measurement on a shoe or a board; from memory. Reading both ends to half a division
/// and laying the instrument on; the caliper squeezes what it holds.
struct InstrumentGuide {
  Instrument instrument;
  std::string_view key;  ///< "half_millimetre_rule"
  std::string_view name; ///< "half-millimetre rule"
  double U;              ///< mm, at 95 %
  double division;       ///< mm, the smallest that is read off it
};
std::span<const InstrumentGuide> instrument_guides(); ///< coarsest first
const InstrumentGuide& instrument_guide(Instrument instrument);
const InstrumentGuide* instrument_guide(std::string_view key); ///< or null

/// Whether anything at all can be accepted with this U.
bool can_prove(double U, const SizeLimits& limits);

/// The coarsest instrument that leaves between the guard bands at least as much as one of them, so
/// that a good part has a fair chance to be proven good; nothing if none does.
std::optional<Instrument> instrument_for(const SizeLimits& limits);

} // namespace shankline
