#include "tests/export/layout_check.hpp"

#include "export/lettering/typeface.hpp"
#include "export/page/sheet_page.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace shankline::tests {
namespace {

/// Does the segment run through the box? Clips the segment's parameter against each side.
bool crosses(const Point& a, const Point& b, const Box& box) {
  double from = 0;
  double to = 1;
  const auto clip = [&](double start, double step, double low, double high) {
    if (step == 0) return start >= low && start <= high;
    const double enter = ((step > 0 ? low : high) - start) / step;
    const double leave = ((step > 0 ? high : low) - start) / step;
    from = std::max(from, enter);
    to = std::min(to, leave);
    return from <= to;
  };
  return clip(a.x, b.x - a.x, box.left, box.right) && clip(a.y, b.y - a.y, box.bottom, box.top);
}

/// A text's rectangle, which may be turned on the page: an upright one about the text's own place.
class TextRectangle {
public:
  TextRectangle(const Text& text, const Typeface& typeface)
      : at_(text.at), cosine_(std::cos(text.angle * std::numbers::pi / 180)),
        sine_(std::sin(text.angle * std::numbers::pi / 180)) {
    Text level = text;
    level.angle = 0;
    box_ = text_box(level, typeface);
  }
  bool crossed(const Point& a, const Point& b, double half) const {
    return crosses(turned(a, -1), turned(b, -1),
                   {box_.left - half, box_.bottom - half, box_.right + half, box_.top + half});
  }
  /// Two rectangles that overlap: a side of one runs through the other.
  bool overlaps(const TextRectangle& other) const {
    return a_side_crosses(other) || other.a_side_crosses(*this);
  }

private:
  Point turned(const Point& p, double sign) const {
    const double x = p.x - at_.x;
    const double y = p.y - at_.y;
    return {at_.x + x * cosine_ - sign * y * sine_, at_.y + sign * x * sine_ + y * cosine_};
  }
  bool a_side_crosses(const TextRectangle& other) const {
    constexpr double touch = 1e-6; // side by side is no overlap
    const Point corners[]{{box_.left + touch, box_.bottom + touch},
                          {box_.right - touch, box_.bottom + touch},
                          {box_.right - touch, box_.top - touch},
                          {box_.left + touch, box_.top - touch}};
    for (std::size_t i = 0; i < 4; ++i)
      if (other.crossed(turned(corners[i], 1), turned(corners[(i + 1) % 4], 1), 0)) return true;
    return false;
  }

  Point at_;
  double cosine_;
  double sine_;
  Box box_;
};

/// Answers no, quickly, for most pairs: what they hold can only meet where the boxes do.
bool may_meet(const Box& a, const Box& b) {
  constexpr double edge = 1e-6; // boxes that touch may meet
  return overlap(with_air(a, edge), b);
}

/// The box of a line of this half width from a to b.
Box around(const Point& a, const Point& b, double half) {
  Box box = nowhere;
  widen(box, a);
  widen(box, b);
  return with_air(box, half);
}

std::string place(const Point& p) {
  return " at " + std::to_string(std::lround(p.x)) + "," + std::to_string(std::lround(p.y));
}

} // namespace

std::vector<std::string> layout_faults(const Page& page) {
  const Typeface typeface;
  std::vector<std::string> faults;
  struct Written {
    Box box;
    TextRectangle rectangle;
    const Text* text;
  };
  std::vector<Written> texts;
  for (const Mark& mark : page.marks)
    if (const Text* text = std::get_if<Text>(&mark))
      texts.push_back({text_box(*text, typeface), TextRectangle(*text, typeface), text});

  const Box printable{unprintable, unprintable, page.paper.width - unprintable,
                      page.paper.height - unprintable};
  for (std::size_t i = 0; i < texts.size(); ++i) {
    const auto& [box, rectangle, text] = texts[i];
    if (box.left < printable.left || box.right > printable.right || box.bottom < printable.bottom ||
        box.top > printable.top)
      faults.push_back("'" + text->words + "' leaves the page" + place(text->at));
    for (std::size_t k = i + 1; k < texts.size(); ++k)
      if (may_meet(box, texts[k].box) && rectangle.overlaps(texts[k].rectangle))
        faults.push_back("'" + text->words + "' lies on '" + texts[k].text->words + "'" +
                         place(text->at));
  }
  for (const Mark& mark : page.marks) {
    const Stroke* line = std::get_if<Stroke>(&mark);
    if (!line) continue;
    if (is_shade(line->kind)) continue; // words may stand on grey
    const double half = line_style(line->kind).width / 2;
    Polyline points = line->points;
    if (line->closed) points.push_back(points.front());
    for (const auto& [box, rectangle, text] : texts) {
      for (std::size_t i = 1; i < points.size(); ++i)
        if (may_meet(box, around(points[i - 1], points[i], half)) &&
            rectangle.crossed(points[i - 1], points[i], half)) {
          faults.push_back("a line of kind " + std::string(line_style(line->kind).name) +
                           " runs through '" + text->words + "'" + place(text->at));
          break;
        }
    }
    for (const Point& p : points)
      if (p.x < printable.left || p.x > printable.right || p.y < printable.bottom ||
          p.y > printable.top) {
        faults.push_back("a line of kind " + std::string(line_style(line->kind).name) +
                         " leaves the page" + place(p));
        break;
      }
  }
  return faults;
}

} // namespace shankline::tests
