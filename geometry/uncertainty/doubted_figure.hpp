// A figure of one foot, a reading or a result, with its doubt and the sources of the doubt. Two
// feet or two orders are compared by such figures.
#pragma once

#include "geometry/uncertainty/uncertainty.hpp"

#include <string>
#include <utility>
#include <vector>

namespace shankline {

/// Figures that the knife follows come first.
enum class FigureRank { knife, reading, estimate };

/// The unit of a value; angles are radians, fractions 0 to 1.
enum class FigureUnit {
  mm,
  angle,
  fraction,
  moment, ///< N·mm
  area,   ///< mm²
  number,
  count, ///< a whole number of things
};

struct DoubtedFigure {
  std::string key;  ///< "trim.final.centre"; the same figure of another foot has the same key
  std::string name; ///< in words: "final cut, centre"
  FigureRank rank = FigureRank::knife;
  FigureUnit unit = FigureUnit::mm;
  Uncertain value;
  bool estimated = false; ///< replaces a missing reading
  bool chosen = false;    ///< a wish, or what follows from wishes alone: it has no doubt
  std::string missing;    ///< why there is no value; then `value` has no meaning
  /// The order does not ask for this, and `value` is what that means: 0 for the corner radius of a
  /// straight end. Two figures that are both not asked for are not compared.
  bool not_asked_for = false;
};

/// Figures of one calculation: `figures[i].value.parts[k]` is the contribution of `sources[k]`.
struct FigureGroup {
  std::vector<Source> sources;
  std::vector<DoubtedFigure> figures;
};

inline DoubtedFigure missing_figure(std::string key, std::string name, FigureRank rank,
                                    FigureUnit unit, std::string why) {
  return {std::move(key), std::move(name), rank, unit, {}, false, false, std::move(why)};
}

} // namespace shankline
