#include "geometry/uncertainty/reading_doubt.hpp"

#include "geometry/order/reading_guide.hpp"

#include <cmath>
#include <numbers>
#include <utility>
#include <vector>

namespace shankline {
namespace {

/// σ0²: of one taking, expected.
double default_variance(double finding, double tape) {
  return (tape * tape + finding * finding) / 3;
}

} // namespace

double ReadingDoubt::fresh() const {
  return scatter / std::sqrt(repeats);
}
double ReadingDoubt::habit() const {
  return habit_of_finding * finding;
}
double ReadingDoubt::u() const {
  return std::hypot(fresh(), habit() / std::numbers::sqrt3);
}

ReadingDoubt reading_doubt(const Reading& reading, double tape) {
  if (reading.estimated) return {reading.estimate_sd, 1, known, 0};
  const double n = static_cast<double>(reading.values.size());
  const double mean = reading.value();
  double squares = 0; // (n − 1) s²
  for (const double value : reading.values)
    squares += (value - mean) * (value - mean);
  const double freedom = freedom_of_default + n - 1;
  const double pooled =
      (freedom_of_default * default_variance(reading.finding, tape) + squares) / freedom;
  return {std::sqrt(pooled), n, freedom, reading.finding};
}

Reading as_reading(double value, std::string_view key) {
  return measured(value, usual_finding(*reading_guide(key)));
}

ReadingDoubt taken_again(const ReadingDoubt& doubt, bool estimated, int more, double finding,
                         double tape) {
  if (!estimated) return {doubt.scatter, doubt.repeats + more, doubt.freedom + more, doubt.finding};
  return {std::sqrt(default_variance(finding, tape)), static_cast<double>(more),
          freedom_of_default + more - 1, finding};
}

ReadingInput add_reading(Inputs& inputs, const std::string& key, const std::string& kind,
                         const std::string& owner, double value, const ReadingDoubt& doubt) {
  const std::size_t fresh =
      inputs.add_source({owner + "." + key, doubt.fresh(), doubt.freedom, Shape::normal, false});
  std::vector<Share> shares{{fresh, 1}};
  std::optional<std::size_t> habit;
  // The habit as a fraction of each reading's half-width: readings of one kind that were found with
  // more doubt go with it further.
  if (doubt.habit() > 0) {
    habit = inputs.add_source(rectangular("habit of " + kind, 1, true));
    shares.push_back({*habit, doubt.habit()});
  }
  return {inputs.add(key, value, std::move(shares)), fresh, habit};
}

} // namespace shankline
