#include "export/maker_sheet.hpp"

#include "export/materials.hpp"
#include "geometry/figure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <utility>

namespace shankline {
namespace {

constexpr double drawing_height = 74;
constexpr double drawing_error = 0.05; ///< of a curve on the paper: nobody cuts along it
constexpr double dimension_size = 2.6;

/// A line with arrows at both ends, and its number beside the middle.
void dimension(SheetPage& page, Point from, Point to, const std::string& words, Point words_at,
               double angle = 0, Align align = Align::centre) {
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  const Point along{(to.x - from.x) / length, (to.y - from.y) / length};
  const double head = std::min(2.0, length / 3);
  page.stroke(LineKind::leader, {from, to});
  for (const auto& [tip, back] : {std::pair{from, 1.0}, std::pair{to, -1.0}}) {
    const Point heel{tip.x + back * head * along.x, tip.y + back * head * along.y};
    page.stroke(LineKind::leader,
                {{heel.x - 0.35 * head * along.y, heel.y + 0.35 * head * along.x},
                 tip,
                 {heel.x + 0.35 * head * along.y, heel.y - 0.35 * head * along.x}});
  }
  page.text(words_at, words, dimension_size, Weight::bold, align, angle);
}

class MakerLayout {
public:
  MakerLayout(const SheetContext& context, const std::vector<FootWork>& feet, std::size_t number)
      : context_(context), feet_(feet), page_(context, number, "Order for the maker") {
    page_.label("maker");
  }

  Page draw() && {
    y_ = page_.title_strip("", "") - 5;
    drawings();
    collect();
    table();
    signatures();
    return std::move(page_).finish();
  }

private:
  static constexpr double name_column = 40;
  static constexpr double signature_room = 15;

  // Drawings

  void drawings() {
    const auto at_board = [](const FootWork& foot) {
      return foot.solution->trim || foot.solution->thinned;
    };
    const bool boards = std::any_of(feet_.begin(), feet_.end(), at_board);
    const FootWork* with_side = nullptr;
    const SolvedSide* side = nullptr;
    for (const FootWork& foot : feet_) {
      if (!foot.solution->sides || side) continue;
      for (const SolvedSide* one : {&foot.solution->sides->medial, &foot.solution->sides->lateral})
        if (one->is_cut() && !side) {
          side = one;
          with_side = &foot;
        }
    }
    if (!boards && !side) return;
    page_.text({page_.right(), y_ - 2.5}, "drawings not to scale, mm", 2.5, Weight::regular,
               Align::right);
    double x = page_.left() + 12;
    if (boards)
      for (const FootWork& foot : feet_)
        if (at_board(foot)) x = board(foot, x);
    if (side)
      draw_side(*with_side, *side, boards ? std::max(x + 4, page_.left() + 84) : page_.left() + 4);
    y_ -= drawing_height + 4;
    const double tolerance = -cut_off_tolerance(context_.order.tolerances).minus;
    const bool cut = std::any_of(feet_.begin(), feet_.end(), [](const FootWork& foot) {
      return foot.solution->trim.has_value();
    });
    std::string words;
    if (boards) words = "Boards are seen from the foot side, measured from the heel end. ";
    if (cut) words += "The thick line across a board is the cut; what lies behind it comes off. ";
    if (side) words += side_line_words(*with_side->order->alterations.sides);
    if (cut || side)
      words += "+0 \u2212" + short_figure(tolerance) + ": up to " + short_figure(tolerance) +
               " less, never more.";
    y_ = page_.paragraph({page_.left(), y_}, page_.right() - page_.left(), words, 2.6) - 2;
  }

  static std::string side_line_words(const SideWish& wish) {
    const std::string line = "The thick line on the side is the new top line: ";
    switch (wish.edge) {
    case SideEdge::bound:
      return line + "cut along it. ";
    case SideEdge::turned:
      return line + "cut " + short_figure(wish.turn) + " above it and turn in. ";
    case SideEdge::folded:
      return line + "fold in along it, do not cut. ";
    }
    return {};
  }

  /// A board upright, heel end down, foot side up, from x on; returns the x after it.
  double board(const FootWork& foot, double x) {
    const FootSolution& solved = *foot.solution;
    const BoardOutline& outline = solved.outline;
    const bool closed = outline.closed();
    double known = outline.last_station(); // of a board in the shoe, and a little ahead of the work
    if (solved.trim) known = std::max(known, solved.trim->final_cut.centre + 20);
    if (solved.thinned) known = std::max(known, solved.thinned->to + 20);
    const double front = closed ? *outline.length() : known;
    const Polyline whole = closed ? solved.whole : outline.open_line(front);
    double widest = 0;
    for (const Point& p : whole)
      widest = std::max(widest, std::abs(p.y));
    constexpr double half = 12; // at most, on the page
    const double scale = std::min((drawing_height - 16) / front, half / widest);
    const Point origin{x + half, y_ - drawing_height + 3};
    const double sign = foot.is_left() ? 1 : -1;
    const auto at = [&](const Point& p) {
      return Point{origin.x + sign * scale * p.y, origin.y + scale * p.x};
    };
    const auto drawn = [&](const Polyline& line) {
      Polyline points;
      for (const Point& p : line)
        points.push_back(at(p));
      return points;
    };
    page_.stroke(LineKind::edge, drawn(whole), closed);
    if (solved.trim) page_.stroke(LineKind::final_cut, drawn(solved.trim->end));
    if (solved.thinned)
      for (const double edge : {solved.thinned->from, solved.thinned->to})
        page_.stroke(LineKind::bevel, drawn({{edge, outline.edge_y(Edge::medial, edge)},
                                             {edge, outline.edge_y(Edge::lateral, edge)}}));
    page_.text({origin.x, origin.y - 4}, "heel end", 2.4, Weight::regular, Align::centre);
    page_.text({origin.x, origin.y + scale * front + 2}, foot_capitals(solved.side) + " board", 3,
               Weight::bold, Align::centre);
    const double right = origin.x + half + 2.5;
    const auto along = [&](double from, double to, const std::string& words) {
      dimension(page_, {right, origin.y + scale * from}, {right, origin.y + scale * to}, words,
                {right + 3.2, origin.y + scale * (from + to) / 2}, 90);
    };
    if (solved.trim) {
      const double cut = solved.trim->final_cut.centre;
      along(0, cut, figure(cut));
      if (closed) along(cut, front, figure(*solved.pieces.kept_length));
    } else {
      along(0, solved.thinned->from, short_figure(solved.thinned->from));
      along(solved.thinned->from, solved.thinned->to,
            short_figure(solved.thinned->to - solved.thinned->from));
    }
    if (closed) {
      const double left = origin.x - half - 2.5;
      dimension(page_, {left, origin.y}, {left, origin.y + scale * front},
                short_figure(*outline.length()), {left - 1.2, origin.y + scale * front / 2}, 90);
    }
    return right + 11;
  }

  void draw_side(const FootWork& foot, const SolvedSide& side, double x) {
    const double room = page_.right() - x - 4;
    const Point wing = side.wall.flat(side.wing, 0);
    const double scale = std::min(room / std::hypot(wing.x, wing.y) * 0.9, 0.62);
    const bool big_toe = side.edge == Edge::medial;
    const double mirror = foot.is_left() == big_toe ? 1 : -1;
    const double angle = std::atan2(wing.y, wing.x);
    const Point middle{wing.x / 2, wing.y / 2};
    const Point centre{x + room / 2, y_ - drawing_height + 22};
    const auto place = [&](const Point& p) {
      const double dx = p.x - middle.x;
      const double dy = p.y - middle.y;
      return Point{centre.x + mirror * scale * (dx * std::cos(angle) + dy * std::sin(angle)),
                   centre.y + scale * (dy * std::cos(angle) - dx * std::sin(angle))};
    };
    const auto at = [&](double t, double h) { return place(side.wall.flat(t, h)); };
    const auto drawn = [&](const SideWall::HeightLine& line, double from, double to) {
      Polyline points;
      for (const Point& p : side.wall.flat_line(line, from, to, drawing_error / scale))
        points.push_back(place(p));
      return points;
    };
    const SideWall::HeightLine base{[](double) { return 0.0; }, [](double) { return 0.0; }};
    page_.stroke(LineKind::stock_top, drawn(side.stock_line(), 0, side.wing));
    page_.stroke(LineKind::edge, drawn(base, 0, side.wing));
    page_.stroke(LineKind::edge, {at(0, 0), at(0, side.stock(0))});
    page_.stroke(LineKind::edge, {at(side.wing, 0), at(side.wing, side.stock(side.wing))});
    const double from = side.profile.back > 0 ? 0 : side.profile.rear_from;
    page_.stroke(LineKind::final_cut, drawn(side.finished_line(), from, side.profile.front_to));

    const Point sole = at(side.low_at, 0);
    const Point low = at(side.low_at, side.low);
    dimension(page_, {sole.x, sole.y + 0.6}, {low.x, low.y - 1}, figure(side.low),
              {sole.x + 1.6, (sole.y + low.y) / 2 - 1}, 0, Align::left);
    const double deep = (side.profile.rear_to + side.profile.front_from) / 2;
    const std::string lowered = "lowered by " + figure(side.profile.depth) + " " +
                                tolerance_text(cut_off_tolerance(context_.order.tolerances));
    const double across = at(deep, side.stock(deep)).x;
    const double reach = page_.width_of(lowered, dimension_size, Weight::bold) / 2 + 1;
    double above = 0; // of the stock line under the words
    for (double t = 0; t <= side.wing; t += 1)
      if (const Point p = at(t, side.stock(t)); std::abs(p.x - across) <= reach)
        above = std::max(above, p.y);
    page_.text({across, above + 1.8}, lowered, dimension_size, Weight::bold, Align::centre);
    const Point seam = at(0, 0);
    double below = 1e9;
    for (double t = 0; t <= side.wing; t += 4)
      below = std::min(below, at(t, 0).y);
    below -= 4;
    dimension(page_, {seam.x, below}, {sole.x, below}, figure(side.low_at, 0),
              {(seam.x + sole.x) / 2, below - 3.2});
    page_.text({centre.x, y_ - 8},
               foot_capitals(foot.solution->side) + " shoe, " + edge_words(side.edge) + ", outside",
               3, Weight::bold, Align::centre);
    page_.text({centre.x, below - 8.6},
               "back seam " + std::string(mirror > 0 ? "left" : "right") +
                   "; other sides as in the table",
               2.4, Weight::regular, Align::centre);
  }

  // Table

  struct Row {
    std::string name;
    std::vector<std::string> cells;
    Weight weight = Weight::regular;
  };

  void row(const std::string& name, const std::function<std::string(const FootWork&)>& cell,
           Weight weight = Weight::regular) {
    Row made{name, {}, weight};
    bool said = false;
    for (const FootWork& foot : feet_) {
      std::string words = cell(foot);
      said = said || !words.empty();
      made.cells.push_back(words.empty() ? "\u2013" : std::move(words));
    }
    if (said) rows_.push_back(std::move(made));
  }

  void collect() {
    const ToleranceWish& tolerances = context_.order.tolerances;
    const auto cut = [&](const char* name, double CutLine::*place) {
      row(
          name,
          [&, place](const FootWork& foot) {
            if (!foot.solution->trim) return std::string();
            return length_text(foot.solution->trim->final_cut.*place, context_.units,
                               Rounding::down) +
                   " " + tolerance_text(cut_off_tolerance(tolerances));
          },
          Weight::bold);
    };
    cut("board: cut off, centre", &CutLine::centre);
    cut("  big-toe side", &CutLine::medial);
    cut("  little-toe side", &CutLine::lateral);
    row("  keep", [&](const FootWork& foot) {
      const auto& kept = foot.solution->pieces.kept_length;
      return kept ? length_text(*kept, context_.units, Rounding::up) + " " +
                        tolerance_text(keep_tolerance(tolerances))
                  : std::string();
    });
    row("  end", [&](const FootWork& foot) { return board_end_words(foot, context_); });
    row("  layers cut", layer_words);
    const auto add = [&](const char* name,
                         std::string (*words)(const FootWork&, const SheetContext&)) {
      row(name, [this, words](const FootWork& foot) { return words(foot, context_); });
    };
    add("board thinned", thinned_words);
    add("filler", filler_words);
    add("sides lowered by", side_depth_words);
    row("  edge", side_edge_words);
    row("  lowest height left", [&](const FootWork& foot) {
      if (!foot.solution->sides) return std::string();
      return "big-toe " +
             length_text(foot.solution->sides->medial.low, context_.units, Rounding::up) +
             ", little-toe " +
             length_text(foot.solution->sides->lateral.low, context_.units, Rounding::up);
    });
    add("  casing strip", casing_words);
    add("  drawstring", drawstring_words);
    add("full liner", liner_words);
    add("darning", darning_words);
    add("ribbon", ribbon_words);
    add("elastic across", elastic_words);
    add("heel loop", heel_loop_words);
    add("tuck", tuck_words);
  }

  double cell_width() const { return (page_.right() - page_.left() - name_column) / 2; }

  std::vector<std::string> wrapped(const std::string& words, double width, double size,
                                   Weight weight) const {
    return context_.typeface.wrap(words, width, size, weight);
  }

  static double pitch(double size) { return size * leading; }

  double height_of_rows(double size) const {
    double height = 8;
    for (const Row& one : rows_) {
      std::size_t lines = 1;
      for (const std::string& cell : one.cells)
        lines = std::max(lines, wrapped(cell, cell_width() - 3, size, one.weight).size());
      height += pitch(size) * static_cast<double>(lines) + 0.9;
    }
    return height;
  }
  static double height_of_lists(std::size_t lines, double size) {
    return 8 + pitch(size) * static_cast<double>(lines);
  }

  void table() {
    const auto things = material_lines(feet_, context_.units);
    const auto guesses = estimate_lines(feet_, false);
    const std::size_t longest = std::max(things.size(), guesses.size());
    const double room = y_ - page_.bottom() - signature_room;
    double size = 3;
    while (size > 1.8 && height_of_rows(size) + height_of_lists(longest, size) + 9 > room)
      size -= 0.05;

    for (std::size_t i = 0; i < feet_.size(); ++i)
      page_.text({column(i), y_ - 3}, foot_capitals(feet_[i].solution->side), 3.6, Weight::bold);
    page_.text({page_.left(), y_ - 3}, context_.units == Units::inch ? "mm (and inches)" : "mm",
               2.6);
    y_ -= 5;
    page_.stroke(LineKind::frame, {{page_.left(), y_}, {page_.right(), y_}});
    y_ -= 3;
    for (const Row& one : rows_) {
      std::size_t lines = 1;
      const double baseline = y_ - size * cap_height;
      page_.text({page_.left(), baseline}, one.name, size);
      for (std::size_t i = 0; i < one.cells.size(); ++i) {
        const auto cell = wrapped(one.cells[i], cell_width() - 3, size, one.weight);
        lines = std::max(lines, cell.size());
        for (std::size_t k = 0; k < cell.size(); ++k)
          page_.text({column(i), baseline - pitch(size) * static_cast<double>(k)}, cell[k], size,
                     one.weight);
      }
      y_ -= pitch(size) * static_cast<double>(lines) + 0.9;
    }
    page_.stroke(LineKind::frame, {{page_.left(), y_}, {page_.right(), y_}});
    y_ -= 6;
    const double half = page_.left() + (page_.right() - page_.left()) * 0.45;
    list("Materials, nothing added for waste", things, page_.left(), half - page_.left() - 4, size);
    list("Estimated, not measured", guesses, half, page_.right() - half, size);
  }

  void list(const char* title, const std::vector<std::string>& lines, double x, double width,
            double size) {
    if (lines.empty()) return;
    page_.text({x, y_}, title, 3, Weight::bold);
    double y = y_ - 1.6;
    for (const std::string& line : lines) {
      y -= pitch(size);
      page_.text({x, y}, context_.typeface.shorten(line, width, size), size);
    }
  }

  double column(std::size_t foot) const {
    return page_.left() + name_column + cell_width() * static_cast<double>(foot);
  }

  void signatures() {
    page_.signatures(6, {"ordered by, date", "made by, date", "received by, date"});
  }

  const SheetContext& context_;
  const std::vector<FootWork>& feet_;
  SheetPage page_;
  std::vector<Row> rows_;
  double y_ = 0;
};

} // namespace

Page maker_sheet(const SheetContext& context, const std::vector<FootWork>& feet,
                 std::size_t number) {
  return MakerLayout(context, feet, number).draw();
}

} // namespace shankline
