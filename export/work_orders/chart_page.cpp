#include "export/work_orders/chart_page.hpp"

#include "export/wording/foot_words.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/order/reading_guide.hpp"

#include <cmath>
#include <utility>

namespace shankline {
namespace {

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
      if (curves.u[i] <= board_end + step_rounding) board.push_back(sole.back());
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

/// A limit in tenths of a millimetre, rounded up, so that it stays one and is never 0.0.
std::string up_to_words(double limit) {
  constexpr double tenths = 10;
  return figure(std::max(1.0, std::ceil(limit * tenths - step_rounding)) / tenths);
}

std::string share_words(double share, const Uncertain* doubt, const std::optional<double>& up_to) {
  if (up_to) return share_doubt_words(*doubt, up_to);
  return figure(100 * share, 0) + (doubt ? " " + share_doubt_words(*doubt, {}) : " %");
}

/// Arch break and heel front, on the foot, named as on the form.
void name_places(SheetPage& page, const ShoeContact& shoe, const Profile& shape,
                 const Placement& place) {
  const std::pair<double, const char*> named[]{{shoe.problem.arch.to_break, "arch_break"},
                                               {shoe.problem.heel_front, "heel_front"}};
  for (const auto& [u, key] : named) {
    const Point at = place(shape.on_foot(u));
    page.stroke(LineKind::leader, {{at.x, at.y + 0.8}, {at.x, at.y + 3.4}});
    page.text({at.x, at.y + 4.2}, std::string(reading_guide(key)->name), 2.5, Weight::regular,
              Align::centre);
  }
}

} // namespace

ChartPage::ChartPage(const SheetContext& context, const FootSolution& foot, const BreakChart& chart,
                     std::size_t number)
    : context_(context), foot_(foot), chart_(chart),
      page_(context, number, "Break chart, " + foot_name(foot.side) + " foot") {}

double ChartPage::head(const std::string& words, const char* name, double board_end) {
  page_.label("chart " + foot_letter(foot_.side));
  double y = page_.title_strip(foot_letter(foot_.side), "") - 5;
  y = page_.paragraph({page_.left(), y}, page_.right() - page_.left(),
                      with_inches(words, context_.units), 3.8, Weight::bold) -
      2;
  const ContactDoubt* doubt = chart_.doubt ? &*chart_.doubt : nullptr;
  const ShoeContact& uncut = chart_.contact.uncut;
  const ShoeContact& cut = *chart_.contact.cut;
  y = profile("Uncut", uncut, uncut.problem.end,
              doubt ? figures(uncut.figures, &doubt->uncut_break_at, &doubt->uncut_gap,
                              &doubt->uncut_heel_gap, {})
                    : figures(uncut.figures, nullptr, nullptr, nullptr, {}),
              y);
  return profile(name, cut, board_end,
                 doubt ? figures(cut.figures, &doubt->break_at, &doubt->gap, &doubt->heel_gap,
                                 doubt->heel_gap_up_to)
                       : figures(cut.figures, nullptr, nullptr, nullptr, {}),
                 y);
}

double ChartPage::highest(const std::vector<CurvePoint>& points) {
  double most = 1.2;
  for (const CurvePoint& p : points)
    most = std::max({most, p.gap, p.heel_gap, p.heel_pry});
  return std::min(std::ceil(most * 5) / 5, 2.0);
}

Box ChartPage::curves_box(double top, const char* heading) {
  page_.text({page_.left(), top}, heading, 3.4, Weight::bold);
  constexpr double scale = 14;
  constexpr double names = 50;
  constexpr double notes = 48;
  constexpr double highest_box = 94;
  const double upper = top - 10;
  return {page_.left() + scale, std::max(page_.bottom() + notes, upper - highest_box),
          page_.right() - names, upper};
}

void ChartPage::fraction_scale(const ChartAxes& axes) {
  for (double fraction = 0; fraction <= axes.most + step_rounding; fraction += 0.2) {
    const double y = axes.y(fraction);
    page_.stroke(LineKind::ruler, {{axes.box.left - 1.6, y}, {axes.box.left, y}});
    page_.text({axes.box.left - 2.6, y - 0.9}, figure(fraction), 2.5, Weight::regular,
               Align::right);
  }
}

void ChartPage::tick(const ChartAxes& axes, double at, const std::string& number) {
  const double x = axes.x(at);
  page_.stroke(LineKind::ruler, {{x, axes.box.bottom - 1.6}, {x, axes.box.bottom}});
  page_.text({x, axes.box.bottom - 4.6}, number, 2.5, Weight::regular, Align::centre);
}

std::vector<ChartCurve> ChartPage::contact_curves(const ChartAxes& axes,
                                                  const std::vector<CurvePoint>& points,
                                                  double ordered) {
  const ContactDoubt* doubt = chart_.doubt ? &*chart_.doubt : nullptr;
  const FootContact& contact = chart_.contact;
  const FootContactFigures& uncut = contact.uncut.figures;
  const FootContactFigures& cut = contact.cut->figures;
  const auto curve = [&](LineKind kind, const char* words, std::string said, auto&& height) {
    ChartCurve one{kind, words, std::move(said), {}};
    for (const CurvePoint& p : points)
      if (const double fraction = height(p); fraction <= axes.most)
        one.points.push_back({axes.x(p.at), axes.y(fraction)});
    return one;
  };
  std::vector<ChartCurve> all{
      curve(LineKind::gap_curve, "largest gap",
            doubted(cut.gap, doubt ? &doubt->gap : nullptr) + " mm",
            [](const CurvePoint& p) { return p.gap; }),
      curve(LineKind::heel_gap_curve, "heel gap",
            share_words(contact.heel_gap_left, doubt ? &doubt->heel_gap_left : nullptr,
                        doubt ? doubt->heel_gap_left_up_to : std::nullopt),
            [](const CurvePoint& p) { return p.heel_gap; }),
      curve(LineKind::heel_pry_curve, "heel pry",
            share_words(contact.heel_pry_left, doubt ? &doubt->heel_pry_left : nullptr,
                        doubt ? doubt->heel_pry_left_up_to : std::nullopt),
            [](const CurvePoint& p) { return p.heel_pry; })};
  if (doubt) {
    constexpr double beside = 1.6; // so that the bars do not hide one another
    const double x = axes.x(ordered);
    if (uncut.gap > 0)
      bar(axes, x + 2 * beside, of_uncut(cut.gap, uncut.gap), doubt->gap.expanded() / uncut.gap,
          {});
    bar(axes, x - beside, contact.heel_gap_left, doubt->heel_gap_left.expanded(),
        doubt->heel_gap_left_up_to);
    bar(axes, x + beside, contact.heel_pry_left, doubt->heel_pry_left.expanded(),
        doubt->heel_pry_left_up_to);
  }
  if (uncut.breaks_in_arch)
    all.push_back(curve(LineKind::break_curve, "break",
                        "at " + figure(pose(cut.break_at), 0) +
                            (doubt ? " " + whole_doubt_words(doubt->break_at) : std::string()),
                        [&](const CurvePoint& p) { return p.break_at / uncut.break_at; }));
  return all;
}

void ChartPage::draw(const ChartAxes& axes, std::vector<ChartCurve>& curves) {
  for (ChartCurve& curve : curves) {
    curve.label_y = curve.points.empty() ? axes.box.bottom : curve.points.back().y;
    if (curve.points.size() > 1) page_.stroke(curve.kind, curve.points);
  }
  name_curves(axes.box, curves);
}

void ChartPage::notes(double y, const std::string& explanation, const std::string& first_try) {
  const double width = page_.right() - page_.left();
  y = page_.paragraph({page_.left(), y}, width, explanation, 2.6) - 0.8;
  std::string words = std::string("These figures are estimates for choosing between ") +
                      (chart_.contact.only_thinned ? "thicknesses" : "cuts") +
                      ". They come from a model that was made to show what common practice says "
                      "and was not measured on dancers: " +
                      first_try;
  if (chart_.doubt && !chart_.doubt->depends_on.empty())
    words += " They depend most on " + chart_.doubt->depends_on + ".";
  if (chart_.contact.board.relative_sd > 0.2)
    words += " Stiffness: " + chart_.contact.board.source + ".";
  page_.paragraph({page_.left(), y}, width, words, 2.6, Weight::bold);
}

/// Draws one profile under a heading; returns the y below it.
double ChartPage::profile(const char* name, const ShoeContact& shoe, double board_end,
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
  name_places(page_, shoe, shape, place);
  const double below = place.origin.y + box.bottom * scale - 3;
  page_.text({place.origin.x - 4, below - 2.6}, "ball: middle of the big-toe joint", 2.6);
  page_.text({place.origin.x + box.right * scale, below - 2.6}, "back of the heel", 2.6,
             Weight::regular, Align::right);
  return below - 8;
}

std::string ChartPage::figures(const FootContactFigures& f, const Uncertain* break_at,
                               const Uncertain* gap, const Uncertain* heel_gap,
                               const std::optional<double>& up_to) const {
  std::string words = f.breaks_in_arch
                          ? "bends at " + figure(pose(f.break_at), 0) +
                                (break_at ? " " + whole_doubt_words(*break_at) : std::string())
                          : std::string("does not bend in the arch");
  words += "; stands off " + doubted(f.gap, gap) + " under the arch, ";
  if (!up_to) return words + doubted(f.heel_gap, heel_gap) + " at the heel front";
  return words + (std::isfinite(*up_to) ? "up to " + up_to_words(*up_to) : "not known how far") +
         " at the heel front";
}

/// Draws a doubt as a bar from one end to the other.
void ChartPage::bar(const ChartAxes& axes, double x, double low, double high) {
  constexpr double half = 0.7;
  const double a = axes.y(low);
  const double b = axes.y(high);
  page_.stroke(LineKind::farthest, {{x, a}, {x, b}});
  for (const double y : {a, b})
    page_.stroke(LineKind::farthest, {{x - half, y}, {x + half, y}});
}
void ChartPage::bar(const ChartAxes& axes, double x, double value, double expanded,
                    const std::optional<double>& up_to) {
  if (!up_to)
    bar(axes, x, value - expanded, value + expanded);
  else if (std::isfinite(*up_to))
    bar(axes, x, 0, *up_to);
}

void ChartPage::name_curves(const Box& box, std::vector<ChartCurve> all) {
  constexpr double pitch = 8.4;
  std::sort(all.begin(), all.end(),
            [](const ChartCurve& a, const ChartCurve& b) { return a.label_y > b.label_y; });
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
      page_.text({box.right + 19.4, figures_at - 2.9}, both.substr(all[i].figures.size() + 1), 2.5);
    free = y - pitch;
  }
}

} // namespace shankline
