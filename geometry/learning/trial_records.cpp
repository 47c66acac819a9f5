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

std::string foot_key(const FootRecords& foot) {
  return foot.dancer + "." + foot_name(foot.side);
}

class Check {
public:
  explicit Check(Findings& findings) : findings_(findings) {}

  void within(const std::string& key, const std::string& what, double value, double least,
              double most) {
    if (std::isfinite(value) && value >= least && value <= most) return;
    findings_.push_back({Severity::error, key,
                         what + (std::isfinite(value) ? " is " + short_figure(value, 3)
                                                      : std::string(" is no number")),
                         short_figure(least, 3) + " to " + short_figure(most, 3),
                         "correct the record, or leave it out"});
  }
  void once(bool is_new, const std::string& key, const std::string& what) {
    if (is_new) return;
    findings_.push_back({Severity::error, key, what + " is there twice", "once",
                         "put the records of both together, or leave one out"});
  }

private:
  Findings& findings_;
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

Findings check_records(const HouseRecords& records) {
  constexpr double least_u = 0.01; // mm; less is no measurement, and would outweigh all others
  Findings findings;
  Check check(findings);
  std::set<std::pair<std::string, FootSide>> feet;
  for (const FootRecords& foot : records.feet) {
    const std::string key = foot_key(foot);
    check.once(feet.emplace(foot.dancer, foot.side).second, key, "this foot");
    check.within(key, "the estimate of the heel front", foot.estimate, 0, farthest_place);
    check.within(key, "the SD of the estimate", foot.estimate_sd, least_u, farthest_place);
    for (const ReadingSession& session : foot.sessions) {
      check.within(key, "a heel front", session.place, 0, farthest_place);
      check.within(key, "the u of a heel front", session.scatter_u, least_u, farthest_place);
      check.within(key, "the finding half-width", session.finding, 0, farthest_place);
    }
    std::set<std::string> pairs;
    for (const TriedShoe& shoe : foot.shoes) {
      const std::string shoe_key = key + "." + shoe.pair;
      check.once(pairs.insert(shoe.pair).second, shoe_key, "this pair");
      check.within(shoe_key, "the u of the shoe", shoe.shoe_u, 0, 20);
      for (const Trial& trial : shoe.trials)
        check.within(shoe_key, "the board's end", trial.board_end, 0, farthest_place);
    }
  }
  return findings;
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
    const Trial* last = nullptr;
    for (const Trial& trial : shoe.trials)
      if (trial.after_wear) last = &trial;
    return last && last->answer == Answer::good;
  };
  return static_cast<int>(std::ranges::count_if(foot.shoes, ended_good));
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
