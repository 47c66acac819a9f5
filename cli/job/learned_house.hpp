// Works out from an archive what its house has learned.
#pragma once

#include "cli/job/house_history.hpp"
#include "export/drawing/length_text.hpp"
#include "geometry/learning/house_fit.hpp"
#include "geometry/learning/learned_place.hpp"
#include "geometry/learning/track_record.hpp"

#include <optional>
#include <string>
#include <vector>

namespace shankline {

/// The place where a dancer's next board should end.
struct LearnedFoot {
  std::string dancer;
  FootSide side = FootSide::left;
  std::string style; ///< of the foot's newest order, which the place is for
  LearnedPlace place;
  bool measure_again = false; ///< the place may have jumped lately (alarm)
};

/// A shoe that ended good, and the place that was promised for its board's end. Places in mm from
/// the back of the pointed foot's heel.
struct FoundPlace {
  std::string dancer;
  FootSide side = FootSide::left;
  std::string pair;
  PromisedPlace promised;
  double found = 0; ///< mm
};

/// One reader marks the heel front farther forward than another, by this much; never negative.
struct ReaderDifference {
  std::string reader;
  std::string than;
  LearnedFigure difference; ///< mm
};

struct LearnedHouse {
  HouseHistory history;
  int shoes = 0;            ///< that were learned from
  int trials = 0;           ///< of these, answers that place the board
  std::optional<Day> first; ///< orders of the oldest and the newest of these shoes
  std::optional<Day> last;
  HouseFit fit;
  std::vector<LearnedFoot> feet; ///< by dancer and side
  TrackRecords track;
  std::vector<NeverTooLow> never_too_low;
  std::vector<FoundPlace> found; ///< by dancer, side and day
};

/// Every reader against the one with the most readings (the first of them by code).
std::vector<ReaderDifference> reader_differences(const LearnedHouse& house);

/// "the line is held at 50.5, behind 53.5, where a board was cut too far"; empty where it is not
/// held.
std::string held_words(const LearnedPlace& place, Units units = Units::mm);

/// Depends on what is on record and on nothing else.
LearnedHouse learned_house(HouseHistory history);

} // namespace shankline
