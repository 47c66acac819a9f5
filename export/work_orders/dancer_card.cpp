#include "export/work_orders/dancer_card.hpp"

#include "export/wording/caution_words.hpp"
#include "export/wording/foot_words.hpp"
#include "export/wording/line_words.hpp"
#include "geometry/fitting/next_cut.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <functional>
#include <iterator>
#include <optional>
#include <string>
#include <utility>

namespace shankline {
namespace {

constexpr std::size_t most_tries = 8;
constexpr std::ptrdiff_t most_tried = 4; ///< of them that were made already: the latest
// Boxes of the tries are filled in by hand, standing.
constexpr double row_height = 10;
constexpr double skew_row_height = 13;        ///< three printed figures one below the other
constexpr double inch_row_height = 13;        ///< one figure, its inches and its name
constexpr double skew_inch_row_height = 20.6; ///< three figures, each with its inches below it
constexpr double head_height = 6;
constexpr double between_tables = 6;

class CardLayout {
public:
  CardLayout(const SheetContext& context, const std::vector<FootWork>& feet,
             const Findings& cautions, const std::vector<TriedBefore>& tried, std::size_t number)
      : context_(context), feet_(feet), warnings_(caution_lines(cautions, context.units)),
        number_(number), page_(std::in_place, context, number, "Dancer's card") {
    for (const FootWork& foot : feet_)
      tables_.push_back(tries_of(*foot.solution, tried));
  }

  std::vector<Page> draw() && {
    page_->label("card");
    y_ = page_->title_strip("", "") - 4;
    cautions();
    skew_lines();
    const double tries_top = page_->bottom() + foot_room + tries_height();
    const bool overleaf = !steps(tries_top + 4);
    std::vector<Page> pages;
    if (overleaf) {
      steps(page_->bottom());
      pages.push_back(std::move(*page_).finish());
      page_.emplace(context_, number_ + 1, "Dancer's card, tries");
      page_->label("card");
      tries(page_->title_strip("", "") - 4);
    } else {
      tries(tries_top);
    }
    pages.push_back(std::move(*page_).finish());
    return pages;
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
  /// Returns true if sides are lowered whose edge passes the test.
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
    return of_all([&](const FootWork& foot) { return number(*foot.solution); });
  }
  std::string of_all(const std::function<std::string(const FootWork&)>& number) const {
    std::vector<std::pair<std::string, std::string>> found;
    for (const FootWork& foot : feet_)
      if (std::string words = number(foot); !words.empty())
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
      return length_text(cut->centre, context_.units, rounding) +
             (is_skew(*cut) ? " at the centre" : "");
    });
  }

  /// How far a line lies back from the witness line, as it is set on the rule.
  std::string back(const std::function<BoardStation(const SolvedTrim&)>& pick) const {
    return of_both([&](const FootSolution& foot) {
      if (!foot.trim) return std::string();
      return length_text(back_from_witness(*foot.trim, pick(*foot.trim)), context_.units,
                         Rounding::up);
    });
  }

  double width() const { return page_->right() - page_->left(); }

  bool is_skew_cut() const {
    return any([](const FootSolution& foot) { return foot.trim && is_skew(foot.trim->final_cut); });
  }

  void cautions() {
    for (const CautionLine& caution : warnings_)
      if (caution.grave)
        y_ = page_->paragraph({page_->left(), y_}, width(), "Caution. " + caution.words, 3.2,
                              Weight::bold) -
             1;
    std::string words;
    if (cuts_board() || thins_board())
      words = std::string(!cuts_board()   ? "A thinned"
                          : thins_board() ? "A cut or thinned"
                                          : "A cut") +
              " board cannot be put back. It changes what holds you up. ";
    if (works_sides([](SideEdge edge) { return edge != SideEdge::folded; }))
      words += "Cloth that is cut away does not come back. ";
    words +=
        "Students: only with a teacher or fitter. Growing feet, pain or an injury: ask a licensed "
        "physiotherapist or podiatrist first. Sharp knife, cut-proof glove, away from the hand. "
        "Both hands on the barre at the first try. Stop at pain, or when the foot is carried over "
        "the platform. All figures are estimates.";
    y_ = page_->paragraph({page_->left(), y_}, width(), words, 3, Weight::bold) - 2;
  }

  /// The three figures of every line, in the order in which the edges lie, where one is skew.
  void skew_lines() {
    if (!is_skew_cut()) return;
    constexpr double name_column = 34;
    constexpr double size = 3.4;
    constexpr double pitch = 5;
    const double foot_width = (width() - name_column) / 2;
    const auto x = [&](std::size_t foot, std::size_t k) {
      return page_->left() + name_column + foot_width * static_cast<double>(foot) +
             foot_width / 3 * static_cast<double>(k);
    };
    page_->text({page_->left(), y_ - 3}, "Lines, from the heel end", 2.6);
    for (std::size_t i = 0; i < feet_.size(); ++i) {
      const FootSide side = feet_[i].solution->side;
      page_->text({x(i, 0), y_ - 3}, foot_capitals(side), size, Weight::bold);
      const std::string heads[]{edge_words(left_edge(side)), "centre",
                                edge_words(right_edge(side))};
      for (std::size_t k = 0; k < 3; ++k)
        page_->text({x(i, k), y_ - 7}, heads[k], 2.5);
    }
    y_ -= 8.6;
    struct Named {
      const char* name;
      const CutLine* (*pick)(const SolvedTrim&);
      Weight weight;
    };
    constexpr Named lines[]{
        {"first cut",
         [](const SolvedTrim& trim) { return trim.first_cut ? &*trim.first_cut : nullptr; },
         Weight::bold},
        {"final, after trying", [](const SolvedTrim& trim) { return &trim.final_cut; },
         Weight::regular},
        {"stop band from", [](const SolvedTrim& trim) { return &trim.stop_from; }, Weight::regular},
        {"stop line", [](const SolvedTrim& trim) { return &trim.stop; }, Weight::regular}};
    for (const Named& one : lines) {
      page_->stroke(LineKind::frame, {{page_->left(), y_}, {page_->right(), y_}});
      page_->text({page_->left(), y_ - 3.8}, one.name, 3, one.weight);
      for (std::size_t i = 0; i < feet_.size(); ++i) {
        const FootSolution& foot = *feet_[i].solution;
        const CutLine* line = foot.trim ? one.pick(*foot.trim) : nullptr;
        if (!line) continue;
        const bool medial_first = left_edge(foot.side) == Edge::medial;
        const double figures[]{medial_first ? line->medial : line->lateral, line->centre,
                               medial_first ? line->lateral : line->medial};
        for (std::size_t k = 0; k < 3; ++k)
          page_->text({x(i, k), y_ - 3.8}, length_text(figures[k], context_.units, Rounding::down),
                      context_.units == Units::inch ? 2.6 : size, one.weight);
      }
      y_ -= pitch;
    }
    page_->stroke(LineKind::frame, {{page_->left(), y_}, {page_->right(), y_}});
    y_ -= 3;
  }

  std::vector<std::string> step_words() const {
    std::vector<std::string> steps;
    if (any([](const FootSolution& foot) { return foot.ribbons.has_value(); }))
      steps.emplace_back("Baste the ribbons on before anything is tried; sew them last.");
    if (cuts_board() || thins_board()) {
      steps.emplace_back(
          "Mark L and R inside both shoes, and on loose boards. Peel the liner back and keep it. "
          "Pull out the nail or tack; nothing may stick up.");
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
        "Lay the paper gauge on the board, foot side up, heel end to heel end. Prick where the "
        "line meets each edge of the board; join the pricks with a steel rule.");
    const bool by_layer = any([](const FootSolution& foot) { return foot.layers.has_value(); });
    if (by_layer)
      steps.push_back("Layers cut, from the foot side: " + of_both([](const FootSolution& foot) {
                        if (!foot.trim) return std::string();
                        return foot.layers ? of_layers(*foot.layers) : std::string("all");
                      }) +
                      ". What is not cut goes on to the heel: part the layers at the heel end.");
    if (!by_layer && !any_in_shoe()) {
      steps.emplace_back("Hold a steel rule on the part that stays, along the line. Cut in several "
                         "light passes, away from the hand that holds the board.");
      return;
    }
    steps.push_back("Lift " + std::string(by_layer ? "what is cut" : "the board") +
                    " no more than about " + short_length_text(lift_past_cut, context_.units) +
                    " past the cut; slide a steel rule " +
                    (by_layer ? "under it" : "between board and outer sole") +
                    ". Cut in several light passes, away from the hand that holds the shoe.");
  }

  bool any_in_shoe() const {
    return std::any_of(feet_.begin(), feet_.end(), [](const FootWork& foot) {
      return foot.solution->trim && foot.order->shoe.board.state == BoardState::in_shoe;
    });
  }

  void cut_board(std::vector<std::string>& steps) const {
    const std::string first =
        line([](const SolvedTrim& trim) { return trim.first_cut ? &*trim.first_cut : nullptr; });
    const std::string end =
        of_all([this](const FootWork& foot) { return put_back_words(foot, context_.units); });
    const std::string trying =
        "Tape the edge. " +
        (end.empty() ? std::string()
                     : "A loose board goes back where it was, its end " + end +
                           " from the inside of the shoe's back. ") +
        "Try it with the ribbons basted on and the liner in, both hands on the barre. Stop at "
        "pain, or when the foot is carried over the platform.";
    steps.push_back(first.empty()
                        ? "Little comes off: file it back a little at a time. " + trying
                        : "First cut: " + first + " off. " +
                              (is_skew_cut() ? "The line is skew: its three figures are in the "
                                               "table above. "
                                             : "") +
                              trying);
    steps.push_back(
        "If it still bends too low, ahead of where the foot bends: " +
        short_length_text(cut_step, context_.units, Rounding::down) +
        " more at a time, to the final cut (" +
        line([](const SolvedTrim& trim) { return &trim.final_cut; }) +
        "). Past it only if a teacher or fitter says so, and " +
        (any([](const FootSolution& foot) { return foot.trim && foot.trim->may_enter_band; })
             ? "into the stop band only as a fitter allowed (from "
             : "never into the stop band (from ") +
        line([](const SolvedTrim& trim) { return &trim.stop_from; }) + "; the stop line at " +
        line([](const SolvedTrim& trim) { return &trim.stop; }) + " is known to " +
        of_both([this](const FootSolution& foot) {
          return foot.trim ? doubt_text(foot.trim->doubt.stop.expanded(), context_.units)
                           : std::string();
        }) +
        "). Back from the witness line: final " +
        back([](const SolvedTrim& trim) { return trim.final_cut.centre; }) + ", stop band " +
        back([](const SolvedTrim& trim) { return trim.stop_from.centre; }) + ".");
    steps.push_back("Good: cut no more. Cut too far: cut nothing more, and ask the teacher or "
                    "fitter.");
  }

  /// The step that finishes a board. It comes after cutting and thinning, since a board that is
  /// glued down can no longer be worked.
  std::string finishing_step() const {
    const std::string bevel = of_both([this](const FootSolution& foot) {
      return foot.trim && foot.trim->bevel
                 ? short_length_text(foot.trim->bevel->centre - foot.trim->final_cut.centre,
                                     context_.units)
                 : std::string();
    });
    std::string last = cuts_board() ? "After the last cut only: " : "When it is right: ";
    if (any([](const FootSolution& foot) { return foot.trim && foot.trim->rounded(); }))
      last += "round the corners where the board's page shows them, ";
    if (!bevel.empty()) last += "bevel the foot side at the board's new end (" + bevel + " long), ";
    return last + "seal, glue the board down, weight it overnight.";
  }

  /// Marks the stretch to thin. If the board is cut too, this step comes first: the heel end that
  /// the stretch is measured from is cut off.
  std::string stretch_step() const {
    const std::string stretch = of_both([this](const FootSolution& foot) {
      if (!foot.thinned) return std::string();
      return short_length_text(foot.thinned->from, context_.units) + " to " +
             short_length_text(foot.thinned->to, context_.units) + " from the heel end, to " +
             thickness_text(foot.thinned->thickness) +
             (context_.units == Units::inch ? " mm thick" : " thick");
    });
    return (cuts_board() ? "Mark the stretch to be thinned before anything is cut: "
                         : "Mark the stretch to be thinned: ") +
           stretch + ".";
  }

  /// Adds the steps besides the board, in the order of working.
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
    // With a tuck, its own step says when to refit them.
    const std::string refit = tuck ? "" : " Then refit casing and drawstring.";
    const std::string clear =
        "Sides: pull the drawstring clear, mark on the satin with the foot in, ";
    const std::pair<bool, std::string> all[]{
        {sides(SideEdge::bound), clear + "baste the new line and try it before cutting" +
                                     only(SideEdge::bound) + "." + refit},
        {sides(SideEdge::turned),
         clear +
             "baste the new line and try it; then cut above it by the allowance, never on it, "
             "and turn in" +
             only(SideEdge::turned) + "." + refit},
        {sides(SideEdge::folded), clear + "fold in, baste and try it, then stitch; nothing is cut" +
                                      only(SideEdge::folded) + "." + refit},
        {tuck, "Tuck at the back seam: baste it, try it, then sew." +
                   std::string(works_sides([](SideEdge) { return true; })
                                   ? " Then refit casing and drawstring."
                                   : "")},
        {has(&FootSolution::filler),
         "Put soft filler into the heel seat, where the board was cut away, under the liner."},
        {has(&FootSolution::liner), "Liner: try it dry first, heel end to the shoe's back; then "
                                    "stick its adhesive face down."},
        {has(&FootSolution::darning),
         darned_twice
             ? "Darn before wearing. Sew the first pass loosely; the next one fills the gaps."
             : "Darn before wearing."},
        {ribbons(true),
         "Ribbon ring: " + wraps_words(feet_) +
             " round the ankle, with room for one finger. Take it off at once if the "
             "foot goes numb."},
        {ribbons(false), "Ribbons: the knot lies in the hollow on the inside of the ankle, not on "
                         "the tendon; tuck the ends in."},
        {has(&FootSolution::elastics),
         "Elastic: pin it, try it with the foot in the shoe, then sew it while it is slack."},
        {true, "A wet pair dries for about 36 hours, longer in humid air: wear two or three pairs "
               "in turn."}};
    for (const auto& [asked, words] : all)
      if (asked) steps.push_back(words);
  }

  /// "How the line was found: left learned from 4 pairs …", which is no step; empty where no line
  /// was learned.
  std::string found_words() const {
    const std::string learned = of_both([this](const FootSolution& foot) {
      return foot.trim && foot.trim->learned ? learned_words(*foot.trim->learned, context_.units) +
                                                   "; the readings alone would say " +
                                                   readings_alone_words(*foot.trim, context_.units)
                                             : std::string();
    });
    return learned.empty() ? learned : "How the line was found: " + learned + ".";
  }

  /// Draws the steps down to `low`; false, with nothing drawn, where they do not fit in letters
  /// that are read standing.
  bool steps(double low) {
    constexpr double least = 2.8;
    constexpr double found_size = 3;
    const std::vector<std::string> words = step_words();
    const std::string found = found_words();
    const double below = found.empty() ? 0 : 2 + page_->height_of(found, width(), found_size);
    NumberedStyle style{4, 7, 1.2};
    const auto fits = [&] {
      return 7 + page_->height_of(words, width(), style) + below <= y_ - low;
    };
    while (style.size > least && !fits())
      style.size -= 0.05;
    if (!fits()) return false;
    page_->text({page_->left(), y_ - 3}, "Step by step, lengths in mm", 3.6, Weight::bold);
    y_ = page_->numbered({page_->left(), y_ - 6}, width(), words, style);
    if (!found.empty()) y_ = page_->paragraph({page_->left(), y_ - 2}, width(), found, found_size);
    return true;
  }

  /// One foot's tries: what is known in print, the rest of the columns to fill in by hand. A cell
  /// holds a line, or three for a skew cut.
  struct Tries {
    std::vector<std::string> heads;
    std::vector<double> stops; ///< of the columns, fractions of the width
    double row_height;
    std::vector<std::vector<std::vector<std::string>>> rows;
    bool skew = false;

    double height() const {
      return 6 + head_height + row_height * static_cast<double>(rows.size());
    }
  };

  Tries tries_of(const FootSolution& foot, const std::vector<TriedBefore>& tried) const {
    if (!foot.trim) {
      constexpr std::size_t blank = 4;
      return {{"what was tried", "feels", "date"},
              {0, 0.45, 0.80, 1},
              row_height,
              {blank, {{}}},
              false};
    }
    const SolvedTrim& trim = *foot.trim;
    const bool skew = is_skew(trim.final_cut);
    Tries tries{{"cut off", "from witness", "seen", "feels", "date, by"},
                skew ? std::vector<double>{0, 0.25, 0.43, 0.62, 0.81, 1}
                     : std::vector<double>{0, 0.19, 0.39, 0.60, 0.81, 1},
                height_of_row(skew),
                {},
                skew};
    BoardStation end;
    bool cut_on = true, stopped = false;
    for (const TriedBefore& before : tried) {
      if (before.foot != foot.side) continue;
      end = std::max(end, before.cut_off);
      stopped = before.stops || (stopped && before.too_long);
      cut_on = before.too_long && !stopped;
      tries.rows.push_back(try_at(foot, before.cut_off, skew));
      tries.rows.back().insert(tries.rows.back().end(), {{before.seen}, {}, {before.date}});
    }
    if (std::ssize(tries.rows) > most_tried)
      tries.rows.erase(tries.rows.begin(), tries.rows.end() - most_tried);
    if (!cut_on) tries.rows.push_back({{"stop"}, {}, {"cut no more"}});
    for (const BoardStation at : cut_on ? cut_steps(trim, end) : std::vector<BoardStation>{})
      if (tries.rows.size() < most_tries) tries.rows.push_back(try_at(foot, at, skew));
    tries.rows.emplace_back(); // one more, for what comes otherwise
    tries.rows.push_back({{"worn"}});
    return tries;
  }

  double height_of_row(bool skew) const {
    if (context_.units == Units::inch) return skew ? skew_inch_row_height : inch_row_height;
    return skew ? skew_row_height : row_height;
  }

  /// Ruler numbers of the line at `centre`, and how far it lies back from the witness line; below
  /// each its inches, where the units are inches.
  std::vector<std::vector<std::string>> try_at(const FootSolution& foot, BoardStation centre,
                                               bool skew) const {
    const SolvedTrim& trim = *foot.trim;
    using Lines = std::vector<std::string>;
    const auto number = [this](const std::string& name, double mm, Rounding rounding) {
      Lines lines{name + ruler_text(mm, rounding)};
      if (context_.units == Units::inch) lines.push_back(inches(mm, rounding) + " in");
      return lines;
    };
    const auto off = [&](const std::string& name, double mm) {
      return number(name, mm, Rounding::down);
    };
    const auto back = [&](double witness, double mm) {
      return number("", witness - mm, Rounding::up);
    };
    const auto joined = [](Lines a, const Lines& b, const Lines& c) {
      a.insert(a.end(), b.begin(), b.end());
      a.insert(a.end(), c.begin(), c.end());
      return a;
    };
    const auto line = skew ? cut_line(foot.outline, centre, trim.skew) : std::nullopt;
    if (!line) {
      Lines cut = off("", centre);
      if (trim.first_cut && centre == trim.first_cut->centre) cut.emplace_back("first cut");
      if (centre == trim.final_cut.centre) cut.emplace_back("final cut");
      return {cut, {back(trim.witness.centre, centre)}};
    }
    const bool medial_first = left_edge(foot.side) == Edge::medial;
    const Lines medial = off("big toe ", line->medial);
    const Lines lateral = off("little toe ", line->lateral);
    const Lines medial_back = back(trim.witness.medial, line->medial);
    const Lines lateral_back = back(trim.witness.lateral, line->lateral);
    return {joined(medial_first ? medial : lateral, off("centre ", line->centre),
                   medial_first ? lateral : medial),
            joined(medial_first ? medial_back : lateral_back,
                   back(trim.witness.centre, line->centre),
                   medial_first ? lateral_back : medial_back)};
  }

  static constexpr double foot_room = 9; ///< for the words below the tables

  double tries_height() const {
    double height = 0;
    for (const Tries& tries : tables_)
      height = std::max(height, tries.height());
    return height;
  }

  /// The tables of both feet side by side below `top`, and what goes with them.
  void tries(double top) {
    const double table_width = (width() - between_tables) / 2;
    for (std::size_t i = 0; i < feet_.size(); ++i) {
      const double x = page_->left() + (table_width + between_tables) * static_cast<double>(i);
      page_->text({x, top - 3}, "Tries, " + foot_capitals(feet_[i].solution->side), 3.4,
                  Weight::bold);
      table(tables_[i], x, top - 6, table_width);
    }
    page_->paragraph({page_->left(), top - tries_height() - 2}, width(),
                     cuts_board()
                         ? "Write under seen: too low or too far back (the board is still too "
                           "long), good, cut too far (it is too short), rolls over, or pain. Cut "
                           "again only after too low or too far back. Row worn: ask again after "
                           "some wear, and write what is seen then."
                         : "Stop when it is right. Ask again after some wear.",
                     2.6);
  }

  void table(const Tries& tries, double x, double top, double table_width) {
    double y = top;
    page_->stroke(LineKind::frame, {{x, y}, {x + table_width, y}});
    y -= head_height;
    page_->stroke(LineKind::frame, {{x, y}, {x + table_width, y}});
    for (std::size_t k = 0; k < tries.heads.size(); ++k)
      page_->text({x + table_width * tries.stops[k] + 1, y + 1.8}, tries.heads[k], 2.5);
    for (const auto& row : tries.rows) {
      for (std::size_t k = 0; k < row.size(); ++k)
        cell(row[k], {x + table_width * tries.stops[k] + 1, y},
             table_width * (tries.stops[k + 1] - tries.stops[k]),
             k == 0 ? Weight::bold : Weight::regular, tries.skew);
      y -= tries.row_height;
      page_->stroke(LineKind::frame, {{x, y}, {x + table_width, y}});
    }
    for (const double stop : tries.stops)
      page_->stroke(LineKind::frame, {{x + table_width * stop, y}, {x + table_width * stop, top}});
  }

  /// One figure in large letters, with its inches and its name below; or the figures of a skew
  /// line, all in letters of one size.
  void cell(const std::vector<std::string>& lines, Point corner, double room, Weight weight,
            bool skew) {
    const bool even = skew && lines.size() >= 3;
    const double pitch = !even ? 3.6 : lines.size() > 3 ? 3.2 : 3.9;
    const double top = even ? 3.6 : 4.8;
    for (std::size_t i = 0; i < lines.size(); ++i)
      page_->text({corner.x, corner.y - top - pitch * static_cast<double>(i)}, lines[i],
                  even     ? 2.6
                  : i == 0 ? page_->fitted_size(lines[i], room - 2, 3.6, 2.5, weight)
                           : 2.5,
                  even || i == 0 ? weight : Weight::regular);
  }

  const SheetContext& context_;
  const std::vector<FootWork>& feet_;
  std::vector<CautionLine> warnings_;
  std::size_t number_; ///< of the first page
  std::optional<SheetPage> page_;
  std::vector<Tries> tables_;
  double y_ = 0;
};

} // namespace

std::vector<Page> dancer_card(const SheetContext& context, const std::vector<FootWork>& feet,
                              const Findings& cautions, const std::vector<TriedBefore>& tried,
                              std::size_t number) {
  return CardLayout(context, feet, cautions, tried, number).draw();
}

} // namespace shankline
