#include "export/screen/screen_svg.hpp"

#include "export/formats/svg_writer.hpp"
#include "geometry/order/figure.hpp"

#include <utility>
#include <variant>

namespace shankline {
namespace {

/// Screens do not show less than that of a millimetre.
std::string number(double value) {
  return figure(value, 2);
}

std::string dashes(const LineStyle& style) {
  std::string lengths;
  for (const double length : dash_lengths(style))
    lengths += (lengths.empty() ? "" : " ") + number(length);
  return lengths.empty() ? "" : " stroke-dasharray=\"" + lengths + "\"";
}

const char* anchor(Align align) {
  return align == Align::left ? "start" : align == Align::centre ? "middle" : "end";
}

} // namespace

ScreenPicture::ScreenPicture(double width, double height, std::string_view title)
    : height_(height),
      svg_("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " + number(width) + " " +
           number(height) + "\" role=\"img\"><title>" + xml_text(title) + "</title>\n") {}

std::string ScreenPicture::point(Point p, char between) const {
  return number(p.x) + between + number(height_ - p.y);
}

std::string ScreenPicture::points(const Polyline& line) const {
  std::string text;
  for (const Point& p : line)
    text += (text.empty() ? "" : " ") + point(p, ',');
  return text;
}

void ScreenPicture::stroke(const Stroke& line) {
  if (line.points.empty()) return;
  const LineStyle& style = line_style(line.kind);
  svg_ += line.closed ? "<polygon class=\"k-" : "<polyline class=\"k-";
  svg_ += style.name;
  svg_ += "\" fill=\"none\" stroke-width=\"" + number(style.width) + "\"" + dashes(style) +
          " points=\"" + points(line.points) + "\"/>\n";
}

void ScreenPicture::line(const Polyline& points_of_line, std::string_view css_class) {
  svg_ += "<polyline class=\"" + std::string(css_class) + "\" fill=\"none\" points=\"" +
          points(points_of_line) + "\"/>\n";
}

void ScreenPicture::area(const Polygon& outline, std::string_view css_class) {
  if (outline.empty()) return;
  svg_ +=
      "<polygon class=\"" + std::string(css_class) + "\" points=\"" + points(outline) + "\"/>\n";
}

void ScreenPicture::text(const Text& text, std::string_view css_class, double width) {
  svg_ += "<text class=\"" + std::string(css_class) + "\" font-size=\"" + number(text.size) +
          "\" x=\"" + number(text.at.x) + "\" y=\"" + number(height_ - text.at.y) +
          "\" text-anchor=\"" + anchor(text.align) + "\"";
  if (text.weight == Weight::bold) svg_ += " font-weight=\"bold\"";
  if (width > 0) svg_ += " textLength=\"" + number(width) + "\" lengthAdjust=\"spacingAndGlyphs\"";
  if (text.angle != 0)
    svg_ += " transform=\"rotate(" + number(-text.angle) + " " + point(text.at, ' ') + ")\"";
  svg_ += ">" + xml_text(text.words) + "</text>\n";
}

std::string ScreenPicture::svg() && {
  svg_ += "</svg>\n";
  return std::move(svg_);
}

std::string page_picture(const Page& page, const Typeface& typeface) {
  ScreenPicture picture(page.paper.width, page.paper.height, page.title);
  for (const Mark& mark : page.marks) {
    if (const Stroke* stroke = std::get_if<Stroke>(&mark)) {
      picture.stroke(*stroke);
      continue;
    }
    const Text& text = std::get<Text>(mark);
    picture.text(text, "t-page", typeface.width(text.words, text.size, text.weight));
  }
  return std::move(picture).svg();
}

} // namespace shankline
