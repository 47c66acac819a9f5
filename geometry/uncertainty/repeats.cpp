#include "geometry/uncertainty/repeats.hpp"

#include "geometry/numerics/bracketed_root.hpp"
#include "geometry/numerics/degree.hpp"
#include "geometry/order/figure.hpp"
#include "geometry/order/foot_estimates.hpp"
#include "geometry/order/reading_guide.hpp"

#include <algorithm>
#include <array>
#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <string_view>
#include <vector>

namespace shankline {
namespace {

constexpr double degrees_of_reader = 1; // half-width of reading an angle, degrees

std::string listed(const std::vector<double>& values, double unit) {
  std::string text;
  for (const double value : values)
    text += (text.empty() ? "" : ", ") + short_figure(value / unit, 2);
  return text;
}

class DoubtfulReadings {
public:
  DoubtfulReadings(const FootOrder& foot, const Order& order, const std::string& name)
      : foot_(foot), order_(order), name_(name) {}

  Findings found() && {
    foot();
    const Board& board = foot_.shoe.board;
    reading("shoe", "board.inset", board.inset);
    if (board.state == BoardState::loose) reading("shoe", "board.length", board.length);
    if (foot_.alterations.shank)
      if (const auto* rule = std::get_if<MarkRule>(&foot_.alterations.shank->rule))
        if (!rule->carried_over) reading("alterations", "shank.mark", rule->mark);
    return std::move(findings_);
  }

private:
  void foot() {
    const Foot& foot = foot_.foot;
    for (const ReadingGuide& row : reading_guides())
      if (row.in_foot) reading("feet", row.key, row.in_foot.of(foot), order_units(row.quantity));
    if (!foot.length) return;
    const double length = foot.length->value();
    const Population from = order_.estimates_from;
    against("fold", foot.fold, estimated_fold().estimate_sd, "the usual fold");
    // In the shoe the fold is added to the estimate, but not to the reading.
    const double fold_u = reading_doubt(foot.fold.value_or(estimated_fold())).u();
    const double carried = order_.pose == Pose::in_shoe ? fold_u : 0;
    against("heel_front", foot.heel_front,
            std::hypot(estimated_heel_front(from, length).estimate_sd, carried));
    for (const ReadingGuide& row : reading_guides())
      if (row.in_foot && foot_regression(from, row.key))
        against(row.key, row.in_foot.of(foot),
                estimated_by_length(from, row.key, length).estimate_sd);
  }

  std::string path(const char* section, std::string_view key) const {
    return section + ("." + name_) + "." + std::string(key);
  }

  void reading(const char* section, std::string_view key, const std::optional<Reading>& taken,
               double unit = 1) {
    if (!taken) return;
    const auto apart =
        contradiction(*taken, unit == 1 ? tape_half_width : degrees_of_reader * unit);
    if (!apart) return;
    std::string what = "the repeats of the " + std::string(reading_guide(key)->name) + " (" +
                       listed(taken->values, unit) + ") lie " +
                       short_figure((apart->most - apart->least) / unit) +
                       " apart: at least one of them is a slip";
    if (apart->odd_one) what += ", most likely " + short_figure(*apart->odd_one / unit, 2);
    findings_.push_back(
        {Severity::caution, path(section, key), std::move(what),
         "up to " + short_figure(apart->allowed / unit) +
             " apart; chance alone passes that once in 200 times",
         "Take the reading once more and delete the one that does not fit. " + how_to_take(key),
         rank_of_short_board});
  }

  /// A reading that says less than `estimate_sd` is worse than none.
  void against(std::string_view key, const std::optional<Reading>& taken, double estimate_sd,
               const std::string& by = "its estimate from the foot length") {
    if (!taken || taken->estimated) return;
    const double u = reading_doubt(*taken).u();
    if (u <= estimate_sd) return;
    if (refuse_contradiction(path("feet", key), by)) return;
    findings_.push_back({Severity::error, path("feet", key),
                         "the " + std::string(reading_guide(key)->name) +
                             " is known worse (standard uncertainty " + short_figure(u) +
                             ") than " + by + " (" + short_figure(estimate_sd) + ")",
                         "a reading whose doubt is smaller: within about " +
                             short_figure(largest_within(*taken, estimate_sd)),
                         "Take it again, or leave it out: the estimate then stands in for it. " +
                             how_to_take(key)});
  }

  /// Repeats that contradict each other and are worth less than the estimate as well: the caution
  /// about them becomes the error. Returns false if there is no such caution.
  bool refuse_contradiction(const std::string& key, const std::string& by) {
    const auto caution = std::find_if(findings_.begin(), findings_.end(),
                                      [&](const Finding& found) { return found.key == key; });
    if (caution == findings_.end()) return false;
    caution->severity = Severity::error;
    caution->rank = 0;
    caution->what += ", and their mean is worth less than " + by;
    caution->advice += " Or leave the reading out: the estimate then stands in for it.";
    return true;
  }

  /// The largest half-width, in steps of 0.5, with which a reading says as much as the estimate.
  static double largest_within(Reading taken, double estimate_sd) {
    constexpr double step = 0.5;
    taken.finding = std::floor(taken.finding / step) * step;
    while (taken.finding > step && reading_doubt(taken).u() > estimate_sd)
      taken.finding -= step;
    return taken.finding;
  }

  const FootOrder& foot_;
  const Order& order_;
  const std::string& name_;
  Findings findings_;
};

} // namespace

double range_probability(std::size_t count, double range) {
  if (!(range > 0)) return 0;
  // In double, like coverage_factor.
  using InDouble = boost::math::policies::policy<boost::math::policies::promote_double<false>>;
  const boost::math::normal_distribution<double, InDouble> normal;
  // Simpson's rule over ±9 standard deviations: the integrand and its slopes vanish at the ends.
  constexpr int steps = 720;
  constexpr double half_width = 9;
  const double h = 2 * half_width / steps;
  double sum = 0;
  for (int i = 1; i < steps; ++i) {
    const double x = -half_width + i * h;
    const double inside = cdf(normal, x + range) - cdf(normal, x);
    sum += (i % 2 == 1 ? 4 : 2) * pdf(normal, x) * std::pow(inside, static_cast<double>(count) - 1);
  }
  return std::min(1.0, static_cast<double>(count) * sum * h / 3);
}

double largest_range(std::size_t count) {
  if (count < 2) return 0;
  const auto off = [&](double range) {
    return range_probability(count, range) - (1 - repeats_level);
  };
  return bracketed_root(off, 1, 12).value();
}

std::optional<Contradiction> contradiction(const Reading& reading, double tape) {
  const std::vector<double>& values = reading.values;
  if (reading.estimated || values.size() < 2) return {};
  const auto [least, most] = std::minmax_element(values.begin(), values.end());
  const double taking = std::sqrt((tape * tape + reading.finding * reading.finding) / 3);
  // Most repeats lie close together: the quantile is worked out only where it may be passed.
  constexpr double quantile_of_two = 3.9;
  if (*most - *least <= quantile_of_two * taking) return {};
  const double allowed = largest_range(values.size()) * taking;
  if (*most - *least <= allowed) return {};
  Contradiction found{*least, *most, allowed, {}};
  if (values.size() > 2) {
    std::vector<double> sorted = values;
    std::sort(sorted.begin(), sorted.end());
    const double median = (sorted[(sorted.size() - 1) / 2] + sorted[sorted.size() / 2]) / 2;
    found.odd_one = median - *least > *most - median ? *least : *most;
  }
  return found;
}

Findings doubtful_readings(const FootOrder& foot, const Order& order, const std::string& name) {
  return DoubtfulReadings(foot, order, name).found();
}

} // namespace shankline
