#include "export/bench/measuring_form.hpp"

#include "export/bench/measuring_sketch.hpp"
#include "export/drawing/circle.hpp"
#include "export/page/sheet_page.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace shankline {
namespace {

constexpr double name_size = 3.3;
constexpr double how_size = 2.6;
constexpr double ring_radius = 2.5;

/// The part of a sketch that is drawn, and its size; the rows below it get their height first.
struct Frame {
  double left;
  double top;
  double bottom;
  double scale;
  double least_scale; ///< smaller, and its names touch its numbers
};

/// Heights of a row, mm: a box for a handwritten figure, and the air around it.
constexpr double least_row = 11.4;
constexpr double most_row = 15;

class FormLayout {
public:
  FormLayout(const SheetContext& context, const FormPages& rows) : context_(context) {
    number(rows.foot, foot_sketch());
    number(rows.shoe, shoe_sketch());
    number(rows.sides, side_sketch());
  }

  Page draw(std::size_t number, const std::string& title, const std::string& words,
            const std::vector<FormRow>& rows, const Sketch& sketch, const Frame& frame) {
    SheetPage page(context_, number, title);
    page_ = &page;
    head(title, words);
    top_rows(rows);
    const double scale = scale_of(rows, frame);
    this->sketch(sketch, {page.left() - frame.left * scale, y_ - frame.top * scale}, scale);
    y_ -= (frame.top - frame.bottom) * scale;
    table(rows);
    page.text(
        {page.left(), page.bottom() + 0.9},
        "Growing feet, pain or an injury: ask a licensed physiotherapist or podiatrist first. "
        "A cut board cannot be put back.",
        2.8);
    page_ = nullptr;
    return std::move(page).finish();
  }

private:
  using Entry = FormRow::Entry;

  /// Scale of the sketch. The rows get their height first; they get more air if the sketch then
  /// still has room for names that do not touch its numbers.
  double scale_of(const std::vector<FormRow>& rows, const Frame& frame) {
    double scale = 0;
    for (const double air : {1.7, 0.6}) {
      air_ = air;
      double least = heads_height;
      for (const FormRow& row : rows)
        if (in_table(row)) least += least_height(row);
      const double room = y_ - table_end() - least;
      scale = std::min(frame.scale, room / (frame.top - frame.bottom));
      if (scale >= frame.least_scale) break;
    }
    return scale;
  }

  /// Numbers the rows whose place is on their page's drawing.
  void number(const std::vector<FormRow>& rows, const Sketch& sketch) {
    const auto has = [](const auto& places, const std::string& key) {
      return std::any_of(places.begin(), places.end(),
                         [&](const auto& place) { return place.key == key; });
    };
    for (const FormRow& row : rows)
      if (has(sketch.pointers, row.key) || has(sketch.sizes, row.key))
        numbers_.emplace(row.key, numbers_.size() + 1);
  }

  static constexpr double heads_height = 5; ///< "left", "right"

  double table_end() const { return page_->bottom() + 4.5; } ///< below it the caution
  double width() const { return page_->right() - page_->left(); }

  void head(const std::string& title, const std::string& words) {
    page_->text({page_->left(), page_->top() - 4.6}, title, 5.4, Weight::bold);
    page_->text({page_->right(), page_->top() - 4.6}, page_->page_of(), 2.9, Weight::regular,
                Align::right);
    y_ = page_->paragraph({page_->left(), page_->top() - 7.5}, width(), words, 2.9) - 1;
  }

  /// Lines to write on, side by side, and what is to be ticked before anything is measured.
  void top_rows(const std::vector<FormRow>& rows) {
    const auto lines = static_cast<std::size_t>(std::count_if(
        rows.begin(), rows.end(), [](const FormRow& row) { return row.entry == Entry::line; }));
    if (lines > 0) {
      y_ -= 7;
      double x = page_->left();
      const double room = width() / static_cast<double>(lines);
      for (const FormRow& row : rows) {
        if (row.entry != Entry::line) continue;
        const double words = page_->width_of(row.name, name_size, Weight::bold) + 2;
        page_->text({x, y_}, row.name, name_size, Weight::bold);
        page_->stroke(LineKind::frame, {{x + words, y_ - 1}, {x + room - 4, y_ - 1}});
        x += room;
      }
      y_ -= 2.5;
    }
    for (const FormRow& row : rows)
      if (row.entry == Entry::choice && row.key.empty()) choice(row);
    y_ -= 3;
  }

  void choice(const FormRow& row) {
    y_ -= 6;
    page_->text({page_->left(), y_}, row.name, name_size, Weight::bold);
    tick(row, page_->left() + 42);
    for (const std::string& meaning : row.meanings) {
      y_ -= 4.2;
      page_->text({page_->left() + 42, y_}, meaning, how_size);
    }
  }

  void tick(const FormRow& row, double x) {
    for (const std::string& word : row.words) {
      page_->rectangle(LineKind::frame, {x, y_ - 0.6, x + 3.4, y_ + 2.8});
      page_->text({x + 4.8, y_}, word, 3);
      x += 4.8 + page_->width_of(word, 3) + 7;
    }
  }

  void ring(const Point& at, std::size_t number) {
    constexpr int corners = 32;
    page_->stroke(LineKind::frame, circle(at, ring_radius, corners), true);
    page_->text({at.x, at.y - 1}, std::to_string(number), 2.8, Weight::bold, Align::centre);
  }

  void arrow(const Point& tip, const Point& from) {
    const double length = std::hypot(tip.x - from.x, tip.y - from.y);
    const Point along{(tip.x - from.x) / length, (tip.y - from.y) / length};
    for (const double side : {-0.7, 0.7})
      page_->stroke(
          LineKind::leader,
          {tip, {tip.x - 2 * along.x - side * along.y, tip.y - 2 * along.y + side * along.x}});
  }

  void sketch(const Sketch& sketch, const Point& origin, double scale) {
    const auto placed = [&](const Point& p) {
      return Point{origin.x + p.x * scale, origin.y + p.y * scale};
    };
    for (const SketchLine& line : sketch.lines) {
      Polyline points = drawn(line);
      for (Point& p : points)
        p = placed(p);
      page_->stroke(line.kind, std::move(points), line.closed);
    }
    for (const SketchSize& size : sketch.sizes)
      if (const auto number = numbers_.find(size.key); number != numbers_.end())
        this->size(placed(size.from), placed(size.to), size.number_at, number->second);
    for (const SketchPointer& pointer : sketch.pointers)
      if (const auto number = numbers_.find(pointer.key); number != numbers_.end()) {
        const Point at = placed(pointer.at);
        const Point centre = placed(pointer.ring);
        const double length = std::hypot(at.x - centre.x, at.y - centre.y);
        const Point edge{centre.x + ring_radius * (at.x - centre.x) / length,
                         centre.y + ring_radius * (at.y - centre.y) / length};
        page_->stroke(LineKind::leader, {edge, at});
        arrow(at, centre);
        ring(centre, number->second);
      }
    for (const SketchLabel& label : sketch.labels)
      page_->text(placed(label.at), std::string(label.words), 2.6, Weight::regular, label.align);
  }

  /// A line with an arrow at both ends, and a gap where its number stands.
  void size(const Point& from, const Point& to, double number_at, std::size_t number) {
    const Point ring_at{from.x + number_at * (to.x - from.x), from.y + number_at * (to.y - from.y)};
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    const Point along{(to.x - from.x) / length, (to.y - from.y) / length};
    const Point before{ring_at.x - ring_radius * along.x, ring_at.y - ring_radius * along.y};
    const Point behind{ring_at.x + ring_radius * along.x, ring_at.y + ring_radius * along.y};
    if (number_at < 0) {
      page_->stroke(LineKind::leader, {behind, to});
    } else {
      page_->stroke(LineKind::leader, {from, before});
      page_->stroke(LineKind::leader, {behind, to});
    }
    arrow(from, to);
    arrow(to, from);
    ring(ring_at, number);
  }

  void table(const std::vector<FormRow>& rows) {
    const auto count = std::count_if(rows.begin(), rows.end(), in_table);
    const bool feet = std::any_of(rows.begin(), rows.end(),
                                  [](const FormRow& row) { return row.entry == Entry::feet; });
    if (feet) {
      page_->text({left_box() + box_width / 2, y_ - 3}, "left", name_size, Weight::bold,
                  Align::centre);
      page_->text({right_box() + box_width / 2, y_ - 3}, "right", name_size, Weight::bold,
                  Align::centre);
      y_ -= heads_height;
    }
    double least = 0;
    for (const FormRow& row : rows)
      if (in_table(row)) least += least_height(row);
    const double more =
        (y_ - table_end() - least) / static_cast<double>(std::max<std::ptrdiff_t>(count, 1));
    for (const FormRow& row : rows) {
      if (!in_table(row)) continue;
      const double height = least_height(row);
      this->row(row, std::max(height, std::min(most_row, height + more)));
    }
  }

  double how_width() const { return left_box() - 4 - page_->left() - name_indent; }

  /// The least height of a row that has room for its words and its box, mm.
  double least_height(const FormRow& row) const {
    constexpr double below_name = 6.2;
    double words = page_->height_of(row.how, how_width(), how_size);
    if (row.entry == Entry::choice)
      words = how_size * leading * static_cast<double>(row.meanings.size());
    return std::max(row.entry == Entry::choice ? 0 : least_row, below_name + words + air_);
  }

  static bool in_table(const FormRow& row) {
    return row.entry == Entry::feet || row.entry == Entry::pair ||
           (row.entry == Entry::choice && !row.key.empty());
  }

  static constexpr double box_width = 34;
  static constexpr double name_indent = 8;
  double right_box() const { return page_->right() - box_width; }
  double left_box() const { return right_box() - box_width - 3; }

  void row(const FormRow& row, double height) {
    page_->stroke(LineKind::hatch, {{page_->left(), y_}, {page_->right(), y_}});
    const double x = page_->left() + name_indent;
    const double name_at = y_ - 4.2;
    if (const auto number = numbers_.find(row.key);
        number != numbers_.end() && row.entry != Entry::choice)
      ring({page_->left() + ring_radius + 0.3, name_at + 1}, number->second);
    page_->text({x, name_at}, row.name, name_size, Weight::bold);
    if (row.entry == Entry::choice) {
      const double top = y_;
      y_ = name_at;
      tick(row, page_->left() + 62);
      double y = name_at - 1.8;
      for (const std::string& meaning : row.meanings)
        y = page_->paragraph({x, y}, page_->right() - x, meaning, how_size);
      y_ = top - height;
      return;
    }
    page_->paragraph({x, name_at - 1.6}, how_width(), row.how, how_size);
    const double box_top = y_ - 1.2;
    const double box_bottom = y_ - height + 1.2;
    if (row.entry == Entry::feet)
      page_->rectangle(LineKind::frame, {left_box(), box_bottom, left_box() + box_width, box_top});
    page_->rectangle(LineKind::frame, {row.entry == Entry::feet ? right_box() : left_box(),
                                       box_bottom, page_->right(), box_top});
    y_ -= height;
  }

  const SheetContext& context_;
  std::map<std::string, std::size_t, std::less<>> numbers_;
  SheetPage* page_ = nullptr;
  double y_ = 0;
  double air_ = 0; ///< between a row's words and the next row's line, at least
};

} // namespace

SheetSet measuring_form(const FormPages& rows, const Paper& paper) {
  const Typeface typeface;
  const Order nobody;
  const SheetContext context{nobody, typeface, paper, Units::mm, {}, 3};
  FormLayout layout(context, rows);
  SheetSet set =
      named_set("Measuring page", "where each reading is taken, and boxes to write it in");
  set.drawing.pages = {
      layout.draw(0, "Measuring page: the foot",
                  "In this order. Write millimetres; take each reading two or three times, all of "
                  "them in its box. What cannot be found stays empty.",
                  rows.foot, foot_sketch(), {0, 93, -13, 1.2, 1}),
      layout.draw(1, "Measuring page: the shoe and its board",
                  "One box holds for both shoes; write both figures where they differ.", rows.shoe,
                  shoe_sketch(), {-10, 60, -20, 1.2, 0.8}),
      layout.draw(
          2, "Measuring page: lowered sides",
          "Only where the sides are to be lowered. Heights go from the outer sole's edge up "
          "over the satin, foot in the shoe; pull the drawstring clear first.",
          rows.sides, side_sketch(), {-10, 60, 9, 1.2, 1})};
  return set;
}

} // namespace shankline
