#include "export/compare_sheet.hpp"

#include "export/comparison_words.hpp"
#include "export/side_sheet.hpp"
#include "geometry/figure.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string_view>
#include <utility>

namespace shankline {
namespace {

constexpr double swatch = 12;
constexpr double ring_radius = 3;
constexpr double row_size = 2.6;
constexpr double row_pitch = 4.3;
constexpr double furniture = 126;            // of the height of a side's page: strip, heights, card
constexpr std::string_view shank = ".shank"; // ends the key of a caution
constexpr std::string_view sides = ".sides";

std::string capital(std::string words) {
  if (!words.empty() && words.front() >= 'a' && words.front() <= 'z')
    words.front() = static_cast<char>(words.front() - 'a' + 'A');
  return words;
}

Polygon ring(const Point& middle) {
  constexpr int corners = 48;
  Polygon round;
  for (int i = 0; i < corners; ++i) {
    const double turn = 2 * std::numbers::pi * i / corners;
    round.push_back(
        {middle.x + ring_radius * std::cos(turn), middle.y + ring_radius * std::sin(turn)});
  }
  return round;
}

/// What both kinds of overlay share: the lines, the ring, the table, the key.
class OverlayPage {
public:
  OverlayPage(const SheetContext& context, const Overlay& overlay, std::size_t number,
              const std::string& part, const std::optional<Paper>& paper)
      : context_(context), overlay_(overlay),
        page_(context, number, part + ": " + overlay_words(overlay.comparison, overlay.foot),
              paper) {}

protected:
  const std::string& name(bool of_a) const {
    return of_a ? overlay_.comparison.short_a : overlay_.comparison.short_b;
  }

  /// Round the place where the outlines are farthest apart, in the frame of the overlay.
  void mark_farthest(const ComparedOutline& outline, const Placement& overlay) {
    if (!(outline.largest.distance > 0)) return;
    const Point a = overlay(outline.largest.on_a);
    const Point b = overlay(outline.largest.on_b);
    page_.stroke(LineKind::dimension, {a, b});
    page_.stroke(LineKind::farthest, ring({(a.x + b.x) / 2, (a.y + b.y) / 2}), true);
  }

  const ComparedFigure* figure_of(std::string_view key) const {
    for (const ComparedFigure& figure : overlay_.foot.figures)
      if (figure.key == key) return &figure;
    return nullptr;
  }

  /// Figures in columns; what differs is bold. Returns the y below.
  double table(double left, double right, double y, const std::vector<std::string_view>& keys) {
    const double width = right - left;
    const double of_a = left + 0.45 * width;
    const double of_b = left + 0.575 * width;
    const double apart = left + 0.79 * width;
    page_.text({of_a, y}, context_.typeface.shorten(name(true), 0.12 * width, row_size), row_size,
               Weight::bold, Align::right);
    page_.text({of_b, y}, context_.typeface.shorten(name(false), 0.12 * width, row_size), row_size,
               Weight::bold, Align::right);
    page_.text({apart, y}, "difference", row_size, Weight::bold, Align::right);
    for (const std::string_view key : keys) {
      const ComparedFigure* figure = figure_of(key);
      if (!figure) continue;
      y -= row_pitch;
      const Weight weight = figure->verdict == Verdict::differs ? Weight::bold : Weight::regular;
      page_.text({left, y},
                 context_.typeface.shorten(figure->name, 0.345 * width, row_size, weight), row_size,
                 weight);
      page_.text({of_a, y}, operand_words(*figure, true), row_size, weight, Align::right);
      page_.text({of_b, y}, operand_words(*figure, false), row_size, weight, Align::right);
      page_.text({apart, y}, difference_words(*figure), row_size, weight, Align::right);
      const double x = apart + 2;
      const std::string verdict = figure->difference ? verdict_words(*figure) : "not in both";
      page_.text({x, y}, context_.typeface.shorten(verdict, right - x, row_size, weight), row_size,
                 weight);
    }
    return y - row_pitch;
  }

  double key(double left, double right, double y, LineKind kind, const std::string& words,
             Weight weight = Weight::regular) {
    page_.stroke(kind, {{left, y}, {left + swatch, y}});
    const double x = left + swatch + 2.6;
    page_.text({x, y - 1}, context_.typeface.shorten(words, right - x, 2.8, weight), 2.8, weight);
    return y - 4.8;
  }

  double farthest_key(double left, double right, double y, const ComparedOutline& outline,
                      const std::string& where) {
    if (!(outline.largest.distance > 0))
      return page_.paragraph({left, y + 1.4}, right - left, "Both outlines are one and the same.",
                             2.8) -
             1.4;
    page_.stroke(LineKind::farthest, ring({left + swatch / 2, y - 1.6}), true);
    std::string words = "farthest apart: " + figure(outline.largest.distance) + " mm, " + where;
    if (outline.area)
      words += "; " + figure(*outline.area / 100, 1) + " cm\u00b2 lie in one of them only";
    const double x = left + swatch + 2.6;
    return std::min(page_.paragraph({x, y + 1.4}, right - x, words, 2.8), y - 4.8) - 2;
  }

  /// What a pair cut alike would come to, and what the verdicts rest on; no caution that speaks of
  /// `elsewhere`.
  double notes(double left, double right, double y, double least, std::string_view about,
               std::string_view elsewhere = {}) {
    const auto say = [&](const std::string& words, Weight weight) {
      if (y - page_.height_of(words, right - left, 2.5, weight) < least) return;
      y = page_.paragraph({left, y}, right - left, words, 2.5, weight) - 0.8;
    };
    for (const bool on_a : {true, false}) {
      const CutAlike& alike = on_a ? overlay_.foot.b_on_a : overlay_.foot.a_on_b;
      if (about == shank && std::abs(alike.deeper) > 0.05)
        say(capital(name(on_a)) + " cut like " + name(!on_a) + ": " + figure(alike.board) +
                " off, " + figure(std::abs(alike.deeper)) +
                (alike.deeper > 0 ? " past" : " short of") + " its own line, " +
                figure(alike.board_left) + " left behind the arch break.",
            Weight::regular);
      for (const Finding& caution : alike.cautions)
        if (caution.key.find(about) != std::string::npos &&
            (elsewhere.empty() || caution.what.find(elsewhere) == std::string::npos))
          say(capital(name(on_a)) + ", " + caution.what + ".", Weight::bold);
    }
    say("A difference counts when it is larger than what follows the \u00b1 (95 %). " +
            shared_words(overlay_.comparison.shared) + " e: estimated, not measured.",
        Weight::regular);
    return y;
  }

  const SheetContext& context_;
  const Overlay& overlay_;
  SheetPage page_;
};

/// Two boards on one page.
class BoardOverlay : OverlayPage {
public:
  BoardOverlay(const SheetContext& context, const Overlay& overlay, std::size_t number)
      : OverlayPage(context, overlay, number, "Boards", {}) {}

  OverlaySheet draw() && {
    top_ = page_.title_strip("", "") - 4;
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

  /// How far one board is known, or how long it is.
  double reach(std::size_t i) const {
    const BoardOutline& outline = of(i).solution.outline;
    return outline.length().value_or(
        std::max(outline.last_station(), of(i).solution.trim->witness.centre));
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
    Named high{places_[0](a.final_cut.medial_end), name(true) + " " + figure(a.final_cut.medial)};
    Named low{places_[1](b.final_cut.medial_end), name(false) + " " + figure(b.final_cut.medial)};
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
    page_.text({x + 5, middle - 1.1}, apart > 0.05 ? figure(apart) + " apart" : "one line", 3.1,
               Weight::bold);
  }

  double table_box() {
    const double x = column_ + 3;
    double y = top_ - 5.4;
    page_.text({x, y}, "In figures, mm; what differs is bold", 3.3, Weight::bold);
    y = table(x, page_.right() - 2, y - 6,
              {"trim.final.centre", "trim.final.medial", "trim.final.lateral", "trim.first.centre",
               "trim.stop", "pieces.kept.length", "trim.station", "heel_front", "arch_break",
               "arch_break.medial", "arch_break.lateral", "board.inset", "fold",
               "contact.cut.break", "contact.heel_pry_left"});
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
    return figure(board, 0) + " from the heel end of the " + name(true) + " board" + side;
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
                                    : ".") +
                            " Do not cut from this page: each board has its own sheet.",
                        2.5) -
        0.8;
    notes(left, right, y, page_.bottom() + 11, shank);
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

/// Two walls of one side on one page, the paper lying down.
class SideOverlay : OverlayPage {
public:
  SideOverlay(const SheetContext& context, const Overlay& overlay, Edge edge, std::size_t number)
      : OverlayPage(context, overlay, number,
                    edge == Edge::medial ? "Sides, big-toe side" : "Sides, little-toe side",
                    landscape(context.paper)),
        medial_(edge == Edge::medial), paper_(landscape(context.paper)) {}

  OverlaySheet draw() && {
    top_ = page_.title_strip("", "") - 4;
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
    row("along the sole edge", Weight::regular, [](double t) { return figure(t, 0); });
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
    notes(left, right, y, page_.bottom() + 8, sides, medial_ ? "little-toe side" : "big-toe side");
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

std::vector<std::string> texts_of(const Order& a, const Order& b) {
  std::vector<std::string> texts;
  for (const Order* order : {&a, &b})
    for (const std::string* words : {&order->dancer, &order->pair, &order->date})
      texts.push_back(*words);
  return texts;
}

/// What a page's strip says of two orders.
Order titled(const Comparison& comparison, const Order& a, const Order& b) {
  if (&a == &b) return a;
  Order title;
  title.dancer = a.dancer == b.dancer ? a.dancer : std::string();
  title.pair = comparison.name_a + " against " + comparison.name_b;
  if (title.dancer.empty()) std::swap(title.dancer, title.pair);
  return title;
}

SolvedFoot foot_of(const Operand& operand, FootSide side) {
  const bool left = side == FootSide::left;
  return {operand.order,
          left ? *operand.order.left : *operand.order.right,
          left ? *operand.solution.left : *operand.solution.right,
          nullptr,
          {}};
}

/// Every page that the paper takes; the context says how many there are.
void lay_over(const Comparison& comparison, const Operand& a, const Operand& b,
              const SheetContext& context, SheetSet& set) {
  const auto add = [&](OverlaySheet sheet) {
    set.drawing.pages.push_back(std::move(sheet.page));
    for (Template& part : sheet.parts)
      set.templates.push_back(std::move(part));
    set.proofs.push_back(sheet.proof);
  };
  for (const FootComparison& foot : comparison.feet) {
    const SolvedFoot of_a = foot_of(a, foot.side_a);
    const SolvedFoot of_b = foot_of(b, foot.side_b);
    const Overlay overlay{comparison, foot, of_a, of_b};
    if (foot.kept) add(board_overlay(context, overlay, set.drawing.pages.size()));
    if (!foot.medial) continue;
    for (const Edge edge : {Edge::medial, Edge::lateral})
      try {
        add(side_overlay(context, overlay, edge, set.drawing.pages.size()));
      } catch (const DoesNotFit& fault) {
        set.left_out.emplace_back(fault.what());
      }
  }
}

} // namespace

OverlaySheet board_overlay(const SheetContext& context, const Overlay& overlay,
                           std::size_t number) {
  return BoardOverlay(context, overlay, number).draw();
}

OverlaySheet side_overlay(const SheetContext& context, const Overlay& overlay, Edge edge,
                          std::size_t number) {
  return SideOverlay(context, overlay, edge, number).draw();
}

SheetSet comparison_set(const Comparison& comparison, const Operand& a, const Operand& b,
                        const SheetWish& wish) {
  ChosenLettering chosen = choose_lettering(texts_of(a.order, b.order), wish.find_faces);
  const Typeface typeface(chosen.lettering);
  const Order title = titled(comparison, a.order, b.order);
  SheetContext context{title, typeface, wish.paper, wish.units, wish.digest, 0};
  SheetSet counted;
  lay_over(comparison, a, b, context, counted);
  context.pages = counted.drawing.pages.size();
  SheetSet set =
      named_set("Comparison: " + order_line(title), "two boards compared, order " + wish.digest);
  lay_over(comparison, a, b, context, set);
  return shown_by(std::move(chosen), std::move(set));
}

} // namespace shankline
