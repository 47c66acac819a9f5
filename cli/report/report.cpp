#include "cli/report/report.hpp"

#include "cli/text/text_columns.hpp"
#include "export/drawing/length_text.hpp"
#include "export/wording/work_words.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <array>
#include <future>
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
    row(name, of_shank(cell));
  }
  template <class Cell> void shank_lengths(const std::string& name, const Cell& cell) {
    lengths(name, of_shank(cell));
  }
  template <class Cell> static auto of_shank(const Cell& cell) {
    return [&](const FootSolution& foot) { return foot.trim ? cell(foot) : std::string(); };
  }

  // Lengths are written in millimetres, and in the row below in inches where these are wished.

  /// A row with lengths: every one is written by the functions below.
  template <class Cell> void lengths(const std::string& name, const Cell& cell) {
    row(name, cell);
    if (units_ != Units::inch) return;
    in_inches_ = true;
    row("  in inches", cell);
    in_inches_ = false;
  }
  std::string tenths(double mm) const { return in_inches_ ? inches(mm) : figure(mm); }
  /// A height that has to be left, as height_text shows it.
  std::string height(double mm) const { return in_inches_ ? inches(mm, Rounding::up) : figure(mm); }
  std::string short_length(double mm) const { return in_inches_ ? inches(mm) : short_figure(mm); }
  std::string whole(double mm) const { return in_inches_ ? inches(mm) : figure(mm, 0); }
  std::string ruler(double mm, Rounding rounding) const {
    return in_inches_ ? inches(mm, rounding) : ruler_text(mm, rounding);
  }
  /// The row in inches stands below its own words, and fractions need more room: it may say less.
  std::string unless_inches(const char* words, const char* shorter = "") const {
    return in_inches_ ? shorter : words;
  }
  /// An uncertainty is never told smaller than it is.
  std::string doubt(double U) const {
    return " \u00b1" + (in_inches_ ? inches(U, Rounding::up) : figure(U));
  }
  /// "+0 −1.5"; a tolerance in inches is never wider than the one in millimetres.
  std::string allowed(const Tolerance& tolerance) const {
    if (!in_inches_) return tolerance_text(tolerance);
    return "+" + inches(tolerance.plus, Rounding::down) + " \u2212" +
           inches(-tolerance.minus, Rounding::down);
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
        [this](const SolvedTrim& trim) { return doubt(trim.final_doubt().expanded()); });
    shank_lengths("stop band", [this](const FootSolution& foot) {
      const SolvedTrim& trim = *foot.trim;
      return "from " + ruler(trim.stop_from.centre, Rounding::down) +
             unless_inches(", stop at ", ", stop ") + ruler(trim.stop.centre, Rounding::down) +
             doubt(trim.doubt.stop.expanded());
    });
    if (any([](const FootSolution& foot) { return foot.layers.has_value(); }))
      shank_row("layers cut", [](const FootSolution& foot) {
        return foot.layers ? of_layers(*foot.layers) + " only, from the foot side"
                           : std::string("all");
      });
    shank_lengths("every cut", [this](const FootSolution&) {
      return allowed(cut_off_tolerance(order_.tolerances)) + ", never past the line";
    });
    shank_lengths("right place", [this](const FootSolution& foot) {
      return "known to" + doubt(foot.trim->right_U) + ", held back " +
             tenths(shown_hold_back(*foot.trim));
    });
    if (any([](const FootSolution& foot) { return foot.trim && foot.trim->learned; })) {
      shank_row("learned", [](const FootSolution& foot) {
        return foot.trim->learned ? learned_from(*foot.trim->learned) : std::string();
      });
      shank_lengths("readings alone", [this](const FootSolution& foot) {
        return foot.trim->learned ? alone(*foot.trim) : std::string();
      });
    }
    shank_lengths("witness line", [this](const FootSolution& foot) { return witness(foot); });
    shank_lengths("keep", [this](const FootSolution& foot) { return keep(foot); });
    shank_lengths("other rules", [this](const FootSolution& foot) { return others(foot); });
  }

  /// Rows of contact estimates, for choosing between cuts.
  void contact() {
    const auto contact_cell = [&](const auto& cell) {
      return [&](const FootSolution& foot) {
        const auto& found = left(foot) ? contact_.left : contact_.right;
        return found && found->cut ? cell(foot, *found) : std::string();
      };
    };
    const auto breaks = [this](const FootSolution& foot, const FootContact& found) {
      const auto place = [&](const FootContactFigures& figures) {
        return figures.breaks_in_arch ? "at " + whole(foot.frames.posed(figures.break_at))
                                      : std::string("at the box");
      };
      return place(found.cut->figures) + ", uncut " + place(found.uncut.figures);
    };
    lengths("break estimate", contact_cell(breaks));
    const auto heel = [](const FootSolution&, const FootContact& found) {
      return "pry " + figure(100 * found.heel_pry_left, 0) + " %, gap " +
             figure(100 * found.heel_gap_left, 0) + " % of uncut";
    };
    row("heel estimate", contact_cell(heel));
    contact_doubt();
  }

  /// One row, or two where a limit takes more words than a column has room for.
  void contact_doubt() {
    const auto doubt_cell = [&](const auto& cell) {
      return [&](const FootSolution& foot) {
        const auto& known = left(foot) ? contact_.left_doubt : contact_.right_doubt;
        return known ? cell(*known) : std::string();
      };
    };
    const auto of_break = [this](const ContactDoubt& known) {
      return "break " + (in_inches_ ? "\u00b1" + inches(known.break_at.expanded(), Rounding::up)
                                    : whole_doubt_words(known.break_at));
    };
    const auto of_shares = [](const ContactDoubt& known) {
      return "pry " + share_doubt_words(known.heel_pry_left, known.heel_pry_left_up_to) + ", gap " +
             share_doubt_words(known.heel_gap_left, known.heel_gap_left_up_to);
    };
    const auto is_long = [](const std::optional<ContactDoubt>& known) {
      return known && (known->heel_pry_left_up_to || known->heel_gap_left_up_to);
    };
    const auto both = [&](const ContactDoubt& known) {
      return of_break(known) + (in_inches_ ? std::string() : ", " + of_shares(known));
    };
    if (is_long(contact_.left_doubt) || is_long(contact_.right_doubt)) {
      lengths("known to", doubt_cell(of_break));
      row("", doubt_cell(of_shares));
    } else if (contact_.left_doubt || contact_.right_doubt) {
      lengths("known to", doubt_cell(both));
    }
  }

  void sides() {
    const auto sides_row = [&](const std::string& name, const auto& cell,
                               const std::string& otherwise = {}) {
      lengths(name,
              [&](const FootSolution& foot) { return foot.sides ? cell(*foot.sides) : otherwise; });
    };
    sides_row(
        "sides lower by",
        [&](const SolvedSides& sides) {
          const auto by = [this](double depth) {
            return in_inches_ ? inches(depth, Rounding::down) : short_figure(depth);
          };
          return "big-toe " + by(sides.medial.profile.depth) +
                 unless_inches(", little-toe ", ", little ") + by(sides.lateral.profile.depth) +
                 (in_inches_ ? std::string()
                             : "  " + tolerance_text(cut_off_tolerance(order_.tolerances)));
        },
        "they stay as they are");
    if (any([](const FootSolution& foot) {
          return foot.sides && foot.sides->medial.profile.back > 0;
        }))
      sides_row("back lower by", [this](const SolvedSides& sides) {
        return in_inches_ ? inches(sides.medial.profile.back, Rounding::down)
                          : short_figure(sides.medial.profile.back);
      });
    sides_row("least height", [this](const SolvedSides& sides) {
      return "big-toe " + height(sides.medial.low) + unless_inches(", little-toe ", ", little ") +
             height(sides.lateral.low);
    });
    sides_row("new top line", [this](const SolvedSides& sides) {
      return tenths(sides.top_line) + unless_inches(" wing to wing, was ", ", was ") +
             tenths(sides.medial.stock_length + sides.lateral.stock_length);
    });
  }

  /// Rows of other work, in short; the sheets say more.
  void other_work() {
    const auto work_row = [&](const std::string& name, auto member, const auto& cell) {
      if (!any([&](const FootSolution& foot) { return (foot.*member).has_value(); })) return;
      lengths(name, [&](const FootSolution& foot) {
        return foot.*member ? cell(*(foot.*member)) : std::string("none");
      });
    };
    work_row("board thinned", &FootSolution::thinned, [this](const SolvedThinning& thinned) {
      return short_length(thinned.from) + " to " + short_length(thinned.to) + left_thick(thinned);
    });
    work_row("heel filler", &FootSolution::filler, [this](const SolvedFiller& filler) {
      return tenths(filler.length) + " by " + tenths(filler.width) + ", " +
             short_length(filler.thickness) + " thick";
    });
    work_row("liner", &FootSolution::liner, [this](const SolvedLiner& liner) {
      return tenths(liner.length) + " long, " + tenths(liner.width) + " wide";
    });
    work_row("darning", &FootSolution::darning, [this](const SolvedDarning& darning) {
      return short_length(darning.height) + " high" +
             (darning.raise > 0 ? ", raised " + short_length(darning.raise) : std::string()) +
             ", yarn " + figure(darning.yarn / 1000) + " m";
    });
    work_row("ribbon", &FootSolution::ribbons, [this](const SolvedRibbons& ribbons) {
      return (ribbons.ring ? "ring, cut " : "two, each ") + whole(ribbons.cut);
    });
    work_row("elastics", &FootSolution::elastics, [this](const SolvedElastics& elastics) {
      std::string words;
      if (elastics.across) words = "across " + whole(*elastics.across);
      if (elastics.loop) words += (words.empty() ? "" : ", ") + ("loop " + whole(*elastics.loop));
      return words;
    });
    work_row("tuck", &FootSolution::tuck, [this](const SolvedTuck& tuck) {
      return short_length(tuck.depth) + " deep, " + short_length(tuck.down) + " down";
    });
    if (any([](const FootSolution& foot) { return foot.sides && foot.sides->drawstring; }))
      lengths("drawstring", [this](const FootSolution& foot) {
        return foot.sides && foot.sides->drawstring ? whole(*foot.sides->drawstring)
                                                    : std::string();
      });
  }

  /// ", to 1.85 thick"; without a figure in inches where it would lie outside the tolerance.
  std::string left_thick(const SolvedThinning& thinned) const {
    const double mm = thinned.thickness;
    if (!in_inches_) return ", to " + thickness_text(mm) + " thick";
    const Tolerance tolerance = dimension_tolerance(order_.tolerances, mm);
    if (inches_inside(mm, tolerance, Units::inch, Rounding::up).empty()) return {};
    return ", to " + inches(mm, Rounding::up) + " thick";
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
    shank_lengths(name, [&](const FootSolution& foot) {
      return cells(foot, [this](double mm) { return ruler(mm, Rounding::down); });
    });
  }

  std::string witness(const FootSolution& foot) const {
    const double witness = foot.trim->witness.centre;
    const auto back = [&](const CutLine& line) {
      return ruler(witness - line.centre, Rounding::up);
    };
    std::string words = "at " + whole(witness) + unless_inches(", back from it ", ", back ");
    if (foot.trim->first_cut) words += back(*foot.trim->first_cut) + ", ";
    return words + back(foot.trim->final_cut);
  }

  std::string keep(const FootSolution& foot) const {
    if (!foot.pieces.kept_length) return "not known, board in the shoe";
    std::string words;
    if (foot.trim->first_cut)
      words = ruler(*foot.pieces_to_cut.kept_length, Rounding::up) + ", then ";
    return words + ruler(*foot.pieces.kept_length, Rounding::up) + " of " +
           short_length(*foot.outline.length()) +
           (in_inches_ ? std::string()
                       : " (" + figure(100 * *foot.pieces.kept_fraction, 0) + " %)");
  }

  static std::string learned_from(const LearnedLine& line) {
    return "from " + std::to_string(line.pairs) + (line.pairs == 1 ? " pair" : " pairs") +
           " until " + line.until;
  }

  /// The end of the board by the readings alone.
  std::string alone(const SolvedTrim& trim) const {
    const Uncertain& heel_front = trim.doubt.heel_front_line;
    return "edge, " + ruler(heel_front.value, Rounding::down) + doubt(heel_front.expanded());
  }

  /// The cuts of the other rules, on the board.
  std::string others(const FootSolution& foot) const {
    const OtherRules& rules = foot.trim->other_rules;
    std::string words = unless_inches("heel front ", "heel ") +
                        ruler(foot.frames.on_board(rules.heel_front), Rounding::down) +
                        doubt(foot.trim->doubt.heel_front_line.expanded());
    if (rules.three_quarter)
      words += unless_inches(", 3/4 ", ", 3/4: ") +
               ruler(foot.frames.on_board(*rules.three_quarter), Rounding::down);
    return words;
  }

  std::string estimate(const Estimated& e) const {
    const std::string in_inches =
        units_ == Units::inch
            ? " (" + inches(e.value) + " \u00b1" + inches(2 * e.sd, Rounding::up) + " in)"
            : std::string();
    return e.name + " " + figure(e.value) + " \u00b1" + short_figure(2 * e.sd) + in_inches +
           ", from " + e.source;
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
  bool in_inches_ = false; ///< the row that is being written
  std::vector<const FootSolution*> feet_;
  std::string text_;
};

} // namespace

std::string brief_text(const Order& order, const Solution& solution, Units units) {
  const auto by = [units](double depth) {
    return short_figure(depth) + inches_beside(depth, units, Rounding::down);
  };
  std::string text = order.dancer;
  for (const auto* foot : {&solution.left, &solution.right}) {
    if (!*foot) continue;
    text += (*foot)->side == FootSide::left ? ", left" : ", right";
    if (const auto& trim = (*foot)->trim)
      text +=
          " cut off " +
          (trim->first_cut ? length_text(trim->first_cut->centre, units, Rounding::down) + " then "
                           : std::string()) +
          length_text(trim->final_cut.centre, units, Rounding::down);
    if (const auto& sides = (*foot)->sides)
      text += std::string((*foot)->trim ? ", sides" : " sides") + " lower by " +
              by(sides->medial.profile.depth) + " and " + by(sides->lateral.profile.depth) +
              (sides->medial.profile.back > 0 ? ", back by " + by(sides->medial.profile.back) : "");
    if (const std::string also = other_work(**foot); !also.empty())
      text += ((*foot)->trim || (*foot)->sides ? ", with " : " with ") + also;
  }
  return text;
}

std::string budget_text(const Solution& solution, Units units) {
  std::string text;
  for (const auto* foot : {&solution.left, &solution.right}) {
    if (!*foot || !(*foot)->trim) continue;
    const std::string words = with_inches(repeat_first((*foot)->trim->gains), units);
    if (!words.empty()) text += in_columns("to be surer", foot_name((*foot)->side) + ": " + words);
  }
  return text;
}

std::string sampled_text(const Order& order, const Solution& solution, Units units) {
  std::string text;
  // Some hundred thousand draws a foot: each on a processor of its own.
  auto of_right = std::async(std::launch::async, [&] {
    return solution.right ? sampled_cut(order, *solution.right) : std::nullopt;
  });
  for (const auto* foot : {&solution.left, &solution.right}) {
    if (!*foot) continue;
    const auto sampled = foot == &solution.right ? of_right.get() : sampled_cut(order, **foot);
    if (!sampled) continue;
    text += in_columns("random draws", foot_name((*foot)->side) + ": the cut lies from " +
                                           length_text(sampled->low, units) + " to " +
                                           length_text(sampled->high, units) + " in 95 of 100 of " +
                                           std::to_string(sampled->draws) + " draws, \u00b1" +
                                           length_text((sampled->high - sampled->low) / 2, units) +
                                           (sampled->settled ? "" : ", not settled"));
  }
  return text;
}

std::string report_text(const Order& order, const Solution& solution, const PairContact& contact,
                        Units units) {
  return Report(order, solution, contact, units).text();
}

} // namespace shankline
