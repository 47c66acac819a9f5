#include "geometry/learning/trial_records.hpp"

#include "geometry/order/figure.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>
#include <utility>

namespace shankline {
namespace {

constexpr double farthest_place = 200; // mm; no heel front and no board's end lies there

/// Checks one foot, or one of its shoes.
class Check {
public:
  Check(std::vector<RecordFault>& faults, const FootRecords& foot, std::string pair = {})
      : faults_(faults), foot_(foot), pair_(std::move(pair)) {}

  void within(const std::string& what, double value, double least, double most) {
    if (std::isfinite(value) && value >= least && value <= most) return;
    add({what + (std::isfinite(value) ? " is " + short_figure(value, 3)
                                      : std::string(" is not a number")),
         short_figure(least, 3) + " to " + short_figure(most, 3),
         "correct the record, or leave it out"});
  }
  void once(bool is_new, const std::string& what) {
    if (!is_new)
      add({what + " is there twice", "once", "put the records of both together, or leave one out"});
  }

private:
  void add(Advice words) { faults_.push_back({std::move(words), foot_.dancer, foot_.side, pair_}); }

  std::vector<RecordFault>& faults_;
  const FootRecords& foot_;
  std::string pair_;
};

auto contents(const Trial& t) {
  return std::tie(t.board_end, t.answer, t.after_wear, t.judged_by, t.day);
}
auto contents(const ReadingSession& s) {
  return std::tie(s.reader, s.place, s.scatter_u, s.finding);
}
auto place_in_order(const TriedShoe& s) {
  return std::tie(s.ordered, s.pair);
}
auto place_in_order(const FootRecords& f) {
  return std::tie(f.dancer, f.side);
}

} // namespace

bool places_the_board(Answer answer) {
  return answer == Answer::too_low || answer == Answer::good || answer == Answer::cut_too_far;
}

std::string RecordFault::where() const {
  return dancer + ", " + foot_name(side) + (pair.empty() ? "" : ", pair " + pair);
}

std::vector<RecordFault> check_records(const HouseRecords& records) {
  constexpr double least_u = 0.01; // mm; less is not a measurement, and would outweigh all others
  std::vector<RecordFault> faults;
  std::set<std::pair<std::string, FootSide>> feet;
  for (const FootRecords& foot : records.feet) {
    Check check(faults, foot);
    check.once(feet.emplace(foot.dancer, foot.side).second, "this foot");
    check.within("the estimate of the heel front", foot.estimate, 0, farthest_place);
    check.within("the SD of the estimate", foot.estimate_sd, least_u, farthest_place);
    for (const ReadingSession& session : foot.sessions) {
      check.within("a heel front", session.place, 0, farthest_place);
      check.within("the u of a heel front", session.scatter_u, least_u, farthest_place);
      check.within("the finding half-width", session.finding, 0, farthest_place);
    }
    std::set<std::string> pairs;
    for (const TriedShoe& shoe : foot.shoes) {
      Check of_shoe(faults, foot, shoe.pair);
      of_shoe.once(pairs.insert(shoe.pair).second, "this pair");
      of_shoe.within("the u of the shoe", shoe.shoe_u, 0, 20);
      for (const Trial& trial : shoe.trials)
        of_shoe.within("the board's end", trial.board_end, 0, farthest_place);
    }
  }
  return faults;
}

HouseRecords in_order(HouseRecords records) {
  const auto by_contents = [](const auto& a, const auto& b) { return contents(a) < contents(b); };
  const auto by_place = [](const auto& a, const auto& b) {
    return place_in_order(a) < place_in_order(b);
  };
  std::ranges::sort(records.feet, by_place);
  for (FootRecords& foot : records.feet) {
    std::ranges::sort(foot.sessions, by_contents);
    std::ranges::sort(foot.shoes, by_place);
    for (TriedShoe& shoe : foot.shoes)
      std::ranges::sort(shoe.trials, by_contents);
  }
  return records;
}

bool has_answers(const TriedShoe& shoe) {
  return std::ranges::any_of(shoe.trials,
                             [](const Trial& trial) { return places_the_board(trial.answer); });
}

int shoes_good_after_wear(const FootRecords& foot) {
  const auto ended_good = [](const TriedShoe& shoe) {
    std::optional<double> good_end;
    for (const Trial& trial : shoe.trials)
      // Pain that comes later takes a "good" back, also where nobody said that it was after wear. A
      // board that was cut on has not been worn as it is now.
      if (trial.answer == Answer::good && trial.after_wear)
        good_end = trial.board_end;
      else if (trial.answer != Answer::good || trial.board_end != good_end)
        good_end.reset();
    return good_end.has_value();
  };
  return static_cast<int>(std::ranges::count_if(foot.shoes, ended_good));
}

std::optional<double> standing_too_far(const FootRecords& foot) {
  const auto spoken_against = [&](double end, Day ordered) {
    return std::ranges::any_of(foot.shoes, [&](const TriedShoe& later) {
      return later.ordered > ordered && std::ranges::any_of(later.trials, [&](const Trial& trial) {
               return (trial.answer == Answer::too_low || trial.answer == Answer::good) &&
                      trial.board_end >= end;
             });
    });
  };
  std::optional<double> nearest;
  for (const TriedShoe& shoe : foot.shoes)
    for (const Trial& trial : shoe.trials)
      if (trial.answer == Answer::cut_too_far && (!nearest || trial.board_end < *nearest) &&
          !spoken_against(trial.board_end, shoe.ordered))
        nearest = trial.board_end;
  return nearest;
}

std::vector<NeverTooLow> never_too_low(const HouseRecords& records) {
  std::map<std::string, NeverTooLow> dancers;
  std::set<std::string> said_too_low;
  for (const FootRecords& foot : records.feet) {
    for (const TriedShoe& shoe : foot.shoes) {
      for (const Trial& trial : shoe.trials) {
        if (!places_the_board(trial.answer)) continue;
        NeverTooLow& dancer = dancers[foot.dancer];
        dancer.dancer = foot.dancer;
        ++dancer.trials;
        if (trial.answer == Answer::too_low) said_too_low.insert(foot.dancer);
      }
    }
  }
  std::vector<NeverTooLow> result;
  for (auto& [code, dancer] : dancers)
    if (!said_too_low.contains(code)) result.push_back(std::move(dancer));
  return result;
}

} // namespace shankline
