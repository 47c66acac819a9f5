#include "geometry/numerics/banded_programme.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>

namespace shankline {
namespace {

/// Added to what is divided by: far below any size that counts, and not 0.
constexpr double least_size = 1e-300;

/// LDLᵀ of the matrix with `added` on its diagonal; held rows and columns are those of the
/// identity.
class BandedFactor {
public:
  explicit BandedFactor(std::size_t n) : inverse_(n), first_(n), second_(n) {}

  /// False where a pivot is not positive.
  template <class Added, class Held>
  bool factorize(const BandedProgramme& p, const Added& added, const Held& held) {
    double first = 0, second = 0; // what elimination leaves on this row and the next
    double next_beside = 0;
    for (std::size_t i = 0; i < p.size(); ++i) {
      const bool off = held(i);
      const double pivot = off ? 1 : p.diagonal[i] + added(i) - first;
      if (!(pivot > 0)) return false;
      const double beside =
          !off && i + 1 < p.size() && !held(i + 1) ? p.beside[i] - next_beside : 0;
      const double beyond = !off && i + 2 < p.size() && !held(i + 2) ? p.beyond[i] : 0;
      inverse_[i] = 1 / pivot;
      first_[i] = beside * inverse_[i];
      second_[i] = beyond * inverse_[i];
      first = second + beside * first_[i];
      second = beyond * second_[i];
      next_beside = beside * second_[i];
    }
    return true;
  }

  void solve(std::vector<double>& b) const {
    const std::size_t n = b.size();
    for (std::size_t i = 0; i < n; ++i) {
      if (i + 1 < n) b[i + 1] -= first_[i] * b[i];
      if (i + 2 < n) b[i + 2] -= second_[i] * b[i];
    }
    for (std::size_t i = n; i-- > 0;) {
      b[i] *= inverse_[i];
      if (i + 1 < n) b[i] -= first_[i] * b[i + 1];
      if (i + 2 < n) b[i] -= second_[i] * b[i + 2];
    }
  }

private:
  std::vector<double> inverse_, first_, second_;
};

void multiply(const BandedProgramme& p, const std::vector<double>& x, std::vector<double>& out) {
  const std::size_t n = p.size();
  for (std::size_t i = 0; i < n; ++i) {
    double sum = p.linear[i] + p.diagonal[i] * x[i];
    if (i > 0) sum += p.beside[i - 1] * x[i - 1];
    if (i > 1) sum += p.beyond[i - 2] * x[i - 2];
    if (i + 1 < n) sum += p.beside[i] * x[i + 1];
    if (i + 2 < n) sum += p.beyond[i] * x[i + 2];
    out[i] = sum;
  }
}

double largest(const std::vector<double>& v) {
  double most = 0;
  for (const double value : v)
    most = std::max(most, std::abs(value));
  return most;
}

std::uint64_t fingerprint(const std::vector<char>& held) { // FNV-1a
  std::uint64_t hash = 14695981039346656037ULL;
  for (const char h : held)
    hash = (hash ^ static_cast<std::uint64_t>(h)) * 1099511628211ULL;
  return hash;
}

/// x where `held` is not, 0 and a force where it is; false where the matrix cannot be factorized.
bool solve_held(const BandedProgramme& p, const std::vector<char>& held, BandedFactor& factor,
                ProgrammeSolution& result) {
  const auto is_held = [&](std::size_t i) { return held[i] != 0; };
  if (!factor.factorize(
          p, [](std::size_t) { return 0.0; }, is_held))
    return false;
  for (std::size_t i = 0; i < p.size(); ++i)
    result.x[i] = is_held(i) ? 0 : -p.linear[i];
  factor.solve(result.x);
  for (std::size_t i = 0; i < p.size(); ++i)
    if (is_held(i)) result.x[i] = 0;
  multiply(p, result.x, result.force);
  return true;
}

/// Lets go where f < 0 and holds where x < 0; false where nothing changes. Rounding must not let go
/// and take hold for ever where nothing presses.
bool change_held(const ProgrammeSolution& found, double size_q, std::vector<char>& held) {
  const double slack_x = 1e-11 * largest(found.x);
  const double slack_f = 1e-10 * std::max(size_q, largest(found.force));
  bool changed = false;
  for (std::size_t i = 0; i < held.size(); ++i) {
    const char next = held[i] ? found.force[i] >= -slack_f : found.x[i] < -slack_x;
    changed = changed || next != held[i];
    held[i] = next;
  }
  return changed;
}

/// x and f, both above 0, on their way to Hx + q = f and x·f = 0.
class InteriorPoint {
public:
  /// Both begin at the size that load and matrix suggest.
  explicit InteriorPoint(const BandedProgramme& p)
      : p_(p), n_(p.size()), factor_(n_), load_(largest(p.linear)),
        x_(n_, std::sqrt(load_ / largest(p.diagonal))), f_(n_, load_), r_(n_), dx_(n_), df_(n_),
        ax_(n_), af_(n_) {}

  /// The distance from the solution; the residuals stay in r_ and gap_ for the next step.
  double residual() {
    multiply(p_, x_, r_);
    gap_ = 0;
    double off = 0;
    for (std::size_t i = 0; i < n_; ++i) {
      r_[i] -= f_[i]; // Hx + q − f
      gap_ += x_[i] * f_[i];
      off = std::max(off, std::abs(r_[i]));
    }
    const double size_f = std::max(load_, largest(f_));
    return std::max(off / size_f, programme_residual(p_, x_, f_));
  }

  /// False where the matrix cannot be factorized.
  bool step() {
    const auto none = [](std::size_t) { return false; };
    if (!factor_.factorize(
            p_, [this](std::size_t i) { return weight(i); }, none))
      return false;
    predict();
    correct(centre());
    // One length for both: the programme is quadratic.
    const double length = std::min(1.0, 0.995 * std::min(longest(x_, dx_), longest(f_, df_)));
    for (std::size_t i = 0; i < n_; ++i) {
      x_[i] += length * dx_[i];
      f_[i] += length * df_[i];
    }
    return true;
  }

  void put_into(ProgrammeSolution& result) && {
    result.held.resize(n_);
    const double size_x = largest(x_) + least_size;
    const double size_f = largest(f_) + least_size;
    for (std::size_t i = 0; i < n_; ++i)
      result.held[i] = f_[i] / size_f > x_[i] / size_x ? 1 : 0;
    result.x = std::move(x_);
    result.force = std::move(f_);
  }

private:
  double weight(std::size_t i) const { return f_[i] / x_[i]; }

  /// The part of a step, at most all of it, that leaves every v at 0 or above.
  double longest(const std::vector<double>& v, const std::vector<double>& step) const {
    double length = 1;
    for (std::size_t i = 0; i < n_; ++i)
      if (step[i] < 0) length = std::min(length, -v[i] / step[i]);
    return length;
  }

  /// Straight for x·f = 0.
  void predict() {
    for (std::size_t i = 0; i < n_; ++i)
      ax_[i] = -r_[i] - f_[i];
    factor_.solve(ax_);
    for (std::size_t i = 0; i < n_; ++i)
      af_[i] = -f_[i] - weight(i) * ax_[i];
  }

  /// The x·f to aim for: the less, the farther the prediction got (Mehrotra's cube).
  double centre() const {
    const double px = longest(x_, ax_);
    const double pf = longest(f_, af_);
    double after = 0;
    for (std::size_t i = 0; i < n_; ++i)
      after += (x_[i] + px * ax_[i]) * (f_[i] + pf * af_[i]);
    const double ratio = after / gap_;
    const double mu = gap_ / static_cast<double>(n_);
    return ratio * ratio * ratio * mu;
  }

  void correct(double centre) {
    for (std::size_t i = 0; i < n_; ++i)
      dx_[i] = -r_[i] - f_[i] + (centre - ax_[i] * af_[i]) / x_[i];
    factor_.solve(dx_);
    for (std::size_t i = 0; i < n_; ++i)
      df_[i] = -f_[i] + (centre - ax_[i] * af_[i]) / x_[i] - weight(i) * dx_[i];
  }

  const BandedProgramme& p_;
  std::size_t n_;
  BandedFactor factor_;
  double load_;
  double gap_ = 0; ///< x·f
  std::vector<double> x_, f_, r_, dx_, df_, ax_, af_;
};

} // namespace

double programme_residual(const BandedProgramme& programme, const std::vector<double>& x,
                          const std::vector<double>& force) {
  // The loads set the size of the forces where nothing touches, and what they would move the
  // stiffest unknown by that of x where everything does.
  const double load = largest(programme.linear) + least_size;
  const double size_x = std::max(largest(x), load / largest(programme.diagonal));
  const double size_f = std::max(largest(force), load);
  double worst = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double a = x[i] / size_x;
    const double b = force[i] / size_f;
    if (!std::isfinite(a) || !std::isfinite(b)) return HUGE_VAL;
    worst = std::max({worst, -a, -b, std::min(a, b)});
  }
  return worst;
}

ProgrammeSolution solve_active_set(const BandedProgramme& programme, std::vector<char> held,
                                   int most_steps) {
  const std::size_t n = programme.size();
  BandedFactor factor(n);
  ProgrammeSolution result;
  result.x.resize(n);
  result.force.resize(n);
  std::vector<std::uint64_t> seen;
  const double size_q = largest(programme.linear);
  while (result.steps < most_steps) {
    seen.push_back(fingerprint(held));
    ++result.steps;
    if (!solve_held(programme, held, factor, result)) break;
    if (!change_held(result, size_q, held)) {
      for (std::size_t i = 0; i < n; ++i)
        if (!held[i]) result.force[i] = 0; // rounding of what was solved for
      result.residual = programme_residual(programme, result.x, result.force);
      result.converged = result.residual <= programme_tolerance;
      break;
    }
    if (std::find(seen.begin(), seen.end(), fingerprint(held)) != seen.end()) break;
  }
  if (!result.converged && result.residual == 0)
    result.residual = programme_residual(programme, result.x, result.force);
  result.held = std::move(held);
  return result;
}

ProgrammeSolution solve_interior_point(const BandedProgramme& programme, int most_steps) {
  ProgrammeSolution result;
  if (programme.size() == 0) {
    result.converged = true;
    return result;
  }
  // Without a load there is no size to begin with, and nothing moves.
  if (largest(programme.linear) == 0) {
    result.x.assign(programme.size(), 0);
    result.force = result.x;
    result.held.assign(programme.size(), 0);
    result.converged = true;
    return result;
  }
  InteriorPoint point(programme);
  while (result.steps < most_steps) {
    result.residual = point.residual();
    if (result.residual <= programme_tolerance) {
      result.converged = true;
      break;
    }
    ++result.steps;
    if (!point.step()) break;
  }
  std::move(point).put_into(result);
  return result;
}

} // namespace shankline
