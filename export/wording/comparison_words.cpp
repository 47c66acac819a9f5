#include "export/wording/comparison_words.hpp"

#include "geometry/numerics/degree.hpp"
#include "geometry/order/figure.hpp"

#include <cmath>
#include <stdexcept>
#include <string_view>

namespace shankline {
namespace {

struct ShownAs {
  double factor;
  int decimals;
  const char* unit;
  const char* behind = ""; ///< a value; lengths, areas and moments stand in columns of their unit
};

ShownAs shown_as(FigureUnit unit) {
  switch (unit) {
  case FigureUnit::mm:
    return {1, 1, "mm"};
  case FigureUnit::angle:
    return {1 / degree, 1, "\u00b0", "\u00b0"};
  case FigureUnit::fraction:
    return {100, 1, "%", " %"};
  case FigureUnit::moment:
    return {1, 0, "N mm"};
  case FigureUnit::area:
    return {1, 0, "mm\u00b2"};
  case FigureUnit::number:
    return {1, 2, ""};
  case FigureUnit::count:
    return {1, 0, ""};
  }
  throw std::logic_error("unit without words");
}

/// A value in the unit that is shown, as a whole number of its last decimal.
double counted(FigureUnit unit, double value, int more) {
  const ShownAs as = shown_as(unit);
  return std::round(value * as.factor * std::pow(10.0, as.decimals + more) * (1 + 1e-12));
}

/// The number of further decimals that a row needs, so that its figures do not contradict its
/// verdict, which comes from the exact ones: 3.5 and 2.4, 1.1 ±1.1, differs.
int more_decimals(const ComparedFigure& figure) {
  constexpr int most = 2;
  if (!figure.difference || !figure.a || !figure.b || figure.chosen) return 0;
  for (int more = 0; more < most; ++more) {
    const double apart =
        std::abs(counted(figure.unit, *figure.a, more) - counted(figure.unit, *figure.b, more));
    const double U = counted(figure.unit, figure.difference->expanded(), more);
    if ((apart > U) == (figure.verdict == Verdict::differs)) return more;
  }
  return most;
}

std::string number(FigureUnit unit, double value, int more) {
  const ShownAs as = shown_as(unit);
  return figure(value * as.factor, as.decimals + more);
}

/// "62.0", "6.9°", "72.0 %": a value as its unit is read.
std::string value_words(FigureUnit unit, double value, int more) {
  return number(unit, value, more) + shown_as(unit).behind;
}

/// Returns the rounding that the sheets use: down for a length cut off, up for a length that stays.
Rounding rounding_of(const ComparedFigure& figure) {
  const std::string_view key = figure.key;
  for (const std::string_view off : {"trim.final.", "trim.first.", "trim.stop"})
    if (key.starts_with(off)) return Rounding::down;
  if (key.starts_with("sides.") && key.ends_with(".depth")) return Rounding::down;
  if (key.starts_with("sides.") && key.ends_with(".low")) return Rounding::up;
  if (key == "pieces.kept.length" || key == "thinned.thickness") return Rounding::up;
  return Rounding::nearest;
}

/// The difference of the two figures as shown, in the unit of the comparison.
double difference_as_shown(const ComparedFigure& figure, int more) {
  if (!figure.a || !figure.b) return figure.difference->value;
  const ShownAs as = shown_as(figure.unit);
  return shown_difference(*figure.a * as.factor, *figure.b * as.factor, as.decimals + more) /
         as.factor;
}

} // namespace

std::string unit_words(FigureUnit unit) {
  return shown_as(unit).unit;
}

std::string operand_words(const ComparedFigure& figure, bool of_a) {
  const std::optional<double>& value = of_a ? figure.a : figure.b;
  if (!value) return "\u2013";
  const bool estimated = of_a ? figure.estimated_a : figure.estimated_b;
  return value_words(figure.unit, *value, more_decimals(figure)) + (estimated ? " e" : "");
}

std::string difference_words(const ComparedFigure& figure) {
  if (!figure.difference) return {};
  const int more = more_decimals(figure);
  const double difference = difference_as_shown(figure, more);
  const std::string size = number(figure.unit, std::abs(difference), more);
  const bool nothing = size.find_first_not_of("0.") == std::string::npos;
  std::string words = nothing ? size : (difference < 0 ? "\u2212" : "+") + size;
  if (!figure.chosen) words += " \u00b1" + number(figure.unit, figure.difference->expanded(), more);
  return words;
}

bool has_inches(const ComparedFigure& figure, Units units) {
  return units == Units::inch && figure.unit == FigureUnit::mm;
}

std::string operand_inches(const ComparedFigure& figure, bool of_a) {
  const std::optional<double>& mm = of_a ? figure.a : figure.b;
  return mm ? inches(*mm, rounding_of(figure)) : std::string();
}

std::string difference_inches(const ComparedFigure& figure) {
  if (!figure.difference || !figure.a || !figure.b) return {};
  const Rounding rounding = rounding_of(figure);
  const double apart = in_inch_steps(*figure.a, rounding) - in_inch_steps(*figure.b, rounding);
  std::string words = (apart > 0 ? "+" : "") + inches(apart);
  if (!figure.chosen) words += " \u00b1" + inches(figure.difference->expanded(), Rounding::up);
  return words;
}

std::string verdict_words(const ComparedFigure& figure) {
  switch (figure.verdict) {
  case Verdict::differs:
    return "differs";
  case Verdict::not_told_apart:
    return figure.chosen ? "the same" : "too close to call";
  case Verdict::cannot_be_compared:
    return figure.why_not;
  }
  throw std::logic_error("verdict without words");
}

std::string shared_words(const Shared& shared) {
  if (shared.guesses) return "One reader and one printer: errors that both feet share cancel.";
  std::string words = shared.reader ? "Both orders were read by one person, whose habits cancel"
                                    : "Two readers are assumed, so their errors do not cancel";
  if (shared.same_foot) words += "; estimates by foot length cancel for one foot";
  return words + ".";
}

std::string overlay_words(const Comparison& comparison, const FootComparison& foot) {
  std::string words = comparison.short_a + " over " + comparison.short_b;
  if (foot.side_a != foot.side_b) return words;
  return foot_name(foot.side_a) + " foot, " + words;
}

} // namespace shankline
