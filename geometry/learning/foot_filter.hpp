// Follows one foot's right place over its pairs, on a grid. It gives the likelihood of the foot's
// trials for the house's figures, and the belief about where the place is now.
//
// The place t has a normal prior, known from the readings and from the figures of the house. Before
// each pair after the first it jumps with probability ρ by N(0, 8²), else drifts by N(0, n q²), n
// the pairs or months that went by, whichever is more. A pair's answers multiply the belief
// pointwise, after the shift of the shoe has been averaged out of them. Steps on the grid are made
// with the discrete Gaussian e^(−v) I_n(v) (Lindeberg, IEEE Trans. Pattern Anal. Mach. Intell. 12
// (1990) 234–254; from memory), whose variance is exact however small it is.
#pragma once

#include "geometry/learning/answer_model.hpp"

#include <cstddef>
#include <map>
#include <memory>
#include <vector>

namespace shankline {

/// A symmetric kernel over whole steps of the grid.
///
/// A kernel as wide as a jump's has weights nearly everywhere, but few waves: its Fourier
/// transform, e^(−v(1 − cos ω)), is below 1e-12 from the 24th on. So it is kept as waves, which
/// takes a third of the time and gives the same to 1e-11.
class GridKernel {
public:
  /// The discrete Gaussian of this variance, mm²; 0 leaves everything where it is.
  static GridKernel gaussian(double variance);
  /// (1 − share) · a + share · b
  static GridKernel mixed(const GridKernel& a, const GridKernel& b, double share);

  /// Returns the values spread by the kernel. The part that would lie outside the grid is lost.
  GridValues spread(const GridValues& values) const;
  double variance() const { return variance_; } ///< mm²

private:
  std::vector<double> half_{1}; ///< weights at 0, 1 … steps; at most grid_places of them
  std::vector<double> waves_;   ///< beside these, a weight for each wave; or empty
  double variance_ = 0;
};

/// The figures that move a foot's likelihood, but for its prior: everything that one pass over its
/// pairs needs, worked out once for all feet.
///
/// Not thread-safe: kernels are made when they are first asked for.
class FilterTables {
public:
  FilterTables(std::shared_ptr<const AnswerTable> answers, double drift,
               const LearningPriors& priors);

  const AnswerTable& answers() const { return *answers_; }
  /// Returns the kernel from one pair to the next, `steps` pairs or months later: drift, or a jump.
  const GridKernel& step(double steps) const;
  const GridKernel& jump() const { return jump_; } ///< given that there was one
  double jump_probability() const { return jump_probability_; }
  const GridKernel& shoe(double variance) const;

private:
  std::shared_ptr<const AnswerTable> answers_;
  double drift_;
  double jump_probability_;
  GridKernel jump_;
  mutable std::map<double, GridKernel> steps_; ///< kept since few occur, many times each
  mutable std::map<double, GridKernel> shoes_;
};

struct FilterTrial {
  double board_end;
  Answer answer;
};
struct FilterShoe {
  std::size_t style; ///< 0 for the style in which the place is counted, else index into the offsets
  double steps;      ///< since the shoe before; not used for the first
  double variance;   ///< of the shoe's own shift, mm²
  std::vector<FilterTrial> trials;
};

/// One foot for the filter: the place of its grid and the shoes that were tried.
struct FilterFoot {
  double centre;                 ///< mm, middle of the grid: the readings' mean without habits
  double base_variance;          ///< mm², of the heel front given the readings and habits
  std::vector<FilterShoe> shoes; ///< by day; every one has a trial
};

/// t ~ N(centre + shift, base_variance + dancers²) before the first pair.
struct FilterPrior {
  double shift;   ///< mm
  double dancers; ///< τ, mm
};

/// ln P(all trials | t on the grid at the first pair) = ln values + log_scale. `offsets[s]` is how
/// far, mm, style s lies from style 0; offsets[0] is 0.
struct FilterMessage {
  GridValues values;
  double log_scale;
};
FilterMessage message_of_trials(const FilterFoot& foot, const FilterTables& tables,
                                const std::vector<double>& offsets);

/// ln P(all trials | prior).
double log_likelihood(const FilterFoot& foot, const FilterPrior& prior,
                      const FilterMessage& message);

/// The belief of t before the next pair, in style 0.
struct FilterBelief {
  double mean;
  double variance;                 ///< mm²
  double jump_probability;         ///< that t jumped before the last pair; 0 with fewer than two
  double earlier_jump_probability; ///< that it did before the last pair but one; 0 below three
};
FilterBelief belief_after(const FilterFoot& foot, const FilterPrior& prior,
                          const FilterTables& tables, const std::vector<double>& offsets,
                          double steps_to_next);

} // namespace shankline
