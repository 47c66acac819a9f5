#include "geometry/board_stiffness.hpp"

#include "geometry/bracketed_root.hpp"
#include "geometry/figure.hpp"
#include "geometry/reading_doubt.hpp"
#include "geometry/reading_guide.hpp"

#include <boost/math/special_functions/ellint_1.hpp>
#include <boost/math/special_functions/ellint_2.hpp>
#include <cmath>
#include <numbers>

namespace shankline {
namespace {

// Standard deviations as fractions of the value: from memory, common practice without a source.
// What was measured has the doubt of its readings instead.
constexpr double grade_sd = 0.25;   ///< of a graded board and of the sole
constexpr double ungraded_sd = 0.5; ///< of a board that nobody bent
constexpr double pull_sd = 0.5;     ///< of the default pull; of a travel twice that at most
constexpr double given_sd = 0.1;    ///< of a number given without its doubt
/// Beyond this share of the free length the droop hardly changes with the weight.
constexpr double most_droop = 0.9;
/// Below it the handbook's formula is exact to a few parts in a million.
constexpr double slight_droop = 1e-3;
/// N/mm; no upper pulls a hundred times as hard as the default.
constexpr double most_pull = 100 * default_pull;

} // namespace

double grade_stiffness(Grade grade) {
  switch (grade) {
  case Grade::one_thumb:
    return 45000;
  case Grade::two_thumbs:
    return 70000;
  case Grade::over_the_knee:
    return 100000;
  case Grade::hardly_over_the_knee:
    return 140000;
  }
  return 70000;
}

TipLoad tip_load(double tip_slope) {
  const double sine = std::sin(tip_slope);
  const double k = std::sqrt((1 + sine) / 2);
  const double theta = std::atan2(1, std::sqrt(sine));
  const double alpha = boost::math::ellint_1(k) - boost::math::ellint_1(k, theta);
  const double lengths = boost::math::ellint_2(k) - boost::math::ellint_2(k, theta);
  return {alpha * alpha, 1 - 2 * lengths / alpha, 1 - std::sqrt(2 * sine) / alpha};
}

std::variant<double, Impossible> stiffness_from_droop(double droop, double weight_grams,
                                                      double free_length) {
  if (!(droop > 0) || !(weight_grams > 0) || !(free_length > 0))
    return Impossible{-droop, "a droop test with a reading of 0 or less", "all three above 0",
                      "Hang a heavier weight until the end comes down by some 10 mm."};
  const double most = most_droop * free_length;
  if (droop > most) {
    const bool beyond = droop >= free_length;
    const double by = droop - (beyond ? free_length : most);
    return Impossible{
        by,
        beyond ? "a droop of " + short_figure(droop) + " is " + short_figure(by) +
                     " more than the free length of " + short_figure(free_length) + " allows"
               : "a droop of " + short_figure(droop) + " on a free length of " +
                     short_figure(free_length) + " is too far to tell the stiffness",
        "up to " + short_figure(std::floor(most)) + ", better a third of the free length",
        "Hang less weight, or measure again: straight down, from the level of the clamp."};
  }
  const double force = weight_grams * newtons_per_gram;
  const double ratio = droop / free_length;
  const double l2 = free_length * free_length;
  if (ratio < slight_droop) return force * l2 / (3 * ratio);
  constexpr double least_slope = slight_droop;
  constexpr double most_slope = std::numbers::pi / 2 * 0.999;
  const auto excess = [&](double slope) { return tip_load(slope).droop - ratio; };
  const double slope = bracketed_root(excess, least_slope, most_slope)
                           .value(); // droops 0.0007 to 0.98 of the length
  return force * l2 / tip_load(slope).load;
}

namespace {

/// B goes as weight·length³/droop, as long as the droop is not large.
double relative_sd(const Droop& test) {
  constexpr double scale = 0; // of a scale the guide's half-width is all there is
  const double droop = reading_doubt(as_reading(test.droop, "stiffness.droop")).u();
  const double length = reading_doubt(as_reading(test.free_length, "stiffness.free")).u();
  const double weight = reading_doubt(as_reading(test.weight_grams, "stiffness.weight"), scale).u();
  return std::hypot(droop / test.droop, 3 * length / test.free_length, weight / test.weight_grams);
}

/// What is far beyond the guide's limits, where the contact would be sought in figures that the
/// machine cannot hold. The room leaves the uncertainty's draws alone.
std::optional<Impossible> beyond_any(std::string_view key, double value) {
  constexpr double room = 100;
  const ReadingGuide& guide = *reading_guide(key);
  if (value >= guide.least / room && value <= guide.most * room) return {};
  return Impossible{value < guide.least ? value - guide.least : value - guide.most,
                    std::string(guide.name) + " is " +
                        (std::isfinite(value) ? short_figure(value, 3) : "no number"),
                    "from " + short_figure(guide.least, 3) + " to " + short_figure(guide.most, 3),
                    std::string(guide.how)};
}

} // namespace

std::variant<BoardAndSole, Impossible> board_and_sole(const Stiffness& stiffness) {
  BoardAndSole found;
  found.sole = {default_sole_stiffness, grade_sd, "default, from memory"};
  if (const auto* grade = std::get_if<Grade>(&stiffness)) {
    found.board = {grade_stiffness(*grade), grade_sd, "graded by hand, from memory"};
  } else if (const auto* given = std::get_if<BendingStiffness>(&stiffness)) {
    if (auto fault = beyond_any("stiffness.board", given->board)) return *std::move(fault);
    if (given->sole)
      if (auto fault = beyond_any("stiffness.sole", *given->sole)) return *std::move(fault);
    found.board = {given->board, given_sd, "as given"};
    if (given->sole) found.sole = {*given->sole, given_sd, "as given"};
  } else if (const auto* test = std::get_if<Droop>(&stiffness)) {
    const auto board = stiffness_from_droop(test->droop, test->weight_grams, test->free_length);
    if (const auto* fault = std::get_if<Impossible>(&board)) return *fault;
    found.board = {std::get<double>(board), relative_sd(*test), "hung weight"};
  } else {
    found.board = {grade_stiffness(Grade::two_thumbs), ungraded_sd,
                   "nobody bent it: default, from memory"};
  }
  return found;
}

namespace {

/// No travel, or more than the `without` that is left of the gap without any pull.
Impossible travel_too_far(double travel, double without) {
  const bool some = travel > 0;
  const double by = some ? -without : -travel;
  return {by,
          some ? "a travel of " + short_figure(travel) + " is " + short_figure(by) +
                     " more than the shoe would stand off without any pull"
               : "a travel of " + short_figure(travel) + " is none",
          "above 0, below " + short_figure(without + travel),
          "Thumb the sole up under the arch, standing on pointe in the uncut shoe; check "
          "the arch depth and the board's stiffness."};
}

} // namespace

std::variant<double, Impossible> pull_from_travel(const ContactProblem& uncut, double travel,
                                                  const ContactOptions& options) {
  ContactProblem problem = uncut;
  std::optional<ContactSolution> near;
  std::string fault;
  const auto excess = [&](double pull) { // not a number where there is no solution
    problem.pull = even_pull(pull, problem.clamp, problem.heel_front);
    ContactResult result = solve_contact(problem, options, near ? &*near : nullptr);
    if (!result.solution) {
      fault = result.verdict.fault.empty() ? "the contact was not found" : result.verdict.fault;
      return std::nan("");
    }
    near = std::move(result.solution);
    return near->figures.gap - travel;
  };
  const double without = excess(0);
  if (!fault.empty()) return Impossible{0, fault, "", ""};
  if (!(travel > 0) || without <= 0) return travel_too_far(travel, without);
  double low = 0;
  double at_low = without;
  double high = default_pull;
  double at_high = excess(high);
  while (at_high > 0 && high < most_pull) {
    low = high;
    at_low = at_high;
    high = std::min(most_pull, 2 * high);
    at_high = excess(high);
  }
  if (at_high > 0)
    return Impossible{at_high,
                      "a travel of " + short_figure(travel) + " is " + short_figure(at_high) +
                          " less than any upper could leave",
                      "above " + short_figure(at_high + travel),
                      "Measure the travel again where it is largest."};
  const auto pull = bracketed_root(excess, low, high, at_low, at_high);
  if (!pull) return Impossible{0, fault, "", ""};
  return *pull;
}

std::variant<BenchFigure, Impossible> upper_pull(const Pull& pull, const ContactProblem& uncut,
                                                 const ContactOptions& options) {
  if (const auto* force = std::get_if<PullForce>(&pull)) {
    if (auto fault = beyond_any("pull", force->per_length)) return *std::move(fault);
    return BenchFigure{force->per_length, given_sd, "as given"};
  }
  const auto* seen = std::get_if<Travel>(&pull);
  if (seen == nullptr) return BenchFigure{default_pull, pull_sd, "default, from memory"};
  const auto found = pull_from_travel(uncut, seen->travel, options);
  if (const auto* fault = std::get_if<Impossible>(&found)) return *fault;
  // The reading's own doubt, by the slope of the gap.
  const double value = std::get<double>(found);
  ContactProblem more = uncut;
  const double step = std::max(0.05 * value, 1e-4);
  more.pull = even_pull(value + step, uncut.clamp, uncut.heel_front);
  const ContactResult result = solve_contact(more, options);
  double sd = 2 * pull_sd;
  if (result.solution && result.solution->figures.gap < seen->travel && value > 0) {
    const double slope = (seen->travel - result.solution->figures.gap) / step;
    const double reading_sd = reading_doubt(as_reading(seen->travel, "pull.travel")).u();
    sd = std::min(sd, reading_sd / slope / value);
  }
  return BenchFigure{value, sd, "travel in the uncut shoe"};
}

} // namespace shankline
