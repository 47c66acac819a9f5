// The arch by brute force: the curvature formula, steps and sums, and nothing of the code under
// test. Stations from the ball along the sole, ball at (0, 0), setting out along +x.
#pragma once

#include "geometry/plane/point.hpp"

#include <vector>

namespace shankline::tests {

struct BruteArch {
  double to_break;
  double to_chord_end;
  double width_front;
  double width_heel;
  double bend;

  double curvature(double u) const;
};

/// Heel pad's middle as the end of the straightedge.
BruteArch brute_arch(double ball, double break_at, double heel_front, double bend);

/// Angle and place at evenly spaced u from 0 to `to`, by the classical Runge–Kutta rule.
struct BruteSole {
  std::vector<double> u;
  std::vector<double> angle;
  std::vector<Point> place;
};
BruteSole trace(const BruteArch& arch, double to, int steps);

struct BruteDepth {
  double depth;
  double at_u;
};
BruteDepth brute_depth(const BruteArch& arch, int steps = 4000);

/// By bisection between 0 and 90°.
double brute_bend(BruteArch arch, double depth, int steps = 2000);

} // namespace shankline::tests
