#include "export/side_sheet.hpp"

#include "geometry/figure.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace shankline {
namespace {

constexpr double tick = 3;

bool big_toe(const SolvedSide& side) {
  return side.edge == Edge::medial;
}

std::string title_of(FootSide foot, const SolvedSide& side) {
  return std::string("Side, ") + (foot == FootSide::left ? "left" : "right") + " foot, " +
         (big_toe(side) ? "big-toe side" : "little-toe side");
}

/// One side on one page, the paper lying down.
class SideLayout {
public:
  SideLayout(const SheetContext& context, FootSide foot, const SolvedSide& side,
             const FootOrder& order, std::size_t number)
      : context_(context), foot_(foot), side_(side), wish_(*order.alterations.sides),
        paper_(landscape(context.paper)), page_(context, number, title_of(foot, side), paper_),
        lines_(side_lines(side, order)) {}

  SideSheet draw() && {
    page_.label(std::string(big_toe(side_) ? "side medial " : "side lateral ") +
                (foot_ == FootSide::left ? "L" : "R"));
    top_ = page_.title_strip(foot_ == FootSide::left ? "L" : "R", "") - 4;
    place();
    lines();
    names();
    part_label();
    const double below = table();
    const Point card{page_.left(), page_.bottom()};
    const double notes_left = card.x + card_width + 7;
    Proof proof = page_.proof({notes_left, page_.bottom() + 3},
                              {page_.right() - 2, page_.bottom() + 2}, card);
    notes(notes_left, std::min(below, card.y + card_height + 4));
    Template part{big_toe(side_) ? "side_medial" : "side_lateral",
                  foot_,
                  page_.number(),
                  paper_,
                  place_,
                  std::move(lines_)};
    return {std::move(page_).finish(), std::move(part), proof};
  }

private:
  double room_right() const { return page_.right() - 12; } // left of the upright bar

  /// Chord level, outside face up. Seen from outside, the left foot's big-toe side and the right
  /// foot's little-toe side point to the right.
  void place() {
    toes_right_ = (foot_ == FootSide::left) == big_toe(side_);
    const Point wing = side_.wall.flat(side_.wing, 0);
    const double angle = std::atan2(wing.y, wing.x);
    const double mirror = toes_right_ ? 1 : -1;
    place_ = {{0, 0},
              {mirror * std::cos(angle), -std::sin(angle)},
              {mirror * std::sin(angle), std::cos(angle)}};
    Box box{1e9, 1e9, -1e9, -1e9};
    for (const Stroke& line : lines_)
      for (const Point& p : line.points) {
        const Point q = place_(p);
        box = {std::min(box.left, q.x), std::min(box.bottom, q.y), std::max(box.right, q.x),
               std::max(box.top, q.y)};
      }
    const double room = room_right() - page_.left() - 8; // words at either end
    if (box.right - box.left > room || box.top - box.bottom > 84)
      throw DoesNotFit("the " + title_of(foot_, side_).substr(6) + " is " +
                       figure(box.right - box.left, 0) + " long and " +
                       figure(box.top - box.bottom, 0) + " high laid flat, the paper takes " +
                       figure(room, 0) + " by 84");
    const double middle = (page_.left() + room_right()) / 2;
    place_.origin = {middle - (box.left + box.right) / 2, top_ - 8 - box.top};
    bottom_ = place_.origin.y + box.bottom;
  }

  Point at(double t, double height) const { return place_(side_.wall.flat(t, height)); }

  void lines() {
    for (const Stroke& line : lines_) {
      Polyline points;
      for (const Point& p : line.points)
        points.push_back(place_(p));
      page_.stroke(line.kind, std::move(points), line.closed);
    }
  }

  void names() {
    for (const RulerHeight& mark : side_.heights) {
      if (mark.along == 0) continue; // the seam says it
      const Point p = at(mark.along, -4);
      page_.text({p.x, p.y - 0.8}, figure(mark.along, 0), 2.3, Weight::regular, Align::centre);
    }
    beside_end(0, "BACK SEAM", Weight::bold, toes_right_ ? -1 : 1);
    beside_end(side_.wing, "towards the toes", Weight::regular, toes_right_ ? 1 : -1);
    const Point low = at(side_.low_at, side_.low);
    const Point above = at(side_.low_at, side_.stock(side_.low_at) + 3.4);
    page_.stroke(LineKind::leader, {{above.x, above.y}, {low.x, low.y + 0.9}});
    page_.text({above.x, above.y + 1}, "low point, " + figure(side_.low) + " high", 2.8,
               Weight::bold, Align::centre);
    const Point sole = at(side_.wing * 0.5, 0);
    page_.text({sole.x, bottom_ - 9.2}, "SOLE EDGE", 3, Weight::bold, Align::centre);
  }

  /// Upright words outside one end of the strip, clear of it however it leans on the page.
  void beside_end(double t, const char* words, Weight weight, double outward) {
    const Point foot = at(t, 0);
    const Point head = at(t, side_.stock(t));
    const double edge = outward < 0 ? std::min(foot.x, head.x) : std::max(foot.x, head.x);
    page_.text({edge + (outward < 0 ? -1.4 : 3.6), (foot.y + head.y) / 2}, words, 3, weight,
               Align::centre, 90);
  }

  /// In the middle of what stays, clear of the stitching and of the marks.
  void part_label() {
    const double t = side_.wing * 0.5;
    const double room = std::min(side_.finished(t), side_.low) - 14 - 2 * tick;
    const std::pair<std::string, double> label[]{
        {"OUTSIDE FACE UP", 3.4},
        {title_of(foot_, side_).substr(6), 3},
        {order_line(context_.order), 2.6},
        {"order " + context_.digest + " \u00b7 page " + std::to_string(page_.number() + 1), 2.4}};
    constexpr double pitch = 1.35;
    double used = 0;
    double y = at(t, 0).y + tick + 3 + std::max(room, 0.0);
    for (const auto& [words, size] : label) {
      used += size * pitch;
      if (used > room) break;
      y -= size * pitch;
      page_.text({at(t, 0).x, y}, context_.typeface.shorten(words, side_.wing * 0.6, size), size,
                 size > 3.2 ? Weight::bold : Weight::regular, Align::centre);
    }
  }

  /// The same line for a ruler alone. Returns the y below.
  double table() {
    const auto& marks = side_.heights;
    const double left = page_.left();
    const bool in_inches = context_.units == Units::inch;
    constexpr double head = 50;
    const double column =
        std::min(15.0, (room_right() - left - head) /
                           static_cast<double>(std::max<std::size_t>(marks.size(), 1)));
    double y = bottom_ - 16;
    const auto row = [&](const std::string& name, double size, Weight weight, const auto& cell) {
      page_.text({left, y}, name, 2.8, weight);
      for (std::size_t i = 0; i < marks.size(); ++i)
        page_.text({left + head + column * (static_cast<double>(i) + 0.5), y}, cell(marks[i]), size,
                   weight, Align::centre);
      y -= size + 1.9;
    };
    page_.text({left, y}, "With a ruler, up the wall", 3.3, Weight::bold);
    y -= 5;
    row("along the sole edge from the seam", 2.9, Weight::regular,
        [](const RulerHeight& mark) { return figure(mark.along, 0); });
    row("stock height", 2.9, Weight::regular,
        [](const RulerHeight& mark) { return figure(mark.stock); });
    y -= 0.6;
    row("new height " + tolerance_text(keep_tolerance(context_.order.tolerances)), 3.8,
        Weight::bold, [](const RulerHeight& mark) { return figure(mark.finished); });
    if (in_inches)
      row("in inches", 2.2, Weight::regular,
          [](const RulerHeight& mark) { return inches(mark.finished, Rounding::up); });
    return y;
  }

  void notes(double left, double top) {
    const double width = room_right() - 6 - left;
    double y = top - 3;
    const auto key = [&](LineKind kind, const std::string& words, Weight weight = Weight::regular) {
      page_.stroke(kind, {{left, y}, {left + 12, y}});
      page_.text({left + 14.6, y - 1}, context_.typeface.shorten(words, width - 15, 2.8, weight),
                 2.8, weight);
      y -= 4.6;
    };
    const Tolerance cut = cut_off_tolerance(context_.order.tolerances);
    const std::string lowered =
        (side_.profile.depth > 0
             ? "side lowered by " + figure(side_.profile.depth) + " " + tolerance_text(cut)
             : std::string("side as it came")) +
        (side_.profile.back > 0
             ? ", back by " + figure(side_.profile.back) + " " + tolerance_text(cut)
             : std::string(", back stays"));
    switch (wish_.edge) {
    case SideEdge::bound:
      key(LineKind::final_cut, "cut here: " + lowered, Weight::bold);
      break;
    case SideEdge::turned:
      key(LineKind::final_cut,
          "cut here, " + short_figure(wish_.turn) + " " +
              tolerance_text(dimension_tolerance(context_.order.tolerances, wish_.turn)) +
              " above the new top line",
          Weight::bold);
      key(LineKind::fold, "turn in here, the new top line: " + lowered);
      break;
    case SideEdge::folded:
      key(LineKind::fold, "fold in here and stitch, do not cut: " + lowered, Weight::bold);
      break;
    }
    key(LineKind::stock_top, "stock top line");
    if (has(LineKind::stitch)) key(LineKind::stitch, "casing stitched here");
    y -= 0.6;
    const char* steps[]{
        "Pull the drawstring clear first. Cut this part out along the sole edge and the back seam.",
        "Foot in the shoe: lay it on outside face up, back seam on back seam, sole edge on the "
        "sole's edge. Mark the new line on the satin, or set it out with the heights above.",
        "Baste the new line and try it at the barre before anything is cut. Short of the line is "
        "safe, past it is not. Then refit casing and drawstring."};
    for (const char* step : steps)
      y = page_.paragraph({left, y}, width, step, 2.5) - 0.6;
    page_.paragraph({left, y - 0.6}, width,
                    "Cloth that is cut away does not come back. Students: only with a teacher or "
                    "fitter. All figures are estimates.",
                    2.5, Weight::bold);
  }

  bool has(LineKind kind) const {
    return std::any_of(lines_.begin(), lines_.end(),
                       [kind](const Stroke& line) { return line.kind == kind; });
  }

  const SheetContext& context_;
  FootSide foot_;
  const SolvedSide& side_;
  const SideWish& wish_;
  Paper paper_;
  SheetPage page_;
  std::vector<Stroke> lines_;
  Placement place_{};
  bool toes_right_ = true;
  double top_ = 0;
  double bottom_ = 0;
};

} // namespace

std::vector<Stroke> side_lines(const SolvedSide& side, const FootOrder& order) {
  const SideWish& wish = *order.alterations.sides;
  const SideWall& wall = side.wall;
  std::vector<Stroke> lines;
  const auto add = [&](LineKind kind, Polyline points) {
    lines.push_back({kind, std::move(points), false});
  };
  // Every mark of the ruler heights, at the sole's edge and at the new line.
  for (const RulerHeight& mark : side.heights) {
    add(LineKind::ruler, {wall.flat(mark.along, 0), wall.flat(mark.along, tick)});
    add(LineKind::ruler,
        {wall.flat(mark.along, mark.finished - tick), wall.flat(mark.along, mark.finished)});
  }
  if (order.shoe.sides && order.shoe.sides->casing)
    add(LineKind::stitch,
        wall.flat_line(side.finished_line(-*order.shoe.sides->casing), 0, side.wing));
  add(LineKind::stock_top, wall.flat_line(side.stock_line(), 0, side.wing));

  Polyline outline{wall.flat(side.wing, side.stock(side.wing))};
  Polyline base =
      wall.flat_line({[](double) { return 0.0; }, [](double) { return 0.0; }}, 0, side.wing);
  outline.insert(outline.end(), base.rbegin(), base.rend());
  outline.push_back(wall.flat(0, side.stock(0)));
  add(LineKind::edge, std::move(outline));

  const double from = side.profile.back > 0 ? 0 : side.profile.rear_from;
  const double to = side.profile.front_to;
  const auto finished = [&](double above) {
    return wall.flat_line(side.finished_line(above), from, to);
  };
  if (wish.edge != SideEdge::bound) add(LineKind::fold, finished(0));
  if (wish.edge == SideEdge::bound) add(LineKind::final_cut, finished(0));
  if (wish.edge == SideEdge::turned) {
    // The allowance never reaches above the stock line: there is no cloth.
    const SideWall::HeightLine cut{
        [&](double t) { return std::min(side.finished(t) + wish.turn, side.stock(t)); },
        [](double) { return 0.0; }};
    Polyline points = wall.flat_line(cut, from, to);
    add(LineKind::final_cut, std::move(points));
  }
  return lines;
}

SideSheet side_sheet(const SheetContext& context, FootSide foot, const SolvedSide& side,
                     const FootOrder& order, std::size_t number) {
  return SideLayout(context, foot, side, order, number).draw();
}

} // namespace shankline
