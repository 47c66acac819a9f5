#include "geometry/fitting/acceptance.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace shankline {
namespace {

/// mm. A value that was written to lie exactly on a limit may miss it by this much in binary.
constexpr double rounding_error = 1e-9;

constexpr std::array guides{
    InstrumentGuide{Instrument::tape, "tape", "tape", 1.1, 1},
    InstrumentGuide{Instrument::millimetre_rule, "millimetre_rule", "millimetre rule", 0.8, 1},
    InstrumentGuide{Instrument::half_millimetre_rule, "half_millimetre_rule",
                    "half-millimetre rule", 0.4, 0.5},
    InstrumentGuide{Instrument::caliper, "caliper", "caliper", 0.2, 0.1},
};

double width(const SizeLimits& limits) {
  if (!limits.least || !limits.most) return std::numeric_limits<double>::infinity();
  return *limits.most - *limits.least;
}

} // namespace

SizeLimits size_limits(double nominal, const Tolerance& tolerance) {
  return {nominal + tolerance.minus, nominal + tolerance.plus};
}

Acceptance judge(double measured, double U, const SizeLimits& limits) {
  if (!std::isfinite(measured) || !(U >= 0)) return Acceptance::not_decided;
  // Distance inside the nearer limit, mm.
  double inside = std::numeric_limits<double>::infinity();
  if (limits.least) inside = std::min(inside, measured - *limits.least);
  if (limits.most) inside = std::min(inside, *limits.most - measured);
  if (inside >= U - rounding_error) return Acceptance::accepted;
  return inside < -U - rounding_error ? Acceptance::refused : Acceptance::not_decided;
}

Acceptance worst(Acceptance a, Acceptance b) {
  return std::max(a, b);
}

std::span<const InstrumentGuide> instrument_guides() {
  return guides;
}

const InstrumentGuide& instrument_guide(Instrument instrument) {
  return *std::find_if(guides.begin(), guides.end(), [=](const InstrumentGuide& guide) {
    return guide.instrument == instrument;
  });
}

const InstrumentGuide* instrument_guide(std::string_view key) {
  const auto found = std::find_if(guides.begin(), guides.end(),
                                  [=](const InstrumentGuide& guide) { return guide.key == key; });
  return found == guides.end() ? nullptr : &*found;
}

bool can_prove(double U, const SizeLimits& limits) {
  return 2 * U < width(limits) + rounding_error;
}

std::optional<Instrument> instrument_for(const SizeLimits& limits) {
  for (const InstrumentGuide& guide : guides)
    if (width(limits) - 2 * guide.U >= guide.U - rounding_error) return guide.instrument;
  return {};
}

} // namespace shankline
