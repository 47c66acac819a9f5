#include "cli/chart_table.hpp"

#include "geometry/figure.hpp"

#include <cmath>

namespace shankline {
namespace {

std::string column(const std::string& words, std::size_t width) {
  return words.size() < width ? std::string(width - words.size(), ' ') + words : words;
}

std::string percent(double fraction) {
  return figure(100 * fraction, 0) + " %";
}

} // namespace

std::string chart_table(const FootSolution& foot, const BreakChart& chart) {
  const SolvedTrim& trim = *foot.trim;
  std::string text = foot.side == FootSide::left ? "LEFT" : "RIGHT";
  text += "  cut as ordered, the shoe " + sentence(chart.contact) + "\n\n";
  text += column("board ends at", 15) + column("cut off", 10) + column("breaks at", 12) +
          column("gap", 8) + column("heel gap", 10) + column("heel pry", 10) + "\n";
  const auto row = [&](const std::string& at, const std::string& off, double breaks, double gap,
                       double heel_gap, double pry, const std::string& mark) {
    text += column(at, 15) + column(off, 10) + column(figure(breaks + foot.pose_shift, 0), 12) +
            column(percent(gap), 8) + column(percent(heel_gap), 10) + column(percent(pry), 10) +
            mark + "\n";
  };
  const ContactFigures& uncut = chart.contact.uncut.figures;
  row("uncut", "", uncut.break_at, 1, 1, 1, "");
  constexpr long every = 3; // of the chart's stations: a table is read by eye
  for (const ChartPoint& p : chart.points) {
    const long steps = std::lround(p.station - trim.station);
    if (steps % every != 0) continue;
    std::string mark;
    if (p.station < trim.window.from || p.station > trim.window.to) mark = "  outside the window";
    if (steps == 0) mark = "  < ordered";
    row(figure(p.station + foot.pose_shift, 0), figure(p.station + foot.shift, 0), p.break_at,
        p.gap, p.heel_gap, p.heel_pry, mark);
  }
  text += "\nan estimate for choosing between cuts";
  if (chart.doubt && !chart.doubt->depends_on.empty())
    text += "; it depends most on " + chart.doubt->depends_on;
  return text + "\n";
}

} // namespace shankline
