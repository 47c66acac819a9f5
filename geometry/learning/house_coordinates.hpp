// Puts the unknowns of a house into one row of numbers and says how each foot depends on them.
// Internal to this folder: house_fit and learned_place share it.
#pragma once

#include "geometry/learning/foot_filter.hpp"
#include "geometry/learning/trial_records.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace shankline {

/// Standardized unknowns: the house, each style, each reader, then the five figures.
struct HouseAxes {
  double house_sd;                  ///< mm
  double style_sd;                  ///< mm
  std::vector<std::string> styles;  ///< sorted
  std::vector<std::string> readers; ///< sorted
  std::vector<double> habit_sds;    ///< mm, of each reader

  std::size_t size() const { return 1 + styles.size() + readers.size() + house_figures; }
  std::size_t linear_size() const { return size() - house_figures; } ///< all but the figures
  std::size_t style_axis(std::size_t style) const { return 1 + style; }
  std::size_t reader_axis(std::size_t reader) const { return 1 + styles.size() + reader; }
  std::size_t figure_axis(std::size_t figure) const { return linear_size() + figure; }

  std::optional<std::size_t> style(std::string_view name) const;
  std::optional<std::size_t> reader(std::string_view code) const;
};

/// Returns the axes for all styles and readers of the records. The SD of a habit is the larger of
/// h/(2√3) and the least one, with h the widest finding half-width of the reader's sessions.
HouseAxes house_axes(const HouseRecords& records, const LearningPriors& priors);

/// Returns the SD of the habit of a reader who finds the place within ± `finding`; both mm.
double habit_sd(double finding, const LearningPriors& priors);

/// A linear function of the unknowns: Σ factor · xi[axis].
using LinearForm = std::vector<std::pair<std::size_t, double>>;
double value_of(const LinearForm& form, const std::vector<double>& xi);

/// Indexes of a foot's own coordinates: its prior's shift (mm), the five figures (in xi), and for
/// each style but the first its distance from the first (mm).
inline constexpr std::size_t shift_place = 0;
inline constexpr std::size_t figure_place = 1;
inline constexpr std::size_t offset_place = figure_place + house_figures;

/// All sessions of one reader on one foot.
struct ReadersSessions {
  std::size_t reader;  ///< of HouseAxes
  double weight;       ///< Σ 1/u², 1/mm²
  double weighted_sum; ///< Σ y/u², y counted from the foot's estimate, 1/mm
};

/// One foot in the house's coordinates.
struct FootInHouse {
  FilterFoot filter;
  std::vector<std::size_t> styles;     ///< of HouseAxes, in the order in which the filter counts
  std::vector<LinearForm> coordinates; ///< the foot's own coordinates
  double base_precision;               ///< of h given the readings and habits, 1/mm²
  std::vector<ReadersSessions> sessions;
  double unknown_habit_variance = 0; ///< mm², of the shift, by readers whom the axes do not have
};

/// Returns the foot in the house's coordinates; `foot` must be sorted by in_order. Throws
/// std::invalid_argument if it was tried in a style that the axes do not have.
FootInHouse foot_in_house(const FootRecords& foot, const HouseAxes& axes,
                          const LearningPriors& priors);

/// Steps of drift from one order to a later one: months of 30.44 days, at least 1.
double drift_steps(Day from, Day to);

/// Throws std::invalid_argument with the first fault of check_records.
void require_sound(const HouseRecords& records);

} // namespace shankline
