#include "cli/job/learned_house.hpp"

#include "geometry/learning/learned_use.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <tuple>
#include <utility>

namespace shankline {
namespace {

void count(const FootRecords& foot, LearnedHouse& house) {
  for (const TriedShoe& shoe : foot.shoes) {
    if (!has_answers(shoe)) continue;
    ++house.shoes;
    house.trials += static_cast<int>(
        std::count_if(shoe.trials.begin(), shoe.trials.end(),
                      [](const Trial& trial) { return places_the_board(trial.answer); }));
    house.first = house.first ? std::min(*house.first, shoe.ordered) : shoe.ordered;
    house.last = house.last ? std::max(*house.last, shoe.ordered) : shoe.ordered;
  }
}

/// in_order() gave the order of trials up; as the board got shorter it is the one in which they
/// were made. Of two on one day at one end, the one that was not good stands last.
HouseRecords as_made(HouseRecords records) {
  for (FootRecords& foot : records.feet)
    for (TriedShoe& shoe : foot.shoes)
      std::stable_sort(shoe.trials.begin(), shoe.trials.end(), [](const Trial& a, const Trial& b) {
        return std::tuple(a.board_end, a.day, a.answer != Answer::good, a.after_wear) <
               std::tuple(b.board_end, b.day, b.answer != Answer::good, b.after_wear);
      });
  return records;
}

std::vector<FoundPlace> found_places(const HouseRecords& records) {
  std::vector<FoundPlace> found;
  for (const FootRecords& foot : records.feet)
    for (const TriedShoe& shoe : foot.shoes) {
      const Trial* last = nullptr;
      for (const Trial& trial : shoe.trials)
        if (places_the_board(trial.answer)) last = &trial;
      if (last && last->answer == Answer::good && shoe.promised)
        found.push_back({foot.dancer, foot.side, shoe.pair, *shoe.promised, last->board_end});
    }
  return found;
}

} // namespace

std::vector<ReaderDifference> reader_differences(const LearnedHouse& house) {
  const std::vector<ReaderHabit>& readers = house.fit.readers;
  const auto most = std::ranges::max_element(readers, {}, &ReaderHabit::sessions);
  std::vector<ReaderDifference> found;
  for (auto reader = readers.begin(); reader != readers.end(); ++reader) {
    if (reader == most || reader->sessions == 0) continue;
    const LearnedFigure forward =
        habit_difference(house.fit, static_cast<std::size_t>(reader - readers.begin()),
                         static_cast<std::size_t>(most - readers.begin()));
    if (forward.mean < 0)
      found.push_back({most->reader, reader->reader, {-forward.mean, forward.sd}});
    else
      found.push_back({reader->reader, most->reader, forward});
  }
  return found;
}

std::string held_words(const LearnedPlace& place, Units units) {
  if (!is_held_behind(place)) return {};
  return "the line is held at " + length_text(learned_final(place), units) + ", behind " +
         length_text(*place.too_far, units) + ", where a board was cut too far";
}

LearnedHouse learned_house(HouseHistory history) {
  LearnedHouse house;
  house.history = std::move(history);
  const HouseRecords& records = house.history.records;
  for (const FootRecords& foot : records.feet)
    count(foot, house);
  house.fit = fit_house(records);
  const PlacePredictor predictor(house.fit);
  for (std::size_t i = 0; i < records.feet.size(); ++i) {
    const FootRecords& foot = records.feet[i];
    const NewestOrder& asked = house.history.newest[i];
    LearnedFoot learned{foot.dancer, foot.side, asked.style,
                        predictor.place(foot, {asked.style, asked.shoe_u, {}}), false};
    learned.measure_again = alarm(learned.place);
    house.feet.push_back(std::move(learned));
  }
  const HouseRecords made = as_made(records);
  house.track = track_records(made);
  house.never_too_low = never_too_low(records);
  house.found = found_places(made);
  return house;
}

} // namespace shankline
