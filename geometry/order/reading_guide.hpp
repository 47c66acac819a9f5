// The one table of readings: key, unit, what is possible, what doubt it has, how it is taken.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace shankline {

enum class Quantity { length, angle, percent, mass, number };

/// One row a reading. Limits are what a measuring slip would cross, not what is likely: a value
/// outside them is an error. `least`, `most` and `finding` are in mm, degrees, per cent, grams.
struct ReadingGuide {
  std::string_view key; ///< the key's path inside its section: "arch_break", "board.inset"
  Quantity quantity;
  double least;
  double most;
  /// Default finding half-width: common practice, no source, from memory.
  double finding;
  std::string_view name;  ///< in words: "arch break"
  std::string_view how;   ///< how to take it, one sentence, imperative
  std::string_view why{}; ///< what it decides, one or two sentences; may be empty
  /// From where to where it is measured, one sentence, where `how` does not say so.
  std::string_view between{};
};

std::span<const ReadingGuide> reading_guides();

/// The row of a key, or null.
const ReadingGuide* reading_guide(std::string_view key);

/// The default finding half-width as an order holds it: mm, or radians.
double usual_finding(const ReadingGuide& guide);

/// How the reading of this key is taken; empty for a key without a row.
std::string how_to_take(std::string_view key);

/// "120 to 340 mm"; of a plain number without a unit.
std::string limits_in_words(const ReadingGuide& guide);

} // namespace shankline
