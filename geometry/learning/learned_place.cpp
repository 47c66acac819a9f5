#include "geometry/learning/learned_place.hpp"

#include "geometry/learning/house_coordinates.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>
#include <vector>

namespace shankline {
namespace {

/// Step of the differences along each direction, in standard deviations. From 0.02 to 0.25 the SD
/// of the reference cases changes by 0.002 mm.
constexpr double step_along = 0.15;
constexpr double least_of_own_variance = 0.7;

using FigureXi = std::array<double, house_figures>;

/// Eigenvectors times the roots of their eigenvalues: Σ columnᵢ columnᵢᵀ is the matrix. What is 0
/// but for rounding is left out.
std::vector<std::vector<double>> root_columns(const SymmetricMatrix& matrix) {
  const Eigensystem system = eigensystem(matrix);
  std::vector<std::vector<double>> columns;
  const double largest = std::ranges::max(system.values);
  for (std::size_t k = 0; k < system.values.size(); ++k) {
    if (!(system.values[k] > 1e-12 * largest)) continue;
    columns.push_back(system.vectors[k]);
    for (double& x : columns.back())
      x *= std::sqrt(system.values[k]);
  }
  return columns;
}

HouseAxes axes_of(const HouseFit& fit) {
  HouseAxes axes{fit.priors.house_sd, fit.priors.style_sd, {}, {}, {}};
  for (const StyleShift& style : fit.styles)
    axes.styles.push_back(style.style);
  for (const ReaderHabit& reader : fit.readers) {
    axes.readers.push_back(reader.reader);
    axes.habit_sds.push_back(reader.prior_sd);
  }
  return axes;
}

double covariance_of(const LinearForm& a, const LinearForm& b, const SymmetricMatrix& covariance) {
  double sum = 0;
  for (const auto& [i, by] : a)
    for (const auto& [j, with] : b)
      sum += by * with * covariance(i, j);
  return sum;
}

} // namespace

/// Tables of the filter at the mode, and one step up and down along each direction in which the
/// figures are doubtful: the same for every foot.
struct PlacePredictor::Tables {
  struct At {
    double dancers;
    FilterTables filter;
  };
  struct Direction {
    LinearForm scores; ///< xi · scores is standard normal: how far along the direction
    At up;
    At down;
  };

  HouseFit fit;
  HouseAxes axes;
  At middle;
  std::vector<Direction> directions;

  explicit Tables(const HouseFit& from)
      : fit(from), axes(axes_of(fit)), middle(at(fit.priors, xi_of_figures(fit))) {
    SymmetricMatrix doubt(house_figures);
    for (std::size_t i = 0; i < house_figures; ++i)
      for (std::size_t j = 0; j < house_figures; ++j)
        doubt(i, j) = fit.covariance(axes.figure_axis(i), axes.figure_axis(j));
    for (const std::vector<double>& column : root_columns(doubt)) {
      FigureXi up = xi_of_figures(fit), down = up;
      double squares = 0;
      for (const double x : column)
        squares += x * x;
      LinearForm scores;
      for (std::size_t k = 0; k < house_figures; ++k) {
        up[k] += step_along * column[k];
        down[k] -= step_along * column[k];
        scores.emplace_back(axes.figure_axis(k), column[k] / squares);
      }
      directions.push_back({std::move(scores), at(fit.priors, up), at(fit.priors, down)});
    }
  }

private:
  static FigureXi xi_of_figures(const HouseFit& fit) {
    FigureXi xi{};
    std::copy_n(fit.xi.end() - house_figures, house_figures, xi.begin());
    return xi;
  }
  static At at(const LearningPriors& priors, const FigureXi& xi) {
    const HouseFigures figures = figures_at(priors, xi);
    return {figures.dancers, FilterTables(std::make_shared<AnswerTable>(figures, priors.slip),
                                          figures.drift, priors)};
  }
};

namespace {

/// The values, mm, that a foot's belief depends on beside the figures: the prior's shift, the
/// offsets between styles, and last the shift of the asked style.
using LinearPart = std::vector<double>;

struct MeanAndVariance {
  double mean;
  double variance;
};

/// Collects differences along independent directions of one standard deviation each.
class SecondOrder {
public:
  explicit SecondOrder(MeanAndVariance middle) : middle_(middle) {}

  void add(const MeanAndVariance& up, const MeanAndVariance& down) {
    const double slope = (up.mean - down.mean) / (2 * step_along);
    const double squared = step_along * step_along;
    gCg_ += slope * slope;
    bent_mean_ += (up.mean - 2 * middle_.mean + down.mean) / squared;
    bent_variance_ += (up.variance - 2 * middle_.variance + down.variance) / squared;
  }
  double mean() const { return middle_.mean + bent_mean_ / 2; }
  double variance() const {
    return std::max(middle_.variance + bent_variance_ / 2,
                    least_of_own_variance * middle_.variance) +
           gCg_;
  }

private:
  MeanAndVariance middle_;
  double gCg_ = 0;
  double bent_mean_ = 0;     ///< tr(H_μ C)
  double bent_variance_ = 0; ///< tr(H_v C)
};

} // namespace

PlacePredictor::PlacePredictor(const HouseFit& fit)
    : tables_(std::make_unique<const Tables>(fit)) {}
PlacePredictor::~PlacePredictor() = default;
PlacePredictor::PlacePredictor(PlacePredictor&&) noexcept = default;
PlacePredictor& PlacePredictor::operator=(PlacePredictor&&) noexcept = default;

LearnedPlace PlacePredictor::place(const FootRecords& records, const AskedPlace& asked) const {
  require_sound({{records}});
  const HouseFit& fit = tables_->fit;
  const HouseAxes& axes = tables_->axes;
  const FootRecords ordered = std::move(in_order({{records}}).feet.front());
  const FootInHouse foot = foot_in_house(ordered, axes, fit.priors);

  LearnedPlace result;
  for (const TriedShoe& shoe : ordered.shoes) {
    if (!has_answers(shoe)) continue;
    ++result.pairs;
    if (!result.first) result.first = shoe.ordered;
    result.last = shoe.ordered;
  }
  result.good_after_wear = shoes_good_after_wear(records);
  result.too_far = standing_too_far(records);
  const double steps =
      asked.ordered && result.last ? drift_steps(*result.last, *asked.ordered) : 1.0;

  std::vector<LinearForm> forms{foot.coordinates[shift_place]};
  forms.insert(forms.end(), foot.coordinates.begin() + offset_place, foot.coordinates.end());
  LinearForm asked_style;
  double new_style_variance = fit.priors.style_sd * fit.priors.style_sd;
  if (const auto style = axes.style(asked.style)) {
    asked_style.emplace_back(axes.style_axis(*style), axes.style_sd);
    new_style_variance = 0;
  }
  if (!foot.styles.empty())
    asked_style.emplace_back(axes.style_axis(foot.styles[0]), -axes.style_sd);
  forms.push_back(asked_style);
  LinearPart middle;
  for (const LinearForm& form : forms)
    middle.push_back(value_of(form, fit.xi));

  const auto believe = [&](const Tables::At& at, const LinearPart& part) {
    std::vector<double> offsets{0};
    offsets.insert(offsets.end(), part.begin() + 1, part.end() - 1);
    FilterBelief belief =
        belief_after(foot.filter, {part.front(), at.dancers}, at.filter, offsets, steps);
    belief.mean += part.back();
    return belief;
  };
  const auto moved = [&](const Tables::At& at, const LinearPart& along, double by) {
    LinearPart part = middle;
    for (std::size_t k = 0; k < part.size(); ++k)
      part[k] += by * along[k];
    const FilterBelief belief = believe(at, part);
    return MeanAndVariance{belief.mean, belief.variance};
  };

  const FilterBelief belief = believe(tables_->middle, middle);
  SecondOrder sum({belief.mean, belief.variance});
  // Along each direction of the figures the linear part goes with them as far as it is correlated.
  // What is left of its covariance has directions of its own.
  SymmetricMatrix left(forms.size());
  for (std::size_t i = 0; i < forms.size(); ++i)
    for (std::size_t j = 0; j < forms.size(); ++j)
      left(i, j) = covariance_of(forms[i], forms[j], fit.covariance);
  left(0, 0) += foot.unknown_habit_variance;
  for (const Tables::Direction& direction : tables_->directions) {
    LinearPart along;
    for (const LinearForm& form : forms)
      along.push_back(covariance_of(form, direction.scores, fit.covariance));
    for (std::size_t i = 0; i < forms.size(); ++i)
      for (std::size_t j = 0; j < forms.size(); ++j)
        left(i, j) -= along[i] * along[j];
    sum.add(moved(direction.up, along, step_along), moved(direction.down, along, -step_along));
  }
  for (const std::vector<double>& along : root_columns(left))
    sum.add(moved(tables_->middle, along, step_along), moved(tables_->middle, along, -step_along));

  result.mean = sum.mean();
  result.sd = std::sqrt(sum.variance() + new_style_variance + asked.shoe_u * asked.shoe_u);
  result.U = 1.96 * result.sd;
  result.jump_probability = belief.jump_probability;
  result.earlier_jump_probability = belief.earlier_jump_probability;
  return result;
}

} // namespace shankline
