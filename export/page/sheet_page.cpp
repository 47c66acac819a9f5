#include "export/page/sheet_page.hpp"

#include "geometry/numerics/degree.hpp"
#include "geometry/plane/flatten.hpp"

#include <cmath>
#include <utility>

namespace shankline {
namespace {

constexpr double label_pitch = 1.45; // from line to line of a label, in ems

/// A rectangle with rounded corners, counter-clockwise from the lower left.
Polygon rounded_rectangle(const Point& corner, double width, double height, double radius) {
  const double l = corner.x;
  const double b = corner.y;
  const double r = l + width;
  const double t = b + height;
  constexpr double chord_error = 0.005;
  const auto arc = [&](Point centre, Point begin, Point end) {
    return flatten_arc(centre, begin, end, chord_error);
  };
  Polygon outline = arc({r - radius, b + radius}, {r - radius, b}, {r, b + radius});
  join(outline, arc({r - radius, t - radius}, {r, t - radius}, {r - radius, t}));
  join(outline, arc({l + radius, t - radius}, {l + radius, t}, {l, t - radius}));
  join(outline, arc({l + radius, b + radius}, {l, b + radius}, {l + radius, b}));
  return outline;
}

/// Figures and capitals stand on the baseline; only some letters reach below it.
bool reaches_below(std::string_view words) {
  return words.find_first_of("gjpqy,;()[]{}|@$Q") != std::string_view::npos;
}

} // namespace

Box text_box(const Text& text, const Typeface& typeface) {
  const double width = typeface.width(text.words, text.size, text.weight);
  const double before = before_anchor(text.align, width);
  const double angle = text.angle * degree;
  const double below = reaches_below(text.words) ? descent * text.size : 0;
  Box box{text.at.x, text.at.y, text.at.x, text.at.y};
  for (const double along : {-before, width - before})
    for (const double up : {-below, cap_height * text.size}) {
      const Point corner{text.at.x + along * std::cos(angle) - up * std::sin(angle),
                         text.at.y + along * std::sin(angle) + up * std::cos(angle)};
      widen(box, corner);
    }
  return box;
}

std::string order_line(const Order& order, std::string_view between) {
  std::string line;
  for (const std::string* part : {&order.dancer, &order.pair, &order.date})
    if (!part->empty()) line.append(line.empty() ? "" : between).append(*part);
  return line;
}

double height_of(const std::vector<LabelLine>& lines) {
  double height = 0;
  for (const LabelLine& line : lines)
    height += line.size * label_pitch;
  return height;
}

SheetPage::SheetPage(const SheetContext& context, std::size_t number, std::string title,
                     const std::optional<Paper>& paper, double widest)
    : context_(context), number_(number),
      widest_(widest), page_{paper.value_or(text_page(context.paper)), std::move(title), {}} {}

void SheetPage::stroke(LineKind kind, Polyline points, bool closed) {
  page_.marks.emplace_back(Stroke{kind, std::move(points), closed});
}

void SheetPage::strokes(const std::vector<Stroke>& lines, const Placement& place) {
  for (const Stroke& line : lines)
    page_.marks.emplace_back(placed(line, place));
}

void SheetPage::rectangle(LineKind kind, const Box& box) {
  stroke(kind, corners(box), true);
}

void SheetPage::text(Point at, std::string words, double size, Weight weight, Align align,
                     double angle) {
  page_.marks.emplace_back(Text{at, std::move(words), size, weight, align, angle});
}

double SheetPage::paragraph(Point top_left, double width, std::string_view words, double size,
                            Weight weight) {
  double y = top_left.y;
  for (std::string& line : context_.typeface.wrap(words, width, size, weight)) {
    text({top_left.x, y - size * cap_height}, std::move(line), size, weight);
    y -= size * leading;
  }
  return y;
}

double SheetPage::height_of(std::string_view words, double width, double size,
                            Weight weight) const {
  return size * leading *
         static_cast<double>(context_.typeface.wrap(words, width, size, weight).size());
}

double SheetPage::numbered(Point top_left, double width, const std::vector<std::string>& items,
                           const NumberedStyle& style) {
  const auto& [size, indent, air] = style;
  double y = top_left.y;
  for (std::size_t i = 0; i < items.size(); ++i) {
    text({top_left.x, y - size * cap_height}, std::to_string(i + 1), size, Weight::bold);
    y = paragraph({top_left.x + indent, y}, width - indent, items[i], size) - air;
  }
  return y;
}

double SheetPage::height_of(const std::vector<std::string>& items, double width,
                            const NumberedStyle& style) const {
  double height = 0;
  for (const std::string& item : items)
    height += height_of(item, width - style.indent, style.size) + style.air;
  return height;
}

double SheetPage::fitted_size(std::string_view words, double width, double size, double least,
                              Weight weight) const {
  while (size > least && width_of(words, size, weight) > width)
    size -= 0.1;
  return size;
}

std::string SheetPage::page_of() const {
  return "page " + std::to_string(number_ + 1) + " of " + std::to_string(context_.pages);
}

void SheetPage::strip_warning(double x, std::string_view warning) {
  constexpr double smallest = 2.5;
  const double wide = right() - x;
  const double size = fitted_size(warning, wide, 3, smallest, Weight::bold);
  std::vector<std::string> lines = context_.typeface.wrap(warning, wide, size, Weight::bold);
  if (lines.size() == 1) return text({x, top() - 14.8}, lines.front(), size, Weight::bold);
  std::string second = std::move(lines[1]);
  if (lines.size() > 2)
    second = context_.typeface.shorten(second + " " + lines[2], wide, size, Weight::bold);
  text({x, top() - 13.3}, std::move(lines[0]), size, Weight::bold);
  text({x, top() - 16.4}, std::move(second), size, Weight::bold);
}

double SheetPage::title_strip(std::string_view letter, std::string_view warning) {
  constexpr double letter_size = 21;
  const double x = letter.empty() ? left() : left() + 19;
  if (!letter.empty())
    text({left(), top() - letter_size * cap_height}, std::string(letter), letter_size,
         Weight::bold);
  text({right(), top() - 3.4}, "order " + context_.digest, 2.9, Weight::regular, Align::right);
  text({right(), top() - 8.2}, page_of(), 2.9, Weight::regular, Align::right);
  text({x, top() - 4.6}, page_.title, 5.4, Weight::bold);
  const double room = right() - 32 - x;
  text({x, top() - 10}, context_.typeface.shorten(order_line(context_.order), room, 3.3), 3.3);
  if (!warning.empty()) strip_warning(x, warning);
  const double rule = top() - 17.4;
  stroke(LineKind::frame, {{left(), rule}, {right(), rule}});
  return rule;
}

void SheetPage::signatures(double above, const std::array<std::string, 3>& names,
                           const std::array<std::string, 3>& said) {
  constexpr double apart = 10;
  const double y = bottom() + above;
  const double width = (right() - left() - 2 * apart) / 3;
  for (std::size_t i = 0; i < names.size(); ++i) {
    const double x = left() + (width + apart) * static_cast<double>(i);
    stroke(LineKind::frame, {{x, y}, {x + width, y}});
    text({x, y - 4}, names[i], 2.7);
    if (!said[i].empty())
      text({x + 1, y + 1.4}, context_.typeface.shorten(said[i], width - 2, 3.4), 3.4);
  }
}

void SheetPage::label_lines(Point top, double width, const std::vector<LabelLine>& lines) {
  constexpr double smallest = 2.5; // 7 pt are 2.47 mm: parts are read when they are cut out
  double y = top.y;
  for (const LabelLine& line : lines) {
    y -= line.size * label_pitch;
    const double fitted = fitted_size(line.words, width, line.size, smallest, line.weight);
    text({top.x, y}, context_.typeface.shorten(line.words, width, fitted, line.weight), fitted,
         line.weight, Align::centre);
  }
}

Proof SheetPage::proof(Point bar_across_left, Point bar_up_bottom, Point card_corner) {
  const auto bar = [&](Point from, Point along) {
    const Point to{from.x + bar_length * along.x, from.y + bar_length * along.y};
    stroke(LineKind::scale_bar, {from, to});
    for (int i = 0; i <= 10; ++i) {
      const double at = bar_length * i / 10;
      const double half = i % 5 == 0 ? 1.8 : 1.2;
      const Point p{from.x + at * along.x, from.y + at * along.y};
      stroke(LineKind::scale_bar, {{p.x - half * along.y, p.y - half * along.x},
                                   {p.x + half * along.y, p.y + half * along.x}});
    }
    return Proof::Bar{from, to};
  };
  Proof proof{number_, {bar(bar_across_left, {1, 0}), bar(bar_up_bottom, {0, 1})}, card_corner};
  text({bar_across_left.x + 75, bar_across_left.y + 2.4}, "100 mm", 2.6, Weight::regular,
       Align::centre);
  text({bar_up_bottom.x - 2.4, bar_up_bottom.y + 75}, "100 mm", 2.6, Weight::regular, Align::centre,
       90);

  stroke(LineKind::card, rounded_rectangle(card_corner, card_width, card_height, card_radius),
         true);
  const double middle = card_corner.x + card_width / 2;
  double y = card_corner.y + card_height / 2 + 9;
  text({middle, y}, "Check the print size", 4, Weight::bold, Align::centre);
  for (const char* line :
       {"A bank card fits this outline exactly,", "and both bars measure 100 mm.",
        "If not: print again at 100 %, never \u201cfit to page\u201d.",
        "The ruler numbers hold on any paper."})
    text({middle, y -= 5.4}, line, 3, Weight::regular, Align::centre);
  return proof;
}

} // namespace shankline
