// A figure of one foot, a reading or a result, with its doubt and where the doubt comes from: what
// left and right, or two orders, are compared by.
#pragma once

#include "geometry/uncertainty/uncertainty.hpp"

#include <string>
#include <utility>
#include <vector>

namespace shankline {

/// Figures that the knife follows come first.
enum class FigureRank { knife, reading, estimate };

/// The unit of a value; angles are radians, fractions 0 to 1.
enum class FigureUnit { mm, angle, fraction, moment /* N·mm */, area /* mm² */, number };

struct DoubtedFigure {
  std::string key;  ///< "trim.final.centre"; the same figure of another foot has the same key
  std::string name; ///< in words: "final cut, centre"
  FigureRank rank = FigureRank::knife;
  FigureUnit unit = FigureUnit::mm;
  Uncertain value;
  bool estimated = false; ///< stands in for a reading that was not taken
  bool chosen = false;    ///< a wish, or what follows from wishes alone: it has no doubt
  std::string missing;    ///< why there is none; the value means nothing then
};

/// Figures of one calculation: the parts of every value are of these sources.
struct FigureGroup {
  std::vector<Source> sources;
  std::vector<DoubtedFigure> figures;
};

inline DoubtedFigure missing_figure(std::string key, std::string name, FigureRank rank,
                                    FigureUnit unit, std::string why) {
  return {std::move(key), std::move(name), rank, unit, {}, false, false, std::move(why)};
}

} // namespace shankline
