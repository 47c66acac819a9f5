#include "cli/report/report.hpp"

#include "cli/text/text_columns.hpp"
#include "export/drawing/length_text.hpp"
#include "export/wording/work_words.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace shankline {
namespace {

constexpr std::size_t name_width = 15;
constexpr std::size_t foot_width = 33;

/// A row whose words may run over several lines of an ordinary terminal.
std::string in_columns(const std::string& name, const std::string& words) {
  std::string text;
  for (const std::string& line : wrapped(words, output_columns() - name_width))
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
      return three(left(foot), "little-toe", "centre", "big-toe");
    });
    cut(
        "1 first cut",
        [](const SolvedTrim& trim) { return trim.first_cut ? &*trim.first_cut : nullptr; },
        [](const SolvedTrim&) { return std::string(); });
    cut(
        "2 final cut", [](const SolvedTrim& trim) { return &trim.final_cut; },
        [](const SolvedTrim& trim) { return " \u00b1" + figure(trim.final_doubt().expanded()); });
    shank_row("stop band", [](const FootSolution& foot) {
      const SolvedTrim& trim = *foot.trim;
      return "from " + ruler_text(trim.stop_from.centre, Rounding::down) + ", stop at " +
             ruler_text(trim.stop.centre, Rounding::down) + " \u00b1" +
             figure(trim.doubt.stop.expanded());
    });
    if (any([](const FootSolution& foot) { return foot.layers.has_value(); }))
      shank_row("layers cut", [](const FootSolution& foot) {
        return foot.layers ? of_layers(*foot.layers) + " only, from the foot side"
                           : std::string("all");
      });
    const std::string tolerance = tolerance_text(cut_off_tolerance(order_.tolerances));
    shank_row("every cut",
              [&](const FootSolution&) { return tolerance + ", never past the line"; });
    shank_row("right place", [](const FootSolution& foot) {
      return "known to \u00b1" + figure(foot.trim->right_U) + ", held back " +
             figure(shown_hold_back(*foot.trim));
    });
    if (any([](const FootSolution& foot) { return foot.trim && foot.trim->learned; })) {
      shank_row("learned", [](const FootSolution& foot) {
        return foot.trim->learned ? learned_from(*foot.trim->learned) : std::string();
      });
      shank_row("readings alone", [](const FootSolution& foot) {
        return foot.trim->learned ? alone(*foot.trim) : std::string();
      });
    }
    shank_row("witness line", [&](const FootSolution& foot) { return witness(foot); });
    shank_row("keep", [](const FootSolution& foot) { return keep(foot); });
    shank_row("other rules", [](const FootSolution& foot) { return others(foot); });
  }

  /// Rows of contact estimates, for choosing between cuts.
  void contact() {
    const auto contact_row = [&](const std::string& name, const auto& cell) {
      row(name, [&](const FootSolution& foot) {
        const auto& found = left(foot) ? contact_.left : contact_.right;
        return found && found->cut ? cell(foot, *found) : std::string();
      });
    };
    contact_row("break estimate", [](const FootSolution& foot, const FootContact& found) {
      const auto place = [&](const FootContactFigures& figures) {
        return figures.breaks_in_arch ? "at " + figure(foot.frames.posed(figures.break_at), 0)
                                      : std::string("at the box");
      };
      return place(found.cut->figures) + ", uncut " + place(found.uncut.figures);
    });
    contact_row("heel estimate", [](const FootSolution&, const FootContact& found) {
      return "pry " + figure(100 * found.heel_pry_left, 0) + " %, gap " +
             figure(100 * found.heel_gap_left, 0) + " % of uncut";
    });
    contact_doubt();
  }

  /// One row, or two where a limit takes more words than a column has room for.
  void contact_doubt() {
    const auto doubt_row = [&](const std::string& name, const auto& cell) {
      row(name, [&](const FootSolution& foot) {
        const auto& doubt = left(foot) ? contact_.left_doubt : contact_.right_doubt;
        return doubt ? cell(*doubt) : std::string();
      });
    };
    const auto of_break = [](const ContactDoubt& doubt) {
      return "break " + whole_doubt_words(doubt.break_at);
    };
    const auto of_shares = [](const ContactDoubt& doubt) {
      return "pry " + share_doubt_words(doubt.heel_pry_left, doubt.heel_pry_left_up_to) + ", gap " +
             share_doubt_words(doubt.heel_gap_left, doubt.heel_gap_left_up_to);
    };
    const auto is_long = [](const std::optional<ContactDoubt>& doubt) {
      return doubt && (doubt->heel_pry_left_up_to || doubt->heel_gap_left_up_to);
    };
    if (is_long(contact_.left_doubt) || is_long(contact_.right_doubt)) {
      doubt_row("known to", of_break);
      doubt_row("", of_shares);
    } else if (contact_.left_doubt || contact_.right_doubt) {
      doubt_row("known to", [&](const ContactDoubt& doubt) {
        return of_break(doubt) + ", " + of_shares(doubt);
      });
    }
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
    sides_row("least height", [](const SolvedSides& sides) {
      return "big-toe " + figure(sides.medial.low) + ", little-toe " + figure(sides.lateral.low);
    });
    sides_row("new top line", [](const SolvedSides& sides) {
      return figure(sides.top_line) + " wing to wing, was " +
             figure(sides.medial.stock_length + sides.lateral.stock_length);
    });
  }

  /// Rows of other work, in short; the sheets say more.
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
      return (ribbons.ring ? "ring, cut " : "two, each ") + figure(ribbons.cut, 0);
    });
    work_row("elastics", &FootSolution::elastics, [](const SolvedElastics& elastics) {
      std::string words;
      if (elastics.across) words = "across " + figure(*elastics.across, 0);
      if (elastics.loop)
        words += (words.empty() ? "" : ", ") + ("loop " + figure(*elastics.loop, 0));
      return words;
    });
    work_row("tuck", &FootSolution::tuck, [](const SolvedTuck& tuck) {
      return short_figure(tuck.depth) + " deep, " + short_figure(tuck.down) + " down";
    });
    if (any([](const FootSolution& foot) { return foot.sides && foot.sides->drawstring; }))
      row("drawstring", [](const FootSolution& foot) {
        return foot.sides && foot.sides->drawstring ? figure(*foot.sides->drawstring, 0)
                                                    : std::string();
      });
  }

  static bool left(const FootSolution& foot) { return foot.side == FootSide::left; }
  /// Three cells in the order of the edges on the bench, foot side up: little-toe edge first on a
  /// left foot. `medial` and `lateral` change places on a right one.
  static std::string three(bool left_foot, const std::string& lateral, const std::string& centre,
                           const std::string& medial) {
    if (left_foot)
      return right_aligned(lateral, 10) + right_aligned(centre, 8) + right_aligned(medial, 8);
    return right_aligned(medial, 7) + right_aligned(centre, 8) + right_aligned(lateral, 11);
  }

  template <class Cell> void row(const std::string& name, const Cell& cell) {
    std::string line = padded(name, name_width);
    for (const FootSolution* foot : feet_)
      line += padded(std::string(cell(*foot)) + " ", foot_width);
    line.erase(line.find_last_not_of(' ') + 1);
    text_ += line + "\n";
  }

  template <class Pick, class Known>
  void cut(const std::string& name, const Pick& pick, const Known& known) {
    const auto cells = [&](const FootSolution& foot, const auto& words) {
      const CutLine* line = pick(*foot.trim);
      if (!line) return std::string("none: file it back, and try");
      return three(left(foot), words(line->lateral), words(line->centre), words(line->medial)) +
             known(*foot.trim);
    };
    shank_row(name, [&](const FootSolution& foot) {
      return cells(foot, [](double mm) { return ruler_text(mm, Rounding::down); });
    });
    if (units_ != Units::inch) return;
    shank_row("  in inches", [&](const FootSolution& foot) {
      return cells(foot, [](double mm) { return inches(mm, Rounding::down); });
    });
  }

  static std::string witness(const FootSolution& foot) {
    const double witness = foot.trim->witness.centre;
    const auto back = [&](const CutLine& line) {
      return ruler_text(witness - line.centre, Rounding::up);
    };
    std::string words = "at " + figure(witness, 0) + ", back from it ";
    if (foot.trim->first_cut) words += back(*foot.trim->first_cut) + ", ";
    return words + back(foot.trim->final_cut);
  }

  static std::string keep(const FootSolution& foot) {
    if (!foot.pieces.kept_length) return "not known, board in the shoe";
    std::string words;
    if (foot.trim->first_cut)
      words = ruler_text(*foot.pieces_to_cut.kept_length, Rounding::up) + ", then ";
    return words + ruler_text(*foot.pieces.kept_length, Rounding::up) + " of " +
           short_figure(*foot.outline.length()) + " (" +
           figure(100 * *foot.pieces.kept_fraction, 0) + " %)";
  }

  static std::string learned_from(const LearnedLine& line) {
    return "from " + std::to_string(line.pairs) + (line.pairs == 1 ? " pair" : " pairs") +
           " until " + line.until;
  }

  /// The end of the board by the readings alone.
  static std::string alone(const SolvedTrim& trim) {
    const Uncertain& heel_front = trim.doubt.heel_front_line;
    return "edge, " + ruler_text(heel_front.value, Rounding::down) + " \u00b1" +
           figure(heel_front.expanded());
  }

  /// The cuts of the other rules, on the board.
  static std::string others(const FootSolution& foot) {
    const OtherRules& rules = foot.trim->other_rules;
    std::string words = "heel front " + figure(foot.frames.on_board(rules.heel_front)) + " \u00b1" +
                        figure(foot.trim->doubt.heel_front_line.expanded());
    if (rules.three_quarter) words += ", 3/4 " + figure(foot.frames.on_board(*rules.three_quarter));
    return words;
  }

  static std::string estimate(const Estimated& e) {
    return e.name + " " + figure(e.value) + " \u00b1" + short_figure(2 * e.sd) + ", from " +
           e.source;
  }

  /// Lists estimates; one that both feet share is listed once.
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
      text += " cut off " +
              (trim->first_cut ? ruler_text(trim->first_cut->centre, Rounding::down) + " then "
                               : std::string()) +
              ruler_text(trim->final_cut.centre, Rounding::down);
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
    if (!words.empty()) text += in_columns("to be surer", foot_name((*foot)->side) + ": " + words);
  }
  return text;
}

std::string sampled_text(const Order& order, const Solution& solution) {
  std::string text;
  for (const auto* foot : {&solution.left, &solution.right}) {
    if (!*foot) continue;
    const auto sampled = sampled_cut(order, **foot);
    if (!sampled) continue;
    text += in_columns("random draws", foot_name((*foot)->side) + ": the cut lies from " +
                                           figure(sampled->low) + " to " + figure(sampled->high) +
                                           " in 95 of 100 of " + std::to_string(sampled->draws) +
                                           " draws, \u00b1" +
                                           figure((sampled->high - sampled->low) / 2) +
                                           (sampled->settled ? "" : ", not settled"));
  }
  return text;
}

std::string report_text(const Order& order, const Solution& solution, const PairContact& contact,
                        Units units) {
  return Report(order, solution, contact, units).text();
}

} // namespace shankline
