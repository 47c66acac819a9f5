#include "export/label_sheet.hpp"

#include "export/bench_set.hpp"
#include "export/foot_words.hpp"

#include <algorithm>

namespace shankline {
namespace {

class LabelLayout {
public:
  LabelLayout(const std::vector<RackShoe>& shoes, const Typeface& typeface, const Paper& paper)
      : shoes_(shoes), across_(fitting(paper.width, width)),
        down_(fitting(paper.height - head, height)),
        bench_(typeface, paper, (shoes.size() + across_ * down_ - 1) / (across_ * down_)) {}

  std::vector<Page> draw() {
    std::vector<Page> pages;
    for (std::size_t from = 0; from < shoes_.size(); from += across_ * down_) {
      SheetPage page(bench_.context, pages.size(), "Labels");
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
      const std::size_t column = (i - from) % across_;
      const std::size_t row = (i - from) / across_;
      label(page, shoes_[i],
            {page.left() + width * static_cast<double>(column),
             top - height * static_cast<double>(row)});
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
        page.text({x, y}, bench_.context.typeface.shorten(words, room, size, weight), size, weight);
    };
    page.text({left, corner.y - 13.5}, foot_letter(shoe.foot), 14, Weight::bold);
    line(6, shoe.dancer, 4.4, Weight::bold);
    line(4, shoe.pair, 2.7);
    line(3.6, (shoe.date.empty() ? "" : shoe.date + " \u00b7 ") + "order " + shoe.digest, 2.5);
    if (shoe.final_cut) {
      if (shoe.first_cut)
        line(5, "first " + cut_words(shoe.first_cut), 3.4, Weight::bold);
      else
        line(5, "file it back", 3.4, Weight::bold);
      line(4.4, "final " + cut_words(shoe.final_cut) + ", after trying", 2.9);
    }
    if (shoe.sides) line(shoe.final_cut ? 3.9 : 5, "sides " + side_words(shoe), 2.7);
    // Below the letter there is the whole width.
    const double whole = room + x - left;
    std::string also = shoe.see;
    if (!shoe.also.empty()) also += (also.empty() ? "" : " \u00b7 ") + shoe.also;
    const Weight weight = shoe.see.empty() ? Weight::regular : Weight::bold;
    if (!also.empty())
      page.text({left, corner.y - height + 2.6},
                bench_.context.typeface.shorten(also, whole, 2.4, weight), 2.4, weight);
  }

  const std::vector<RackShoe>& shoes_;
  std::size_t across_;
  std::size_t down_;
  BenchContext bench_;
};

} // namespace

SheetSet label_set(const std::vector<RackShoe>& shoes, const SheetWish& wish) {
  return bench_set<LabelLayout>("Labels", shoes, wish.find_faces, text_page(wish.paper));
}

} // namespace shankline
