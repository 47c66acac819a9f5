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
};

/// The name of the layer that holds the labels.
inline constexpr const char* label_layer = "label";

/// `part` untiled: all of its lines. Of the placement only the directions count.
PartDrawing part_drawing(const Template& part, const PartWords& words, const Typeface& typeface);

/// Closed lines that lie in others come first, otherwise the order stays.
void inner_first(std::vector<Stroke>& lines);

} // namespace shankline
