#include "geometry/wear/rotation.hpp"

#include "geometry/wear/remaining_life.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <numeric>

namespace shankline {
namespace {

/// splitmix64: every number has its own place, so a pair's draws do not depend on other pairs.
std::uint64_t mixed(std::uint64_t x) {
  x += 0x9e3779b97f4a7c15U;
  x = (x ^ (x >> 30U)) * 0xbf58476d1ce4e5b9U;
  x = (x ^ (x >> 27U)) * 0x94d049bb133111ebU;
  return x ^ (x >> 31U);
}

/// Inside (0, 1).
double uniform(std::uint64_t seed, std::uint64_t run, std::uint64_t what) {
  constexpr double step = 1.0 / 4503599627370496.0; // 2⁻⁵²
  return (static_cast<double>(mixed(mixed(mixed(seed) + run) + what) >> 12U) + 0.5) * step;
}

double standard_normal(std::uint64_t seed, std::uint64_t run) {
  constexpr std::uint64_t first = 1'000'001, second = 1'000'002; // behind every pair's own number
  return std::sqrt(-2 * std::log(uniform(seed, run, first))) *
         std::cos(2 * std::numbers::pi * uniform(seed, run, second));
}

bool is_dry(const RotationPair& pair, int day) {
  return pair.dry_from <= day;
}

/// Looks at one pair after the other and keeps the one to wear.
class Choice {
public:
  explicit Choice(const DanceDay& day) : day_(day) {}

  void consider(const RotationPair& pair, std::size_t place) {
    if (best_ && !is_better(pair)) return;
    best_ = &pair;
    place_ = place;
  }
  bool found() const { return best_ != nullptr; }
  std::size_t place() const { return place_; }

private:
  bool is_better(const RotationPair& pair) const {
    const bool of_this_kind = pair.for_stage == day_.on_stage;
    const bool other_kind_than_best = pair.for_stage != best_->for_stage;
    // In class a pair that is kept for the stage is not used while there is another one, dry or
    // damp.
    if (other_kind_than_best && !day_.on_stage) return of_this_kind;
    const int damp = is_dry(pair, day_.day) ? INT_MIN : pair.dry_from;
    const int best_damp = is_dry(*best_, day_.day) ? INT_MIN : best_->dry_from;
    if (damp != best_damp) return damp < best_damp;
    if (other_kind_than_best) return of_this_kind;
    if (pair.last_worn != best_->last_worn) return pair.last_worn < best_->last_worn;
    return pair.hours < best_->hours;
  }

  const DanceDay& day_;
  const RotationPair* best_ = nullptr;
  std::size_t place_ = 0;
};

void wear(RotationPair& pair, const DanceDay& day, int drying) {
  pair.hours += day.hours;
  pair.last_worn = day.day;
  pair.dry_from = day.day + drying;
}

/// At how many hours each pair is done, run by run. Drawn once for all numbers of pairs that are
/// tried, pair after pair.
class RandomEnds {
public:
  RandomEnds(const WeibullLife& life, const RotationRule& rule)
      : rule_(rule), s_(std::exp(life.log_shape)) {
    for (std::size_t run = 0; run < rule.runs; ++run)
      scales_.push_back(
          std::exp(life.log_scale_hours + life.log_scale_se * standard_normal(rule.seed, run)));
  }

  void reach(const std::vector<RotationPair>& pairs) {
    for (std::size_t k = ends_.size(); k < pairs.size(); ++k) {
      std::vector<double>& ends = ends_.emplace_back();
      for (std::size_t run = 0; run < rule_.runs; ++run) {
        const double spent =
            pairs[k].hours > 0 ? std::pow(pairs[k].hours / scales_[run], 1 / s_) : 0.0;
        ends.push_back(scales_[run] * std::pow(spent - std::log(uniform(rule_.seed, run, k)), s_));
      }
    }
  }
  double at(std::size_t pair, std::size_t run) const { return ends_[pair][run]; }

private:
  const RotationRule& rule_;
  double s_;
  std::vector<double> scales_;            ///< by run
  std::vector<std::vector<double>> ends_; ///< by pair, then run
};

/// One way after the other in which it may turn out.
class Simulation {
public:
  Simulation(const std::vector<RotationPair>& pairs, std::span<const DanceDay> days,
             const RandomEnds& ends, const RotationRule& rule)
      : pairs_(pairs), days_(days), ends_(ends), rule_(rule),
        drying_(drying_days(rule.drying_hours)) {}

  /// Adds 1 to `too_few` for every day on which that is so. Stops, and returns false, once one from
  /// `watched` on has `most` of them.
  bool run(std::size_t number, std::vector<std::size_t>& too_few, int watched, std::size_t most) {
    now_ = pairs_;
    good_.resize(pairs_.size());
    std::iota(good_.begin(), good_.end(), std::size_t{0});
    for (std::size_t i = 0; i < days_.size(); ++i) {
      const DanceDay& day = days_[i];
      int ready = 0;
      Choice choice(day);
      for (std::size_t at = 0; at < good_.size(); ++at) {
        const RotationPair& pair = now_[good_[at]];
        if (pair.there_from > day.day) continue;
        ready += is_dry(pair, day.day) ? 1 : 0;
        choice.consider(pair, at);
      }
      if (ready < rule_.wanted && ++too_few[i] >= most && day.day >= watched) return false;
      if (!choice.found()) continue;
      const std::size_t worn = good_[choice.place()];
      wear(now_[worn], day, drying_);
      if (now_[worn].hours >= ends_.at(worn, number))
        good_.erase(good_.begin() + static_cast<std::ptrdiff_t>(choice.place()));
    }
    return true;
  }

private:
  const std::vector<RotationPair>& pairs_;
  std::span<const DanceDay> days_;
  const RandomEnds& ends_;
  const RotationRule& rule_;
  int drying_;
  std::vector<RotationPair> now_;
  std::vector<std::size_t> good_; ///< those that are not done
};

/// Returns for each day the chance of too few pairs; nullopt if it reaches `limit` on a day from
/// `watched` on.
std::optional<std::vector<double>> random_chances(const std::vector<RotationPair>& pairs,
                                                  std::span<const DanceDay> days, RandomEnds& ends,
                                                  const RotationRule& rule, int watched,
                                                  double limit) {
  std::vector<std::size_t> too_few(days.size());
  ends.reach(pairs);
  Simulation simulation(pairs, days, ends, rule);
  const auto most = static_cast<std::size_t>(std::ceil(limit * static_cast<double>(rule.runs)));
  for (std::size_t i = 0; i < rule.runs; ++i)
    if (!simulation.run(i, too_few, watched, most)) return std::nullopt;
  std::vector<double> chances;
  for (const std::size_t count : too_few)
    chances.push_back(static_cast<double>(count) / static_cast<double>(rule.runs));
  return chances;
}

/// Returns the chances for all days, without a limit.
std::vector<double> all_chances(const std::vector<RotationPair>& pairs,
                                std::span<const DanceDay> days, RandomEnds& ends,
                                const RotationRule& rule) {
  constexpr double never = 2;
  return *random_chances(pairs, days, ends, rule, INT_MAX, never);
}

} // namespace

int drying_days(double drying_hours) {
  constexpr double day = 24;
  return static_cast<int>(std::ceil(drying_hours / day));
}

std::optional<std::size_t> pair_to_wear(std::span<const RotationPair> pairs,
                                        std::span<const char> good, const DanceDay& day) {
  Choice choice(day);
  for (std::size_t k = 0; k < pairs.size(); ++k)
    if (good[k] != 0 && pairs[k].there_from <= day.day) choice.consider(pairs[k], k);
  return choice.found() ? std::optional(choice.place()) : std::nullopt;
}

std::vector<PlannedDay> rotation_plan(std::vector<RotationPair> pairs,
                                      std::span<const DanceDay> days, const WeibullLife& life,
                                      const RotationRule& rule) {
  const int drying = drying_days(rule.drying_hours);
  std::vector<double> ends;
  for (const RotationPair& pair : pairs)
    ends.push_back(pair.hours + hours_left(life, pair.hours, 0.5));
  std::vector<char> good(pairs.size(), 1);
  std::vector<PlannedDay> plan;
  for (const DanceDay& day : days) {
    PlannedDay planned{day, pair_to_wear(pairs, good, day)};
    if (planned.pair) {
      RotationPair& pair = pairs[*planned.pair];
      planned.dry = is_dry(pair, day.day);
      planned.off_stage = pair.for_stage && !day.on_stage;
      wear(pair, day, drying);
      if (pair.hours >= ends[*planned.pair]) good[*planned.pair] = 0;
    }
    plan.push_back(planned);
  }
  return plan;
}

std::vector<double> chance_of_too_few(const std::vector<RotationPair>& pairs,
                                      std::span<const DanceDay> days, const WeibullLife& life,
                                      const RotationRule& rule) {
  RandomEnds ends(life, rule);
  return all_chances(pairs, days, ends, rule);
}

double chance_error(double chance, std::size_t runs) {
  return std::sqrt(chance * (1 - chance) / static_cast<double>(runs));
}

std::optional<OrderAdvice> order_advice(const std::vector<RotationPair>& pairs,
                                        std::span<const DanceDay> days, const WeibullLife& life,
                                        int today, int lead_days, double limit,
                                        const RotationRule& rule) {
  RandomEnds ends(life, rule);
  const std::vector<double> without = all_chances(pairs, days, ends, rule);
  const auto first = std::find_if(without.begin(), without.end(),
                                  [limit](double chance) { return chance >= limit; });
  if (first == without.end()) return std::nullopt;
  OrderAdvice advice;
  advice.too_few_from = days[static_cast<std::size_t>(first - without.begin())].day;
  advice.there_on = std::max(advice.too_few_from, today + lead_days);
  advice.order_by = advice.there_on - lead_days;
  advice.too_late = advice.there_on > advice.too_few_from;
  for (std::size_t i = 0; i < days.size(); ++i)
    if (days[i].day < advice.there_on && advice.too_late)
      advice.worst_before = std::max(advice.worst_before, without[i]);
  if (days.back().day < advice.there_on) return advice;
  const auto do_they = [&](int count) {
    std::vector<RotationPair> with = pairs;
    RotationPair added;
    added.there_from = advice.there_on;
    with.resize(with.size() + static_cast<std::size_t>(count), added);
    return random_chances(with, days, ends, rule, advice.there_on, limit).has_value();
  };
  // The search starts near the answer: the hours of the later days divided by the median life.
  double hours = 0;
  for (const DanceDay& day : days)
    if (day.day >= advice.there_on) hours += day.hours;
  int high = std::clamp(static_cast<int>(std::ceil(hours / hours_left(life, 0, 0.5))) + 1, 1,
                        most_ordered);
  int low = 0; // so few do not do
  while (!do_they(high)) {
    low = high;
    if (high == most_ordered) {
      advice.pairs = most_ordered;
      advice.enough = false;
      return advice;
    }
    high = std::min(most_ordered, high + std::max(1, high / 3));
  }
  while (high - low > 1) {
    const int middle = (low + high) / 2;
    (do_they(middle) ? high : low) = middle;
  }
  advice.pairs = high;
  return advice;
}

} // namespace shankline
