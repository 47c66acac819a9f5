#include "export/templates/thinned_board_sheet.hpp"

#include "export/drawing/length_text.hpp"
#include "export/page/label_column.hpp"
#include "export/templates/board_page.hpp"
#include "export/wording/foot_words.hpp"
#include "export/wording/work_words.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace shankline {
namespace {

constexpr double past_stretch = 12; // of a board in the shoe: drawn so far ahead of the stretch

Polyline straight_across(const BoardOutline& outline, double station) {
  return {{station, outline.edge_y(Edge::medial, station)},
          {station, outline.edge_y(Edge::lateral, station)}};
}

/// The length of board that is drawn if the page has room, mm.
double drawn_length(const FootSolution& foot) {
  return foot.outline.length().value_or(
      std::max(foot.outline.last_station(), foot.thinned->to + past_stretch));
}

/// The printed ruler goes a little past the stretch; words stand ahead of it.
double ruler_end(const FootSolution& foot) {
  return std::floor(foot.thinned->to + past_stretch);
}

class ThinnedBoardLayout : BoardPage {
public:
  ThinnedBoardLayout(const SheetContext& context, const FootSolution& foot, std::size_t number,
                     const std::string& warning)
      : BoardPage(context, foot, drawn_length(foot), number, warning), thinned_(*foot.thinned),
        front_(room_for(drawn_length(foot))) {}

  BoardSheet draw() && {
    place(thinned_board_lines(foot_, front_));
    board();
    ruler();
    words_on_board();
    fill_thinned(page_, foot_, front_, place_, spared_);
    name_sides(side_names_station());
    const double box_bottom = number_box();
    const Point card{column_ + (right_ - column_ - card_width) / 2, box_bottom - 3 - card_height};
    Proof proof = page_.proof({page_.right() - bar_length, page_.bottom() + 3},
                              {page_.right() - 2, page_.bottom() + 16}, card);
    const double notes_top = thinning_notes();
    draw_labels(page_, named_lines(), {column_, page_.right() - 10, notes_top + 4.5, card.y - 3});
    Template part{"board",           foot_.side, page_.number(), page_.paper(), place_,
                  std::move(board_), {}};
    return {std::move(page_).finish(), std::move(part), proof};
  }

private:
  void board() {
    page_.strokes(board_, place_);
    const auto length = foot_.outline.length();
    name_ends(front_, !length             ? std::string("towards the toes: in the shoe")
                      : front_ >= *length ? std::string("towards the toes")
                                          : "towards the toes: goes on to " +
                                                whole_length_text(*length, context_.units));
  }

  void ruler() {
    const double last = std::min(std::floor(front_), ruler_end(foot_));
    for (double station = 0; station <= last; ++station) {
      const int mm = static_cast<int>(station);
      ruler_stroke(mm);
      if (mm == 0 || mm % 10 != 0) continue;
      constexpr double air = 2; // a line would run through the figure
      if (std::abs(station - thinned_.from) < air || std::abs(station - thinned_.to) < air)
        continue;
      const Text number{
          {centre_ + 4, place_.origin.y + station - 0.9}, std::to_string(mm), least_board_size};
      spare(text_box(number, context_.typeface));
      page_.text(number.at, number.words, number.size);
    }
    spare({centre_ - 0.5, place_.origin.y, centre_ + 3.2, place_.origin.y + last});
  }

  /// Keeps the fill of the thinned stretch out of this box.
  void spare(const Box& box) { spared_.push_back(with_air(box, 0.6)); }

  /// Writes the work where it is done; and the name of each part, so that a loose cut-out can still
  /// be told.
  void words_on_board() {
    const double middle = (thinned_.from + std::min(thinned_.to, front_)) / 2;
    const double stretch = std::min(thinned_.to, front_) - thinned_.from;
    const std::vector<LabelLine> thin{
        {"THIN", 4.6, Weight::bold},
        {"to " + thickness_text(thinned_.thickness) + (context_.units == Units::inch ? " mm" : ""),
         3.4, Weight::bold}};
    if (stretch > height_of(thin) + 3) label_left(thin, middle + height_of(thin) / 2);
    std::vector<LabelLine> label{
        {"FOOT SIDE UP", 3, Weight::bold},
        {"not cut", 2.8, Weight::bold},
        {foot_capitals(foot_.side) + " \u00b7 board", 2.8},
        {context_.order.dancer, 2.8},
        {"order " + context_.digest + " \u00b7 page " + std::to_string(page_.number() + 1),
         least_board_size}};
    for (const std::string* more : {&context_.order.date, &context_.order.pair})
      if (!more->empty()) label.insert(label.begin() + 4, {*more, least_board_size});
    const auto label_between = [&](double from, double to) {
      std::vector<LabelLine> lines = label;
      while (lines.size() > 1 && height_of(lines) > to - from)
        lines.erase(lines.end() - 2);
      if (height_of(lines) > to - from) return;
      const double middle_of_all = (from + to) / 2;
      double narrowest = 1e9;
      for (double s = middle_of_all - height_of(lines) / 2;
           s <= middle_of_all + height_of(lines) / 2; ++s)
        narrowest = std::min({narrowest, half(Edge::medial, s), half(Edge::lateral, s)});
      page_.label_lines({centre_, place_.origin.y + middle_of_all + height_of(lines) / 2},
                        2 * narrowest - 6, lines);
    };
    const double ahead = thinned_.to + past_stretch + 2; // clear of the ruler
    if (foot_.outline.closed()) label_between(ahead, front_ - 5);
    // The heel part is what a gauge for the shoe shows.
    const std::vector<LabelLine> short_label{{foot_capitals(foot_.side), 2.8, Weight::bold},
                                             {context_.order.dancer, 2.6},
                                             {context_.digest, least_board_size}};
    label_left(short_label, thinned_.from - 3);
  }

  /// Between the left edge and the ruler, under `top`, where the board is long and wide enough.
  void label_left(const std::vector<LabelLine>& lines, double top) {
    const double low = top - height_of(lines);
    if (low < 4) return;
    double narrowest = 1e9;
    for (double s = low; s <= top; ++s)
      narrowest = std::min(narrowest, half(left_edge(foot_.side), s));
    constexpr double air = 1.5;
    const double width = narrowest - 2 * air;
    if (width < 6) return;
    const double x = centre_ - air - width / 2;
    page_.label_lines({x, place_.origin.y + top}, width, lines);
    double widest = 0;
    for (const LabelLine& line : lines)
      widest =
          std::max(widest, std::min(width, page_.width_of(line.words, line.size, line.weight)));
    spare({x - widest / 2, place_.origin.y + low, x + widest / 2, place_.origin.y + top});
  }

  double side_names_station() const {
    return foot_.outline.closed() ? std::min(thinned_.to + 36, front_ - 14)
                                  : std::max(20.0, thinned_.from / 2);
  }

  /// Writes the ruler numbers in large type: they are right even if the printer changed the size.
  /// Returns the y below the box.
  double number_box() {
    const double x = column_ + 3.5;
    const double width = right_ - column_;
    const bool in_inches = context_.units == Units::inch;
    page_.text({x, top_ - 5.4}, "With a ruler, from the heel end: thin, do not cut", 3.3,
               Weight::bold);
    double y = top_ - 8.6;
    const auto row = [&](const char* name, const std::string& words, const std::string& more) {
      constexpr double size = 8.4;
      y -= size * cap_height + 2.8;
      page_.text({x, y}, name, 3.6, Weight::bold);
      const double at = column_ + 0.3 * width;
      page_.text({at, y}, words, size, Weight::bold);
      page_.text({at + page_.width_of(words, size, Weight::bold) + 2.5, y}, more, 3.2);
    };
    const auto inch = [&](double mm) { return in_inches ? inches(mm) + " in" : std::string(); };
    row("from", ruler_text(thinned_.from, Rounding::nearest), inch(thinned_.from));
    row("to", ruler_text(thinned_.to, Rounding::nearest), inch(thinned_.to));
    const double full = thinned_.thickness / thinned_.ratio;
    const Tolerance tolerance = dimension_tolerance(context_.order.tolerances, thinned_.thickness);
    row("leave", thickness_text(thinned_.thickness),
        tolerance_text(tolerance) + (in_inches ? " mm" : "") +
            inches_inside(thinned_.thickness, tolerance, context_.units, Rounding::up) +
            " thick, of " + short_figure(full, 2));
    y -= 3.6;
    const double stiffness = std::pow(thinned_.ratio, 3);
    y = page_.paragraph({x, y}, width - 7,
                        "By estimate the board is " + figure(100 * stiffness, 0) +
                            " % as stiff there as before: a little less thickness makes much "
                            "less stiffness. Measure it often.",
                        2.8, Weight::bold) -
        0.5;
    const Box box{column_, y - 1.6, right_, top_};
    page_.rectangle(LineKind::frame, box);
    return box.bottom;
  }

  /// Returns the top of steps and cautions.
  double thinning_notes() {
    const std::string caution =
        "A thinned board cannot be put back, and it changes what holds the dancer up. Students: "
        "only with a teacher or fitter. Growing feet, pain or an injury: ask a licensed "
        "physiotherapist or podiatrist first. Moulded plastic boards are not thinned. Sharp tool, "
        "cut-proof glove, away from the hand. All figures are estimates.";
    const std::vector<std::string> steps{
        "Mark L and R in both shoes. Peel the liner back. Pull out the nail or tack.",
        "Lay the page on the board, foot side up, heel end to heel end. Prick where both lines "
        "meet the edges of the board; join with a steel rule.",
        "Thin the foot side between the lines, a little at a time. Let both ends run out without "
        "a step.",
        "Measure the thickness, and try in between: ribbons basted, liner in, both hands on the "
        "barre. Stop at pain, when the foot is carried over the platform, or when the board bends "
        "where the foot bends, however thick it still is.",
        "When it is right: seal, glue the board down, weight it overnight."};
    return notes("Thinning", steps, caution);
  }

  std::vector<ColumnLabel> named_lines() const {
    std::vector<ColumnLabel> labels;
    const auto add = [&](double station, const char* words) {
      if (station > front_) return;
      const double edge = foot_.outline.edge_y(right_edge(foot_.side), station);
      labels.push_back({LineKind::thinned, place_({station, edge}),
                        words + length_text(station, context_.units), Weight::bold});
    };
    add(thinned_.to, "thin to here: ");
    add(thinned_.from, "thin from here: ");
    return labels;
  }

  const SolvedThinning& thinned_;
  double front_; ///< station where the drawn outline ends
};

} // namespace

std::vector<Stroke> thinning_lines(const FootSolution& foot, double front) {
  std::vector<Stroke> lines;
  if (!foot.thinned) return lines;
  for (const double end : {foot.thinned->from, foot.thinned->to})
    if (end <= front)
      lines.push_back({LineKind::thinned, straight_across(foot.outline, end), false});
  return lines;
}

void fill_thinned(SheetPage& page, const FootSolution& foot, double front, const Placement& place,
                  const std::vector<Box>& spared) {
  if (!foot.thinned) return;
  constexpr double apart = 2.5;
  const double to = std::min(foot.thinned->to, front);
  for (double at = foot.thinned->from + apart; at < to - apart / 2; at += apart) {
    const Polyline line = placed(straight_across(foot.outline, at), place); // level on the page
    double x = std::min(line.front().x, line.back().x);
    const double end = std::max(line.front().x, line.back().x);
    const double y = line.front().y;
    std::vector<Box> crossed;
    for (const Box& box : spared)
      if (box.bottom < y && y < box.top) crossed.push_back(box);
    std::sort(crossed.begin(), crossed.end(),
              [](const Box& a, const Box& b) { return a.left < b.left; });
    for (const Box& box : crossed) {
      if (box.left > x) page.stroke(LineKind::thinned_fill, {{x, y}, {std::min(box.left, end), y}});
      x = std::max(x, box.right);
    }
    if (x < end) page.stroke(LineKind::thinned_fill, {{x, y}, {end, y}});
  }
}

std::vector<Stroke> thinned_board_lines(const FootSolution& foot, double front) {
  const BoardOutline& outline = foot.outline;
  const double centre = std::min(front, ruler_end(foot));
  std::vector<Stroke> lines{{LineKind::centre, {{0, 0}, {centre, 0}}, false}};
  for (Stroke& line : thinning_lines(foot, front))
    lines.push_back(std::move(line));
  if (outline.closed() && front >= *outline.length()) {
    lines.push_back({LineKind::edge, foot.whole, true});
    return lines;
  }
  Polyline edge = outline.open_line(front);
  // A board in the shoe: ahead of what is known it keeps the last width.
  if (!outline.closed() && front > outline.last_station()) {
    edge.insert(edge.begin(), {front, outline.edge_y(Edge::medial, front)});
    edge.push_back({front, outline.edge_y(Edge::lateral, front)});
  }
  lines.push_back({LineKind::edge, std::move(edge), false});
  return lines;
}

BoardSheet thinned_board_sheet(const SheetContext& context, const FootSolution& foot,
                               std::size_t number, const std::string& warning) {
  return ThinnedBoardLayout(context, foot, number, warning).draw();
}

} // namespace shankline
