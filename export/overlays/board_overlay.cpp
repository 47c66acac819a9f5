#include "export/overlays/board_overlay.hpp"

#include "geometry/order/figure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>
#include <utility>
#include <vector>

namespace shankline {
namespace {

/// Two boards on one page.
class BoardOverlay : OverlayPage {
public:
  BoardOverlay(const SheetContext& context, const Overlay& overlay, std::size_t number)
      : OverlayPage(context, overlay, number, "Boards", {}) {}

  OverlaySheet draw() && {
    top_ = heading("Each board has its own sheet.") - 4;
    place();
    page_.strokes(lines_[0], places_[0]);
    page_.strokes(lines_[1], places_[1]);
    mark_farthest(*overlay_.foot.kept, overlay_place_);
    names();
    dimensions();
    const double below = table_box();
    const Point card{column_ + (page_.right() - column_ - card_width) / 2, below - 4 - card_height};
    const Proof proof = page_.proof({page_.right() - bar_length, page_.bottom() + 3},
                                    {page_.right() - 2, page_.bottom() + 16}, card);
    keys(card.y - 6);
    return {std::move(page_).finish(),
            {Template{"compared_board",
                      overlay_.foot.side_a,
                      page_.number(),
                      context_.paper,
                      places_[0],
                      std::move(lines_[0]),
                      {}},
             Template{"compared_board",
                      overlay_.foot.side_b,
                      page_.number(),
                      context_.paper,
                      places_[1],
                      std::move(lines_[1]),
                      {}}},
            proof};
  }

private:
  const SolvedFoot& of(std::size_t i) const { return i == 0 ? overlay_.a : overlay_.b; }
  double align(std::size_t i) const {
    return i == 0 ? overlay_.foot.align_a : overlay_.foot.align_b;
  }

  std::vector<Stroke> lines_of(std::size_t i, double front) const {
    const FootSolution& foot = of(i).solution;
    std::vector<Stroke> lines;
    const LineKind outline = i == 0 ? LineKind::outline_a : LineKind::outline_b;
    if (foot.outline.closed() && front >= *foot.outline.length())
      lines.push_back({outline, foot.whole, true});
    else
      lines.push_back({outline, foot.outline.open_line(front), false});
    lines.push_back({i == 0 ? LineKind::cut_a : LineKind::cut_b, foot.trim->end, false});
    return lines;
  }

  /// The length of one board, or the length of it that is known, mm.
  double reach(std::size_t i) const {
    const BoardOutline& outline = of(i).solution.outline;
    return outline.length().value_or(
        std::max(outline.last_station(), of(i).solution.trim->witness.centre.mm()));
  }

  void place() {
    const double foot_of_page = page_.bottom() + 6.5;
    const double room = top_ - 6 - foot_of_page;
    const double behind = std::max(align(0), align(1)); // the longer board's heel end
    whole_ = true;
    double medial = 0;
    double lateral = 0;
    for (const std::size_t i : {std::size_t{0}, std::size_t{1}}) {
      const double front = std::min(reach(i), room - behind + align(i));
      if (front < reach(i) || !of(i).solution.outline.closed()) whole_ = false;
      lines_[i] = lines_of(i, front);
      drawn_top_ = std::max(drawn_top_, foot_of_page + behind - align(i) + front);
      for (const Stroke& line : lines_[i])
        for (const Point& p : line.points) {
          medial = std::max(medial, p.y);
          lateral = std::max(lateral, -p.y);
        }
    }
    centre_ = page_.left() + 8 + lateral;
    right_edge_ = centre_ + medial;
    for (const std::size_t i : {std::size_t{0}, std::size_t{1}})
      places_[i] = {{centre_, foot_of_page + behind - align(i)}, {0, 1}, {1, 0}};
    overlay_place_ = {{centre_, foot_of_page + behind}, {0, 1}, {1, 0}};
    column_ = std::min(std::max(right_edge_, centre_ + 24) + 30, page_.right() - 94);
  }

  double half(Edge edge, double y) const {
    double most = 0;
    for (const std::size_t i : {std::size_t{0}, std::size_t{1}})
      most = std::max(most, of(i).solution.outline.half_width(edge, y - places_[i].origin.y));
    return most;
  }

  void names() {
    const double heel = std::min(places_[0].origin.y, places_[1].origin.y);
    page_.text({centre_, heel - 4.2}, "HEEL END", 3.2, Weight::bold, Align::centre);
    page_.text({centre_, drawn_top_ + 2.6},
               whole_ ? "towards the toes" : "towards the toes: goes on", 2.8, Weight::regular,
               Align::centre);
    const double middle = std::min(drawn_top_ - 42, heel + 176);
    double left = 0;
    double right = 0;
    for (double y = middle - 14; y <= middle + 14; ++y) {
      left = std::max(left, half(Edge::lateral, y));
      right = std::max(right, half(Edge::medial, y));
    }
    page_.text({centre_ - left - 2.4, middle}, "little-toe side", 3.2, Weight::regular,
               Align::centre, 90);
    page_.text({centre_ + right + 4.6, middle}, "big-toe side", 3.2, Weight::regular, Align::centre,
               90);
  }

  /// Both cuts named beside the board, and how far apart they lie there.
  void dimensions() {
    const SolvedTrim& a = *overlay_.a.solution.trim;
    const SolvedTrim& b = *overlay_.b.solution.trim;
    struct Named {
      Point anchor;
      std::string words;
    };
    Named high{places_[0](a.final_cut.medial_end), name(true) + " " + length(a.final_cut.medial)};
    Named low{places_[1](b.final_cut.medial_end), name(false) + " " + length(b.final_cut.medial)};
    if (high.anchor.y < low.anchor.y) std::swap(high, low);
    constexpr double pitch = 4.4;
    const double x = std::max({high.anchor.x, low.anchor.x, centre_ + 12}) + 5;
    const double middle = (high.anchor.y + low.anchor.y) / 2;
    const double high_y = std::max(high.anchor.y, middle + pitch);
    const double low_y = std::min(low.anchor.y, middle - pitch);
    const double apart = high.anchor.y - low.anchor.y;
    const auto label = [&](const Named& named, double y) {
      page_.stroke(LineKind::leader,
                   {{named.anchor.x + 1.4, named.anchor.y}, {x + 1.5, named.anchor.y}, {x + 4, y}});
      page_.text({x + 5, y - 1}, named.words, 2.8);
    };
    label(high, high_y);
    label(low, low_y);
    if (apart > 0.05) page_.stroke(LineKind::dimension, {{x, low.anchor.y}, {x, high.anchor.y}});
    page_.text({x + 5, middle - 1.1}, apart > 0.05 ? length(apart) + " apart" : "one line", 3.1,
               Weight::bold);
  }

  /// As many figures as the page has room for, those that the knife follows first; darning and
  /// ribbons only where they are not alike. The terminal has all of them.
  std::vector<std::string_view> rows() const {
    // The card stays above the middle of the upright bar, where its length is written.
    constexpr double above_bar_words = 95;
    const double lowest = page_.bottom() + above_bar_words + card_height + 4;
    double room = top_ - 12 - lowest - row_pitch;
    const auto fits = [&](const ComparedFigure& figure) { return row_height(figure) <= room; };
    constexpr std::array<std::string_view, 23> of_board{"trim.final.centre",
                                                        "trim.final.medial",
                                                        "trim.final.lateral",
                                                        "trim.first.centre",
                                                        "trim.stop",
                                                        "pieces.kept.length",
                                                        "trim.reach",
                                                        "trim.bevel",
                                                        "trim.corner",
                                                        "board.layers_cut",
                                                        "board.layers_left",
                                                        "thinned.from",
                                                        "thinned.to",
                                                        "thinned.thickness",
                                                        "trim.station",
                                                        "heel_front",
                                                        "arch_break",
                                                        "arch_break.medial",
                                                        "arch_break.lateral",
                                                        "board.inset",
                                                        "fold",
                                                        "contact.cut.break",
                                                        "contact.heel_pry_left"};
    std::vector<std::string_view> keys;
    for (const std::string_view key : of_board)
      if (const ComparedFigure* figure = figure_of(key); figure && fits(*figure)) {
        keys.push_back(key);
        room -= row_height(*figure);
      }
    std::string_view without; // the kind of work that one shoe is without: a row says it
    for (const ComparedFigure& figure : overlay_.foot.figures) {
      const std::string_view key = figure.key;
      const std::string_view kind = key.substr(0, key.find('.'));
      if ((kind != "darning" && kind != "ribbons") || !fits(figure)) continue;
      if (figure.verdict == Verdict::not_told_apart || (!figure.difference && kind == without))
        continue;
      if (!figure.difference) without = kind;
      keys.push_back(key);
      room -= row_height(figure);
    }
    return keys;
  }

  double table_box() {
    const double x = column_ + 3;
    double y = top_ - 5.4;
    page_.text({x, y}, "In figures, mm; what differs is bold", 3.3, Weight::bold);
    y = table(x, page_.right() - 2, y - 6, rows());
    const Box box{column_, y - 0.4, page_.right(), top_};
    page_.rectangle(LineKind::frame, box);
    return box.bottom;
  }

  std::string where() const {
    const LargestDistance& largest = overlay_.foot.kept->largest;
    const Point& p = largest.on_a;
    const double board = p.x + align(0);
    const std::string side = std::abs(p.y) < 3 ? ", near the centre line"
                             : p.y > 0         ? ", big-toe side"
                                               : ", little-toe side";
    return whole_length_text(board, context_.units) + " from the heel end of the " + name(true) +
           " board" + side;
  }

  void keys(double y) {
    const double left = column_;
    const double right = page_.right() - 10;
    const auto operand = [&](bool of_a, const char* what) {
      const std::string& full = of_a ? overlay_.comparison.name_a : overlay_.comparison.name_b;
      return name(of_a) + what + (overlay_.foot.side_a == overlay_.foot.side_b ? ": " + full : "");
    };
    y = key(left, right, y, LineKind::cut_a, name(true) + ", final cut", Weight::bold);
    y = key(left, right, y, LineKind::cut_b, name(false) + ", final cut", Weight::bold);
    y = key(left, right, y, LineKind::outline_a, operand(true, ", board"));
    y = key(left, right, y, LineKind::outline_b, operand(false, ", board"));
    y = farthest_key(left, right, y, *overlay_.foot.kept, where());
    const bool turned = overlay_.foot.side_b == FootSide::right;
    y = page_.paragraph({left, y}, right - left,
                        "Aligned " + overlay_.foot.kept->aligned +
                            (turned ? "; a right board is shown turned over, its big toe on the "
                                      "right like a left one's."
                                    : "."),
                        2.5) -
        0.8;
    notes(left, right, y, page_.bottom() + 11, "shank");
  }

  std::array<std::vector<Stroke>, 2> lines_;
  std::array<Placement, 2> places_{};
  Placement overlay_place_{};
  bool whole_ = true;
  double top_ = 0;
  double drawn_top_ = 0;
  double centre_ = 0;
  double right_edge_ = 0;
  double column_ = 0;
};

} // namespace

OverlaySheet board_overlay(const SheetContext& context, const Overlay& overlay,
                           std::size_t number) {
  return BoardOverlay(context, overlay, number).draw();
}

} // namespace shankline
