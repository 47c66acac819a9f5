#include "export/templates/side_sheet.hpp"

#include "export/drawing/free_space.hpp"
#include "export/page/tile_joining.hpp"
#include "export/templates/level_strip.hpp"
#include "export/templates/side_lines.hpp"
#include "export/templates/side_page.hpp"
#include "export/templates/side_pair_sheet.hpp"
#include "geometry/numerics/degree.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

namespace shankline {
namespace {

/// One side on one page: level if that fits, else leaning, else on several pages.
class SideLayout {
public:
  SideLayout(const SheetContext& context, FootSide foot, const SolvedSide& side,
             const FootOrder& order, std::size_t number)
      : context_(context), foot_(foot), side_(side), order_(order), number_(number),
        strip_(context, foot, side, order, EdgeNames::on_it),
        beside_(context, foot, side, order, EdgeNames::beside) {}

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
  static constexpr double around =
      2 * SheetPage::margin + SidePage::bar_column + 8; // words at either end
  static constexpr double widest_notes = 160;           ///< longer lines are hard to follow
  static constexpr double plain_height = 210;
  /// The greatest height of a level strip on a page of that height, mm: title strip, names, table,
  /// card and their margins take the rest.
  double plain_strip() const { return 68 - inch_rows(); }

  /// Returns how much more height a table needs for its rows of inches, mm. The last of them also
  /// stands closer to what is below the table.
  double inch_rows() const {
    if (context_.units != Units::inch) return 0;
    return order_.alterations.sides->edge == SideEdge::turned ? 8.8 : 4.7;
  }

  SidePage page(const Paper& paper, double widest, const std::string& tile = {},
                std::size_t further = 0) const {
    return {context_, foot_, {&side_}, order_, number_ + further, paper, widest, tile};
  }

  SideSheet finished(SidePage&& page, const Placement& place, std::vector<Stroke> lines,
                     const Proof& proof, std::optional<TilePlace> tile = {}) const {
    std::vector<Template> part{page.part(side_, place, std::move(lines), tile)};
    return {std::move(page).finish(), std::move(part), proof};
  }

  /// The page for a level strip, and how much of its width is used.
  std::pair<Paper, double> level_paper() const {
    if (!context_.paper.roll) {
      const Paper lying = landscape(context_.paper);
      return {lying, lying.width};
    }
    // Lay the page across the roll if that is wide enough, otherwise along it.
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
    // A page across a roll is made as high as the strip wants: up to rounding.
    constexpr double rounding = 1e-9;
    if (strip_.width() > used - around + rounding ||
        strip_.height() > plain_strip() + paper.height - plain_height + rounding)
      return std::nullopt;
    SidePage page = this->page(paper, used - 2 * SheetPage::margin);
    const Box& box = strip_.box();
    const double middle = (page.sheet().left() + page.room_right()) / 2;
    const StripPosition position({middle - (box.left + box.right) / 2, page.top() - 8 - box.top},
                                 0);
    draw_strip(page, strip_, position);
    const double left = page.sheet().left();
    const double below =
        page.table(left, position.place.origin.y + box.bottom - 16, page.room_right() - left);
    const Proof proof = foot_of_page(page, below);
    return finished(std::move(page), placed(strip_.placement(), position.place),
                    strip_.part_lines(), proof);
  }

  /// Places of the bank card and the notes, and the beginning of the bar across.
  struct Foot {
    Point card;
    Point across;
    double notes_left;
    double notes_top;
    double notes_width;
    double low; ///< what lies below the notes: the bar and its name, or the foot of the page
    std::optional<double> key_width; ///< what the lines are stands above the bar, this wide
  };
  /// The bar lies beside the card where the page is wide enough, under the notes; else above the
  /// card, and what the lines are above the bar if there is room.
  static Foot foot_at(const SidePage& page, double below) {
    constexpr double bar_and_name = 5;
    const SheetPage& sheet = page.sheet();
    const Point card{sheet.left(), sheet.bottom()};
    Foot foot{card,
              {card.x, card.y + card_height + 5},
              card.x + card_width + 7,
              std::min(below, card.y + card_height + 4),
              0,
              sheet.bottom(),
              {}};
    foot.notes_width = std::min(widest_notes, page.room_right() - 6 - foot.notes_left);
    if (foot.notes_left + bar_length + SidePage::bar_column <= sheet.right()) {
      foot.across = {foot.notes_left, sheet.bottom() + 3};
      foot.low = foot.across.y + bar_and_name;
    } else if (const double whole = std::min(widest_notes, page.room_right() - 6 - card.x);
               below - page.key_height(whole) >= foot.across.y + bar_and_name) {
      foot.key_width = whole;
      foot.notes_top = card.y + card_height; // below the bar, which is longer than the card
    }
    return foot;
  }

  /// Returns true if the notes end above what lies below them: under a high strip they may not.
  static bool has_room(const SidePage& page, double below) {
    const Foot foot = foot_at(page, below);
    const double height =
        foot.key_width ? page.steps_height(foot.notes_width) : page.notes_height(foot.notes_width);
    return foot.notes_top - height >= foot.low;
  }

  /// Bank card, bars and what the lines are, along the foot of the page.
  Proof foot_of_page(SidePage& page, double below) const {
    const SheetPage& sheet = page.sheet();
    if (!has_room(page, below)) page.tighten_notes();
    if (!has_room(page, below)) page.shorten_key();
    const Foot foot = foot_at(page, below);
    const Proof proof =
        page.sheet().proof(foot.across, {sheet.right() - 2, sheet.bottom() + 2}, foot.card);
    if (foot.key_width) {
      page.key(foot.card.x, below, *foot.key_width);
      page.steps(foot.notes_left, foot.notes_top, foot.notes_width);
    } else {
      page.notes(foot.notes_left, foot.notes_top, foot.notes_width);
    }
    return proof;
  }

  void draw_strip(SidePage& page, const LevelStrip& strip, const StripPosition& position) const {
    page.put(strip.lines(), position);
    page.put(strip.leaders(), position);
    page.put(strip.texts(), position);
    page.put(strip.label(number_), position);
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
    const Box box = bounds(beside_.lines(), turned({0, 0}, lean)); // of the strip as it leans
    const Box room{SheetPage::margin, SheetPage::margin, paper.width - SheetPage::margin,
                   paper.height - SheetPage::margin - title_room};
    const double spare_x = room.right - room.left - (box.right - box.left);
    const double spare_y = room.top - room.bottom - (box.top - box.bottom);
    if (spare_x < 0 || spare_y < 0) return std::nullopt;
    const StripPosition position(
        {room.left + spare_x / 2 - box.left, room.bottom + spare_y / 2 - box.bottom}, lean);
    FreeSpace space(room);
    if (!beside_.take_room(space, position, room, number_)) return std::nullopt;
    return furnished(paper, space, position);
  }

  /// Puts table, notes, bars and card where the strip leaves room; nullopt if they do not fit.
  std::optional<SideSheet> furnished(const Paper& paper, FreeSpace& space,
                                     const StripPosition& position) const {
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
      table = space.find(table_width, page.table_height(table_width), From::top);
      if (table) break;
    }
    if (!table) return std::nullopt;
    for (const double width : {130.0, 110.0, 90.0, 75.0}) {
      const auto notes = space.find(width, page.notes_height(width) + 3, From::top);
      if (!notes) continue;
      draw_strip(page, beside_, position);
      page.table(table->left, table->top - 3.5, table_width);
      page.notes(notes->left, notes->top, width);
      const Proof proof = page.sheet().proof({across->left + air, across->bottom + 2.4},
                                             {up->right - 2 - air, up->bottom + air},
                                             {card->left + air / 2, card->bottom});
      return finished(std::move(page), placed(beside_.placement(), position.place),
                      beside_.part_lines(), proof);
    }
    return std::nullopt;
  }

  static constexpr double title_room = 17.4 + 4; ///< title strip, and air below it
  static constexpr double above_strip = 10;      ///< crosses and names outside the part
  static constexpr double below_strip = 15;
  static constexpr double beside_strip = 6;

  /// Returns nullopt if the page has no room for a tile beside its fixed parts.
  std::optional<TileGrid> grid_on(const Paper& paper) const {
    const Box& box = beside_.box();
    const Box extent{box.left - beside_strip, box.bottom - below_strip, box.right + beside_strip,
                     box.top + above_strip};
    const double width = paper.width - 2 * SheetPage::margin - SidePage::bar_column;
    const double height =
        paper.height - 2 * SheetPage::margin - title_room - below_window() - card_height - 12;
    if (std::min(width, height) < 4 * tile_overlap) return std::nullopt;
    return TileGrid(extent, width, height);
  }
  /// Height of the table, the map and the instructions for joining, mm.
  double below_window() const { return tile_map_height + 37 + inch_rows(); }

  /// Returns the tiles on the page that needs fewer, upright or lying.
  std::vector<SideSheet> tiles() const {
    const Paper& given = context_.paper;
    Paper paper;
    std::optional<TileGrid> grid;
    for (const Paper& turned :
         {text_page(given), given.roll ? level_paper().first : landscape(given)})
      if (const auto on_it = grid_on(turned);
          on_it && (!grid || on_it->tiles().size() < grid->tiles().size())) {
        grid = on_it;
        paper = turned;
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
    const StripPosition position({sheet.left() - window.left, page.top() - window.top}, 0);

    std::vector<Stroke> lines = clipped(beside_.lines(), window);
    for (Stroke& cross : registration(grid, tile))
      lines.push_back(std::move(cross));
    page.put(lines, position);
    const std::vector<Stroke> leaders = clipped(beside_.leaders(), window);
    page.put(leaders, position);
    page.put(trim_edges(tile), position);
    const std::string place = tile_place(grid, tile);
    std::vector<Stroke> in_the_way = lines;
    in_the_way.insert(in_the_way.end(), leaders.begin(), leaders.end());
    page.put(tile_texts(grid, tile, in_the_way, place), position);

    const double left = sheet.left();
    const double room = page.room_right() - left;
    const double below = page.table(left, position.place.origin.y + window.bottom - 6, room);
    tile_joining(page.sheet(), grid, tile, {left, below - 3}, page.room_right());
    const Proof proof = foot_of_page(page, below - tile_map_height - 7);

    // Back into the part's own frame: the placement's columns are unit vectors.
    const Placement& level = beside_.placement();
    for (Stroke& line : lines)
      for (Point& p : line.points)
        p = {p.x * level.along.x + p.y * level.along.y,
             p.x * level.across.x + p.y * level.across.y};
    return finished(std::move(page), placed(level, position.place), std::move(lines), proof,
                    TilePlace{tile.number, grid.tiles().size(), tile.row, tile.column});
  }

  /// Returns the texts that fit whole. A text in the tile's own cell is moved along a little if a
  /// seam, a line or a cross is in its way.
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
    const double t = std::clamp(beside_.along_at(middle), 0.0, side_.wing);
    std::vector<Text> label =
        beside_.label(t, (w.right - w.left) * 0.6, number_ + tile.number, place);
    if (label.empty()) label = {{{middle, w.top}, place, 3, Weight::regular, Align::centre}};
    if (!put_if_free(label)) put_somewhere(label, w, put_if_free);

    const Box cell = grid.cell(tile);
    for (Text text : beside_.texts()) {
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

  /// Puts the label where the window has room for it, with fewer lines if there is little room.
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
  LevelStrip strip_;  ///< level
  LevelStrip beside_; ///< leaning, or in tiles
};

} // namespace

std::vector<SideSheet> side_sheets(const SheetContext& context, FootSide foot,
                                   const SidesOnPage& sides, const FootOrder& order,
                                   std::size_t number) {
  if (sides.size() > 1)
    if (auto both = side_pair_sheet(context, foot, sides, order, number)) {
      std::vector<SideSheet> one;
      one.push_back(std::move(*both));
      return one;
    }
  std::vector<SideSheet> sheets;
  for (const SolvedSide* side : sides)
    for (SideSheet& sheet : SideLayout(context, foot, *side, order, number + sheets.size()).draw())
      sheets.push_back(std::move(sheet));
  return sheets;
}

} // namespace shankline
