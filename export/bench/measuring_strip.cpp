#include "export/bench/measuring_strip.hpp"

#include "export/page/sheet_page.hpp"
#include "geometry/numerics/degree.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

namespace shankline {
namespace {

constexpr double strip_letters = 2.6;

class StripPage {
public:
  StripPage(const SheetContext& context, std::size_t number, FootSide side)
      : page_(context, number, side == FootSide::left ? "Strip, left foot" : "Strip, right foot"),
        side_(side) {
    page_.label(side == FootSide::left ? "strip L" : "strip R");
    lie();
  }

  /// The page, and where its bars and its card lie.
  std::pair<Page, Proof> draw() && {
    head();
    strip();
    const Proof proof =
        page_.proof({page_.right() - 104, page_.bottom() + 6},
                    {page_.right() - 2, page_.bottom() + 16}, {page_.left(), page_.top() - 74});
    how();
    return {std::move(page_).finish(), proof};
  }

private:
  /// The slant at which the strip fits the page with room for bars and card in both corners.
  void lie() {
    const double width = page_.right() - page_.left();
    const double height = page_.top() - page_.bottom();
    for (double turn = 66; turn >= 48; turn -= 0.25) {
      along_ = {std::cos(turn * degree), std::sin(turn * degree)};
      const double high = strip_length * along_.y + strip_width * along_.x;
      const double wide = strip_length * along_.x + strip_width * along_.y;
      if (high > height || wide > width) continue;
      // Start at the lower left corner; the strip's left edge begins above its right one.
      origin_ = {page_.left() + strip_width * along_.y, page_.bottom()};
      return;
    }
    throw DoesNotFit("a strip of 300 mm does not fit this paper: take a4, letter or larger");
  }

  /// Returns the point at `along` mm from the strip's zero and `across` mm to its left.
  Point at(double along, double across) const {
    return {origin_.x + along * along_.x - across * along_.y,
            origin_.y + along * along_.y + across * along_.x};
  }
  double angle() const { return std::atan2(along_.y, along_.x) / degree; }

  void head() {
    page_.text({page_.left(), page_.top() - 16}, side_ == FootSide::left ? "L" : "R", 21,
               Weight::bold);
    page_.text({page_.left() + 20, page_.top() - 5}, "Strip to measure with", 5, Weight::bold);
    page_.text({page_.left() + 20, page_.top() - 10.5},
               std::string(side_ == FootSide::left ? "left" : "right") +
                   " foot, 300 mm at true size",
               3.2);
    page_.text({page_.left() + 20, page_.top() - 15.5}, page_.page_of(), 2.6);
  }

  void strip() {
    page_.stroke(LineKind::paper_trim,
                 {at(0, 0), at(strip_length, 0), at(strip_length, strip_width), at(0, strip_width)},
                 true);
    for (int mm = 1; mm < static_cast<int>(strip_length); ++mm) {
      const double length = mm % 10 == 0 ? 5 : mm % 5 == 0 ? 3.6 : 2.2;
      page_.stroke(LineKind::ruler, {at(mm, 0), at(mm, length)});
      if (mm % 10 == 0)
        page_.text(at(mm + strip_letters * 0.36, 5.6), std::to_string(mm), strip_letters,
                   Weight::regular, Align::left, angle() + 90);
    }
    // Two lanes to mark by pencil: one each reading, or each person.
    for (const double across : {10.6, 16.3})
      page_.stroke(LineKind::leader, {at(14, across), at(strip_length - 2, across)});
    page_.text(at(2.6, 16.9), "2", 3.4, Weight::bold, Align::left, angle());
    page_.text(at(2.6, 11.6), "1", 3.4, Weight::bold, Align::left, angle());
    page_.text(at(20, 18.2), "0 lies at the back of the heel. Mark heel front and arch break.",
               strip_letters, Weight::regular, Align::left, angle());
  }

  void how() {
    const double left = std::max(at(0, 0).x + 60, page_.right() - 80);
    const double room = page_.right() - 12 - left;
    double y = page_.bottom() + 84;
    for (const char* words :
         {"1. Cut the strip out. Check the print size first.",
          "2. Hold its end to the back of the heel; tape it along the sole.",
          "3. Mark heel front and arch break in lane 1. Peel the strip off, lay it on again and "
          "mark lane 2, best by a second person.",
          "4. Read both lanes on the table, to half a millimetre: heel_front: [61, 62]"})
      y = page_.paragraph({left, y}, room, words, 2.9) - 1.2;
  }

  SheetPage page_;
  FootSide side_;
  Point origin_; ///< of the strip's zero, on the ruler's edge
  Point along_;  ///< one mm along the strip
};

} // namespace

SheetSet measuring_strips(const Paper& paper) {
  const Order nobody;
  const Typeface typeface;
  const SheetContext context{nobody, typeface, paper, Units::mm, {}, 2};
  SheetSet set = named_set("Strips to measure with", "rulers of 300 mm for the sole of the foot");
  for (const FootSide side : {FootSide::left, FootSide::right}) {
    auto [page, proof] = StripPage(context, set.drawing.pages.size(), side).draw();
    set.drawing.pages.push_back(std::move(page));
    set.proofs.push_back(proof);
  }
  return set;
}

} // namespace shankline
