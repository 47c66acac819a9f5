// One part on a sheet of its own, no larger than it needs: what an SVG or a DXF file holds.
#pragma once

#include "export/drawing/drawing.hpp"
#include "export/drawing/template.hpp"
#include "export/lettering/typeface.hpp"

#include <string>
#include <vector>

namespace shankline {

/// What is written beside a part.
struct PartWords {
  std::string at_origin;           ///< "HEEL END"; empty for none
  std::vector<std::string> beside; ///< one line each, the first in bold
};

/// Millimetres from the sheet's lower left corner, y upwards; the part lies as on its page.
struct PartDrawing {
  double width = 0;
  double height = 0;
  Point low;  ///< of the lines alone
  Point high; ///< likewise
  /// In the order of the table of line kinds; of one kind inner closed lines come before those
  /// around them, so that nothing is cut loose before its own holes are cut.
  std::vector<Stroke> lines;
  std::vector<Text> labels;
  std::vector<Text> names; ///< of lines, beside each
};

/// The layer that holds the labels, and the one that holds the names of lines.
inline constexpr const char* label_layer = "label";
inline constexpr const char* name_layer = "line_names";
inline constexpr int name_colour = 48; ///< index colour of DXF, of no line kind

/// The dashes of a line: the pattern of its kind, stretched so that it ends with a dash as it began
/// with one. The line itself where its kind is solid. A closed line begins and ends at its first
/// point.
std::vector<Stroke> dashes_of(const Stroke& line);

/// `part` untiled: all of its lines, dashed ones as their dashes, but for the final cut of a part
/// that has no first one. Of the placement only the directions count.
PartDrawing part_drawing(const Template& part, const PartWords& words, const Typeface& typeface);

/// Closed lines that lie in others come first, otherwise the order stays.
void inner_first(std::vector<Stroke>& lines);

} // namespace shankline
