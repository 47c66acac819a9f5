// One part on a sheet of its own, no larger than it needs: what an SVG or a DXF file holds.
#pragma once

#include "export/drawing/drawing.hpp"
#include "export/drawing/template.hpp"
#include "export/lettering/typeface.hpp"

#include <string>
#include <vector>

namespace shankline {

/// The words that are written beside a part.
struct PartWords {
  std::string at_origin;           ///< "HEEL END"; empty for none
  std::vector<std::string> beside; ///< one line each, the first in bold
};

/// A part in millimetres from the sheet's lower left corner, y upwards, turned as on its page.
struct PartDrawing {
  double width = 0;
  double height = 0;
  Point low;  ///< of the lines alone
  Point high; ///< likewise
  /// Sorted by the table of line kinds. Within one kind inner closed lines come before those around
  /// them, so that a piece is not cut loose before its own holes are cut.
  std::vector<Stroke> lines;
  std::vector<Text> labels;
  std::vector<Text> names; ///< of lines, beside each
};

/// The layer that holds the labels, and the one that holds the names of lines.
inline constexpr const char* label_layer = "label";
inline constexpr const char* name_layer = "line_names";
inline constexpr int name_colour = 48; ///< index colour of DXF, of no line kind

/// Returns the dashes of a line: the pattern of its kind, stretched so that it begins and ends with
/// a dash. Returns the line itself if its kind is solid. A closed line begins and ends at its first
/// point.
std::vector<Stroke> dashes_of(const Stroke& line);

/// Returns `part` without tiles: all of its lines, with dashed ones as their dashes, except the
/// final cut of a part that has no first cut. Only the directions of the placement are used.
PartDrawing part_drawing(const Template& part, const PartWords& words, const Typeface& typeface);

/// Closed lines that lie in others come first, otherwise the order stays.
void inner_first(std::vector<Stroke>& lines);

} // namespace shankline
