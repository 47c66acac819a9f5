#include "geometry/learning/answer_model.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace shankline {
namespace {

double normal_below(double z) {
  return 0.5 * std::erfc(-z / std::numbers::sqrt2);
}

double at(const LogPrior& prior, double xi) {
  return prior.sd > 0 ? prior.median * std::exp(prior.sd * xi) : prior.median;
}

double share_at(const LogPrior& prior, double xi) {
  if (!(prior.sd > 0)) return prior.median;
  const double logit = std::log(prior.median / (1 - prior.median)) + prior.sd * xi;
  return 1 / (1 + std::exp(-logit));
}

/// P' from P.
double spoilt(double p, bool good, double politeness, double slip) {
  return (1 - slip) * ((1 - politeness) * p + (good ? politeness : 0)) + slip / 3;
}

/// Weights of Lagrange's interpolation over the places −2 … 3 at `f` between 0 and 1.
std::array<double, 6> lagrange_weights(double f) {
  std::array<double, 6> weights{};
  for (std::size_t k = 0; k < weights.size(); ++k) {
    const int i = static_cast<int>(k) - 2;
    double weight = 1;
    for (int j = -2; j <= 3; ++j)
      if (j != i) weight *= (f - j) / (i - j);
    weights[k] = weight;
  }
  return weights;
}

} // namespace

HouseFigures figures_at(const LearningPriors& priors, const std::array<double, house_figures>& xi) {
  return {at(priors.width, xi[figure_width]), at(priors.noise, xi[figure_noise]),
          at(priors.dancers, xi[figure_dancers]), at(priors.drift, xi[figure_drift]),
          share_at(priors.politeness, xi[figure_politeness])};
}

double answer_probability(const HouseFigures& figures, double slip, Answer answer, double d) {
  const double low = normal_below((d - figures.width) / figures.noise);
  const double far = normal_below((-d - figures.width) / figures.noise);
  const bool good = answer == Answer::good;
  const double p = good ? 1 - low - far : answer == Answer::too_low ? low : far;
  return spoilt(p, good, figures.politeness, slip);
}

AnswerTable::AnswerTable(const HouseFigures& figures, double slip)
    : per_phase_(static_cast<std::size_t>(2 * reach / grid_step) + 1) {
  const std::size_t places = per_phase_ * phases;
  for (Row& row : rows_)
    row.values.resize(places);
  const auto low_at = [&](std::size_t i) {
    const double d = static_cast<double>(i) * (grid_step / phases) - reach;
    const double z = (d - figures.width) / figures.noise;
    return z > 9 ? 1.0 : normal_below(z); // 1 to the last bit
  };
  // P(cut too far) at d is P(too low) at −d. The last phase reaches a little beyond.
  std::vector<double> low(places);
  for (std::size_t i = 0; i < places; ++i)
    low[i] = low_at(i);
  const std::size_t mirror = (per_phase_ - 1) * phases; // −d of place i stands at mirror − i
  for (std::size_t i = 0; i < places; ++i) {
    const double far = i <= mirror ? low[mirror - i] : low[0];
    const std::size_t at = i % phases * per_phase_ + i / phases;
    rows_[0].values[at] = spoilt(low[i], false, figures.politeness, slip);
    rows_[1].values[at] = spoilt(1 - low[i] - far, true, figures.politeness, slip);
    rows_[2].values[at] = spoilt(far, false, figures.politeness, slip);
  }
}

void AnswerTable::multiply(GridValues& values, Answer answer, double first) const {
  constexpr double table_step = grid_step / phases;
  // Six table places around each grid place must exist.
  const double most = reach - grid_step * (grid_places + 1);
  const double from = (std::clamp(first, grid_step - reach, most) + reach) / table_step;
  const double whole = std::floor(from);
  const std::array<double, 6> weights = lagrange_weights(from - whole);
  const std::size_t base = static_cast<std::size_t>(whole) - 2;
  const std::vector<double>& table = rows_[static_cast<std::size_t>(answer)].values;
  std::array<const double*, 6> at{};
  for (std::size_t k = 0; k < 6; ++k)
    at[k] = table.data() + (base + k) % phases * per_phase_ + (base + k) / phases;
  for (std::size_t i = 0; i < grid_places; ++i)
    values[i] *= weights[0] * at[0][i] + weights[1] * at[1][i] + weights[2] * at[2][i] +
                 weights[3] * at[3][i] + weights[4] * at[4][i] + weights[5] * at[5][i];
}

} // namespace shankline
