#include "export/dancer_card.hpp"

#include "export/foot_words.hpp"
#include "geometry/figure.hpp"
#include "geometry/next_cut.hpp"

#include <algorithm>
#include <functional>
#include <string>
#include <utility>

namespace shankline {
namespace {

constexpr std::size_t most_tries = 8;
constexpr double row_height = 7.6;

class CardLayout {
public:
  CardLayout(const SheetContext& context, const std::vector<FootWork>& feet, std::size_t number,
             std::string warning)
      : context_(context), feet_(feet), warning_(std::move(warning)),
        page_(context, number, "Dancer's card") {
    page_.label("card");
  }

  Page draw() && {
    y_ = page_.title_strip("", warning_) - 5;
    cautions();
    const double foot_of_page = tries();
    steps(foot_of_page + 4);
    return std::move(page_).finish();
  }

private:
  template <class Test> bool any(const Test& test) const {
    return std::any_of(feet_.begin(), feet_.end(),
                       [&](const FootWork& foot) { return test(*foot.solution); });
  }
  bool cuts_board() const {
    return any([](const FootSolution& foot) { return foot.trim.has_value(); });
  }
  bool thins_board() const {
    return any([](const FootSolution& foot) { return foot.thinned.has_value(); });
  }
  /// Whether sides are lowered whose edge passes the test.
  template <class Test> bool works_sides(const Test& of_edge) const {
    return std::any_of(feet_.begin(), feet_.end(), [&](const FootWork& foot) {
      const auto& sides = foot.solution->sides;
      return sides && (sides->medial.is_cut() || sides->lateral.is_cut()) &&
             of_edge(foot.order->alterations.sides->edge);
    });
  }

  /// " (left)", where the other foot's sides have another edge.
  std::string only(SideEdge edge) const {
    if (!works_sides([&](SideEdge other) { return other != edge; })) return {};
    for (const FootWork& foot : feet_)
      if (foot.solution->sides && foot.order->alterations.sides->edge == edge)
        return " (" + foot_name(foot.solution->side) + ")";
    return {};
  }

  /// "left 55.5, right 56.0", one number where both are the same.
  std::string of_both(const std::function<std::string(const FootSolution&)>& number) const {
    std::vector<std::pair<std::string, std::string>> found;
    for (const FootWork& foot : feet_)
      if (std::string words = number(*foot.solution); !words.empty())
        found.emplace_back(foot_name(foot.solution->side), std::move(words));
    if (found.size() == 2 && found[0].second == found[1].second) return found[0].second;
    std::string words;
    for (const auto& [name, figure_words] : found)
      words += (words.empty() ? "" : ", ") + name + " " + figure_words;
    return words;
  }
  std::string line(const std::function<const CutLine*(const SolvedTrim&)>& pick,
                   Rounding rounding = Rounding::down) const {
    return of_both([&](const FootSolution& foot) {
      const CutLine* cut = foot.trim ? pick(*foot.trim) : nullptr;
      if (!cut) return std::string();
      const auto at = [&](double mm) { return length_text(mm, context_.units, rounding); };
      if (at(cut->medial) == at(cut->lateral)) return at(cut->centre);
      return "big-toe edge " + at(cut->medial) + ", centre " + at(cut->centre) +
             ", little-toe edge " + at(cut->lateral);
    });
  }

  void cautions() {
    const double width = page_.right() - page_.left();
    std::string words;
    if (cuts_board() || thins_board())
      words = "A cut or thinned board cannot be put back. It changes what holds you up. ";
    if (works_sides([](SideEdge edge) { return edge != SideEdge::folded; }))
      words += "Cloth that is cut away does not come back. ";
    words +=
        "Students: only with a teacher or fitter. Growing feet, pain or an injury: ask a licensed "
        "physiotherapist or podiatrist first. Sharp knife, cut-proof glove, away from the hand. "
        "Both hands on the barre at the first try. Stop at pain, or when carried over the "
        "platform. All figures are estimates.";
    y_ = page_.paragraph({page_.left(), y_}, width, words, 3, Weight::bold) - 2;
  }

  std::vector<std::string> step_words() const {
    std::vector<std::string> steps;
    if (any([](const FootSolution& foot) { return foot.ribbons.has_value(); }))
      steps.emplace_back("Baste the ribbons on before anything is tried; sew them last.");
    if (cuts_board() || thins_board()) {
      steps.emplace_back("Mark L and R inside both shoes. Peel the liner back and keep it. Pull "
                         "out the nail or tack; "
                         "nothing may stick up.");
      if (thins_board()) steps.push_back(stretch_step());
      if (cuts_board()) {
        mark_board(steps);
        cut_board(steps);
      }
      if (thins_board())
        steps.emplace_back("Thin the marked stretch a little at a time, and try in between, both "
                           "hands on the barre.");
      steps.push_back(finishing_step());
    }
    other_steps(steps);
    return steps;
  }

  void mark_board(std::vector<std::string>& steps) const {
    steps.push_back("Draw the witness line across the board, " +
                    line([](const SolvedTrim& trim) { return &trim.witness; }, Rounding::nearest) +
                    " from the heel end. After the first cut everything is measured back from "
                    "it.");
    steps.emplace_back(
        "Lay the paper gauge on the board, foot side up, heel end to heel end. Prick both edges "
        "of the line and join the pricks with a steel rule.");
    const bool by_layer = any([](const FootSolution& foot) { return foot.layers.has_value(); });
    if (by_layer)
      steps.push_back("Layers cut, from the foot side: " + of_both([](const FootSolution& foot) {
                        if (!foot.trim) return std::string();
                        return foot.layers ? of_layers(*foot.layers) : std::string("all");
                      }) +
                      ". What is not cut goes on to the heel: part the layers at the heel end.");
    steps.push_back("Lift " + std::string(by_layer ? "what is cut" : "the board") +
                    " no more than about " + short_figure(lift_past_cut) +
                    " past the cut; slide a steel rule " +
                    (by_layer ? "under it" : "between board and outer sole") +
                    ". Several light passes, away from the holding hand.");
  }

  void cut_board(std::vector<std::string>& steps) const {
    const std::string first =
        line([](const SolvedTrim& trim) { return trim.first_cut ? &*trim.first_cut : nullptr; });
    const char* trying = "Tape the edge. Try it with the ribbons basted on and the liner in, both "
                         "hands on the barre. Stop at pain, or when carried over the platform.";
    steps.push_back(first.empty()
                        ? std::string("Little comes off: file it back a little at a time. ") + trying
                        : "First cut: " + first + " off. " + trying);
    steps.push_back("Still breaks too low: " + short_figure(cut_step) +
                    " more at a time, never past the final cut (" +
                    line([](const SolvedTrim& trim) { return &trim.final_cut; }) +
                    ") without a teacher's or fitter's word, and even then never into the stop "
                    "band (from " +
                    line([](const SolvedTrim& trim) { return &trim.stop_from; }) +
                    "; the stop line at " +
                    line([](const SolvedTrim& trim) { return &trim.stop; }) + " is known to " +
                    of_both([](const FootSolution& foot) {
                      return foot.trim ? "\u00b1" + figure(foot.trim->doubt.stop.expanded())
                                       : std::string();
                    }) +
                    ").");
  }

  /// Of a board that is cut or thinned; after both, since a board that is glued down is not worked.
  std::string finishing_step() const {
    const std::string bevel = of_both([](const FootSolution& foot) {
      return foot.trim && foot.trim->bevel
                 ? short_figure(foot.trim->bevel->centre - foot.trim->final_cut.centre)
                 : std::string();
    });
    std::string last = cuts_board() ? "After the last cut only: " : "When it is right: ";
    if (any([](const FootSolution& foot) { return foot.trim && foot.trim->rounded(); }))
      last += "round the corners where the board's page shows them, ";
    if (!bevel.empty())
      last += "bevel the foot side (" + bevel + " long, from the board's end as it then is), ";
    return last + "seal, glue the board down, weight it overnight.";
  }

  /// Before anything is cut: the heel end that it is measured from goes.
  std::string stretch_step() const {
    const std::string stretch = of_both([](const FootSolution& foot) {
      if (!foot.thinned) return std::string();
      return short_figure(foot.thinned->from) + " to " + short_figure(foot.thinned->to) +
             " from the heel end, to " + short_figure(foot.thinned->thickness) + " thick";
    });
    return "Mark the stretch to be thinned before anything is cut: " + stretch + ".";
  }

  /// What is done to a pair besides the board, in the order in which it is done.
  void other_steps(std::vector<std::string>& steps) const {
    const auto has = [&](const auto& part) {
      return any([&](const FootSolution& foot) { return (foot.*part).has_value(); });
    };
    const auto ribbons = [&](bool ring) {
      return any(
          [&](const FootSolution& foot) { return foot.ribbons && foot.ribbons->ring == ring; });
    };
    const auto sides = [&](SideEdge wanted) {
      return works_sides([&](SideEdge edge) { return edge == wanted; });
    };
    const bool tuck = has(&FootSolution::tuck);
    const bool darned_twice =
        any([](const FootSolution& foot) { return foot.darning && foot.darning->passes > 1; });
    const std::string refit =
        tuck ? "Casing and drawstring after the tuck." : "Then refit casing and drawstring.";
    const std::string clear =
        "Sides: pull the drawstring clear, mark on the satin with the foot in, ";
    const std::pair<bool, std::string> all[]{
        {sides(SideEdge::bound), clear + "baste the new line and try it before cutting" +
                                     only(SideEdge::bound) + ". " + refit},
        {sides(SideEdge::turned),
         clear +
             "baste the new line and try it; then cut above it by the allowance, never on it, "
             "and turn in" +
             only(SideEdge::turned) + ". " + refit},
        {sides(SideEdge::folded), clear + "fold in, baste and try it, then stitch; nothing is cut" +
                                      only(SideEdge::folded) + ". " + refit},
        {tuck, "Tuck at the back seam: baste it, try it, then sew." +
                   std::string(works_sides([](SideEdge) { return true; })
                                   ? " Then refit casing and drawstring."
                                   : "")},
        {has(&FootSolution::filler), "Soft filler into the emptied heel seat, under the liner."},
        {has(&FootSolution::liner),
         "Liner: dry first, heel end to the shoe's back; adhesive face down."},
        {has(&FootSolution::darning),
         std::string("Darn before wearing") +
             (darned_twice ? ": one pass loose, the next one fills." : ".")},
        {ribbons(true), "Ribbon ring: " + wraps_words(feet_) +
                            " round the ankle, one finger fits under it. Off at once if the foot "
                            "goes numb."},
        {ribbons(false), "Ribbons: the knot lies in the hollow on the inside of the ankle, not on "
                         "the tendon; ends tucked in."},
        {has(&FootSolution::elastics),
         "Elastic: pinned first and tried with the foot in, then sewn while slack."},
        {true, "A wet pair dries for about 36 hours, longer in humid air: wear two or three pairs "
               "in turn."}};
    for (const auto& [asked, words] : all)
      if (asked) steps.push_back(words);
  }

  void steps(double low) {
    const std::vector<std::string> words = step_words();
    const double width = page_.right() - page_.left();
    NumberedStyle style{4, 7, 1.2};
    while (style.size > 2 && 7 + page_.height_of(words, width, style) > y_ - low)
      style.size -= 0.05;
    page_.text({page_.left(), y_ - 3}, "Step by step", 3.6, Weight::bold);
    y_ = page_.numbered({page_.left(), y_ - 6}, width, words, style);
  }

  /// One foot's tries: what is known in print, the rest of the columns to fill in by hand.
  struct Tries {
    std::vector<std::string> heads;
    std::vector<double> stops; ///< of the columns, fractions of the width
    std::vector<std::vector<std::string>> rows;
  };

  static Tries tries_of(const FootSolution& foot) {
    if (!foot.trim) {
      constexpr std::size_t blank = 4;
      return {{"what was tried", "feels", "date"},
              {0, 0.45, 0.80, 1},
              std::vector<std::vector<std::string>>(blank)};
    }
    Tries tries{
        {"cut off", "from witness", "breaks", "feels", "date"}, {0, 0.17, 0.37, 0.60, 0.82, 1}, {}};
    for (const double at : cut_steps(*foot.trim))
      if (tries.rows.size() < most_tries)
        tries.rows.push_back({figure(at), figure(back_from_witness(*foot.trim, at))});
    tries.rows.emplace_back(); // one more, for what comes otherwise
    return tries;
  }

  /// The tables of both feet at the foot of the page. Returns the y above them.
  double tries() {
    std::vector<Tries> tables;
    std::size_t most = 0;
    for (const FootWork& foot : feet_) {
      tables.push_back(tries_of(*foot.solution));
      most = std::max(most, tables.back().rows.size());
    }
    const double top = page_.bottom() + 12 + row_height * static_cast<double>(most + 1);
    const double width = (page_.right() - page_.left() - 6) / 2;
    for (std::size_t i = 0; i < feet_.size(); ++i) {
      const double x = page_.left() + (width + 6) * static_cast<double>(i);
      page_.text({x, top - 3}, "Tries, " + foot_capitals(feet_[i].solution->side), 3.4,
                 Weight::bold);
      table(tables[i], x, top - 6, width);
    }
    page_.text({page_.left(), page_.bottom() + 0.6},
               cuts_board() ? "breaks: low, right, or too far back; measured at the centre. Stop "
                              "when it is right."
                            : "Stop when it is right.",
               2.6);
    return top;
  }

  void table(const Tries& tries, double x, double top, double width) {
    const double bottom = top - row_height * static_cast<double>(tries.rows.size() + 1);
    for (std::size_t r = 0; r <= tries.rows.size() + 1; ++r) {
      const double y = top - row_height * static_cast<double>(r);
      page_.stroke(LineKind::frame, {{x, y}, {x + width, y}});
    }
    for (const double stop : tries.stops)
      page_.stroke(LineKind::frame, {{x + width * stop, bottom}, {x + width * stop, top}});
    for (std::size_t k = 0; k < tries.heads.size(); ++k)
      page_.text({x + width * tries.stops[k] + 1, top - 4.8}, tries.heads[k], 2.4);
    for (std::size_t r = 0; r < tries.rows.size(); ++r)
      for (std::size_t k = 0; k < tries.rows[r].size(); ++k)
        page_.text(
            {x + width * tries.stops[k] + 1, top - row_height * static_cast<double>(r + 1) - 5},
            tries.rows[r][k], 3, k == 0 ? Weight::bold : Weight::regular);
  }

  const SheetContext& context_;
  const std::vector<FootWork>& feet_;
  std::string warning_;
  SheetPage page_;
  double y_ = 0;
};

} // namespace

Page dancer_card(const SheetContext& context, const std::vector<FootWork>& feet, std::size_t number,
                 const std::string& warning) {
  return CardLayout(context, feet, number, warning).draw();
}

} // namespace shankline
