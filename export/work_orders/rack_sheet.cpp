#include "export/work_orders/rack_sheet.hpp"

#include "export/wording/foot_words.hpp"
#include "export/wording/line_words.hpp"
#include "export/work_orders/bench_set.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace shankline {
namespace {

constexpr const char* none = "\u2013";

std::string counted(std::size_t count, const std::string& thing) {
  return std::to_string(count) + " " + thing + (count == 1 ? "" : "s");
}

std::size_t orders_in(const std::vector<RackShoe>& shoes) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < shoes.size(); ++i)
    if (i == 0 || !same_order(shoes[i - 1], shoes[i])) ++count;
  return count;
}

class RackLayout {
public:
  RackLayout(const std::vector<RackShoe>& shoes, const Typeface& typeface, const Paper& paper,
             Units units)
      : shoes_(shoes), row_(row_of(shoes, units)), pages_(divided(shoes, paper, row_)),
        bench_(typeface, paper, units, pages_.size()) {}

  std::size_t pages() const { return pages_.size(); }

  Page draw(std::size_t number) const {
    SheetPage page(bench_.context, number, "Rack");
    draw_page(page, pages_[number].first, pages_[number].second);
    return std::move(page).finish();
  }

private:
  using Stretch = std::pair<std::size_t, std::size_t>;
  static constexpr double strip = 13;
  static constexpr double head = 7;
  static constexpr double foot = 10;
  static constexpr std::array ticks{"first", "tried", "final", "done"};
  static constexpr double tick_step = 11;

  /// With inches the sides of a shoe take two lines, above its cautions and its other work.
  static double row_of(const std::vector<RackShoe>& shoes, Units units) {
    const bool sides =
        std::any_of(shoes.begin(), shoes.end(), [](const RackShoe& shoe) { return shoe.sides; });
    return units == Units::inch && sides ? 12.8 : 10;
  }

  /// Both shoes of an order stay on one page.
  static std::vector<Stretch> divided(const std::vector<RackShoe>& shoes, const Paper& paper,
                                      double row) {
    const double height = paper.height - 2 * SheetPage::margin - strip - head - foot;
    const auto room = static_cast<std::size_t>(height / row);
    std::vector<Stretch> pages;
    for (std::size_t from = 0; from < shoes.size();) {
      std::size_t to = std::min(from + room, shoes.size());
      if (to < shoes.size() && to - from > 1 && same_order(shoes[to - 1], shoes[to])) --to;
      pages.emplace_back(from, to);
      from = to;
    }
    return pages;
  }

  struct Columns {
    double dancer, pair, foot, first, final, sides, ticks;
  };

  static Columns columns(const SheetPage& page) {
    const double boxes = tick_step * static_cast<double>(ticks.size());
    const double left = page.left();
    const double width = page.right() - boxes - left;
    return {left,
            left + 0.125 * width,
            left + 0.315 * width,
            left + 0.36 * width,
            left + 0.525 * width,
            left + 0.69 * width,
            page.right() - boxes};
  }

  void draw_page(SheetPage& page, std::size_t from, std::size_t to) const {
    double y = top_of(page);
    for (std::size_t i = from; i < to; ++i) {
      const bool pair_goes_on = i + 1 < to && same_order(shoes_[i], shoes_[i + 1]);
      const bool second = i > from && same_order(shoes_[i - 1], shoes_[i]);
      shoe(page, shoes_[i], y, second);
      y -= row_;
      const double begin = pair_goes_on ? columns(page).foot - 1 : page.left();
      page.stroke(pair_goes_on ? LineKind::leader : LineKind::frame,
                  {{begin, y}, {page.right(), y}});
    }
    page.text({page.left(), page.bottom() + 1},
              "Cut-offs in mm from the board's heel end; a cut may fall short of its line, never "
              "past it. The first cut first; the final one only after trying.",
              2.8);
  }

  double top_of(SheetPage& page) const {
    page.text({page.left(), page.top() - 4.6}, "Rack", 5.4, Weight::bold);
    page.text({page.left() + 20, page.top() - 4.6},
              counted(shoes_.size(), "shoe") + " of " + counted(orders_in(shoes_), "order"), 3.3);
    page.text({page.right(), page.top() - 4.6}, page.page_of(), 2.9, Weight::regular, Align::right);
    const double below = page.top() - strip;
    const Columns at = columns(page);
    const std::array<std::pair<double, const char*>, 6> names{{{at.dancer, "dancer, order"},
                                                               {at.pair, "pair, date"},
                                                               {at.foot, "foot"},
                                                               {at.first, "first cut"},
                                                               {at.final, "final, after trying"},
                                                               {at.sides, "sides lower by, also"}}};
    for (const auto& [x, name] : names)
      page.text({x, below - 3.6}, name, 2.8);
    for (std::size_t i = 0; i < ticks.size(); ++i)
      page.text({tick_at(at, i), below - 3.6}, ticks[i], 2.8, Weight::regular, Align::centre);
    const double rule = below - head + 1;
    page.stroke(LineKind::frame, {{page.left(), rule}, {page.right(), rule}});
    return rule;
  }

  static double tick_at(const Columns& at, std::size_t i) {
    return at.ticks + tick_step * (static_cast<double>(i) + 0.5);
  }

  void shoe(SheetPage& page, const RackShoe& shoe, double y, bool second) const {
    const Columns at = columns(page);
    const double upper = y - 4.6;
    const double lower = y - 8.4;
    const double middle = y - 6.4;
    const auto fitted = [&](double x, double next, double line, const std::string& words,
                            double size, Weight weight = Weight::regular) {
      page.text({x, line}, bench_.context.typeface.shorten(words, next - x - 2, size, weight), size,
                weight);
    };
    if (!second) {
      fitted(at.dancer, at.pair, upper, shoe.dancer, 3.6, Weight::bold);
      page.text({at.dancer, lower}, shoe.digest, 2.6);
      fitted(at.pair, at.foot, upper, shoe.pair, 3.1);
      page.text({at.pair, lower}, shoe.date, 2.6);
    }
    page.text({at.foot, y - 7.3}, foot_letter(shoe.foot), 6.4, Weight::bold);
    const auto cut = [&](double x, const std::optional<CutLine>& line, double size, Weight weight) {
      const bool skew = line && is_skew(*line);
      const bool in_inches = bench_.context.units == Units::inch;
      const std::array places{y - 3.3, y - 6.3, y - 9.1};
      page.text({x, !skew       ? middle
                    : in_inches ? places[0]
                                : upper},
                line ? length_text(line->centre, bench_.context.units, Rounding::down) : none,
                skew && in_inches ? std::min(size, 3.1) : size, weight);
      const auto edge = [&](const char* name, double mm) {
        return name + length_text(mm, bench_.context.units, Rounding::down);
      };
      if (skew && in_inches) {
        page.text({x, places[1]}, edge("big toe ", line->medial), 2.5, weight);
        page.text({x, places[2]}, edge("little toe ", line->lateral), 2.5, weight);
      } else if (skew)
        page.text({x, lower},
                  edge("big toe ", line->medial) + edge(" \u00b7 little toe ", line->lateral), 2.5,
                  weight);
    };
    if (shoe.final_cut && !shoe.first_cut)
      page.text({at.first, middle}, "file back", 3.2, Weight::bold);
    else
      cut(at.first, shoe.first_cut, 3.8, Weight::bold);
    cut(at.final, shoe.final_cut, 3.4, Weight::regular);
    struct Line {
      std::string words;
      double size;
      Weight weight;
    };
    std::vector<Line> lines;
    const double room = at.ticks - at.sides - 2;
    const auto fits_at = [&](double size) {
      return
          [&page, room, size](const std::string& one) { return page.width_of(one, size) <= room; };
    };
    std::vector<std::string> sides = side_lines(shoe, bench_.context.units, {}, fits_at(3.1));
    const double sides_size = sides.size() > 1 ? 2.5 : 3.1;
    if (sides.size() > 1) sides = side_lines(shoe, bench_.context.units, {}, fits_at(sides_size));
    for (std::string& words : sides)
      lines.push_back({std::move(words), sides_size, Weight::regular});
    if (!shoe.see.empty()) lines.push_back({shoe.see, 2.5, Weight::bold});
    if (!shoe.also.empty()) lines.push_back({shoe.also, 2.5, Weight::regular});
    if (lines.empty()) lines.push_back({none, 3.1, Weight::regular});
    const std::vector<double> places = lines.size() == 1 ? std::vector{middle}
                                       : lines.size() == 2
                                           ? std::vector{upper, lower}
                                           : std::vector{y - 3.3, y - 6.3, y - 9.1, y - 11.9};
    for (std::size_t i = 0; i < std::min(lines.size(), places.size()); ++i)
      fitted(at.sides, at.ticks, places[i], lines[i].words, lines[i].size, lines[i].weight);
    for (std::size_t i = 0; i < ticks.size(); ++i) {
      const double x = tick_at(at, i);
      page.rectangle(LineKind::frame, {x - 2.5, y - 7.5, x + 2.5, y - 2.5});
    }
  }

  const std::vector<RackShoe>& shoes_;
  double row_; ///< height of one
  std::vector<Stretch> pages_;
  BenchContext bench_;
};

} // namespace

SheetsInTurn rack_sheets(const std::vector<RackShoe>& shoes, const SheetWish& wish) {
  return bench_sheets<RackLayout>("Rack", shoes, wish, landscape(text_page(wish.paper)));
}

SheetSet rack_set(const std::vector<RackShoe>& shoes, const SheetWish& wish) {
  return whole_set(rack_sheets(shoes, wish));
}

} // namespace shankline
