#include "cli/report/chart_table.hpp"

#include "cli/text/text_columns.hpp"
#include "geometry/order/figure.hpp"

#include <cmath>

namespace shankline {
namespace {

std::string percent(double fraction) {
  return figure(100 * fraction, 0) + " %";
}

} // namespace

std::string chart_table(const FootSolution& foot, const BreakChart& chart) {
  const SolvedTrim& trim = *foot.trim;
  std::string text = foot.side == FootSide::left ? "LEFT" : "RIGHT";
  text += "  " + sentence(chart.contact) + "\n\n";
  text += right_aligned("board ends at", 15) + right_aligned("cut off", 10) +
          right_aligned("breaks at", 12) + right_aligned("gap", 8) + right_aligned("heel gap", 10) +
          right_aligned("heel pry", 10) + "\n";
  const auto row = [&](const std::string& at, const std::string& off, FootStation breaks,
                       double gap, double heel_gap, double pry, const std::string& mark) {
    text += right_aligned(at, 15) + right_aligned(off, 10) +
            right_aligned(figure(foot.frames.posed(breaks), 0), 12) +
            right_aligned(percent(gap), 8) + right_aligned(percent(heel_gap), 10) +
            right_aligned(percent(pry), 10) + mark + "\n";
  };
  const FootContactFigures& uncut = chart.contact.uncut.figures;
  row("uncut", "", uncut.break_at, 1, 1, 1, "");
  constexpr long every = 3; // of the chart's stations: a table is read by eye
  for (const ChartPoint& p : chart.points) {
    const long steps = std::lround(p.station - trim.station);
    if (steps % every != 0) continue;
    std::string mark;
    if (p.station < trim.window.from || p.station > trim.window.to) mark = "  outside the window";
    if (steps == 0) mark = "  < ordered";
    row(figure(foot.frames.posed(p.station), 0), figure(foot.frames.on_board(p.station), 0),
        p.break_at, p.gap, p.heel_gap, p.heel_pry, mark);
  }
  text += "\nan estimate for choosing between cuts";
  if (chart.doubt && !chart.doubt->depends_on.empty())
    text += "; it depends most on " + chart.doubt->depends_on;
  return text + "\n";
}

} // namespace shankline
