#include "export/templates/board_sheet.hpp"

#include "export/drawing/hatch.hpp"
#include "export/drawing/length_text.hpp"
#include "export/page/label_column.hpp"
#include "export/templates/board_page.hpp"
#include "export/templates/thinned_board_sheet.hpp"
#include "export/wording/foot_words.hpp"
#include "export/wording/line_words.hpp"
#include "export/wording/work_words.hpp"
#include "geometry/fitting/next_cut.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace shankline {
namespace {

constexpr double gauge_past_witness = 12;
constexpr double hatch_spacing = 3.2;

Polyline across(const CutLine& line) {
  return {line.medial_end, line.lateral_end};
}

/// The end of the paper gauge: far enough ahead of the witness line to hold it.
double paper_trim_station(const FootSolution& foot) {
  return foot.trim->witness.centre + gauge_past_witness;
}

/// One board on one page.
class BoardLayout : BoardPage {
public:
  BoardLayout(const SheetContext& context, const FootSolution& foot, const FootOrder& order,
              std::size_t number, const std::string& warning)
      : BoardPage(context, foot,
                  std::max(foot.outline.length().value_or(foot.outline.last_station()),
                           paper_trim_station(foot)),
                  number, warning),
        order_(order) {}

  BoardSheet draw() && {
    front_ = room_for(foot_.outline.length().value_or(foot_.outline.last_station()));
    place(board_lines(foot_, front_));
    lines();
    ruler();
    line_names();
    part_labels();
    hatch();
    fill_thinned(page_, foot_, front_, place_, spared_);
    name_sides(side_names_station());
    const double box_bottom = number_box();
    const Point card{column_ + (right_ - column_ - card_width) / 2, box_bottom - 3 - card_height};
    Proof proof = page_.proof({page_.right() - bar_length, page_.bottom() + 3},
                              {page_.right() - 2, page_.bottom() + 16}, card);
    const double notes_top = cutting_notes();
    draw_labels(page_, named_lines(), {column_, page_.right() - 10, notes_top + 4.5, card.y - 3});
    Template board{"board",           foot_.side, page_.number(), page_.paper(), place_,
                   std::move(board_), {}};
    return {std::move(page_).finish(), std::move(board), proof};
  }

private:
  /// On a board that is in the shoe the gauge goes on past the outline.
  double drawn_top() const {
    return foot_.outline.closed() ? front_ : std::max(front_, paper_trim_station(foot_));
  }

  void lines() {
    page_.strokes(board_, place_);
    for (const Stroke& line : board_)
      drawn_.push_back(placed(line, place_));
    const bool whole = foot_.outline.closed() && front_ >= *foot_.outline.length();
    name_ends(drawn_top(), whole ? "towards the toes"
                           : foot_.outline.closed()
                               ? "towards the toes: goes on to " +
                                     whole_length_text(*foot_.outline.length(), context_.units)
                               : "towards the toes: in the shoe");
  }

  /// Does a line of the board run through this place on the page?
  bool on_a_line(const Box& box) const {
    return std::any_of(drawn_.begin(), drawn_.end(), [&](const Stroke& line) {
      if (line.kind == LineKind::centre || is_shade(line.kind)) return false;
      const double air = line_style(line.kind).width / 2 + 0.25;
      const Box wide = with_air(box, air);
      for (std::size_t i = 1; i < line.points.size(); ++i)
        if (runs_through(line.points[i - 1], line.points[i], wide)) return true;
      return false;
    });
  }

  void ruler() {
    const double last = std::floor(std::min(paper_trim_station(foot_), drawn_top()));
    for (double station = 0; station <= last; ++station) {
      const int mm = static_cast<int>(station);
      ruler_stroke(mm);
      if (mm == 0 || mm % 10 != 0) continue;
      // Write on the right, or on the left if a line runs through the right.
      for (const Align align : {Align::left, Align::right}) {
        const double x = align == Align::left ? centre_ + 4 : centre_ - 1.4;
        const Text number{{x, place_.origin.y + station - 0.9},
                          std::to_string(mm),
                          least_board_size,
                          Weight::regular,
                          align};
        if (on_a_line(text_box(number, context_.typeface))) continue;
        put(number);
        break;
      }
    }
    spared_.push_back({centre_ - 0.8, place_.origin.y, centre_ + 3.6, place_.origin.y + last});
  }

  /// The lines keep their names when the paper is cut out.
  void line_names() {
    const SolvedTrim& trim = *foot_.trim;
    if (trim.first_cut) {
      line_name(*trim.first_cut, {"1 FIRST", "knife on", "this side"}, {"1 FIRST"});
      line_name(trim.final_cut, {"2 FINAL", "after trying"}, {"2 FINAL"});
    } else {
      line_name(trim.final_cut, {"FILE BACK", "to here"}, {"FILE BACK"});
    }
    line_name(trim.stop, {"STOP"}, {"STOP"});
    const double witness = trim.witness.centre;
    std::vector<std::string> words{"WITNESS", figure(witness, 0)};
    if (context_.units == Units::inch) words.push_back(inches(witness) + " in");
    line_name(trim.witness, words, {"WITNESS"}, 1);
  }

  /// Beside the ruler, on the heel side of a line or, where that is taken, on its toe side; with
  /// fewer words where there is little room. `first` is -1 to try the heel side first, 1 for the
  /// toe side; all the words are for the side that is tried first.
  void line_name(const CutLine& line, const std::vector<std::string>& words,
                 const std::vector<std::string>& short_words, double first = -1) {
    constexpr double beyond_numbers = 9;
    struct Try {
      const std::vector<std::string>& words;
      double side;
    };
    for (const Try& tried : {Try{words, first}, Try{short_words, first}, Try{short_words, -first}})
      for (const Align align : {Align::right, Align::left}) {
        const double x = align == Align::right ? centre_ - 1.8 : centre_ + beyond_numbers;
        if (put_line_name(line, tried.words, tried.side, x, align)) return;
      }
  }

  bool put_line_name(const CutLine& line, const std::vector<std::string>& words, double side,
                     double x, Align align) {
    constexpr double size = 2.6;
    constexpr double pitch = 1.15 * size;
    const double slope =
        (line.medial_end.x - line.lateral_end.x) / (line.medial_end.y - line.lateral_end.y);
    double width = 0;
    for (const std::string& word : words)
      width = std::max(width, page_.width_of(word, size, Weight::bold));
    const double to_right = left_edge(foot_.side) == Edge::medial ? -slope : slope;
    const double from = align == Align::right ? x - width : x;
    // If the line runs over the words, take the end of them that lies nearer to it.
    const double at_left = line.centre + to_right * (from - centre_);
    const double at_right = line.centre + to_right * (from + width - centre_);
    const double near = side < 0 ? std::min(at_left, at_right) : std::max(at_left, at_right);
    const double height = pitch * static_cast<double>(words.size() - 1) + size * cap_height;
    for (double extra = 0; extra < 3; extra += 0.5) {
      const double low = side < 0 ? near - 1.2 - height - extra : near + 1.2 + extra;
      std::vector<Text> texts;
      double y = place_.origin.y + low + pitch * static_cast<double>(words.size() - 1);
      bool free = true;
      for (const std::string& word : words) {
        texts.push_back({{x, y}, word, size, Weight::bold, align});
        const Box box = text_box(texts.back(), context_.typeface);
        free = free && !on_a_line(box) && !on_words(box) && on_the_board(box);
        y -= pitch;
      }
      if (!free) continue;
      for (const Text& text : texts)
        put(text);
      return true;
    }
    return false;
  }

  /// Words beyond the edge are lost when the paper is cut out.
  bool on_the_board(const Box& box) const {
    for (const double y : {box.bottom, box.top}) {
      const double station = y - place_.origin.y;
      if (box.left < centre_ - half(left_edge(foot_.side), station) ||
          box.right > centre_ + half(right_edge(foot_.side), station))
        return false;
    }
    return true;
  }

  /// Words on the part, beside the ruler, where no line runs: tried from `from` towards `to`.
  bool beside_ruler(const std::vector<std::pair<std::string, double>>& words, double from,
                    double to) {
    const double step = from < to ? 0.5 : -0.5;
    for (double station = from; (to - station) * step >= 0; station += step)
      if (fits_beside_ruler(words, station)) return true;
    return false;
  }

  bool fits_beside_ruler(const std::vector<std::pair<std::string, double>>& words, double top) {
    std::vector<Text> texts;
    double y = place_.origin.y + top;
    double narrowest = 1e9;
    double low = top;
    for (const auto& [line, size] : words)
      low -= size * 1.25;
    for (double s = low; s <= top; s += 1)
      narrowest = std::min(narrowest, half(left_edge(foot_.side), s));
    const double room = narrowest - 4;
    if (room < 6) return false;
    for (const auto& [line, size] : words) {
      y -= size * 1.25;
      const double fitted = page_.fitted_size(line, room, size, least_board_size, Weight::bold);
      // A dancer's code may be long; half an order's digest would be another order's.
      if (line != context_.order.dancer && page_.width_of(line, fitted, Weight::bold) > room)
        return false;
      texts.push_back({{centre_ - 1.4, y + size * 0.3},
                       context_.typeface.shorten(line, room, fitted, Weight::bold),
                       fitted,
                       Weight::bold,
                       Align::right});
    }
    for (const Text& text : texts) {
      const Box box = text_box(text, context_.typeface);
      if (on_a_line(box) || on_words(box)) return false;
    }
    for (const Text& text : texts)
      put(text);
    return true;
  }

  /// Words on the part: no hatch runs through them.
  void put(const Text& text) {
    constexpr double air = 0.6;
    spared_.push_back(with_air(text_box(text, context_.typeface), air));
    page_.text(text.at, text.words, text.size, text.weight, text.align);
  }

  bool on_words(const Box& box) const {
    return std::any_of(spared_.begin(), spared_.end(),
                       [&](const Box& taken) { return overlap(box, taken); });
  }

  std::string page_label() const { return "page " + std::to_string(page_.number() + 1); }

  /// A loose cut-out must never be a mystery: dancer, foot, part, order and page on each piece.
  void part_labels() {
    const CutLine& cut = foot_.trim->final_cut;
    const CutLine* behind = foot_.trim->first_cut ? &*foot_.trim->first_cut : &cut;
    const double below = std::min(behind->medial, behind->lateral) - 1.5;
    std::vector<std::pair<std::string, double>> words{{"CUT OFF", 4.6},
                                                      {foot_capitals(foot_.side), 2.6},
                                                      {context_.order.dancer, 2.6},
                                                      {context_.digest, least_board_size}};
    if (foot_.layers) words.insert(words.begin() + 1, {of_layers(*foot_.layers) + " layers", 2.8});
    const std::string& whole = context_.digest;
    const std::size_t middle = std::min(whole.find(' '), whole.size());
    const std::pair<std::string, double> half{whole.substr(0, middle), least_board_size};
    const std::pair<std::string, double> other_half{
        middle < whole.size() ? whole.substr(middle + 1) : std::string(), least_board_size};
    if (!beside_ruler(words, std::min(below, 34.0), 14)) {
      words.back() = half;
      words.push_back(other_half);
      beside_ruler(words, std::min(below, 34.0), 14);
    }
    const double stop = std::max(foot_.trim->stop.medial, foot_.trim->stop.lateral) + 1;
    // The gauge is cut out alone: where there is little room it still says whose it is.
    const std::pair<std::string, double> dancer{context_.order.dancer, 2.6};
    const std::pair<std::string, double> foot{foot_capitals(foot_.side), least_board_size};
    const std::pair<std::string, double> digest{context_.digest, least_board_size};
    const double under_witness = foot_.trim->witness.centre - 1.5;
    const std::pair<std::string, double> side{"foot side", least_board_size};
    const std::pair<std::string, double> up{"up", least_board_size};
    beside_ruler({dancer, foot, side, up, digest}, under_witness, stop) ||
        beside_ruler({dancer, foot, side, up, half, other_half}, under_witness, stop) ||
        beside_ruler({dancer, foot, digest}, under_witness, stop) ||
        beside_ruler({dancer, foot, half, other_half}, under_witness, stop) ||
        beside_ruler({dancer, foot}, under_witness, stop) ||
        beside_ruler({dancer}, under_witness, stop);

    kept_label();
  }

  /// Writes as many lines as fit in the middle of the kept part ahead of the gauge.
  void kept_label() {
    std::vector<LabelLine> label{
        {"KEEP", 6.4, Weight::bold},
        {"FOOT SIDE UP", 3, Weight::bold},
        {foot_capitals(foot_.side) + " \u00b7 board", 2.8},
        {context_.order.dancer, 2.8},
        {"order " + context_.digest + " \u00b7 " + page_label(), least_board_size}};
    for (const std::string* more : {&context_.order.date, &context_.order.pair})
      if (!more->empty()) label.insert(label.begin() + 4, {*more, least_board_size});
    const double gauge =
        std::max(paper_trim_station(foot_), foot_.thinned ? foot_.thinned->to : 0.0);
    const double room = front_ - gauge - 10;
    while (label.size() > 1 && height_of(label) > room)
      label.erase(label.end() - 2);
    if (height_of(label) > room) return;

    const double middle = gauge + 5 + room / 2;
    const double top = middle + height_of(label) / 2;
    double narrowest = 1e9;
    for (double s = middle - height_of(label) / 2; s <= top; ++s)
      narrowest = std::min({narrowest, half(Edge::medial, s), half(Edge::lateral, s)});
    const double width = 2 * narrowest - 6;
    page_.label_lines({centre_, place_.origin.y + top}, width, label);
  }

  /// Fills what comes off now. What may come off after trying stays white: it is not cut yet.
  void hatch() {
    const auto& piece = foot_.pieces_to_cut.removed;
    if (!piece) return;
    for (Polyline& line : hatch_lines(placed(piece->outline, place_), hatch_spacing, spared_))
      page_.stroke(LineKind::hatch, std::move(line));
  }

  double side_names_station() const {
    const double ahead = paper_trim_station(foot_) + 24;
    const double thinned = foot_.thinned ? foot_.thinned->to + 20 : 0; // its pointer passes below
    if (foot_.outline.closed()) return std::min(std::max(ahead, thinned), front_ - 14);
    // A board that is in the shoe is drawn at its rear only. There the words stand beside the
    // removed part, below the pointers, which go down from the lines.
    constexpr double below_lines = 7;
    const SolvedTrim& trim = *foot_.trim;
    const CutLine& lowest = trim.first_cut ? *trim.first_cut : trim.final_cut;
    const double half = page_.width_of("little-toe side", side_name_size) / 2;
    const double highest = std::min(lowest.medial, lowest.lateral) - below_lines - half;
    return std::max(half + 1, std::min(trim.final_cut.centre / 2, highest));
  }

  /// The cut as ruler numbers, in large type: they hold whatever the printer did. Returns the y
  /// below the box.
  double number_box() {
    const SolvedTrim& trim = *foot_.trim;
    const double x = column_ + 3.5;
    const double width = right_ - column_;
    const std::array<double, 3> columns{column_ + 0.46 * width, column_ + 0.67 * width,
                                        column_ + 0.88 * width};
    const bool in_inches = context_.units == Units::inch;
    page_.text({x, top_ - 5.4}, "Cut off, with a ruler from the heel end, mm", 3.3, Weight::bold);
    const std::array<const char*, 3> names =
        left_foot() ? std::array{"little-toe side", "centre", "big-toe side"}
                    : std::array{"big-toe side", "centre", "little-toe side"};
    for (std::size_t i = 0; i < 3; ++i)
      page_.text({columns[i], top_ - 10.6}, names[i], 2.5, Weight::regular, Align::centre);
    double y = top_ - 11.6;
    const auto row = [&](const char* name, const CutLine& line, const std::optional<double>& known,
                         double size, Weight weight) {
      y -= size * cap_height + 2.4;
      page_.text({x, y}, name, 3.6, weight);
      if (known) {
        page_.text({x + 19, y}, doubt_text(*known, Units::mm), 3, Weight::regular);
        if (in_inches)
          page_.text({x + 19, y - 3.4}, "\u00b1" + inches(*known, Rounding::up) + " in",
                     least_board_size, Weight::regular);
      }
      const std::array values = left_foot() ? std::array{line.lateral, line.centre, line.medial}
                                            : std::array{line.medial, line.centre, line.lateral};
      if (in_inches) y -= 3.4;
      for (std::size_t i = 0; i < 3; ++i) {
        page_.text({columns[i], y + (in_inches ? 3.4 : 0)}, ruler_text(values[i], Rounding::down),
                   size, weight, Align::centre);
        if (in_inches)
          page_.text({columns[i], y}, inches(values[i], Rounding::down) + " in", 2.6,
                     Weight::regular, Align::centre);
      }
    };
    const double known = trim.final_doubt().expanded();
    if (trim.first_cut) row("1 first", *trim.first_cut, {}, 8.4, Weight::bold);
    row(trim.first_cut ? "2 final" : "file to", trim.final_cut, known, 6,
        trim.first_cut ? Weight::regular : Weight::bold);

    y -= 3.6;
    const double room = width - 7;
    for (const auto& [words, weight] : number_notes())
      y = page_.paragraph({x, y}, room, words, in_inches ? least_board_size : 2.8, weight) - 0.5;
    const Box box{column_, y - 1.6, right_, top_};
    page_.rectangle(LineKind::frame, box);
    return box.bottom;
  }

  std::vector<std::pair<std::string, Weight>> number_notes() const {
    const SolvedTrim& trim = *foot_.trim;
    const ToleranceWish& wish = context_.order.tolerances;
    const double witness = trim.witness.centre;
    const auto from_witness = [&](double station) {
      return length_text(witness - station, context_.units, Rounding::up);
    };
    std::string back = "back from the witness line at " +
                       whole_length_text(witness, context_.units) + ", along the centre: ";
    if (trim.first_cut) back += "first " + from_witness(trim.first_cut->centre) + ", ";
    back += "final " + from_witness(trim.final_cut.centre) + ", stop band " +
            from_witness(trim.stop_from.centre) + ", stop line " + from_witness(trim.stop.centre);
    std::string keep;
    const auto kept = [&](double mm) { return length_text(mm, context_.units, Rounding::up); };
    const std::string whole = foot_.outline.length()
                                  ? short_length_text(*foot_.outline.length(), context_.units)
                                  : std::string();
    if (foot_.pieces_to_cut.kept_length)
      keep = "keep " + kept(*foot_.pieces_to_cut.kept_length) + " " +
             tolerance_text(keep_tolerance(wish)) + " after the first cut, " +
             kept(*foot_.pieces.kept_length) + " after the final one, of " + whole + ". ";
    if (!trim.first_cut && foot_.pieces.kept_length)
      keep = "keep " + kept(*foot_.pieces.kept_length) + " " +
             tolerance_text(keep_tolerance(wish)) + " of " + whole + ". ";
    keep += "The right place for this dancer is ";
    if (trim.learned) keep += learned_words(*trim.learned, context_.units) + ", ";
    keep += "known to " + doubt_text(trim.right_U, context_.units) +
            (trim.first_cut ? ": first cut, then try" : ": file a little, then try");
    std::vector<std::pair<std::string, Weight>> notes{
        {"every cut " + tolerance_text(cut_off_tolerance(wish)) + ": up to " +
             short_figure(wish.cut) + " short of the line, never past it",
         Weight::bold},
        {back, Weight::regular},
        {keep, Weight::regular}};
    if (trim.learned)
      notes.emplace_back("by the readings alone: " + readings_alone_words(trim, context_.units),
                         Weight::regular);
    if (foot_.layers)
      notes.insert(notes.begin(),
                   {"Cut " + of_layers(*foot_.layers) +
                        " layers only, from the foot side: the rest goes on to the heel.",
                    Weight::bold});
    if (foot_.thinned)
      notes.emplace_back("Also thinned " + thinned_words({&foot_, &order_}, context_) +
                             ": mark that before anything is cut.",
                         Weight::bold);
    return notes;
  }

  /// Returns the top of steps and cautions.
  double cutting_notes() {
    const std::string caution =
        "A cut board cannot be put back, and it changes what holds the dancer up. Students: only "
        "with a teacher or fitter. Growing feet, pain or an injury: ask a licensed physiotherapist "
        "or podiatrist first. Moulded plastic boards are not cut. Sharp knife, cut-proof glove, "
        "away from the hand. All figures are estimates.";
    const bool twice = foot_.trim->first_cut.has_value();
    const bool loose = order_.shoe.board.state == BoardState::loose;
    const std::string end = put_back_words({&foot_, &order_}, context_.units);
    const std::string put_back = end.empty() ? ""
                                             : "Put the board back where it was, its end " + end +
                                                   " from the inside of the shoe's back. ";
    const std::vector<std::string> steps{
        loose ? "Mark L and R in both shoes and on both boards."
              : "Mark L and R in both shoes. Peel the liner back. Pull out the nail or tack.",
        "Draw the witness line across the board.",
        "Lay this paper, the gauge, on the board, foot side up, heel end to heel end. Prick where "
        "the line "
        "meets each edge; join the pricks with a steel rule.",
        cutting_step(loose),
        std::string(twice ? "First cut, tape" : "File back a little at a time, tape") +
            " the edge. " + put_back + "Try: ribbons basted, liner in, both hands on the barre.",
        "Still breaks too low: " +
            (twice ? short_length_text(cut_step, context_.units, Rounding::down) + " more at a time"
                   : "go on") +
            ", to the final cut at most; " +
            (foot_.trim->may_enter_band ? "into the stop band only as a fitter allowed."
                                        : "never into the stop band."),
        "After the last cut only: " + finishing_words() + "seal, glue down, weight overnight."};
    return notes("Cutting", steps, caution);
  }

  std::string cutting_step(bool loose) const {
    const std::string lift = short_length_text(lift_past_cut, context_.units) + " past the cut.";
    if (foot_.layers)
      return "Part the layers at the heel end. Slide a steel rule under those that come off, to "
             "stop the knife; cut in several light passes. Lift them no more than " +
             lift;
    if (loose)
      return "Hold a steel rule on the part that stays, along the line; cut in several light "
             "passes.";
    return "Slide a steel rule between board and outer sole; cut in several light passes. Lift the "
           "board no more than " +
           lift;
  }

  std::vector<ColumnLabel> named_lines() const {
    const SolvedTrim& trim = *foot_.trim;
    const auto right_end = [&](const CutLine& line) {
      return place_(left_foot() ? line.medial_end : line.lateral_end);
    };
    const auto off = [&](double mm) { return length_text(mm, context_.units, Rounding::down); };
    const double gauge = paper_trim_station(foot_);
    std::vector<ColumnLabel> labels{
        {LineKind::paper_trim, place_({gauge, foot_.outline.edge_y(right_edge(foot_.side), gauge)}),
         "cut the paper here if the gauge goes into the shoe"},
        {LineKind::witness, right_end(trim.witness),
         "witness line at " + whole_length_text(trim.witness.centre, context_.units) +
             ": draw it first, edge to edge"},
        {LineKind::stop, right_end(trim.stop),
         "STOP at " +
             doubted_text(trim.stop.centre, trim.doubt.stop.expanded(), context_.units,
                          Rounding::down) +
             at_centre_words(trim.stop) + "; grey band from " + off(trim.stop_from.centre) +
             (trim.may_enter_band             ? ": as a fitter allowed"
              : context_.units == Units::inch ? ": no cut"
                                              : ": nothing is cut there")}};
    if (const auto& thinned = foot_.thinned; thinned && thinned->to < front_) {
      const double end = foot_.outline.edge_y(right_edge(foot_.side), thinned->to);
      labels.push_back({LineKind::thinned, place_({thinned->to, end}), thinning_words()});
    }
    if (trim.bevel) labels.push_back({LineKind::bevel, right_end(*trim.bevel), bevel_words()});
    if (trim.rounded())
      labels.push_back({LineKind::corner, place_(left_foot() ? trim.end.front() : trim.end.back()),
                        "round the corners after the last cut: radius " + corner_words()});
    if (is_lifted(foot_))
      labels.push_back({LineKind::lift_limit, right_end(trim.lift_limit), lift_words()});
    labels.push_back(
        {LineKind::final_cut, right_end(trim.final_cut),
         (trim.first_cut ? "2 FINAL at " : "file back to ") +
             doubted_text(trim.final_cut.centre, trim.final_doubt().expanded(), context_.units,
                          Rounding::down) +
             at_centre_words(trim.final_cut) +
             (trim.first_cut ? " (light grey), only after trying" : ", a little at a time"),
         trim.first_cut ? Weight::regular : Weight::bold});
    if (trim.first_cut)
      labels.push_back({LineKind::first_cut, right_end(*trim.first_cut),
                        "1 FIRST at " + off(trim.first_cut->centre) +
                            at_centre_words(*trim.first_cut) + ": cut on its heel side, then try",
                        Weight::bold});
    return labels;
  }

  /// The bevel is measured from the board's present end: the first cut may have been the last.
  std::string finishing_words() const {
    const SolvedTrim& trim = *foot_.trim;
    std::string words;
    if (trim.rounded()) words += "round the corners, ";
    if (trim.bevel)
      words += "bevel the new end" + std::string(foot_.layers ? " of the cut layers" : "") +
               " over its last " +
               short_length_text(order_.alterations.shank->bevel, context_.units) +
               (foot_.layers ? ", down to the layer that stays, " : ", ");
    return words;
  }

  std::string thinning_words() const {
    return "thin from " + length_text(foot_.thinned->from, context_.units) + " to " +
           length_text(foot_.thinned->to, context_.units) +
           (context_.units == Units::inch ? ": mark both first"
                                          : ": mark both before anything is cut");
  }

  std::string corner_words() const {
    const double radius = order_.alterations.shank->corner;
    return short_length_text(radius, context_.units) + " " +
           tolerance_text(dimension_tolerance(context_.order.tolerances, radius));
  }

  /// Ahead of the stop band nothing is cut; what is done there says so.
  bool past_stop_band(const CutLine& line) const {
    return line.centre > foot_.trim->stop_from.centre;
  }

  std::string lift_words() const {
    return std::string("lift limit") + (foot_.trim->first_cut ? " of the final cut" : "") +
           ": raise the " + (foot_.layers ? "cut layers" : "board") + " no farther than this" +
           (past_stop_band(foot_.trim->lift_limit) ? "; lift only, no cut" : "");
  }

  std::string bevel_words() const {
    const ToleranceWish& wish = context_.order.tolerances;
    const double length = order_.alterations.shank->bevel;
    // Thinning past the stop line leaves the board's length as it is.
    const std::string past = past_stop_band(*foot_.trim->bevel) ? " (thinned, not cut)" : "";
    const std::string long_words = short_length_text(length, context_.units) + " " +
                                   tolerance_text(dimension_tolerance(wish, length)) + " long";
    // Before the last cut the end is not there yet.
    const std::string bevel = foot_.trim->first_cut ? "last, bevel the " : "bevel the ";
    if (foot_.layers)
      return bevel + "end of the cut layers from here" + past + ": " + long_words +
             ", down to the layer that stays";
    std::string words = bevel + "foot side from here" + past + ": " + long_words;
    if (const auto& edge = foot_.trim->bevel_edge_thickness)
      words += ", edge " + thickness_text(*edge) + " " +
               tolerance_text(dimension_tolerance(wish, *edge));
    return words;
  }

  const FootOrder& order_;
  std::vector<Stroke> drawn_; ///< the board's lines on the page
  double front_ = 0;          ///< station where the drawn outline ends
};

} // namespace

std::vector<Stroke> board_lines(const FootSolution& foot, double front) {
  if (!foot.trim) return thinned_board_lines(foot, front);
  const SolvedTrim& trim = *foot.trim;
  const BoardOutline& outline = foot.outline;
  std::vector<Stroke> lines;
  const auto add = [&](LineKind kind, Polyline points, bool closed = false) {
    lines.push_back({kind, std::move(points), closed});
  };
  const double gauge = paper_trim_station(foot);
  add(LineKind::centre, {{0, 0}, {gauge, 0}});
  Polyline paper{{gauge, outline.edge_y(Edge::medial, gauge)},
                 {gauge, outline.edge_y(Edge::lateral, gauge)}};
  // A board in the shoe: ahead of what is known the gauge keeps the last width.
  if (!outline.closed() && gauge > outline.last_station()) {
    const double last = outline.last_station();
    paper.insert(paper.begin(), {last, outline.edge_y(Edge::medial, last)});
    paper.push_back({last, outline.edge_y(Edge::lateral, last)});
  }
  add(LineKind::paper_trim, std::move(paper));
  // Shade the band that holds the right line at 95 %, and the stop band, by lines that touch.
  const auto shade = [&](LineKind kind, BoardStation from, BoardStation to) {
    const double step = line_style(kind).width;
    for (BoardStation at = std::max(BoardStation(0), from) + step / 2; at < to; at = at + step)
      if (const auto line = cut_line(outline, at, trim.skew)) add(kind, across(*line));
  };
  shade(LineKind::band, trim.band().from, trim.band().to);
  shade(LineKind::stop_band, trim.stop_from.centre, trim.stop.centre);
  if (is_lifted(foot)) add(LineKind::lift_limit, across(trim.lift_limit));
  if (trim.bevel) add(LineKind::bevel, across(*trim.bevel));
  for (Stroke& line : thinning_lines(foot, front))
    lines.push_back(std::move(line));
  if (outline.closed() && front >= *outline.length())
    add(LineKind::edge, foot.whole, true);
  else
    add(LineKind::edge, outline.open_line(front));
  add(LineKind::witness, across(trim.witness));
  add(LineKind::stop, across(trim.stop));
  if (trim.rounded())
    for (const Polyline& corner : trim.corners)
      add(LineKind::corner, corner);
  add(LineKind::final_cut, across(trim.final_cut));
  if (trim.first_cut) add(LineKind::first_cut, across(*trim.first_cut));
  return lines;
}

BoardSheet board_sheet(const SheetContext& context, const FootSolution& foot,
                       const FootOrder& order, std::size_t number, const std::string& warning) {
  if (!foot.trim) return thinned_board_sheet(context, foot, number, warning);
  return BoardLayout(context, foot, order, number, warning).draw();
}

} // namespace shankline
