#include "export/side_sheet.hpp"

#include "export/foot_words.hpp"
#include "export/free_space.hpp"
#include "export/level_strip.hpp"
#include "export/side_lines.hpp"
#include "export/tile_joining.hpp"
#include "geometry/degree.hpp"
#include "geometry/figure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

namespace shankline {
namespace {

constexpr double bar_column = 12; // along the right edge, for the upright bar

/// How the level strip lies on the page: turned by an angle, then moved.
struct Lie {
  Placement place;
  double angle = 0; ///< radians

  Lie(const Point& origin, double turn) : place(turned(origin, turn)), angle(turn) {}
  Text operator()(Text text) const {
    text.at = place(text.at);
    text.angle += angle / degree;
    return text;
  }
};

/// The words and figures of a side on one page, wherever there is room for them.
class SidePage {
public:
  SidePage(const SheetContext& context, FootSide foot, const SolvedSide& side,
           const FootOrder& order, std::size_t number, const Paper& paper, double widest,
           const std::string& tile)
      : context_(context), foot_(foot), side_(side), order_(order), wish_(*order.alterations.sides),
        page_(context, number, "Side, " + side_name(foot, side) + tile, paper, widest) {
    page_.label(std::string(side_.edge == Edge::medial ? "side medial " : "side lateral ") +
                foot_letter(foot_) + tile);
    top_ = page_.title_strip(foot_letter(foot_), "") - 4;
  }

  SheetPage& sheet() { return page_; }
  const SheetPage& sheet() const { return page_; }
  double top() const { return top_; } ///< below the title strip
  double room_right() const { return page_.right() - bar_column; }

  void put(const std::vector<Stroke>& lines, const Lie& lie) { page_.strokes(lines, lie.place); }
  void put(const std::vector<Text>& texts, const Lie& lie) {
    for (const Text& text : texts) {
      const Text put = lie(text);
      page_.text(put.at, put.words, put.size, put.weight, put.align, put.angle);
    }
  }

  static constexpr double table_head = 50;
  static constexpr double widest_column = 15;
  static constexpr double narrowest_column = 9.5; ///< of "41.0" in large type
  double table_width(double column) const {
    return table_head + column * static_cast<double>(side_.heights.size());
  }
  double table_height() const { return context_.units == Units::inch ? 26 : 22; }

  /// The same line for a ruler alone: the first line of words has its foot at y. Returns the y
  /// below.
  double table(double left, double y, double width) {
    const auto& marks = side_.heights;
    const bool in_inches = context_.units == Units::inch;
    const double column =
        std::min(widest_column, (width - table_head) /
                                    static_cast<double>(std::max<std::size_t>(marks.size(), 1)));
    const auto row = [&](const std::string& name, double size, Weight weight, const auto& cell) {
      page_.text({left, y}, name, 2.8, weight);
      for (std::size_t i = 0; i < marks.size(); ++i)
        page_.text({left + table_head + column * (static_cast<double>(i) + 0.5), y}, cell(marks[i]),
                   size, weight, Align::centre);
      y -= size + 1.9;
    };
    page_.text({left, y}, "With a ruler, up the wall", 3.3, Weight::bold);
    y -= 5;
    row("along the sole edge from the seam", 2.9, Weight::regular,
        [](const RulerHeight& mark) { return figure(mark.along, 0); });
    row("stock height", 2.9, Weight::regular,
        [](const RulerHeight& mark) { return figure(mark.stock); });
    y -= 0.6;
    row("new height " + tolerance_text(keep_tolerance(context_.order.tolerances)),
        std::min(3.8, column * 0.36), Weight::bold,
        [](const RulerHeight& mark) { return figure(mark.finished); });
    if (wish_.edge == SideEdge::turned)
      row("cut at (\u2013: no cut)", 2.9, Weight::regular, [this](const RulerHeight& mark) {
        return mark.finished + wish_.turn < mark.stock ? figure(mark.finished + wish_.turn)
                                                       : std::string("\u2013");
      });
    if (in_inches)
      row("in inches", std::min(2.2, column * 0.19), Weight::regular,
          [](const RulerHeight& mark) { return inches(mark.finished, Rounding::up); });
    return y;
  }

  /// What the lines are, and the steps. Returns the y below.
  double notes(double left, double top, double width) {
    double y = top - 3;
    for (const auto& [kind, words, weight] : key()) {
      page_.stroke(kind, {{left, y}, {left + 12, y}});
      page_.text({left + 14.6, y - 1}, context_.typeface.shorten(words, width - 15, 2.8, weight),
                 2.8, weight);
      y -= 4.6 * tight_;
    }
    y -= 0.6;
    for (const std::string& step : steps())
      y = page_.paragraph({left, y}, width, step, 2.5 * tight_) - 0.6;
    return page_.paragraph(
        {left, y - 0.6}, width,
        std::string(
            wish_.edge == SideEdge::folded ? "" : "Cloth that is cut away does not come back. ") +
            "Students: only with a teacher or fitter. All figures are estimates.",
        2.5 * tight_, Weight::bold);
  }

  /// For a page with little room below the side.
  void tighten_notes() { tight_ = 0.9; }

  /// How high they are at this width.
  double notes_height(double width) const {
    SidePage trial = *this;
    return -trial.notes(0, 0, width);
  }

  SideSheet finish(const Placement& place, std::vector<Stroke> lines, const Proof& proof,
                   std::optional<TilePlace> tile = {}) && {
    Template part{side_.edge == Edge::medial ? "side_medial" : "side_lateral",
                  foot_,
                  page_.number(),
                  page_.paper(),
                  place,
                  std::move(lines),
                  tile};
    return {std::move(page_).finish(), std::move(part), proof};
  }

private:
  struct KeyLine {
    LineKind kind;
    std::string words;
    Weight weight = Weight::regular;
  };

  std::vector<KeyLine> key() const {
    std::vector<KeyLine> lines;
    switch (wish_.edge) {
    case SideEdge::bound:
      lines = {{LineKind::final_cut, "cut here: " + lowered_words(), Weight::bold}};
      break;
    case SideEdge::turned:
      lines = {{LineKind::final_cut,
                "cut here, " + short_figure(wish_.turn) + " " +
                    tolerance_text(dimension_tolerance(context_.order.tolerances, wish_.turn)) +
                    " above the new top line, where the side is that much higher",
                Weight::bold},
               {LineKind::fold, "turn in here, the new top line: " + lowered_words()}};
      break;
    case SideEdge::folded:
      lines = {{LineKind::fold, "fold in here and stitch, do not cut: " + lowered_words(),
                Weight::bold}};
      break;
    }
    lines.push_back({LineKind::stock_top, "stock top line"});
    if (order_.shoe.sides && order_.shoe.sides->casing)
      lines.push_back({LineKind::stitch, "casing stitched here"});
    if (!side_.sewn.empty())
      lines.push_back({LineKind::sewn, std::string(line_style(LineKind::sewn).words)});
    return lines;
  }

  std::string lowered_words() const {
    const std::string tolerance = tolerance_text(cut_off_tolerance(context_.order.tolerances));
    const auto& profile = side_.profile;
    return (profile.depth > 0 ? "side lowered by " + figure(profile.depth) + " " + tolerance
                              : std::string("side as it came")) +
           (profile.back > 0 ? ", back by " + figure(profile.back) + " " + tolerance
                             : std::string(", back stays"));
  }

  std::array<std::string, 3> steps() const {
    const bool tuck = order_.alterations.tuck.has_value();
    const std::string refit = tuck ? "Then the tuck, then refit casing and drawstring."
                                   : "Then refit casing and drawstring.";
    const std::string limit = "The cut may fall short of the line by up to " +
                              short_figure(context_.order.tolerances.cut) + ", never past it. ";
    return {
        std::string("Pull the drawstring clear first. Cut the paper out along the sole edge and "
                    "the back seam.") +
            (tuck ? " Before the back seam is tucked." : ""),
        "Foot in the shoe: lay it on outside face up, back seam on back seam, sole edge on the "
        "sole's edge. Mark the new line on the satin, or set it out with the heights above.",
        wish_.edge == SideEdge::folded
            ? "Fold in, baste and try it at the barre before it is stitched. The fold may fall "
              "short of the line by up to " +
                  short_figure(context_.order.tolerances.cut) + ", never past it. " + refit
            : "Baste the new line and try it at the barre before anything is cut. " +
                  (wish_.edge == SideEdge::turned
                       ? "Cut above it by the allowance, never on it, and turn in. "
                       : std::string()) +
                  limit + refit};
  }

  const SheetContext& context_;
  FootSide foot_;
  const SolvedSide& side_;
  const FootOrder& order_;
  const SideWish& wish_;
  SheetPage page_;
  double top_ = 0;
  double tight_ = 1; ///< of the notes' size and pitch
};

/// One side on one page: level if that fits, else leaning, else on several pages.
class SideLayout {
public:
  SideLayout(const SheetContext& context, FootSide foot, const SolvedSide& side,
             const FootOrder& order, std::size_t number)
      : context_(context), foot_(foot), side_(side), order_(order), number_(number),
        strip_(context, foot, side, order) {}

  std::vector<SideSheet> draw() const {
    std::vector<SideSheet> sheets;
    if (auto level = level_page()) {
      sheets.push_back(std::move(*level));
    } else if (auto leaning = leaning_page()) {
      sheets.push_back(std::move(*leaning));
    } else {
      sheets = tiles();
    }
    return sheets;
  }

private:
  static constexpr double least_width = 279; ///< what the furniture below a level strip wants
  static constexpr double around = 2 * SheetPage::margin + bar_column + 8; // words at either end
  static constexpr double widest_notes = 160; ///< longer lines are hard to follow
  static constexpr double plain_height = 210;
  /// The highest level strip on a page of that height: title strip, names, table, card and their
  /// air take the rest.
  double plain_strip() const { return context_.units == Units::inch ? 64 : 68; }

  SidePage page(const Paper& paper, double widest, const std::string& tile = {},
                std::size_t further = 0) const {
    return {context_, foot_, side_, order_, number_ + further, paper, widest, tile};
  }

  /// The page for a level strip, and how much of its width is used.
  std::pair<Paper, double> level_paper() const {
    if (!context_.paper.roll) {
      const Paper lying = landscape(context_.paper);
      return {lying, lying.width};
    }
    // Across the roll where it is wide enough, else along it.
    const double wanted = std::max(least_width, strip_.width() + around);
    const double high = plain_height + std::max(0.0, strip_.height() - plain_strip());
    const Paper& roll = context_.paper;
    const Paper paper = wanted <= roll.width
                            ? Paper{roll.name, roll.width, high}
                            : Paper{roll.name, std::min(wanted, longest_page), roll.width};
    return {paper, wanted};
  }

  std::optional<SideSheet> level_page() const {
    const auto [paper, used] = level_paper();
    if (strip_.width() > used - around ||
        strip_.height() > plain_strip() + paper.height - plain_height)
      return std::nullopt;
    SidePage page = this->page(paper, used - 2 * SheetPage::margin);
    const Box& box = strip_.box();
    const double middle = (page.sheet().left() + page.room_right()) / 2;
    const Lie lie({middle - (box.left + box.right) / 2, page.top() - 8 - box.top}, 0);
    draw_strip(page, lie);
    const double left = page.sheet().left();
    const double below =
        page.table(left, lie.place.origin.y + box.bottom - 16, page.room_right() - left);
    const Proof proof = foot_of_page(page, below);
    return std::move(page).finish(placed(strip_.placement(), lie.place), strip_.part_lines(),
                                  proof);
  }

  /// Where the card and the notes lie, and where the bar across begins.
  struct Foot {
    Point card;
    Point across;
    double notes_left;
    double notes_top;
    double notes_width;
    bool bar_below_notes; ///< beside the card, where the page is wide enough; else above it
  };
  static Foot foot_at(const SidePage& page, double below) {
    const SheetPage& sheet = page.sheet();
    const Point card{sheet.left(), sheet.bottom()};
    const double beside = card.x + card_width + 7;
    const bool wide = beside + bar_length + bar_column <= sheet.right();
    return {card,
            wide ? Point{beside, sheet.bottom() + 3} : Point{card.x, card.y + card_height + 5},
            beside,
            std::min(below, card.y + card_height + 4),
            std::min(widest_notes, page.room_right() - 6 - beside),
            wide};
  }

  /// Whether the notes end above the bar and its name: under a high strip they may not.
  static bool clears_bar(const SidePage& page, double below) {
    constexpr double bar_and_name = 5;
    const Foot foot = foot_at(page, below);
    return !foot.bar_below_notes ||
           foot.notes_top - page.notes_height(foot.notes_width) >= foot.across.y + bar_and_name;
  }

  /// Bank card, bars and what the lines are, along the foot of the page.
  Proof foot_of_page(SidePage& page, double below) const {
    const SheetPage& sheet = page.sheet();
    const Foot foot = foot_at(page, below);
    if (!clears_bar(page, below)) page.tighten_notes();
    const Proof proof =
        page.sheet().proof(foot.across, {sheet.right() - 2, sheet.bottom() + 2}, foot.card);
    page.notes(foot.notes_left, foot.notes_top, foot.notes_width);
    return proof;
  }

  void draw_strip(SidePage& page, const Lie& lie) const {
    page.put(strip_.lines(), lie);
    page.put(strip_.leaders(), lie);
    page.put(strip_.texts(), lie);
    page.put(strip_.label(number_), lie);
  }

  std::optional<SideSheet> leaning_page() const {
    if (context_.paper.roll) return std::nullopt;
    for (const Paper& paper : {landscape(context_.paper), context_.paper})
      for (int degrees = 4; degrees <= 86; degrees += 2)
        for (const double lean : {degrees * degree, -degrees * degree})
          if (auto sheet = leaning_page(paper, lean)) return sheet;
    return std::nullopt;
  }

  std::optional<SideSheet> leaning_page(const Paper& paper, double lean) const {
    const Box box = bounds(strip_.lines(), turned({0, 0}, lean)); // of the strip as it leans
    const Box room{SheetPage::margin, SheetPage::margin, paper.width - SheetPage::margin,
                   paper.height - SheetPage::margin - title_room};
    const double spare_x = room.right - room.left - (box.right - box.left);
    const double spare_y = room.top - room.bottom - (box.top - box.bottom);
    if (spare_x < 0 || spare_y < 0) return std::nullopt;
    const Lie lie({room.left + spare_x / 2 - box.left, room.bottom + spare_y / 2 - box.bottom},
                  lean);
    FreeSpace space(room);
    if (!take_strip(space, lie, room)) return std::nullopt;
    return furnished(paper, space, lie);
  }

  /// Marks the strip and its words as taken; false when a word would leave the page.
  bool take_strip(FreeSpace& space, const Lie& lie, const Box& room) const {
    for (const std::vector<Text>& texts : {strip_.texts(), strip_.label(number_)})
      for (const Text& text : texts) {
        const Box box = text_box(lie(text), context_.typeface);
        if (!holds(room, box)) return false;
        space.take(with_air(box, 1));
      }
    // A net over the strip, finer than any block is high.
    constexpr int levels = 9;
    constexpr double pitch = 4;
    for (int k = 0; k <= levels; ++k) {
      Polyline line;
      for (double t = 0; t <= side_.wing; t += pitch)
        line.push_back(lie.place(strip_.at(t, side_.stock(t) * k / levels)));
      line.push_back(lie.place(strip_.at(side_.wing, side_.stock(side_.wing) * k / levels)));
      space.take(line);
    }
    return true;
  }

  /// Puts table, notes, bars and card where the strip leaves room; nothing if it leaves none.
  std::optional<SideSheet> furnished(const Paper& paper, FreeSpace& space, const Lie& lie) const {
    using From = FreeSpace::From;
    constexpr double air = 2.5;
    SidePage page = this->page(paper, paper.width - 2 * SheetPage::margin);
    const auto up = space.find(7 + 2 * air, bar_length + 2 * air, From::bottom);
    const auto card = space.find(card_width + air, card_height + air, From::bottom);
    const auto across = space.find(bar_length + 2 * air, 7 + air, From::bottom);
    if (!up || !card || !across) return std::nullopt;
    std::optional<Box> table;
    double table_width = 0;
    for (const double column : {12.0, SidePage::narrowest_column}) {
      table_width = page.table_width(column);
      table = space.find(table_width, page.table_height() + air, From::top);
      if (table) break;
    }
    if (!table) return std::nullopt;
    for (const double width : {130.0, 110.0, 90.0, 75.0}) {
      const auto notes = space.find(width, page.notes_height(width) + 3, From::top);
      if (!notes) continue;
      draw_strip(page, lie);
      page.table(table->left, table->top - 3.5, table_width);
      page.notes(notes->left, notes->top, width);
      const Proof proof = page.sheet().proof({across->left + air, across->bottom + 2.4},
                                             {up->right - 2 - air, up->bottom + air},
                                             {card->left + air / 2, card->bottom});
      return std::move(page).finish(placed(strip_.placement(), lie.place), strip_.part_lines(),
                                    proof);
    }
    return std::nullopt;
  }

  static constexpr double title_room = 17.4 + 4; ///< title strip, and air below it
  static constexpr double above_strip = 10;      ///< crosses and names outside the part
  static constexpr double below_strip = 15;
  static constexpr double beside_strip = 6;

  /// Nothing where the page has no room for a tile beside its furniture.
  std::optional<TileGrid> grid_on(const Paper& paper) const {
    const Box& box = strip_.box();
    const Box extent{box.left - beside_strip, box.bottom - below_strip, box.right + beside_strip,
                     box.top + above_strip};
    const double width = paper.width - 2 * SheetPage::margin - bar_column;
    const double height =
        paper.height - 2 * SheetPage::margin - title_room - below_window() - card_height - 12;
    if (std::min(width, height) < 4 * tile_overlap) return std::nullopt;
    return TileGrid(extent, width, height);
  }
  /// Table, map and how to join.
  double below_window() const {
    return tile_map_height + 10 + (context_.units == Units::inch ? 31 : 27);
  }

  /// On the page, upright or lying, that needs fewer.
  std::vector<SideSheet> tiles() const {
    Paper paper = context_.paper.roll ? level_paper().first : context_.paper;
    std::optional<TileGrid> grid = grid_on(paper);
    if (!context_.paper.roll) {
      const Paper lying = landscape(paper);
      if (const auto other = grid_on(lying);
          other && (!grid || other->tiles().size() < grid->tiles().size())) {
        grid = other;
        paper = lying;
      }
    }
    if (!grid)
      throw DoesNotFit("the paper is too small for a piece of the " + side_name(foot_, side_));
    std::vector<SideSheet> sheets;
    for (const Tile& tile : grid->tiles())
      sheets.push_back(tile_page(paper, *grid, tile));
    return sheets;
  }

  SideSheet tile_page(const Paper& paper, const TileGrid& grid, const Tile& tile) const {
    const std::string words = tile_words(grid, tile);
    SidePage page =
        this->page(paper, paper.width - 2 * SheetPage::margin, ", " + words, tile.number);
    const SheetPage& sheet = page.sheet();
    const Box& window = tile.window;
    const Lie lie({sheet.left() - window.left, page.top() - window.top}, 0);

    std::vector<Stroke> lines = clipped(strip_.lines(), window);
    for (Stroke& cross : registration(grid, tile))
      lines.push_back(std::move(cross));
    page.put(lines, lie);
    const std::vector<Stroke> leaders = clipped(strip_.leaders(), window);
    page.put(leaders, lie);
    page.put(trim_edges(tile), lie);
    const std::string place = tile_place(grid, tile);
    std::vector<Stroke> in_the_way = lines;
    in_the_way.insert(in_the_way.end(), leaders.begin(), leaders.end());
    page.put(tile_texts(grid, tile, in_the_way, place), lie);

    const double left = sheet.left();
    const double room = page.room_right() - left;
    const double below = page.table(left, lie.place.origin.y + window.bottom - 6, room);
    tile_joining(page.sheet(), grid, tile, {left, below - 3}, page.room_right());
    const Proof proof = foot_of_page(page, below - tile_map_height - 7);

    // Back into the part's own frame: the placement's columns are unit vectors.
    const Placement& level = strip_.placement();
    for (Stroke& line : lines)
      for (Point& p : line.points)
        p = {p.x * level.along.x + p.y * level.along.y,
             p.x * level.across.x + p.y * level.across.y};
    return std::move(page).finish(
        placed(level, lie.place), std::move(lines), proof,
        TilePlace{tile.number, grid.tiles().size(), tile.row, tile.column});
  }

  /// Words whole or not at all; what stands in a tile's own cell is on it, moved along a little
  /// where a seam, a line or a cross is in its way.
  std::vector<Text> tile_texts(const TileGrid& grid, const Tile& tile,
                               const std::vector<Stroke>& lines, const std::string& place) const {
    constexpr double air = 0.7; // half of the heaviest line
    const Box& w = tile.window;
    FreeSpace space({w.left + air, w.bottom + air, w.right - air, w.top - air});
    for (const Stroke& line : lines)
      space.take(line.points);
    std::vector<Text> texts;
    const auto put_if_free = [&](const std::vector<Text>& wanted) {
      for (const Text& text : wanted)
        if (!space.is_free(with_air(text_box(text, context_.typeface), air))) return false;
      for (const Text& text : wanted) {
        space.take(text_box(text, context_.typeface));
        texts.push_back(text);
      }
      return true;
    };
    for (const std::size_t i : grid.crosses_on(tile))
      for (const Text& name : cross_names(grid.crosses()[i], i))
        if (put_if_free({name})) break;

    const double middle = (w.left + w.right) / 2;
    const double t = std::clamp(strip_.along_at(middle), 0.0, side_.wing);
    std::vector<Text> label =
        strip_.label(t, (w.right - w.left) * 0.6, number_ + tile.number, place);
    if (label.empty()) label = {{{middle, w.top}, place, 3, Weight::regular, Align::centre}};
    if (!put_if_free(label)) put_somewhere(label, w, put_if_free);

    const Box cell = grid.cell(tile);
    for (Text text : strip_.texts()) {
      const bool everywhere = text.words == LevelStrip::sole_edge;
      if (everywhere) text.at.x = (w.left + w.right) / 2;
      const bool own = everywhere || (text.at.x >= cell.left && text.at.x <= cell.right);
      const double from = text.at.x;
      for (double off = 0; std::abs(off) <= (own ? 30 : 0); off = off > 0 ? -off : 1 - off) {
        text.at.x = from + off;
        if (put_if_free({text})) break;
      }
    }
    return texts;
  }

  /// The label where the window has room for it, with fewer lines where it has little.
  template <class Put>
  static void put_somewhere(const std::vector<Text>& label, const Box& window, const Put& put) {
    constexpr double step = 3;
    for (std::size_t count = label.size(); count > 0; --count)
      for (double y = window.top; y > window.bottom; y -= step)
        for (double x = window.left; x < window.right; x += step) {
          std::vector<Text> moved(label.begin(), label.begin() + static_cast<long>(count));
          const Point by{x - label[0].at.x, y - label[0].at.y};
          for (Text& text : moved)
            text.at = {text.at.x + by.x, text.at.y + by.y};
          if (put(moved)) return;
        }
  }

  const SheetContext& context_;
  FootSide foot_;
  const SolvedSide& side_;
  const FootOrder& order_;
  std::size_t number_;
  LevelStrip strip_;
};

} // namespace

std::vector<SideSheet> side_sheets(const SheetContext& context, FootSide foot,
                                   const SolvedSide& side, const FootOrder& order,
                                   std::size_t number) {
  return SideLayout(context, foot, side, order, number).draw();
}

} // namespace shankline
