#include "export/templates/level_strip.hpp"

#include "export/templates/side_lines.hpp"
#include "geometry/numerics/degree.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <cmath>

namespace shankline {
namespace {

constexpr double least_size = 2.5; // 7 pt are 2.47 mm

} // namespace

Text StripPosition::operator()(Text text) const {
  text.at = place(text.at);
  text.angle += angle / degree;
  return text;
}

LevelStrip::LevelStrip(const SheetContext& context, FootSide foot, const SolvedSide& side,
                       const FootOrder& order, EdgeNames edge_names)
    : context_(context), foot_(foot), side_(side), edge_names_(edge_names),
      part_lines_(side_lines(side, order)) {
  toes_right_ = (foot_ == FootSide::left) == (side_.edge == Edge::medial);
  const Point wing = side_.wall.flat(side_.wing, 0);
  const double angle = std::atan2(wing.y, wing.x);
  const double mirror = toes_right_ ? 1 : -1;
  level_ = {{0, 0},
            {mirror * std::cos(angle), -std::sin(angle)},
            {mirror * std::sin(angle), std::cos(angle)}};
  for (const Stroke& line : part_lines_)
    lines_.push_back(placed(line, level_));
  box_ = bounds(part_lines_, level_);
  names();
}

double LevelStrip::along_at(double x) const {
  double low = 0;
  double high = side_.wing;
  for (int i = 0; i < 40; ++i) {
    const double t = (low + high) / 2;
    ((at(t, 0).x < x) == toes_right_ ? low : high) = t;
  }
  return low;
}

std::vector<LabelLine> LevelStrip::label_lines(double width, std::size_t page,
                                               const std::string& tile) const {
  std::vector<LabelLine> lines{{"OUTSIDE FACE UP", 3.4, Weight::bold}};
  if (!tile.empty()) lines.push_back({tile, 3});
  lines.push_back({side_name(foot_, side_), 3.3, Weight::bold});
  lines.push_back({context_.order.dancer + " \u00b7 order " + context_.digest + " \u00b7 page " +
                       std::to_string(page + 1),
                   2.6});
  for (const std::string* more : {&context_.order.date, &context_.order.pair})
    if (!more->empty()) lines.push_back({*more, least_size});
  for (LabelLine& line : lines) {
    while (line.size > least_size &&
           context_.typeface.width(line.words, line.size, Weight::bold) > width)
      line.size -= 0.1;
    line.words = context_.typeface.shorten(line.words, width, line.size);
  }
  return lines;
}

std::pair<double, double> LevelStrip::clear_heights(double t, double half) const {
  double base = -1e9;
  double top = 1e9;
  for (int i = -8; i <= 8; ++i) {
    const double here = std::clamp(t + half * i / 8, 0.0, side_.wing);
    base = std::max(base, at(here, 0).y);
    top = std::min(top, at(here, std::min(side_.finished(here), side_.low)).y);
  }
  return {base, top};
}

std::vector<Text> LevelStrip::label(double t, double width, std::size_t page,
                                    const std::string& tile) const {
  constexpr double pitch = 1.35; // ems
  const std::vector<LabelLine> lines = label_lines(width, page, tile);
  double half = 0;
  for (const LabelLine& line : lines)
    half = std::max(half, context_.typeface.width(line.words, line.size, Weight::bold) / 2);
  const auto [base, top] = clear_heights(t, half);
  const double room = top - base - 14 - 2 * height_tick;
  std::vector<Text> label;
  double used = 0;
  double y = base + height_tick + 3 + std::max(room, 0.0);
  for (const LabelLine& line : lines) {
    used += line.size * pitch;
    if (used > room) break;
    y -= line.size * pitch;
    label.push_back({{at(t, 0).x, y},
                     line.words,
                     line.size,
                     line.size > 3.2 ? Weight::bold : Weight::regular,
                     Align::centre});
  }
  return label;
}

std::vector<Text> LevelStrip::label(std::size_t page) const {
  const auto [from, to] = free_stretch();
  return label((from + to) / 2, to - from, page, "");
}

void LevelStrip::text(Point at, std::string words, double size, Weight weight, double angle) {
  texts_.push_back({at, std::move(words), size, weight, Align::centre, angle});
}

std::pair<double, double> LevelStrip::free_stretch() const {
  constexpr double air = 2;
  std::vector<std::pair<double, double>> taken;
  for (const SewnEnd& end : side_.sewn)
    taken.emplace_back(end.t - end.width / 2 - air, end.t + end.width / 2 + air);
  std::sort(taken.begin(), taken.end());
  taken.emplace_back(side_.wing * 0.8, side_.wing);
  std::pair<double, double> longest{0, 0};
  double from = side_.wing * 0.2;
  for (const auto& [rear, front] : taken) {
    if (rear - from > longest.second - longest.first) longest = {from, rear};
    from = std::max(from, front);
  }
  return longest;
}

void LevelStrip::sewn_names() {
  constexpr double size = least_size;
  for (const SewnEnd& end : side_.sewn) {
    const char* words = end.what == SewnEnd::What::ribbon ? "ribbon" : "elastic";
    if (context_.typeface.width(words, size) > end.width - 3 || end.top - end.low < size + 3)
      continue;
    // On a low side the marks of the ruler stand where the name would.
    const double middle_height = (end.top + end.low) / 2;
    if (middle_height - size / 2 < height_tick + 1) continue;
    const Point middle = at(end.t, middle_height);
    text({middle.x, middle.y - size * cap_height / 2}, words, size, Weight::regular);
  }
}

void LevelStrip::names() {
  sewn_names();
  for (const RulerHeight& mark : side_.heights) {
    if (mark.along == 0) continue; // the back seam has its own name
    const Point p = at(mark.along, -4);
    text({p.x, p.y - 0.8}, figure(mark.along, 0), least_size, Weight::regular);
  }
  low_point();
  end_name(0, "BACK SEAM", Weight::bold, toes_right_ ? -1 : 1);
  end_name(side_.wing, "towards the toes", Weight::regular, toes_right_ ? 1 : -1);
  sole_edge_name();
}

void LevelStrip::sole_edge_name() {
  constexpr double size = 3;
  if (edge_names_ == EdgeNames::on_it) {
    const double half = context_.typeface.width(sole_edge, size, Weight::bold) / 2;
    // Above the marks of the ruler only where there is no place without them.
    for (const double above : {1.4, height_tick + 1})
      for (const double part : {0.26, 0.38, 0.5, 0.62, 0.74}) {
        const double t = side_.wing * part;
        double base = -1e9;
        for (double off = -half; off <= half; off += half / 4)
          base = std::max(base, at(std::clamp(t + off, 0.0, side_.wing), 0).y);
        const Text text{{at(t, 0).x, base + above}, sole_edge, size, Weight::bold, Align::centre};
        if (!is_free(text)) continue;
        texts_.push_back(text);
        return;
      }
  }
  const Point sole = at(side_.wing * 0.5, 0);
  text({sole.x, box_.bottom - 9.2}, sole_edge, size, Weight::bold);
}

bool LevelStrip::is_free(const Text& text) const {
  constexpr double air = 0.8;
  const Box box = with_air(text_box(text, context_.typeface), air);
  for (const Text& other : texts_)
    if (overlap(box, text_box(other, context_.typeface))) return false;
  for (const Stroke& line : lines_)
    for (std::size_t i = 0; i < line.points.size(); ++i) {
      if (i == 0 && !line.closed) continue;
      if (runs_through(line.points[i == 0 ? line.points.size() - 1 : i - 1], line.points[i], box))
        return false;
    }
  return true;
}

Box LevelStrip::extent(const std::vector<Text>& label) const {
  Box extent = box_;
  for (const std::vector<Text>* texts : {&texts_, &label})
    for (const Text& text : *texts)
      widen(extent, text_box(text, context_.typeface));
  return extent;
}

bool LevelStrip::take_room(FreeSpace& space, const StripPosition& position, const Box& room,
                           std::size_t page) const {
  for (const std::vector<Text>& texts : {texts_, label(page)})
    for (const Text& text : texts) {
      const Box box = text_box(position(text), context_.typeface);
      if (!holds(room, box)) return false;
      space.take(with_air(box, 1));
    }
  // Take a net of lines over the strip, so fine that every block of text would touch one.
  constexpr int levels = 9;
  constexpr double pitch = 4;
  for (int k = 0; k <= levels; ++k) {
    Polyline line;
    for (double t = 0; t <= side_.wing; t += pitch)
      line.push_back(position.place(at(t, side_.stock(t) * k / levels)));
    line.push_back(position.place(at(side_.wing, side_.stock(side_.wing) * k / levels)));
    space.take(line);
  }
  return true;
}

void LevelStrip::low_point() {
  constexpr double size = 2.8;
  const std::string words = "low point, " + height_text(side_.low, context_.units) + " high";
  const double half = context_.typeface.width(words, size, Weight::bold) / 2;
  const Point low = at(side_.low_at, side_.low);
  // Words that would reach beyond an end of the strip might leave the page.
  const double x =
      std::clamp(low.x, box_.left + half, std::max(box_.left, box_.right - 2 * half) + half);
  double highest = -1e9; // of the stock line under the words
  for (double t = 0; t <= side_.wing; t += 1)
    if (const Point top = at(t, side_.stock(t)); std::abs(top.x - x) <= half + 2)
      highest = std::max(highest, top.y);
  const double y = std::max(at(side_.low_at, side_.stock(side_.low_at)).y + 4.4, highest + 2.2);
  leaders_.push_back({LineKind::leader, {{low.x, y - 1}, {low.x, low.y + 0.9}}, false});
  text({x, y}, words, size, Weight::bold);
}

void LevelStrip::end_name(double t, const char* words, Weight weight, double outward) {
  if (edge_names_ == EdgeNames::on_it && on_end(t, words, weight, -outward)) return;
  const Point foot = at(t, 0);
  const Point head = at(t, side_.stock(t));
  const double edge = outward < 0 ? std::min(foot.x, head.x) : std::max(foot.x, head.x);
  text({edge + (outward < 0 ? -1.4 : 3.6), (foot.y + head.y) / 2}, words, 3, weight, 90);
}

bool LevelStrip::on_end(double t, const char* words, Weight weight, double inward) {
  constexpr double size = 3;
  constexpr double air = 1.6;
  const double half = context_.typeface.width(words, size, weight) / 2;
  const double stock = side_.stock(t);
  const double low = at(t, 0).y;
  const double slope = (at(t, stock).x - at(t, 0).x) / (at(t, stock).y - low);
  for (double up = half + height_tick; up <= at(t, stock).y - low - half; up += 1) {
    const double below = at(t, 0).x + slope * (up - half);
    const double above = at(t, 0).x + slope * (up + half);
    // Upright words reach from their foot line to the left by the height of capitals.
    const double x = inward > 0 ? std::max(below, above) + air + size * cap_height
                                : std::min(below, above) - air;
    const Text text{{x, low + up}, words, size, weight, Align::centre, 90};
    if (!is_free(text)) continue;
    texts_.push_back(text);
    return true;
  }
  return false;
}

} // namespace shankline
