#include "tests/export/layout_check.hpp"

#include "export/sheet_page.hpp"
#include "export/typeface.hpp"

#include <algorithm>
#include <cmath>

namespace shankline::tests {
namespace {

bool boxes_overlap(const Box& a, const Box& b) {
  return a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top;
}

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

std::string place(const Point& p) {
  return " at " + std::to_string(std::lround(p.x)) + "," + std::to_string(std::lround(p.y));
}

} // namespace

std::vector<std::string> layout_faults(const Page& page) {
  const Typeface typeface;
  std::vector<std::string> faults;
  std::vector<std::pair<Box, const Text*>> texts;
  for (const Mark& mark : page.marks)
    if (const Text* text = std::get_if<Text>(&mark))
      texts.emplace_back(text_box(*text, typeface), text);

  const Box printable{unprintable, unprintable, page.paper.width - unprintable,
                      page.paper.height - unprintable};
  for (std::size_t i = 0; i < texts.size(); ++i) {
    const auto& [box, text] = texts[i];
    if (box.left < printable.left || box.right > printable.right || box.bottom < printable.bottom ||
        box.top > printable.top)
      faults.push_back("'" + text->words + "' leaves the page" + place(text->at));
    for (std::size_t k = i + 1; k < texts.size(); ++k)
      if (boxes_overlap(box, texts[k].first))
        faults.push_back("'" + text->words + "' lies on '" + texts[k].second->words + "'" +
                         place(text->at));
  }
  for (const Mark& mark : page.marks) {
    const Stroke* line = std::get_if<Stroke>(&mark);
    if (!line) continue;
    const double half = line_style(line->kind).width / 2;
    Polyline points = line->points;
    if (line->closed) points.push_back(points.front());
    for (const auto& [box, text] : texts) {
      const Box grown{box.left - half, box.bottom - half, box.right + half, box.top + half};
      for (std::size_t i = 1; i < points.size(); ++i)
        if (crosses(points[i - 1], points[i], grown)) {
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
