#include "geometry/learning/track_record.hpp"

#include <cmath>
#include <map>

namespace shankline {
namespace {

/// Sums that a TrackRecord is made of.
class Tally {
public:
  void add(const TriedShoe& shoe) {
    const Trial* last = nullptr;
    int tries = 0, until_good = 0;
    bool too_far = false, stopped = false, ends_stopped = false;
    for (const Trial& trial : shoe.trials) {
      if (!places_the_board(trial.answer)) {
        stopped = ends_stopped = true;
        continue;
      }
      ends_stopped = false;
      ++tries;
      last = &trial;
      too_far = too_far || trial.answer == Answer::cut_too_far;
      if (trial.answer == Answer::good && until_good == 0) until_good = tries;
    }
    record_.stopped += stopped;
    if (!last) return;
    ++record_.shoes;
    record_.cut_too_far += too_far;
    if (until_good > 0) {
      ++with_good_;
      tries_ += until_good;
    }
    if (last->answer != Answer::good || ends_stopped) return;
    ++record_.ended_good;
    if (!shoe.promised) return;
    const double off = last->board_end - shoe.promised->place;
    ++record_.promised;
    record_.inside_U += std::abs(off) <= shoe.promised->U;
    // Welford's update (from memory): no cancelling of large squares.
    const double before = off - mean_;
    mean_ += before / record_.promised;
    squares_ += before * (off - mean_);
  }

  bool empty() const { return record_.shoes == 0 && record_.stopped == 0; }

  TrackRecord record() const {
    TrackRecord result = record_;
    if (with_good_ > 0) result.tries_until_good = static_cast<double>(tries_) / with_good_;
    if (result.promised > 0) result.mean_off = mean_;
    if (result.promised > 1) result.sd_off = std::sqrt(squares_ / (result.promised - 1));
    return result;
  }

private:
  TrackRecord record_;
  int with_good_ = 0;
  int tries_ = 0;
  double mean_ = 0;
  double squares_ = 0;
};

} // namespace

TrackRecords track_records(const HouseRecords& records) {
  Tally all;
  std::map<std::chrono::year_month, Tally> months;
  const HouseRecords& feet = records;
  for (const FootRecords& foot : feet.feet) {
    for (const TriedShoe& shoe : foot.shoes) {
      const std::chrono::year_month_day day(shoe.ordered);
      all.add(shoe);
      months[day.year() / day.month()].add(shoe);
    }
  }
  TrackRecords result{all.record(), {}};
  for (const auto& [month, tally] : months) {
    if (tally.empty()) continue;
    result.months.push_back(tally.record());
    result.months.back().month = month;
  }
  return result;
}

} // namespace shankline
