#include "geometry/banded_programme.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace shankline {
namespace {

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

} // namespace

double programme_residual(const BandedProgramme& programme, const std::vector<double>& x,
                          const std::vector<double>& force) {
  // The loads set the size of the forces where nothing touches, and what they would move the
  // stiffest unknown by that of x where everything does.
  const double load = largest(programme.linear) + 1e-300;
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
    const auto is_held = [&](std::size_t i) { return held[i] != 0; };
    if (!factor.factorize(
            programme, [](std::size_t) { return 0.0; }, is_held))
      break;
    for (std::size_t i = 0; i < n; ++i)
      result.x[i] = is_held(i) ? 0 : -programme.linear[i];
    factor.solve(result.x);
    for (std::size_t i = 0; i < n; ++i)
      if (is_held(i)) result.x[i] = 0;
    multiply(programme, result.x, result.force);

    // Rounding must not let go and take hold for ever where nothing presses.
    const double slack_x = 1e-11 * largest(result.x);
    const double slack_f = 1e-10 * std::max(size_q, largest(result.force));
    bool changed = false;
    for (std::size_t i = 0; i < n; ++i) {
      const char next = held[i] ? result.force[i] >= -slack_f : result.x[i] < -slack_x;
      changed = changed || next != held[i];
      held[i] = next;
    }
    if (!changed) {
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
  const std::size_t n = programme.size();
  BandedFactor factor(n);
  ProgrammeSolution result;
  if (n == 0) {
    result.converged = true;
    return result;
  }
  const double load = largest(programme.linear) + 1e-300;
  const double stiff = largest(programme.diagonal);
  // Both begin at the size that load and matrix suggest.
  std::vector<double> x(n, std::sqrt(load / stiff)), f(n, load), r(n), dx(n), df(n), ax(n), af(n);
  const auto none = [](std::size_t) { return false; };
  const auto weight = [&](std::size_t i) { return f[i] / x[i]; };
  const auto longest = [&](const std::vector<double>& v, const std::vector<double>& step) {
    double length = 1;
    for (std::size_t i = 0; i < n; ++i)
      if (step[i] < 0) length = std::min(length, -v[i] / step[i]);
    return length;
  };
  while (result.steps < most_steps) {
    multiply(programme, x, r);
    double gap = 0;
    double off = 0;
    for (std::size_t i = 0; i < n; ++i) {
      r[i] -= f[i]; // Hx + q − f
      gap += x[i] * f[i];
      off = std::max(off, std::abs(r[i]));
    }
    const double mu = gap / static_cast<double>(n);
    const double size_f = std::max(load, largest(f));
    const double residual = std::max(off / size_f, programme_residual(programme, x, f));
    result.residual = residual;
    if (residual <= programme_tolerance) {
      result.converged = true;
      break;
    }
    ++result.steps;
    if (!factor.factorize(programme, weight, none)) break;
    for (std::size_t i = 0; i < n; ++i)
      ax[i] = -r[i] - f[i];
    factor.solve(ax);
    for (std::size_t i = 0; i < n; ++i)
      af[i] = -f[i] - weight(i) * ax[i];
    const double px = longest(x, ax);
    const double pf = longest(f, af);
    double after = 0;
    for (std::size_t i = 0; i < n; ++i)
      after += (x[i] + px * ax[i]) * (f[i] + pf * af[i]);
    const double ratio = after / gap;
    const double centre = ratio * ratio * ratio * mu;
    for (std::size_t i = 0; i < n; ++i)
      dx[i] = -r[i] - f[i] + (centre - ax[i] * af[i]) / x[i];
    factor.solve(dx);
    for (std::size_t i = 0; i < n; ++i)
      df[i] = -f[i] + (centre - ax[i] * af[i]) / x[i] - weight(i) * dx[i];
    // One length for both: the programme is quadratic.
    const double length = std::min(1.0, 0.995 * std::min(longest(x, dx), longest(f, df)));
    for (std::size_t i = 0; i < n; ++i) {
      x[i] += length * dx[i];
      f[i] += length * df[i];
    }
  }
  result.held.resize(n);
  const double size_x = largest(x) + 1e-300;
  const double size_f = largest(f) + 1e-300;
  for (std::size_t i = 0; i < n; ++i)
    result.held[i] = f[i] / size_f > x[i] / size_x ? 1 : 0;
  result.x = std::move(x);
  result.force = std::move(f);
  return result;
}

} // namespace shankline
