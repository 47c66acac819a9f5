#include "export/templates/side_pair_sheet.hpp"

#include "export/drawing/free_space.hpp"
#include "export/templates/level_strip.hpp"

#include <algorithm>
#include <utility>

namespace shankline {
namespace {

constexpr double between_templates = 10; // clear, for scissors
constexpr double between_words = 2;
constexpr double least_column = 9.2;
constexpr double air = 1; // round a block of words or a bar

/// Two strips, one above the other, and what belongs to them below and beside.
class SidePair {
public:
  SidePair(const SheetContext& context, FootSide foot, const SidesOnPage& sides,
           const FootOrder& order, std::size_t number)
      : context_(context), foot_(foot), sides_(sides), order_(order), number_(number) {
    for (const SolvedSide* side : sides_) {
      strips_.emplace_back(context, foot, *side, order, EdgeNames::on_it);
      labels_.push_back(strips_.back().label(number));
      extents_.push_back(strips_.back().extent(labels_.back()));
    }
  }

  std::optional<SideSheet> draw() const {
    const Paper& paper = context_.paper;
    if (paper.roll) return std::nullopt;
    SidePage page(context_, foot_, sides_, order_, number_, paper,
                  paper.width - 2 * SheetPage::margin);
    const SheetPage& sheet = page.sheet();
    const Box room{sheet.left(), sheet.bottom(), sheet.right(), page.top()};
    const std::vector<StripPosition> positions = places(room);
    double below = room.top; // all words and lines of the strips
    for (std::size_t i = 0; i < strips_.size(); ++i) {
      const Box& extent = extents_[i];
      const Point& at = positions[i].place.origin;
      if (extent.right - extent.left > room.right - room.left) return std::nullopt;
      below = std::min(below, at.y + extent.bottom);
    }
    FreeSpace space({room.left, room.bottom, room.right, below - between_words});
    const std::optional<Proof> proof = furnish(page, space);
    if (!proof) return std::nullopt;

    std::vector<Template> parts;
    for (std::size_t i = 0; i < strips_.size(); ++i) {
      const LevelStrip& strip = strips_[i];
      page.put(strip.lines(), positions[i]);
      page.put(strip.leaders(), positions[i]);
      page.put(strip.texts(), positions[i]);
      page.put(labels_[i], positions[i]);
      parts.push_back(
          page.part(*sides_[i], placed(strip.placement(), positions[i].place), strip.part_lines()));
    }
    return SideSheet{std::move(page).finish(), std::move(parts), *proof};
  }

private:
  /// Places the strips from the top down, each in the middle of the page.
  std::vector<StripPosition> places(const Box& room) const {
    std::vector<StripPosition> positions;
    double extent_top = room.top;
    double lines_top = extent_top;
    for (std::size_t i = 0; i < strips_.size(); ++i) {
      const Box& extent = extents_[i];
      const Box& lines = strips_[i].box();
      const double y = std::min(extent_top - extent.top, lines_top - lines.top);
      const double x = (room.left + room.right - extent.left - extent.right) / 2;
      positions.emplace_back(Point{x, y}, 0);
      extent_top = y + extent.bottom - between_words;
      lines_top = y + lines.bottom - between_templates;
    }
    return positions;
  }

  /// A free rectangle of this size with air round it; it is taken then.
  static std::optional<Box> find(FreeSpace& space, double width, double height,
                                 FreeSpace::From from) {
    const auto found = space.find(width + 2 * air, height + 2 * air, from);
    if (!found) return std::nullopt;
    return with_air(*found, -air);
  }

  /// Puts bars, card, table, key and steps where the strips leave room; returns null if they leave
  /// none.
  std::optional<Proof> furnish(SidePage& page, FreeSpace& space) const {
    using From = FreeSpace::From;
    constexpr double bar_wide = 6.6; // a bar with its words
    constexpr double end_mark = 0.4;
    const double length = bar_length + 2 * end_mark;
    const auto up = find(space, bar_wide, length, From::bottom);
    const auto card = find(space, card_width, card_height, From::bottom);
    const auto across = find(space, length, bar_wide, From::bottom);
    if (!up || !card || !across) return std::nullopt;
    const double narrowest = context_.units == Units::inch ? SidePage::inch_column : least_column;
    for (const double column : {12.5, 11.0, least_column}) {
      if (column < narrowest) break;
      const double table_width = page.table_width(column);
      FreeSpace with_table = space;
      const auto table = find(with_table, table_width, page.table_height(table_width), From::top);
      if (!table) continue;
      for (const double key_width : {120.0, 85.0, 64.0, 52.0}) {
        FreeSpace with_key = with_table;
        const auto key = find(with_key, key_width, page.key_height(key_width), From::top);
        if (!key) continue;
        for (const double width : {110.0, 95.0, 80.0}) {
          FreeSpace left = with_key;
          const auto steps = find(left, width, page.steps_height(width), From::top);
          if (!steps) continue;
          const Proof proof = page.sheet().proof({across->left + end_mark, across->bottom + 2},
                                                 {up->right - 2, up->bottom + end_mark},
                                                 {card->left, card->bottom});
          page.table(table->left, table->top - 3.5, table_width);
          page.key(key->left, key->top, key_width);
          page.steps(steps->left, steps->top, width);
          return proof;
        }
      }
    }
    return std::nullopt;
  }

  const SheetContext& context_;
  FootSide foot_;
  const SidesOnPage& sides_;
  const FootOrder& order_;
  std::size_t number_;
  std::vector<LevelStrip> strips_;
  std::vector<std::vector<Text>> labels_; ///< of the strips, in level coordinates
  std::vector<Box> extents_;              ///< of the strips with all their words
};

} // namespace

std::optional<SideSheet> side_pair_sheet(const SheetContext& context, FootSide foot,
                                         const SidesOnPage& sides, const FootOrder& order,
                                         std::size_t number) {
  return SidePair(context, foot, sides, order, number).draw();
}

} // namespace shankline
