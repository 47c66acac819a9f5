#include "export/templates/liner_sheet.hpp"

#include "export/page/tile_joining.hpp"
#include "export/wording/foot_words.hpp"
#include "export/wording/work_words.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
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

constexpr double beside = 9.5;     ///< of a tile's window: a cross, clear of the liner
constexpr double below_heel = 6.5; ///< for the words there
constexpr double above_toes = 6;   ///< likewise
constexpr double number_room = 98; ///< wide, for the size and the steps

/// A page's piece of the liner.
struct Part {
  const TileGrid& grid;
  const Tile& tile;
};

/// One liner, heel end down, on one page or a piece of it.
class LinerLayout {
public:
  LinerLayout(const SheetContext& context, const FootSolution& foot, std::size_t number,
              const Part* part = nullptr)
      : context_(context), foot_(foot), liner_(*foot.liner), part_(part),
        page_(context, number + (part ? part->tile.number : 0),
              (left() ? "Liner, left foot" : "Liner, right foot") + tile_name(),
              upright_page(context.paper, std::max(least_height, foot.liner->length + around))) {
    page_.label("liner " + foot_letter(foot.side) + tile_name());
    top_ = page_.title_strip(foot_letter(foot.side), "") - 4;
    measure();
  }

  /// The tiles of the liner; one tile if the page takes it whole.
  TileGrid grid() const {
    return {{-on_left_ - beside, rear_ - below_heel, on_right_ + beside, front_ + above_toes},
            page_.right() - page_.left(),
            top_ - page_.bottom()};
  }

  LinerSheet draw() && {
    place();
    std::vector<Stroke> lines = liner_lines(liner_);
    if (part_) lines = piece(lines);
    page_.strokes(lines, place_);
    names();
    part_label();
    const double below = number_box();
    steps(below - 5);
    const double beside_bar = page_.right() - 10;
    const Point card{
        std::min(column_ + (beside_bar - column_ - card_width) / 2, beside_bar - card_width),
        page_.bottom() + 12};
    Proof proof = page_.proof({page_.right() - bar_length, page_.bottom() + 3},
                              {page_.right() - 2, page_.bottom() + 16}, card);
    Template part{"liner", foot_.side, page_.number(), page_.paper(), place_, std::move(lines), {}};
    if (part_) {
      const Tile& tile = part_->tile;
      part.tile = TilePlace{tile.number, part_->grid.tiles().size(), tile.row, tile.column};
      joining(std::min(column_ - 8, card.x - 4));
    }
    return {std::move(page_).finish(), std::move(part), proof};
  }

private:
  static constexpr double least_height = 297; ///< of a page cut from a roll
  static constexpr double around = 2 * SheetPage::margin + 40;

  bool left() const { return foot_.side == FootSide::left; }

  std::string tile_name() const {
    return part_ ? ", " + tile_words(part_->grid, part_->tile) : std::string();
  }

  /// Foot side up: the big-toe side of the left liner is on the right.
  void measure() {
    front_ = front_of(liner_);
    rear_ = front_ - liner_.length;
    double low = 0;
    double high = 0;
    for (const Point& p : liner_.outline) {
      low = std::min(low, p.y);
      high = std::max(high, p.y);
    }
    on_left_ = left() ? -low : high;
    on_right_ = left() ? high : -low;
  }

  /// The whole stands at the foot of the page, a piece of it hangs at its head.
  void place() {
    from_ = rear_;
    to_ = front_;
    centre_ = page_.left() + (part_ ? beside : 7) + on_left_;
    column_ = std::min(centre_ + on_right_ + 14, page_.right() - number_room);
    double base = page_.bottom() + below_heel - rear_;
    if (part_) {
      const Box& window = part_->tile.window;
      from_ = std::max(from_, window.bottom);
      to_ = std::min(to_, window.top);
      base = top_ - window.top;
    }
    column_ = std::max(column_, centre_ + on_right_ + (part_ ? beside + 3 : 7));
    place_ = {{centre_, base}, {0, 1}, {left() ? 1.0 : -1.0, 0}};
  }

  /// The part's frame stood upright, in which the tiles are: turned over for a right foot.
  Point upright(const Point& p) const { return {left() ? p.y : -p.y, p.x}; }
  Point lying(const Point& p) const { return {p.y, left() ? p.x : -p.x}; }

  /// Returns the lines inside the tile's window, with its crosses, in the part's own frame. The
  /// edge where the tile may be trimmed is drawn on the page alone.
  std::vector<Stroke> piece(std::vector<Stroke> lines) {
    for (Stroke& line : lines)
      for (Point& p : line.points)
        p = upright(p);
    lines = clipped(lines, part_->tile.window);
    for (Stroke& cross : registration(part_->grid, part_->tile))
      lines.push_back(std::move(cross));
    for (Stroke& line : lines)
      for (Point& p : line.points)
        p = lying(p);
    for (const Stroke& edge : trim_edges(part_->tile)) {
      Polyline points;
      for (const Point& p : edge.points)
        points.push_back(place_(lying(p)));
      page_.stroke(edge.kind, std::move(points));
    }
    for (const std::size_t i : part_->grid.crosses_on(part_->tile)) {
      const Text name = cross_names(place_(lying(part_->grid.crosses()[i])), i).front();
      page_.text(name.at, name.words, name.size, name.weight, name.align);
    }
    return lines;
  }

  void joining(double right) {
    const double below = place_(lying({0, part_->tile.window.bottom})).y - 8;
    tile_joining(page_, part_->grid, part_->tile, {page_.left(), below}, right);
  }

  void names() {
    if (from_ <= rear_) {
      const Point heel = place_({rear_, 0});
      page_.text({heel.x, heel.y - 4.2}, "HEEL END", 3.2, Weight::bold, Align::centre);
    }
    if (to_ >= front_) {
      const Point toes = place_({front_, 0});
      page_.text({toes.x, toes.y + 2.6}, "towards the toes", 2.8, Weight::regular, Align::centre);
    }
    const double y = place_({from_ + 0.55 * (to_ - from_), 0}).y;
    page_.text({centre_ - on_left_ - 1.4, y}, edge_words(left_edge(foot_.side)), 3.2,
               Weight::regular, Align::centre, 90);
    page_.text({centre_ + on_right_ + 3.8, y}, edge_words(right_edge(foot_.side)), 3.2,
               Weight::regular, Align::centre, 90);
  }

  /// The outline's least distance from the centre line over a stretch, on both sides, mm.
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

  /// Writes the part's name in the middle of the front half, so that a loose cut-out can still be
  /// told.
  void part_label() {
    std::vector<LabelLine> label{{"LINER", 6, Weight::bold},
                                 {foot_capitals(foot_.side), 3.6, Weight::bold},
                                 {"FOOT SIDE UP", 3.2, Weight::bold},
                                 {"adhesive on the", 2.8},
                                 {"other face", 2.8},
                                 {context_.order.dancer, 2.8}};
    if (part_) label.insert(label.begin() + 1, {tile_words(part_->grid, part_->tile), 3});
    for (const std::string* more : {&context_.order.date, &context_.order.pair})
      if (!more->empty()) label.push_back({*more, 2.5});
    const std::string order = "order " + context_.digest;
    const std::string page = "page " + std::to_string(page_.number() + 1);
    const double middle = from_ + (part_ ? 0.5 : 0.66) * (to_ - from_);
    const auto width_for = [&](double height) {
      return 2 * half_room(middle - height / 2, middle + height / 2) - 6;
    };
    label.push_back({order + " \u00b7 " + page, 2.5});
    if (page_.width_of(label.back().words, 2.5) > width_for(height_of(label))) {
      label.back().words = order; // a narrow liner has its page on a line below
      label.push_back({page, 2.5});
    }
    const double height = height_of(label);
    const double width = width_for(height);
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
      const std::string words = with_tolerance(mm, context_);
      const double room = page_.right() - 2 - x - page_.width_of(words, 4.4, Weight::bold);
      page_.text({x + std::min(34.0, room), y}, words, 4.4, Weight::bold);
      y -= 7.2;
    };
    row("length", liner_.length);
    row("widest", liner_.width);
    y = page_.paragraph({x, y + 3}, page_.right() - x - 3.5,
                        "the shoe's seat less " +
                            short_length_text(liner_.clearance, context_.units) + " all round",
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
        "Mark " + foot_letter(foot_.side) +
            " on the face that goes down: that is the adhesive face.",
        "Try it dry in the shoe, heel end to the shoe's back. Where it rides up at the edge, trim "
        "a little."};
    if (foot_.filler) {
      const SolvedFiller& filler = *foot_.filler;
      steps.push_back(
          "Before the liner: soft filler into the emptied heel seat, of the shape of "
          "the piece cut off the board, " +
          length_text(filler.length, context_.units) + " long, " +
          length_text(filler.width, context_.units) + " wide, " + short_figure(filler.thickness) +
          inches_inside(filler.thickness,
                        dimension_tolerance(context_.order.tolerances, filler.thickness),
                        context_.units) +
          " thick. Trace that piece.");
    }
    steps.emplace_back("Adhesive on the adhesive face only, from the heel end forward; press flat "
                       "and let it dry.");
    page_.text({column_, y - 3.3 * cap_height}, "Cutting and laying", 3.3, Weight::bold);
    page_.numbered({column_, y - 5.4}, width, steps, {2.7, 4, 0.5});
  }

  const SheetContext& context_;
  const FootSolution& foot_;
  const SolvedLiner& liner_;
  const Part* part_; ///< none of a whole liner
  SheetPage page_;
  Placement place_{};
  double top_ = 0;
  double rear_ = 0;
  double front_ = 0;
  double from_ = 0; ///< the stretch that is on this page
  double to_ = 0;
  double on_left_ = 0;
  double on_right_ = 0;
  double centre_ = 0;
  double column_ = 0;
};

} // namespace

std::vector<Stroke> liner_lines(const SolvedLiner& liner) {
  const double fore = front_of(liner);
  const double rear = fore - liner.length;
  return {{LineKind::centre, {{rear, 0}, {rear + centre_mark, 0}}, false},
          {LineKind::centre, {{fore - centre_mark, 0}, {fore, 0}}, false},
          {LineKind::final_cut, liner.outline, true}};
}

std::vector<LinerSheet> liner_sheets(const SheetContext& context, const FootSolution& foot,
                                     std::size_t number) {
  LinerLayout whole(context, foot, number);
  const TileGrid grid = whole.grid();
  std::vector<LinerSheet> sheets;
  if (grid.tiles().size() == 1) {
    sheets.push_back(std::move(whole).draw());
    return sheets;
  }
  for (const Tile& tile : grid.tiles()) {
    const Part part{grid, tile};
    sheets.push_back(LinerLayout(context, foot, number, &part).draw());
  }
  return sheets;
}

} // namespace shankline
