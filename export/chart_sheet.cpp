#include "export/chart_sheet.hpp"

#include "export/template.hpp"
#include "geometry/figure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <utility>

namespace shankline {
namespace {

/// Foot and shoe in profile, ball at the origin, chord from ball to heel along +x, the foot above.
std::vector<Stroke> profile_lines(const ShoeContact& shoe, double board_end) {
  const Arch& arch = shoe.problem.arch;
  const double end = shoe.problem.end;
  const Point heel = sole_point(arch, end);
  const double chord = std::atan2(heel.y, heel.x);
  // The sole turns upwards along u; turned over, the arch stands up and the foot is above it.
  const auto place = [&](const Point& p) {
    return Point{p.x * std::cos(chord) + p.y * std::sin(chord),
                 p.x * std::sin(chord) - p.y * std::cos(chord)};
  };
  const auto shoe_point = [&](double u, double gap) {
    const Point p = sole_point(arch, u);
    const double angle = tangent_angle(arch, u);
    // The shoe's own line a little outside the foot's, so that both can be seen where they touch.
    constexpr double apart = 0.9;
    const double off = gap + apart;
    return place({p.x - off * std::sin(angle), p.y + off * std::cos(angle)});
  };
  Polyline foot;
  constexpr int steps = 160;
  for (int i = 0; i <= steps; ++i)
    foot.push_back(place(sole_point(arch, end * i / steps)));
  Polyline sole;
  Polyline board;
  // Along the forefoot the shoe is held to the foot.
  for (double u = 0; u < shoe.problem.clamp; u += 1) {
    sole.push_back(shoe_point(u, 0));
    board.push_back(sole.back());
  }
  const ContactCurves& curves = shoe.solution.curves;
  for (std::size_t i = 0; i < curves.u.size(); ++i) {
    if (i > 0 && curves.u[i] == curves.u[i - 1]) continue;
    sole.push_back(shoe_point(curves.u[i], curves.gap[i]));
    if (curves.u[i] <= board_end + 1e-9) board.push_back(sole.back());
  }
  return {{LineKind::shoe, std::move(sole), false},
          {LineKind::board, std::move(board), false},
          {LineKind::foot, std::move(foot), false}};
}

class ChartLayout {
public:
  ChartLayout(const SheetContext& context, const FootSolution& foot, const BreakChart& chart,
              std::size_t number)
      : foot_(foot), chart_(chart),
        page_(context, number,
              foot.side == FootSide::left ? "Break chart, left foot" : "Break chart, right foot") {}

  Page draw() && {
    page_.label(foot_.side == FootSide::left ? "chart L" : "chart R");
    double y = page_.title_strip(foot_.side == FootSide::left ? "L" : "R", "") - 5;
    const double width = page_.right() - page_.left();
    y = page_.paragraph({page_.left(), y}, width,
                        "Cut as ordered, the shoe " + sentence(chart_.contact) + ".", 3.8,
                        Weight::bold) -
        2;
    y = profile("Uncut", chart_.contact.uncut, chart_.contact.uncut.problem.end, y);
    y = profile("Cut", *chart_.contact.cut, chart_.contact.ball - foot_.trim->station, y);
    chart(y - 4);
    return std::move(page_).finish();
  }

private:
  /// One profile under a heading; returns the y below it.
  double profile(const char* name, const ShoeContact& shoe, double board_end, double top) {
    const std::vector<Stroke> lines = profile_lines(shoe, board_end);
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
    places(shoe, place);
    const double below = place.origin.y + box.bottom * scale - 3;
    page_.text({place.origin.x, below - 2.6}, "ball", 2.6, Weight::regular, Align::centre);
    page_.text({place.origin.x + box.right * scale, below - 2.6}, "heel", 2.6, Weight::regular,
               Align::right);
    return below - 8;
  }

  /// Arch break and heel front, on the foot.
  void places(const ShoeContact& shoe, const Placement& place) {
    const Arch& arch = shoe.problem.arch;
    const Point heel = sole_point(arch, shoe.problem.end);
    const double chord = std::atan2(heel.y, heel.x);
    const std::pair<double, const char*> named[]{{arch.to_break, "arch break"},
                                                 {shoe.problem.heel_front, "heel front"}};
    for (const auto& [u, words] : named) {
      const Point p = sole_point(arch, u);
      const Point at = place({p.x * std::cos(chord) + p.y * std::sin(chord),
                              p.x * std::sin(chord) - p.y * std::cos(chord)});
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
    const Box box{page_.left() + 12, std::max(page_.bottom() + 36, top - 92), page_.right() - 34,
                  top - 6};
    page_.text({page_.left(), top}, "What other cuts would do, as fractions of the uncut shoe", 3.4,
               Weight::bold);
    const auto& points = chart_.points;
    if (points.size() < 2) return;
    const double from = points.front().station;
    const double to = points.back().station;
    double most = 1.2;
    for (const ChartPoint& p : points)
      most = std::max({most, p.gap, p.heel_gap, p.heel_pry});
    most = std::min(std::ceil(most * 5) / 5, 2.0);
    const auto x_of = [&](double station) {
      return box.left + (station - from) / (to - from) * (box.right - box.left);
    };
    const auto y_of = [&](double fraction) {
      return box.bottom + std::min(fraction, most) / most * (box.top - box.bottom);
    };
    shade(box, x_of(std::max(from, foot_.trim->window.from)),
          x_of(std::min(to, foot_.trim->window.to)));
    page_.rectangle(LineKind::frame, box);
    for (double fraction = 0; fraction <= most + 1e-9; fraction += 0.2) {
      const double y = y_of(fraction);
      page_.stroke(LineKind::ruler, {{box.left - 1.6, y}, {box.left, y}});
      page_.text({box.left - 2.6, y - 0.9}, figure(fraction), 2.5, Weight::regular, Align::right);
    }
    for (double at = std::ceil(pose(from) / 10) * 10; at <= pose(to); at += 10) {
      const double x = x_of(at - foot_.pose_shift);
      page_.stroke(LineKind::ruler, {{x, box.bottom - 1.6}, {x, box.bottom}});
      page_.text({x, box.bottom - 4.6}, figure(at, 0), 2.5, Weight::regular, Align::centre);
    }
    page_.text({(box.left + box.right) / 2, box.bottom - 9},
               foot_.pose_shift == 0 ? "where the board ends, mm from the back of the heel"
                                     : "where the board ends, mm from the shoe's back seam",
               2.7, Weight::regular, Align::centre);
    marks(box, from, to, x_of);
    curves(box, x_of, y_of, most);
    notes(box.bottom - 13.5);
  }

  void shade(const Box& box, double left, double right) {
    for (double x = left; x <= right; x += 2.4)
      page_.stroke(LineKind::window, {{x, box.bottom}, {x, box.top}});
  }

  /// The chosen station and the rules', above the frame.
  void marks(const Box& box, double from, double to, const std::function<double(double)>& x_of) {
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
      if (mark.station < from || mark.station > to) continue;
      const double x = x_of(mark.station);
      const bool chosen = &mark == &named.front();
      page_.stroke(chosen ? LineKind::final_cut : LineKind::leader,
                   {{x, box.bottom}, {x, box.top + 1}});
      const double half = page_.width_of(mark.words, 2.6, Weight::bold) / 2 + 0.7;
      const bool room = std::none_of(taken.begin(), taken.end(), [&](const auto& other) {
        return x - half < other.second && other.first < x + half;
      });
      if (!room) continue;
      taken.emplace_back(x - half, x + half);
      page_.text({x, box.top + 2}, mark.words, 2.6, chosen ? Weight::bold : Weight::regular,
                 Align::centre);
    }
  }

  void curves(const Box& box, const std::function<double(double)>& x_of,
              const std::function<double(double)>& y_of, double most) {
    struct Curve {
      LineKind kind;
      std::function<double(const ChartPoint&)> value;
      double label_y = 0;
    };
    const ContactFigures& uncut = chart_.contact.uncut.figures;
    std::vector<Curve> all{
        {LineKind::gap_curve, [](const ChartPoint& p) { return p.gap; }},
        {LineKind::heel_gap_curve, [](const ChartPoint& p) { return p.heel_gap; }},
        {LineKind::heel_pry_curve, [](const ChartPoint& p) { return p.heel_pry; }}};
    if (uncut.breaks_in_arch)
      all.push_back({LineKind::break_curve,
                     [&](const ChartPoint& p) { return p.break_at / uncut.break_at; }});
    for (Curve& curve : all) {
      Polyline points;
      for (const ChartPoint& p : chart_.points)
        if (curve.value(p) <= most) points.push_back({x_of(p.station), y_of(curve.value(p))});
      curve.label_y = points.empty() ? box.bottom : points.back().y;
      if (points.size() > 1) page_.stroke(curve.kind, std::move(points));
    }
    std::sort(all.begin(), all.end(),
              [](const Curve& a, const Curve& b) { return a.label_y > b.label_y; });
    double free = box.top;
    for (std::size_t i = 0; i < all.size(); ++i) {
      const double lowest = box.bottom + 5.0 * static_cast<double>(all.size() - 1 - i);
      const double y = std::max(std::min(all[i].label_y, free), lowest);
      page_.stroke(all[i].kind, {{box.right + 2, y}, {box.right + 9, y}});
      page_.text({box.right + 10.4, y - 0.9}, curve_words(all[i].kind), 2.5);
      free = y - 5;
    }
  }

  static const char* curve_words(LineKind kind) {
    switch (kind) {
    case LineKind::gap_curve:
      return "largest gap";
    case LineKind::heel_gap_curve:
      return "heel gap";
    case LineKind::heel_pry_curve:
      return "heel pry";
    default:
      return "break";
    }
  }

  void notes(double y) {
    const double width = page_.right() - page_.left();
    std::string words =
        "Shaded: where a cut may be. Heel pry: how hard the shoe prys the heel out of its back; "
        "heel "
        "gap: how far it stands off where the heel begins. The largest gap, under the arch, hardly "
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
