#include "export/work_orders/chart_sheet.hpp"

#include "export/drawing/template.hpp"
#include "export/work_orders/chart_page.hpp"
#include "export/work_orders/thickness_chart.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

namespace shankline {
namespace {

/// A place of the board's end that has a name: where it is on the foot, and what the knife takes
/// off there.
struct MarkedPlace {
  std::string words;
  double station;
  double cut_off; ///< mm, on the board's centre line
  LineKind kind = LineKind::leader;
  Weight weight = Weight::regular;
};

class CutChart : ChartPage {
public:
  CutChart(const SheetContext& context, const FootSolution& foot, const BreakChart& chart,
           std::size_t number)
      : ChartPage(context, foot, chart, number), trim_(*foot.trim) {}

  Page draw() && {
    const double y = head(sentence(chart_.contact) + " That is known to " + left_doubt() + " mm.",
                          "Cut", chart_.contact.ball - trim_.station);
    chart(y - 4);
    return std::move(page_).finish();
  }

private:
  FootStation station_of(const CutLine& line) const { return foot_.frames.on_foot(line.centre); }

  /// Board left behind the arch break is as well known as the stop line, which is counted from it.
  std::string left_doubt() const { return whole_doubt_words(trim_.doubt.stop); }

  /// Fractions of uncut over the trim station, the window shaded.
  void chart(double top) {
    const Box box = curves_box(top, "What other cuts would do, as fractions of the uncut shoe");
    if (chart_.points.size() < 2) return;
    const double stop = std::max(station_of(trim_.stop), trim_.station);
    constexpr double past_stop = 3;
    const double from = chart_.points.front().station;
    const std::vector<CurvePoint> points = charted_points();
    const ChartAxes axes{box, from, std::max(from + 10, stop + past_stop), highest(points)};
    most_left_ = std::ceil((foot_.arch.break_at - from) / 10) * 10;
    shade(axes);
    page_.rectangle(LineKind::frame, axes.box);
    scales(axes);
    const double below = marks(axes);
    std::vector<ChartCurve> curves = contact_curves(axes, points, trim_.station);
    curves.push_back(left_curve(axes));
    ChartPage::draw(axes, curves);
    band_names(axes, curves);
    notes(
        below - 2,
        "Fine upright lines: the window; past the final line a cut is only for a teacher or "
        "fitter to decide. Grey: the stop band. The thick dotted line falls: "
        "each millimetre more that is cut leaves a millimetre less of board behind the arch break "
        "(scale on the right), and nothing puts it back. Heel pry: how hard the shoe pries the "
        "heel out of its back; heel gap: how far it stands off where the heel begins. The largest "
        "gap, under the arch, hardly changes with the cut. Figures and upright bars: at the final "
        "line, known to \u00b1 (95 %).",
        "try the first cut before the final one.");
  }

  double curves_to() const { return charted_to(foot_); }

  std::vector<CurvePoint> charted_points() const {
    std::vector<CurvePoint> points;
    for (const ChartPoint& p : chart_.points)
      if (p.station <= curves_to())
        points.push_back({p.station, p.break_at, p.gap, p.heel_gap, p.heel_pry});
    return points;
  }

  /// The y of a length of board that is left behind the arch break.
  double y_left(const ChartAxes& axes, double mm) const {
    return axes.y(mm / most_left_ * axes.most);
  }

  ChartCurve left_curve(const ChartAxes& axes) const {
    const double break_at = foot_.arch.break_at;
    const double to = std::min(axes.to, break_at);
    return {LineKind::left_curve,
            "board left behind",
            "the break: " + figure(break_at - trim_.station, 0) + " " + left_doubt() + " mm",
            {{axes.x(axes.from), y_left(axes, break_at - axes.from)},
             {axes.x(to), y_left(axes, break_at - to)}}};
  }

  /// Shades the window where a cut may be, and the stop band.
  void shade(const ChartAxes& axes) {
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

  void scales(const ChartAxes& axes) {
    const Box& box = axes.box;
    fraction_scale(axes);
    for (double mm = 0; mm <= most_left_ + step_rounding; mm += 10) {
      const double y = y_left(axes, mm);
      page_.stroke(LineKind::ruler, {{box.right, y}, {box.right + 1.6, y}});
      page_.text({box.right + 2.6, y - 0.9}, figure(mm, 0), 2.5);
    }
    page_.text({box.right + 2.6, box.top + 2.2}, "mm left", 2.5);
    for (double at = std::ceil(pose(axes.from) / 10) * 10; at <= pose(axes.to); at += 10)
      tick(axes, foot_.frames.on_foot(PosedStation(at)), figure(at, 0));
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
  double marks(const ChartAxes& axes) {
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

  /// Upright words in the stop band and past it, where no curve runs.
  void band_names(const ChartAxes& axes, const std::vector<ChartCurve>& drawn) {
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
        for (const ChartCurve& curve : drawn)
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

  const SolvedTrim& trim_;
  double most_left_ = 0; ///< board left behind the arch break at the frame's top, mm
};

} // namespace

Page chart_sheet(const SheetContext& context, const FootSolution& foot, const BreakChart& chart,
                 std::size_t number) {
  return foot.trim ? CutChart(context, foot, chart, number).draw()
                   : thickness_chart_sheet(context, foot, chart, number);
}

} // namespace shankline
