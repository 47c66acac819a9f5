#include "export/bench/acceptance_sheet.hpp"

#include "geometry/order/figure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

namespace shankline {
namespace {

constexpr double head_height = 14; // of a foot's, with air
constexpr double words_size = 3.1;
constexpr const char* assumed = "The steps and the \u00b1 of an instrument are assumptions, in mm "
                                "and at 95 %: common practice, no "
                                "source.";

class AcceptanceLayout {
public:
  AcceptanceLayout(const SheetContext& context, const JudgedPair& pair, const AcceptanceWish& what)
      : context_(context), pair_(pair), what_(what) {}

  std::vector<Page> draw() && {
    new_page();
    std::optional<FootSide> foot;
    for (const JudgedLine& judged : pair_.lines) {
      const bool other_foot = foot != judged.line.foot;
      const double wanted = row_height() + (other_foot ? head_height : 0);
      const bool overleaf = y_ - wanted < page_->bottom() + room_below;
      if (overleaf) {
        pages_.push_back(std::move(*page_).finish());
        new_page();
      }
      if (other_foot || overleaf) head(judged.line.foot);
      foot = judged.line.foot;
      row(judged);
    }
    verdict();
    signatures();
    pages_.push_back(std::move(*page_).finish());
    return std::move(pages_);
  }

private:
  static constexpr double room_below = 44; ///< verdict, rules and signatures

  void new_page() {
    page_.emplace(context_, pages_.size(),
                  what_.blank ? "Acceptance, to be filled in" : "Acceptance of the pair");
    page_->label("acceptance");
    y_ = page_->title_strip("", "") - 3;
    y_ = page_->paragraph(
        {page_->left(), y_}, page_->right() - page_->left(),
        "A line is accepted only where the size lies inside its limits by more than the "
        "instrument's uncertainty, and refused only where it lies outside by more. Between them a "
        "finer instrument has to decide.",
        words_size);
    if (pages_.empty()) what_.blank ? instruments_to_tick() : instruments_used();
  }

  static std::string instrument_words(const InstrumentGuide& guide) {
    return std::string(guide.name) + ", in steps of " + short_figure(guide.division, 2) +
           ", \u00b1" + short_figure(guide.U, 2);
  }

  /// Whoever measures names the instrument, or writes another one.
  void instruments_to_tick() {
    y_ -= 6;
    page_->text({page_->left(), y_}, "Measured with", words_size, Weight::bold);
    double x = page_->left() + 27;
    for (const InstrumentGuide& guide : instrument_guides()) {
      const std::string words = instrument_words(guide);
      const double room = 4.6 + page_->width_of(words, 2.6) + 5;
      if (x + room > page_->right()) {
        x = page_->left() + 27;
        y_ -= 6;
      }
      page_->rectangle(LineKind::frame, {x, y_ - 0.7, x + 3.4, y_ + 2.7});
      page_->text({x + 4.6, y_}, words, 2.6);
      x += room;
    }
    y_ -= 9;
    const std::string other = "another, and its \u00b1 at 95 %:";
    page_->text({page_->left() + 27, y_}, other, 2.6);
    const double from = page_->left() + 29 + page_->width_of(other, 2.6);
    page_->stroke(LineKind::frame, {{from, y_ - 1}, {page_->right(), y_ - 1}});
    y_ = page_->paragraph({page_->left(), y_ - 2.6}, page_->right() - page_->left(), assumed, 2.6);
  }

  void instruments_used() {
    std::string words;
    bool given = false;
    for (const InstrumentGuide& guide : instrument_guides()) {
      const bool used =
          std::any_of(pair_.lines.begin(), pair_.lines.end(), [&](const JudgedLine& judged) {
            return judged.made && judged.made->with == guide.name;
          });
      if (used) words += (words.empty() ? "" : "; ") + instrument_words(guide);
    }
    for (const JudgedLine& judged : pair_.lines)
      given = given || (judged.made && judged.made->own_U);
    if (!words.empty()) words = "Measured with: " + words + ". " + assumed;
    if (given) words += " * Whoever measured gave this \u00b1.";
    if (!words.empty())
      y_ =
          page_->paragraph({page_->left(), y_}, page_->right() - page_->left(), words, words_size) -
          1;
  }

  std::array<double, 5> columns() const {
    const double left = page_->left();
    const double width = page_->right() - left;
    return {left, left + 0.37 * width, left + 0.52 * width, left + 0.70 * width,
            left + 0.86 * width};
  }

  void head(FootSide foot) {
    y_ -= 7;
    const auto at = columns();
    const std::string shoe = foot == FootSide::left ? "Left shoe" : "Right shoe";
    page_->text({at[0], y_}, shoe, 4.2, Weight::bold);
    if (const std::string words = judged_at_words(pair_, foot); !words.empty())
      page_->text({at[0] + page_->width_of(shoe, 4.2, Weight::bold) + 3, y_}, words, 2.8,
                  Weight::bold);
    const std::array<const char*, 4> names{"ordered, mm", "from, to", "measured", "verdict"};
    for (std::size_t i = 0; i < names.size(); ++i)
      page_->text({at[i + 1], y_}, names[i], 2.8);
    y_ -= 2.4;
    rule();
  }

  /// Inches of what was measured stand below the instrument.
  double row_height() const { return context_.units == Units::inch && !what_.blank ? 14 : 11; }

  void rule() { page_->stroke(LineKind::frame, {{page_->left(), y_}, {page_->right(), y_}}); }

  static std::string how_to_measure(const AcceptanceLine& line) {
    if (line.counted) return "count them at the line";
    if (!line.instrument) return "with a caliper; even that may not decide";
    const std::string with(instrument_guide(*line.instrument).name);
    if (line.key == "corner") return "by a radius gauge, or a " + with;
    return "measure with a " + with;
  }

  std::string ordered_words(const AcceptanceLine& line) const {
    if (line.counted) return figure(line.nominal, 0);
    if (line.is_thickness)
      return thickness_text(line.nominal) +
             inches_inside(line.nominal, line.tolerance, context_.units, Rounding::up);
    // The ordered size is a limit where it has a tolerance on one side only: inches keep inside it.
    const Rounding inside = line.tolerance.plus == 0    ? Rounding::down
                            : line.tolerance.minus == 0 ? Rounding::up
                                                        : Rounding::nearest;
    return ruler_text(line.nominal, inside) +
           inches_inside(line.nominal, line.tolerance, context_.units, inside);
  }

  void row(const JudgedLine& judged) {
    const auto at = columns();
    const AcceptanceLine& line = judged.line;
    const double upper = y_ - 4.4;
    const double lower = y_ - 8.8;
    page_->text({at[0], upper}, context_.typeface.shorten(line.name, at[1] - at[0] - 2, words_size),
                words_size);
    page_->text({at[0], lower}, how_to_measure(line), 2.6);
    page_->text({at[1], upper}, ordered_words(line), words_size);
    page_->text({at[1], lower}, line.counted ? "no more, no less" : tolerance_text(line.tolerance),
                2.6);
    page_->text({at[2], upper}, limits_words(line), words_size, Weight::bold);
    if (context_.units == Units::inch && !line.counted)
      page_->text({at[2], lower}, limits_in_inches(line) + " in", 2.6, Weight::bold);
    if (what_.blank)
      boxes(at);
    else
      found(judged, at, upper, lower);
    y_ -= row_height();
    rule();
  }

  /// Draws a box for the size, and three verdicts to tick.
  void boxes(const std::array<double, 5>& at) {
    page_->rectangle(LineKind::frame, {at[3], y_ - 9, at[3] + 24, y_ - 2});
    const std::array<const char*, 3> names{"yes", "no", "?"};
    double x = at[4];
    for (const char* name : names) {
      page_->rectangle(LineKind::frame, {x, y_ - 7.2, x + 3.6, y_ - 3.6});
      page_->text({x + 4.3, y_ - 6.6}, name, 2.6);
      x += 10;
    }
  }

  void found(const JudgedLine& judged, const std::array<double, 5>& at, double upper,
             double lower) {
    if (!judged.made) {
      page_->text({at[3], upper}, "not measured", words_size);
    } else {
      page_->text({at[3], upper}, made_words(judged) + (judged.made->own_U ? " *" : ""),
                  words_size);
      if (context_.units == Units::inch && !judged.line.counted)
        page_->text({at[3], y_ - 12.4}, made_in_inches(judged) + " in", 2.5);
      page_->text({at[3], lower},
                  judged.line.counted                ? "counted"
                  : is_instrument(judged.made->with) ? judged.made->with
                                                     : "instrument not named",
                  2.6);
    }
    page_->text({at[4], upper}, verdict_words(judged.verdict), words_size,
                judged.verdict == Acceptance::accepted ? Weight::regular : Weight::bold);
    if (judged.made && !judged.can_be_proven)
      page_->text({at[4], lower}, "too coarse to prove", 2.6);
  }

  static bool is_instrument(const std::string& name) {
    return std::any_of(instrument_guides().begin(), instrument_guides().end(),
                       [&](const InstrumentGuide& guide) { return guide.name == name; });
  }

  void verdict() {
    y_ -= 10;
    const std::string words = what_.blank ? "The pair:  accepted / refused / not decided"
                                          : "The pair is " + verdict_words(pair_.verdict) + ".";
    page_->text({page_->left(), y_}, words, 5, Weight::bold);
    y_ = page_->paragraph(
        {page_->left(), y_ - 4}, page_->right() - page_->left(),
        "One line refused refuses the pair; one not decided, or not measured, leaves it open. "
        "Sizes are millimetres; the limits are the order's tolerances. What a pair is like on "
        "the foot is for the dancer, with teacher or fitter, to say.",
        words_size);
  }

  void signatures() {
    page_->signatures(8, {"measured by", "date", "accepted by, signature"},
                      {what_.by, what_.date, ""});
  }

  const SheetContext& context_;
  const JudgedPair& pair_;
  const AcceptanceWish& what_;
  std::optional<SheetPage> page_;
  std::vector<Page> pages_;
  double y_ = 0;
};

} // namespace

std::string verdict_words(Acceptance verdict) {
  switch (verdict) {
  case Acceptance::accepted:
    return "accepted";
  case Acceptance::refused:
    return "refused";
  case Acceptance::not_decided:
    break;
  }
  return "not decided";
}

std::string limits_words(const AcceptanceLine& line) {
  if (line.counted) return figure(line.nominal, 0);
  constexpr double wide = 0.5;      // mm: nobody reads hundredths off a rule
  constexpr double rounding = 0.05; // of a step: 36.000026 is 36
  const SizeLimits limits = line.limits();
  const double step = *limits.most - *limits.least < wide ? 0.01 : 0.1;
  const double least = std::ceil(*limits.least / step - rounding) * step;
  const double most = std::floor(*limits.most / step + rounding) * step;
  return short_figure(least, 2) + " to " + short_figure(most, 2);
}

std::string made_words(const JudgedLine& judged) {
  std::string value = short_figure(judged.made->value, 2);
  if (judged.line.counted) return value;
  return value + " \u00b1" + short_figure(judged.made->U, 2);
}

std::string limits_in_inches(const AcceptanceLine& line) {
  const SizeLimits limits = line.limits();
  if (in_inch_steps(*limits.least, Rounding::up) > in_inch_steps(*limits.most, Rounding::down))
    return "\u2013";
  const std::string least = inches(*limits.least, Rounding::up);
  const std::string most = inches(*limits.most, Rounding::down);
  return least == most ? least : least + " to " + most;
}

std::string made_in_inches(const JudgedLine& judged) {
  return inches(judged.made->value) + " \u00b1" + inches(judged.made->U, Rounding::up);
}

std::string judged_at_words(const JudgedPair& pair, FootSide foot) {
  const auto board =
      std::find_if(pair.lines.begin(), pair.lines.end(), [&](const JudgedLine& judged) {
        return judged.line.foot == foot && judged.line.cut;
      });
  if (board == pair.lines.end()) return {};
  switch (*board->line.cut) {
  case BoardCut::first_cut:
    return "board judged at the first cut";
  case BoardCut::final_cut:
    return "board judged at the final cut";
  case BoardCut::only_cut:
    break;
  }
  return "board judged at its only line";
}

SheetSet acceptance_set(const Order& order, const JudgedPair& pair, const AcceptanceWish& what,
                        const SheetWish& wish) {
  ChosenLettering chosen = lettering_of(order, wish.find_faces);
  const Typeface typeface(chosen.lettering);
  SheetContext context{order, typeface, wish.paper, wish.units, wish.digest, 1};
  SheetSet set =
      named_set("Acceptance: " + order_line(order), "acceptance of a pair, order " + wish.digest);
  set.drawing.pages = AcceptanceLayout(context, pair, what).draw();
  if (set.drawing.pages.size() > 1) { // now that it is known how many there are
    context.pages = set.drawing.pages.size();
    set.drawing.pages = AcceptanceLayout(context, pair, what).draw();
  }
  return shown_by(std::move(chosen), std::move(set));
}

} // namespace shankline
