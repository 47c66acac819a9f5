#include "cli/report.hpp"

#include "cli/text_columns.hpp"
#include "export/work_words.hpp"
#include "geometry/figure.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace shankline {
namespace {

constexpr std::size_t name_width = 16;
constexpr std::size_t foot_width = 34;

/// A row whose words may run over several lines of an ordinary terminal.
std::string in_columns(const std::string& name, const std::string& words) {
  std::string text;
  for (const std::string& line : wrapped(words, terminal_width - name_width))
    text += padded(text.empty() ? name : std::string(), name_width) + line + "\n";
  return text;
}

class Report {
public:
  Report(const Order& order, const Solution& solution, const PairContact& contact, Units units)
      : order_(order), contact_(contact), units_(units) {
    for (const auto* foot : {&solution.left, &solution.right})
      if (*foot) feet_.push_back(&**foot);
  }

  std::string text() && {
    text_ = order_.dancer;
    for (const std::string* part : {&order_.pair, &order_.date})
      if (!part->empty()) text_ += ", " + *part;
    text_ += "\n\n";
    row("", [](const FootSolution& foot) { return left(foot) ? "LEFT" : "RIGHT"; });
    if (any([](const FootSolution& foot) { return foot.trim.has_value(); })) shank();
    if (any([](const FootSolution& foot) { return foot.sides.has_value(); })) sides();
    other_work();
    if (contact_.left || contact_.right) contact();
    estimates();
    return std::move(text_);
  }

private:
  template <class Test> bool any(const Test& test) const {
    return std::any_of(feet_.begin(), feet_.end(),
                       [&](const FootSolution* foot) { return test(*foot); });
  }

  /// A row for the feet that have shank work.
  template <class Cell> void shank_row(const std::string& name, const Cell& cell) {
    row(name, [&](const FootSolution& foot) { return foot.trim ? cell(foot) : std::string(); });
  }

  void shank() {
    shank_row("cut off, mm", [](const FootSolution& foot) {
      return left(foot) ? three("little-toe", "centre", "big-toe")
                        : three("big-toe", "centre", "little-toe");
    });
    cut("first cut",
        [](const SolvedTrim& trim) { return trim.first_cut ? &*trim.first_cut : nullptr; });
    cut("final cut", [](const SolvedTrim& trim) { return &trim.final_cut; });
    if (any([](const FootSolution& foot) { return foot.layers.has_value(); }))
      shank_row("layers cut", [](const FootSolution& foot) {
        return foot.layers ? of_layers(*foot.layers) + " only, from the foot side"
                           : std::string("all");
      });
    const std::string tolerance = tolerance_text(cut_off_tolerance(order_.tolerances));
    shank_row("every cut",
              [&](const FootSolution&) { return tolerance + ", never past the line"; });
    shank_row("known to", [](const FootSolution& foot) {
      return "\u00b1" + figure(foot.trim->doubt.board.expanded()) + " mm (95 %, an estimate)";
    });
    shank_row("witness line", [&](const FootSolution& foot) { return witness(foot); });
    shank_row("", [](const FootSolution& foot) { return back_from_witness(foot); });
    shank_row("keep", [&](const FootSolution& foot) { return keep(foot); });
    shank_row("other rules", [](const FootSolution& foot) { return others(foot); });
  }

  /// Estimates, for choosing between cuts.
  void contact() {
    const auto contact_row = [&](const std::string& name, const auto& cell) {
      row(name, [&](const FootSolution& foot) {
        const auto& found = left(foot) ? contact_.left : contact_.right;
        return found && found->cut ? cell(foot, *found) : std::string();
      });
    };
    contact_row("estimated break", [](const FootSolution& foot, const FootContact& found) {
      const auto place = [&](const ContactFigures& figures) {
        return figures.breaks_in_arch ? "at " + figure(figures.break_at + foot.pose_shift, 0)
                                      : std::string("at the box");
      };
      return place(found.cut->figures) + ", uncut " + place(found.uncut.figures);
    });
    contact_row("estimated heel", [](const FootSolution&, const FootContact& found) {
      return "pry " + figure(100 * found.heel_pry_left, 0) + " %, gap " +
             figure(100 * found.heel_gap_left, 0) + " % of uncut";
    });
    if (contact_.left_doubt || contact_.right_doubt)
      row("known to", [&](const FootSolution& foot) {
        const auto& doubt = left(foot) ? contact_.left_doubt : contact_.right_doubt;
        return doubt ? "break \u00b1" + figure(doubt->break_at.expanded(), 0) + ", pry \u00b1" +
                           figure(100 * doubt->heel_pry_left.expanded(), 0) + " %, gap \u00b1" +
                           figure(100 * doubt->heel_gap_left.expanded(), 0) + " %"
                     : std::string();
      });
  }

  void sides() {
    const auto sides_row = [&](const std::string& name, const auto& cell,
                               const std::string& otherwise = {}) {
      row(name,
          [&](const FootSolution& foot) { return foot.sides ? cell(*foot.sides) : otherwise; });
    };
    const std::string tolerance = tolerance_text(cut_off_tolerance(order_.tolerances));
    sides_row(
        "sides lower by",
        [&](const SolvedSides& sides) {
          return "big-toe " + short_figure(sides.medial.profile.depth) + ", little-toe " +
                 short_figure(sides.lateral.profile.depth) + "  " + tolerance;
        },
        "they stay as they are");
    if (any([](const FootSolution& foot) {
          return foot.sides && foot.sides->medial.profile.back > 0;
        }))
      sides_row("back lower by",
                [](const SolvedSides& sides) { return short_figure(sides.medial.profile.back); });
    sides_row("lowest left", [](const SolvedSides& sides) {
      return "big-toe " + figure(sides.medial.low) + ", little-toe " + figure(sides.lateral.low);
    });
    sides_row("new top line", [](const SolvedSides& sides) {
      return figure(sides.top_line) + " wing to wing, was " +
             figure(sides.medial.stock_length + sides.lateral.stock_length);
    });
  }

  /// Short: the sheets have the rest.
  void other_work() {
    const auto work_row = [&](const std::string& name, auto member, const auto& cell) {
      if (!any([&](const FootSolution& foot) { return (foot.*member).has_value(); })) return;
      row(name, [&](const FootSolution& foot) {
        return foot.*member ? cell(*(foot.*member)) : std::string("none");
      });
    };
    work_row("board thinned", &FootSolution::thinned, [](const SolvedThinning& thinned) {
      return short_figure(thinned.from) + " to " + short_figure(thinned.to) + ", to " +
             short_figure(thinned.thickness) + " thick";
    });
    work_row("heel filler", &FootSolution::filler, [](const SolvedFiller& filler) {
      return figure(filler.length) + " by " + figure(filler.width) + ", " +
             short_figure(filler.thickness) + " thick";
    });
    work_row("liner", &FootSolution::liner, [](const SolvedLiner& liner) {
      return figure(liner.length) + " long, " + figure(liner.width) + " wide";
    });
    work_row("darning", &FootSolution::darning, [](const SolvedDarning& darning) {
      return short_figure(darning.height) + " high" +
             (darning.raise > 0 ? ", raised " + short_figure(darning.raise) : std::string()) +
             ", yarn " + figure(darning.yarn / 1000) + " m";
    });
    work_row("ribbon", &FootSolution::ribbons, [](const SolvedRibbons& ribbons) {
      return (ribbons.ring ? "ring, cut " : "two, each ") + figure(ribbons.cut);
    });
    work_row("elastics", &FootSolution::elastics, [](const SolvedElastics& elastics) {
      std::string words;
      if (elastics.across) words = "across " + figure(*elastics.across);
      if (elastics.loop) words += (words.empty() ? "" : ", ") + ("loop " + figure(*elastics.loop));
      return words;
    });
    work_row("tuck", &FootSolution::tuck, [](const SolvedTuck& tuck) {
      return short_figure(tuck.depth) + " deep, " + short_figure(tuck.down) + " down";
    });
    if (any([](const FootSolution& foot) { return foot.sides && foot.sides->drawstring; }))
      row("drawstring", [](const FootSolution& foot) {
        return foot.sides && foot.sides->drawstring ? figure(*foot.sides->drawstring)
                                                    : std::string();
      });
  }

  static bool left(const FootSolution& foot) { return foot.side == FootSide::left; }
  static std::string three(const std::string& a, const std::string& b, const std::string& c) {
    return right_aligned(a, 10) + right_aligned(b, 9) + right_aligned(c, 11);
  }

  template <class Cell> void row(const std::string& name, const Cell& cell) {
    std::string line = padded(name, name_width);
    for (const FootSolution* foot : feet_)
      line += padded(std::string(cell(*foot)) + " ", foot_width);
    line.erase(line.find_last_not_of(' ') + 1);
    text_ += line + "\n";
  }

  template <class Pick> void cut(const std::string& name, const Pick& pick) {
    const auto cells = [&](const FootSolution& foot, const auto& words) {
      const CutLine* line = pick(*foot.trim);
      if (!line) return std::string("  none: too little for two steps");
      std::array<double, 3> values{line->lateral, line->centre, line->medial};
      if (!left(foot)) std::swap(values[0], values[2]);
      return three(words(values[0]), words(values[1]), words(values[2]));
    };
    shank_row(name, [&](const FootSolution& foot) {
      return cells(foot, [](double mm) { return figure(mm); });
    });
    if (units_ != Units::inch) return;
    shank_row("  in inches", [&](const FootSolution& foot) {
      return cells(foot, [](double mm) { return inches(mm, Rounding::down); });
    });
  }

  static std::string witness(const FootSolution& foot) {
    return "at " + figure(foot.trim->witness.centre, 0) + ", stop line at " +
           figure(foot.trim->stop.centre);
  }

  static std::string back_from_witness(const FootSolution& foot) {
    const double witness = foot.trim->witness.centre;
    std::string words = "back from it ";
    if (foot.trim->first_cut) words += figure(witness - foot.trim->first_cut->centre) + ", then ";
    return words + figure(witness - foot.trim->final_cut.centre);
  }

  std::string keep(const FootSolution& foot) const {
    if (!foot.pieces.kept_length) return "not known, board in the shoe";
    return figure(*foot.pieces.kept_length) + " " +
           tolerance_text(keep_tolerance(order_.tolerances)) + " of " +
           short_figure(*foot.outline.length()) + " (" +
           figure(100 * *foot.pieces.kept_fraction, 0) + " %)";
  }

  /// Where the other rules would cut, on the board.
  static std::string others(const FootSolution& foot) {
    const double to_board = foot.shift - foot.pose_shift;
    const OtherRules& rules = foot.trim->other_rules;
    std::string words = "heel front " + figure(rules.heel_front + to_board);
    if (rules.three_quarter) words += ", 3/4 " + figure(*rules.three_quarter + to_board);
    return words;
  }

  static std::string estimate(const Estimated& e) {
    return e.name + " " + figure(e.value) + ", SD " + short_figure(e.sd) + ", from " + e.source;
  }

  /// What is said of either foot alike, once.
  void estimates() {
    std::map<std::string, int> times;
    for (const FootSolution* foot : feet_)
      for (const Estimated& e : foot->estimated)
        ++times[estimate(e)];
    for (const FootSolution* foot : feet_)
      for (const Estimated& e : foot->estimated) {
        const std::string words = estimate(e);
        if (times[words] == 1)
          text_ += in_columns("estimated", (left(*foot) ? "left: " : "right: ") + words);
        else if (foot == feet_.front())
          text_ += in_columns("estimated", "both: " + words);
      }
  }

  const Order& order_;
  const PairContact& contact_;
  Units units_;
  std::vector<const FootSolution*> feet_;
  std::string text_;
};

} // namespace

std::string brief_text(const Order& order, const Solution& solution) {
  std::string text = order.dancer;
  for (const auto* foot : {&solution.left, &solution.right}) {
    if (!*foot) continue;
    text += (*foot)->side == FootSide::left ? ", left" : ", right";
    if (const auto& trim = (*foot)->trim)
      text += " cut off " + (trim->first_cut ? figure(trim->first_cut->centre) + " then " : "") +
              figure(trim->final_cut.centre);
    if (const auto& sides = (*foot)->sides)
      text +=
          std::string((*foot)->trim ? ", sides" : " sides") + " lower by " +
          short_figure(sides->medial.profile.depth) + " and " +
          short_figure(sides->lateral.profile.depth) +
          (sides->medial.profile.back > 0 ? ", back by " + short_figure(sides->medial.profile.back)
                                          : "");
    if (const std::string also = other_work(**foot); !also.empty())
      text += ((*foot)->trim || (*foot)->sides ? ", with " : " with ") + also;
  }
  return text;
}

std::string budget_text(const Solution& solution) {
  std::string text;
  for (const auto* foot : {&solution.left, &solution.right}) {
    if (!*foot || !(*foot)->trim) continue;
    const std::string words = repeat_first((*foot)->trim->gains);
    if (!words.empty()) text += in_columns("surer", foot_name((*foot)->side) + ": " + words);
  }
  return text;
}

std::string sampled_text(const Order& order, const Solution& solution) {
  std::string text;
  for (const auto* foot : {&solution.left, &solution.right}) {
    if (!*foot) continue;
    const auto sampled = sampled_cut(order, **foot);
    if (!sampled) continue;
    text +=
        in_columns("by drawing", foot_name((*foot)->side) + ": the cut lies from " +
                                     figure(sampled->low) + " to " + figure(sampled->high) +
                                     " in 95 of 100 of " + std::to_string(sampled->draws) +
                                     " draws, \u00b1" + figure((sampled->high - sampled->low) / 2) +
                                     (sampled->settled ? "" : ", not settled"));
  }
  return text;
}

std::string report_text(const Order& order, const Solution& solution, const PairContact& contact,
                        Units units) {
  return Report(order, solution, contact, units).text();
}

} // namespace shankline
