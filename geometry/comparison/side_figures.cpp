#include "geometry/comparison/foot_figures.hpp"
#include "geometry/finishing/heel_work.hpp"
#include "geometry/order/reading_guide.hpp"
#include "geometry/sides/side_cut.hpp"
#include "geometry/uncertainty/reading_doubt.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace shankline {
namespace {

// Step of the differences, as a part of u: wide enough that rounding does not matter.
constexpr double side_step = 0.1;

struct SideRow {
  const char* key;
  const char* name;
  FigureUnit unit;
  double (*of)(const SolvedSides&);
};
constexpr std::array side_rows{
    SideRow{"sides.medial.low", "least height, big-toe side", FigureUnit::mm,
            [](const SolvedSides& s) { return s.medial.low; }},
    SideRow{"sides.lateral.low", "least height, little-toe side", FigureUnit::mm,
            [](const SolvedSides& s) { return s.lateral.low; }},
    SideRow{"sides.medial.finished_length", "new top line, big-toe side", FigureUnit::mm,
            [](const SolvedSides& s) { return s.medial.finished_length; }},
    SideRow{"sides.lateral.finished_length", "new top line, little-toe side", FigureUnit::mm,
            [](const SolvedSides& s) { return s.lateral.finished_length; }},
    SideRow{"sides.medial.uncovered", "uncovered, big-toe side", FigureUnit::area,
            [](const SolvedSides& s) { return s.medial.uncovered; }},
    SideRow{"sides.lateral.uncovered", "uncovered, little-toe side", FigureUnit::area,
            [](const SolvedSides& s) { return s.lateral.uncovered; }},
    SideRow{"sides.top_line", "new top line, wing to wing", FigureUnit::mm,
            [](const SolvedSides& s) { return s.top_line; }},
    SideRow{"sides.casing_strip", "casing strip", FigureUnit::mm,
            [](const SolvedSides& s) { return s.casing; }},
    SideRow{"sides.drawstring", "drawstring", FigureUnit::mm,
            [](const SolvedSides& s) { return s.drawstring.value_or(0); }}};

struct WishRow {
  const char* key;
  const char* name;
  double (*of)(const SolvedSides&);
};
constexpr std::array wish_rows{
    WishRow{"sides.medial.depth", "side lower by, big-toe side",
            [](const SolvedSides& s) { return s.medial.profile.depth; }},
    WishRow{"sides.lateral.depth", "side lower by, little-toe side",
            [](const SolvedSides& s) { return s.lateral.profile.depth; }},
    WishRow{"sides.back.depth", "back lower by",
            [](const SolvedSides& s) { return s.medial.profile.back; }}};

/// The sides solved again with every reading a little off.
class SideFigures {
public:
  explicit SideFigures(const SolvedFoot& foot)
      : foot_(foot), owner_(foot_name(foot.solution.side)), model_(trim_model(foot)),
        inputs_(model_.inputs()), of_model_(inputs_.inputs().size()) {
    const StockSides& sides = *foot.foot.shoe.sides;
    add("sides.back", "", "sides.back", sides.back,
        [](StockSides& s) -> double& { return *s.back; });
    both_and_own("sides.low", &StockSides::low, &StockHeights::low);
    both_and_own("sides.low_at", &StockSides::low_at, &StockHeights::low_at);
    both_and_own("sides.wing", &StockSides::wing, &StockHeights::wing);
    both_and_own("sides.wing_at", &StockSides::wing_at, &StockHeights::wing_at);
    if (sides.lean_rad)
      add("sides.lean", "", "sides.lean", sides.lean_rad,
          [](StockSides& s) -> double& { return *s.lean_rad; });
    else
      add("sides.width_across", "", "sides.width_across", sides.width_across,
          [](StockSides& s) -> double& { return *s.width_across; });
    add("sides.throat", "", "sides.throat", sides.throat,
        [](StockSides& s) -> double& { return *s.throat; });
  }

  FigureGroup all() && {
    const Propagation found = propagate(
        inputs_,
        Measurands([&](std::span<const double> in, std::span<double> out) { solve(in, out); }),
        side_rows.size(), side_step);
    const std::span<const Source> sources = inputs_.sources();
    FigureGroup group{{sources.begin(), sources.end()}, {}};
    const SolvedSides& solved = *foot_.solution.sides;
    for (const WishRow& row : wish_rows)
      group.figures.push_back(
          {row.key,
           row.name,
           FigureRank::knife,
           FigureUnit::mm,
           combine(row.of(solved), std::vector<double>(sources.size(), 0.0), sources),
           false,
           true,
           {}});
    for (std::size_t i = 0; i < side_rows.size(); ++i) {
      const SideRow& row = side_rows[i];
      Uncertain value = found.results[i];
      value.value = row.of(solved); // the solution's own, to the last digit
      const bool drawstring_unknown =
          std::string(row.key) == "sides.drawstring" && !solved.drawstring;
      group.figures.push_back({row.key, row.name, FigureRank::knife, row.unit, std::move(value),
                               false, false,
                               drawstring_unknown ? "the throat was not measured"
                               : std::isfinite(found.results[i].u)
                                   ? ""
                                   : "at the limit of what fits: no doubt can be given"});
    }
    return group;
  }

private:
  using Place = std::function<double&(StockSides&)>;

  void add(const std::string& key, const std::string& edge, const std::string& kind,
           const std::optional<double>& value, Place place) {
    if (!value) return;
    const bool angle = reading_guide(kind)->quantity == Quantity::angle;
    const ReadingInput at =
        add_reading(inputs_, key + edge, kind, owner_, *value,
                    reading_doubt(as_reading(*value, kind), angle ? 0 : tape_half_width));
    moved_.emplace_back(at.input, std::move(place));
  }

  void both_and_own(const std::string& key, std::optional<double> StockSides::*both,
                    std::optional<double> StockHeights::*own) {
    const StockSides& sides = *foot_.foot.shoe.sides;
    const auto mine = [&](const std::optional<StockHeights>& edge) { return edge && (*edge).*own; };
    if (!(mine(sides.medial) && mine(sides.lateral)))
      add(key, "", key, sides.*both, [both](StockSides& s) -> double& { return *(s.*both); });
    if (mine(sides.medial))
      add(key, ".medial", key, (*sides.medial).*own,
          [own](StockSides& s) -> double& { return *((*s.medial).*own); });
    if (mine(sides.lateral))
      add(key, ".lateral", key, (*sides.lateral).*own,
          [own](StockSides& s) -> double& { return *((*s.lateral).*own); });
  }

  void solve(std::span<const double> in, std::span<double> out) {
    const TrimModel::Places foot = model_.places(in.first(of_model_));
    const double fold = in[model_.fold_input()];
    const double inset = in[model_.inset_input()];

    // Most inputs of the trim move nothing here.
    std::vector<double> moves{foot.break_at, foot.heel_front, fold, inset};
    for (const auto& [input, place] : moved_)
      moves.push_back(in[input]);
    if (moves == nominal_moves_) {
      std::copy(nominal_.begin(), nominal_.end(), out.begin());
      return;
    }
    Shoe shoe = foot_.foot.shoe;
    for (const auto& [input, place] : moved_)
      place(*shoe.sides) = in[input];
    SideWish lowered = *foot_.foot.alterations.sides;
    lowered.keep -= 1; // a side right at what has to stay is a side all the same
    Findings findings;
    const auto solved = solve_sides({.break_at = foot.break_at,
                                     .heel_front = foot.heel_front,
                                     .frames = frames_of(foot_.order.pose, fold, inset),
                                     .foot_length = foot_.foot.foot.length->value(),
                                     .shoe = shoe,
                                     .outline = foot_.solution.outline,
                                     .wish = lowered,
                                     .foot_name = owner_,
                                     .taken_in = taken_in(fold)},
                                    findings);
    for (std::size_t i = 0; i < side_rows.size(); ++i)
      out[i] = solved ? side_rows[i].of(*solved) : std::numeric_limits<double>::quiet_NaN();
    if (!nominal_moves_.empty()) return;
    nominal_moves_ = std::move(moves);
    std::copy(out.begin(), out.end(), nominal_.begin());
  }

  /// A tuck that is as deep as the fold goes with it.
  double taken_in(double fold) const {
    const auto& tuck = foot_.solution.tuck;
    if (!tuck) return 0;
    return foot_.foot.alterations.tuck->depth ? tuck->taken : taken_by_tuck(fold);
  }

  const SolvedFoot& foot_;
  std::string owner_;
  TrimModel model_;
  Inputs inputs_;
  std::size_t of_model_;
  std::vector<std::pair<std::size_t, Place>> moved_;
  std::vector<double> nominal_moves_; ///< the first ones, at the readings themselves
  std::array<double, side_rows.size()> nominal_{};
};

} // namespace

FigureGroup side_figures(const SolvedFoot& foot) {
  if (foot.solution.sides) return SideFigures(foot).all();
  FigureGroup group;
  const auto add = [&](const char* key, const char* name, FigureUnit unit) {
    group.figures.push_back(
        missing_figure(key, name, FigureRank::knife, unit, "its sides stay as they are"));
  };
  for (const WishRow& row : wish_rows)
    add(row.key, row.name, FigureUnit::mm);
  for (const SideRow& row : side_rows)
    add(row.key, row.name, row.unit);
  return group;
}

} // namespace shankline
