#include "export/formats/part_drawing.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <stdexcept>

namespace shankline {
namespace {

constexpr double margin = 6;
constexpr double room_at_origin = 7; // for the words there
constexpr double label_size = 3.2;
constexpr double label_pitch = 4.8;
constexpr double widest_label = 160;
// Whoever opens the file draws with another face.
constexpr double wider_face = 1.2;

bool surrounds(const Polygon& outline, Point p) {
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
        return &other != &line && other.closed && surrounds(other.points, line.points.front());
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

void require_places(const std::vector<Stroke>& lines) {
  std::size_t points = 0;
  for (const Stroke& line : lines)
    for (const Point& p : line.points) {
      ++points;
      if (!std::isfinite(p.x) || !std::isfinite(p.y))
        throw std::logic_error("a template's line without a place");
    }
  if (points == 0) throw std::logic_error("a template without lines");
}

/// Line kind by line kind, of each the inner ones first.
std::vector<Stroke> in_layers(const std::vector<Stroke>& lines, const Placement& place) {
  std::vector<Stroke> all;
  for (const LineStyle& style : line_styles()) {
    std::vector<Stroke> layer;
    for (const Stroke& line : lines)
      if (line.kind == style.kind && !line.points.empty()) layer.push_back(placed(line, place));
    inner_first(layer);
    std::move(layer.begin(), layer.end(), std::back_inserter(all));
  }
  return all;
}

/// One below the other from `top`, the first in bold.
std::vector<Text> labels_below(const std::vector<std::string>& words, double top,
                               const Typeface& typeface) {
  std::vector<Text> labels;
  double y = top;
  for (const std::string& line : words) {
    y -= label_pitch;
    const Weight weight = labels.empty() ? Weight::bold : Weight::regular;
    labels.push_back({{margin, y + 1},
                      typeface.shorten(line, widest_label, label_size, weight),
                      label_size,
                      weight});
  }
  return labels;
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
  const Placement upright{{0, 0}, part.placement.along, part.placement.across};
  const Box box = bounds(part.lines, upright);
  require_places(part.lines);
  const double label_height = label_pitch * static_cast<double>(words.beside.size());
  const Point shift{margin + room_at_origin - box.left,
                    margin + label_height + room_at_origin - box.bottom};
  drawing.low = {box.left + shift.x, box.bottom + shift.y};
  drawing.high = {box.right + shift.x, box.top + shift.y};
  drawing.lines = in_layers(part.lines, {shift, upright.along, upright.across});

  if (!words.at_origin.empty())
    drawing.labels.push_back(words_at_origin(words.at_origin, shift, upright.along));
  double right = drawing.high.x + room_at_origin;
  for (Text& label : labels_below(words.beside, margin + label_height, typeface)) {
    right = std::max(right,
                     margin + wider_face * typeface.width(label.words, label.size, label.weight));
    drawing.labels.push_back(std::move(label));
  }
  // Whole millimetres: a size that can be checked at a glance.
  drawing.width = std::ceil(right + margin);
  drawing.height = std::ceil(drawing.high.y + margin + room_at_origin);
  return drawing;
}

} // namespace shankline
