// Uncertainty of the result of a calculation, from the uncertainties of its inputs.
//
// Assumed throughout:
// - an input deviates from its value by a sum of independent sources, each of mean zero and times a
//   factor of its own; two inputs are correlated by the sources that they share and by nothing
//   else;
// - over about one standard uncertainty the function is close to straight in every input (where it
//   is not, see monte_carlo.hpp);
// - a result is close to normal, its u as doubtful as the degrees of freedom of its sources say, so
//   that Student's t gives the interval.
// Formulas: JCGM 100:2008, 5.1.2 and 5.2.2 (combined u; over independent sources the covariance
// terms come of themselves), G.4.1 (degrees of freedom), G.3.4 (t).
#pragma once

#include <cstddef>
#include <functional>
#include <limits>
#include <span>
#include <string>
#include <vector>

namespace shankline {

/// The coverage probability of every U.
inline constexpr double coverage = 0.95;

/// Degrees of freedom of a u that is taken as known.
inline constexpr double known = std::numeric_limits<double>::infinity();

/// Matters to sampling only: first order asks for u alone. A lognormal quantity is entered by its
/// logarithm, as a normal one.
enum class Shape { normal, rectangular };

/// One independent reason to be off, in units of what it moves.
struct Source {
  std::string name;
  double u = 0;           ///< standard uncertainty
  double freedom = known; ///< degrees of freedom of u
  Shape shape = Shape::normal;
  bool shared = false; ///< one and the same deviation wherever this name comes up again
};

/// A rectangular spread of ± half_width: u = half_width/√3 (JCGM 100, 4.3.7).
Source rectangular(std::string name, double half_width, bool shared = false);

struct Share {
  std::size_t source;
  double factor = 1; ///< deviation of the input for a deviation of 1 of the source
};

struct Input {
  std::string name;
  double value = 0;
  std::vector<Share> shares;
};

/// The inputs of one calculation and what moves them.
class Inputs {
public:
  /// Index of the source. A shared one that is already there is found again by its name; throws
  /// std::invalid_argument if it comes back with another spread, or if u or freedom are no such
  /// figures.
  std::size_t add_source(Source source);

  /// Index of the input.
  std::size_t add(std::string name, double value, std::vector<Share> shares);
  /// Adds an input with one source of its own.
  std::size_t add_own(std::string name, double value, Source source);

  std::span<const Source> sources() const { return sources_; }
  std::span<const Input> inputs() const { return inputs_; }
  std::vector<double> values() const;
  double u(std::size_t input) const;

private:
  std::vector<Source> sources_;
  std::vector<Input> inputs_;
};

/// Fills `results` from one value of each input.
using Measurands = std::function<void(std::span<const double> inputs, std::span<double> results)>;
using Measurand = std::function<double(std::span<const double> inputs)>;

/// A result: value, u and where u comes from.
struct Uncertain {
  double value = 0;
  double u = 0;
  double freedom = known;    ///< Welch–Satterthwaite
  std::vector<double> parts; ///< signed, one a source: sensitivity × factor × u; u² = Σ parts²

  /// U: the true value lies within value ± U with probability p.
  double expanded(double p = coverage) const;
};

/// u and degrees of freedom of a sum of independent parts.
Uncertain combine(double value, std::vector<double> parts, std::span<const Source> sources);

/// Between two results of the same sources.
double covariance(const Uncertain& a, const Uncertain& b);

/// a − b of two calculations: sources of one name that are shared in both count once, so what both
/// have in common cancels.
Uncertain difference(const Uncertain& a, std::span<const Source> sources_of_a, const Uncertain& b,
                     std::span<const Source> sources_of_b);

/// Returns true if a difference is more than its own U, so that the two are known to differ.
bool told_apart(const Uncertain& difference);

struct Propagation {
  std::vector<Uncertain> results;
  std::vector<double> sensitivities; ///< ∂result/∂input, a row a result

  double sensitivity(std::size_t result, std::size_t input) const {
    return sensitivities[result * (sensitivities.size() / results.size()) + input];
  }
};

/// Central differences over ± step × u(input); an input without doubt is not moved, and its
/// sensitivity is given as 0.
Propagation propagate(const Inputs& inputs, const Measurands& function, std::size_t results,
                      double step = 0.01);
Uncertain propagate(const Inputs& inputs, const Measurand& function, double step = 0.01);

/// Student's t: ± this many u hold the true value with probability p. Degrees of freedom are cut
/// down to whole ones first (JCGM 100, G.4.1), `known` gives the normal distribution's.
double coverage_factor(double freedom, double p = coverage);

} // namespace shankline
