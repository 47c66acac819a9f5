#include "export/work_orders/thickness_chart.hpp"

#include "export/work_orders/chart_page.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

namespace shankline {
namespace {

class ThicknessChart : ChartPage {
public:
  ThicknessChart(const SheetContext& context, const FootSolution& foot, const BreakChart& chart,
                 std::size_t number)
      : ChartPage(context, foot, chart, number), thinned_(*foot.thinned) {}

  Page draw() && {
    const double y = head(sentence(chart_.contact), "Thinned", chart_.contact.uncut.problem.end);
    chart(y - 4);
    return std::move(page_).finish();
  }

private:
  void chart(double top) {
    const Box box =
        curves_box(top, "What other thicknesses would do, as fractions of the uncut shoe");
    if (chart_.thicknesses.size() < 2) return;
    const std::vector<CurvePoint> points = charted_points();
    const ChartAxes axes{box, points.front().at, points.back().at, highest(points)};
    page_.rectangle(LineKind::frame, axes.box);
    scales(axes);
    ordered_line(axes);
    std::vector<ChartCurve> curves = contact_curves(axes, points, thinned_.thickness);
    curves.push_back(stiffness_curve(axes));
    ChartPage::draw(axes, curves);
    notes(
        box.bottom - 13,
        "Thinner is to the right. The thick dotted line falls fast: a board of half the thickness "
        "is an eighth as stiff, and nothing puts the rest back. Heel pry: how hard the shoe pries "
        "the heel out of its back; heel gap: how far it stands off where the heel begins. "
        "Figures and upright bars: at the ordered thickness, known to \u00b1 (95 %).",
        "take a little off, try the shoe, and take more only if it is needed.");
  }

  std::vector<CurvePoint> charted_points() const {
    std::vector<CurvePoint> points;
    for (const ThicknessPoint& p : chart_.thicknesses)
      points.push_back({p.thickness, p.break_at, p.gap, p.heel_gap, p.heel_pry});
    return points;
  }

  ChartCurve stiffness_curve(const ChartAxes& axes) const {
    ChartCurve curve{LineKind::left_curve,
                     "stiffness left",
                     "of the board there: " + figure(100 * std::pow(thinned_.ratio, 3), 0) + " %",
                     {}};
    for (const ThicknessPoint& p : chart_.thicknesses)
      curve.points.push_back({axes.x(p.thickness), axes.y(p.stiffness_left)});
    return curve;
  }

  void scales(const ChartAxes& axes) {
    fraction_scale(axes);
    constexpr double every = 0.5;
    for (double at = std::floor(axes.from / every + step_rounding) * every;
         at >= axes.to - step_rounding; at -= every)
      tick(axes, at, figure(at));
    page_.text({(axes.box.left + axes.box.right) / 2, axes.box.bottom - 8.4},
               "how thick the board stays from " + length(thinned_.from) + " to " +
                   length(thinned_.to) + ", in mm; it is " +
                   short_figure(thinned_.thickness / thinned_.ratio, 2) + " thick elsewhere",
               2.7, Weight::regular, Align::centre);
  }

  std::string length(double mm) const {
    return context_.units == Units::inch ? length_text(mm, Units::inch, Rounding::nearest)
                                         : short_figure(mm);
  }

  void ordered_line(const ChartAxes& axes) {
    const double x = axes.x(thinned_.thickness);
    page_.stroke(LineKind::final_cut, {{x, axes.box.bottom}, {x, axes.box.top + 1}});
    const std::string words = "LEAVE " + thickness_text(thinned_.thickness);
    const double half = page_.width_of(words, 2.6, Weight::bold) / 2;
    page_.text({std::clamp(x, axes.box.left + half, axes.box.right - half), axes.box.top + 2.2},
               words, 2.6, Weight::bold, Align::centre);
  }

  const SolvedThinning& thinned_;
};

} // namespace

Page thickness_chart_sheet(const SheetContext& context, const FootSolution& foot,
                           const BreakChart& chart, std::size_t number) {
  return ThicknessChart(context, foot, chart, number).draw();
}

} // namespace shankline
