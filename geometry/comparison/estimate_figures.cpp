#include "geometry/comparison/foot_figures.hpp"
#include "geometry/foot/arch.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/order/foot_estimates.hpp"
#include "geometry/uncertainty/reading_doubt.hpp"

#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <string>
#include <utility>

namespace shankline {
namespace {

/// Step of the differences, as a part of u: wide enough that the solver's own error does not
/// matter.
constexpr double estimate_step = 0.1;

/// Contact figures of one shoe, cut and uncut.
struct CutAndUncut {
  FootContactFigures uncut;
  FootContactFigures cut;
};

struct ContactRow {
  const char* key;
  const char* name;
  FigureUnit unit;
  double (*of)(const CutAndUncut&);
};
constexpr std::array contact_rows{
    ContactRow{"contact.cut.break", "break", FigureUnit::mm,
               [](const CutAndUncut& c) { return c.cut.break_at.mm(); }},
    ContactRow{"contact.uncut.break", "break, uncut", FigureUnit::mm,
               [](const CutAndUncut& c) { return c.uncut.break_at.mm(); }},
    ContactRow{"contact.heel_pry_left", "heel pry, of uncut", FigureUnit::fraction,
               [](const CutAndUncut& c) { return of_uncut(c.cut.heel_pry, c.uncut.heel_pry); }},
    ContactRow{"contact.heel_gap_left", "heel gap, of uncut", FigureUnit::fraction,
               [](const CutAndUncut& c) { return of_uncut(c.cut.heel_gap, c.uncut.heel_gap); }},
    ContactRow{"contact.cut.heel_pry", "heel pry", FigureUnit::moment,
               [](const CutAndUncut& c) { return c.cut.heel_pry; }},
    ContactRow{"contact.cut.heel_gap", "heel gap", FigureUnit::mm,
               [](const CutAndUncut& c) { return c.cut.heel_gap; }},
    ContactRow{"contact.cut.gap", "largest gap", FigureUnit::mm,
               [](const CutAndUncut& c) { return c.cut.gap; }},
    ContactRow{"contact.cut.bearing", "bearing on the heel", FigureUnit::mm,
               [](const CutAndUncut& c) { return c.cut.bearing.value_or(FootStation(0)).mm(); }},
    ContactRow{"contact.cut.slack", "slack", FigureUnit::mm,
               [](const CutAndUncut& c) { return c.cut.slack; }}};

/// Why a figure of a solved contact means nothing.
std::string why_none(const std::string& key, const CutAndUncut& found) {
  if (key == "contact.cut.break" && !found.cut.breaks_in_arch) return "breaks at the box";
  if (key == "contact.uncut.break" && !found.uncut.breaks_in_arch) return "breaks at the box";
  if (key == "contact.cut.bearing" && !found.cut.bearing) return "nothing bears on the heel";
  return {};
}

/// The two contact problems solved again with everything a little off.
class EstimateFigures {
public:
  explicit EstimateFigures(const SolvedFoot& foot)
      : foot_(foot), contact_(*foot.contact), owner_(foot_name(foot.solution.side)),
        model_(trim_model(foot)), inputs_(model_.inputs()), of_model_(inputs_.inputs().size()) {
    const Foot& f = foot.foot.foot;
    // A ball that the break depends on is the model's.
    if (!model_.places(inputs_.values()).ball) ball_ = add_ball(f);
    depth_ = model_.depth_input();
    if (!depth_ && f.arch_depth) depth_ = add("arch_depth", *f.arch_depth, tape_half_width);
    if (!depth_ && f.arch_bend_rad) bend_ = add("arch_bend", *f.arch_bend_rad, 0);
    clamp_ = add_clamp();
    board_ = spread("the board's stiffness", contact_.board, graded());
    sole_ = spread("the sole's stiffness", contact_.sole, true);
    pull_ = spread("the pull", contact_.pull,
                   std::holds_alternative<std::monostate>(foot.foot.shoe.pull));
  }

  FigureGroup all() && {
    const Propagation found = propagate(
        inputs_,
        Measurands([&](std::span<const double> in, std::span<double> out) { solve(in, out); }),
        contact_rows.size(), estimate_step);
    const std::span<const Source> sources = inputs_.sources();
    FigureGroup group{{sources.begin(), sources.end()}, {}};
    const CutAndUncut solved{contact_.uncut.figures, contact_.cut->figures};
    for (std::size_t i = 0; i < contact_rows.size(); ++i) {
      const ContactRow& row = contact_rows[i];
      Uncertain value = found.results[i];
      value.value = row.of(solved);
      std::string why = why_none(row.key, solved);
      if (why.empty() && !std::isfinite(value.u)) why = "too near to where there is no contact";
      // Differences vanish at a bound, so that ± would read 0.
      if (why.empty() && std::abs(value.value) < 1e-9 && value.u < 1e-9) why = "at its limit, 0";
      group.figures.push_back({row.key, row.name, FigureRank::estimate, row.unit, std::move(value),
                               false, false, std::move(why)});
    }
    return group;
  }

private:
  using Index = std::optional<std::size_t>;

  std::size_t add(const std::string& key, const Reading& reading, double tape) {
    return add_reading(inputs_, key, key, owner_, reading.value(), reading_doubt(reading, tape))
        .input;
  }

  std::size_t add_ball(const Foot& f) {
    return add("ball_length",
               f.ball_length.value_or(
                   estimated_ball_length(foot_.order.estimates_from, f.length->value())),
               tape_half_width);
  }

  /// The wing's end, measured or by rule; a clamp at the ball moves only with the ball.
  Index add_clamp() {
    if (foot_.foot.shoe.clamp == Clamp::ball) return {};
    constexpr double wing_by_rule_sd = 5; // from memory
    if (contact_.clamp_estimated)
      return inputs_.add_own("wing", contact_.clamp, {owner_ + ".wing", wing_by_rule_sd});
    return add("sides.wing_at", as_reading(contact_.clamp, "sides.wing_at"), tape_half_width);
  }

  bool graded() const {
    return std::holds_alternative<std::monostate>(foot_.foot.shoe.stiffness) ||
           std::holds_alternative<Grade>(foot_.foot.shoe.stiffness);
  }

  /// A lognormal figure by its logarithm.
  std::size_t spread(const std::string& what, const BenchFigure& figure, bool guess) {
    return inputs_.add_own(what, 0,
                           {guess ? what + ", " + figure.source : owner_ + "." + what,
                            log_sd(figure.relative_sd), known, Shape::normal, guess});
  }

  std::optional<Arch> arch(std::span<const double> in, FootStation ball, FootStation break_at,
                           FootStation heel_front) const {
    if (!(heel_front < break_at && break_at < ball)) return {};
    if (bend_) return arch_of_foot(ball, break_at, heel_front, in[*bend_]);
    const auto bend =
        bend_from_depth(arch_of_foot(ball, break_at, heel_front, largest_bend), in[*depth_]);
    if (!bend) return {};
    return arch_of_foot(ball, break_at, heel_front, *bend);
  }

  std::optional<FootContactFigures> figures(const ContactProblem& problem, FootStation ball,
                                            const ContactSolution& near) const {
    ContactResult result = solve_contact(problem, figures_only, &near);
    if (!result.solution) return {};
    return at_stations(result.solution->figures, ball);
  }

  /// The end of the board on the foot, cut where it is drawn: it has the errors of laying board and
  /// foot together, and of the knife.
  FootStation end_on_foot(std::span<const double> in) const {
    const Frames frames = frames_of(in);
    const std::size_t first = model_.carrying_input();
    const double carried = in[first] + in[first + 1] + in[first + 2];
    return frames.on_foot(foot_.solution.trim->final_cut.centre + carried) -
           in[model_.laid_flat_input()];
  }

  Frames frames_of(std::span<const double> in) const {
    return shankline::frames_of(foot_.order.pose, in[model_.fold_input()],
                                in[model_.inset_input()]);
  }

  /// The board cut through at u = end, or some of its layers; what is thinned ahead of it goes with
  /// the board.
  Strip cut_at(Strip strip, double end) const {
    const Strip& drawn = contact_.cut->problem.strip;
    if (contact_.cut_by_layer) {
      strip.thinned =
          ThinnedStretch{end, strip.board_end, drawn.thinned->ratio, drawn.thinned->bevel};
      return strip;
    }
    strip.bevel = drawn.bevel;
    strip.edge_ratio = drawn.edge_ratio;
    strip.board_end = end;
    if (!drawn.thinned) return strip;
    const double moved = end - drawn.board_end;
    strip.thinned = ThinnedStretch{drawn.thinned->from + moved, drawn.thinned->to + moved,
                                   drawn.thinned->ratio};
    return strip;
  }

  std::optional<CutAndUncut> solved(std::span<const double> in) const {
    const auto [heel_front, break_at, ball_of_model] = model_.places(in.first(of_model_));
    const FootStation ball = ball_of_model ? *ball_of_model : FootStation(in[*ball_]);
    const auto foot = arch(in, ball, break_at, heel_front);
    if (!foot) return {};

    ContactProblem uncut = contact_.uncut.problem;
    uncut.arch = *foot;
    uncut.clamp = clamp_ ? ball - FootStation(in[*clamp_]) : 0;
    uncut.heel_front = ball - heel_front;
    uncut.end = ball;
    // The length of the shoe behind the heel hardly matters: take the end of the uncut board.
    uncut.strip.board_end = ball - foot_.solution.frames.on_foot(BoardStation(0));
    uncut.strip.board *= std::exp(in[board_]);
    uncut.strip.sole *= std::exp(in[sole_]);
    uncut.pull =
        even_pull(contact_.pull.value * std::exp(in[pull_]), uncut.clamp, uncut.heel_front);
    ContactProblem cut = uncut;
    cut.strip = cut_at(cut.strip, ball - end_on_foot(in));
    const auto bent_uncut = figures(uncut, ball, contact_.uncut.solution);
    const auto bent_cut = figures(cut, ball, contact_.cut->solution);
    if (!bent_uncut || !bent_cut) return {};
    return CutAndUncut{*bent_uncut, *bent_cut};
  }

  void solve(std::span<const double> in, std::span<double> out) const {
    const auto found = solved(in);
    for (std::size_t i = 0; i < contact_rows.size(); ++i)
      out[i] = found ? contact_rows[i].of(*found) : std::numeric_limits<double>::quiet_NaN();
  }

  const SolvedFoot& foot_;
  const FootContact& contact_;
  std::string owner_;
  TrimModel model_;
  Inputs inputs_;
  std::size_t of_model_;
  Index ball_; ///< absent where it is the model's
  Index depth_;
  Index bend_;
  Index clamp_;
  std::size_t board_ = 0;
  std::size_t sole_ = 0;
  std::size_t pull_ = 0;
};

} // namespace

FigureGroup estimate_figures(const SolvedFoot& foot) {
  if (!foot.solution.trim) return {};
  if (foot.contact && foot.contact->cut) return EstimateFigures(foot).all();
  FigureGroup group;
  for (const ContactRow& row : contact_rows)
    group.figures.push_back(
        missing_figure(row.key, row.name, FigureRank::estimate, row.unit,
                       foot.why_no_contact.empty() ? "not estimated" : foot.why_no_contact));
  return group;
}

} // namespace shankline
