// The drawings of the measuring page: where on a foot, a shoe and a side each reading is taken.
#pragma once

#include "export/drawing/drawing.hpp"

#include <string_view>
#include <vector>

namespace shankline {

/// A number on a drawing: its ring, and the point that it shows.
struct SketchPointer {
  std::string_view key;
  Point ring;
  Point at;
};

/// A size between two points of a drawing, with the number in the middle of its line.
struct SketchSize {
  std::string_view key;
  Point from;
  Point to;
  double number_at = 0.5; ///< along the line
};

struct SketchLabel {
  Point at;
  std::string_view words;
  Align align = Align::left;
};

struct SketchLine {
  LineKind kind;
  std::vector<Point> points;
  bool smooth = false; ///< drawn through its points without a corner
  bool closed = false;
};

/// A few strokes in units of a hundredth of the foot, and what is shown on them.
struct Sketch {
  std::vector<SketchLine> lines;
  std::vector<SketchSize> sizes;
  std::vector<SketchPointer> pointers;
  std::vector<SketchLabel> labels;
};

/// The pointed foot from the big-toe side, and below it the left foot's sole, heel to heel.
Sketch foot_sketch();
/// The shoe with its board in it, and below it the board by itself.
Sketch shoe_sketch();
/// The shoe's big-toe side, its top line and the heights of it.
Sketch side_sketch();

/// The points of a line as it is drawn.
Polyline drawn(const SketchLine& line);

} // namespace shankline
