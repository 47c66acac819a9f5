// Decides whether a made part, as measured, keeps its tolerance: it is accepted, refused, or not
// decided because the measurement is too coarse to tell.
//
// Guard bands as in JCGM 106:2012, 8.3, and ISO 14253-1 (both cited from memory). U_m is the 95 %
// uncertainty of the measurement. A part is accepted only if the measured value lies inside the
// limits by at least U_m, and refused only if it lies outside them by more than U_m.
#pragma once

#include "geometry/order/tolerance.hpp"

#include <optional>
#include <span>
#include <string_view>

namespace shankline {

/// Limits of size, mm. A limit that is nullopt does not bind.
struct SizeLimits {
  std::optional<double> least;
  std::optional<double> most;
};
/// The limits of a part of this nominal size, mm.
SizeLimits size_limits(double nominal, const Tolerance& tolerance);

enum class Acceptance { accepted, not_decided, refused }; ///< ordered from best to worst

/// Judges one measured value, mm, whose 95 % uncertainty is `U`, mm. Returns not_decided if
/// `measured` is not finite, or if `U` is negative or NaN.
Acceptance judge(double measured, double U, const SizeLimits& limits);

/// Returns the worse verdict. Applied to all lines of a pair, it makes one refused line refuse the
/// pair, and otherwise one undecided line leave the pair undecided.
Acceptance worst(Acceptance a, Acceptance b);

enum class Instrument { tape, millimetre_rule, half_millimetre_rule, caliper };

/// An instrument, and the uncertainty U_m of one measurement with it on a shoe or a board. The
/// figures are from memory. They cover reading both ends to half a division and placing the
/// instrument; for a caliper, also that it squeezes soft material.
struct InstrumentGuide {
  Instrument instrument;
  std::string_view key;  ///< "half_millimetre_rule"
  std::string_view name; ///< "half-millimetre rule"
  double U;              ///< U_m, mm, at 95 %
  double division;       ///< the smallest step that is read, mm
};
std::span<const InstrumentGuide> instrument_guides(); ///< from the coarsest to the finest
const InstrumentGuide& instrument_guide(Instrument instrument);
/// Returns null if no instrument has this key.
const InstrumentGuide* instrument_guide(std::string_view key);

/// Returns true if some measured value would be accepted with this uncertainty `U`, mm. The guard
/// bands inside both limits must leave room between them.
bool can_prove(double U, const SizeLimits& limits);

/// Returns the coarsest instrument with which a good part has a fair chance to be accepted: the
/// room between the two guard bands is at least U_m wide. Returns nullopt if none is fine enough.
std::optional<Instrument> instrument_for(const SizeLimits& limits);

} // namespace shankline
