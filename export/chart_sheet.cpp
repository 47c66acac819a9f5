#include "export/chart_sheet.hpp"

#include "export/foot_words.hpp"
#include "export/template.hpp"
#include "geometry/figure.hpp"

#include <algorithm>
#include <cmath>
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

/// The frame of the curves: stations across, fractions of the uncut shoe upwards.
struct Axes {
  Box box;
  double from; ///< stations
  double to;
  double most; ///< fraction at the top

  double x(double station) const {
    return box.left + (station - from) / (to - from) * (box.right - box.left);
  }
  double y(double fraction) const {
    return box.bottom + std::min(fraction, most) / most * (box.top - box.bottom);
  }
};

struct Curve {
  LineKind kind;
  const char* words;
  double ChartPoint::*value;
  double unit = 1; ///< what is drawn as 1
  double label_y = 0;
};

class ChartLayout {
public:
  ChartLayout(const SheetContext& context, const FootSolution& foot, const BreakChart& chart,
              std::size_t number)
      : foot_(foot), chart_(chart),
        page_(context, number, "Break chart, " + foot_name(foot.side) + " foot") {}

  Page draw() && {
    page_.label("chart " + foot_letter(foot_.side));
    double y = page_.title_strip(foot_letter(foot_.side), "") - 5;
    const double width = page_.right() - page_.left();
    y = page_.paragraph({page_.left(), y}, width, sentence(chart_.contact), 3.8, Weight::bold) - 2;
    y = profile("Uncut", chart_.contact.uncut, chart_.contact.uncut.problem.end, y);
    y = profile("Cut", *chart_.contact.cut, chart_.contact.ball - foot_.trim->station, y);
    chart(y - 4);
    return std::move(page_).finish();
  }

private:
  /// One profile under a heading; returns the y below it.
  double profile(const char* name, const ShoeContact& shoe, double board_end, double top) {
    const Profile shape(shoe);
    const std::vector<Stroke> lines = shape.lines(board_end);
    const Box box = bounds(lines, {{0, 0}, {1, 0}, {0, 1}});
    const double room = page_.right() - page_.left() - 8;
    const double scale = box.right - box.left <= room ? 1 : 0.5;
    page_.text({page_.left(), top - 3.4}, name, 3.6, Weight::bold);
    page_.text({page_.left() + 16, top - 3.4}, figures(shoe.figures), 2.8);
    page_.text({page_.right(), top - 3.4}, scale == 1 ? "true size" : "half size", 2.8,
               Weight::regular, Align::right);
    const Placement place{
        {page_.left() + 4 - box.left * scale, top - 13 - box.top * scale}, {scale, 0}, {0, scale}};
    page_.strokes(lines, place);
    places(shoe, shape, place);
    const double below = place.origin.y + box.bottom * scale - 3;
    page_.text({place.origin.x, below - 2.6}, "ball", 2.6, Weight::regular, Align::centre);
    page_.text({place.origin.x + box.right * scale, below - 2.6}, "heel", 2.6, Weight::regular,
               Align::right);
    return below - 8;
  }

  /// Arch break and heel front, on the foot.
  void places(const ShoeContact& shoe, const Profile& shape, const Placement& place) {
    const std::pair<double, const char*> named[]{{shoe.problem.arch.to_break, "arch break"},
                                                 {shoe.problem.heel_front, "heel front"}};
    for (const auto& [u, words] : named) {
      const Point at = place(shape.on_foot(u));
      page_.stroke(LineKind::leader, {{at.x, at.y + 0.8}, {at.x, at.y + 3.4}});
      page_.text({at.x, at.y + 4.2}, words, 2.4, Weight::regular, Align::centre);
    }
  }

  double pose(double station) const { return station + foot_.pose_shift; }

  std::string figures(const ContactFigures& f) const {
    std::string words = f.breaks_in_arch ? "breaks at " + figure(pose(f.break_at), 0)
                                         : std::string("does not break in the arch");
    return words + "; stands off " + figure(f.gap) + " at " + figure(pose(f.gap_at), 0) + ", " +
           figure(f.heel_gap) + " at the heel front";
  }

  /// Fractions of uncut over the trim station, the window shaded.
  void chart(double top) {
    page_.text({page_.left(), top}, "What other cuts would do, as fractions of the uncut shoe", 3.4,
               Weight::bold);
    const auto& points = chart_.points;
    if (points.size() < 2) return;
    const Axes axes{
        {page_.left() + 12, std::max(page_.bottom() + 36, top - 92), page_.right() - 34, top - 6},
        points.front().station,
        points.back().station,
        highest()};
    shade(axes);
    page_.rectangle(LineKind::frame, axes.box);
    scales(axes);
    marks(axes);
    curves(axes);
    notes(axes.box.bottom - 13.5);
  }

  /// What the curves need, in whole fifths; what is higher is cut off.
  double highest() const {
    double most = 1.2;
    for (const ChartPoint& p : chart_.points)
      most = std::max({most, p.gap, p.heel_gap, p.heel_pry});
    return std::min(std::ceil(most * 5) / 5, 2.0);
  }

  /// Where a cut may be.
  void shade(const Axes& axes) {
    const double left = axes.x(std::max(axes.from, foot_.trim->window.from));
    const double right = axes.x(std::min(axes.to, foot_.trim->window.to));
    for (double x = left; x <= right; x += 2.4)
      page_.stroke(LineKind::window, {{x, axes.box.bottom}, {x, axes.box.top}});
  }

  void scales(const Axes& axes) {
    const Box& box = axes.box;
    for (double fraction = 0; fraction <= axes.most + rounding; fraction += 0.2) {
      const double y = axes.y(fraction);
      page_.stroke(LineKind::ruler, {{box.left - 1.6, y}, {box.left, y}});
      page_.text({box.left - 2.6, y - 0.9}, figure(fraction), 2.5, Weight::regular, Align::right);
    }
    for (double at = std::ceil(pose(axes.from) / 10) * 10; at <= pose(axes.to); at += 10) {
      const double x = axes.x(at - foot_.pose_shift);
      page_.stroke(LineKind::ruler, {{x, box.bottom - 1.6}, {x, box.bottom}});
      page_.text({x, box.bottom - 4.6}, figure(at, 0), 2.5, Weight::regular, Align::centre);
    }
    page_.text({(box.left + box.right) / 2, box.bottom - 9},
               foot_.pose_shift == 0 ? "where the board ends, mm from the back of the heel"
                                     : "where the board ends, mm from the shoe's back seam",
               2.7, Weight::regular, Align::centre);
  }

  /// The chosen station and the rules', above the frame.
  void marks(const Axes& axes) {
    struct Named {
      double station;
      std::string words;
    };
    const OtherRules& rules = foot_.trim->other_rules;
    std::vector<Named> named{{foot_.trim->station, "ordered"}};
    const auto add = [&](double posed, const char* words) {
      const double station = posed - foot_.pose_shift;
      if (std::abs(station - foot_.trim->station) > 0.5) named.push_back({station, words});
    };
    add(rules.heel_front, "edge");
    add(rules.short_reach, "short");
    add(rules.tucked_reach, "tucked");
    if (rules.three_quarter) add(*rules.three_quarter, "3/4");
    // The ordered station is named first, a rule where there is room beside those before it.
    std::vector<std::pair<double, double>> taken;
    for (const Named& mark : named) {
      if (mark.station < axes.from || mark.station > axes.to) continue;
      const double x = axes.x(mark.station);
      const bool chosen = &mark == &named.front();
      page_.stroke(chosen ? LineKind::final_cut : LineKind::leader,
                   {{x, axes.box.bottom}, {x, axes.box.top + 1}});
      const double half = page_.width_of(mark.words, 2.6, Weight::bold) / 2 + 0.7;
      const bool room = std::none_of(taken.begin(), taken.end(), [&](const auto& other) {
        return x - half < other.second && other.first < x + half;
      });
      if (!room) continue;
      taken.emplace_back(x - half, x + half);
      page_.text({x, axes.box.top + 2}, mark.words, 2.6, chosen ? Weight::bold : Weight::regular,
                 Align::centre);
    }
  }

  /// Of what is named beside them at the right.
  void curves(const Axes& axes) {
    const ContactFigures& uncut = chart_.contact.uncut.figures;
    std::vector<Curve> all{{LineKind::gap_curve, "largest gap", &ChartPoint::gap},
                           {LineKind::heel_gap_curve, "heel gap", &ChartPoint::heel_gap},
                           {LineKind::heel_pry_curve, "heel pry", &ChartPoint::heel_pry}};
    if (uncut.breaks_in_arch)
      all.push_back({LineKind::break_curve, "break", &ChartPoint::break_at, uncut.break_at});
    for (Curve& curve : all) {
      Polyline points;
      for (const ChartPoint& p : chart_.points)
        if (const double value = p.*curve.value / curve.unit; value <= axes.most)
          points.push_back({axes.x(p.station), axes.y(value)});
      curve.label_y = points.empty() ? axes.box.bottom : points.back().y;
      if (points.size() > 1) page_.stroke(curve.kind, std::move(points));
    }
    curve_labels(axes.box, std::move(all));
  }

  void curve_labels(const Box& box, std::vector<Curve> all) {
    constexpr double pitch = 5;
    std::sort(all.begin(), all.end(),
              [](const Curve& a, const Curve& b) { return a.label_y > b.label_y; });
    double free = box.top;
    for (std::size_t i = 0; i < all.size(); ++i) {
      const double lowest = box.bottom + pitch * static_cast<double>(all.size() - 1 - i);
      const double y = std::max(std::min(all[i].label_y, free), lowest);
      page_.stroke(all[i].kind, {{box.right + 2, y}, {box.right + 9, y}});
      page_.text({box.right + 10.4, y - 0.9}, all[i].words, 2.5);
      free = y - pitch;
    }
  }

  void notes(double y) {
    const double width = page_.right() - page_.left();
    std::string words =
        "Shaded: where a cut may be. Heel pry: how hard the shoe pries the heel out of its back; "
        "heel gap: how far it stands off where the heel begins. The largest gap, under the arch, "
        "hardly "
        "changes with the cut.";
    y = page_.paragraph({page_.left(), y}, width, words, 2.6) - 0.8;
    words =
        "An estimate for choosing between cuts, from a model that was made to show what common "
        "practice says and was not measured on dancers: try the first cut before the final one.";
    if (chart_.doubt && !chart_.doubt->depends_on.empty())
      words += " It depends most on " + chart_.doubt->depends_on + ".";
    if (chart_.contact.board.relative_sd > 0.2)
      words += " Stiffness: " + chart_.contact.board.source + ".";
    page_.paragraph({page_.left(), y}, width, words, 2.6, Weight::bold);
  }

  const FootSolution& foot_;
  const BreakChart& chart_;
  SheetPage page_;
};

} // namespace

Page chart_sheet(const SheetContext& context, const FootSolution& foot, const BreakChart& chart,
                 std::size_t number) {
  return ChartLayout(context, foot, chart, number).draw();
}

} // namespace shankline
