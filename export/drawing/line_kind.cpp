#include "export/drawing/line_kind.hpp"

#include "export/drawing/inch.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace shankline {
namespace {

using enum LineKind;

// Colours: DXF of the form that every importer reads knows its index colours only, so SVG takes the
// same ones. They were found by a search among those darker than L* 72. For the kinds that stand in
// the files of parts, and the layer of names, it makes the smallest distance between two colours
// (CIELAB, seen by ordinary eyes and by eyes without red or green cones after Vienot, Brettel and
// Mollon 1999) as large as it can, 15, and keeps steps of 2.3 in lightness, so that a grey print
// tells them apart, too. The colours of the other kinds come from what is left, the farthest first.
constexpr std::array styles{
    LineStyle{band, "band", "final line known to this much", 0.60, 0.88, {}, 221},
    LineStyle{stop_band, "stop_band", "stop band: nothing is cut here", 0.62, 0.74, {}, 160},
    LineStyle{hatch_light, "hatch_light", "an area that is named", 0.10, 0.66, {}, 173},
    LineStyle{hatch, "hatch", "cut away first", 0.18, 0.45, {}, 231},
    LineStyle{thinned_fill, "thinned_fill", "thinned here", 0.20, 0.50, {1, 3}, 239},
    LineStyle{centre, "centre", "centre line", 0.16, 0.40, {9, 3, 2, 3}, 53},
    LineStyle{ruler, "ruler", "ruler", 0.17, 0.25, {}, 235},
    LineStyle{leader, "leader", "pointer", 0.18, 0.35, {}, 11},
    LineStyle{frame, "frame", "frame", 0.25, 0.0, {}, 227},
    LineStyle{window, "window", "where a cut may be", 0.13, 0.75, {}, 27},
    LineStyle{foot, "foot", "sole of the foot", 0.42, 0.0, {}, 103},
    LineStyle{shoe, "shoe", "sole of the shoe", 0.65, 0.35, {}, 243},
    LineStyle{board, "board", "board", 1.60, 0.15, {}, 154},
    LineStyle{gap_curve, "gap_curve", "largest gap", 0.50, 0.0, {2, 2}, 54},
    LineStyle{heel_gap_curve, "heel_gap_curve", "gap at the heel front", 0.50, 0.0, {7, 3}, 201},
    LineStyle{heel_pry_curve, "heel_pry_curve", "heel pry", 0.75, 0.0, {}, 202},
    LineStyle{break_curve, "break_curve", "place of the break", 0.50, 0.0, {8, 2, 2, 2}, 213},
    LineStyle{
        left_curve, "left_curve", "board left behind the arch break", 1.00, 0.30, {1, 2}, 247},
    LineStyle{card, "card", "bank card", 0.28, 0.0, {}, 102},
    LineStyle{scale_bar, "scale_bar", "100 mm bar", 0.40, 0.0, {}, 215},
    LineStyle{paper_trim, "paper_trim", "trim the paper here", 0.22, 0.20, {2, 2}, 25},
    LineStyle{registration, "registration", "lay cross on cross", 0.20, 0.0, {}, 233},
    LineStyle{lift_limit, "lift_limit", "lift limit", 0.30, 0.15, {6, 4}, 55},
    LineStyle{bevel, "bevel", "bevel begins", 0.32, 0.15, {8, 2, 1, 2, 1, 2}, 62},
    LineStyle{stitch, "stitch", "casing stitched here", 0.34, 0.10, {3, 3}, 182},
    LineStyle{sewn, "sewn", "ribbon or elastic sewn on here, inside", 0.38, 0.0, {2, 2}, 223},
    LineStyle{stock_top, "stock_top", "stock top line", 0.36, 0.0, {5, 2, 1, 2}, 46},
    LineStyle{edge, "edge", "edge", 0.45, 0.0, {}, 156},
    LineStyle{dimension, "dimension", "how far apart", 0.22, 0.12, {}, 18},
    LineStyle{farthest, "farthest", "farthest apart here", 0.52, 0.15, {}, 67},
    LineStyle{outline_a, "outline_a", "first outline", 0.60, 0.45, {}, 190},
    LineStyle{outline_b, "outline_b", "second outline", 0.45, 0.0, {7, 4}, 245},
    LineStyle{witness, "witness", "witness line", 0.55, 0.0, {1, 2}, 44},
    LineStyle{fold, "fold", "fold here", 0.90, 0.0, {12, 4}, 194},
    LineStyle{corner, "corner", "corners rounded last", 0.58, 0.20, {3, 2}, 214},
    LineStyle{thinned, "thinned", "thinned from here to here", 0.80, 0.0, {14, 3}, 186},
    LineStyle{stop, "stop", "stop line", 0.60, 0.0, {10, 3, 2, 3}, 208},
    LineStyle{final_cut, "final_cut", "final cut, only after trying", 0.70, 0.0, {7, 4}, 150},
    LineStyle{cut_a, "cut_a", "first final cut", 1.05, 0.0, {}, 225},
    LineStyle{cut_b, "cut_b", "second final cut", 1.05, 0.0, {6, 4}, 220},
    LineStyle{first_cut, "first_cut", "first cut", 1.20, 0.0, {}, 210},
    LineStyle{removed_piece, "removed_piece", "piece cut away", 0.08, 0.0, {}, 241},
    LineStyle{kept_piece, "kept_piece", "piece that stays", 0.10, 0.0, {}, 170},
};

/// Returns true if every kind stands in the row of its number: kinds find their row by number, and
/// the table is the drawing order.
constexpr bool in_order() {
  for (std::size_t i = 0; i < styles.size(); ++i)
    if (static_cast<std::size_t>(styles[i].kind) != i) return false;
  return styles.size() == static_cast<std::size_t>(kept_piece) + 1;
}
static_assert(in_order());

} // namespace

std::span<const LineStyle> line_styles() {
  return styles;
}

std::vector<double> dash_lengths(const LineStyle& style) {
  std::vector<double> lengths;
  for (const int points : style.dash)
    if (points != 0) lengths.push_back(points * mm_per_point);
  return lengths;
}

ScreenColour screen_colour(int index) {
  if (index < 10 || index > 249) throw std::out_of_range("there is no such index colour of hues");
  constexpr std::array depths{1.0, 0.65, 0.5, 0.3, 0.15};
  const double depth = depths[static_cast<std::size_t>(index % 10 / 2)];
  const double least = index % 2 == 0 ? 0 : depth / 2;
  const int quarters = index / 10 - 1;
  const double hue = quarters / 4.0; // in sixths of the circle
  // Returns the amount, 0 to 255, of the primary colour whose hue is `centre`, in sixths of the
  // circle.
  const auto part = [&](double centre) {
    const double apart = std::abs(std::remainder(hue - centre, 6));
    const double share = std::clamp(2 - apart, 0.0, 1.0);
    return static_cast<int>(std::lround(255 * (least + share * (depth - least))));
  };
  return {part(0), part(2), part(4)};
}

bool is_shade(LineKind kind) {
  return kind == band || kind == stop_band;
}

const LineStyle& line_style(LineKind kind) {
  return styles.at(static_cast<std::size_t>(kind));
}

} // namespace shankline
