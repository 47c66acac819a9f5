#include "geometry/comparison/foot_figures.hpp"
#include "geometry/finishing/ribbons.hpp"
#include "geometry/order/reading_guide.hpp"
#include "geometry/uncertainty/reading_doubt.hpp"

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace shankline {
namespace {

/// One wish of a kind of work, read off a solved foot that has this work.
struct WorkRow {
  const char* key;
  const char* name;
  FigureUnit unit;
  double (*of)(const SolvedFoot&);
};

constexpr WorkRow layer_rows[] = {
    {"board.layers_cut", "layers cut", FigureUnit::count,
     [](const SolvedFoot& f) {
       const auto& layers = f.solution.layers;
       return static_cast<double>(layers ? layers->cut : f.foot.shoe.board.layers.value_or(1));
     }},
    {"board.layers_left", "layers that stay", FigureUnit::count,
     [](const SolvedFoot& f) {
       const auto& layers = f.solution.layers;
       return static_cast<double>(layers ? layers->of - layers->cut : 0);
     }},
};

constexpr WorkRow thinning_rows[] = {
    {"thinned.from", "thinned from", FigureUnit::mm,
     [](const SolvedFoot& f) { return f.solution.thinned->from; }},
    {"thinned.to", "thinned to", FigureUnit::mm,
     [](const SolvedFoot& f) { return f.solution.thinned->to; }},
    {"thinned.thickness", "thickness where it is thinned", FigureUnit::mm,
     [](const SolvedFoot& f) { return f.solution.thinned->thickness; }},
};

constexpr WorkRow darning_rows[] = {
    {"darning.passes", "darning, passes", FigureUnit::count,
     [](const SolvedFoot& f) { return static_cast<double>(f.solution.darning->passes); }},
    {"darning.height", "darning, height", FigureUnit::mm,
     [](const SolvedFoot& f) { return f.solution.darning->height; }},
    {"darning.raise", "darning, raised by", FigureUnit::mm,
     [](const SolvedFoot& f) { return f.solution.darning->raise; }},
    {"darning.pitch", "darning, from stitch to stitch", FigureUnit::mm,
     [](const SolvedFoot& f) { return f.foot.alterations.darning->pitch; }},
    {"darning.face", "darning, face too (1: yes)", FigureUnit::count,
     [](const SolvedFoot& f) { return f.foot.alterations.darning->face ? 1.0 : 0.0; }},
};

constexpr WorkRow ribbon_rows[] = {
    {"ribbons.pieces", "ribbons a shoe (1: a ring)", FigureUnit::count,
     [](const SolvedFoot& f) { return static_cast<double>(f.solution.ribbons->pieces); }},
    {"ribbons.width", "ribbon, width", FigureUnit::mm,
     [](const SolvedFoot& f) { return f.foot.alterations.ribbons->width; }},
    {"ribbons.stretch", "ribbon, working stretch", FigureUnit::fraction,
     [](const SolvedFoot& f) { return f.foot.alterations.ribbons->stretch; }},
    {"ribbons.wraps", "ribbon, wraps", FigureUnit::number,
     [](const SolvedFoot& f) { return f.solution.ribbons->wraps; }},
};

constexpr const char* ribbon_cut = "ribbons.cut";
constexpr const char* ribbon_cut_name = "ribbon, cut length";

class FinishFigures {
public:
  explicit FinishFigures(const SolvedFoot& foot)
      : foot_(foot), owner_(foot_name(foot.solution.side)) {}

  FigureGroup all() && {
    const FootSolution& solution = foot_.solution;
    std::optional<Uncertain> cut;
    if (solution.ribbons) cut = ribbon_length(); // first: it adds the sources
    if (solution.trim) wishes(layer_rows, !solution.layers);
    wishes_of(thinning_rows, solution.thinned.has_value(), "its board is not thinned");
    wishes_of(darning_rows, solution.darning.has_value(), "it is not darned");
    wishes_of(ribbon_rows, solution.ribbons.has_value(), "it has no ribbons");
    if (cut)
      group_.figures.push_back({ribbon_cut,
                                ribbon_cut_name,
                                FigureRank::knife,
                                FigureUnit::mm,
                                *std::move(cut),
                                estimated("ankle_girth") || estimated("ribbons.rise"),
                                false,
                                {}});
    else
      group_.figures.push_back(missing_figure(ribbon_cut, ribbon_cut_name, FigureRank::knife,
                                              FigureUnit::mm, "it has no ribbons"));
    return std::move(group_);
  }

private:
  template <std::size_t count> void wishes(const WorkRow (&rows)[count], bool not_asked_for) {
    for (const WorkRow& row : rows) {
      group_.figures.push_back(
          {row.key,
           row.name,
           FigureRank::knife,
           row.unit,
           combine(row.of(foot_), std::vector<double>(group_.sources.size(), 0.0), group_.sources),
           false,
           true,
           {}});
      group_.figures.back().not_asked_for = not_asked_for;
    }
  }
  template <std::size_t count>
  void wishes_of(const WorkRow (&rows)[count], bool asked_for, const char* why_not) {
    if (asked_for) return wishes(rows, false);
    for (const WorkRow& row : rows)
      group_.figures.push_back(
          missing_figure(row.key, row.name, FigureRank::knife, row.unit, why_not));
  }

  /// The estimate of this foot under this key; null where it was measured or wished.
  const Estimated* estimated(const char* key) const {
    const auto& all = foot_.solution.estimated;
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const Estimated& one) { return one.key == key; });
    return found == all.end() ? nullptr : &*found;
  }

  /// Girth and rise move it.
  Uncertain ribbon_length() {
    const SolvedRibbons& solved = *foot_.solution.ribbons;
    Inputs inputs;
    const auto add = [&](const char* guide, double value, const std::optional<Reading>& read) {
      const Estimated* guessed = estimated(guide);
      const ReadingDoubt doubt = guessed
                                     ? reading_doubt(estimate(value, guessed->sd, guessed->source))
                                     : reading_doubt(read ? *read : as_reading(value, guide));
      const std::string key = std::string(guessed ? estimated_mark.substr(1) : "") + guide;
      return add_reading(inputs, key, guide, owner_, value, doubt).input;
    };
    const std::size_t girth = add("ankle_girth", solved.girth, foot_.foot.foot.ankle_girth);
    const std::size_t rise = add("ribbons.rise", solved.rise, {});
    FootOrder moved = foot_.foot;
    Uncertain cut = propagate(
        inputs, Measurand([&](std::span<const double> in) {
          moved.foot.ankle_girth = measured(in[girth]);
          moved.alterations.ribbons->rise = in[rise];
          std::vector<Estimated> none;
          Findings findings; // it was solved before: nothing new is found
          return solve_ribbons(
                     {moved, foot_.order.estimates_from, foot_.solution.frames, {}, owner_}, none,
                     findings)
              ->cut;
        }));
    cut.value = solved.cut; // the solution's own, to the last digit
    group_.sources.assign(inputs.sources().begin(), inputs.sources().end());
    return cut;
  }

  const SolvedFoot& foot_;
  std::string owner_;
  FigureGroup group_;
};

} // namespace

FigureGroup finish_figures(const SolvedFoot& foot) {
  return FinishFigures(foot).all();
}

} // namespace shankline
