#include "cli/report/chart_table.hpp"

#include "cli/text/text_columns.hpp"
#include "export/drawing/length_text.hpp"
#include "geometry/order/figure.hpp"

#include <array>
#include <cmath>
#include <string>
#include <utility>

namespace shankline {
namespace {

std::string percent(double fraction) {
  return figure(100 * fraction, 0) + " %";
}

/// Stands in place of a figure in the stop band and past it: a figure would reward a cut there.
constexpr const char* no_figure = "\u2013";

constexpr double same_cut = 0.05;      // mm; cuts are shown to tenths
constexpr double step_rounding = 1e-6; // decimals are not exact in binary

/// Shared by the tables of cuts and of thicknesses.
class ChartTable {
protected:
  ChartTable(const FootSolution& foot, const BreakChart& chart, Units units)
      : foot_(foot), chart_(chart), units_(units) {}

  using Cells = std::array<std::string, 7>;

  /// The sentence, both lines of headings, and the row of the uncut shoe. `uncut_third` stands in
  /// that row's third column.
  void begin(const Cells& headings, const Cells& more_headings, const std::string& uncut_third) {
    paragraph(std::string(foot_.side == FootSide::left ? "LEFT" : "RIGHT") + ": " +
              with_inches(sentence(chart_.contact), units_));
    text_ += "\n";
    line(headings);
    line(more_headings);
    const FootStation uncut = chart_.contact.uncut.figures.break_at;
    line({"uncut", "", uncut_third, station(uncut), percent(1), percent(1), percent(1)});
    in_inches({"", "", "", inches(foot_.frames.posed(uncut)), "", "", ""});
  }

  /// Ends with what the figures are worth; `first` is another sentence before it.
  std::string finish(const std::string& first, const char* choices) && {
    text_ += "\n";
    paragraph(first);
    std::string words =
        std::string("These figures are estimates for choosing between ") + choices + ".";
    if (chart_.doubt && !chart_.doubt->depends_on.empty())
      words += " They depend most on " + chart_.doubt->depends_on + ".";
    paragraph(words);
    return std::move(text_);
  }

  std::string station(FootStation at) const { return figure(foot_.frames.posed(at), 0); }

  void in_inches(const Cells& cells) {
    if (units_ == Units::inch) line(cells, "in inches");
  }

  void line(const Cells& cells, const std::string& mark = {}) {
    constexpr std::size_t cell_width = 8;
    std::string words;
    for (const std::string& cell : cells)
      words += right_aligned(cell, cell_width);
    text_ += words + (mark.empty() ? "" : "  ") + mark + "\n";
  }

  const FootSolution& foot_;
  const BreakChart& chart_;
  Units units_;

private:
  void paragraph(const std::string& words) {
    for (const std::string& one : wrapped(words, output_columns()))
      text_ += one + "\n";
  }

  std::string text_;
};

class CutTable : ChartTable {
public:
  CutTable(const FootSolution& foot, const BreakChart& chart, Units units)
      : ChartTable(foot, chart, units), trim_(*foot.trim) {}

  std::string text() && {
    begin({"board", "cut", "board", "breaks", "", "heel", "heel"},
          {"ends at", "off", "left", "at", "gap", "gap", "pry"}, "");
    constexpr long every = 3; // of the chart's stations: a table is read by eye
    for (const ChartPoint& p : chart_.points) {
      const double from_final = p.station - trim_.station;
      const long steps = std::lround(from_final);
      if (is_first_cut(p))
        row(p, "< first cut");
      else if (steps % every == 0 && std::abs(from_final - static_cast<double>(steps)) < same_cut)
        row(p, steps == 0 ? "< final line" : "");
    }
    return std::move(*this).finish(lines_to_cut(), "cuts");
  }

private:
  /// Every row gives the cut-off as a ruler number; rows without a name give all else in whole
  /// millimetres. A deeper cut makes most figures smaller. In the stop band and past it no figures
  /// are shown, as they would reward such a cut; only the length of board that is left is.
  void row(const ChartPoint& p, const std::string& name) {
    const BoardStation end = foot_.frames.on_board(p.station);
    const bool allowed = p.station <= charted_to(foot_) && (!name.empty() || trim_.may_enter_band ||
                                                            !shown_as_far_as(end, trim_.stop_from));
    const auto share = [&](double fraction) { return allowed ? percent(fraction) : no_figure; };
    const int decimals = name.empty() ? 0 : 1;
    line({figure(foot_.frames.posed(p.station), decimals), ruler_text(end, Rounding::down),
          figure(foot_.arch.break_at - p.station, decimals),
          allowed ? station(p.break_at) : no_figure, share(p.gap), share(p.heel_gap),
          share(p.heel_pry)},
         name.empty() ? mark_of(end) : name);
    in_inches({inches(foot_.frames.posed(p.station)),
               inches(foot_.frames.on_board(p.station), Rounding::down),
               inches(foot_.arch.break_at - p.station),
               allowed ? inches(foot_.frames.posed(p.break_at)) : no_figure, "", "", ""});
  }

  bool is_first_cut(const ChartPoint& p) const {
    return trim_.first_cut &&
           std::abs(foot_.frames.on_board(p.station) - trim_.first_cut->centre) < same_cut;
  }

  /// True if the row's figure is that of the line or a larger one, as both are printed.
  bool shown_as_far_as(BoardStation end, const CutLine& line) const {
    const auto shown = [this](double mm) {
      return units_ == Units::inch ? in_inch_steps(mm, Rounding::down)
                                   : ruler_number(mm, Rounding::down);
    };
    return shown(end) >= shown(line.centre);
  }

  std::string mark_of(BoardStation end) const {
    if (end > trim_.stop.centre) return "PAST STOP";
    if (shown_as_far_as(end, trim_.stop_from)) return "STOP BAND";
    if (end > trim_.final_cut.centre) return "past the final line";
    const FootStation station = foot_.frames.on_foot(end);
    return station < trim_.window.from || station > trim_.window.to ? "outside the window" : "";
  }

  /// The cuts as ruler numbers on the centre line.
  std::string lines_to_cut() const {
    const auto ruler = [this](const CutLine& cut) {
      return length_text(cut.centre, units_, Rounding::down);
    };
    std::string words =
        trim_.first_cut ? "The first cut takes " + ruler(*trim_.first_cut) +
                              " off the board. Try the shoe before the final cut, which takes " +
                              ruler(trim_.final_cut) + " off in all. "
                        : "There is no first cut: file the board back until " +
                              ruler(trim_.final_cut) + " is off. ";
    words += "The stop band goes from " + ruler(trim_.stop_from) + " to the stop line at " +
             ruler(trim_.stop) + ". " +
             (trim_.may_enter_band ? "Cut in the stop band only with a fitter's word"
                                   : "Do not cut in the stop band") +
             ", and never past the stop line.";
    return words;
  }

  const SolvedTrim& trim_;
};

class ThicknessTable : ChartTable {
public:
  ThicknessTable(const FootSolution& foot, const BreakChart& chart, Units units)
      : ChartTable(foot, chart, units), thinned_(*foot.thinned) {}

  std::string text() && {
    begin({"board", "taken", "as", "breaks", "", "heel", "heel"},
          {"left", "off", "stiff", "at", "gap", "gap", "pry"}, percent(1));
    constexpr long every = 2; // of the chart's thicknesses
    const double full = thinned_.thickness / thinned_.ratio;
    for (const ThicknessPoint& p : chart_.thicknesses) {
      const long steps = std::lround((p.thickness - thinned_.thickness) / thickness_step);
      if (steps % every != 0 || !(p.thickness < full)) continue;
      line({thickness(p.thickness), taken_off(full, p.thickness), percent(p.stiffness_left),
            station(p.break_at), percent(p.gap), percent(p.heel_gap), percent(p.heel_pry)},
           steps == 0 ? "< as ordered" : "");
      in_inches({"", "", "", inches(foot_.frames.posed(p.break_at)), "", "", ""});
    }
    return std::move(*this).finish("Thin the board from " + length(thinned_.from) + " to " +
                                       length(thinned_.to) +
                                       ". Take a little off, try the shoe, and take more only if "
                                       "it is needed: nothing puts it back.",
                                   "thicknesses");
  }

private:
  std::string length(double mm) const { return length_text(mm, units_, Rounding::nearest); }

  // Both figures of a row are rounded to one step: the thickness left up, the thickness taken off
  // down. So they add up to the board.
  int decimals() const { return is_in_tenths(thinned_.thickness) ? 1 : 2; }
  static bool is_in_tenths(double mm) {
    const double tenths = 10 * mm;
    return std::abs(tenths - std::round(tenths)) < step_rounding;
  }
  double steps_left(double mm) const {
    return std::ceil(mm * std::pow(10.0, decimals()) - step_rounding);
  }
  std::string thickness(double mm) const {
    return figure(steps_left(mm) / std::pow(10.0, decimals()), decimals());
  }
  std::string taken_off(double full, double mm) const {
    const double scale = std::pow(10.0, decimals());
    return figure((std::floor(full * scale + step_rounding) - steps_left(mm)) / scale, decimals());
  }

  const SolvedThinning& thinned_;
};

} // namespace

std::string chart_table(const FootSolution& foot, const BreakChart& chart, Units units) {
  return foot.trim ? CutTable(foot, chart, units).text()
                   : ThicknessTable(foot, chart, units).text();
}

} // namespace shankline
