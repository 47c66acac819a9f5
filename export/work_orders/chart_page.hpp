// Shared by both break charts: foot and shoe in profile, the frame of the curves, the curves with
// their doubts, and their names beside the frame.
#pragma once

#include "export/drawing/template.hpp"
#include "export/page/sheet_page.hpp"
#include "geometry/breaking/break_chart.hpp"
#include "geometry/solution/solution.hpp"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace shankline {

inline constexpr double step_rounding = 1e-9; ///< a sum of steps may fall that far short of a whole

/// The frame of the curves: `from` stands at its left edge and `to` at its right, and may be the
/// smaller of the two. Upwards it counts in fractions of the uncut shoe.
struct ChartAxes {
  Box box;
  double from; ///< mm
  double to;   ///< mm
  double most; ///< fraction at the top

  double x(double at) const {
    return box.left + (at - from) / (to - from) * (box.right - box.left);
  }
  double y(double fraction) const {
    return box.bottom + std::clamp(fraction, 0.0, most) / most * (box.top - box.bottom);
  }
};

/// Figures over one place of the axis. Fractions are of the uncut shoe.
struct CurvePoint {
  double at; ///< mm, on the axis
  FootStation break_at;
  double gap;
  double heel_gap;
  double heel_pry;
};

struct ChartCurve {
  LineKind kind;
  std::string words;
  std::string figures; ///< of the ordered work, with their doubt
  Polyline points;     ///< on the page
  double label_y = 0;
};

/// Base of both layouts. Lengths are in mm. `context`, `foot` and `chart` must outlive it.
class ChartPage {
protected:
  ChartPage(const SheetContext& context, const FootSolution& foot, const BreakChart& chart,
            std::size_t number);

  /// Title strip, the words in bold, and both profiles; the lower one is named `name`, and its
  /// board ends at `board_end`, mm from the ball. Returns the y below.
  double head(const std::string& words, const char* name, double board_end);

  double pose(double station) const { return foot_.frames.posed(FootStation(station)); }

  /// The top of the axis: whole fifths up to the highest figure, at most 2; higher parts of curves
  /// are cut off.
  static double highest(const std::vector<CurvePoint>& points);

  /// Writes the heading of the curves at `top`, and returns the box for their frame, which leaves
  /// room for their names at the right and for the notes below.
  Box curves_box(double top, const char* heading);

  /// The fractions at the left edge of the frame.
  void fraction_scale(const ChartAxes& axes);
  /// A tick below the frame with its number.
  void tick(const ChartAxes& axes, double at, const std::string& number);

  /// Largest gap, heel gap, heel pry, and the break where the uncut shoe breaks in the arch, with
  /// their figures for the ordered work at `ordered`; there bars show how well they are known. The
  /// curves are not drawn yet.
  std::vector<ChartCurve> contact_curves(const ChartAxes& axes,
                                         const std::vector<CurvePoint>& points, double ordered);
  /// Draws the curves and names them at the right of the frame.
  void draw(const ChartAxes& axes, std::vector<ChartCurve>& curves);

  /// Explains the curves below `y`, and then says what the figures are worth and what they depend
  /// on most; `first_try` ends that sentence.
  void notes(double y, const std::string& explanation, const std::string& first_try);

  const SheetContext& context_;
  const FootSolution& foot_;
  const BreakChart& chart_;
  SheetPage page_;

private:
  double profile(const char* name, const ShoeContact& shoe, double board_end,
                 const std::string& figures, double top);
  std::string figures(const FootContactFigures& f, const Uncertain* break_at, const Uncertain* gap,
                      const Uncertain* heel_gap, const std::optional<double>& up_to) const;
  void bar(const ChartAxes& axes, double x, double low, double high);
  void bar(const ChartAxes& axes, double x, double value, double expanded,
           const std::optional<double>& up_to);
  void name_curves(const Box& box, std::vector<ChartCurve> all);
};

} // namespace shankline
