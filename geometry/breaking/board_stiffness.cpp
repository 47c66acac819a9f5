#include "geometry/breaking/board_stiffness.hpp"

#include "geometry/numerics/bracketed_root.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/order/reading_guide.hpp"
#include "geometry/uncertainty/reading_doubt.hpp"

#include <boost/math/special_functions/ellint_1.hpp>
#include <boost/math/special_functions/ellint_2.hpp>
#include <cmath>
#include <numbers>

namespace shankline {
namespace {

// Standard deviations as fractions of the value: from memory, common practice without a source.
// What was measured has the doubt of its readings instead.
constexpr double grade_sd = 0.25;   ///< of a graded board and of the sole
constexpr double ungraded_sd = 0.5; ///< of a board whose bending was not tested
/// Beyond this share of the free length the droop hardly changes with the weight.
constexpr double most_droop = 0.9;
/// Below it the handbook's formula is exact to a few parts in a million.
constexpr double slight_droop = 1e-3;

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

Result<double> stiffness_from_droop(double droop, double weight_grams, double free_length) {
  if (!(droop > 0) || !(weight_grams > 0) || !(free_length > 0))
    return Advice{"a droop test with a reading of 0 or less", "all three above 0",
                  "Hang a heavier weight until the end comes down by some 10 mm."};
  const double most = most_droop * free_length;
  if (droop > most) {
    const bool beyond = droop >= free_length;
    const double by = droop - (beyond ? free_length : most);
    return Advice{
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
double doubt_of(const Droop& test) {
  constexpr double scale = 0; // of a scale the guide's half-width is all there is
  const double droop = reading_doubt(as_reading(test.droop, "stiffness.droop")).u();
  const double length = reading_doubt(as_reading(test.free_length, "stiffness.free")).u();
  const double weight = reading_doubt(as_reading(test.weight_grams, "stiffness.weight"), scale).u();
  return std::hypot(droop / test.droop, 3 * length / test.free_length, weight / test.weight_grams);
}

} // namespace

Result<BoardAndSole> board_and_sole(const Stiffness& stiffness) {
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
    if (!board) return board.why();
    found.board = {*board, doubt_of(*test), "hung weight"};
  } else {
    found.board = {grade_stiffness(Grade::two_thumbs), ungraded_sd,
                   "not measured, a default from memory"};
  }
  return found;
}

} // namespace shankline
