#include "geometry/learning/house_fit.hpp"

#include "geometry/learning/house_coordinates.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <map>
#include <memory>
#include <optional>
#include <utility>

namespace shankline {
namespace {

constexpr double place_difference = 0.4;  // mm, of shifts and offsets
constexpr double figure_difference = 0.1; // of the figures, in xi
constexpr double longest_step = 3;        // of Newton, in xi
constexpr double least_eigenvalue = 0.5;
constexpr double settled = 3e-4; // in xi; Newton's method squares what is left
constexpr int most_rounds = 50;
constexpr std::size_t feet_to_begin_with = 25;

/// -1, 0 or 1 difference along each of the figures.
using FigureMoves = std::array<int, house_figures>;

/// The filter's tables about one point, made as they are asked for and shared by all feet.
class TablesAbout {
public:
  TablesAbout(const LearningPriors& priors, const std::array<double, house_figures>& xi)
      : priors_(priors), xi_(xi) {}

  HouseFigures figures(const FigureMoves& moves) const {
    std::array<double, house_figures> xi = xi_;
    for (std::size_t k = 0; k < house_figures; ++k)
      xi[k] += moves[k] * figure_difference;
    return figures_at(priors_, xi);
  }

  const std::array<double, house_figures>& xi() const { return xi_; }

  const FilterTables& tables(FigureMoves moves) {
    moves[figure_dancers] = 0; // stands in the prior only
    const auto found = tables_.find(moves);
    if (found != tables_.end()) return found->second;
    const double drift = figures(moves).drift;
    return tables_.try_emplace(moves, answers(moves), drift, priors_).first->second;
  }

private:
  std::shared_ptr<const AnswerTable> answers(FigureMoves moves) {
    moves[figure_drift] = 0;
    auto& table = answers_[moves];
    if (!table) table = std::make_shared<AnswerTable>(figures(moves), priors_.slip);
    return table;
  }

  const LearningPriors& priors_;
  std::array<double, house_figures> xi_;
  std::map<FigureMoves, std::shared_ptr<const AnswerTable>> answers_;
  std::map<FigureMoves, FilterTables> tables_;
};

std::array<double, house_figures> figures_of(const std::vector<double>& xi) {
  std::array<double, house_figures> result{};
  std::copy_n(xi.end() - house_figures, house_figures, result.begin());
  return result;
}

/// A function's value and derivatives.
struct Derivatives {
  double value = 0;
  std::vector<double> gradient;
  SymmetricMatrix second{0};
};

/// The messages of one foot's trials, by the moves of the figures and the offsets of its styles.
using Messages = std::map<std::pair<FigureMoves, std::vector<double>>, FilterMessage>;

/// The log-likelihood of one foot's trials about a point of its own coordinates.
class FootLikelihood {
public:
  /// `messages` are those that were found before with the same tables; new ones are added.
  FootLikelihood(const FootInHouse& foot, const std::vector<double>& xi, TablesAbout& tables,
                 Messages& messages)
      : foot_(foot), tables_(tables), messages_(messages) {
    for (const LinearForm& form : foot.coordinates)
      at_.push_back(value_of(form, xi));
  }

  /// Central differences, along the coordinates below `dimensions` and, where those are fewer than
  /// all, along the offsets.
  Derivatives derivatives(bool with_figures) {
    std::vector<std::size_t> free;
    for (std::size_t i = 0; i < at_.size(); ++i)
      if (with_figures || i == shift_place || i >= offset_place) free.push_back(i);
    Derivatives result{value({}), std::vector<double>(at_.size()), SymmetricMatrix(at_.size())};
    std::vector<double> ends; // of the difference along each
    for (std::size_t a = 0; a < free.size(); ++a) {
      const std::size_t i = free[a];
      const double h = difference(i);
      const double up = value({{i, 1}}), down = value({{i, -1}});
      ends.push_back(up + down);
      result.gradient[i] = (up - down) / (2 * h);
      result.second(i, i) = (up - 2 * result.value + down) / (h * h);
      for (std::size_t b = 0; b < a; ++b) {
        const std::size_t j = free[b];
        // Along the diagonal too, the sum of both ends less twice the middle: half of the work of
        // all four corners.
        const double both = value({{i, 1}, {j, 1}}) + value({{i, -1}, {j, -1}});
        result.second(i, j) = result.second(j, i) =
            (both - ends[a] - ends[b] + 2 * result.value) / (2 * h * difference(j));
      }
    }
    return result;
  }

private:
  using Moves = std::vector<std::pair<std::size_t, int>>;

  static bool is_figure(std::size_t i) { return i >= figure_place && i < offset_place; }
  static double difference(std::size_t i) {
    return is_figure(i) ? figure_difference : place_difference;
  }

  double value(const Moves& moves) {
    double shift = at_[shift_place];
    FigureMoves figures{};
    std::vector<double> offsets(at_.begin() + offset_place, at_.end());
    for (const auto& [i, sign] : moves) {
      if (i == shift_place)
        shift += sign * place_difference;
      else if (is_figure(i))
        figures[i - figure_place] = sign;
      else
        offsets[i - offset_place] += sign * place_difference;
    }
    const double dancers = tables_.figures(figures).dancers;
    return log_likelihood(foot_.filter, {shift, dancers}, message(figures, offsets));
  }

  /// The trials' message does not depend on the prior, that is on shift and dancers.
  const FilterMessage& message(FigureMoves figures, const std::vector<double>& offsets) {
    figures[figure_dancers] = 0;
    const auto key = std::pair(figures, offsets);
    const auto found = messages_.find(key);
    if (found != messages_.end()) return found->second;
    std::vector<double> from_first{0};
    from_first.insert(from_first.end(), offsets.begin(), offsets.end());
    return messages_
        .emplace(key, message_of_trials(foot_.filter, tables_.tables(figures), from_first))
        .first->second;
  }

  const FootInHouse& foot_;
  TablesAbout& tables_;
  std::vector<double> at_;
  Messages& messages_;
};

/// Adds a foot's derivatives by its own coordinates to those by the house's: gradient Jᵀg, second
/// derivatives JᵀHJ.
void add_foot(Derivatives& sum, const Derivatives& foot,
              const std::vector<LinearForm>& coordinates) {
  sum.value += foot.value;
  for (std::size_t i = 0; i < coordinates.size(); ++i) {
    for (const auto& [axis, factor] : coordinates[i]) {
      sum.gradient[axis] += factor * foot.gradient[i];
      for (std::size_t j = 0; j < coordinates.size(); ++j)
        for (const auto& [other, by] : coordinates[j])
          sum.second(axis, other) += factor * by * foot.second(i, j);
    }
  }
}

/// Adds ln P(readings | habits) less the same without habits, h summed over. It is
/// −½ (Σ (y − c)²/u² − P·h̄²) but for constants, with P the precision of h and h̄ = Σ (y − c)/u² / P
/// its mean, all counted from the estimate.
void add_readings(Derivatives& sum, const FootInHouse& foot, const HouseAxes& axes,
                  const std::vector<double>& xi) {
  const auto habit = [&](const ReadersSessions& s) {
    return axes.habit_sds[s.reader] * xi[axes.reader_axis(s.reader)];
  };
  double weighted = 0, without_habits = 0; // P h̄
  for (const ReadersSessions& s : foot.sessions) {
    weighted += s.weighted_sum - s.weight * habit(s);
    without_habits += s.weighted_sum;
  }
  const double mean = weighted / foot.base_precision;
  sum.value += 0.5 * (weighted * weighted - without_habits * without_habits) / foot.base_precision;
  for (const ReadersSessions& s : foot.sessions) {
    const double c = habit(s), sd = axes.habit_sds[s.reader];
    const std::size_t axis = axes.reader_axis(s.reader);
    sum.value -= 0.5 * s.weight * c * c - s.weighted_sum * c;
    sum.gradient[axis] += sd * (s.weighted_sum - s.weight * c - s.weight * mean);
    sum.second(axis, axis) -= sd * sd * s.weight;
    for (const ReadersSessions& t : foot.sessions)
      sum.second(axis, axes.reader_axis(t.reader)) +=
          sd * axes.habit_sds[t.reader] * s.weight * t.weight / foot.base_precision;
  }
}

/// FNV-1a, 64 bits (from memory: Fowler, Noll and Vo), with a last mixing, since its high bits
/// hardly depend on the last letter.
std::uint64_t hash_of(const FootRecords& foot) {
  std::uint64_t hash = 14695981039346656037ULL;
  const auto take = [&](char letter) {
    hash = (hash ^ static_cast<unsigned char>(letter)) * 1099511628211ULL;
  };
  for (const char letter : foot.dancer)
    take(letter);
  take(foot.side == FootSide::left ? 'l' : 'r');
  hash = (hash ^ (hash >> 33)) * 0xff51afd7ed558ccdULL;
  return hash ^ (hash >> 33);
}

/// Returns the feet with answers that are used to fit the figures.
std::vector<bool> drawn_for_figures(const HouseRecords& records,
                                    const std::vector<FootInHouse>& feet, std::size_t most) {
  std::vector<std::pair<std::uint64_t, std::size_t>> order;
  for (std::size_t i = 0; i < feet.size(); ++i)
    if (!feet[i].filter.shoes.empty()) order.emplace_back(hash_of(records.feet[i]), i);
  std::ranges::sort(order);
  std::vector<bool> drawn(feet.size());
  for (std::size_t k = 0; k < std::min(order.size(), most); ++k)
    drawn[order[k].second] = true;
  return drawn;
}

class Fitter {
public:
  Fitter(const HouseRecords& records, const LearningPriors& priors)
      : records_(records), priors_(priors), axes_(house_axes(records, priors)), xi_(axes_.size()) {
    for (const FootRecords& foot : records.feet)
      feet_.push_back(foot_in_house(foot, axes_, priors));
  }

  HouseFit fit() {
    HouseFit result;
    result.priors = priors_;
    // A quarter of the feet finds nearly the same place, in a quarter of the time.
    drawn_ = drawn_for_figures(records_, feet_, feet_to_begin_with);
    settled_ = climb(true, result.rounds);
    drawn_ = drawn_for_figures(records_, feet_, most_feet_for_figures);
    for (std::size_t i = 0; i < feet_.size(); ++i) {
      if (feet_[i].filter.shoes.empty()) continue;
      ++result.feet;
      if (drawn_[i]) ++result.feet_for_figures;
    }
    result.converged = result.feet > feet_to_begin_with ? climb(true, result.rounds) : settled_;
    result.log_posterior = now_.value;
    if (result.feet > result.feet_for_figures) {
      others_ = true;
      result.converged = climb(false, result.rounds) && result.converged;
      now_ = derivatives(true, xi_);
    }
    result.covariance = floored_inverse(eigensystem(minus(now_.second)), least_eigenvalue);
    describe(result);
    return result;
  }

private:
  static SymmetricMatrix minus(SymmetricMatrix matrix) {
    for (std::size_t i = 0; i < matrix.rows(); ++i)
      for (std::size_t j = 0; j < matrix.rows(); ++j)
        matrix(i, j) = -matrix(i, j);
    return matrix;
  }

  /// ln of likelihood times prior. Feet that were not drawn say nothing about the figures.
  Derivatives derivatives(bool with_figures, const std::vector<double>& xi) {
    Derivatives sum{0, std::vector<double>(xi.size()), SymmetricMatrix(xi.size())};
    for (std::size_t i = 0; i < xi.size(); ++i) {
      sum.value -= 0.5 * xi[i] * xi[i];
      sum.gradient[i] = -xi[i];
      sum.second(i, i) = -1;
    }
    if (!about_ || about_->xi() != figures_of(xi)) {
      about_.emplace(priors_, figures_of(xi));
      messages_.assign(feet_.size(), {});
    }
    for (std::size_t i = 0; i < feet_.size(); ++i) {
      const FootInHouse& foot = feet_[i];
      if (others_ || drawn_[i] || foot.filter.shoes.empty()) add_readings(sum, foot, axes_, xi);
      if (foot.filter.shoes.empty() || !(others_ || drawn_[i])) continue;
      add_foot(
          sum,
          FootLikelihood(foot, xi, *about_, messages_[i]).derivatives(with_figures && drawn_[i]),
          foot.coordinates);
      if (foot.styles.size() > 1) messages_[i].clear();
    }
    return sum;
  }

  /// Runs Newton's method from the present xi. Returns true if it converged.
  bool climb(bool with_figures, int& rounds) {
    now_ = derivatives(with_figures, xi_);
    for (int round = 0; round < most_rounds; ++round) {
      ++rounds;
      std::vector<double> step = newton_step(with_figures);
      if (!advance(with_figures, step)) return false;
      double most = 0;
      for (const double s : step)
        most = std::max(most, std::abs(s));
      if (most < settled) return true;
    }
    return false;
  }

  std::vector<double> newton_step(bool with_figures) const {
    std::vector<double> gradient = now_.gradient;
    if (!with_figures) std::fill(gradient.end() - house_figures, gradient.end(), 0);
    std::vector<double> step =
        product(floored_inverse(eigensystem(minus(now_.second)), least_eigenvalue), gradient);
    double squares = 0;
    for (const double s : step)
      squares += s * s;
    const double length = std::sqrt(squares);
    if (length > longest_step)
      for (double& s : step)
        s *= longest_step / length;
    return step;
  }

  /// Takes the step, or a part of it if the posterior would fall. Returns false if it falls for
  /// every part that was tried.
  bool advance(bool with_figures, std::vector<double>& step) {
    // The zero of the differenced gradient lies slightly beside the top, so the last steps may go
    // down by about this much.
    constexpr double slack = 0.01;
    for (int halving = 0; halving < 30; ++halving) {
      std::vector<double> next = xi_;
      for (std::size_t i = 0; i < next.size(); ++i)
        next[i] += step[i];
      Derivatives there = derivatives(with_figures, next);
      if (there.value >= now_.value - slack) {
        xi_ = std::move(next);
        now_ = std::move(there);
        return true;
      }
      for (double& s : step)
        s /= 2;
    }
    return false;
  }

  LearnedFigure learned(const HouseFit& fit, std::size_t axis, double prior_sd) const {
    return {prior_sd * fit.xi[axis], prior_sd * std::sqrt(fit.covariance(axis, axis))};
  }

  void describe(HouseFit& fit) const {
    fit.xi = xi_;
    fit.figures = figures_at(priors_, figures_of(xi_));
    fit.house = learned(fit, 0, axes_.house_sd);
    for (std::size_t s = 0; s < axes_.styles.size(); ++s)
      fit.styles.push_back({axes_.styles[s], learned(fit, axes_.style_axis(s), axes_.style_sd), 0});
    for (std::size_t r = 0; r < axes_.readers.size(); ++r)
      fit.readers.push_back({axes_.readers[r], axes_.habit_sds[r],
                             learned(fit, axes_.reader_axis(r), axes_.habit_sds[r]), 0});
    for (const FootRecords& foot : records_.feet) {
      for (const TriedShoe& shoe : foot.shoes)
        if (has_answers(shoe)) ++fit.styles[*axes_.style(shoe.style)].shoes;
      for (const ReadingSession& session : foot.sessions)
        ++fit.readers[*axes_.reader(session.reader)].sessions;
    }
  }

  const HouseRecords& records_;
  LearningPriors priors_;
  HouseAxes axes_;
  std::vector<FootInHouse> feet_;
  std::vector<bool> drawn_;
  bool others_ = false; ///< whether the feet that were not drawn count
  std::vector<double> xi_;
  bool settled_ = false; ///< whether the climb on the first feet ended
  Derivatives now_;
  /// Tables and messages at the figures that were looked at last. While figures are held, a foot in
  /// one style is filtered once: moving its prior does not change what its trials say. Feet in
  /// several styles keep nothing, since their offsets move.
  std::optional<TablesAbout> about_;
  std::vector<Messages> messages_; ///< by foot
};

} // namespace

HouseFit fit_house(const HouseRecords& records, const LearningPriors& priors) {
  require_sound(records);
  const HouseRecords ordered = in_order(records);
  return Fitter(ordered, priors).fit();
}

LearnedFigure habit_difference(const HouseFit& fit, std::size_t a, std::size_t b) {
  const std::size_t first = 1 + fit.styles.size();
  const double sd_a = fit.readers[a].prior_sd, sd_b = fit.readers[b].prior_sd;
  const double variance = sd_a * sd_a * fit.covariance(first + a, first + a) +
                          sd_b * sd_b * fit.covariance(first + b, first + b) -
                          2 * sd_a * sd_b * fit.covariance(first + a, first + b);
  return {fit.readers[a].habit.mean - fit.readers[b].habit.mean,
          std::sqrt(std::max(variance, 0.0))};
}

} // namespace shankline
