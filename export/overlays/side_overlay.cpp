#include "export/overlays/side_overlay.hpp"

#include "geometry/order/figure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace shankline {
namespace {

constexpr double furniture = 126; // of the height of a page: strip, heights, card

/// Two walls of one side on one page, the paper lying down.
class SideOverlay : OverlayPage {
public:
  SideOverlay(const SheetContext& context, const Overlay& overlay, Edge edge, std::size_t number)
      : OverlayPage(context, overlay, number,
                    edge == Edge::medial ? "Sides, big-toe side" : "Sides, little-toe side",
                    landscape(context.paper)),
        medial_(edge == Edge::medial), paper_(landscape(context.paper)) {}

  OverlaySheet draw() && {
    top_ = heading("Each side has its own sheet.") - 4;
    place();
    page_.strokes(lines_[0], place_);
    page_.strokes(lines_[1], place_);
    mark_farthest(outline(), place_);
    names();
    const double below = heights(bottom_ - 13);
    const Point card{page_.left(), page_.bottom()};
    const double left = card.x + card_width + 7;
    const Proof proof =
        page_.proof({left, page_.bottom() + 3}, {page_.right() - 2, page_.bottom() + 2}, card);
    keys(left, below - 2);
    const char* const part = medial_ ? "compared_side_medial" : "compared_side_lateral";
    return {
        std::move(page_).finish(),
        {Template{
             part, overlay_.foot.side_a, page_.number(), paper_, place_, std::move(lines_[0]), {}},
         Template{
             part, overlay_.foot.side_b, page_.number(), paper_, place_, std::move(lines_[1]), {}}},
        proof};
  }

private:
  const ComparedOutline& outline() const {
    return medial_ ? *overlay_.foot.medial : *overlay_.foot.lateral;
  }
  const SolvedSide& side(std::size_t i) const {
    const SolvedFoot& foot = i == 0 ? overlay_.a : overlay_.b;
    return medial_ ? foot.solution.sides->medial : foot.solution.sides->lateral;
  }
  double room_right() const { return page_.right() - 12; } // left of the upright bar

  void place() {
    Box box = nowhere;
    // Level between the two chords.
    const auto chord = [&](std::size_t i) {
      const Point wing = side(i).wall.flat(side(i).wing, 0);
      return std::atan2(wing.y, wing.x);
    };
    const double angle = (chord(0) + chord(1)) / 2;
    place_ = {{0, 0}, {std::cos(angle), -std::sin(angle)}, {std::sin(angle), std::cos(angle)}};
    for (const std::size_t i : {std::size_t{0}, std::size_t{1}}) {
      const SolvedSide& s = side(i);
      const SideWall::HeightLine sole{[](double) { return 0.0; }, [](double) { return 0.0; }};
      Polyline wall{s.wall.flat(0, s.finished(0))};
      const Polyline base = s.wall.flat_line(sole, 0, s.wing);
      wall.insert(wall.end(), base.begin(), base.end());
      wall.push_back(s.wall.flat(s.wing, s.finished(s.wing)));
      lines_[i] = {{i == 0 ? LineKind::outline_a : LineKind::outline_b, std::move(wall), false},
                   {i == 0 ? LineKind::cut_a : LineKind::cut_b,
                    s.wall.flat_line(s.finished_line(), 0, s.wing), false}};
      widen(box, bounds(lines_[i], place_));
    }
    const double room = room_right() - page_.left() - 8;
    const double high = paper_.height - furniture;
    if (box.right - box.left > room || box.top - box.bottom > high)
      throw DoesNotFit("the two sides laid over each other are " + figure(box.right - box.left, 0) +
                       " long and " + figure(box.top - box.bottom, 0) + " high, the paper takes " +
                       figure(room, 0) + " by " + figure(high, 0));
    const double middle = (page_.left() + room_right()) / 2;
    place_.origin = {middle - (box.left + box.right) / 2, top_ - 5 - box.top};
    bottom_ = place_.origin.y + box.bottom;
    left_ = place_.origin.x + box.left;
    right_ = place_.origin.x + box.right;
  }

  void names() {
    const double middle = (top_ + bottom_) / 2;
    page_.text({left_ - 2.4, middle}, "BACK SEAM", 3, Weight::bold, Align::centre, 90);
    page_.text({right_ + 4.6, middle}, "towards the toes", 3, Weight::regular, Align::centre, 90);
    page_.text({(left_ + right_) / 2, bottom_ - 5.4}, "SOLE EDGE", 3, Weight::bold, Align::centre);
  }

  /// New heights along the sole's edge. Returns the y below.
  double heights(double y) {
    const double from = page_.left();
    constexpr double head = 42;
    const double wing = std::min(side(0).wing, side(1).wing);
    const int marks = static_cast<int>(wing / 10);
    const double column = std::min(15.0, (room_right() - from - head) / (marks + 1));
    const auto row = [&](const std::string& words, Weight weight, const auto& cell) {
      page_.text({from, y}, context_.typeface.shorten(words, head - 4, 2.6, weight), 2.6, weight);
      for (int i = 0; i <= marks; ++i)
        page_.text({from + head + column * (i + 0.5), y}, cell(10.0 * i), 2.5, weight,
                   Align::centre);
      y -= 4;
    };
    row("along the sole edge, mm", Weight::regular, [](double t) { return figure(t, 0); });
    row("new height, " + name(true), Weight::regular,
        [&](double t) { return figure(side(0).finished(t)); });
    row("new height, " + name(false), Weight::regular,
        [&](double t) { return figure(side(1).finished(t)); });
    row("difference", Weight::bold, [&](double t) {
      const double apart = side(0).finished(t) - side(1).finished(t);
      const std::string size = figure(std::abs(apart));
      return size == "0.0" ? size : (apart < 0 ? "\u2212" : "+") + size;
    });
    return y;
  }

  void keys(double left, double top) {
    const double right = std::min(room_right() - 4, left + 125);
    double y = top - 3;
    const std::string side_key = medial_ ? "sides.medial" : "sides.lateral";
    const std::string low = side_key + ".low";
    const std::string length = side_key + ".finished_length";
    const std::string depth = side_key + ".depth";
    y = table(left, right, y, {depth, low, length, "sides.top_line"});
    y += 1;
    y = key(left, right, y, LineKind::cut_a, name(true) + ", new top line", Weight::bold);
    y = key(left, right, y, LineKind::cut_b, name(false) + ", new top line", Weight::bold);
    y = farthest_key(left, right, y, outline(), "in the ring");
    notes(left, right, y, page_.bottom() + 8, "sides",
          medial_ ? "little-toe side" : "big-toe side");
  }

  bool medial_;
  Paper paper_;
  std::array<std::vector<Stroke>, 2> lines_;
  Placement place_{};
  double top_ = 0;
  double bottom_ = 0;
  double left_ = 0;
  double right_ = 0;
};

} // namespace

OverlaySheet side_overlay(const SheetContext& context, const Overlay& overlay, Edge edge,
                          std::size_t number) {
  return SideOverlay(context, overlay, edge, number).draw();
}

} // namespace shankline
