#include "geometry/uncertainty/uncertainty.hpp"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <utility>

namespace shankline {

Source rectangular(std::string name, double half_width, bool shared) {
  return {std::move(name), half_width / std::numbers::sqrt3, known, Shape::rectangular, shared};
}

std::size_t Inputs::add_source(Source source) {
  if (!(source.u >= 0 && std::isfinite(source.u) && source.freedom > 0))
    throw std::invalid_argument("no standard uncertainty: " + source.name);
  if (source.shared) {
    const auto same = std::find_if(sources_.begin(), sources_.end(), [&](const Source& s) {
      return s.shared && s.name == source.name;
    });
    if (same != sources_.end()) {
      if (same->u != source.u || same->freedom != source.freedom || same->shape != source.shape)
        throw std::invalid_argument("a shared source has two different spreads: " + source.name);
      return static_cast<std::size_t>(same - sources_.begin());
    }
  }
  sources_.push_back(std::move(source));
  return sources_.size() - 1;
}

std::size_t Inputs::add(std::string name, double value, std::vector<Share> shares) {
  inputs_.push_back({std::move(name), value, std::move(shares)});
  return inputs_.size() - 1;
}

std::size_t Inputs::add_own(std::string name, double value, Source source) {
  const std::size_t own = add_source(std::move(source));
  return add(std::move(name), value, {{own, 1}});
}

std::vector<double> Inputs::values() const {
  std::vector<double> values(inputs_.size());
  std::transform(inputs_.begin(), inputs_.end(), values.begin(),
                 [](const Input& input) { return input.value; });
  return values;
}

double Inputs::u(std::size_t input) const {
  double variance = 0;
  for (const Share& share : inputs_[input].shares)
    variance += std::pow(share.factor * sources_[share.source].u, 2);
  return std::sqrt(variance);
}

double Uncertain::expanded(double p) const {
  return u == 0 ? 0 : u * coverage_factor(freedom, p);
}

Uncertain combine(double value, std::vector<double> parts, std::span<const Source> sources) {
  double variance = 0;
  double doubt = 0; // of the variance itself
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const double square = parts[i] * parts[i];
    variance += square;
    doubt += square * square / sources[i].freedom;
  }
  const double freedom = doubt > 0 ? variance * variance / doubt : known;
  return {value, std::sqrt(variance), freedom, std::move(parts)};
}

double covariance(const Uncertain& a, const Uncertain& b) {
  double sum = 0;
  for (std::size_t i = 0; i < a.parts.size(); ++i)
    sum += a.parts[i] * b.parts[i];
  return sum;
}

Uncertain difference(const Uncertain& a, std::span<const Source> sources_of_a, const Uncertain& b,
                     std::span<const Source> sources_of_b) {
  std::vector<Source> sources(sources_of_a.begin(), sources_of_a.end());
  std::vector<double> parts = a.parts;
  for (std::size_t i = 0; i < b.parts.size(); ++i) {
    const Source& source = sources_of_b[i];
    const auto same = std::find_if(sources_of_a.begin(), sources_of_a.end(), [&](const Source& s) {
      return s.shared && source.shared && s.name == source.name;
    });
    if (same != sources_of_a.end()) {
      parts[static_cast<std::size_t>(same - sources_of_a.begin())] -= b.parts[i];
    } else {
      sources.push_back(source);
      parts.push_back(-b.parts[i]);
    }
  }
  return combine(a.value - b.value, std::move(parts), sources);
}

bool told_apart(const Uncertain& difference) {
  return std::abs(difference.value) > difference.expanded();
}

Propagation propagate(const Inputs& inputs, const Measurands& function, std::size_t results,
                      double step) {
  const std::size_t count = inputs.inputs().size();
  const std::span<const Source> sources = inputs.sources();
  std::vector<double> at = inputs.values();
  std::vector<double> value(results);
  function(at, value);

  Propagation found;
  found.sensitivities.assign(results * count, 0);
  std::vector<std::vector<double>> parts(results, std::vector<double>(sources.size(), 0.0));
  std::vector<double> above(results);
  std::vector<double> below(results);
  for (std::size_t i = 0; i < count; ++i) {
    const double reach = step * inputs.u(i);
    if (reach == 0) continue;
    const double centre = at[i];
    const double high = centre + reach;
    const double low = centre - reach;
    at[i] = high;
    function(at, above);
    at[i] = low;
    function(at, below);
    at[i] = centre;
    for (std::size_t k = 0; k < results; ++k) {
      const double sensitivity = (above[k] - below[k]) / (high - low);
      found.sensitivities[k * count + i] = sensitivity;
      for (const Share& share : inputs.inputs()[i].shares)
        parts[k][share.source] += sensitivity * share.factor * sources[share.source].u;
    }
  }
  for (std::size_t k = 0; k < results; ++k)
    found.results.push_back(combine(value[k], std::move(parts[k]), sources));
  return found;
}

Uncertain propagate(const Inputs& inputs, const Measurand& function, double step) {
  const Measurands one = [&](std::span<const double> in, std::span<double> out) {
    out.front() = function(in);
  };
  return propagate(inputs, one, 1, step).results.front();
}

// Without it Boost works in 80 bits and sets tables up for them before main. Where there are only
// 64, as under valgrind, newer releases of it end the program there.
using InDouble = boost::math::policies::policy<boost::math::policies::promote_double<false>>;

double coverage_factor(double freedom, double p) {
  const double quantile = (1 + p) / 2;
  constexpr double as_good_as_known = 1e6;
  if (!(freedom < as_good_as_known))
    return boost::math::quantile(boost::math::normal_distribution<double, InDouble>(), quantile);
  // Degrees of freedom below 1 cannot be rounded down to a whole number.
  const double whole = freedom < 1 ? freedom : std::floor(freedom);
  return boost::math::quantile(boost::math::students_t_distribution<double, InDouble>(whole),
                               quantile);
}

} // namespace shankline
