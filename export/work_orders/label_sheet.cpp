#include "export/work_orders/label_sheet.hpp"

#include "export/wording/foot_words.hpp"
#include "export/wording/line_words.hpp"
#include "export/work_orders/bench_set.hpp"

#include <algorithm>

namespace shankline {
namespace {

class LabelLayout {
public:
  LabelLayout(const std::vector<RackShoe>& shoes, const Typeface& typeface, const Paper& paper,
              Units units)
      : shoes_(shoes), height_(height_of(shoes, units)), across_(fitting(paper.width, width)),
        down_(fitting(paper.height - head, height_)),
        bench_(typeface, paper, units, (shoes.size() + across_ * down_ - 1) / (across_ * down_)) {}

  std::size_t pages() const { return bench_.context.pages; }

  Page draw(std::size_t number) const {
    const std::size_t from = number * across_ * down_;
    SheetPage page(bench_.context, number, "Labels");
    draw_page(page, from, std::min(from + across_ * down_, shoes_.size()));
    return std::move(page).finish();
  }

private:
  // Narrow enough to lie flat inside the shoe.
  static constexpr double width = 62;
  static constexpr double head = 8;
  static constexpr double edge_line = 3.3; ///< from line to line
  static constexpr double inside = 3;      ///< from the cut guide to what is printed
  static constexpr double smallest = 2.5;  ///< of the letters, 7 points

  /// The edges of a skew line take a line each where they have inches, and lowered sides two.
  static double height_of(const std::vector<RackShoe>& shoes, Units units) {
    constexpr double plain = 41.5;
    const bool skew = std::any_of(shoes.begin(), shoes.end(), [](const RackShoe& shoe) {
      return shoe.final_cut && is_skew(*shoe.final_cut);
    });
    const bool sides =
        std::any_of(shoes.begin(), shoes.end(), [](const RackShoe& shoe) { return shoe.sides; });
    if (units == Units::mm) return plain;
    return plain + (skew ? 2 * edge_line : 0) + (sides ? edge_line : 0);
  }

  static std::size_t fitting(double room, double size) {
    return static_cast<std::size_t>((room - 2 * SheetPage::margin) / size);
  }

  void draw_page(SheetPage& page, std::size_t from, std::size_t to) const {
    page.text({page.left(), page.top() - 3.6},
              "Labels to stick in: cut along the dashed lines. Cut-offs in mm from the board's "
              "heel end" +
                  std::string(bench_.context.units == Units::inch ? ", inches beside them." : "."),
              2.9);
    page.text({page.right(), page.top() - 3.6}, page.page_of(), 2.9, Weight::regular, Align::right);
    const double top = page.top() - head;
    for (std::size_t i = from; i < to; ++i) {
      const std::size_t column = (i - from) % across_;
      const std::size_t row = (i - from) / across_;
      label(page, shoes_[i],
            {page.left() + width * static_cast<double>(column),
             top - height_ * static_cast<double>(row)});
    }
    guides(page, top, to - from);
  }

  /// Draws cutting guides only as far as there are labels.
  void guides(SheetPage& page, double top, std::size_t count) const {
    const std::size_t rows = (count + across_ - 1) / across_;
    const std::size_t columns = std::min(count, across_);
    const double right = page.left() + width * static_cast<double>(columns);
    const double bottom = top - height_ * static_cast<double>(rows);
    for (std::size_t i = 0; i <= columns; ++i) {
      const double x = page.left() + width * static_cast<double>(i);
      page.stroke(LineKind::paper_trim, {{x, top}, {x, bottom}});
    }
    for (std::size_t i = 0; i <= rows; ++i) {
      const double y = top - height_ * static_cast<double>(i);
      page.stroke(LineKind::paper_trim, {{page.left(), y}, {right, y}});
    }
  }

  void label(SheetPage& page, const RackShoe& shoe, Point corner) const {
    const double left = corner.x + inside;
    const double x = left + 14;
    const double room = corner.x + width - inside - x;
    double y = corner.y;
    const auto line = [&](double down, const std::string& words, double size,
                          Weight weight = Weight::regular) {
      y -= down;
      if (!words.empty())
        page.text({x, y}, bench_.context.typeface.shorten(words, room, size, weight), size, weight);
    };
    page.text({left, corner.y - 13.5}, foot_letter(shoe.foot), 14, Weight::bold);
    line(6, shoe.dancer, 4.4, Weight::bold);
    line(4, shoe.pair, 2.7);
    line(3.6, (shoe.date.empty() ? "" : shoe.date + " \u00b7 ") + "order " + shoe.digest, 2.5);
    if (shoe.entry > 0) entry(page, shoe.entry, {left, corner.y});
    const auto cut = [&](const CutLine& at, double down, const std::string& name,
                         const std::string& after, double size, Weight weight) {
      const bool in_inches = bench_.context.units == Units::inch;
      const bool skew = is_skew(at);
      // With inches there is no room for the word: the line below names both edges.
      const std::string words = name +
                                length_text(at.centre, bench_.context.units, Rounding::down) +
                                (skew && !in_inches ? " centre" : "") + after;
      line(down, words, page.fitted_size(words, room, size, smallest, weight), weight);
      const auto edge = [&](const char* edge_name, double mm) {
        return edge_name + length_text(mm, bench_.context.units, Rounding::down);
      };
      if (skew && in_inches) {
        line(edge_line, edge("big toe ", at.medial), smallest, weight);
        line(edge_line, edge("little toe ", at.lateral), smallest, weight);
      } else if (skew) {
        line(edge_line, edge("big toe ", at.medial) + edge(" \u00b7 little toe ", at.lateral),
             smallest, weight);
      }
    };
    const ShoeSince& since = shoe.since;
    if (shoe.final_cut) {
      if (since.cut_off) {
        const std::string now =
            "cut to " + length_text(*since.cut_off, bench_.context.units, Rounding::down);
        const std::string on = "on " + since.day;
        // Inches leave no room for the day.
        const bool one_line = bench_.context.units == Units::mm;
        const std::string words = now + (one_line ? " " + on : std::string());
        line(5, words, page.fitted_size(words, room, 3.6, smallest, Weight::bold), Weight::bold);
        if (!one_line) line(edge_line, on, smallest);
      } else if (shoe.first_cut) {
        cut(*shoe.first_cut, 5, "first ", "", 3.6, Weight::bold);
      } else {
        line(5, "file it back", 3.6, Weight::bold);
      }
      if (since.ended.empty() && since.stopped.empty())
        cut(*shoe.final_cut, 4, "final ",
            since.has_reached(*shoe.final_cut) ? ", reached" : ", after trying", 2.8,
            Weight::regular);
    }
    if (since.ended.empty() && !since.stopped.empty()) {
      const std::string words = "STOP, " + since.stopped;
      line(4, words, page.fitted_size(words, room, 2.8, smallest, Weight::bold), Weight::bold);
      line(edge_line, "cut no more, ask before it is worn", smallest);
    }
    if (!since.ended.empty()) line(4, "ended " + since.ended, 2.8, Weight::bold);
    // Below the letter there is the whole width.
    const double whole = room + x - left;
    if (shoe.sides) {
      y -= shoe.final_cut ? 3.7 : since.ended.empty() ? 9 : 5;
      constexpr double size = 2.6;
      for (const std::string& words :
           side_lines(shoe, bench_.context.units, "sides ",
                      [&](const std::string& one) { return page.width_of(one, size) <= whole; })) {
        page.text({left, y}, words, size);
        y -= edge_line;
      }
    }
    const auto below = [&](double up, const std::string& words, Weight weight) {
      if (!words.empty())
        page.text({left, corner.y - height_ + up},
                  bench_.context.typeface.shorten(words, whole, smallest, weight), smallest,
                  weight);
    };
    below(shoe.also.empty() ? 2.4 : 5.6, shoe.see, Weight::bold);
    below(2.4, shoe.also, Weight::regular);
  }

  /// Below the letter: whoever notes a day's wear finds the pair by it.
  static void entry(SheetPage& page, long long number, Point corner) {
    constexpr double room = 13;
    const std::string words = std::to_string(number);
    page.text({corner.x, corner.y - 17.2}, "entry", smallest);
    page.text({corner.x, corner.y - 20.8}, words,
              page.fitted_size(words, room, 3.4, smallest, Weight::bold), Weight::bold);
  }

  const std::vector<RackShoe>& shoes_;
  double height_; ///< of a label
  std::size_t across_;
  std::size_t down_;
  BenchContext bench_;
};

} // namespace

SheetsInTurn label_sheets(const std::vector<RackShoe>& shoes, const SheetWish& wish) {
  return bench_sheets<LabelLayout>("Labels", shoes, wish, text_page(wish.paper));
}

SheetSet label_set(const std::vector<RackShoe>& shoes, const SheetWish& wish) {
  return whole_set(label_sheets(shoes, wish));
}

} // namespace shankline
