#include "geometry/order/foot_estimates.hpp"

#include "geometry/order/figure.hpp"
#include "geometry/order/reading_guide.hpp"

#include <algorithm>
#include <array>
#include <span>
#include <string>

namespace shankline {
namespace {

// ANSUR II, Gordon et al. 2014, NATICK/TR-15/007 (2012 survey, public release): least squares on
// foot length and percentiles of the ratio to foot length, worked out from the published data.
constexpr std::array women{
    FootRegression{"ball_length", 0.728574, 2.6086, 3.2992, 0.7070, 0.7712},
    FootRegression{"ball_width", 0.213371, 40.1601, 3.9767, 0.3359, 0.4206},
    FootRegression{"heel_width", 0.213719, 14.5251, 4.4387, 0.2335, 0.3182},
    FootRegression{"ankle_height", 0.127202, 31.4193, 4.8586, 0.2088, 0.3027},
    FootRegression{"ankle_girth", 0.512962, 89.4008, 13.4597, 0.7613, 1.0381},
};
constexpr std::array men{
    FootRegression{"ball_length", 0.739276, 0.4594, 3.9771, 0.7044, 0.7744},
    FootRegression{"ball_width", 0.235152, 38.0911, 4.2317, 0.3379, 0.4194},
    FootRegression{"heel_width", 0.201947, 17.7419, 4.7925, 0.2268, 0.3125},
    FootRegression{"ankle_height", 0.143878, 33.8879, 5.3448, 0.2241, 0.3191},
    FootRegression{"ankle_girth", 0.546817, 81.0591, 12.7790, 0.7358, 0.9684},
};

// An ordinary dancer's foot of 238 has its heel front at 61, and the box's stiff flank ends at 158
// (mm; common practice, from memory).
constexpr double heel_front_ratio = 61.0 / 238.0;
constexpr double heel_front_sd = 5;
constexpr double wing_ratio = 158.0 / 238.0;
// 1st and 99th percentile of the survey's foot lengths, mm (ANSUR II), and by how much an estimate
// widens outside them (from memory).
constexpr UsualRange womens_lengths{219, 276};
constexpr UsualRange mens_lengths{242, 302};
constexpr double widened = 2;
constexpr double usual_fold = 6;
constexpr double fold_sd = 3;

std::span<const FootRegression> regressions(Population population) {
  return population == Population::women ? std::span<const FootRegression>(women) : men;
}

std::string mm(double value) {
  return figure(value, 0);
}

Finding caution(Key key, std::string what, std::string allowed, std::string advice) {
  return {Severity::caution, std::move(key), std::move(what), std::move(allowed),
          std::move(advice)};
}

Reading widened_outside(Population population, double foot_length, double value, double sd,
                        std::string source) {
  if (inside_survey(population, foot_length)) return estimate(value, sd, std::move(source));
  return estimate(value, widened * sd, source + ", outside their usual range: spread doubled");
}

} // namespace

bool inside_survey(Population population, double foot_length) {
  const UsualRange& range = population == Population::women ? womens_lengths : mens_lengths;
  return range.holds(foot_length);
}

const FootRegression* foot_regression(Population population, std::string_view key) {
  const std::span<const FootRegression> table = regressions(population);
  const auto row = std::find_if(table.begin(), table.end(),
                                [key](const FootRegression& r) { return r.key == key; });
  return row == table.end() ? nullptr : &*row;
}

std::optional<UsualRange> usual_range(Population population, std::string_view key,
                                      std::optional<double> foot_length) {
  const auto around = [](const Reading& guess) {
    return UsualRange{std::max(0.0, guess.value() - 2 * guess.estimate_sd),
                      guess.value() + 2 * guess.estimate_sd};
  };
  if (key == "length") return UsualRange{likely_foot_least, likely_foot_most};
  if (key == "fold") return around(estimated_fold());
  if (key == "board.inset") return usual_insets;
  if (!foot_length) return {};
  if (key == "heel_front") return around(estimated_heel_front(population, *foot_length));
  const FootRegression* row = foot_regression(population, key);
  if (!row) return {};
  return UsualRange{row->ratio_p1 * *foot_length, row->ratio_p99 * *foot_length};
}

std::string in_centimetres_words(const UsualRange& usual, double value) {
  return usual.holds(10 * value)
             ? "If this is in centimetres, write " + short_figure(value, 2) + " cm. "
             : std::string();
}

Reading estimated_by_length(Population population, std::string_view key, double foot_length) {
  const FootRegression& row = *foot_regression(population, key);
  return widened_outside(population, foot_length, row.slope * foot_length + row.intercept, row.sd,
                         population == Population::women ? "foot length, 1,986 measured women"
                                                         : "foot length, 4,082 measured men");
}

Reading estimated_ball_length(Population population, double foot_length) {
  return estimated_by_length(population, "ball_length", foot_length);
}

Reading estimated_heel_front(Population population, double foot_length) {
  return widened_outside(population, foot_length, heel_front_ratio * foot_length, heel_front_sd,
                         "foot length, a rule of thumb");
}

Reading estimated_fold() {
  return estimate(usual_fold, fold_sd, "common practice");
}

double default_wing_station(double foot_length) {
  return wing_ratio * foot_length;
}

Findings unlikely_readings(const Foot& foot, Population population, const std::string& path) {
  Findings cautions;
  if (!foot.length) return cautions;
  const double length = foot.length->value();
  if (length < likely_foot_least || length > likely_foot_most)
    cautions.push_back(
        caution(path + ".length", "a foot length of " + mm(length) + " mm is unusual",
                "most dancers: " + mm(likely_foot_least) + " to " + mm(likely_foot_most) + " mm",
                "Measure once more, standing."));
  for (const FootRegression& row : regressions(population)) {
    const std::optional<Reading>& reading = reading_guide(row.key)->in_foot.of(foot);
    if (!reading) continue;
    const double value = reading->value();
    if (value >= row.ratio_p1 * length && value <= row.ratio_p99 * length) continue;
    cautions.push_back(caution(path + "." + std::string(row.key),
                               mm(value) + " mm is unusual for a foot of " + mm(length) + " mm",
                               "98 of 100 measured adults: " + mm(row.ratio_p1 * length) + " to " +
                                   mm(row.ratio_p99 * length) + " mm",
                               "Measure once more."));
  }
  return cautions;
}

} // namespace shankline
