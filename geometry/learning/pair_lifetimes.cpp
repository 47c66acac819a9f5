#include "geometry/learning/pair_lifetimes.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace shankline {
namespace {

/// ln likelihood of the pairs at (μ, η = ln s), with derivatives. With z = (ln t − μ)/s a pair that
/// ended adds z − e^z − η (less the constant ln t), any other −e^z.
struct LifeLikelihood {
  double value = 0;
  double d_mu = 0, d_eta = 0;
  double d_mu_mu = 0, d_mu_eta = 0, d_eta_eta = 0;

  LifeLikelihood(std::span<const PairLife> pairs, double mu, double eta) {
    const double s = std::exp(eta);
    for (const PairLife& pair : pairs) {
      const double z = (std::log(pair.hours) - mu) / s, e = std::exp(z);
      const double ended = pair.ended ? 1 : 0;
      value += ended * (z - eta) - e;
      d_mu += (e - ended) / s;
      d_eta += z * (e - ended) - ended;
      d_mu_mu -= e / (s * s);
      d_mu_eta -= (z * e + e - ended) / s;
      d_eta_eta -= z * (z * e + e - ended);
    }
  }
  double determinant() const { return d_mu_mu * d_eta_eta - d_mu_eta * d_mu_eta; }
};

bool can_be_fitted(std::span<const PairLife> pairs) {
  std::set<double> ended;
  for (const PairLife& pair : pairs) {
    if (!std::isfinite(pair.hours) || !(pair.hours > 0)) return false;
    if (pair.ended) ended.insert(pair.hours);
  }
  return ended.size() >= 2;
}

/// Returns the best μ for a known shape: μ̂ = s ln(Σ t^(1/s) / d), with d the pairs that ended.
double best_scale(std::span<const PairLife> pairs, double eta) {
  const double s = std::exp(eta);
  double most = 0; // keeps the powers in range
  for (const PairLife& pair : pairs)
    most = std::max(most, pair.hours);
  double sum = 0, ended = 0;
  for (const PairLife& pair : pairs) {
    sum += std::exp(std::log(pair.hours / most) / s);
    ended += pair.ended ? 1 : 0;
  }
  return std::log(most) + s * std::log(sum / ended);
}

std::optional<double> first_below_half(std::span<const SurvivalStep> steps, double of_log_se) {
  for (const SurvivalStep& step : steps)
    // Below the last pair's end nothing is left, and its standard error is infinite.
    if (step.share <= 0.5 || std::log(step.share) - of_log_se * step.log_se <= std::log(0.5))
      return step.hours;
  return {};
}

} // namespace

double WeibullLife::quantile(double share) const {
  return std::exp(log_scale_hours + std::exp(log_shape) * std::log(-std::log1p(-share)));
}
double WeibullLife::survival(double hours) const {
  return std::exp(-std::exp((std::log(hours) - log_scale_hours) / std::exp(log_shape)));
}

std::optional<WeibullLife> fit_lifetimes(std::span<const PairLife> pairs) {
  if (!can_be_fitted(pairs)) return {};
  // Along the best scale for each shape the likelihood has one top; Newton's steps are held to 1
  // and halved where it would fall.
  double eta = 0, mu = best_scale(pairs, eta);
  for (int round = 0; round < 100; ++round) {
    const LifeLikelihood here(pairs, mu, eta);
    // Second derivative along the ridge; positive where the ridge is not yet bent downwards.
    const double bent = here.d_eta_eta - here.d_mu_eta * here.d_mu_eta / here.d_mu_mu;
    const double slope = here.d_eta; // d_mu is 0 on the ridge
    double step = std::clamp(bent < 0 ? -slope / bent : std::copysign(1.0, slope), -1.0, 1.0);
    double next = eta + step;
    while (std::abs(step) > 1e-13 &&
           LifeLikelihood(pairs, best_scale(pairs, next), next).value < here.value) {
      step /= 2;
      next = eta + step;
    }
    eta = next;
    mu = best_scale(pairs, eta);
    if (std::abs(step) < 1e-12) break;
  }
  const LifeLikelihood top(pairs, mu, eta);
  const double determinant = top.determinant();
  if (!(determinant > 0) || !std::isfinite(mu)) return {};
  return WeibullLife{mu, std::sqrt(-top.d_eta_eta / determinant), eta,
                     std::sqrt(-top.d_mu_mu / determinant)};
}

std::vector<SurvivalStep> survival_steps(std::span<const PairLife> pairs) {
  std::vector<PairLife> sorted(pairs.begin(), pairs.end());
  std::ranges::sort(sorted, {}, &PairLife::hours);
  std::vector<SurvivalStep> steps;
  double share = 1, greenwood = 0;
  for (std::size_t i = 0; i < sorted.size();) {
    const double hours = sorted[i].hours;
    const double at_risk = static_cast<double>(sorted.size() - i);
    double ended = 0;
    for (; i < sorted.size() && sorted[i].hours == hours; ++i)
      ended += sorted[i].ended ? 1 : 0;
    if (ended == 0) continue;
    share *= 1 - ended / at_risk;
    greenwood += ended / (at_risk * (at_risk - ended));
    steps.push_back({hours, share, std::sqrt(greenwood)});
  }
  return steps;
}

std::optional<double> median_life(std::span<const SurvivalStep> steps) {
  return first_below_half(steps, 0);
}
std::optional<double> median_life_at_least(std::span<const SurvivalStep> steps) {
  return first_below_half(steps, 1.959963984540054);
}

std::vector<DancerLife>
dancers_lives(const WeibullLife& house,
              std::span<const std::pair<std::string, std::vector<PairLife>>> dancers,
              double spread) {
  std::vector<DancerLife> result;
  for (const auto& [code, pairs] : dancers) {
    DancerLife dancer{code, house, false,
                      static_cast<int>(std::ranges::count(pairs, true, &PairLife::ended))};
    if (dancer.ended >= ended_pairs_for_own_scale) {
      const double s = std::exp(house.log_shape);
      const double own = best_scale(pairs, house.log_shape), own_variance = s * s / dancer.ended;
      const double weight = spread * spread / (spread * spread + own_variance);
      dancer.own_scale = true;
      dancer.life.log_scale_hours += weight * (own - house.log_scale_hours);
      dancer.life.log_scale_se =
          std::sqrt(weight * own_variance +
                    (1 - weight) * (1 - weight) * house.log_scale_se * house.log_scale_se);
    }
    result.push_back(std::move(dancer));
  }
  return result;
}

} // namespace shankline
