#include "export/part_drawing.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace shankline {
namespace {

constexpr double margin = 6;
constexpr double room_at_origin = 7; // for the words there
constexpr double label_size = 3.2;
constexpr double label_pitch = 4.8;
constexpr double widest_label = 160;
// Whoever opens the file draws with a face of his own.
constexpr double wider_face = 1.2;

struct Extent {
  Point low{1e9, 1e9};
  Point high{-1e9, -1e9};

  void take(Point p) {
    if (!std::isfinite(p.x) || !std::isfinite(p.y))
      throw std::logic_error("a template's line without a place");
    low = {std::min(low.x, p.x), std::min(low.y, p.y)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y)};
  }
};

Extent extent_of(const std::vector<Stroke>& lines) {
  Extent extent;
  for (const Stroke& line : lines)
    for (const Point& p : line.points)
      extent.take(p);
  return extent;
}

bool holds(const Polygon& outline, Point p) {
  bool inside = false;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Point& a = outline[i];
    const Point& b = outline[(i + 1) % outline.size()];
    if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) * (b.x - a.x) / (b.y - a.y))
      inside = !inside;
  }
  return inside;
}

/// In how many of the others a closed line lies.
std::size_t depth_of(const Stroke& line, const std::vector<Stroke>& lines) {
  if (!line.closed || line.points.empty()) return 0;
  return static_cast<std::size_t>(
      std::count_if(lines.begin(), lines.end(), [&](const Stroke& other) {
        return &other != &line && other.closed && holds(other.points, line.points.front());
      }));
}

/// Outside the part where its own frame begins: below an upright part, upright beside a level one.
Text words_at_origin(const std::string& words, Point origin, Point along) {
  constexpr double air = 1.6;
  if (std::abs(along.y) > std::abs(along.x)) {
    const double down = along.y > 0 ? -air - 0.8 * label_size : air;
    return {{origin.x, origin.y + down}, words, label_size, Weight::bold, Align::centre};
  }
  const double aside = along.x > 0 ? -air : air + 0.8 * label_size;
  return {{origin.x + aside, origin.y}, words, label_size, Weight::bold, Align::left, 90};
}

} // namespace

void inner_first(std::vector<Stroke>& lines) {
  std::vector<std::pair<std::size_t, std::size_t>> order;
  for (std::size_t i = 0; i < lines.size(); ++i)
    order.emplace_back(depth_of(lines[i], lines), i);
  std::stable_sort(order.begin(), order.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<Stroke> sorted;
  for (const auto& [depth, i] : order)
    sorted.push_back(std::move(lines[i]));
  lines = std::move(sorted);
}

PartDrawing part_drawing(const Template& part, const PartWords& words, const Typeface& typeface) {
  PartDrawing drawing;
  Placement place{{0, 0}, part.placement.along, part.placement.across};
  for (const LineStyle& style : line_styles()) {
    std::vector<Stroke> layer;
    for (const Stroke& line : part.lines) {
      if (line.kind != style.kind || line.points.empty()) continue;
      layer.push_back({line.kind, {}, line.closed});
      for (const Point& p : line.points)
        layer.back().points.push_back(place(p));
    }
    inner_first(layer);
    drawing.lines.insert(drawing.lines.end(), layer.begin(), layer.end());
  }
  if (drawing.lines.empty()) throw std::logic_error("a template without lines");

  const double label_height = label_pitch * static_cast<double>(words.beside.size());
  const Extent extent = extent_of(drawing.lines);
  const Point shift{margin + room_at_origin - extent.low.x,
                    margin + label_height + room_at_origin - extent.low.y};
  for (Stroke& line : drawing.lines)
    for (Point& p : line.points)
      p = {p.x + shift.x, p.y + shift.y};
  drawing.low = {extent.low.x + shift.x, extent.low.y + shift.y};
  drawing.high = {extent.high.x + shift.x, extent.high.y + shift.y};

  if (!words.at_origin.empty())
    drawing.labels.push_back(words_at_origin(words.at_origin, shift, place.along));
  double y = margin + label_height;
  double right = drawing.high.x + room_at_origin;
  for (const std::string& line : words.beside) {
    y -= label_pitch;
    const Weight weight = &line == &words.beside.front() ? Weight::bold : Weight::regular;
    std::string shown = typeface.shorten(line, widest_label, label_size, weight);
    right = std::max(right, margin + wider_face * typeface.width(shown, label_size, weight));
    drawing.labels.push_back({{margin, y + 1}, std::move(shown), label_size, weight});
  }
  // Whole millimetres: a size that can be checked at a glance.
  drawing.width = std::ceil(right + margin);
  drawing.height = std::ceil(drawing.high.y + margin + room_at_origin);
  return drawing;
}

} // namespace shankline
