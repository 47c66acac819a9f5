// Fits a house to all of its tries: the house's own shift, the shift of each style, the habit of
// each reader, and the five figures of the answer model.
//
// Model, mm in the foot frame. The right place of a foot in a style is t = h + m + d + k: h the
// true heel front (normal prior from the foot length), m the house, d ~ N(0, τ²) the foot, k the
// style. A session reads h + c + e, c the reader's habit and e its scatter. Answers:
// answer_model.hpp; drift and jumps: foot_filter.hpp.
//
// Method: t is summed over a grid. Over m, k, c and the five figures, all in units of their prior
// SD (xi), the posterior is taken as normal about its mode, with the inverse of the second
// derivatives as covariance (Laplace's approximation). Derivatives are central differences of 0.4
// mm and of 0.1 in xi; Newton's steps are at most 3 long, the eigenvalues of the second derivatives
// at least 0.5. Known limit: with almost no data the SD that results is 4 to 11 % too small (held
// against importance sampling).
#pragma once

#include "geometry/learning/answer_model.hpp"
#include "geometry/learning/trial_records.hpp"
#include "geometry/numerics/symmetric_matrix.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace shankline {

/// A figure learned: mean and standard deviation, mm.
struct LearnedFigure {
  double mean = 0;
  double sd = 0;

  double U() const { return 1.96 * sd; } ///< 95 % of a normal distribution
  /// Returns true if 0 lies outside mean ± U.
  bool surely_not_zero() const { return mean > U() || mean < -U(); }
};

/// A reader's habit, mm towards the toes: positive for somebody who marks the heel front too far
/// forward. It is taken out of what is learned.
struct ReaderHabit {
  std::string reader;
  double prior_sd = 0; ///< mm, of habits like this one before anything was learned
  LearnedFigure habit;
  int sessions = 0;
};

/// The shift of the right place by a style of shoe, mm towards the toes.
struct StyleShift {
  std::string style;
  LearnedFigure shift;
  int shoes = 0; ///< with answers
};

/// Figures are fitted on at most this many feet. With more, those are taken whose dancer and side
/// hash lowest (FNV-1a, one fixed seed), so that the choice depends on who is on record and on
/// nothing else. House, styles and readers are then fitted on all feet, with the figures as they
/// are.
inline constexpr std::size_t most_feet_for_figures = 100;

/// The version of this model; it is kept with what was learned.
inline constexpr int learning_model_version = 1;

struct HouseFit {
  LearningPriors priors;
  HouseFigures figures;             ///< at the mode
  LearnedFigure house;              ///< m
  std::vector<StyleShift> styles;   ///< by name
  std::vector<ReaderHabit> readers; ///< by code
  /// ln of likelihood times prior at the mode, over the feet that fitted the figures. Constants are
  /// left out, so that only differences mean something.
  double log_posterior = 0;
  bool converged = false;           ///< the last of Newton's steps was below 0.0003 in xi
  int rounds = 0;                   ///< Newton's steps
  std::size_t feet = 0;             ///< with answers
  std::size_t feet_for_figures = 0; ///< of these, how many fitted the figures

  // PlacePredictor needs these. The order is house, styles, readers, figures
  // (house_coordinates.hpp).
  std::vector<double> xi;
  SymmetricMatrix covariance{0}; ///< of xi
};

/// Fits a house. The same records give the same bytes, in whatever order they come. Throws
/// std::invalid_argument where check_records finds a fault.
HouseFit fit_house(const HouseRecords& records, const LearningPriors& priors = {});

/// Returns how much farther towards the toes reader `a` marks the heel front than reader `b`, mm;
/// both are indexes into `fit.readers`. Habits are counted from the estimate by foot length, so an
/// estimate that is off for the whole company moves them all, while it hardly moves their
/// difference.
LearnedFigure habit_difference(const HouseFit& fit, std::size_t a, std::size_t b);

} // namespace shankline
