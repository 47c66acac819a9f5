#include "export/measuring_form.hpp"

#include "export/sheet_page.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <span>
#include <string_view>
#include <utility>

namespace shankline {
namespace {

constexpr double name_size = 3.3;
constexpr double how_size = 2.6;
constexpr double ring_radius = 2.5;

/// A number on a drawing: its ring, and the point that it shows.
struct Pointer {
  std::string_view key;
  Point ring;
  Point at;
};

/// A size between two points of a drawing, with the number in the middle of its line.
struct Size {
  std::string_view key;
  Point from;
  Point to;
  double number_at = 0.5; ///< along the line
};

struct Label {
  Point at;
  std::string_view words;
  Align align = Align::left;
};

struct Line {
  LineKind kind;
  std::vector<Point> points;
  bool smooth = false;
  bool closed = false;
};

/// A few strokes in units of a hundredth of the foot, and what is shown on them.
struct Sketch {
  std::vector<Line> lines;
  std::vector<Size> sizes;
  std::vector<Pointer> pointers;
  std::vector<Label> labels;
};

// The pointed foot from the big-toe side, and below it the left foot's sole, heel to heel. The heel
// ends at 30, the longest toe at 130; heel front and break lie as in an ordinary foot.
Sketch foot_sketch() {
  Sketch sketch;
  sketch.lines = {
      {LineKind::edge,
       {{4, 90},     {26, 88.5}, {50, 83},    {70, 77},    {90, 69.5}, {108, 63},   {121, 59.5},
        {129, 57.5}, {131, 54},  {127, 51.6}, {118, 50.6}, {110, 49},  {103, 48.6}, {94, 51},
        {84, 55.4},  {71, 57.6}, {62, 55},    {54, 50},    {44, 47},   {36, 48},    {31, 52.5},
        {29.5, 58},  {26, 63},   {18, 67},    {4, 69}},
       true},
      {LineKind::ruler, {{38, 46.5}, {110, 48.5}}},
      {LineKind::edge,
       {{30, 18},    {31.5, 24}, {37, 27.6}, {46, 28.4},  {58, 26},    {72, 24.6},
        {86, 27},    {98, 31.5}, {106, 32},  {116, 30},   {125, 29.4}, {130, 26},
        {129, 20.5}, {123, 14},  {115, 8},   {106, 3},    {96, 0.6},   {82, 1.6},
        {66, 4.6},   {48, 7.4},  {37, 9},    {31.5, 12.4}},
       true,
       true},
      {LineKind::leader, {{118, 55.4}, {123, 55.8}, {127, 54.6}}, true}, // the big toe's own line
      {LineKind::leader,
       {{40, 74}, {38.4, 72}, {40, 70}, {42.4, 70.6}, {42.6, 73}},
       true,
       true}, // ankle
      {LineKind::leader, {{128.4, 19.5}, {121, 21}, {116, 21.6}}, true},
      {LineKind::leader, {{123.6, 14.6}, {118, 16.6}, {114, 17.4}}, true},
      {LineKind::leader, {{117.4, 9.8}, {113, 12}, {110, 13}}, true},
      {LineKind::leader, {{110.6, 5.4}, {107, 7.8}, {105, 8.8}}, true},
      {LineKind::paper_trim, {{55.6, 26.2}, {55.6, 6.5}}},
      {LineKind::leader, {{30, 46}, {30, 19}}},
  };
  sketch.sizes = {{"length", {30, -10}, {130, -10}, 0.62},
                  {"ball_length", {30, -4}, {102, -4}, 0.45},
                  {"arch_depth", {76, 47.6}, {76, 57.2}, -0.55}};
  sketch.pointers = {{"heel_front", {47, 39.5}, {55, 50.4}},
                     {"arch_break.medial", {62, 39.5}, {70.6, 24.8}},
                     {"arch_break.lateral", {70, 14}, {69, 4.2}},
                     {"deepest", {92, 39.5}, {77, 47.2}}};
  sketch.labels = {{{4, 80}, "foot pointed,"},
                   {{4, 76}, "from the big-toe side"},
                   {{4, 18}, "left foot"},
                   {{4, 14}, "from below"},
                   {{108, 25}, "big toe", Align::centre},
                   {{43, 18}, "heel pad", Align::centre},
                   {{28, 39}, "stations count from here", Align::right}};
  return sketch;
}

// The shoe from its big-toe side; its inside back is at 4.
std::vector<Line> shoe_lines() {
  return {{LineKind::shoe, {{4, 30}, {8, 28}, {30, 28}, {60, 28}, {100, 28}, {116, 29}}, true},
          {LineKind::edge, {{4, 30}, {2.6, 38}, {3.4, 46}, {4.4, 51}}, true},
          {LineKind::edge,
           {{4.4, 51}, {14, 48.4}, {30, 45}, {45, 44}, {60, 45.6}, {72, 49}, {80, 53}, {86, 55}},
           true},
          {LineKind::edge, {{86, 55}, {98, 51.5}, {110, 45.5}, {118, 40}}, true},
          {LineKind::edge, {{118, 40}, {119.5, 31}, {116, 29}}}};
}

// The shoe with its board in it, and below it the board by itself.
Sketch shoe_sketch() {
  Sketch sketch;
  sketch.lines = shoe_lines();
  for (const Line& line : std::vector<Line>{
           {LineKind::board, {{7, 29.6}, {96, 29.6}}},
           {LineKind::edge,
            {{7, -4},    {7.6, 0.4}, {12, 3},    {20, 3.4},   {34, 1.4}, {48, -0.2},  {62, 1.4},
             {78, 4.6},  {90, 5.4},  {96, 3},    {97, -4},    {96, -11}, {90, -13.4}, {78, -12.6},
             {62, -9.4}, {48, -7.8}, {34, -9.4}, {20, -11.4}, {12, -11}, {7.6, -8.4}},
            true,
            true},
           {LineKind::ruler, {{20, 3.2}, {20, -11.2}}},
           {LineKind::ruler, {{48, -0.4}, {48, -7.6}}},
           {LineKind::ruler, {{84, 4.9}, {84, -12.9}}},
           {LineKind::centre, {{7, -4}, {97, -4}}}})
    sketch.lines.push_back(line);
  sketch.sizes = {{"board.sole_length", {4, 21.4}, {116, 21.4}, 0.6},
                  {"board.length", {7, -17}, {97, -17}, 0.6}};
  sketch.pointers = {{"fold", {-7, 56}, {3.6, 47}},
                     {"board.inset", {14, 38}, {5.6, 29.8}},
                     {"board.thickness", {34, 37}, {34, 30.4}},
                     {"pull.travel", {56, 38}, {56, 28}},
                     {"widths", {106, 2}, {84, 2}}};
  sketch.labels = {{{98, 57}, "shoe, from the big-toe side"},
                   {{102, -8}, "the board"},
                   {{64, 37}, "pushed up here"}};
  return sketch;
}

Sketch side_sketch() {
  Sketch sketch;
  sketch.lines = shoe_lines();
  sketch.lines.push_back({LineKind::paper_trim, {{72, 49}, {78, 38}, {80, 29}}});
  sketch.sizes = {{"sides.back", {-2, 29}, {-2, 51}, 0.4},
                  {"sides.low", {45, 29.4}, {45, 43.2}, 0.5},
                  {"sides.wing", {68, 29.4}, {68, 47}, 0.5},
                  {"sides.low_at", {4, 22}, {45, 22}, 0.75},
                  {"sides.wing_at", {4, 15}, {80, 15}, 0.75}};
  sketch.pointers = {{"sides.casing", {30, 54}, {30, 45.2}},
                     {"sides.width_across", {50, 54}, {47, 44.4}}};
  sketch.labels = {{{98, 57}, "shoe, from the big-toe side"}, {{84, 38}, "box's stiff flank"}};
  return sketch;
}

/// Through all points without a corner (a uniform Catmull–Rom spline).
Polyline through(const std::vector<Point>& points, bool closed) {
  constexpr int pieces = 10;
  const auto count = static_cast<std::ptrdiff_t>(points.size());
  const auto at = [&](std::ptrdiff_t i) {
    if (closed) return points[static_cast<std::size_t>((i + count) % count)];
    return points[static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(i, 0, count - 1))];
  };
  Polyline line;
  for (std::ptrdiff_t i = 0; i < (closed ? count : count - 1); ++i)
    for (int k = 0; k < pieces; ++k) {
      const double t = static_cast<double>(k) / pieces;
      const Point a = at(i - 1), b = at(i), c = at(i + 1), d = at(i + 2);
      const auto blend = [t](double p, double q, double r, double s) {
        return q + 0.5 * t * (r - p + t * (2 * p - 5 * q + 4 * r - s + t * (3 * (q - r) + s - p)));
      };
      line.push_back({blend(a.x, b.x, c.x, d.x), blend(a.y, b.y, c.y, d.y)});
    }
  if (!closed) line.push_back(points.back());
  return line;
}

/// What of a sketch is drawn, and how large at most; the rows below it get their height first.
struct Frame {
  double left;
  double top;
  double bottom;
  double scale;
  double least_row;
};

class FormLayout {
public:
  FormLayout(const SheetContext& context, const FormPages& rows) : context_(context) {
    for (const auto* page : {&rows.foot, &rows.shoe, &rows.sides})
      for (const FormRow& row : *page)
        if (row.entry == FormRow::Entry::feet || row.entry == FormRow::Entry::pair)
          numbers_.emplace(row.key, numbers_.size() + 1);
  }

  Page draw(std::size_t number, const std::string& title, const std::string& words,
            const std::vector<FormRow>& rows, const Sketch& sketch, const Frame& frame) {
    SheetPage page(context_, number, title);
    page_ = &page;
    head(title, words);
    top_rows(rows);
    const auto count = std::count_if(rows.begin(), rows.end(), in_table);
    const double room =
        y_ - table_end() - heads_height - static_cast<double>(count) * frame.least_row;
    const double scale = std::min(frame.scale, room / (frame.top - frame.bottom));
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
    Polyline circle;
    for (int i = 0; i < corners; ++i) {
      const double angle = 2 * std::numbers::pi * i / corners;
      circle.push_back(
          {at.x + ring_radius * std::cos(angle), at.y + ring_radius * std::sin(angle)});
    }
    page_->stroke(LineKind::frame, std::move(circle), true);
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
    for (const Line& line : sketch.lines) {
      Polyline points = line.smooth ? through(line.points, line.closed) : line.points;
      for (Point& p : points)
        p = placed(p);
      page_->stroke(line.kind, std::move(points), line.closed);
    }
    for (const Size& size : sketch.sizes)
      if (const auto number = numbers_.find(size.key); number != numbers_.end())
        this->size(placed(size.from), placed(size.to), size.number_at, number->second);
    for (const Pointer& pointer : sketch.pointers)
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
    for (const Label& label : sketch.labels)
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
    const double row_height = std::min(
        15.0, (y_ - table_end()) / static_cast<double>(std::max<std::ptrdiff_t>(count, 1)));
    for (const FormRow& row : rows)
      if (in_table(row)) this->row(row, row_height);
  }

  static bool in_table(const FormRow& row) {
    return row.entry == Entry::feet || row.entry == Entry::pair ||
           (row.entry == Entry::choice && !row.key.empty());
  }

  static constexpr double box_width = 36;
  double right_box() const { return page_->right() - box_width; }
  double left_box() const { return right_box() - box_width - 3; }

  void row(const FormRow& row, double height) {
    page_->stroke(LineKind::hatch, {{page_->left(), y_}, {page_->right(), y_}});
    const double x = page_->left() + 8;
    const double name_at = y_ - 4.2;
    if (const auto number = numbers_.find(row.key);
        number != numbers_.end() && row.entry != Entry::choice)
      ring({page_->left() + ring_radius + 0.3, name_at + 1}, number->second);
    page_->text({x, name_at}, row.name, name_size, Weight::bold);
    if (row.entry == Entry::choice) {
      y_ = name_at;
      tick(row, page_->left() + 62);
      y_ = name_at + 4.2 - height;
      return;
    }
    page_->paragraph({x, name_at - 1.6}, left_box() - 4 - x, row.how, how_size);
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
};

} // namespace

SheetSet measuring_form(const FormPages& rows, const Paper& paper) {
  const Typeface typeface;
  const Order nobody;
  const SheetContext context{nobody, typeface, paper, Units::mm, {}, 3};
  FormLayout layout(context, rows);
  SheetSet set;
  set.drawing.title = "Measuring page";
  set.drawing.author = "shankline";
  set.drawing.subject = "where each reading is taken, and boxes to write it in";
  set.drawing.pages = {
      layout.draw(0, "Measuring page: the foot",
                  "In this order. Write millimetres; take each reading two or three times, all of "
                  "them in its box. What cannot be found stays empty.",
                  rows.foot, foot_sketch(), {0, 93, -13, 1.2, 13.2}),
      layout.draw(1, "Measuring page: the shoe and its board",
                  "One box holds for both shoes; write both figures where they differ.", rows.shoe,
                  shoe_sketch(), {-10, 60, -20, 1.2, 11.4}),
      layout.draw(
          2, "Measuring page: lowered sides",
          "Only where the sides are to be lowered. Heights go from the outer sole's edge up "
          "over the satin, foot in the shoe; pull the drawstring clear first.",
          rows.sides, side_sketch(), {-10, 60, 9, 1.2, 11.4})};
  return set;
}

} // namespace shankline
