#include "export/formats/part_drawing.hpp"

#include "export/drawing/box.hpp"
#include "geometry/numerics/degree.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numeric>
#include <optional>
#include <stdexcept>
#include <utility>

namespace shankline {
namespace {

constexpr double margin = 6;
constexpr double room_at_origin = 7; // for the words there
constexpr double label_size = 3.2;
constexpr double label_pitch = 4.8;
constexpr double widest_label = 160;
// Whoever opens the file draws with another face.
constexpr double wider_face = 1.2;
constexpr double name_size = 2.5; // 7 points
constexpr double name_air = 0.6;  // between a line and its name

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

/// Returns the number of other closed lines around a closed line; 0 for an open line.
std::size_t depth_of(const Stroke& line, const std::vector<Stroke>& lines) {
  if (!line.closed || line.points.empty()) return 0;
  return static_cast<std::size_t>(
      std::count_if(lines.begin(), lines.end(), [&](const Stroke& other) {
        return &other != &line && other.closed && surrounds(other.points, line.points.front());
      }));
}

/// Places the words outside the part, beside the origin of its frame: below an upright part,
/// upright beside a level one.
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

/// A line as it is walked along, with the way back of a closed one.
class Walk {
public:
  explicit Walk(const Stroke& line) : points_(line.points) {
    if (line.closed) points_.push_back(points_.front());
    at_.push_back(0);
    for (std::size_t i = 1; i < points_.size(); ++i)
      at_.push_back(at_.back() +
                    std::hypot(points_[i].x - points_[i - 1].x, points_[i].y - points_[i - 1].y));
  }

  double length() const { return at_.back(); }

  Point place(double along) const {
    const std::size_t i = piece(along);
    const double of = at_[i + 1] - at_[i];
    const double share = of > 0 ? std::clamp((along - at_[i]) / of, 0.0, 1.0) : 0;
    const Point& a = points_[i];
    const Point& b = points_[i + 1];
    return {a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)};
  }

  Polyline between(double from, double to) const {
    Polyline part{place(from)};
    for (std::size_t i = 0; i < points_.size(); ++i)
      if (at_[i] > from && at_[i] < to) part.push_back(points_[i]);
    part.push_back(place(to));
    return part;
  }

private:
  std::size_t piece(double along) const {
    const auto after = std::upper_bound(at_.begin() + 1, at_.end() - 1, along);
    return static_cast<std::size_t>(after - at_.begin()) - 1;
  }

  Polyline points_;
  std::vector<double> at_;
};

/// Many of these belong together: one name does for all.
bool is_crowd(LineKind kind) {
  return kind == LineKind::ruler || kind == LineKind::thinned_fill || kind == LineKind::hatch ||
         kind == LineKind::hatch_light;
}

bool is_dashed(const Stroke& line) {
  return line_style(line.kind).dash[0] != 0;
}

/// Returns the box around a text of that width, mm. A slanting text fills less than the box.
Box box_of(const Text& text, double width) {
  const double turn = text.angle * degree;
  const Point along{std::cos(turn), std::sin(turn)};
  const double back = text.align == Align::left ? 0 : text.align == Align::centre ? 0.5 : 1;
  Box box = nowhere;
  for (const double x : {-back * width, (1 - back) * width})
    for (const double y : {-0.2 * text.size, 0.8 * text.size})
      widen(box,
            Point{text.at.x + x * along.x - y * along.y, text.at.y + x * along.y + y * along.x});
  return box;
}

/// Writes names beside their lines. Each name is placed on the sheet and clear of all other names
/// and labels, if there is such a place.
class LineNames {
public:
  LineNames(PartDrawing& drawing, const Typeface& typeface)
      : drawing_(drawing), typeface_(typeface) {
    for (const Text& label : drawing.labels)
      taken_.push_back(box_of(label, width_of(label)));
  }

  void add() {
    const bool tried_first = has(LineKind::first_cut);
    std::vector<LineKind> named;
    for (const Stroke& line : drawing_.lines) {
      if (line.points.size() < 2) continue;
      if (is_crowd(line.kind) && std::find(named.begin(), named.end(), line.kind) != named.end())
        continue;
      named.push_back(line.kind);
      const bool only_cut = line.kind == LineKind::final_cut && !tried_first;
      add(line, only_cut ? "cut here" : std::string(line_style(line.kind).words));
    }
  }

private:
  bool has(LineKind kind) const {
    return std::any_of(drawing_.lines.begin(), drawing_.lines.end(),
                       [kind](const Stroke& line) { return line.kind == kind; });
  }
  double width_of(const Text& text) const {
    return wider_face * typeface_.width(text.words, text.size, text.weight);
  }

  void add(const Stroke& line, const std::string& words) {
    const Walk walk(line);
    Text name{{}, words, name_size};
    const double width = width_of(name);
    std::optional<Text> first;
    for (const double share : {0.0, 0.5, 0.25, 0.75, 0.1, 0.9})
      for (const bool above : {true, false}) {
        name = beside(walk, share * std::max(0.0, walk.length() - width), width, above, words);
        if (!first) first = name;
        const Box box = box_of(name, width);
        if (!is_free(box)) continue;
        taken_.push_back(box);
        drawing_.names.push_back(std::move(name));
        return;
      }
    taken_.push_back(box_of(*first, width));
    drawing_.names.push_back(*std::move(first));
  }

  /// Read from below or from the right.
  static Text beside(const Walk& walk, double from, double width, bool above,
                     const std::string& words) {
    Point start = walk.place(from);
    Point end = walk.place(std::min(from + width, walk.length()));
    if (end.x < start.x - 1e-9 || (std::abs(end.x - start.x) <= 1e-9 && end.y < start.y))
      std::swap(start, end);
    const double turn = std::atan2(end.y - start.y, end.x - start.x);
    const double off = above ? name_air : -name_air - 0.75 * name_size;
    return {{start.x - off * std::sin(turn), start.y + off * std::cos(turn)},
            words,
            name_size,
            Weight::regular,
            Align::left,
            turn / degree};
  }

  bool is_free(const Box& box) const {
    const Box sheet{2, 2, drawing_.width - 2, drawing_.height - 2};
    return holds(sheet, box) && std::none_of(taken_.begin(), taken_.end(),
                                             [&](const Box& other) { return overlap(box, other); });
  }

  PartDrawing& drawing_;
  const Typeface& typeface_;
  std::vector<Box> taken_;
};

/// Returns the lines with dashed ones as their dashes. A part without a first cut is cut at the
/// final one, which therefore stays a solid line.
std::vector<Stroke> with_dashes(const std::vector<Stroke>& lines) {
  const bool tried_first = std::any_of(lines.begin(), lines.end(), [](const Stroke& line) {
    return line.kind == LineKind::first_cut;
  });
  std::vector<Stroke> all;
  for (const Stroke& line : lines) {
    if (line.kind == LineKind::final_cut && !tried_first) {
      all.push_back(line);
      continue;
    }
    std::vector<Stroke> dashes = dashes_of(line);
    std::move(dashes.begin(), dashes.end(), std::back_inserter(all));
  }
  return all;
}

} // namespace

std::vector<Stroke> dashes_of(const Stroke& line) {
  if (!is_dashed(line) || line.points.size() < 2) return {line};
  const std::vector<double> pattern = dash_lengths(line_style(line.kind));
  const double period = std::accumulate(pattern.begin(), pattern.end(), 0.0);
  const Walk walk(line);
  const double periods = std::round((walk.length() - pattern.front()) / period);
  if (periods < 1) return {{line.kind, walk.between(0, walk.length()), false}};
  const double stretch = walk.length() / (periods * period + pattern.front());
  std::vector<Stroke> dashes;
  double at = 0;
  for (std::size_t i = 0; at < walk.length() - 1e-9; ++i) {
    const double length = stretch * pattern[i % pattern.size()];
    if (i % 2 == 0)
      dashes.push_back({line.kind, walk.between(at, std::min(at + length, walk.length())), false});
    at += length;
  }
  return dashes;
}

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
  LineNames(drawing, typeface).add();
  drawing.lines = with_dashes(drawing.lines);
  return drawing;
}

} // namespace shankline
