#include "geometry/strip/contact_figures.hpp"

#include "geometry/numerics/hermite.hpp"

#include <algorithm>

namespace shankline {
namespace {

constexpr double within_peak = 0.9;

double between(double a, double b, double t) {
  return a + (b - a) * t;
}

/// The place where a line from (u0, v0) to (u1, v1) crosses `level`.
double crossing(double u0, double v0, double u1, double v1, double level) {
  return v1 == v0 ? u1 : between(u0, u1, (level - v0) / (v1 - v0));
}

void read_break(const ContactCurves& c, ContactFigures& f) {
  const std::vector<double>& k = c.curvature;
  const std::size_t n = k.size();
  const auto top = static_cast<std::size_t>(std::max_element(k.begin(), k.end()) - k.begin());
  f.break_at = BallStation(c.u[top]);
  f.peak_curvature = k[top];
  f.breaks_in_arch = top > 0;
  const double level = within_peak * k[top];
  std::size_t first = top;
  while (first > 0 && k[first - 1] >= level)
    --first;
  std::size_t last = top;
  while (last + 1 < n && k[last + 1] >= level)
    ++last;
  f.break_from = BallStation(
      first == 0 ? c.u[0] : crossing(c.u[first - 1], k[first - 1], c.u[first], k[first], level));
  f.break_to = BallStation(
      last + 1 == n ? c.u[last] : crossing(c.u[last], k[last], c.u[last + 1], k[last + 1], level));
  for (std::size_t i = 0; i < n; ++i) {
    if (i == first) i = last + 1;
    if (i >= n || k[i] < level) continue;
    std::size_t peak = i;
    for (; i < n && k[i] >= level; ++i)
      if (k[i] > k[peak]) peak = i;
    f.rival_peaks.emplace_back(c.u[peak]);
  }
  // Between stations the top of a smooth stretch is that of a parabola.
  if (top == 0 || top + 1 == n) return;
  const double before = c.u[top] - c.u[top - 1];
  const double after = c.u[top + 1] - c.u[top];
  if (!(before > 0) || !(after > 0)) return;
  const double rise = (k[top] - k[top - 1]) / before;
  const double fall = (k[top + 1] - k[top]) / after;
  const double bow = 2 * (fall - rise) / (before + after);
  if (bow < 0)
    f.break_at = f.break_at + std::clamp(-(rise * after + fall * before) / (before + after) / bow,
                                         -before / 2, after / 2);
}

void read_gap(const ContactCurves& c, ContactFigures& f) {
  const std::vector<double>& g = c.gap;
  const auto top = static_cast<std::size_t>(std::max_element(g.begin(), g.end()) - g.begin());
  f.gap = g[top];
  f.gap_at = BallStation(c.u[top]);
  for (std::size_t i = std::max<std::size_t>(top, 1) - 1; i < std::min(top + 1, g.size() - 1);
       ++i) {
    const double h = c.u[i + 1] - c.u[i];
    const HermiteEnd rising{g[i], c.slope[i]};
    const HermiteEnd falling{g[i + 1], c.slope[i + 1]};
    if (!(h > 0) || !(rising.slope > 0) || !(falling.slope < 0)) continue;
    // The slope of the cubic is a parabola that changes sign once.
    double low = 0;
    double high = 1;
    for (int step = 0; step < 30; ++step) {
      const double t = (low + high) / 2;
      (hermite_slope(rising, falling, h, t) > 0 ? low : high) = t;
    }
    const double value = hermite(rising, falling, h, low);
    if (value > f.gap) {
      f.gap = value;
      f.gap_at = BallStation(c.u[i] + low * h);
    }
  }
}

double value_at(const ContactCurves& c, double u) {
  const auto next =
      static_cast<std::size_t>(std::lower_bound(c.u.begin(), c.u.end(), u) - c.u.begin());
  if (next == 0) return c.gap.front();
  if (next == c.u.size()) return c.gap.back();
  const std::size_t i = next - 1;
  const double h = c.u[next] - c.u[i];
  return hermite({c.gap[i], c.slope[i]}, {c.gap[next], c.slope[next]}, h, (u - c.u[i]) / h);
}

} // namespace

ContactFigures read_figures(const ContactProblem& problem, const ContactCurves& curves,
                            const std::vector<ContactForce>& forces) {
  ContactFigures f;
  read_break(curves, f);
  read_gap(curves, f);
  f.heel_gap = value_at(curves, problem.heel_front);
  f.clamp_moment = curves.moment.front();
  double first_moment = 0;
  for (const ContactForce& c : forces) {
    if (c.at > problem.arch.to_break) {
      f.bearing_force += c.force;
      first_moment += c.force * c.at;
    }
    if (c.at > problem.heel_front) f.heel_pry += c.force * (c.at - problem.heel_front);
  }
  if (f.bearing_force > 0) f.bearing = BallStation(first_moment / f.bearing_force);
  double before = 0;
  for (std::size_t i = 0; i < curves.u.size(); ++i) {
    const double left_over = curves.foot[i] * curves.gap[i] - curves.slope[i] * curves.slope[i] / 2;
    if (i > 0) f.slack += (curves.u[i] - curves.u[i - 1]) * (before + left_over) / 2;
    before = left_over;
  }
  return f;
}

} // namespace shankline
