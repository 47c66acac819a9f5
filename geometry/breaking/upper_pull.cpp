#include "geometry/breaking/upper_pull.hpp"

#include "geometry/order/figure.hpp"
#include "geometry/uncertainty/reading_doubt.hpp"

#include <boost/math/tools/minima.hpp>
#include <cmath>
#include <limits>
#include <optional>
#include <string>
#include <utility>

namespace shankline {
namespace {

/// Limits of the search: no upper pulls a hundred times as hard as the default, or a hundred times
/// less.
constexpr double most_times_default = 100;
/// Half the logarithm over which the slope of the gap is taken.
constexpr double slope_step = 0.05;

/// Returns the error for a travel that is not positive or exceeds `most`, the gap of the shoe
/// without any pull; mm.
Advice travel_too_far(double travel, double most) {
  const bool some = travel > 0;
  const double by = some ? travel - most : -travel;
  return {some ? "the sole cannot be pushed up by " + short_figure(travel) + ": that is " +
                     short_figure(by) + " more than the gap under the arch"
               : "a travel of " + short_figure(travel) + " is not above 0",
          "above 0, up to " + short_figure(most),
          "Standing on pointe in the uncut shoe, push the sole up to the arch with a thumb, and "
          "measure how far it goes; check the arch depth and the board's stiffness."};
}

/// The largest gap of the uncut shoe under an even pull; no number, and `fault`, without a
/// solution.
class UncutGap {
public:
  UncutGap(const ContactProblem& uncut, const ContactOptions& options)
      : problem_(uncut), options_(options) {}

  double at(double pull) {
    problem_.pull = even_pull(pull, problem_.clamp, problem_.heel_front);
    ContactResult result = solve_contact(problem_, options_, near_ ? &*near_ : nullptr);
    if (!result.solution) {
      fault = result.verdict.fault.empty() ? "the contact was not found" : result.verdict.fault;
      return std::numeric_limits<double>::quiet_NaN();
    }
    near_ = std::move(result.solution);
    return near_->figures.gap;
  }

  std::string fault;

private:
  ContactProblem problem_;
  const ContactOptions& options_;
  std::optional<ContactSolution> near_;
};

} // namespace

Result<BenchFigure> pull_from_travel(const ContactProblem& uncut, double travel, double travel_u,
                                     const ContactOptions& options) {
  UncutGap gap(uncut, options);
  const double most = gap.at(0) + 2 * travel_u;
  if (!gap.fault.empty()) return Advice{gap.fault};
  if (!(travel > 0) || travel > most) return travel_too_far(travel, most);

  const double usual_sd = log_sd(default_pull_sd);
  const auto gap_of = [&](double logarithm) { return gap.at(default_pull * std::exp(logarithm)); };
  const auto unlikely = [&](double logarithm) {
    const double usual = logarithm / usual_sd;
    const double seen = (gap_of(logarithm) - travel) / travel_u;
    return usual * usual + seen * seen;
  };
  const double farthest = std::log(most_times_default);
  const double likeliest =
      boost::math::tools::brent_find_minima(unlikely, -farthest, farthest,
                                            std::numeric_limits<double>::digits / 2)
          .first;
  const double slope =
      (gap_of(likeliest + slope_step) - gap_of(likeliest - slope_step)) / (2 * slope_step);
  if (!gap.fault.empty()) return Advice{gap.fault};
  const double left = 1 / std::hypot(1 / usual_sd, slope / travel_u);
  return BenchFigure{default_pull * std::exp(likeliest), relative_sd(left),
                     "default and travel in the uncut shoe"};
}

Result<BenchFigure> upper_pull(const Pull& pull, const ContactProblem& uncut,
                               const ContactOptions& options) {
  if (const auto* force = std::get_if<PullForce>(&pull)) {
    if (auto fault = beyond_any("pull", force->per_length)) return *std::move(fault);
    return BenchFigure{force->per_length, given_sd, "as given"};
  }
  if (const auto* seen = std::get_if<Travel>(&pull))
    return pull_from_travel(uncut, seen->travel,
                            reading_doubt(as_reading(seen->travel, "pull.travel")).u(), options);
  return BenchFigure{default_pull, default_pull_sd, "default, from memory"};
}

} // namespace shankline
