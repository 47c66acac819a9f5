#include "geometry/uncertainty/monte_carlo.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <random>
#include <span>
#include <stdexcept>
#include <vector>

namespace shankline {
namespace {

class Dice {
public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}

  /// Mean 0, standard deviation (of Student's t: scale) u.
  double deviation(const Source& source) {
    if (source.shape == Shape::rectangular)
      return source.u * std::numbers::sqrt3 * (2 * uniform() - 1);
    return source.u * student(source.freedom);
  }

private:
  /// Inside (0, 1): neither end comes up.
  double uniform() {
    constexpr double step = 1.0 / 4503599627370496.0; // 2⁻⁵²
    return (static_cast<double>(engine_() >> 12U) + 0.5) * step;
  }

  /// Bailey's polar way to Student's t (Math. Comp. 62 (1994) 779–781, from memory); without end of
  /// the degrees of freedom it is Box and Muller's to the normal distribution.
  double student(double freedom) {
    const double log = std::log(uniform());
    const double square = std::isinf(freedom) ? -2 * log : freedom * std::expm1(-2 * log / freedom);
    return std::sqrt(square) * std::cos(2 * std::numbers::pi * uniform());
  }

  std::mt19937_64 engine_;
};

/// One value of each input after the other, as their sources scatter.
class DrawnInputs {
public:
  DrawnInputs(const Inputs& inputs, std::uint64_t seed)
      : inputs_(inputs), dice_(seed), deviation_(inputs.sources().size()),
        at_(inputs.inputs().size()) {}

  std::span<const double> next() {
    for (std::size_t s = 0; s < deviation_.size(); ++s)
      deviation_[s] = dice_.deviation(inputs_.sources()[s]);
    for (std::size_t i = 0; i < at_.size(); ++i) {
      const Input& input = inputs_.inputs()[i];
      at_[i] = input.value;
      for (const Share& share : input.shares)
        at_[i] += share.factor * deviation_[share.source];
    }
    return at_;
  }

private:
  const Inputs& inputs_;
  Dice dice_;
  std::vector<double> deviation_;
  std::vector<double> at_;
};

struct Ends {
  double low;
  double high;
};

/// The shortest interval that holds `held` steps from draw to draw, in order of size.
Ends shortest(std::vector<double>& draws, std::size_t held) {
  const std::size_t tail = draws.size() - held;
  if (2 * tail >= draws.size()) {
    std::sort(draws.begin(), draws.end());
  } else {
    // Only the tails are looked at.
    const auto below = draws.begin() + static_cast<std::ptrdiff_t>(tail);
    const auto above = draws.end() - static_cast<std::ptrdiff_t>(tail);
    std::nth_element(draws.begin(), below, draws.end());
    std::nth_element(below, above, draws.end());
    std::sort(draws.begin(), below);
    std::sort(above, draws.end());
  }
  std::size_t best = 0;
  for (std::size_t r = 1; r + held < draws.size(); ++r)
    if (draws[r + held] - draws[r] < draws[best + held] - draws[best]) best = r;
  return {draws[best], draws[best + held]};
}

/// The interval that holds as many steps with as many draws to either side.
Ends equal_tails(std::vector<double>& draws, std::size_t held) {
  const auto low = draws.begin() + static_cast<std::ptrdiff_t>((draws.size() - held) / 2);
  const auto high = low + static_cast<std::ptrdiff_t>(held);
  std::nth_element(draws.begin(), low, draws.end());
  const double at_low = *low; // the next step moves it
  std::nth_element(low, high, draws.end());
  return {at_low, *high};
}

/// Mean, u, low and high of some draws.
using Figures = std::array<double, 4>;

Figures figures(std::vector<double>& draws, const SamplingPlan& plan) {
  double sum = 0;
  for (const double y : draws)
    sum += y;
  const double n = static_cast<double>(draws.size());
  const double mean = sum / n;
  double squares = 0;
  for (const double y : draws)
    squares += (y - mean) * (y - mean);

  const std::size_t held =
      std::min(static_cast<std::size_t>(std::lround(plan.p * n)), draws.size() - 1);
  const Ends ends =
      plan.interval == IntervalKind::shortest ? shortest(draws, held) : equal_tails(draws, held);
  return {mean, std::sqrt(squares / (n - 1)), ends.low, ends.high};
}

/// Running mean and spread of each figure over the blocks.
class BlockSpread {
public:
  void add(const Figures& block) {
    ++blocks_;
    for (std::size_t i = 0; i < block.size(); ++i) {
      const double off = block[i] - mean_[i];
      mean_[i] += off / blocks_;
      squares_[i] += off * (block[i] - mean_[i]);
    }
  }
  double mean_u() const { return mean_[1]; }
  /// Twice the standard error of every mean lies below `tolerance`.
  bool settled(double tolerance) const {
    if (blocks_ < 2) return false;
    return std::all_of(squares_.begin(), squares_.end(), [&](double sum) {
      return 2 * std::sqrt(sum / (blocks_ * (blocks_ - 1))) < tolerance;
    });
  }

private:
  double blocks_ = 0;
  Figures mean_{};
  Figures squares_{};
};

} // namespace

double numerical_tolerance(double u, int digits) {
  if (!(u > 0)) return 0;
  // Rounding may carry: 9.96 to two digits is 10, whose last digit is 1.
  const auto last_digit = [&](double x) {
    return std::pow(10.0, std::floor(std::log10(x)) - (digits - 1));
  };
  const double rounded = std::round(u / last_digit(u)) * last_digit(u);
  return last_digit(rounded * (1 + 1e-12)) / 2;
}

std::vector<double> upper_limits(const Inputs& inputs, const Measurands& function,
                                 std::size_t results, std::size_t draws, double p,
                                 std::uint64_t seed) {
  if (draws == 0) throw std::invalid_argument("a limit needs draws");
  DrawnInputs drawn(inputs, seed);
  std::vector<std::vector<double>> all(results);
  std::vector<double> one(results);
  for (std::size_t i = 0; i < draws; ++i) {
    function(drawn.next(), one);
    for (std::size_t k = 0; k < results; ++k)
      all[k].push_back(std::isfinite(one[k]) ? one[k] : std::numeric_limits<double>::infinity());
  }
  const double rank = std::ceil(p * static_cast<double>(draws + 1));
  const std::size_t place = std::min(static_cast<std::size_t>(rank), draws) - 1;
  std::vector<double> limits;
  for (std::vector<double>& values : all) {
    std::sort(values.begin(), values.end());
    limits.push_back(values[place]);
  }
  return limits;
}

Sampled sample(const Inputs& inputs, const Measurand& function, const SamplingPlan& plan) {
  if (plan.block < 2 || static_cast<double>(plan.block) * (1 - plan.p) < 100 * (1 - 1e-9))
    throw std::invalid_argument("a block of draws needs 100/(1 - p) of them");
  DrawnInputs drawn(inputs, plan.seed);
  const auto draw = [&] { return function(drawn.next()); };

  std::vector<double> all;
  std::vector<double> block(plan.block);
  BlockSpread spread;
  bool settled = false;
  while (!settled && all.size() + plan.block <= plan.most) {
    std::generate(block.begin(), block.end(), draw);
    all.insert(all.end(), block.begin(), block.end());
    spread.add(figures(block, plan));
    const double tolerance = numerical_tolerance(spread.mean_u(), plan.digits);
    settled = tolerance == 0 || spread.settled(tolerance);
  }
  if (all.empty()) return {};
  const std::size_t draws = all.size();
  const auto [mean, u, low, high] = figures(all, plan);
  return {mean, u, low, high, draws, settled};
}

} // namespace shankline
