#include "export/overlays/overlay_page.hpp"

#include "export/drawing/circle.hpp"
#include "export/wording/comparison_words.hpp"
#include "export/wording/sentence.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace shankline {
namespace {

constexpr double swatch = 12; // of a line, in the key
constexpr double ring_radius = 3;
constexpr double row_size = 2.6;

/// Smaller where the place lies close to what a printer cannot reach.
Polygon ring(const Point& middle, const Paper& paper) {
  constexpr int corners = 48;
  const double radius =
      std::min({ring_radius, middle.x - unprintable, middle.y - unprintable,
                paper.width - unprintable - middle.x, paper.height - unprintable - middle.y});
  return circle(middle, radius, corners);
}

} // namespace

OverlayPage::OverlayPage(const SheetContext& context, const Overlay& overlay, std::size_t number,
                         const std::string& part, const std::optional<Paper>& paper)
    : context_(context), overlay_(overlay),
      page_(context, number, part + ": " + overlay_words(overlay.comparison, overlay.foot), paper) {
}

double OverlayPage::heading(const std::string& own_sheets) {
  constexpr double size = 4.6;
  const std::string words = "DO NOT CUT FROM THIS PAGE";
  const double rule = page_.title_strip("", "");
  const double y = page_.top() - 16.1;
  page_.text({page_.left(), y}, words, size, Weight::bold);
  page_.text({page_.left() + page_.width_of(words, size, Weight::bold) + 3, y}, own_sheets, 3);
  return rule;
}

void OverlayPage::mark_farthest(const ComparedOutline& outline, const Placement& overlay) {
  if (!(outline.largest.distance > 0)) return;
  const Point a = overlay(outline.largest.on_a);
  const Point b = overlay(outline.largest.on_b);
  page_.stroke(LineKind::dimension, {a, b});
  page_.stroke(LineKind::farthest, ring({(a.x + b.x) / 2, (a.y + b.y) / 2}, page_.paper()), true);
}

const ComparedFigure* OverlayPage::figure_of(std::string_view key) const {
  for (const ComparedFigure& figure : overlay_.foot.figures)
    if (figure.key == key) return &figure;
  return nullptr;
}

double OverlayPage::row_height(const ComparedFigure& figure) const {
  return row_pitch + (has_inches(figure, context_.units) ? inch_pitch : 0);
}

double OverlayPage::table(double left, double right, double y,
                          const std::vector<std::string_view>& keys) {
  const double width = right - left;
  const double of_a = left + 0.45 * width;
  const double of_b = left + 0.575 * width;
  const double apart = left + 0.79 * width;
  page_.text({of_a, y}, context_.typeface.shorten(name(true), 0.12 * width, row_size), row_size,
             Weight::bold, Align::right);
  page_.text({of_b, y}, context_.typeface.shorten(name(false), 0.12 * width, row_size), row_size,
             Weight::bold, Align::right);
  page_.text({apart, y}, "difference", row_size, Weight::bold, Align::right);
  for (const std::string_view key : keys) {
    const ComparedFigure* figure = figure_of(key);
    if (!figure) continue;
    y -= row_pitch;
    const Weight weight = figure->verdict == Verdict::differs ? Weight::bold : Weight::regular;
    page_.text({left, y}, context_.typeface.shorten(figure->name, 0.345 * width, row_size, weight),
               row_size, weight);
    page_.text({of_a, y}, operand_words(*figure, true), row_size, weight, Align::right);
    page_.text({of_b, y}, operand_words(*figure, false), row_size, weight, Align::right);
    page_.text({apart, y}, difference_words(*figure), row_size, weight, Align::right);
    const double x = apart + 2;
    const bool close = figure->verdict == Verdict::not_told_apart && !figure->chosen;
    const std::string verdict = !figure->difference ? "not in both"
                                : close             ? "too close" // the column has no room for more
                                                    : verdict_words(*figure);
    page_.text({x, y}, context_.typeface.shorten(verdict, right - x, row_size, weight), row_size,
               weight);
    if (!has_inches(*figure, context_.units)) continue;
    y -= inch_pitch;
    constexpr double size = 2.5; // 7 pt are 2.47 mm
    page_.text({left + 2, y}, "in inches", size);
    page_.text({of_a, y}, operand_inches(*figure, true), size, weight, Align::right);
    page_.text({of_b, y}, operand_inches(*figure, false), size, weight, Align::right);
    page_.text({apart, y}, difference_inches(*figure), size, weight, Align::right);
  }
  return y - row_pitch;
}

double OverlayPage::key(double left, double right, double y, LineKind kind,
                        const std::string& words, Weight weight) {
  page_.stroke(kind, {{left, y}, {left + swatch, y}});
  const double x = left + swatch + 2.6;
  page_.text({x, y - 1}, context_.typeface.shorten(words, right - x, 2.8, weight), 2.8, weight);
  return y - 4.8;
}

double OverlayPage::farthest_key(double left, double right, double y,
                                 const ComparedOutline& outline, const std::string& where) {
  if (!(outline.largest.distance > 0))
    return page_.paragraph({left, y + 1.4}, right - left, "Both outlines are one and the same.",
                           2.8) -
           1.4;
  page_.stroke(LineKind::farthest, ring({left + swatch / 2, y - 1.6}, page_.paper()), true);
  std::string words = "farthest apart: " + figure(outline.largest.distance) + " mm" +
                      inches_beside(outline.largest.distance, context_.units) + ", " + where;
  if (outline.area)
    words += "; " + figure(*outline.area / 100, 1) + " cm\u00b2 lie in one of them only";
  const double x = left + swatch + 2.6;
  return std::min(page_.paragraph({x, y + 1.4}, right - x, words, 2.8), y - 4.8) - 2;
}

double OverlayPage::notes(double left, double right, double y, double least, std::string_view about,
                          std::string_view elsewhere) {
  const auto say = [&](const std::string& words, Weight weight) {
    if (y - page_.height_of(words, right - left, 2.5, weight) < least) return;
    y = page_.paragraph({left, y}, right - left, words, 2.5, weight) - 0.8;
  };
  for (const bool on_a : {true, false}) {
    const CutAlike& alike = on_a ? overlay_.foot.b_on_a : overlay_.foot.a_on_b;
    if (about == "shank" && std::abs(alike.deeper) > 0.05)
      say(capital(name(on_a)) + " cut like " + name(!on_a) + ": " + length(alike.board) + " off, " +
              length(std::abs(alike.deeper)) + (alike.deeper > 0 ? " past" : " short of") +
              " its own line, " + length(alike.board_left) + " left behind the arch break.",
          Weight::regular);
    for (const Finding& caution : alike.cautions)
      if (caution.key.path().starts_with(about) &&
          (elsewhere.empty() || caution.what.find(elsewhere) == std::string::npos))
        say(with_inches(capital(name(on_a)) + ", " + caution.what + ".", context_.units),
            Weight::bold);
  }
  say("A difference counts when it is larger than what follows the \u00b1 (95 %). " +
          shared_words(overlay_.comparison.shared) + " e: estimated, not measured.",
      Weight::regular);
  return y;
}

} // namespace shankline
