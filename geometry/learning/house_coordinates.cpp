#include "geometry/learning/house_coordinates.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <set>
#include <stdexcept>

namespace shankline {
namespace {

std::optional<std::size_t> index_in(const std::vector<std::string>& sorted, std::string_view name) {
  const auto found = std::ranges::lower_bound(sorted, name);
  if (found == sorted.end() || *found != name) return {};
  return static_cast<std::size_t>(found - sorted.begin());
}

FilterShoe filter_shoe(const TriedShoe& shoe) {
  FilterShoe result{0, 1, shoe.shoe_u * shoe.shoe_u, {}};
  for (const Trial& trial : shoe.trials)
    if (places_the_board(trial.answer)) result.trials.push_back({trial.board_end, trial.answer});
  return result;
}

/// The readings of one foot: h given them, and how it depends on the readers' habits.
void add_readings(FootInHouse& result, const FootRecords& foot, const HouseAxes& axes,
                  const LearningPriors& priors) {
  struct Unknown {
    double weight = 0;
    double finding = 0;
  };
  std::map<std::size_t, ReadersSessions> known;
  std::map<std::string, Unknown> unknown;
  double precision = 1 / (foot.estimate_sd * foot.estimate_sd);
  double sum = 0;
  for (const ReadingSession& session : foot.sessions) {
    const double weight = 1 / (session.scatter_u * session.scatter_u);
    precision += weight;
    sum += weight * (session.place - foot.estimate);
    if (const auto reader = axes.reader(session.reader)) {
      ReadersSessions& sessions =
          known.try_emplace(*reader, ReadersSessions{*reader, 0, 0}).first->second;
      sessions.weight += weight;
      sessions.weighted_sum += weight * (session.place - foot.estimate);
    } else {
      Unknown& sessions = unknown[session.reader];
      sessions.weight += weight;
      sessions.finding = std::max(sessions.finding, session.finding);
    }
  }
  result.filter.centre = foot.estimate + sum / precision;
  result.filter.base_variance = 1 / precision;
  result.base_precision = precision;
  for (const auto& [reader, sessions] : known) {
    result.sessions.push_back(sessions);
    result.coordinates[shift_place].emplace_back(
        axes.reader_axis(reader), -sessions.weight / precision * axes.habit_sds[reader]);
  }
  for (const auto& [code, sessions] : unknown) {
    const double moved = sessions.weight / precision * habit_sd(sessions.finding, priors);
    result.unknown_habit_variance += moved * moved;
  }
}

void add_shoes(FootInHouse& result, const FootRecords& foot, const HouseAxes& axes) {
  const TriedShoe* before = nullptr;
  for (const TriedShoe& shoe : foot.shoes) {
    if (!has_answers(shoe)) continue;
    const auto style = axes.style(shoe.style);
    if (!style) throw std::invalid_argument("a foot was tried in a style that is not on record");
    const auto known = std::ranges::find(result.styles, *style);
    const auto place = static_cast<std::size_t>(known - result.styles.begin());
    if (known == result.styles.end()) result.styles.push_back(*style);
    FilterShoe filtered = filter_shoe(shoe);
    filtered.style = place;
    if (before) filtered.steps = drift_steps(before->ordered, shoe.ordered);
    result.filter.shoes.push_back(std::move(filtered));
    before = &shoe;
  }
}

} // namespace

std::optional<std::size_t> HouseAxes::style(std::string_view name) const {
  return index_in(styles, name);
}
std::optional<std::size_t> HouseAxes::reader(std::string_view code) const {
  return index_in(readers, code);
}

double habit_sd(double finding, const LearningPriors& priors) {
  return std::max(finding / (2 * std::numbers::sqrt3), priors.least_habit_sd);
}

HouseAxes house_axes(const HouseRecords& records, const LearningPriors& priors) {
  std::set<std::string> styles;
  std::map<std::string, double> readers;
  for (const FootRecords& foot : records.feet) {
    for (const TriedShoe& shoe : foot.shoes)
      if (has_answers(shoe)) styles.insert(shoe.style);
    for (const ReadingSession& session : foot.sessions) {
      double& widest = readers[session.reader];
      widest = std::max(widest, habit_sd(session.finding, priors));
    }
  }
  HouseAxes axes{priors.house_sd, priors.style_sd, {styles.begin(), styles.end()}, {}, {}};
  for (const auto& [code, sd] : readers) {
    axes.readers.push_back(code);
    axes.habit_sds.push_back(sd);
  }
  return axes;
}

double value_of(const LinearForm& form, const std::vector<double>& xi) {
  double value = 0;
  for (const auto& [axis, factor] : form)
    value += factor * xi[axis];
  return value;
}

FootInHouse foot_in_house(const FootRecords& foot, const HouseAxes& axes,
                          const LearningPriors& priors) {
  FootInHouse result{};
  result.coordinates.resize(offset_place);
  result.coordinates[shift_place].emplace_back(0, axes.house_sd);
  add_readings(result, foot, axes, priors);
  add_shoes(result, foot, axes);
  for (std::size_t figure = 0; figure < house_figures; ++figure)
    result.coordinates[figure_place + figure].emplace_back(axes.figure_axis(figure), 1);
  if (!result.styles.empty())
    result.coordinates[shift_place].emplace_back(axes.style_axis(result.styles[0]), axes.style_sd);
  for (std::size_t k = 1; k < result.styles.size(); ++k)
    result.coordinates.push_back({{axes.style_axis(result.styles[k]), axes.style_sd},
                                  {axes.style_axis(result.styles[0]), -axes.style_sd}});
  return result;
}

double drift_steps(Day from, Day to) {
  constexpr double month = 30.436875; // days, the mean of the Gregorian calendar
  return std::max(1.0, static_cast<double>((to - from).count()) / month);
}

void require_sound(const HouseRecords& records) {
  const auto faults = check_records(records);
  if (faults.empty()) return;
  const RecordFault& first = faults.front();
  throw std::invalid_argument(first.where() + ": " + first.what + " (allowed: " + first.allowed +
                              ")");
}

} // namespace shankline
