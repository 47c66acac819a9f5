#include "tests/geometry/contact_problems.hpp"
#include "tests/geometry/degree.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <sstream>

namespace shankline::tests {
namespace {

/// ∫ p(v)(v − u) dv from u to the end.
double pull_moment_behind(const ContactProblem& problem, double u) {
  double sum = 0;
  for (const PullStretch& p : problem.pull) {
    const double a = std::max(u, p.from);
    const double b = std::min(p.to, problem.end);
    if (a >= b) continue;
    const auto at = [&](double v) {
      return (p.at_from + (p.at_to - p.at_from) * (v - p.from) / (p.to - p.from)) * (v - u);
    };
    sum += (b - a) / 6 * (at(a) + 4 * at((a + b) / 2) + at(b)); // exact for a quadratic
  }
  return sum;
}

} // namespace

ContactProblem worked_contact(double pull, double trim) {
  ContactProblem p;
  p.arch = arch_of_foot(172, 95, 61, 27 * degree);
  p.clamp = 0;
  p.heel_front = 172 - 61;
  p.end = 172;
  p.strip.sole = 6000;
  p.strip.board = 90000;
  p.strip.board_end = 172 - trim;
  p.pull = even_pull(pull, 0, p.heel_front);
  return p;
}

ContactProblem kinked_foot(double bend, double b, double length, double stiffness, double pull) {
  ContactProblem p;
  constexpr double width = 1e-3; // of the kink, as near to none as the formula needs
  p.arch = {b, length, width, width, bend};
  p.clamp = 0;
  p.heel_front = length * 0.999;
  p.end = length;
  p.strip.sole = stiffness;
  p.strip.board = 0;
  p.strip.board_end = length;
  if (pull > 0) p.pull = {{0, length, pull, pull}};
  return p;
}

RandomContact random_contact(Draw& draw) {
  const FootSize size = random_foot_size(draw, Population::women);
  RandomContact drawn;
  drawn.ball = size.ball_length;
  // Common practice, no source: as for the drawn orders.
  drawn.heel_front = 0.256 * size.length + std::clamp(draw.normal(0, 4), -10.0, 10.0);
  drawn.break_at = drawn.heel_front + draw.uniform(0.24, 0.45) * (drawn.ball - drawn.heel_front);
  ContactProblem& p = drawn.problem;
  p.arch =
      arch_of_foot(drawn.ball, drawn.break_at, drawn.heel_front, draw.uniform(15, 45) * degree);
  p.clamp = draw.chance(0.7) ? drawn.ball - 158.0 / 238.0 * size.length : 0;
  p.heel_front = drawn.ball - drawn.heel_front;
  p.end = drawn.ball;
  constexpr double grades[] = {45000, 70000, 100000, 140000};
  p.strip.board = grades[draw.below(4)] * std::exp(draw.normal(0, 0.25));
  p.strip.sole = 4000 * std::exp(draw.normal(0, 0.25));
  p.pull = even_pull(draw.chance(0.1) ? 0 : 0.03 * std::exp(draw.normal(0, 0.47)), p.clamp,
                     p.heel_front);
  if (draw.chance(0.3)) {
    p.strip.board_end = drawn.ball - draw.uniform(-4, 4);
  } else {
    const double reach = draw.uniform(0.75, 1.15);
    p.strip.board_end = drawn.ball - drawn.break_at + reach * (drawn.break_at - drawn.heel_front);
    p.strip.bevel = draw.chance(0.8) ? 12 : 0;
    p.strip.edge_ratio = p.strip.bevel > 0 ? 0.25 : 1;
  }
  return drawn;
}

std::string broken_condition(const ContactProblem& problem, const ContactSolution& solution,
                             double tolerance) {
  const ContactCurves& c = solution.curves;
  std::ostringstream fault;
  const double most = *std::max_element(c.gap.begin(), c.gap.end());
  double moment = 1e-3;
  for (const double m : c.moment)
    moment = std::max(moment, std::abs(m));
  double force = moment / (problem.end - problem.clamp);
  for (const ContactForce& f : solution.forces)
    force = std::max(force, f.force);
  const double gap = std::max(most, 1e-3);

  for (std::size_t i = 0; i < c.u.size(); ++i)
    if (!(c.gap[i] >= -tolerance * gap)) {
      fault << "enters the foot by " << -c.gap[i] << " at " << c.u[i];
      return fault.str();
    }
  for (const ContactForce& f : solution.forces) {
    if (!(f.force >= -tolerance * force)) {
      fault << "is pulled with " << -f.force << " at " << f.at;
      return fault.str();
    }
    const auto next = static_cast<std::size_t>(
        std::lower_bound(c.u.begin(), c.u.end(), f.at - 1e-9) - c.u.begin());
    if (next >= c.u.size() || f.force <= tolerance * force) continue;
    const double open = std::min(c.gap[next], c.gap[next == 0 ? 0 : next - 1]);
    if (open > tolerance * gap) {
      fault << "is pushed with " << f.force << " at " << f.at << ", " << open << " off the foot";
      return fault.str();
    }
  }
  for (std::size_t i = 0; i < c.u.size(); ++i) {
    double balance = -pull_moment_behind(problem, c.u[i]);
    for (const ContactForce& f : solution.forces)
      balance += f.force * std::max(0.0, f.at - c.u[i]);
    // A stretch on the foot is given by its millimetres' sums.
    const double allowed = solution.forces.size() > 1 ? 2e-3 : tolerance;
    if (std::abs(balance - c.moment[i]) > allowed * moment) {
      fault << "moment " << c.moment[i] << " against " << balance << " from the forces behind "
            << c.u[i];
      return fault.str();
    }
    const bool last_of_two = i > 0 && c.u[i] == c.u[i - 1];
    const bool first_of_two = i + 1 < c.u.size() && c.u[i] == c.u[i + 1];
    const Side side = first_of_two || i + 1 == c.u.size() ? Side::ball : Side::heel;
    if (first_of_two && last_of_two) continue;
    const double from_moment = own_curvature(problem.strip, c.u[i], side) +
                               c.moment[i] / bending_stiffness(problem.strip, c.u[i], side);
    if (std::abs(from_moment - c.curvature[i]) > 1e-6 * (1e-3 + std::abs(from_moment))) {
      fault << "curvature " << c.curvature[i] << " against " << from_moment << " at " << c.u[i];
      return fault.str();
    }
  }
  for (std::size_t i = 1; i < c.u.size(); ++i) {
    const double h = c.u[i] - c.u[i - 1];
    const double bow0 = c.curvature[i - 1] - c.foot[i - 1];
    const double bow1 = c.curvature[i] - c.foot[i];
    const double step = h * (c.slope[i - 1] + c.slope[i]) / 2 + h * h / 12 * (bow0 - bow1);
    if (std::abs(c.gap[i] - c.gap[i - 1] - step) > 1e-5 * gap) {
      fault << "the gap does not follow from the slope at " << c.u[i] << ": "
            << c.gap[i] - c.gap[i - 1] - step;
      return fault.str();
    }
    // Over a bevel the curvature is steep, and may have its top inside the cell.
    const double b0 = bending_stiffness(problem.strip, c.u[i - 1], Side::heel);
    const double b1 = bending_stiffness(problem.strip, c.u[i], Side::ball);
    const double allowed =
        std::abs(b1 - b0) > 1e-9 * b1 ? std::abs(bow1 - bow0) + 0.02 * std::abs(bow1) + 1e-9 : 2e-5;
    if (std::abs(c.slope[i] - c.slope[i - 1] - h * (bow0 + bow1) / 2) > allowed * h + 1e-8) {
      fault << "the slope does not follow from the curvature at " << c.u[i];
      return fault.str();
    }
  }
  return {};
}

} // namespace shankline::tests
