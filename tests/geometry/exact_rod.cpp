#include "tests/geometry/exact_rod.hpp"

#include "tests/geometry/arch_by_quadrature.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace shankline::tests {
namespace {

/// Newtons per millimetre of entry and millimetre of rod: a few newtons enter by some micrometres.
/// Fifty times as stiff gives the same shapes.
constexpr double penalty = 1000;
constexpr double table_step = 0.05;

double stiffness_at(const Strip& s, double u) {
  if (u > s.board_end) return s.sole;
  double ratio = 1;
  if (s.thinned && u > s.thinned->from - s.thinned->bevel && u < s.thinned->to) {
    const double run = std::max(0.0, s.thinned->from - u);
    ratio = s.thinned->ratio;
    if (run > 0) ratio += (1 - ratio) * run / s.thinned->bevel;
  }
  if (s.board_end - u < s.bevel)
    ratio = s.edge_ratio + (1 - s.edge_ratio) * (s.board_end - u) / s.bevel;
  return s.sole + s.board * ratio * ratio * ratio;
}

/// Joints give as much as the strip between the middles of their links.
double joint_stiffness(const Strip& s, double from, double to) {
  constexpr int parts = 200;
  double give = 0;
  for (int i = 0; i < parts; ++i)
    give += (to - from) / parts / stiffness_at(s, from + (to - from) * (i + 0.5) / parts);
  return 1 / give;
}

/// The foot as a table of places and angles, from the clamp on, straight beyond both ends.
class FootCurve {
public:
  explicit FootCurve(const ContactProblem& p) {
    BruteArch arch{p.arch.to_break, p.arch.to_chord_end, p.arch.width_front, p.arch.width_heel,
                   p.arch.bend};
    arch.to_break -= p.clamp;
    const double length = p.end - p.clamp + 40;
    const int steps = static_cast<int>(length / table_step);
    sole_ = trace(arch, steps * table_step, steps);
  }

  struct Near {
    double distance; ///< positive off the foot
    double nx, ny;   ///< square to it, outwards
  };
  /// `t` is a guess of where along the foot, and the answer.
  Near nearest(double x, double y, double& t) const {
    double angle = 0;
    double px = 0;
    double py = 0;
    for (int i = 0; i < 20; ++i) {
      const double last = static_cast<double>(sole_.u.size() - 2) * table_step;
      const double in = std::clamp(t, 0.0, last);
      const auto k = static_cast<std::size_t>(in / table_step);
      const double s = t - sole_.u[k];
      const double bend = (sole_.angle[k + 1] - sole_.angle[k]) / table_step;
      const bool inside = t >= 0 && t <= last;
      angle = sole_.angle[k] + (inside ? bend * s : 0);
      const double middle = sole_.angle[k] + (inside ? bend * s / 2 : 0);
      px = sole_.place[k].x + s * std::cos(middle);
      py = sole_.place[k].y + s * std::sin(middle);
      const double along = (x - px) * std::cos(angle) + (y - py) * std::sin(angle);
      t += along;
      if (std::abs(along) < 1e-10) break;
    }
    const double nx = -std::sin(angle);
    const double ny = std::cos(angle);
    return {(x - px) * nx + (y - py) * ny, nx, ny};
  }

private:
  BruteSole sole_;
};

class Rod {
public:
  Rod(const ContactProblem& p, int links)
      : n_(static_cast<std::size_t>(links)), h_((p.end - p.clamp) / links), foot_(p), joint_(n_),
        pull_(n_), angle_(n_, 0), t_(n_) {
    for (std::size_t i = 0; i < n_; ++i) {
      const double u = p.clamp + h_ * static_cast<double>(i); // joint ahead of link i
      joint_[i] = joint_stiffness(p.strip, std::max(p.clamp, u - h_ / 2), u + h_ / 2);
      const double at = u + h_; // the link's far end
      t_[i] = at - p.clamp;
      for (const PullStretch& pull : p.pull) { // what falls on half a link either side
        const double from = std::max(pull.from, at - h_ / 2);
        const double to = std::min({pull.to, at + h_ / 2, p.end});
        if (from < to)
          pull_[i] += (to - from) *
                      (pull.at_from + (pull.at_to - pull.at_from) * ((from + to) / 2 - pull.from) /
                                          (pull.to - pull.from));
      }
    }
  }

  RodShape solve() {
    RodShape shape;
    shape.step = h_;
    double energy = look(true);
    double damping = 1e-3;
    for (int step = 0; step < 400; ++step) {
      double steepest = 0;
      for (const double g : gradient_)
        steepest = std::max(steepest, std::abs(g));
      if (steepest < 1e-7) {
        shape.converged = true;
        break;
      }
      std::vector<double> move = newton(damping);
      if (move.empty()) {
        damping = std::max(1.0, 10 * damping);
        continue;
      }
      const std::vector<double> from = angle_;
      for (std::size_t i = 0; i < n_; ++i)
        angle_[i] += std::clamp(move[i], -0.1, 0.1);
      const double next = look(false);
      if (next <= energy + 1e-12 * (1 + std::abs(energy))) {
        energy = next;
        damping = std::max(1e-9, damping / 5);
      } else {
        angle_ = from;
        damping = std::max(1e-6, 6 * damping);
        if (damping > 1e12) break;
      }
      look(true);
    }
    double before = 0;
    shape.u.push_back(0);
    shape.gap.push_back(0);
    for (std::size_t i = 0; i < n_; ++i) {
      const double length = i == 0 ? h_ / 2 : h_;
      shape.curvature.push_back((angle_[i] - before) / length);
      before = angle_[i];
      shape.u.push_back(h_ * static_cast<double>(i + 1));
      shape.gap.push_back(near_[i].distance);
      shape.largest_gap = std::max(shape.largest_gap, near_[i].distance);
    }
    return shape;
  }

private:
  /// Energy of the present angles; with its slopes when asked for.
  double look(bool with_gradient) {
    near_.resize(n_);
    double x = 0, y = 0, energy = 0, before = 0;
    for (std::size_t i = 0; i < n_; ++i) {
      x += h_ * std::cos(angle_[i]);
      y += h_ * std::sin(angle_[i]);
      near_[i] = foot_.nearest(x, y, t_[i]);
      const double d = near_[i].distance;
      const double turn = angle_[i] - before;
      before = angle_[i];
      energy += joint_[i] * turn * turn / 2 + pull_[i] * d;
      if (d < 0) energy += penalty * h_ * d * d / 2;
    }
    if (!with_gradient) return energy;
    gradient_.assign(n_, 0);
    force_.resize(n_);
    double fx = 0, fy = 0; // of everything from here to the end
    for (std::size_t i = n_; i-- > 0;) {
      const FootCurve::Near& near = near_[i];
      const double f = pull_[i] + (near.distance < 0 ? penalty * h_ * near.distance : 0);
      fx += f * near.nx;
      fy += f * near.ny;
      force_[i] = {fx, fy};
      gradient_[i] = h_ * (-std::sin(angle_[i]) * fx + std::cos(angle_[i]) * fy) +
                     joint_[i] * (angle_[i] - (i == 0 ? 0 : angle_[i - 1])) -
                     (i + 1 < n_ ? joint_[i + 1] * (angle_[i + 1] - angle_[i]) : 0);
    }
    return energy;
  }

  /// The step of Newton's method, damped; empty where the matrix is not positive.
  std::vector<double> newton(double damping) const {
    std::vector<double> a(n_ * n_, 0);
    double xx = 0, xy = 0, yy = 0; // stiffness of the foot from here to the end
    for (std::size_t i = n_; i-- > 0;) {
      if (near_[i].distance < 0) {
        xx += penalty * h_ * near_[i].nx * near_[i].nx;
        xy += penalty * h_ * near_[i].nx * near_[i].ny;
        yy += penalty * h_ * near_[i].ny * near_[i].ny;
      }
      const double ni = -std::sin(angle_[i]);
      const double mi = std::cos(angle_[i]);
      const double px = ni * xx + mi * xy;
      const double py = ni * xy + mi * yy;
      for (std::size_t k = 0; k <= i; ++k)
        a[i * n_ + k] = h_ * h_ * (px * -std::sin(angle_[k]) + py * std::cos(angle_[k]));
      a[i * n_ + i] += joint_[i] + (i + 1 < n_ ? joint_[i + 1] : 0) + damping -
                       h_ * (std::cos(angle_[i]) * force_[i].x + std::sin(angle_[i]) * force_[i].y);
      if (i > 0) a[i * n_ + i - 1] -= joint_[i];
    }
    for (std::size_t j = 0; j < n_; ++j) { // Cholesky
      for (std::size_t i = j; i < n_; ++i) {
        double sum = a[i * n_ + j];
        for (std::size_t k = 0; k < j; ++k)
          sum -= a[i * n_ + k] * a[j * n_ + k];
        if (i == j) {
          if (!(sum > 0)) return {};
          a[j * n_ + j] = std::sqrt(sum);
        } else {
          a[i * n_ + j] = sum / a[j * n_ + j];
        }
      }
    }
    std::vector<double> b(n_);
    for (std::size_t i = 0; i < n_; ++i) {
      double sum = -gradient_[i];
      for (std::size_t k = 0; k < i; ++k)
        sum -= a[i * n_ + k] * b[k];
      b[i] = sum / a[i * n_ + i];
    }
    for (std::size_t i = n_; i-- > 0;) {
      double sum = b[i];
      for (std::size_t k = i + 1; k < n_; ++k)
        sum -= a[k * n_ + i] * b[k];
      b[i] = sum / a[i * n_ + i];
    }
    return b;
  }

  std::size_t n_;
  double h_;
  FootCurve foot_;
  std::vector<double> joint_, pull_, angle_, gradient_;
  mutable std::vector<double> t_;
  std::vector<FootCurve::Near> near_;
  std::vector<Point> force_;
};

} // namespace

RodShape exact_rod(const ContactProblem& problem, int links) {
  // The clamp's tangent is the foot's own there: the foot is traced from it.
  RodShape shape = Rod(problem, links).solve();
  for (double& u : shape.u)
    u += problem.clamp;
  return shape;
}

} // namespace shankline::tests
