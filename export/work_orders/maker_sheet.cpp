#include "export/work_orders/maker_sheet.hpp"

#include "export/wording/caution_words.hpp"
#include "export/wording/foot_words.hpp"
#include "export/wording/line_words.hpp"
#include "export/wording/materials.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <optional>
#include <utility>

namespace shankline {
namespace {

constexpr double drawing_height = 56;
constexpr double drawing_error = 0.05; ///< of a curve on the paper: nobody cuts along it
constexpr double dimension_size = 2.6;
constexpr double below_number = 3; ///< mm, of its inches

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

/// The page, or pages, with rows of one size of letters.
class MakerLayout {
public:
  MakerLayout(const SheetContext& context, const std::vector<FootWork>& feet,
              const Findings& cautions, std::size_t number, double size)
      : context_(context), feet_(feet), cautions_(cautions), number_(number), size_(size) {}

  std::vector<Page> draw() && {
    new_page();
    cautions();
    ordered();
    note();
    drawings();
    column_heads();
    if (cuts_board()) lines_to_cut();
    collect();
    table();
    lists();
    page_->signatures(6, {"ordered by, date", "made by, date", "received by, date"});
    pages_.push_back(std::move(*page_).finish());
    return std::move(pages_);
  }

private:
  static constexpr double name_column = 40;
  static constexpr double signature_room = 14; ///< kept free at the foot of every page
  static constexpr double small_letters = 2.5; ///< the smallest letters, 7 points

  void new_page() {
    if (page_) pages_.push_back(std::move(*page_).finish());
    page_.emplace(context_, number_ + pages_.size(),
                  pages_.empty() ? "Order for the maker" : "Order for the maker, continued");
    page_->label("maker");
    y_ = page_->title_strip("", "") - 3;
  }

  /// Goes on overleaf where `height` finds no room above the signatures.
  bool need(double height) {
    if (y_ - height >= page_->bottom() + signature_room) return false;
    new_page();
    return true;
  }

  double width() const { return page_->right() - page_->left(); }

  bool thins_board() const {
    return std::any_of(feet_.begin(), feet_.end(),
                       [](const FootWork& foot) { return foot.solution->thinned.has_value(); });
  }
  bool cuts_skew() const {
    return std::any_of(feet_.begin(), feet_.end(), [](const FootWork& foot) {
      const auto& trim = foot.solution->trim;
      return trim && (is_skew(trim->final_cut) || is_skew(trim->stop) ||
                      (trim->first_cut && is_skew(*trim->first_cut)));
    });
  }
  bool cuts_board() const {
    return std::any_of(feet_.begin(), feet_.end(),
                       [](const FootWork& foot) { return foot.solution->trim.has_value(); });
  }

  // The part to be read first

  void paragraph(std::string words, double size, Weight weight = Weight::regular) {
    std::replace(words.begin(), words.end(), '\n', ' ');
    need(page_->height_of(words, width(), size, weight));
    y_ = page_->paragraph({page_->left(), y_}, width(), words, size, weight) - 0.6;
  }

  void cautions() {
    for (const CautionLine& caution : caution_lines(cautions_, context_.units))
      paragraph("Caution, said to the fitter: " + caution.words, 3,
                caution.grave ? Weight::bold : Weight::regular);
    if (!context_.order.decided_by.empty())
      paragraph("Who decides for this dancer: " + context_.order.decided_by + ".", 3, Weight::bold);
    if (cuts_board())
      paragraph(
          "A cut board cannot be put back. Only the first cut is ordered here. The final line "
          "is cut only where it is signed below, after the dancer has tried the shoe.",
          3, Weight::bold);
    else if (thins_board())
      paragraph("A thinned board cannot be put back. Take off a little at a time, and never more "
                "than is ordered here.",
                3, Weight::bold);
    y_ -= 1;
  }

  // The ordered work

  struct SaidRow {
    std::string name;
    std::string words;
  };

  /// The style, then every name once, in the order as written; where the feet differ, both say what
  /// they have.
  std::vector<SaidRow> stock_rows() const {
    std::vector<SaidRow> rows;
    if (feet_.empty()) return rows;
    const std::string& style = feet_.front().order->shoe.style;
    if (std::any_of(feet_.begin(), feet_.end(),
                    [&](const FootWork& foot) { return foot.order->shoe.style != style; })) {
      std::string words;
      for (const FootWork& foot : feet_)
        words += (words.empty() ? "" : "; ") + foot_name(foot.solution->side) + ": " +
                 (foot.order->shoe.style.empty() ? "not said" : foot.order->shoe.style);
      rows.push_back({"style", words});
    } else if (!style.empty()) {
      rows.push_back({"style", style});
    }
    const auto said_of = [](const FootWork& foot, const std::string& name) -> const StockRow* {
      const auto& stock = foot.order->shoe.stock;
      const auto found = std::find_if(stock.begin(), stock.end(),
                                      [&](const StockRow& row) { return row.name == name; });
      return found == stock.end() ? nullptr : &*found;
    };
    for (const FootWork& foot : feet_)
      for (const StockRow& row : foot.order->shoe.stock) {
        if (std::any_of(rows.begin(), rows.end(),
                        [&](const SaidRow& there) { return there.name == row.name; }))
          continue;
        std::string words;
        bool alike = true;
        for (const FootWork& other : feet_) {
          const StockRow* said = said_of(other, row.name);
          alike = alike && said && said->words == row.words;
          words += (words.empty() ? "" : "; ") + foot_name(other.solution->side) + ": " +
                   (said ? said->words : "not said");
        }
        rows.push_back({row.name, alike ? row.words : words});
      }
    return rows;
  }

  std::vector<SaidRow> ordered_rows() const {
    const Order& order = context_.order;
    std::vector<SaidRow> rows;
    if (order.quantity)
      rows.push_back({"quantity", std::to_string(*order.quantity) +
                                      (*order.quantity == 1 ? " pair" : " pairs")});
    if (!order.due.empty()) rows.push_back({"due", order.due});
    if (!order.deliver_to.empty()) rows.push_back({"deliver to", order.deliver_to});
    return rows;
  }

  /// One row: a name in a narrow column, its words beside it. Both may take several lines.
  void said_row(const SaidRow& row, double x, double name_room, double room, Weight weight) {
    const double top = y_;
    const double below_name =
        page_->paragraph({x, top}, name_room - 2, row.name, size_, Weight::bold);
    const double below = page_->paragraph({x + name_room, top}, room - name_room, row.words,
                                          weight == Weight::bold ? 3.4 : size_, weight);
    y_ = std::min(below_name, below);
  }
  double height_of_row(const SaidRow& row, double name_room, double room) const {
    return std::max(page_->height_of(row.name, name_room - 2, size_, Weight::bold),
                    page_->height_of(row.words, room - name_room, size_));
  }

  void ordered() {
    constexpr double name_room = 32;
    const std::vector<SaidRow> facts = ordered_rows();
    const std::vector<SaidRow> stock = stock_rows();
    if (facts.empty() && stock.empty()) return;
    for (const SaidRow& row : facts) {
      need(page_->height_of(row.words, width() - name_room, 3.4, Weight::bold));
      said_row(row, page_->left(), name_room, width(), Weight::bold);
    }
    if (!stock.empty()) stock_table(stock, name_room);
    y_ -= 1.6;
  }

  /// Writes the table in two columns, read downwards, if every row fits on one line of a column;
  /// else over the full width.
  void stock_table(const std::vector<SaidRow>& stock, double name_room) {
    constexpr double gutter = 6;
    const double half = (width() - gutter) / 2;
    const double line = size_ * leading;
    const bool in_columns =
        stock.size() > 3 && std::all_of(stock.begin(), stock.end(), [&](const SaidRow& row) {
          return height_of_row(row, name_room, half) < 1.5 * line;
        });
    need(4 + 2 * line);
    y_ -= 0.8;
    page_->text({page_->left(), y_ - 3}, "Stock shoe, in the words of whoever ordered", 3,
                Weight::bold);
    y_ -= 4.4;
    if (!in_columns) {
      for (const SaidRow& row : stock) {
        need(height_of_row(row, name_room, width()));
        said_row(row, page_->left(), name_room, width(), Weight::regular);
      }
      return;
    }
    const std::size_t lines = (stock.size() + 1) / 2;
    need(line * static_cast<double>(lines));
    const double top = y_;
    double lowest = y_;
    for (std::size_t i = 0; i < stock.size(); ++i) {
      if (i == lines) y_ = top;
      said_row(stock[i], page_->left() + (i < lines ? 0 : half + gutter), name_room, half,
               Weight::regular);
      lowest = std::min(lowest, y_);
    }
    y_ = lowest;
  }

  /// Its lines stay lines: whoever wrote them parted them on purpose.
  void note() {
    const std::string& note = context_.order.note;
    if (note.empty()) return;
    std::string words = "Note: ";
    for (std::size_t at = 0; at <= note.size();) {
      const std::size_t end = std::min(note.find('\n', at), note.size());
      words += note.substr(at, end - at);
      if (words.find_first_not_of(' ') != std::string::npos) paragraph(std::move(words), 3);
      words.clear();
      at = end + 1;
    }
    y_ -= 1;
  }

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
    need(drawing_height + 12);
    page_->text({page_->right(), y_ - 2.5},
                context_.units == Units::inch ? "drawings not to scale, mm (and inches)"
                                              : "drawings not to scale, mm",
                small_letters, Weight::regular, Align::right);
    double x = page_->left() + 12;
    for (const FootWork& foot : feet_)
      if (has_board(foot)) x = board(foot, x);
    if (side)
      draw_side(side->foot, side->side,
                boards ? std::max(x, page_->left() + 84) : page_->left() + 4);
    y_ -= drawing_height + 4;
    y_ = page_->paragraph({page_->left(), y_}, page_->right() - page_->left(),
                          drawing_words(boards, side), 2.6) -
         2;
  }

  std::string drawing_words(bool boards, const std::optional<DrawnSide>& side) const {
    const double tolerance = -cut_off_tolerance(context_.order.tolerances).minus;
    const bool cut = cuts_board();
    std::string words;
    if (boards) words = "Boards are seen from the foot side, measured from the heel end. ";
    if (cut)
      words += "The heavy line across a board is the first cut, the lighter one the final cut. " +
               std::string(cuts_skew() ? "The number of a skew line is that of its centre; the "
                                         "rows below have both edges. "
                                       : "") +
               "Cut nothing beyond the limit in the row STOP. ";
    if (thins_board()) words += "The board is thinned between the two fine broken lines. ";
    if (side) words += side_line_words(*side->foot.order->alterations.sides);
    if (cut || side)
      words += "+0 \u2212" + short_figure(tolerance) + ": up to " + short_figure(tolerance) +
               " less, never more.";
    return words;
  }

  std::string side_line_words(const SideWish& wish) const {
    const std::string line = "The thick line on the side is the new top line: ";
    switch (wish.edge) {
    case SideEdge::bound:
      return line + "cut along it. ";
    case SideEdge::turned:
      return line + "cut " + short_length_text(wish.turn, context_.units) +
             " above it and turn in. ";
    case SideEdge::folded:
      return line + "fold in along it, do not cut. ";
    }
    return {};
  }

  /// The place and scale of a board's drawing: upright, heel end down, foot side up.
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
    if (foot.trim)
      known = std::max({known, (foot.trim->final_cut.centre + ahead).mm(),
                        (foot.trim->stop.medial + 3).mm(), (foot.trim->stop.lateral + 3).mm()});
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

  /// Draws the board from x on. Returns the x after it, mm.
  double board(const FootWork& foot, double x) {
    const FootSolution& solved = *foot.solution;
    const BoardOutline& outline = solved.outline;
    const SmallBoard small = small_board(solved, x);
    const Point& heel = small.place.origin;
    page_->stroke(LineKind::edge, placed(small.whole, small.place), outline.closed());
    if (solved.trim) board_lines(small);
    if (solved.thinned)
      for (const double edge : {solved.thinned->from, solved.thinned->to})
        fine_broken(small.place({edge, outline.edge_y(Edge::medial, edge)}),
                    small.place({edge, outline.edge_y(Edge::lateral, edge)}));
    page_->text({heel.x, heel.y - 4}, "heel end", small_letters, Weight::regular, Align::centre);
    page_->text({heel.x, small.y(small.front) + 2}, foot_capitals(solved.side) + " board", 3,
                Weight::bold, Align::centre);
    board_dimensions(small);
    return small.right() + 21.5;
  }

  /// A dash at either end, so that the line reaches both edges: on a small board the dashes of the
  /// template's line would leave half of it out, and its width would run into a cut beside it.
  void fine_broken(const Point& from, const Point& to) {
    constexpr double dash = 1.1;
    constexpr double gap = 0.6;
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    const double count = std::max(2.0, std::round((length + gap) / (dash + gap)));
    const double each = (length - (count - 1) * gap) / count;
    const auto at = [&](double along) {
      const double part = along / length;
      return Point{from.x + part * (to.x - from.x), from.y + part * (to.y - from.y)};
    };
    for (double begin = 0; begin < length; begin += each + gap)
      page_->stroke(LineKind::leader, {at(begin), at(std::min(begin + each, length))});
  }

  /// First cut, final cut and stop line, each named beside the board.
  void board_lines(const SmallBoard& small) {
    const SolvedTrim& trim = *small.foot.trim;
    struct Named {
      LineKind kind;
      const CutLine& line;
      const char* name;
      Weight weight;
    };
    std::vector<Named> lines;
    if (trim.first_cut)
      lines.push_back({LineKind::first_cut, *trim.first_cut, "first ", Weight::bold});
    lines.push_back({LineKind::final_cut, trim.final_cut, trim.first_cut ? "final " : "file to ",
                     Weight::regular});
    lines.push_back({LineKind::stop, trim.stop, "stop ", Weight::regular});
    const bool in_inches = context_.units == Units::inch;
    const double apart = in_inches ? 6.2 : 3.3;
    double free = small.y(0);
    for (const Named& one : lines) {
      const Point medial = small.place(one.line.medial_end);
      const Point lateral = small.place(one.line.lateral_end);
      page_->stroke(one.kind, {medial, lateral});
      // The number of a skew line is that of its centre: the pointer begins there.
      const Point& right_end = medial.x > lateral.x ? medial : lateral;
      const Point end = is_skew(one.line) ? small.place({one.line.centre, 0}) : right_end;
      const double y = std::max(end.y, free);
      page_->stroke(LineKind::leader, {{end.x + 0.6, end.y}, {small.right() + 0.6, y}});
      page_->text({small.right() + 1.4, y - 0.9},
                  one.name + ruler_text(one.line.centre, Rounding::down), dimension_size,
                  one.weight);
      if (in_inches)
        page_->text({small.right() + 1.4, y - 0.9 - below_number},
                    inches(one.line.centre, Rounding::down) + " in", small_letters);
      free = y + apart;
    }
  }

  void board_dimensions(const SmallBoard& small) {
    const FootSolution& foot = small.foot;
    const double right = small.right();
    // Upright words are short enough for a short stretch only without inches.
    const auto along = [&](double from, double to) {
      const double middle = small.place.origin.y + small.scale * (from + to) / 2;
      const bool in_inches = context_.units == Units::inch;
      const Point words_at{right + (in_inches ? 1.4 : 3.2), middle + (in_inches ? 0.4 : 0)};
      dimension(*page_, {right, small.y(from)}, {right, small.y(to)}, short_figure(to - from),
                words_at, in_inches ? 0 : 90, in_inches ? Align::left : Align::centre);
      if (in_inches)
        page_->text({words_at.x, words_at.y - below_number}, inches(to - from) + " in",
                    small_letters);
    };
    if (!foot.trim) {
      const SolvedThinning& thinned = *foot.thinned;
      along(0, thinned.from);
      along(thinned.from, thinned.to);
    }
    if (foot.outline.closed())
      dimension(*page_, {small.left(), small.y(0)}, {small.left(), small.y(small.front)},
                short_length_text(*foot.outline.length(), context_.units),
                {small.left() - 1.2, small.place.origin.y + small.scale * small.front / 2}, 90);
  }

  /// The place and scale of a side's drawing: chord level, outside towards the reader.
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
    double highest = 0;
    for (double t = 0; t <= side.wing; t += 1)
      highest = std::max(highest, side.stock(t));
    constexpr double room_up = 24; // clear of the name above
    const double scale =
        std::min({room / std::hypot(wing.x, wing.y) * 0.9, 0.62, room_up / highest});
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
    const double room = page_->right() - x - 4;
    const bool toes_right = foot.is_left() == (side.edge == Edge::medial);
    const Point centre{x + room / 2, y_ - drawing_height + 17};
    const SmallSide small = small_side(side, toes_right, centre, room);
    side_outline(small);
    height_dimension(small);
    lowered_words(small);
    const double below = low_point_dimension(small);
    page_->text({centre.x, y_ - 8},
                foot_capitals(foot.solution->side) + " shoe, " + edge_words(side.edge) +
                    ", outside",
                3, Weight::bold, Align::centre);
    page_->text({centre.x, below - 8.6},
                "back seam " + std::string(toes_right ? "left" : "right") +
                    "; other sides as in the table",
                small_letters, Weight::regular, Align::centre);
  }

  void side_outline(const SmallSide& small) {
    const SolvedSide& side = small.side;
    const SideWall::HeightLine base{[](double) { return 0.0; }, [](double) { return 0.0; }};
    page_->stroke(LineKind::stock_top, small.line(side.stock_line(), 0, side.wing));
    page_->stroke(LineKind::edge, small.line(base, 0, side.wing));
    for (const double end : {0.0, side.wing})
      page_->stroke(LineKind::edge, {small.at(end, 0), small.at(end, side.stock(end))});
    const double from = side.profile.back > 0 ? 0 : side.profile.rear_from;
    page_->stroke(LineKind::final_cut,
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
    const bool in_inches = context_.units == Units::inch;
    const std::string height_inches = inches(side.low, Rounding::up) + " in";
    if (in_inches) {
      // Inches are wider than the room that is left there on a short side.
      const double wide = page_->width_of(height_inches, small_letters, Weight::regular) + 3;
      // To the end of the side in that direction, which may lean.
      const auto room = [&](double to) {
        const double from = to > 0 ? std::max(sole.x, low.x) : std::min(sole.x, low.x);
        double least = std::numeric_limits<double>::infinity();
        for (const double end : {0.0, side.wing}) {
          const Point foot = small.at(end, 0);
          const Point top = small.at(end, side.stock(end));
          if ((foot.x - sole.x) * to > 0)
            least = std::min({least, (foot.x - from) * to, (top.x - from) * to});
        }
        return least;
      };
      if (room(words_to) < wide && room(-words_to) >= wide) words_to = -words_to;
    }
    const Align align = words_to > 0 ? Align::left : Align::right;
    const double from_x = std::max(words_to * sole.x, words_to * low.x) * words_to;
    const double wide =
        std::max(page_->width_of(figure(side.low), dimension_size, Weight::bold),
                 in_inches ? page_->width_of(height_inches, small_letters, Weight::regular) : 0.0);
    const Point words_at{from_x + 1.6 * words_to,
                         clear_base(small, from_x, from_x + (wide + 2.4) * words_to,
                                    (sole.y + low.y) / 2 - 1 + (in_inches ? below_number / 2 : 0),
                                    in_inches ? below_number : 0.0)};
    dimension(*page_, {sole.x, sole.y + 0.6}, {low.x, low.y - 1}, figure(side.low), words_at, 0,
              align);
    if (in_inches)
      page_->text({words_at.x, words_at.y - below_number}, height_inches, small_letters,
                  Weight::regular, align);
  }

  /// The base of words between two places across that is nearest to `wanted` and clear of sole
  /// edge, finished line and stock line; where nothing is quite clear, the one that is most. `more`
  /// is what stands below the base.
  static double clear_base(const SmallSide& small, double from_x, double to_x, double wanted,
                           double more) {
    constexpr double air = 0.7;
    constexpr double step = 0.1;
    struct Span {
      double least = 1e9;
      double most = -1e9;
    };
    const SolvedSide& side = small.side;
    std::array<Span, 3> lines; // sole, finished, stock
    for (double t = 0; t <= side.wing; t += 0.5) {
      const std::array<double, 3> heights{0, side.finished(t), side.stock(t)};
      for (std::size_t i = 0; i < lines.size(); ++i) {
        const Point p = small.at(t, heights[i]);
        if (p.x < std::min(from_x, to_x) - 0.5 || p.x > std::max(from_x, to_x) + 0.5) continue;
        lines[i] = {std::min(lines[i].least, p.y), std::max(lines[i].most, p.y)};
      }
    }
    double best = wanted;
    double best_clear = -1e9;
    for (double off = 0; off < 20; off += step)
      for (const double base : {wanted - off, wanted + off}) {
        double clear = air;
        for (const Span& line : lines)
          clear = std::min(clear, std::max(base - more - line.most,
                                           line.least - base - dimension_size * cap_height));
        // Between the sole and the stock line only.
        if (base < lines[0].most || base > lines[2].least) continue;
        if (clear > best_clear + 1e-9) {
          best_clear = clear;
          best = base;
        }
      }
    return best;
  }

  /// Over the deepest stretch, clear of the stock line.
  void lowered_words(const SmallSide& small) {
    const SolvedSide& side = small.side;
    const double deep = (side.profile.rear_to + side.profile.front_from) / 2;
    const bool back = side.profile.depth == 0;
    const double by = back ? side.profile.back : side.profile.depth;
    const std::string words = (back ? "back lowered by " : "lowered by ") +
                              depth_text(by, context_.units) + " " +
                              tolerance_text(cut_off_tolerance(context_.order.tolerances));
    const double x = small.at(deep, side.stock(deep)).x;
    const double reach = page_->width_of(words, dimension_size, Weight::bold) / 2 + 1;
    double above = 0; // of the stock line under the words
    for (double t = 0; t <= side.wing; t += 1)
      if (const Point p = small.at(t, side.stock(t)); std::abs(p.x - x) <= reach)
        above = std::max(above, p.y);
    page_->text({x, above + 1.8}, words, dimension_size, Weight::bold, Align::centre);
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
    const std::string words =
        at_seam ? "lowest at the back seam" : whole_length_text(side.low_at, context_.units);
    const double y = below - 3.2;
    if (at_seam) // from the seam towards the toes, clear of the boards
      page_->text({seam, y}, words, dimension_size, Weight::bold,
                  small.at(side.wing, 0).x > seam ? Align::left : Align::right);
    else
      dimension(*page_, {seam, below}, {low, below}, words, {(seam + low) / 2, y});
    return below;
  }

  // Lines to cut

  double column(std::size_t foot) const {
    return page_->left() + name_column + cell_width() * static_cast<double>(foot);
  }
  double cell_width() const { return (width() - name_column) / 2; }

  void rule() { page_->stroke(LineKind::frame, {{page_->left(), y_}, {page_->right(), y_}}); }

  void column_heads() {
    need(30);
    for (std::size_t i = 0; i < feet_.size(); ++i)
      page_->text({column(i), y_ - 3}, foot_capitals(feet_[i].solution->side), 3.6, Weight::bold);
    page_->text({page_->left(), y_ - 3}, context_.units == Units::inch ? "mm (and inches)" : "mm",
                small_letters);
    y_ -= 5;
    rule();
    y_ -= 2.6;
  }

  using Cell = std::function<std::string(const FootWork&)>;

  /// A row of words with a name before them, where a foot has any.
  void words_row(const std::string& name, const Cell& cell, double size, Weight weight) {
    std::vector<std::vector<std::string>> cells;
    std::size_t lines = 0;
    for (const FootWork& foot : feet_) {
      cells.push_back(context_.typeface.wrap(cell(foot), cell_width() - 3, size, weight));
      lines = std::max(lines, cells.back().size());
    }
    if (lines == 0) return;
    const double height = size * leading * static_cast<double>(lines) + 0.9;
    if (need(height)) column_heads();
    const double baseline = y_ - size * cap_height;
    if (!name.empty()) page_->text({page_->left(), baseline}, name, size, weight);
    for (std::size_t i = 0; i < cells.size(); ++i)
      for (std::size_t k = 0; k < cells[i].size(); ++k)
        page_->text({column(i), baseline - size * leading * static_cast<double>(k)}, cells[i][k],
                    size, weight);
    y_ -= height;
  }

  /// Writes a row with cells only for feet whose board is cut.
  void trim_row(const std::string& name, double size, Weight weight,
                const std::function<std::string(const FootWork&, const SolvedTrim&)>& cell) {
    words_row(
        name,
        [&](const FootWork& foot) {
          return foot.solution->trim ? cell(foot, *foot.solution->trim) : std::string();
        },
        size, weight);
  }

  /// Ruler numbers of one line in large letters; of a skew line all three, as the edges lie.
  /// `beside` goes to the right of a single number, and below three.
  void figures_row(const std::string& name, double size, Weight weight,
                   const std::function<const CutLine*(const SolvedTrim&)>& pick,
                   const std::function<std::string(const SolvedTrim&)>& beside) {
    constexpr double inch_line = 3.6;
    const auto line_of = [&](const FootWork& foot) {
      return foot.solution->trim ? pick(*foot.solution->trim) : nullptr;
    };
    const bool skew = std::any_of(feet_.begin(), feet_.end(), [&](const FootWork& foot) {
      const CutLine* line = line_of(foot);
      return line && is_skew(*line);
    });
    const double head = skew ? 4 : 0.6;
    const double height = head + size * leading + (context_.units == Units::inch ? inch_line : 0);
    if (need(height)) column_heads();
    const double baseline = y_ - head - size * cap_height;
    page_->text({page_->left(), baseline}, name, 3.2, weight);
    const auto number = [&](double x, double mm) {
      page_->text({x, baseline}, ruler_text(mm, Rounding::down), size, weight);
      if (context_.units == Units::inch)
        page_->text({x, baseline - inch_line}, inches(mm, Rounding::down) + " in", small_letters);
    };
    for (std::size_t i = 0; i < feet_.size(); ++i) {
      const FootSolution& foot = *feet_[i].solution;
      if (!foot.trim) {
        page_->text({column(i), baseline}, foot.thinned ? "thinned, not cut" : "stays as it is",
                    3.2);
        continue;
      }
      const CutLine* line = line_of(feet_[i]);
      if (!line) {
        page_->text({column(i), baseline}, "none: file it back a little at a time", 3.2, weight);
      } else if (!is_skew(*line)) {
        number(column(i), line->centre);
        page_->text({column(i) + 16, baseline}, beside(*foot.trim) + "straight across", size_);
      } else {
        const double step = (cell_width() - 3) / 3;
        const Edge edges[]{left_edge(foot.side), right_edge(foot.side)};
        const double at[]{edges[0] == Edge::medial ? line->medial : line->lateral, line->centre,
                          edges[1] == Edge::medial ? line->medial : line->lateral};
        const std::string heads[]{edge_words(edges[0]), "centre", edge_words(edges[1])};
        for (std::size_t k = 0; k < 3; ++k) {
          const double x = column(i) + step * static_cast<double>(k);
          page_->text({x, y_ - small_letters}, heads[k], small_letters);
          number(x, at[k]);
        }
      }
    }
    y_ -= height;
    if (skew)
      trim_row("", size_, Weight::regular, [&](const FootWork& foot, const SolvedTrim& trim) {
        const CutLine* line = line_of(foot);
        return line && is_skew(*line) ? beside(trim) + "at the centre" : std::string();
      });
  }

  void lines_to_cut() {
    const Tolerance tolerance = cut_off_tolerance(context_.order.tolerances);
    figures_row(
        "1 FIRST CUT OFF", 5, Weight::bold,
        [](const SolvedTrim& trim) { return trim.first_cut ? &*trim.first_cut : nullptr; },
        [&](const SolvedTrim&) { return tolerance_text(tolerance) + ", "; });
    trim_row("", size_, Weight::bold, [this](const FootWork& foot, const SolvedTrim& trim) {
      const std::string unmeasured = unmeasured_words(*foot.solution);
      return "right place " + right_place_words(trim, context_.units) +
             (unmeasured.empty() ? "" : "; not measured: " + unmeasured);
    });
    trim_row("  layers cut", size_, Weight::bold,
             [](const FootWork& foot, const SolvedTrim&) { return layer_words(foot); });
    figures_row(
        "2 final cut", 4.2, Weight::regular, [](const SolvedTrim& trim) { return &trim.final_cut; },
        [&](const SolvedTrim&) { return tolerance_text(tolerance) + ", "; });
    // Beside the figure a ± would be taken for what the knife may miss it by.
    trim_row("  its place", size_, Weight::regular,
             [this](const FootWork&, const SolvedTrim& trim) {
               return "known to " + final_doubt_words(trim, context_.units) +
                      " from the readings: no tolerance for the knife";
             });
    // A line that is not at the heel front has a doubt of its own.
    trim_row("  line at the heel front", size_, Weight::regular,
             [this](const FootWork&, const SolvedTrim& trim) {
               if (trim.learned)
                 return "by the readings alone: " + readings_alone_words(trim, context_.units);
               const std::string doubt =
                   doubt_text(trim.doubt.heel_front_line.expanded(), context_.units);
               return doubt == final_doubt_words(trim, context_.units) ? std::string()
                                                                       : "known to " + doubt;
             });
    room_to_sign();
    trim_row("STOP", size_, Weight::bold, [&](const FootWork&, const SolvedTrim& trim) {
      return stop_words(trim, context_.units);
    });
  }

  void room_to_sign() {
    constexpr double room = 10; // to write by hand
    constexpr double below = 5.4;
    if (need(room + below)) column_heads();
    page_->text({page_->left(), y_ - room}, "  final only when signed here", small_letters,
                Weight::bold);
    for (std::size_t i = 0; i < feet_.size(); ++i) {
      if (!feet_[i].solution->trim) continue;
      const double x = column(i);
      page_->stroke(LineKind::frame, {{x, y_ - room}, {x + cell_width() - 5, y_ - room}});
      const bool several = context_.order.quantity.value_or(1) > 1;
      page_->text({x, y_ - room - 3.2},
                  std::string("signature, date") + (several ? ", which pairs" : "") +
                      ": the final line may be cut",
                  small_letters);
    }
    y_ -= room + below;
  }

  // Table

  void row(const std::string& name, const Cell& cell, Weight weight = Weight::regular) {
    bool said = false;
    for (const FootWork& foot : feet_)
      said = said || !cell(foot).empty();
    if (said) rows_.push_back({name, cell, weight});
  }

  void collect() {
    const auto trim_only = [&](const char* name,
                               const std::function<std::string(const FootWork&)>& cell) {
      row(name, [cell](const FootWork& foot) {
        return foot.solution->trim ? cell(foot) : std::string();
      });
    };
    trim_only("  keep", [this](const FootWork& foot) { return keep_words(foot, context_); });
    trim_only("  witness line", [this](const FootWork& foot) {
      return witness_words(*foot.solution->trim, context_.units);
    });
    row("board", [this](const FootWork& foot) {
      if (!has_board(foot)) return std::string();
      const auto& inset = foot.order->shoe.board.inset;
      return board_words(*foot.order, context_.units) +
             (inset ? "; inset " + short_length_text(inset->value(), context_.units) +
                          ", shoe's back to heel end"
                    : "");
    });
    row("  end", [&](const FootWork& foot) { return board_end_words(foot, context_); });
    const auto add = [&](const char* name,
                         std::string (*words)(const FootWork&, const SheetContext&)) {
      row(name, [this, words](const FootWork& foot) { return words(foot, context_); });
    };
    add("board thinned", thinned_words);
    add("filler", filler_words);
    add("sides lowered by", side_depth_words);
    add("  from the back seam", side_place_words);
    add("  lowest height left", side_height_words);
    add("  edge", side_edge_words);
    add("  casing strip", casing_words);
    add("  drawstring", drawstring_words);
    add("liner", liner_words);
    add("darning", darning_words);
    add("ribbon", ribbon_words);
    add("elastic across", elastic_words);
    add("heel loop", heel_loop_words);
    add("tuck", tuck_words);
  }

  void table() {
    for (const Row& one : rows_)
      words_row(
          one.name,
          [&](const FootWork& foot) {
            std::string words = one.cell(foot);
            return words.empty() ? std::string("\u2013") : words;
          },
          size_, one.weight);
    rule();
    y_ -= 5.4;
  }

  /// Materials, and beside them what is an estimate.
  void lists() {
    std::vector<std::string> things = material_lines(feet_, context_.units);
    const auto guesses = estimate_lines(feet_, false, context_.units);
    const double half = page_->left() + width() * 0.45;
    std::vector<std::string> more; // materials in two columns where there is nothing beside them
    if (guesses.empty()) {
      const auto middle = things.begin() + static_cast<std::ptrdiff_t>((things.size() + 1) / 2);
      more.assign(middle, things.end());
      things.erase(middle, things.end());
    }
    const std::size_t longest = std::max(things.size(), guesses.size());
    if (longest == 0) return;
    need(3 + size_ * leading * static_cast<double>(longest));
    list("Materials, nothing added for waste", things, page_->left(), half - page_->left() - 4);
    list("", more, half, page_->right() - half);
    list("Estimated, not measured", guesses, things.empty() ? page_->left() : half,
         page_->right() - half);
  }

  void list(const char* title, const std::vector<std::string>& lines, double x, double room) {
    if (lines.empty()) return;
    if (*title) page_->text({x, y_}, title, 3, Weight::bold);
    double y = y_ - 1.6;
    for (const std::string& line : lines) {
      y -= size_ * leading;
      page_->text({x, y}, context_.typeface.shorten(line, room, size_), size_);
    }
  }

  struct Row {
    std::string name;
    Cell cell;
    Weight weight = Weight::regular;
  };

  const SheetContext& context_;
  const std::vector<FootWork>& feet_;
  const Findings& cautions_;
  std::size_t number_; ///< of the first page
  double size_;        ///< of the letters in rows and lists
  std::optional<SheetPage> page_;
  std::vector<Page> pages_;
  std::vector<Row> rows_;
  double y_ = 0;
};

} // namespace

std::vector<Page> maker_sheet(const SheetContext& context, const std::vector<FootWork>& feet,
                              const Findings& cautions, std::size_t number) {
  constexpr double sizes[]{3, 2.75, 2.5}; // none below 7 points
  for (const double size : sizes)
    if (auto pages = MakerLayout(context, feet, cautions, number, size).draw(); pages.size() == 1)
      return pages;
  return MakerLayout(context, feet, cautions, number, sizes[1]).draw();
}

} // namespace shankline
