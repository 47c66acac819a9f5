// Companies of invented dancers: where each board should truly end, who reads, and what is said on
// pointe. Knows nothing of how the house is fitted, so that it can hold the fit to account.
#pragma once

#include "geometry/learning/trial_records.hpp"

#include <cstdint>
#include <functional>
#include <random>
#include <vector>

namespace shankline::tests {

/// How the world is; the defaults are what the model expects. mm.
struct World {
  double width = 3;           ///< "good" within ± this
  double noise = 2;           ///< of the judge
  double dancers = 4;         ///< SD between feet
  double drift = 0.5;         ///< a pair
  double politeness = 0;      ///< share of answers that are "good" whatever is felt
  double slips = 0.02;        ///< share of answers that are any of the three
  double house_sd = 3;        ///< of the house's shift
  double house = 0;           ///< added to it
  double habit_sd = 2;        ///< of readers
  double habit_of_second = 0; ///< added to the second reader's
  double style_sd = 2;
  double reading = 2.8; ///< scatter of a reading
  double shoe = 1.5;
  double feet_sd = 8; ///< of the true heel front about its estimate
};

class SimulatedCompany {
public:
  /// Feet go in turn to two readers and, two by two, to two styles.
  SimulatedCompany(const World& world, int feet, std::uint64_t seed);

  const HouseRecords& records() const { return records_; }
  std::size_t feet() const { return places_.size(); }
  const std::string& style(std::size_t foot) const { return styles_[foot]; }

  /// Cuts and tries the next pair of one foot: first at `first_cut`, then 3 farther each time until
  /// somebody says something else than "too low".
  void try_pair(std::size_t foot, double first_cut);
  /// Returns the place where the next pair's board should end, with the shift of its shoe; drawn
  /// when asked for.
  double next_place(std::size_t foot);
  /// Moves the right place before the next pair.
  void jump(std::size_t foot, double by) { places_[foot] += by; }
  double habit(std::size_t reader) const { return habits_[reader]; }

private:
  double normal();
  double uniform();
  Answer judged(double board_is_longer_by);

  World world_;
  std::mt19937_64 engine_;
  std::vector<double> habits_;
  std::vector<double> places_; ///< before the next pair
  std::vector<std::string> styles_;
  HouseRecords records_;
};

} // namespace shankline::tests
