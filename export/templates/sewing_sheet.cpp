#include "export/templates/sewing_sheet.hpp"

#include "export/wording/foot_words.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <functional>
#include <utility>

namespace shankline {
namespace {

class SewingLayout {
public:
  SewingLayout(const SheetContext& context, const std::vector<FootWork>& feet, std::size_t number)
      : context_(context), feet_(feet), page_(context, number, "Ribbons and sewing") {
    page_.label("sewing");
  }

  Page draw() && {
    y_ = page_.title_strip("", "") - 9;
    head();
    ribbons();
    elastics();
    row("drawstring", [&](const FootWork& foot) { return drawstring_words(foot, context_); });
    row("casing strip", [&](const FootWork& foot) { return casing_words(foot, context_); });
    row("tuck at the back seam", [&](const FootWork& foot) { return tuck_words(foot, context_); });
    steps();
    return std::move(page_).finish();
  }

private:
  static constexpr double name_column = 46;
  static constexpr double size = 3.2;

  double cell_width() const { return (page_.right() - page_.left() - name_column) / 2; }
  double column(std::size_t foot) const {
    return page_.left() + name_column + cell_width() * static_cast<double>(foot);
  }
  template <class Test> bool any(const Test& test) const {
    return std::any_of(feet_.begin(), feet_.end(), test);
  }

  void head() {
    for (std::size_t i = 0; i < feet_.size(); ++i)
      page_.text({column(i), y_}, foot_capitals(feet_[i].solution->side), 4.6, Weight::bold);
    y_ -= 3;
    page_.stroke(LineKind::frame, {{page_.left(), y_}, {page_.right(), y_}});
    y_ -= 5.6;
  }

  void row(const std::string& name, const std::function<std::string(const FootWork&)>& words,
           Weight weight = Weight::regular) {
    std::vector<std::vector<std::string>> cells;
    std::size_t lines = 0;
    bool said = false;
    for (const FootWork& foot : feet_) {
      const std::string cell = words(foot);
      said = said || !cell.empty();
      cells.push_back(
          context_.typeface.wrap(cell.empty() ? "none" : cell, cell_width() - 4, size, weight));
      lines = std::max(lines, cells.back().size());
    }
    if (!said) return;
    page_.text({page_.left(), y_}, name, size);
    for (std::size_t i = 0; i < cells.size(); ++i)
      for (std::size_t k = 0; k < cells[i].size(); ++k)
        page_.text({column(i), y_ - 4.4 * static_cast<double>(k)}, cells[i][k], size, weight);
    y_ -= 4.4 * static_cast<double>(lines) + 2;
  }

  static std::string of_ribbons(const FootWork& foot,
                                const std::function<std::string(const SolvedRibbons&)>& words) {
    return foot.solution->ribbons ? words(*foot.solution->ribbons) : std::string();
  }

  void ribbons() {
    if (!any([](const FootWork& foot) { return foot.solution->ribbons.has_value(); })) return;
    row(
        "ribbon, cut", [&](const FootWork& foot) { return ribbon_words(foot, context_); },
        Weight::bold);
    row("marks, from one end", [&](const FootWork& foot) {
      return of_ribbons(foot, [&](const SolvedRibbons& ribbons) {
        std::string words;
        for (const double mark : ribbons.marks)
          words += (words.empty() ? "" : ", ") + whole_length_text(mark, context_.units);
        return words;
      });
    });
    strips();
    row("worked out from", [&](const FootWork& foot) {
      return of_ribbons(foot, [&](const SolvedRibbons& ribbons) {
        const auto guessed = [&](std::string_view name) {
          const auto& all = foot.solution->estimated;
          return std::any_of(all.begin(), all.end(),
                             [&](const Estimated& e) { return e.name == name; })
                     ? " (estimated)"
                     : "";
        };
        return "ankle girth " + whole_length_text(ribbons.girth, context_.units) +
               guessed("ankle girth") + ", rise " +
               whole_length_text(ribbons.rise, context_.units) + guessed("rise of the ribbon") +
               ", " + short_figure(ribbons.wraps) + " wraps";
      });
    });
    row("sewn", [&](const FootWork& foot) {
      return of_ribbons(foot, [&](const SolvedRibbons& ribbons) {
        const std::string end =
            short_length_text(foot.order->alterations.ribbons->overlap, context_.units) +
            (ribbons.ring ? " of each end" : " of one end of each") + ", inside the side";
        return ribbons.sewn_at ? end + place_words(*foot.solution, *ribbons.sewn_at)
                               : end + ", where the folded-in heel meets it";
      });
    });
    y_ -= 2;
  }

  /// The place for the middle of a sewn end: the side's template shows it, if there is one.
  std::string place_words(const FootSolution& foot, BoardStation at) const {
    if (foot.sides && !foot.sides->medial.sewn.empty()) return ", where the side's page shows it";
    return ", middle at " + posed(at, foot, context_.units) +
           " from the back of the foot's heel, along the sole";
  }

  /// Draws the ring as a strip with its marks.
  void strips() {
    if (!any([](const FootWork& foot) {
          return foot.solution->ribbons && foot.solution->ribbons->ring;
        }))
      return;
    constexpr double high = 5;
    page_.text({page_.left(), y_ - 1}, "not to scale", 2.6);
    for (std::size_t i = 0; i < feet_.size(); ++i) {
      const auto& ribbons = feet_[i].solution->ribbons;
      if (!ribbons || !ribbons->ring) continue;
      const double width = cell_width() - 6;
      const Box box{column(i), y_ - high + 2, column(i) + width, y_ + 2};
      page_.rectangle(LineKind::frame, box);
      for (const double mark : ribbons->marks) {
        const double x = box.left + width * mark / ribbons->cut;
        page_.stroke(LineKind::stitch, {{x, box.bottom}, {x, box.top}});
      }
    }
    y_ -= high + 3;
  }

  void elastics() {
    row("elastic across", [&](const FootWork& foot) {
      const auto& elastics = foot.solution->elastics;
      if (!elastics || !elastics->across) return std::string();
      return elastic_words(foot, context_);
    });
    row("elastic sewn", [&](const FootWork& foot) {
      const auto& elastics = foot.solution->elastics;
      if (!elastics || !elastics->across) return std::string();
      const std::string end =
          short_length_text(foot.order->alterations.elastics->overlap, context_.units) +
          " of each end, inside the side";
      return elastics->sewn_at ? end + place_words(*foot.solution, *elastics->sewn_at)
                               : end + ", where it lies flat with the foot in the shoe";
    });
    row("heel loop, cut", [&](const FootWork& foot) { return heel_loop_words(foot, context_); });
  }

  void steps() {
    const std::vector<std::string> words = step_words();
    y_ -= 2;
    page_.text({page_.left(), y_}, "Sewing", 3.6, Weight::bold);
    y_ = page_.numbered({page_.left(), y_ - 2.6}, page_.right() - page_.left(), words, {3, 5, 0.8});
  }

  std::vector<std::string> step_words() const {
    const auto has = [&](const auto& test) {
      return any([&](const FootWork& foot) { return test(*foot.solution); });
    };
    const bool sides = has([](const FootSolution& foot) { return foot.sides.has_value(); });
    const bool ring =
        has([](const FootSolution& foot) { return foot.ribbons && foot.ribbons->ring; });
    const bool tied =
        has([](const FootSolution& foot) { return foot.ribbons && !foot.ribbons->ring; });
    const bool elastic =
        has([](const FootSolution& foot) { return foot.elastics && foot.elastics->across; });
    const bool placed =
        has([](const FootSolution& foot) { return foot.ribbons && foot.ribbons->sewn_at; });
    const std::pair<bool, std::string> all[]{
        {has([](const FootSolution& foot) { return foot.tuck.has_value(); }),
         sides
             ? "Tuck after the sides are marked and cut: their templates fit the seam without the "
               "tuck. Pinch the back seam to the given depth at the top line, less and less down "
               "the seam; baste, try, then sew. The top line and the drawstring above allow for "
               "the tuck."
             : "Tuck: keep casing and drawstring clear. Pinch the back seam to the given depth at "
               "the top line, less and less down the seam; baste, try, then sew."},
        {sides, "Fit casing and drawstring to the new top line before you sew the ribbons."},
        {ring || tied,
         placed
             ? "Fold the heel in flat against the sole. The ribbon's end goes where the fold "
               "meets the side: inside, below the casing, leaning a little forward. Compare with "
               "the place given above."
             : "Fold the heel in flat against the sole. The ribbon's end goes where the fold "
               "meets the side: inside, below the casing, leaning a little forward."},
        {ring || tied || elastic,
         "Baste, try at the barre, then sew round the end in a square, through the lining but not "
         "through the satin. Never sew through casing or drawstring."},
        {ring, "Ring: put the marks on the ribbon. It begins on the big-toe side, goes " +
                   wraps_words(feet_) +
                   " round the ankle and ends on the little-toe side. Use only ribbon that "
                   "stretches. One finger must fit under it; take it off at once if the foot goes "
                   "numb."},
        {tied, "Tied: the knot lies in the hollow on the inside of the ankle, not on the tendon; "
               "tuck the ends in. Seal the cut ends."},
        {elastic, "Elastic: sew both ends inside the sides while it is slack."},
        {has([](const FootSolution& foot) { return foot.elastics && foot.elastics->loop; }),
         ring || tied
             ? "Sew the heel loop upright on the back seam, so that the ribbon slides through."
             : "Sew the heel loop upright on the back seam."}};
    std::vector<std::string> steps;
    for (const auto& [asked, words] : all)
      if (asked) steps.push_back(words);
    return steps;
  }

  const SheetContext& context_;
  const std::vector<FootWork>& feet_;
  SheetPage page_;
  double y_ = 0;
};

} // namespace

bool is_sewn(const FootSolution& foot) {
  return foot.ribbons || foot.elastics || foot.tuck;
}

Page sewing_sheet(const SheetContext& context, const std::vector<FootWork>& feet,
                  std::size_t number) {
  return SewingLayout(context, feet, number).draw();
}

} // namespace shankline
