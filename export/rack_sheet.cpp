#include "export/rack_sheet.hpp"

#include "export/sheet_page.hpp"
#include "export/work_words.hpp"
#include "geometry/figure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace shankline {
namespace {

constexpr const char* none = "\u2013";

/// Sheets of many orders: the strip at the top names none of them.
struct Surface {
  Order nobody;
  const Typeface& typeface;
  SheetContext context;

  Surface(const Typeface& face, const Paper& paper, std::size_t pages)
      : typeface(face), context{nobody, typeface, paper, Units::mm, {}, pages} {}
};

std::string counted(std::size_t count, const std::string& thing) {
  return std::to_string(count) + " " + thing + (count == 1 ? "" : "s");
}

bool same_order(const RackShoe& a, const RackShoe& b) {
  return a.digest == b.digest && a.dancer == b.dancer && a.pair == b.pair && a.date == b.date;
}

std::size_t orders_in(const std::vector<RackShoe>& shoes) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < shoes.size(); ++i)
    if (i == 0 || !same_order(shoes[i - 1], shoes[i])) ++count;
  return count;
}

bool is_skew(const CutLine& cut) {
  const std::string centre = figure(cut.centre);
  return figure(cut.medial) != centre || figure(cut.lateral) != centre;
}

class RackLayout {
public:
  RackLayout(const std::vector<RackShoe>& shoes, const Typeface& typeface, const Paper& paper)
      : shoes_(shoes), pages_(divided(shoes, paper)), surface_(typeface, paper, pages_.size()) {}

  std::vector<Page> draw() {
    std::vector<Page> pages;
    for (const auto& [from, to] : pages_) {
      SheetPage page(surface_.context, pages.size(), "Rack");
      draw_page(page, from, to);
      pages.push_back(std::move(page).finish());
    }
    return pages;
  }

private:
  using Stretch = std::pair<std::size_t, std::size_t>;
  static constexpr double row = 10;
  static constexpr double strip = 13;
  static constexpr double head = 7;
  static constexpr double foot = 10;
  static constexpr std::array ticks{"first", "tried", "final", "done"};
  static constexpr double tick_step = 11;

  /// Both shoes of an order stay on one page.
  static std::vector<Stretch> divided(const std::vector<RackShoe>& shoes, const Paper& paper) {
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
            left + 0.15 * width,
            left + 0.37 * width,
            left + 0.42 * width,
            left + 0.54 * width,
            left + 0.67 * width,
            page.right() - boxes};
  }

  void draw_page(SheetPage& page, std::size_t from, std::size_t to) const {
    double y = top_of(page);
    for (std::size_t i = from; i < to; ++i) {
      const bool pair_goes_on = i + 1 < to && same_order(shoes_[i], shoes_[i + 1]);
      const bool second = i > from && same_order(shoes_[i - 1], shoes_[i]);
      shoe(page, shoes_[i], y, second);
      y -= row;
      const double begin = pair_goes_on ? columns(page).foot - 1 : page.left();
      page.stroke(pair_goes_on ? LineKind::leader : LineKind::frame,
                  {{begin, y}, {page.right(), y}});
    }
    page.text({page.left(), page.bottom() + 1},
              "Cut-offs in mm from the board's heel end; a cut may fall short of its line, never "
              "past it. Small below a cut at the centre: big-toe / little-toe side.",
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
                                                               {at.final, "final cut"},
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
      page.text({x, line}, surface_.typeface.shorten(words, next - x - 2, size, weight), size,
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
      page.text({x, skew ? upper : middle}, line ? figure(line->centre) : none, size, weight);
      if (skew)
        page.text({x, lower}, figure(line->medial) + " / " + figure(line->lateral), 2.6, weight);
    };
    cut(at.first, shoe.first_cut, 3.4, Weight::regular);
    cut(at.final, shoe.final_cut, 3.8, Weight::bold);
    fitted(at.sides, at.ticks, shoe.also.empty() ? middle : upper,
           shoe.sides ? side_words(shoe) : none, 3.1);
    if (!shoe.also.empty()) fitted(at.sides, at.ticks, lower, shoe.also, 2.6);
    for (std::size_t i = 0; i < ticks.size(); ++i) {
      const double x = tick_at(at, i);
      page.rectangle(LineKind::frame, {x - 2.5, y - 7.5, x + 2.5, y - 2.5});
    }
  }

  const std::vector<RackShoe>& shoes_;
  std::vector<Stretch> pages_;
  Surface surface_;
};

class LabelLayout {
public:
  LabelLayout(const std::vector<RackShoe>& shoes, const Typeface& typeface, const Paper& paper)
      : shoes_(shoes), across_(fitting(paper.width, width)),
        down_(fitting(paper.height - head, height)),
        surface_(typeface, paper, (shoes.size() + across_ * down_ - 1) / (across_ * down_)) {}

  std::vector<Page> draw() {
    std::vector<Page> pages;
    for (std::size_t from = 0; from < shoes_.size(); from += across_ * down_) {
      SheetPage page(surface_.context, pages.size(), "Labels");
      draw_page(page, from, std::min(from + across_ * down_, shoes_.size()));
      pages.push_back(std::move(page).finish());
    }
    return pages;
  }

private:
  // Narrow enough to lie flat inside the shoe.
  static constexpr double width = 62;
  static constexpr double height = 33;
  static constexpr double head = 8;
  static constexpr double inside = 3; ///< from the cut guide to what is printed

  static std::size_t fitting(double room, double size) {
    return static_cast<std::size_t>((room - 2 * SheetPage::margin) / size);
  }

  void draw_page(SheetPage& page, std::size_t from, std::size_t to) const {
    page.text({page.left(), page.top() - 3.6},
              "Labels to stick in: cut along the dashed lines. Cut-offs in mm from the board's "
              "heel end.",
              2.9);
    page.text({page.right(), page.top() - 3.6}, page.page_of(), 2.9, Weight::regular, Align::right);
    const double top = page.top() - head;
    for (std::size_t i = from; i < to; ++i) {
      const std::size_t place = i - from;
      label(page, shoes_[i],
            {page.left() + width * static_cast<double>(place % across_),
             top - height * static_cast<double>(place / across_)});
    }
    guides(page, top, to - from);
  }

  /// Only as far as there are labels.
  void guides(SheetPage& page, double top, std::size_t count) const {
    const std::size_t rows = (count + across_ - 1) / across_;
    const std::size_t columns = std::min(count, across_);
    const double right = page.left() + width * static_cast<double>(columns);
    const double bottom = top - height * static_cast<double>(rows);
    for (std::size_t i = 0; i <= columns; ++i) {
      const double x = page.left() + width * static_cast<double>(i);
      page.stroke(LineKind::paper_trim, {{x, top}, {x, bottom}});
    }
    for (std::size_t i = 0; i <= rows; ++i) {
      const double y = top - height * static_cast<double>(i);
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
        page.text({x, y}, surface_.typeface.shorten(words, room, size, weight), size, weight);
    };
    page.text({left, corner.y - 13.5}, foot_letter(shoe.foot), 14, Weight::bold);
    line(6, shoe.dancer, 4.4, Weight::bold);
    line(4, shoe.pair, 2.7);
    line(3.6, (shoe.date.empty() ? "" : shoe.date + " \u00b7 ") + "order " + shoe.digest, 2.5);
    if (shoe.final_cut) {
      line(5, "first cut " + cut_words(shoe.first_cut), 3.1);
      line(4.6, "final cut " + cut_words(shoe.final_cut), 3.4, Weight::bold);
    }
    if (shoe.sides) line(shoe.final_cut ? 3.9 : 5, "sides " + side_words(shoe), 2.7);
    // Below the letter there is the whole width.
    const double whole = room + x - left;
    if (!shoe.also.empty())
      page.text({left, corner.y - height + 2.6},
                surface_.typeface.shorten(shoe.also, whole, 2.4, Weight::regular), 2.4);
  }

  const std::vector<RackShoe>& shoes_;
  std::size_t across_;
  std::size_t down_;
  Surface surface_;
};

ChosenLettering lettering_of(const std::vector<RackShoe>& shoes, const FindFaces& find) {
  std::vector<std::string> texts;
  for (const RackShoe& shoe : shoes)
    for (const std::string* text : {&shoe.dancer, &shoe.pair, &shoe.date})
      texts.push_back(*text);
  return choose_lettering(texts, find);
}

template <class Layout>
SheetSet set_of(const char* title, const std::vector<RackShoe>& shoes, const SheetWish& wish,
                const Paper& paper) {
  ChosenLettering chosen = lettering_of(shoes, wish.find_faces);
  const Typeface typeface(chosen.lettering);
  SheetSet set;
  set.drawing.title = title;
  set.drawing.author = "shankline";
  set.drawing.subject = "alterations of several pairs";
  set.drawing.pages = Layout(shoes, typeface, paper).draw();
  set.drawing.lettering = std::move(chosen.lettering);
  set.unshown = std::move(chosen.unshown);
  return set;
}

} // namespace

std::vector<RackShoe> rack_shoes(const Order& order, const Solution& solution,
                                 const std::string& digest) {
  std::vector<RackShoe> shoes;
  for (const auto* foot : {&solution.left, &solution.right}) {
    if (!*foot) continue;
    RackShoe shoe{order.dancer, order.pair, order.date, digest, (*foot)->side, {}, {}, {}, {}};
    shoe.also = other_work(**foot);
    if (const auto& trim = (*foot)->trim) {
      shoe.first_cut = trim->first_cut;
      shoe.final_cut = trim->final_cut;
      shoe.from_witness = trim->witness.centre - trim->final_cut.centre;
    }
    if (const auto& sides = (*foot)->sides)
      shoe.sides = {sides->medial.profile.depth, sides->lateral.profile.depth,
                    sides->medial.profile.back};
    shoes.push_back(std::move(shoe));
  }
  return shoes;
}

std::string cut_words(const std::optional<CutLine>& cut) {
  if (!cut) return none;
  if (!is_skew(*cut)) return figure(cut->centre);
  return figure(cut->medial) + " / " + figure(cut->centre) + " / " + figure(cut->lateral);
}

std::string side_words(const RackShoe& shoe) {
  if (!shoe.sides) return {};
  const std::string back =
      shoe.sides->back > 0 ? ", back " + short_figure(shoe.sides->back) : std::string();
  return short_figure(shoe.sides->medial) + " / " + short_figure(shoe.sides->lateral) + back;
}

SheetSet rack_set(const std::vector<RackShoe>& shoes, const SheetWish& wish) {
  return set_of<RackLayout>("Rack", shoes, wish, landscape(text_page(wish.paper)));
}

SheetSet label_set(const std::vector<RackShoe>& shoes, const SheetWish& wish) {
  return set_of<LabelLayout>("Labels", shoes, wish, text_page(wish.paper));
}

} // namespace shankline
