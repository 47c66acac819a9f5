#include "export/work_orders/chart_sheet.hpp"

#include "export/drawing/template.hpp"
#include "export/wording/foot_words.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/order/reading_guide.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

namespace shankline {
namespace {

constexpr double rounding = 1e-9; // a sum of steps may fall that far short of a whole

/// Foot and shoe in profile, ball at the origin, chord from ball to heel along +x, the foot above.
class Profile {
public:
  explicit Profile(const ShoeContact& shoe) : shoe_(shoe) {
    const Point heel = sole_point(shoe.problem.arch, shoe.problem.end);
    const double chord = std::atan2(heel.y, heel.x);
    // The sole turns upwards along u; turned over, the arch stands up and the foot is above it.
    upright_ = {{0, 0}, {std::cos(chord), std::sin(chord)}, {std::sin(chord), -std::cos(chord)}};
  }

  Point on_foot(double u) const { return upright_(sole_point(shoe_.problem.arch, u)); }

  std::vector<Stroke> lines(double board_end) const {
    Polyline foot;
    constexpr int steps = 160;
    for (int i = 0; i <= steps; ++i)
      foot.push_back(on_foot(shoe_.problem.end * i / steps));
    Polyline sole;
    Polyline board;
    // Along the forefoot the shoe is held to the foot.
    for (double u = 0; u < shoe_.problem.clamp; u += 1) {
      sole.push_back(on_shoe(u, 0));
      board.push_back(sole.back());
    }
    const ContactCurves& curves = shoe_.solution.curves;
    for (std::size_t i = 0; i < curves.u.size(); ++i) {
      if (i > 0 && curves.u[i] == curves.u[i - 1]) continue;
      sole.push_back(on_shoe(curves.u[i], curves.gap[i]));
      if (curves.u[i] <= board_end + rounding) board.push_back(sole.back());
    }
    return {{LineKind::shoe, std::move(sole), false},
            {LineKind::board, std::move(board), false},
            {LineKind::foot, std::move(foot), false}};
  }

private:
  Point on_shoe(double u, double gap) const {
    const Point p = sole_point(shoe_.problem.arch, u);
    const double angle = tangent_angle(shoe_.problem.arch, u);
    // The shoe's own line a little outside the foot's, so that both can be seen where they touch.
    constexpr double apart = 0.9;
    const double off = gap + apart;
    return upright_({p.x - off * std::sin(angle), p.y + off * std::cos(angle)});
  }

  const ShoeContact& shoe_;
  Placement upright_;
};

/// "3.2 ±1.1", never ±0.0.
std::string doubted(double value, const Uncertain* doubt) {
  constexpr double least = 0.1; // what one decimal can say
  const std::string words = figure(value);
  return doubt ? words + " \u00b1" + figure(std::max(least, doubt->expanded())) : words;
}

/// The frame of the curves: stations across, fractions of the uncut shoe upwards, and for the board
/// that is left millimetres upwards.
struct Axes {
  Box box;
  double from; ///< stations
  double to;
  double most;      ///< fraction at the top
  double most_left; ///< mm at the top

  double x(double station) const {
    return box.left + (station - from) / (to - from) * (box.right - box.left);
  }
  double y(double fraction) const {
    return box.bottom + std::clamp(fraction, 0.0, most) / most * (box.top - box.bottom);
  }
  double y_left(double mm) const { return y(mm / most_left * most); }
};

struct Curve {
  LineKind kind;
  std::string words;
  std::string figures; ///< at the final line, with its doubt
  Polyline points;
  double label_y = 0;
};

/// A place of the board's end that has a name: where it is on the foot, and what the knife takes
/// off there.
struct MarkedPlace {
  std::string words;
  double station;
  double cut_off; ///< mm, on the board's centre line
  LineKind kind = LineKind::leader;
  Weight weight = Weight::regular;
};

class ChartLayout {
public:
  ChartLayout(const SheetContext& context, const FootSolution& foot, const BreakChart& chart,
              std::size_t number)
      : context_(context), foot_(foot), trim_(*foot.trim), chart_(chart),
        page_(context, number, "Break chart, " + foot_name(foot.side) + " foot") {}

  Page draw() && {
    page_.label("chart " + foot_letter(foot_.side));
    double y = page_.title_strip(foot_letter(foot_.side), "") - 5;
    const double width = page_.right() - page_.left();
    y = page_.paragraph(
            {page_.left(), y}, width,
            with_inches(sentence(chart_.contact) + " That is known to " + left_doubt() + " mm.",
                        context_.units),
            3.8, Weight::bold) -
        2;
    const ContactDoubt* doubt = chart_.doubt ? &*chart_.doubt : nullptr;
    const ShoeContact& uncut = chart_.contact.uncut;
    const ShoeContact& cut = *chart_.contact.cut;
    y = profile("Uncut", uncut, uncut.problem.end,
                doubt ? figures(uncut.figures, &doubt->uncut_break_at, &doubt->uncut_gap,
                                &doubt->uncut_heel_gap, {})
                      : figures(uncut.figures, nullptr, nullptr, nullptr, {}),
                y);
    y = profile("Cut", cut, chart_.contact.ball - trim_.station,
                doubt ? figures(cut.figures, &doubt->break_at, &doubt->gap, &doubt->heel_gap,
                                doubt->heel_gap_up_to)
                      : figures(cut.figures, nullptr, nullptr, nullptr, {}),
                y);
    chart(y - 4);
    return std::move(page_).finish();
  }

private:
  /// One profile under a heading; returns the y below it.
  double profile(const char* name, const ShoeContact& shoe, double board_end,
                 const std::string& figures, double top) {
    const Profile shape(shoe);
    const std::vector<Stroke> lines = shape.lines(board_end);
    const Box box = bounds(lines, {{0, 0}, {1, 0}, {0, 1}});
    const double room = page_.right() - page_.left() - 8;
    const double scale = box.right - box.left <= room ? 1 : 0.5;
    page_.text({page_.left(), top - 3.4}, name, 3.6, Weight::bold);
    page_.text({page_.left() + 16, top - 3.4}, figures, 2.8);
    page_.text({page_.right(), top - 3.4}, scale == 1 ? "true size" : "half size", 2.8,
               Weight::regular, Align::right);
    const Placement place{
        {page_.left() + 4 - box.left * scale, top - 13 - box.top * scale}, {scale, 0}, {0, scale}};
    page_.strokes(lines, place);
    places(shoe, shape, place);
    const double below = place.origin.y + box.bottom * scale - 3;
    page_.text({place.origin.x - 4, below - 2.6}, "ball: middle of the big-toe joint", 2.6);
    page_.text({place.origin.x + box.right * scale, below - 2.6}, "back of the heel", 2.6,
               Weight::regular, Align::right);
    return below - 8;
  }

  /// Arch break and heel front, on the foot, named as on the form.
  void places(const ShoeContact& shoe, const Profile& shape, const Placement& place) {
    const std::pair<double, const char*> named[]{{shoe.problem.arch.to_break, "arch_break"},
                                                 {shoe.problem.heel_front, "heel_front"}};
    for (const auto& [u, key] : named) {
      const Point at = place(shape.on_foot(u));
      page_.stroke(LineKind::leader, {{at.x, at.y + 0.8}, {at.x, at.y + 3.4}});
      page_.text({at.x, at.y + 4.2}, std::string(reading_guide(key)->name), 2.5, Weight::regular,
                 Align::centre);
    }
  }

  double pose(double station) const { return foot_.frames.posed(FootStation(station)); }
  FootStation station_of(const CutLine& line) const { return foot_.frames.on_foot(line.centre); }

  /// Board left behind the arch break is as well known as the stop line, which is counted from it.
  std::string left_doubt() const { return whole_doubt_words(trim_.doubt.stop); }

  std::string figures(const FootContactFigures& f, const Uncertain* break_at, const Uncertain* gap,
                      const Uncertain* heel_gap, const std::optional<double>& up_to) const {
    std::string words = f.breaks_in_arch
                            ? "bends at " + figure(pose(f.break_at), 0) +
                                  (break_at ? " " + whole_doubt_words(*break_at) : std::string())
                            : std::string("does not bend in the arch");
    words += "; stands off " + doubted(f.gap, gap) + " under the arch, ";
    if (!up_to) return words + doubted(f.heel_gap, heel_gap) + " at the heel front";
    return words + (std::isfinite(*up_to) ? "up to " + figure(*up_to) : "not known how far") +
           " at the heel front";
  }

  /// Fractions of uncut over the trim station, the window shaded.
  void chart(double top) {
    page_.text({page_.left(), top}, "What other cuts would do, as fractions of the uncut shoe", 3.4,
               Weight::bold);
    if (chart_.points.size() < 2) return;
    constexpr double labels = 50;
    const double stop = std::max(station_of(trim_.stop), trim_.station);
    constexpr double past_stop = 3;
    const double from = chart_.points.front().station;
    const Axes axes{{page_.left() + 14, std::max(page_.bottom() + 48, top - 104),
                     page_.right() - labels, top - 10},
                    from,
                    std::max(from + 10, stop + past_stop),
                    highest(),
                    std::ceil((foot_.arch.break_at - from) / 10) * 10};
    shade(axes);
    page_.rectangle(LineKind::frame, axes.box);
    scales(axes);
    const double below = marks(axes);
    const std::vector<Curve> drawn = curves(axes);
    band_names(axes, drawn);
    notes(below - 2);
  }

  double curves_to() const { return charted_to(foot_); }

  /// The top of the axis: whole fifths up to the highest curve, at most 2; higher parts of curves
  /// are cut off.
  double highest() const {
    double most = 1.2;
    for (const ChartPoint& p : chart_.points)
      if (p.station <= curves_to()) most = std::max({most, p.gap, p.heel_gap, p.heel_pry});
    return std::min(std::ceil(most * 5) / 5, 2.0);
  }

  /// Shades the window where a cut may be, and the stop band.
  void shade(const Axes& axes) {
    const auto line = [&](LineKind kind, double x) {
      page_.stroke(kind, {{x, axes.box.bottom}, {x, axes.box.top}});
    };
    const double band = axes.x(std::clamp(station_of(trim_.stop_from).mm(), axes.from, axes.to));
    const double stop = axes.x(station_of(trim_.stop));
    const double left = axes.x(std::max(axes.from, trim_.window.from.mm()));
    for (double x = left; x <= band; x += 2.4)
      line(LineKind::window, x);
    const double step = line_style(LineKind::stop_band).width;
    for (double x = band + step / 2; x < stop; x += step)
      line(LineKind::stop_band, x);
    line(LineKind::stop, stop);
  }

  void scales(const Axes& axes) {
    const Box& box = axes.box;
    for (double fraction = 0; fraction <= axes.most + rounding; fraction += 0.2) {
      const double y = axes.y(fraction);
      page_.stroke(LineKind::ruler, {{box.left - 1.6, y}, {box.left, y}});
      page_.text({box.left - 2.6, y - 0.9}, figure(fraction), 2.5, Weight::regular, Align::right);
    }
    for (double mm = 0; mm <= axes.most_left + rounding; mm += 10) {
      const double y = axes.y_left(mm);
      page_.stroke(LineKind::ruler, {{box.right, y}, {box.right + 1.6, y}});
      page_.text({box.right + 2.6, y - 0.9}, figure(mm, 0), 2.5);
    }
    page_.text({box.right + 2.6, box.top + 2.2}, "mm left", 2.5);
    for (double at = std::ceil(pose(axes.from) / 10) * 10; at <= pose(axes.to); at += 10) {
      const double x = axes.x(foot_.frames.on_foot(PosedStation(at)));
      page_.stroke(LineKind::ruler, {{x, box.bottom - 1.6}, {x, box.bottom}});
      page_.text({x, box.bottom - 4.6}, figure(at, 0), 2.5, Weight::regular, Align::centre);
    }
    page_.text({(box.left + box.right) / 2, box.bottom - 8.4},
               foot_.frames.pose.mm == 0 ? "where the board ends, mm from the back of the heel"
                                         : "where the board ends, mm from the shoe's back seam",
               2.7, Weight::regular, Align::centre);
  }

  /// The lines to cut first, then the stop band, then the other rules as far as they may be cut.
  std::vector<MarkedPlace> marked_places() const {
    std::vector<MarkedPlace> places{{trim_.first_cut ? "2 FINAL" : "FILE TO", trim_.station,
                                     trim_.final_cut.centre, LineKind::final_cut, Weight::bold}};
    const auto add = [&](const char* words, const CutLine& line, LineKind kind, Weight weight) {
      places.push_back({words, station_of(line), line.centre, kind, weight});
    };
    if (trim_.first_cut) add("1 FIRST", *trim_.first_cut, LineKind::first_cut, Weight::bold);
    add("STOP", trim_.stop, LineKind::stop, Weight::bold);
    add("", trim_.stop_from, LineKind::stop, Weight::regular);
    const OtherRules& rules = trim_.other_rules;
    const auto rule = [&](PosedStation posed, const char* words) {
      const FootStation station = foot_.frames.on_foot(posed);
      if (std::abs(station - trim_.station) > 0.5 && station <= curves_to())
        places.push_back({words, station, foot_.frames.on_board(station)});
    };
    rule(rules.heel_front, "edge");
    rule(rules.short_reach, "short");
    rule(rules.tucked_reach, "tucked");
    if (rules.three_quarter) rule(*rules.three_quarter, "3/4");
    return places;
  }

  /// Names above the frame, ruler numbers below it; returns the y below them. What comes first in
  /// the list is named first, the rest where there is room beside it.
  double marks(const Axes& axes) {
    const Box& box = axes.box;
    constexpr double size = 2.6;
    const bool in_inches = context_.units == Units::inch;
    const double numbers = box.bottom - 13;
    page_.text({page_.left(), numbers}, "cut off", 2.7, Weight::bold);
    std::vector<std::pair<double, double>> names_taken;
    std::vector<std::pair<double, double>> numbers_taken{
        {page_.left(), page_.left() + page_.width_of("cut off", 2.7, Weight::bold) + 1}};
    const auto has_room = [](auto& taken, double x, double width) {
      const double half = width / 2 + 0.7;
      const bool room = std::none_of(taken.begin(), taken.end(), [&](const auto& other) {
        return x - half < other.second && other.first < x + half;
      });
      if (room) taken.emplace_back(x - half, x + half);
      return room;
    };
    for (const MarkedPlace& mark : marked_places()) {
      if (mark.station < axes.from || mark.station > axes.to) continue;
      const double x = axes.x(mark.station);
      const bool stop = mark.kind == LineKind::stop;
      if (!stop) page_.stroke(mark.kind, {{x, box.bottom}, {x, box.top + 1}});
      if (!mark.words.empty() &&
          has_room(names_taken, x, page_.width_of(mark.words, size, mark.weight)))
        page_.text({x, box.top + 2.2}, mark.words, size, mark.weight, Align::centre);
      const std::string number = ruler_text(mark.cut_off, Rounding::down);
      const std::string inch = inches(mark.cut_off, Rounding::down) + " in";
      const double wide = std::max(page_.width_of(number, size + 0.3, mark.weight),
                                   in_inches ? page_.width_of(inch, 2.5) : 0);
      if (!has_room(numbers_taken, x, wide)) continue;
      page_.text({x, numbers}, number, size + 0.3, mark.weight, Align::centre);
      if (in_inches) page_.text({x, numbers - 3.6}, inch, 2.5, Weight::regular, Align::centre);
    }
    const double below = numbers - (in_inches ? 3.6 : 0);
    page_.text({(box.left + box.right) / 2, below - 4},
               "what a ruler reads there, mm from the board's heel end, along its centre line", 2.7,
               Weight::regular, Align::centre);
    return below - 7;
  }

  /// The doubt at the final line: a bar from one end to the other.
  void bar(const Axes& axes, double off, double low, double high) {
    constexpr double half = 0.7;
    const double x = axes.x(trim_.station) + off;
    const double a = axes.y(low);
    const double b = axes.y(high);
    page_.stroke(LineKind::farthest, {{x, a}, {x, b}});
    for (const double y : {a, b})
      page_.stroke(LineKind::farthest, {{x - half, y}, {x + half, y}});
  }
  void bar(const Axes& axes, double off, double value, double expanded,
           const std::optional<double>& up_to) {
    if (!up_to)
      bar(axes, off, value - expanded, value + expanded);
    else if (std::isfinite(*up_to))
      bar(axes, off, 0, *up_to);
  }

  static std::string share_words(double share, const Uncertain* doubt,
                                 const std::optional<double>& up_to) {
    if (up_to) return share_doubt_words(*doubt, up_to);
    return figure(100 * share, 0) + (doubt ? " " + share_doubt_words(*doubt, {}) : " %");
  }

  template <class Value>
  Curve fractions(const Axes& axes, LineKind kind, const char* words, Value ChartPoint::*value,
                  double unit = 1) const {
    Curve curve{kind, words, {}, {}};
    for (const ChartPoint& p : chart_.points)
      if (const double at = p.*value / unit; at <= axes.most && p.station <= curves_to())
        curve.points.push_back({axes.x(p.station), axes.y(at)});
    return curve;
  }

  /// Each is named at the right, with its figure at the final line.
  std::vector<Curve> curves(const Axes& axes) {
    const ContactDoubt* doubt = chart_.doubt ? &*chart_.doubt : nullptr;
    const FootContactFigures& uncut = chart_.contact.uncut.figures;
    const FootContactFigures& cut = chart_.contact.cut->figures;
    std::vector<Curve> all{
        fractions(axes, LineKind::gap_curve, "largest gap", &ChartPoint::gap),
        fractions(axes, LineKind::heel_gap_curve, "heel gap", &ChartPoint::heel_gap),
        fractions(axes, LineKind::heel_pry_curve, "heel pry", &ChartPoint::heel_pry)};
    // Beside the final line, so that the bars do not hide one another.
    const double gap = of_uncut(cut.gap, uncut.gap);
    all[0].figures = doubted(cut.gap, doubt ? &doubt->gap : nullptr) + " mm";
    all[1].figures =
        share_words(chart_.contact.heel_gap_left, doubt ? &doubt->heel_gap_left : nullptr,
                    doubt ? doubt->heel_gap_left_up_to : std::nullopt);
    all[2].figures =
        share_words(chart_.contact.heel_pry_left, doubt ? &doubt->heel_pry_left : nullptr,
                    doubt ? doubt->heel_pry_left_up_to : std::nullopt);
    if (doubt) {
      if (uncut.gap > 0) bar(axes, 1.6, gap, doubt->gap.expanded() / uncut.gap, {});
      bar(axes, -1.6, chart_.contact.heel_gap_left, doubt->heel_gap_left.expanded(),
          doubt->heel_gap_left_up_to);
      bar(axes, 1.6, chart_.contact.heel_pry_left, doubt->heel_pry_left.expanded(),
          doubt->heel_pry_left_up_to);
    }
    if (uncut.breaks_in_arch) {
      all.push_back(
          fractions(axes, LineKind::break_curve, "break", &ChartPoint::break_at, uncut.break_at));
      all.back().figures = "at " + figure(pose(cut.break_at), 0) +
                           (doubt ? " " + whole_doubt_words(doubt->break_at) : std::string());
    }
    Curve left{LineKind::left_curve, "board left behind", {}, {}};
    const double break_at = foot_.arch.break_at;
    const double to = std::min(axes.to, break_at);
    left.points = {{axes.x(axes.from), axes.y_left(break_at - axes.from)},
                   {axes.x(to), axes.y_left(break_at - to)}};
    left.figures = "the break: " + figure(break_at - trim_.station, 0) + " " + left_doubt() + " mm";
    all.push_back(std::move(left));
    for (Curve& curve : all) {
      curve.label_y = curve.points.empty() ? axes.box.bottom : curve.points.back().y;
      if (curve.points.size() > 1) page_.stroke(curve.kind, curve.points);
    }
    curve_labels(axes.box, all);
    return all;
  }

  void curve_labels(const Box& box, std::vector<Curve> all) {
    constexpr double pitch = 8.4;
    std::sort(all.begin(), all.end(),
              [](const Curve& a, const Curve& b) { return a.label_y > b.label_y; });
    double free = box.top - 3;
    for (std::size_t i = 0; i < all.size(); ++i) {
      const double lowest = box.bottom + 3 + pitch * static_cast<double>(all.size() - 1 - i);
      const double y = std::max(std::min(all[i].label_y, free), lowest);
      page_.stroke(all[i].kind, {{box.right + 10, y}, {box.right + 18, y}});
      const double words_at = y + (context_.units == Units::inch ? 1.4 : 0.5);
      const double figures_at = words_at - (context_.units == Units::inch ? 2.9 : 3.5);
      page_.text({box.right + 19.4, words_at}, all[i].words, 2.6, Weight::bold);
      page_.text({box.right + 19.4, figures_at}, all[i].figures, 2.6);
      const std::string both = with_inches(all[i].figures, context_.units);
      if (both != all[i].figures) // the margin has no room for them in one line
        page_.text({box.right + 19.4, figures_at - 2.9}, both.substr(all[i].figures.size() + 1),
                   2.5);
      free = y - pitch;
    }
  }

  /// Upright words in the stop band and past it, where no curve runs.
  void band_names(const Axes& axes, const std::vector<Curve>& drawn) {
    const double band = axes.x(std::clamp(station_of(trim_.stop_from).mm(), axes.from, axes.to));
    const double stop = axes.x(station_of(trim_.stop));
    constexpr double size = 2.8;
    const auto name = [&](double x, const std::string& words) {
      const double half = page_.width_of(words, size, Weight::bold) / 2;
      for (double y = axes.box.top - half - 2; y > axes.box.bottom + half + 2; y -= 1) {
        const Text text{
            {x + size * cap_height / 2, y}, words, size, Weight::bold, Align::centre, 90};
        const Box box = with_air(text_box(text, context_.typeface), 0.8);
        bool free = true;
        for (const Curve& curve : drawn)
          for (std::size_t i = 1; i < curve.points.size(); ++i)
            free = free && !runs_through(curve.points[i - 1], curve.points[i], box);
        if (!free) continue;
        page_.text(text.at, words, size, Weight::bold, Align::centre, 90);
        return;
      }
    };
    const std::string forbidden = "nothing is cut past STOP";
    if (stop - band > 5)
      name((band + stop) / 2, trim_.may_enter_band ? "STOP BAND: only with a fitter's word"
                                                   : "STOP BAND: nothing is cut here");
    if (axes.box.right - stop > 5) name((stop + axes.box.right) / 2, forbidden);
  }

  void notes(double y) {
    const double width = page_.right() - page_.left();
    std::string words =
        "Fine upright lines: where a cut may be. Grey: the stop band. The dotted line falls: each "
        "millimetre more that is cut leaves a millimetre less of board behind the arch break "
        "(scale on the right), and nothing puts it back. Heel pry: how hard the shoe pries the "
        "heel out of its back; heel gap: how far it stands off where the heel begins. The largest "
        "gap, under the arch, hardly changes with the cut. Figures and upright bars: at the final "
        "line, known to \u00b1 (95 %).";
    y = page_.paragraph({page_.left(), y}, width, words, 2.6) - 0.8;
    words =
        "These figures are estimates for choosing between cuts. They come from a model that was "
        "made to show what common practice says and was not measured on dancers: try the first cut "
        "before the final one.";
    if (chart_.doubt && !chart_.doubt->depends_on.empty())
      words += " They depend most on " + chart_.doubt->depends_on + ".";
    if (chart_.contact.board.relative_sd > 0.2)
      words += " Stiffness: " + chart_.contact.board.source + ".";
    page_.paragraph({page_.left(), y}, width, words, 2.6, Weight::bold);
  }

  const SheetContext& context_;
  const FootSolution& foot_;
  const SolvedTrim& trim_;
  const BreakChart& chart_;
  SheetPage page_;
};

} // namespace

Page chart_sheet(const SheetContext& context, const FootSolution& foot, const BreakChart& chart,
                 std::size_t number) {
  return ChartLayout(context, foot, chart, number).draw();
}

} // namespace shankline
