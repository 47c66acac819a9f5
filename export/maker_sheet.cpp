#include "export/maker_sheet.hpp"

#include "export/foot_words.hpp"
#include "export/materials.hpp"
#include "geometry/figure.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
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

  static bool has_board(const FootWork& foot) {
    return foot.solution->trim || foot.solution->thinned;
  }

  struct DrawnSide {
    const FootWork& foot;
    const SolvedSide& side;
  };

  /// The first that is lowered.
  std::optional<DrawnSide> first_side() const {
    for (const FootWork& foot : feet_) {
      const auto& sides = foot.solution->sides;
      if (!sides) continue;
      for (const SolvedSide* side : {&sides->medial, &sides->lateral})
        if (side->is_cut()) return DrawnSide{foot, *side};
    }
    return std::nullopt;
  }

  void drawings() {
    const bool boards = std::any_of(feet_.begin(), feet_.end(), has_board);
    const std::optional<DrawnSide> side = first_side();
    if (!boards && !side) return;
    page_.text({page_.right(), y_ - 2.5}, "drawings not to scale, mm", 2.5, Weight::regular,
               Align::right);
    double x = page_.left() + 12;
    for (const FootWork& foot : feet_)
      if (has_board(foot)) x = board(foot, x);
    if (side)
      draw_side(side->foot, side->side,
                boards ? std::max(x + 4, page_.left() + 84) : page_.left() + 4);
    y_ -= drawing_height + 4;
    y_ = page_.paragraph({page_.left(), y_}, page_.right() - page_.left(),
                         drawing_words(boards, side), 2.6) -
         2;
  }

  std::string drawing_words(bool boards, const std::optional<DrawnSide>& side) const {
    const double tolerance = -cut_off_tolerance(context_.order.tolerances).minus;
    const bool cut = std::any_of(feet_.begin(), feet_.end(), [](const FootWork& foot) {
      return foot.solution->trim.has_value();
    });
    std::string words;
    if (boards) words = "Boards are seen from the foot side, measured from the heel end. ";
    if (cut) words += "The thick line across a board is the cut; what lies behind it comes off. ";
    if (side) words += side_line_words(*side->foot.order->alterations.sides);
    if (cut || side)
      words += "+0 \u2212" + short_figure(tolerance) + ": up to " + short_figure(tolerance) +
               " less, never more.";
    return words;
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

  /// Where the drawing of a board lies: upright, heel end down, foot side up.
  struct SmallBoard {
    static constexpr double half = 12; ///< of its width, at most, on the page
    const FootSolution& foot;
    double front; ///< how far it is drawn, from the heel end
    Polyline whole;
    Placement place; ///< of its own frame, made smaller
    double scale;

    double right() const { return place.origin.x + half + 2.5; }
    double left() const { return place.origin.x - half - 2.5; }
    double y(double station) const { return place.origin.y + scale * station; }
  };

  SmallBoard small_board(const FootSolution& foot, double x) const {
    const BoardOutline& outline = foot.outline;
    constexpr double ahead = 20; // of the work, on a board that stays in the shoe
    double known = outline.last_station();
    if (foot.trim) known = std::max(known, foot.trim->final_cut.centre + ahead);
    if (foot.thinned) known = std::max(known, foot.thinned->to + ahead);
    const double front = outline.closed() ? *outline.length() : known;
    Polyline whole = outline.closed() ? foot.whole : outline.open_line(front);
    double widest = 0;
    for (const Point& p : whole)
      widest = std::max(widest, std::abs(p.y));
    const double scale = std::min((drawing_height - 16) / front, SmallBoard::half / widest);
    const double sign = foot.side == FootSide::left ? 1 : -1;
    const Placement place{
        {x + SmallBoard::half, y_ - drawing_height + 3}, {0, scale}, {sign * scale, 0}};
    // cppcheck-suppress returnDanglingLifetime ; its front is a copy
    return {foot, front, std::move(whole), place, scale};
  }

  /// From x on; returns the x after it.
  double board(const FootWork& foot, double x) {
    const FootSolution& solved = *foot.solution;
    const BoardOutline& outline = solved.outline;
    const SmallBoard small = small_board(solved, x);
    const Point& heel = small.place.origin;
    page_.stroke(LineKind::edge, placed(small.whole, small.place), outline.closed());
    if (solved.trim) page_.stroke(LineKind::final_cut, placed(solved.trim->end, small.place));
    if (solved.thinned)
      for (const double edge : {solved.thinned->from, solved.thinned->to})
        page_.stroke(LineKind::bevel, {small.place({edge, outline.edge_y(Edge::medial, edge)}),
                                       small.place({edge, outline.edge_y(Edge::lateral, edge)})});
    page_.text({heel.x, heel.y - 4}, "heel end", 2.4, Weight::regular, Align::centre);
    page_.text({heel.x, small.y(small.front) + 2}, foot_capitals(solved.side) + " board", 3,
               Weight::bold, Align::centre);
    board_dimensions(small);
    return small.right() + 11;
  }

  void board_dimensions(const SmallBoard& small) {
    const FootSolution& foot = small.foot;
    const double right = small.right();
    const auto along = [&](double from, double to, const std::string& words) {
      dimension(page_, {right, small.y(from)}, {right, small.y(to)}, words,
                {right + 3.2, small.place.origin.y + small.scale * (from + to) / 2}, 90);
    };
    if (foot.trim) {
      const double cut = foot.trim->final_cut.centre;
      along(0, cut, figure(cut));
      if (foot.outline.closed()) along(cut, small.front, figure(*foot.pieces.kept_length));
    } else {
      const SolvedThinning& thinned = *foot.thinned;
      along(0, thinned.from, short_figure(thinned.from));
      along(thinned.from, thinned.to, short_figure(thinned.to - thinned.from));
    }
    if (foot.outline.closed())
      dimension(page_, {small.left(), small.y(0)}, {small.left(), small.y(small.front)},
                short_figure(*foot.outline.length()),
                {small.left() - 1.2, small.place.origin.y + small.scale * small.front / 2}, 90);
  }

  /// Where the drawing of a side lies: chord level, outside towards the reader.
  struct SmallSide {
    const SolvedSide& side;
    Placement place; ///< of the wall laid flat, made smaller
    double scale;

    Point at(double t, double height) const { return place(side.wall.flat(t, height)); }
    Polyline line(const SideWall::HeightLine& height, double from, double to) const {
      return placed(side.wall.flat_line(height, from, to, drawing_error / scale), place);
    }
  };

  static SmallSide small_side(const SolvedSide& side, bool toes_right, const Point& centre,
                              double room) {
    const Point wing = side.wall.flat(side.wing, 0);
    const double scale = std::min(room / std::hypot(wing.x, wing.y) * 0.9, 0.62);
    const double angle = std::atan2(wing.y, wing.x);
    const double mirror = toes_right ? 1 : -1;
    Placement place{{0, 0},
                    {mirror * scale * std::cos(angle), -scale * std::sin(angle)},
                    {mirror * scale * std::sin(angle), scale * std::cos(angle)}};
    const Point middle = place({wing.x / 2, wing.y / 2});
    place.origin = {centre.x - middle.x, centre.y - middle.y};
    return {side, place, scale};
  }

  void draw_side(const FootWork& foot, const SolvedSide& side, double x) {
    const double room = page_.right() - x - 4;
    const bool toes_right = foot.is_left() == (side.edge == Edge::medial);
    const Point centre{x + room / 2, y_ - drawing_height + 22};
    const SmallSide small = small_side(side, toes_right, centre, room);
    side_outline(small);
    height_dimension(small);
    lowered_words(small);
    const double below = low_point_dimension(small);
    page_.text({centre.x, y_ - 8},
               foot_capitals(foot.solution->side) + " shoe, " + edge_words(side.edge) + ", outside",
               3, Weight::bold, Align::centre);
    page_.text({centre.x, below - 8.6},
               "back seam " + std::string(toes_right ? "left" : "right") +
                   "; other sides as in the table",
               2.4, Weight::regular, Align::centre);
  }

  void side_outline(const SmallSide& small) {
    const SolvedSide& side = small.side;
    const SideWall::HeightLine base{[](double) { return 0.0; }, [](double) { return 0.0; }};
    page_.stroke(LineKind::stock_top, small.line(side.stock_line(), 0, side.wing));
    page_.stroke(LineKind::edge, small.line(base, 0, side.wing));
    for (const double end : {0.0, side.wing})
      page_.stroke(LineKind::edge, {small.at(end, 0), small.at(end, side.stock(end))});
    const double from = side.profile.back > 0 ? 0 : side.profile.rear_from;
    page_.stroke(LineKind::final_cut,
                 small.line(side.finished_line(), from, side.profile.front_to));
  }

  void height_dimension(const SmallSide& small) {
    const SolvedSide& side = small.side;
    Point sole = small.at(side.low_at, 0);
    Point low = small.at(side.low_at, side.low);
    // Close to an end of the side it stands off that end, and its words towards the middle.
    constexpr double close = 12;
    constexpr double off = 3;
    double words_to = 1;
    for (const auto& [end, other] : {std::pair{0.0, side.wing}, std::pair{side.wing, 0.0}}) {
      const double x = small.at(end, 0).x;
      if (std::abs(sole.x - x) >= close) continue;
      words_to = small.at(other, 0).x > x ? 1 : -1;
      const double shift = words_to * std::max(0.0, off - std::abs(sole.x - x));
      sole.x += shift;
      low.x += shift;
    }
    dimension(page_, {sole.x, sole.y + 0.6}, {low.x, low.y - 1}, figure(side.low),
              {std::max(words_to * sole.x, words_to * low.x) * words_to + 1.6 * words_to,
               (sole.y + low.y) / 2 - 1},
              0, words_to > 0 ? Align::left : Align::right);
  }

  /// Over the deepest stretch, clear of the stock line.
  void lowered_words(const SmallSide& small) {
    const SolvedSide& side = small.side;
    const double deep = (side.profile.rear_to + side.profile.front_from) / 2;
    const bool back = side.profile.depth == 0;
    const std::string words = (back ? "back lowered by " : "lowered by ") +
                              figure(back ? side.profile.back : side.profile.depth) + " " +
                              tolerance_text(cut_off_tolerance(context_.order.tolerances));
    const double x = small.at(deep, side.stock(deep)).x;
    const double reach = page_.width_of(words, dimension_size, Weight::bold) / 2 + 1;
    double above = 0; // of the stock line under the words
    for (double t = 0; t <= side.wing; t += 1)
      if (const Point p = small.at(t, side.stock(t)); std::abs(p.x - x) <= reach)
        above = std::max(above, p.y);
    page_.text({x, above + 1.8}, words, dimension_size, Weight::bold, Align::centre);
  }

  /// Below the base, from the back seam. Returns its y.
  double low_point_dimension(const SmallSide& small) {
    const SolvedSide& side = small.side;
    const double seam = small.at(0, 0).x;
    const double low = small.at(side.low_at, 0).x;
    double below = 1e9;
    for (double t = 0; t <= side.wing; t += 4)
      below = std::min(below, small.at(t, 0).y);
    below -= 4;
    const bool at_seam = std::abs(low - seam) < 0.5; // too near for two arrows
    const std::string words = at_seam ? "lowest at the back seam" : figure(side.low_at, 0);
    const double y = below - 3.2;
    if (at_seam) // from the seam towards the toes, clear of the boards
      page_.text({seam, y}, words, dimension_size, Weight::bold,
                 small.at(side.wing, 0).x > seam ? Align::left : Align::right);
    else
      dimension(page_, {seam, below}, {low, below}, words, {(seam + low) / 2, y});
    return below;
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
      if (words.empty()) words = "\u2013";
      made.cells.push_back(std::move(words));
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
            return length_text(foot.solution->trim->line_to_cut().*place, context_.units,
                               Rounding::down) +
                   " " + tolerance_text(cut_off_tolerance(tolerances));
          },
          Weight::bold);
    };
    cut("board: first cut off, centre", &CutLine::centre);
    cut("  big-toe side", &CutLine::medial);
    cut("  little-toe side", &CutLine::lateral);
    row("  layers cut", layer_words, Weight::bold);
    row("  final, only when signed", [&](const FootWork& foot) {
      if (!foot.solution->trim || !foot.solution->trim->first_cut) return std::string();
      const SolvedTrim& trim = *foot.solution->trim;
      const auto off = [&](double mm) { return length_text(mm, context_.units, Rounding::down); };
      const std::string edges = off(trim.final_cut.medial) == off(trim.final_cut.lateral)
                                    ? off(trim.final_cut.centre)
                                    : "big-toe " + off(trim.final_cut.medial) + ", centre " +
                                          off(trim.final_cut.centre) + ", little-toe " +
                                          off(trim.final_cut.lateral);
      return edges + " \u00b1" + figure(trim.final_doubt().expanded()) + "; signed ............";
    });
    row("  stop band", [&](const FootWork& foot) {
      if (!foot.solution->trim) return std::string();
      const SolvedTrim& trim = *foot.solution->trim;
      return "from " + length_text(trim.stop_from.centre, context_.units, Rounding::down) +
             ", stop at " + length_text(trim.stop.centre, context_.units, Rounding::down) +
             " \u00b1" + figure(trim.doubt.stop.expanded());
    });
    row("  keep", [&](const FootWork& foot) {
      const auto& kept = foot.solution->pieces_to_cut.kept_length;
      return kept ? length_text(*kept, context_.units, Rounding::up) + " " +
                        tolerance_text(keep_tolerance(tolerances)) + " at the first cut"
                  : std::string();
    });
    row("  board, inset", [&](const FootWork& foot) {
      const Board& board = foot.order->shoe.board;
      return std::string(board.state == BoardState::loose ? "loose" : "stays in the shoe") +
             ", inset " + short_figure(board.inset->value());
    });
    row("  end", [&](const FootWork& foot) { return board_end_words(foot, context_); });
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
    add("liner", liner_words);
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
