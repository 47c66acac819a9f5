#include "export/liner_sheet.hpp"

#include "export/work_words.hpp"
#include "geometry/figure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace shankline {
namespace {

constexpr double centre_mark = 20; ///< of the centre line, at both ends

double front_of(const SolvedLiner& liner) {
  double front = 0;
  for (const Point& p : liner.outline)
    front = std::max(front, p.x);
  return front;
}

/// The outline behind station `front`, open there, from the medial edge round the heel.
Polyline behind(const Polygon& outline, double front) {
  const std::size_t count = outline.size();
  std::size_t begin = 0; // the last point ahead of the front before the outline comes behind it
  while (!(outline[begin].x > front && outline[(begin + 1) % count].x <= front))
    ++begin;
  const auto crossing = [&](const Point& a, const Point& b) {
    const double t = (front - a.x) / (b.x - a.x);
    return Point{front, a.y + t * (b.y - a.y)};
  };
  Polyline line{crossing(outline[begin], outline[(begin + 1) % count])};
  std::size_t i = (begin + 1) % count;
  for (; outline[i].x <= front; i = (i + 1) % count)
    line.push_back(outline[i]);
  line.push_back(crossing(outline[(i + count - 1) % count], outline[i]));
  return line;
}

/// One liner on one page, heel end down.
class LinerLayout {
public:
  LinerLayout(const SheetContext& context, const FootSolution& foot, std::size_t number)
      : context_(context), foot_(foot), liner_(*foot.liner),
        page_(context, number, left() ? "Liner, left foot" : "Liner, right foot",
              upright_page(context.paper, std::max(least_height, foot.liner->length + around))) {
    page_.label(left() ? "liner L" : "liner R");
    top_ = page_.title_strip(left() ? "L" : "R", "") - 4;
  }

  LinerSheet draw() && {
    place();
    for (const Stroke& line : lines_) {
      Polyline points;
      for (const Point& p : line.points)
        points.push_back(place_(p));
      page_.stroke(line.kind, std::move(points), line.closed);
    }
    names();
    part_label();
    const double below = number_box();
    steps(below - 5);
    const Point card{column_ + (page_.right() - 10 - column_ - card_width) / 2,
                     page_.bottom() + 12};
    Proof proof = page_.proof({page_.right() - bar_length, page_.bottom() + 3},
                              {page_.right() - 2, page_.bottom() + 16}, card);
    Template part{"liner",           foot_.side, page_.number(), page_.paper(), place_,
                  std::move(lines_), {}};
    return {std::move(page_).finish(), std::move(part), proof};
  }

private:
  static constexpr double least_height = 297; ///< of a page cut from a roll
  static constexpr double around = 2 * SheetPage::margin + 40;

  bool left() const { return foot_.side == FootSide::left; }

  /// Foot side up: the big-toe side of the left liner is on the right.
  void place() {
    const double foot_of_page = page_.bottom() + 6.5;
    front_ = front_of(liner_);
    rear_ = front_ - liner_.length;
    drawn_ = std::min(front_, rear_ + top_ - 6 - foot_of_page);
    lines_ = liner_lines(liner_, drawn_);
    double low = 0;
    double high = 0;
    for (const Point& p : liner_.outline) {
      low = std::min(low, p.y);
      high = std::max(high, p.y);
    }
    on_left_ = left() ? -low : high;
    on_right_ = left() ? high : -low;
    centre_ = page_.left() + 7 + on_left_;
    place_ = {{centre_, foot_of_page - rear_}, {0, 1}, {left() ? 1.0 : -1.0, 0}};
    column_ = std::min(centre_ + on_right_ + 14, page_.right() - 98);
  }

  bool whole() const { return drawn_ >= front_; }

  void names() {
    const Point heel = place_({rear_, 0});
    page_.text({heel.x, heel.y - 4.2}, "HEEL END", 3.2, Weight::bold, Align::centre);
    const Point toes = place_({drawn_, 0});
    page_.text({toes.x, toes.y + 2.6},
               whole() ? "towards the toes"
                       : "towards the toes: goes on to " + figure(liner_.length),
               2.8, Weight::regular, Align::centre);
    const double y = place_({rear_ + 0.55 * (drawn_ - rear_), 0}).y;
    page_.text({centre_ - on_left_ - 1.4, y}, left() ? "little-toe side" : "big-toe side", 3.2,
               Weight::regular, Align::centre, 90);
    page_.text({centre_ + on_right_ + 3.8, y}, left() ? "big-toe side" : "little-toe side", 3.2,
               Weight::regular, Align::centre, 90);
  }

  /// How far the outline stays clear of the centre line over a stretch, on both sides.
  double half_room(double from, double to) const {
    double room = 1e9;
    const std::size_t count = liner_.outline.size();
    for (std::size_t i = 0; i < count; ++i) {
      const Point& a = liner_.outline[i];
      const Point& b = liner_.outline[(i + 1) % count];
      if (std::max(a.x, b.x) < from || std::min(a.x, b.x) > to) continue;
      room = std::min({room, std::abs(a.y), std::abs(b.y)});
    }
    return room;
  }

  /// In the middle of the front half: a loose cut-out must never be a mystery.
  void part_label() {
    std::vector<LabelLine> label{{"LINER", 6, Weight::bold},
                                 {left() ? "LEFT" : "RIGHT", 3.6, Weight::bold},
                                 {"FOOT SIDE UP", 3.2, Weight::bold},
                                 {"adhesive on the", 2.8},
                                 {"other face", 2.8},
                                 {context_.order.dancer, 2.8}};
    for (const std::string* more : {&context_.order.date, &context_.order.pair})
      if (!more->empty()) label.push_back({*more, 2.5});
    label.push_back(
        {"order " + context_.digest + " \u00b7 page " + std::to_string(page_.number() + 1), 2.3});
    const double height = height_of(label);
    const double middle = rear_ + 0.66 * (drawn_ - rear_);
    const double width = 2 * half_room(middle - height / 2, middle + height / 2) - 6;
    if (!(width > 8)) return;
    page_.label_lines({centre_, place_({middle, 0}).y + height / 2}, width, label);
  }

  /// The size for a ruler. Returns the y below the box.
  double number_box() {
    const double x = column_ + 3.5;
    page_.text({x, top_ - 5.4}, "With a ruler", 3.3, Weight::bold);
    double y = top_ - 13;
    const auto row = [&](const char* name, double mm) {
      page_.text({x, y}, name, 3.4);
      page_.text({x + 34, y}, with_tolerance(mm, context_), 4.4, Weight::bold);
      y -= 7.2;
    };
    row("length", liner_.length);
    row("widest", liner_.width);
    y = page_.paragraph({x, y + 3}, page_.right() - x - 3.5,
                        "the shoe's seat less " + short_figure(liner_.clearance) + " all round",
                        2.8);
    page_.rectangle(LineKind::frame, {column_, y - 1, page_.right(), top_});
    return y - 1;
  }

  void steps(double top) {
    const double width = page_.right() - 10 - column_;
    double y = top;
    page_.stroke(LineKind::final_cut, {{column_, y - 1}, {column_ + 12, y - 1}});
    page_.text({column_ + 14.6, y - 2}, "cut here", 2.8, Weight::bold);
    page_.stroke(LineKind::centre, {{column_ + 38, y - 1}, {column_ + 50, y - 1}});
    page_.text({column_ + 52.6, y - 2}, "centre line", 2.8);
    y -= 7;
    std::vector<std::string> steps{
        "Cut the paper out. Lay it on the liner's foot side, printed face up; draw round it and "
        "cut.",
        "Mark " + std::string(left() ? "L" : "R") +
            " on the face that goes down: that is the adhesive face.",
        "Try it dry in the shoe, heel end to the shoe's back. Where it rides up at the edge, trim "
        "a little."};
    if (foot_.filler) {
      const SolvedFiller& filler = *foot_.filler;
      steps.push_back("Before the liner: soft filler into the emptied heel seat, of the shape of "
                      "the piece cut off the board, " +
                      figure(filler.length) + " long, " + figure(filler.width) + " wide, " +
                      short_figure(filler.thickness) + " thick. Trace that piece.");
    }
    steps.emplace_back("Adhesive on the adhesive face only, from the heel end forward; press flat "
                       "and let it dry.");
    constexpr double size = 2.7;
    page_.text({column_, y - 3.3 * cap_height}, "Cutting and laying", 3.3, Weight::bold);
    y -= 5.4;
    for (std::size_t i = 0; i < steps.size(); ++i) {
      page_.text({column_, y - size * cap_height}, std::to_string(i + 1), size, Weight::bold);
      y = page_.paragraph({column_ + 4, y}, width - 4, steps[i], size) - 0.5;
    }
  }

  const SheetContext& context_;
  const FootSolution& foot_;
  const SolvedLiner& liner_;
  SheetPage page_;
  Placement place_{};
  std::vector<Stroke> lines_;
  double top_ = 0;
  double rear_ = 0;
  double front_ = 0;
  double drawn_ = 0; ///< as far as the page goes
  double on_left_ = 0;
  double on_right_ = 0;
  double centre_ = 0;
  double column_ = 0;
};

} // namespace

std::vector<Stroke> liner_lines(const SolvedLiner& liner, double front) {
  const double fore = front_of(liner);
  const double rear = fore - liner.length;
  std::vector<Stroke> lines{{LineKind::centre, {{rear, 0}, {rear + centre_mark, 0}}, false}};
  if (front < fore) {
    lines.push_back({LineKind::final_cut, behind(liner.outline, front), false});
    return lines;
  }
  lines.push_back({LineKind::centre, {{fore - centre_mark, 0}, {fore, 0}}, false});
  lines.push_back({LineKind::final_cut, liner.outline, true});
  return lines;
}

LinerSheet liner_sheet(const SheetContext& context, const FootSolution& foot, std::size_t number) {
  return LinerLayout(context, foot, number).draw();
}

} // namespace shankline
