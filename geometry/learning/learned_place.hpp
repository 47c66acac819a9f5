// Predicts where a dancer's next board should end, from what the house has learned.
#pragma once

#include "geometry/learning/house_fit.hpp"
#include "geometry/learning/trial_records.hpp"

#include <memory>
#include <optional>
#include <string>

namespace shankline {

/// The shoe and day that a place is asked for.
struct AskedPlace {
  std::string style;              ///< one that is not on record brings the doubt of any new style
  double shoe_u = shoe_u_pointed; ///< mm, of the shoe that will be cut
  /// The day of the new order. Later than a month after the last pair, t drifts on by the months
  /// between. Without it one step is taken.
  std::optional<Day> ordered;
};

/// The place where a dancer's next board should end.
struct LearnedPlace {
  double mean = 0;          ///< mm from the back of the heel, pointed foot
  double sd = 0;            ///< of it on the next shoe, that shoe's own shift included
  double U = 0;             ///< 1.96 sd: 95 %
  int pairs = 0;            ///< shoes of this foot that were learned from
  std::optional<Day> first; ///< orders of the oldest and newest of these
  std::optional<Day> last;
  double jump_probability = 0;         ///< that t jumped before the last pair; see `alarm`
  double earlier_jump_probability = 0; ///< that it did before the last pair but one
  int good_after_wear = 0;             ///< pairs that ended good after wear
  std::optional<double> too_far;       ///< mm: standing_too_far of the foot
};

/// Predicts places from one fit. Beside the place's own spread it carries how well the house is
/// known, to second order: mean = μ + ½ tr(H_μ C), variance = max(v + ½ tr(H_v C), 0.7 v) + gᵀCg +
/// u_shoe², with C the covariance of what the fit found, g and H the derivatives of the place's
/// mean μ and variance v.
///
/// Example:
///   const HouseFit fit = fit_house(records);
///   const LearnedPlace place = PlacePredictor(fit).place(records.feet[0], {.style = "S4"});
class PlacePredictor {
public:
  explicit PlacePredictor(const HouseFit& fit);
  ~PlacePredictor();
  PlacePredictor(PlacePredictor&&) noexcept;
  PlacePredictor& operator=(PlacePredictor&&) noexcept;

  /// `foot` need not be on record: a foot without tries is predicted from its readings and from
  /// what the house has learned. A reader, or an asked style, that the fit does not know brings its
  /// prior's doubt. Throws std::invalid_argument where check_records finds a fault in the foot, or
  /// where it was tried in a style that the fit does not know.
  LearnedPlace place(const FootRecords& foot, const AskedPlace& asked) const;

private:
  struct Tables;
  std::unique_ptr<const Tables> tables_;
};

} // namespace shankline
