// The one table of readings: key, unit, what is possible, what doubt it has, how it is taken.
#pragma once

#include "geometry/order/order.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace shankline {

enum class Quantity { length, angle, percent, mass, number };

/// The member of the order's structs that holds a reading of the foot.
class PlaceInFoot {
public:
  constexpr PlaceInFoot() = default; ///< for what is no reading of a foot
  constexpr PlaceInFoot(std::optional<Reading> Foot::*member) : member_(member) {}
  constexpr PlaceInFoot(std::optional<Reading> ArchBreak::*edge) : edge_(edge) {}

  constexpr explicit operator bool() const { return member_ != nullptr || edge_ != nullptr; }
  constexpr bool is_of_arch_break() const { return edge_ != nullptr; }

  /// Call it only if there is a place.
  std::optional<Reading>& of(Foot& foot) const {
    return edge_ ? foot.arch_break.*edge_ : foot.*member_;
  }
  const std::optional<Reading>& of(const Foot& foot) const {
    return edge_ ? foot.arch_break.*edge_ : foot.*member_;
  }

private:
  std::optional<Reading> Foot::*member_ = nullptr;
  std::optional<Reading> ArchBreak::*edge_ = nullptr;
};

/// One row a reading: from it come the order's reader and writer, the limits, the check of repeats,
/// the comparison of two feet, the manual's line, the schema of the order and the questions. Limits
/// are what a measuring slip would cross, not what is likely: a value outside them is an error.
/// `least`, `most` and `finding` are in mm, degrees, per cent, grams.
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
  /// One sentence on where the measured length begins and ends; empty if `how` says so.
  std::string_view between{};
  PlaceInFoot in_foot{};
  /// A distance along the foot, from where the order's pose counts.
  bool posed = false;
};

std::span<const ReadingGuide> reading_guides();

/// The row of a key, or null.
const ReadingGuide* reading_guide(std::string_view key);

/// Returns the factor from the guide's unit to the order's unit (mm, radians, fractions, grams).
double order_units(Quantity quantity);

/// The default finding half-width as an order holds it: mm, or radians.
double usual_finding(const ReadingGuide& guide);

/// Instructions for taking the reading of this key; empty if the key has no row.
std::string how_to_take(std::string_view key);

/// "120 to 340 mm"; of a plain number without a unit.
std::string limits_in_words(const ReadingGuide& guide);

} // namespace shankline
