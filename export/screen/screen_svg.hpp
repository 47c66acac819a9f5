// A page's marks as a picture for a screen (Scalable Vector Graphics 1.1, W3C). A screen is not
// true to size, so nobody measures on such a picture; for that there are the PDF, SVG and DXF
// files.
#pragma once

#include "export/drawing/drawing.hpp"
#include "export/lettering/typeface.hpp"

#include <string>
#include <string_view>

namespace shankline {

/// Builds one picture. Every stroke has the class `k-` and its line kind's name, for instance
/// `k-first_cut`, and every text the class that it was given: whoever shows the picture gives the
/// colours. Widths and dashes are those of the line kinds, in mm. It has no style of its own, so
/// that it can be shown where styles in the markup are forbidden.
///
///   ScreenPicture picture(100, 140, "Left board");
///   picture.stroke({LineKind::first_cut, {{10, 52.6}, {60, 52.6}}, false});
///   picture.text({{62, 51}, "1 first 52.6", 4.6}, "t-name");
///   const std::string svg = std::move(picture).svg();
class ScreenPicture {
public:
  /// `width` and `height` in mm; marks are placed from the lower left corner, y upwards. `title` is
  /// read out by screen readers.
  ScreenPicture(double width, double height, std::string_view title);

  void stroke(const Stroke& line);
  /// A line that is of no kind of the sheets.
  void line(const Polyline& points_of_line, std::string_view css_class);
  /// A filled area.
  void area(const Polygon& outline, std::string_view css_class);
  /// `width` is that of the text in mm where it must not run wider with another face; 0 leaves it
  /// to the face.
  void text(const Text& text, std::string_view css_class, double width = 0);

  std::string svg() &&;

private:
  std::string point(Point p, char between) const;
  std::string points(const Polyline& line) const;

  double height_;
  std::string svg_;
};

/// The whole page as a picture.
std::string page_picture(const Page& page, const Typeface& typeface);

} // namespace shankline
