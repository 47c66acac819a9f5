#include "geometry/learning/foot_filter.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace shankline {
namespace {

constexpr std::size_t half_grid = grid_places / 2;

double place_at(const FilterFoot& foot, std::size_t i) {
  return foot.centre + (static_cast<double>(i) - static_cast<double>(half_grid)) * grid_step;
}

/// e^(−v) I_n(v) for n = 0 … grid_places − 1 by Miller's backward recurrence,
/// I_(n−1) = I_(n+1) + (2n/v) I_n, scaled so that the whole kernel adds up to 1.
std::array<double, grid_places> discrete_gaussian(double v) {
  std::array<double, grid_places> weights{};
  if (v < 1e-12) {
    weights[0] = 1;
    return weights;
  }
  // Beyond this order the kernel is below 1e-17 of its middle, so that starting from nothing there
  // is exact to rounding.
  const int start = static_cast<int>(20 + 10 * std::sqrt(v)) + static_cast<int>(grid_places);
  double above = 0, here = 1e-280, sum = 0;
  for (int n = start; n >= 0; --n) {
    if (n < static_cast<int>(grid_places)) weights[static_cast<std::size_t>(n)] = here;
    sum += n == 0 ? here : 2 * here;
    const double below = n == 0 ? 0 : above + 2 * n / v * here;
    above = std::exchange(here, below);
    if (here > 1e200) {
      for (double* value : {&here, &above, &sum})
        *value *= 1e-200;
      for (double& weight : weights)
        weight *= 1e-200;
    }
  }
  for (double& weight : weights)
    weight /= sum;
  return weights;
}

/// The grid as a part of a circle, so that kernels can be taken apart into waves. Whatever goes
/// round the circle comes back 76 steps away at least, where a kernel of waves is below 1e-11 of
/// its middle.
constexpr std::size_t circle = 176;
constexpr std::size_t wave_count = 24;
constexpr std::size_t folded = half_grid + 1;
constexpr double least_variance_of_waves = 80; // in steps
constexpr double most_variance_of_waves = 118;

double wave_step(std::size_t k) {
  return 2 * std::numbers::pi * static_cast<double>(k) / circle;
}

/// cos and sin of wave k at n steps from the middle of the grid, in both orders of the indices:
/// every inner loop runs over neighbours.
struct Waves {
  std::array<std::array<double, wave_count>, folded> cosines_at, sines_at;
  std::array<std::array<double, folded + 1>, wave_count> cosines_of, sines_of;

  Waves() : cosines_at{}, sines_at{}, cosines_of{}, sines_of{} {
    for (std::size_t n = 0; n < folded; ++n) {
      for (std::size_t k = 0; k < wave_count; ++k) {
        const double angle = wave_step(k) * static_cast<double>(n);
        cosines_at[n][k] = cosines_of[k][n] = std::cos(angle);
        sines_at[n][k] = sines_of[k][n] = std::sin(angle);
      }
    }
  }
};

/// Adds to `sum` what the waves' weights make of the values.
void add_waves(GridValues& sum, const GridValues& values, const std::vector<double>& weights) {
  static const Waves waves;
  std::array<double, wave_count> even{}, odd{};
  for (std::size_t n = 0; n < folded; ++n) {
    const double after = values[half_grid + n], before = n > 0 ? values[half_grid - n] : 0;
    for (std::size_t k = 0; k < wave_count; ++k)
      even[k] += waves.cosines_at[n][k] * (after + before);
    for (std::size_t k = 0; k < wave_count; ++k)
      odd[k] += waves.sines_at[n][k] * (after - before);
  }
  std::array<double, folded + 1> even_sum{}, odd_sum{};
  for (std::size_t k = 0; k < wave_count; ++k) {
    const double by_even = weights[k] * even[k], by_odd = weights[k] * odd[k];
    for (std::size_t n = 0; n < folded + 1; ++n)
      even_sum[n] += by_even * waves.cosines_of[k][n];
    for (std::size_t n = 0; n < folded + 1; ++n)
      odd_sum[n] += by_odd * waves.sines_of[k][n];
  }
  // Rounding can make weights that should be 0 slightly negative.
  for (std::size_t n = 0; n < folded; ++n) {
    sum[half_grid + n] += std::max(even_sum[n] + odd_sum[n], 0.0);
    if (n > 0) sum[half_grid - n] += std::max(even_sum[n] - odd_sum[n], 0.0);
  }
}

double sum_of(const GridValues& values) {
  double sum = 0;
  for (const double value : values)
    sum += value;
  return sum;
}

void scale(GridValues& values, double factor) {
  for (double& value : values)
    value *= factor;
}

void multiply(GridValues& values, const GridValues& by) {
  for (std::size_t i = 0; i < grid_places; ++i)
    values[i] *= by[i];
}

GridValues prior_density(const FilterFoot& foot, const FilterPrior& prior) {
  const double variance = foot.base_variance + prior.dancers * prior.dancers;
  GridValues density;
  for (std::size_t i = 0; i < grid_places; ++i) {
    const double off = place_at(foot, i) - foot.centre - prior.shift;
    density[i] = std::exp(-0.5 * off * off / variance);
  }
  scale(density, 1 / sum_of(density));
  return density;
}

/// P(the shoe's answers | t), the shoe's own shift averaged out.
GridValues answers_of(const FilterFoot& foot, const FilterShoe& shoe, const FilterTables& tables,
                      double offset) {
  GridValues values;
  values.fill(1);
  for (const FilterTrial& trial : shoe.trials)
    tables.answers().multiply(values, trial.answer, place_at(foot, 0) + offset - trial.board_end);
  return tables.shoe(shoe.variance).spread(values);
}

} // namespace

GridKernel GridKernel::gaussian(double variance) {
  GridKernel kernel;
  kernel.variance_ = variance;
  const double in_steps = variance / (grid_step * grid_step);
  if (in_steps >= least_variance_of_waves && in_steps <= most_variance_of_waves) {
    kernel.half_ = {0};
    for (std::size_t k = 0; k < wave_count; ++k)
      kernel.waves_.push_back((k > 0 ? 2.0 : 1.0) / circle *
                              std::exp(-in_steps * (1 - std::cos(wave_step(k)))));
    return kernel;
  }
  const auto weights = discrete_gaussian(in_steps);
  kernel.half_.assign(weights.begin(), weights.end());
  while (kernel.half_.size() > 1 && kernel.half_.back() < 1e-14)
    kernel.half_.pop_back();
  return kernel;
}

GridKernel GridKernel::mixed(const GridKernel& a, const GridKernel& b, double share) {
  const auto mix = [share](const std::vector<double>& x, const std::vector<double>& y) {
    std::vector<double> result(std::max(x.size(), y.size()));
    for (std::size_t n = 0; n < x.size(); ++n)
      result[n] += (1 - share) * x[n];
    for (std::size_t n = 0; n < y.size(); ++n)
      result[n] += share * y[n];
    return result;
  };
  GridKernel kernel;
  kernel.half_ = mix(a.half_, b.half_);
  kernel.waves_ = mix(a.waves_, b.waves_);
  kernel.variance_ = (1 - share) * a.variance_ + share * b.variance_;
  return kernel;
}

GridValues GridKernel::spread(const GridValues& values) const {
  // Zeros on either side give every inner loop one length, a multiple of four, which compilers
  // vectorize. The order of additions is the same with and without.
  constexpr std::size_t length = (grid_places + 3) / 4 * 4;
  std::array<double, 2 * grid_places + length> padded{};
  std::ranges::copy(values, padded.begin() + grid_places);
  std::array<double, length> sum;
  for (std::size_t i = 0; i < length; ++i)
    // cppcheck-suppress containerOutOfBounds ; it takes the array for one of two values
    sum[i] = half_[0] * padded[grid_places + i];
  for (std::size_t n = 1; n < half_.size(); ++n) {
    const double weight = half_[n];
    const double* before = padded.data() + (grid_places - n);
    const double* after = padded.data() + (grid_places + n);
    for (std::size_t i = 0; i < length; ++i)
      sum[i] += weight * (before[i] + after[i]);
  }
  GridValues result;
  std::copy_n(sum.begin(), grid_places, result.begin());
  if (!waves_.empty()) add_waves(result, values, waves_);
  return result;
}

FilterTables::FilterTables(std::shared_ptr<const AnswerTable> answers, double drift,
                           const LearningPriors& priors)
    : answers_(std::move(answers)), drift_(drift), jump_probability_(priors.jump_probability),
      jump_(GridKernel::gaussian(priors.jump_sd * priors.jump_sd)) {}

const GridKernel& FilterTables::step(double steps) const {
  const auto found = steps_.find(steps);
  if (found != steps_.end()) return found->second;
  GridKernel kernel = GridKernel::gaussian(steps * drift_ * drift_);
  if (jump_probability_ > 0) kernel = GridKernel::mixed(kernel, jump_, jump_probability_);
  return steps_.emplace(steps, std::move(kernel)).first->second;
}

const GridKernel& FilterTables::shoe(double variance) const {
  const auto found = shoes_.find(variance);
  if (found != shoes_.end()) return found->second;
  return shoes_.emplace(variance, GridKernel::gaussian(variance)).first->second;
}

FilterMessage message_of_trials(const FilterFoot& foot, const FilterTables& tables,
                                const std::vector<double>& offsets) {
  FilterMessage message{{}, 0};
  message.values.fill(1);
  for (std::size_t k = foot.shoes.size(); k-- > 0;) {
    const FilterShoe& shoe = foot.shoes[k];
    multiply(message.values, answers_of(foot, shoe, tables, offsets[shoe.style]));
    // Hundreds of trials would leave the range of a double.
    const double most = *std::ranges::max_element(message.values);
    scale(message.values, 1 / most);
    message.log_scale += std::log(most);
    if (k > 0) message.values = tables.step(shoe.steps).spread(message.values);
  }
  return message;
}

double log_likelihood(const FilterFoot& foot, const FilterPrior& prior,
                      const FilterMessage& message) {
  if (foot.shoes.empty()) return 0;
  GridValues joint = prior_density(foot, prior);
  multiply(joint, message.values);
  return std::log(sum_of(joint)) + message.log_scale;
}

FilterBelief belief_after(const FilterFoot& foot, const FilterPrior& prior,
                          const FilterTables& tables, const std::vector<double>& offsets,
                          double steps_to_next) {
  GridValues belief = prior_density(foot, prior);
  // The parts of the belief that jumped before the last pair, and before the last but one.
  GridValues jumped{}, jumped_earlier{};
  for (std::size_t k = 0; k < foot.shoes.size(); ++k) {
    const FilterShoe& shoe = foot.shoes[k];
    const GridValues answers = answers_of(foot, shoe, tables, offsets[shoe.style]);
    if (k > 0 && k + 2 >= foot.shoes.size() && tables.jump_probability() > 0) {
      if (k + 1 == foot.shoes.size()) jumped_earlier = tables.step(shoe.steps).spread(jumped);
      jumped = tables.jump().spread(belief);
      scale(jumped, tables.jump_probability());
    }
    if (k > 0) belief = tables.step(shoe.steps).spread(belief);
    for (GridValues* values : {&belief, &jumped, &jumped_earlier})
      multiply(*values, answers);
    const double all = sum_of(belief);
    for (GridValues* values : {&belief, &jumped, &jumped_earlier})
      scale(*values, 1 / all);
  }
  double mean = 0, variance = 0;
  for (std::size_t i = 0; i < grid_places; ++i)
    mean += belief[i] * place_at(foot, i);
  for (std::size_t i = 0; i < grid_places; ++i)
    variance += belief[i] * (place_at(foot, i) - mean) * (place_at(foot, i) - mean);
  if (!foot.shoes.empty()) variance += tables.step(steps_to_next).variance();
  return {mean, variance, sum_of(jumped), sum_of(jumped_earlier)};
}

} // namespace shankline
