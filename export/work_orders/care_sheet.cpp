#include "export/work_orders/care_sheet.hpp"

#include "export/drawing/hatch.hpp"
#include "export/wording/foot_words.hpp"
#include "export/wording/line_words.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/plane/superellipse.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

namespace shankline {
namespace {

constexpr double care_text = 2.9;
constexpr double care_small = 2.5; // 7 points
/// Values for a platform that was not measured, mm: common practice, no source, from memory.
constexpr Platform ordinary_platform{44, 26};
constexpr double ordinary_darning = 6;
constexpr double platform_exponent = 2.5;

class CareLayout {
public:
  CareLayout(const SheetContext& context, const std::vector<FootWork>& feet, std::size_t number,
             const PairSince& since)
      : feet_(feet), units_(context.units), since_(since),
        page_(context, number, "Breaking in and repair") {
    page_.label("care");
  }

  std::vector<Page> draw() && {
    y_ = page_.title_strip("", "") - 4;
    y_ = page_.paragraph(
        {page_.left(), y_}, width(),
        "Common practice, no source. Never put on a pair that is still damp from the last "
        "class; never dry one in plastic or on a heater. Stop at pain.",
        3, Weight::bold);
    y_ -= 2;
    const double half = width() / 2;
    const double top = y_;
    double lowest = top;
    for (std::size_t i = 0; i < feet_.size(); ++i) {
      y_ = top;
      foot(feet_[i], page_.left() + half * static_cast<double>(i), half - 4);
      lowest = std::min(lowest, y_);
    }
    y_ = lowest - 3;
    strokes();
    table();
    std::vector<Page> pages;
    pages.push_back(std::move(page_).finish());
    return pages;
  }

private:
  double width() const { return page_.right() - page_.left(); }
  std::string length(double mm) const { return short_figure(mm) + inches_beside(mm, units_); }

  // One foot: the platform from below, the shoe from its side, this pair's numbers.

  void foot(const FootWork& foot, double left, double room) {
    page_.text({left, y_ - 4}, foot_capitals(foot.solution->side), 4.4, Weight::bold);
    y_ -= 7;
    platform(foot, {left + room / 2, y_ - 17});
    y_ -= 38;
    shoe(foot, {left + 2, y_ - 30}, room - 4);
    y_ -= 42;
    for (const std::string& words : numbers(foot))
      y_ = page_.paragraph({left, y_}, room, words, care_text) - 0.4;
  }

  static const Platform& platform_of(const FootWork& foot) {
    const auto& measured = foot.order->shoe.platform;
    return measured ? *measured : ordinary_platform;
  }

  /// The flat tip at true size as the dancer stands on it, seen from below: the sole side down.
  void platform(const FootWork& foot, Point middle) {
    const Platform& size = platform_of(foot);
    constexpr int corners = 96;
    Polygon edge;
    for (int i = 0; i < corners; ++i) {
      const double t = 4.0 * i / corners;
      const int quarter = static_cast<int>(t);
      const bool turned = quarter % 2 == 1;
      const SuperellipsePoint p =
          superellipse_at(turned ? 1 - (t - quarter) : t - quarter, platform_exponent);
      const double sx = quarter == 0 || quarter == 3 ? 1 : -1, sy = quarter < 2 ? 1 : -1;
      edge.push_back({middle.x + sx * p.x * size.width / 2, middle.y + sy * p.y * size.depth / 2});
    }
    page_.stroke(LineKind::edge, edge, true);
    page_.text({middle.x, middle.y + 0.6}, "platform", care_small, Weight::regular, Align::centre);
    page_.text({middle.x, middle.y - 2.8}, "no water here", care_small, Weight::bold,
               Align::centre);
    // Seen from below, the big toe of the left foot is at the left.
    const bool big_toe_left = foot.is_left();
    const auto side_x = [&](double sign) { return middle.x + sign * (size.width / 2 + 2.4); };
    page_.text({side_x(-1), middle.y - 0.9}, big_toe_left ? "big toe" : "little toe", care_small,
               Weight::regular, Align::right);
    page_.text({side_x(1), middle.y - 0.9}, big_toe_left ? "little toe" : "big toe", care_small);
    rolled_side(foot, middle, size);
  }

  /// Stitches go first where the foot rolls to.
  void rolled_side(const FootWork& foot, Point middle, const Platform& size) {
    const RollSide roll = foot.order->foot.roll.side;
    const double above = middle.y + size.depth / 2;
    if (roll == RollSide::none) {
      page_.text({middle.x, above + 2.2}, "stitches: all round, no side to favour", care_small,
                 Weight::regular, Align::centre);
      return;
    }
    const bool at_left = (roll == RollSide::in) == foot.is_left();
    const double sign = at_left ? -1 : 1;
    const double from = middle.x + sign * size.width * 0.22, to = middle.x + sign * size.width / 2;
    constexpr int stitches = 7;
    for (int i = 0; i <= stitches; ++i) {
      const double x = from + (to - from) * (0.05 + 0.9 * i / stitches);
      const double up =
          size.depth / 2 *
          superellipse(std::min(1.0, std::abs(x - middle.x) / (size.width / 2)), platform_exponent);
      page_.stroke(LineKind::stitch, {{x, middle.y + up - 2}, {x, middle.y + up + 0.2}});
    }
    page_.text({middle.x, above + 2.2},
               std::string("stitches first: ") + (roll == RollSide::in
                                                      ? "big-toe side, the foot rolls in"
                                                      : "little-toe side, the foot rolls out"),
               care_small, Weight::bold, Align::centre);
  }

  /// The shoe from its side, heel at the left, not to scale; the board's end where this pair has
  /// it.
  void shoe(const FootWork& foot, Point heel, double room) {
    const auto at = [&](double along, double up) {
      return Point{heel.x + along * room, heel.y + up};
    };
    page_.stroke(LineKind::shoe, {at(0, 0), at(0.93, 0), at(1, 2)});
    page_.stroke(LineKind::edge,
                 {at(0, 0), at(0.015, 19), at(0.12, 16.5), at(0.36, 12), at(0.62, 17), at(0.7, 20),
                  at(0.8, 20), at(0.9, 17.5), at(0.985, 11), at(1, 2)});
    page_.stroke(LineKind::stock_top, {at(0.62, 17), at(0.6, 0.4)}); // where the box begins
    if (const auto end = board_end(foot)) {
      page_.stroke(LineKind::board, {at(*end, 1.6), at(0.88, 1.6)});
      page_.stroke(LineKind::leader, {at(*end, 1.6), at(*end, -3)});
      page_.text(at(*end, -5.6), "board's end", care_small, Weight::regular, Align::centre);
    } else {
      page_.stroke(LineKind::board, {at(0.04, 1.6), at(0.88, 1.6)});
    }
    const Polygon vamp{at(0.7, 12), at(0.82, 12), at(0.82, 19), at(0.7, 19)};
    for (Polyline& line : hatch_lines(vamp, 1.4, {}))
      page_.stroke(LineKind::hatch_light, std::move(line));
    page_.stroke(LineKind::leader, {at(0.76, 19), at(0.72, 24)});
    page_.text(at(0.72, 25), "W water: the vamp only", care_small, Weight::bold, Align::centre);
    const Polygon inside{at(0.78, 2.6), at(0.9, 2.6), at(0.9, 6.4), at(0.78, 6.4)};
    for (Polyline& line : hatch_lines(inside, 0.9, {}))
      page_.stroke(LineKind::hatch, std::move(line));
    page_.stroke(LineKind::leader, {at(0.84, 2.6), at(0.72, -3)});
    page_.text(at(0.72, -5.6), "H hardener, inside", care_small, Weight::bold, Align::centre);
    page_.stroke(LineKind::leader, {at(0.995, 6), at(0.96, -3)});
    page_.text(at(1, -5.6), "S stitches", care_small, Weight::bold, Align::right);
    page_.text(at(0.02, 24), "from the side, not to scale", care_small);
  }

  /// Returns the board's end as a share of the shoe's length, from the back, for the drawing;
  /// nullopt if no board is cut. A foot without a length is drawn with 242 mm.
  std::optional<double> board_end(const FootWork& foot) const {
    const auto& trim = foot.solution->trim;
    const auto& board = foot.order->shoe.board;
    if (!trim) return {};
    const double inset = board.inset ? board.inset->value() : 5;
    const double ordered = (trim->first_cut ? *trim->first_cut : trim->final_cut).centre;
    const double off = since(foot).cut_off.value_or(ordered);
    const double whole = foot.order->foot.length ? foot.order->foot.length->value() + 4 : 242;
    return std::clamp((inset + off) / whole, 0.05, 0.6);
  }

  const ShoeSince& since(const FootWork& foot) const {
    return foot.is_left() ? since_.left : since_.right;
  }

  std::vector<std::string> numbers(const FootWork& foot) const {
    std::vector<std::string> lines;
    const Platform& size = platform_of(foot);
    lines.push_back("platform " + length(size.width) + " by " + length(size.depth) +
                    (foot.order->shoe.platform ? "" : " (ordinary, not measured)"));
    const auto& darning = foot.solution->darning;
    lines.push_back("darning up to " + length(darning ? darning->height : ordinary_darning) +
                    (darning && darning->raise > 0
                         ? ", " + length(darning->raise) + " more where it rolls"
                         : std::string()) +
                    (darning ? "" : " (ordinary, none was ordered)"));
    const ShoeSince& now = since(foot);
    const auto& trim = foot.solution->trim;
    if (trim && now.cut_off) {
      lines.push_back("cut to " + length_text(*now.cut_off, units_, Rounding::down) + " off on " +
                      now.day + "; bevel only after the last cut");
      lines.push_back("final " + length_text(trim->final_cut.centre, units_, Rounding::down) +
                      (!now.stopped.empty()               ? ", not to be cut to"
                       : now.has_reached(trim->final_cut) ? ", reached"
                                                          : ", after trying"));
    } else if (trim) {
      const CutLine& first = trim->first_cut ? *trim->first_cut : trim->final_cut;
      lines.push_back("first cut " + length_text(first.centre, units_, Rounding::down) +
                      " off; bevel only after the last cut");
    } else {
      lines.push_back("the board stays as it came");
    }
    if (!now.stopped.empty())
      lines.push_back("STOP, " + now.stopped + ": cut no more, ask before it is worn");
    if (!now.ended.empty()) lines.push_back("this pair ended " + now.ended);
    return lines;
  }

  // The purpose of each stroke, and when to stop

  void strokes() {
    constexpr std::array<std::array<const char*, 4>, 5> rows{{
        {"W water", "A little on the vamp only, just before the first exercises.",
         "The vamp takes the foot's shape.",
         "Stop when it gives. Never on the platform, the box's tip or the board."},
        {"H hardener", "A thin coat inside, where box or board's front has softened.",
         "A few more wears.",
         "Dry overnight before it is worn. Never near skin that reacts to it."},
        {"S stitches", "A few more along the platform's edge, where it gets soft.",
         "The edge holds.", "Stop when the needle meets the box: thread lies on the satin."},
        {"C cut", "3 more off the board at most, never past the final line, and none after a STOP.",
         "It bends where the foot bends.",
         "Teacher or fitter decides. A cut board cannot be put back."},
        {"D dry", "About 36 hours in moving air, longer in humid air; two or three pairs in turn.",
         "A pair worn wet dies early.", "Never in plastic, never on a heater."},
    }};
    constexpr std::array<double, 4> shares{0.11, 0.34, 0.2, 0.35};
    constexpr std::array<const char*, 4> heads{"what", "how", "what for", "when to stop, caution"};
    row(heads, shares, Weight::regular, care_small);
    page_.stroke(LineKind::frame, {{page_.left(), y_}, {page_.right(), y_}});
    y_ -= 1;
    for (const auto& cells : rows) {
      row(cells, shares, Weight::regular, care_text);
      y_ -= 0.8;
    }
    y_ = page_.paragraph({page_.left(), y_ - 1}, width(),
                         "The pair is done when the board no longer springs back, the box gives "
                         "under the thumb, or the dancer sinks into the platform.",
                         3, Weight::bold) -
         3;
  }

  void row(const std::array<const char*, 4>& cells, const std::array<double, 4>& shares,
           Weight weight, double size) {
    double x = page_.left(), lowest = y_;
    for (std::size_t k = 0; k < cells.size(); ++k) {
      const double room = width() * shares[k];
      lowest = std::min(lowest, page_.paragraph({x, y_}, room - 3, cells[k], size,
                                                k == 0 ? Weight::bold : weight));
      x += room;
    }
    y_ = lowest;
  }

  /// Draws a table to fill in by hand, as far down as the page has room.
  void table() {
    constexpr std::array<const char*, 6> heads{"day",   "L R",         "W H S C",
                                               "where", "hours since", "how it was then"};
    constexpr std::array<double, 6> shares{0.15, 0.08, 0.12, 0.27, 0.12, 0.26};
    constexpr double line = 8;
    double x = page_.left();
    for (std::size_t k = 0; k < heads.size(); ++k) {
      page_.text({x + 1, y_ - 3}, heads[k], care_small, Weight::bold);
      x += width() * shares[k];
    }
    y_ -= 4.4;
    const double top = y_;
    page_.stroke(LineKind::frame, {{page_.left(), y_}, {page_.right(), y_}});
    while (y_ - line >= page_.bottom()) {
      y_ -= line;
      page_.stroke(LineKind::frame, {{page_.left(), y_}, {page_.right(), y_}});
    }
    x = page_.left();
    for (std::size_t k = 0; k <= heads.size(); ++k) {
      page_.stroke(LineKind::frame, {{x, top}, {x, y_}});
      if (k < heads.size()) x += width() * shares[k];
    }
  }

  const std::vector<FootWork>& feet_;
  Units units_;
  const PairSince& since_;
  SheetPage page_;
  double y_ = 0;
};

} // namespace

std::vector<Page> care_sheet(const SheetContext& context, const std::vector<FootWork>& feet,
                             std::size_t number, const PairSince& since) {
  return CareLayout(context, feet, number, since).draw();
}

} // namespace shankline
