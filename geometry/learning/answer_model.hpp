// The model of how an answer on pointe depends on the place where the board should end.
//
// With t the right place of a foot in a style of shoe, g the shift of the single shoe and x the
// board's end, d = t + g − x says by how much the board is still too long, mm. Whoever judges sees
// d with noise σ and calls it good within ± w (an ordered probit):
//   P(too low) = Φ((d − w)/σ),  P(cut too far) = Φ((−d − w)/σ),  P(good) = the rest.
// A share ε of answers is polite, always "good", and a share δ is a slip, any of the three:
//   P' = (1 − δ)((1 − ε) P + ε [said "good"]) + δ/3.
// Politeness that "says anything" instead of "good" covers the true place worse by 14 points where
// dancers are polite.
#pragma once

#include "geometry/learning/trial_records.hpp"

#include <array>
#include <cstddef>
#include <vector>

namespace shankline {

/// A prior that is normal in the logarithm (or, for a share, in the logit): `median` · exp(sd · ξ)
/// with ξ standard normal. With an sd of 0 the figure is fixed, and may then be 0.
struct LogPrior {
  double median = 1;
  double sd = 0;
};

/// Every default is from memory or common practice, without a source; lengths are mm.
struct LearningPriors {
  double house_sd = 3;            ///< m, one for the house
  double style_sd = 2;            ///< k, one for each style of shoe
  double least_habit_sd = 2;      ///< of c, one for each reader; at least h/(2√3)
  double slip = 0.02;             ///< δ
  double jump_probability = 0.02; ///< ρ, for each pair after the first
  double jump_sd = 8;
  LogPrior width{3, 0.5};       ///< w: half of the stretch that is called good
  LogPrior noise{2, 0.5};       ///< σ
  LogPrior dancers{4, 0.5};     ///< τ: SD of the foot's own shift from the rule
  LogPrior drift{0.5, 0.8};     ///< q: SD of the step between two pairs
  LogPrior politeness{0.05, 1}; ///< ε; the sd is that of the logit
};

/// The five figures that a fit finds, in this order wherever they stand in an array.
enum HouseFigure : std::size_t {
  figure_width,
  figure_noise,
  figure_dancers,
  figure_drift,
  figure_politeness
};
inline constexpr std::size_t house_figures = 5;

struct HouseFigures {
  double width = 3;         ///< w, mm
  double noise = 2;         ///< σ, mm
  double dancers = 4;       ///< τ, mm
  double drift = 0.5;       ///< q, mm
  double politeness = 0.05; ///< ε, 0 to 1
};

/// The figures at standardized places `xi` of their priors; 0 is the median.
HouseFigures figures_at(const LearningPriors& priors, const std::array<double, house_figures>& xi);

/// P' of the formula above for an answer that places the board; `d` in mm.
double answer_probability(const HouseFigures& figures, double slip, Answer answer, double d);

/// Places on the grid of a foot, 0.75 mm apart, and how wide it is: ± 37.5 mm.
inline constexpr std::size_t grid_places = 101;
inline constexpr double grid_step = 0.75; // mm
using GridValues = std::array<double, grid_places>;

/// answer_probability at grid places, from a table. A table step divides the grid's step, so that
/// all places of one trial lie alike between table places and share six weights (Lagrange). Differs
/// from answer_probability by at most 1e-8 while σ is at least 1, and 1e-5 down to 0.3.
class AnswerTable {
public:
  AnswerTable(const HouseFigures& figures, double slip);

  /// values[i] *= answer_probability(…, answer, first + i · grid_step)
  void multiply(GridValues& values, Answer answer, double first) const;

private:
  static constexpr std::size_t phases = 16; // table places in a grid step
  static constexpr double reach = 120;      // mm on either side; beyond it nothing changes
  struct Row {
    std::vector<double> values; ///< phase by phase, so that one phase lies together
  };
  std::size_t per_phase_;
  std::array<Row, 3> rows_; ///< too_low, good, cut_too_far
};

} // namespace shankline
