// The one table of line kinds. A page, an SVG and a DXF all take width, dash, grey and name from
// it.
#pragma once

#include <array>
#include <span>
#include <string_view>
#include <vector>

namespace shankline {

/// Few kinds, told apart without colour. Each has a width, dash and grey of its own, so that a
/// reader of the file finds every kind by these alone. They are in drawing order: later ones lie on
/// top.
enum class LineKind {
  band,         ///< shades how well the final line is known
  stop_band,    ///< shades where nothing may be cut without a fitter's word
  hatch_light,  ///< fills a place that a sketch names
  hatch,        ///< fills what comes off first
  thinned_fill, ///< fills the stretch where the board is thinned, across the board
  centre,       ///< the part's centre line
  ruler,        ///< the printed ruler along the centre line
  leader,       ///< from a label to what it names
  frame,        ///< title strip, tables, boxes
  window,       ///< shades where a cut may be
  foot,         ///< the sole of the foot, in profile
  shoe,         ///< the sole of the shoe, in profile
  board,        ///< the board on it, in profile
  gap_curve,    ///< of the chart: largest gap
  heel_gap_curve,
  heel_pry_curve,
  break_curve,
  left_curve,    ///< of the chart: board left behind the arch break
  card,          ///< outline of a bank card, the page's own proof of scale
  scale_bar,     ///< 100 mm bars, likewise
  paper_trim,    ///< where the paper gauge is cut out
  registration,  ///< crosses by which tiles are joined
  lift_limit,    ///< the board is not lifted past this
  bevel,         ///< where the bevel begins
  stitch,        ///< where the casing is stitched
  sewn,          ///< the end of a ribbon or elastic, sewn on here
  stock_top,     ///< the shoe's top line before it is lowered
  edge,          ///< the part's outline
  dimension,     ///< the distance of two lines of parts laid over each other
  farthest,      ///< the place where two outlines are farthest apart
  outline_a,     ///< the first part
  outline_b,     ///< the second
  witness,       ///< drawn first, everything later is measured back from it
  fold,          ///< folded in here, not cut
  corner,        ///< rounded after the last cut
  thinned,       ///< both ends of the stretch where the board is thinned
  stop,          ///< nothing may be cut past this
  final_cut,     ///< of a board: lighter than the first cut, since it is cut after trying only
  cut_a,         ///< final cut of the first part
  cut_b,         ///< and of the second
  first_cut,     ///< the line to cut
  removed_piece, ///< closed, for a plotter or a laser: in SVG and DXF alone, as is the next
  kept_piece,
};

struct LineStyle {
  LineKind kind;
  std::string_view name;  ///< as in --lines and as a layer: "final_cut"
  std::string_view words; ///< as in the key of a page: "final cut"
  double width;           ///< mm
  double grey;            ///< 0 black to 1 white
  /// Dash pattern in printer's points (1/72 inch), on and off in turn; the PDF library takes whole
  /// numbers from 1 to 100 only. Zeros end it; all zero is a solid line.
  std::array<int, 6> dash;
  int colour; ///< in SVG and DXF: number of an index colour of DXF, which no other kind has
};

std::span<const LineStyle> line_styles();
const LineStyle& line_style(LineKind kind);

/// A colour as screens show it, 0 to 255.
struct ScreenColour {
  int red = 0;
  int green = 0;
  int blue = 0;
};

/// The index colours 10 to 249 of DXF: 24 hues from red on, 15 degrees apart, of each five depths,
/// and of each depth a full and a half saturation. Throws std::out_of_range for another number.
ScreenColour screen_colour(int index);

/// Returns true if lines of this kind lie side by side to shade an area.
bool is_shade(LineKind kind);

/// Lengths of dashes and gaps in turn, mm; empty for a solid line.
std::vector<double> dash_lengths(const LineStyle& style);

} // namespace shankline
