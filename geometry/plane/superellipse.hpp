// The rounded ends of boards and platforms: |x/a|^n + |y/b|^n = 1.
#pragma once

namespace shankline {

/// Height above the axis at x (|x| ≤ a) of a superellipse of half-width 1 and half-height 1:
/// (1 − |x|^n)^(1/n); 0 beyond the end.
double superellipse(double x, double exponent);

/// The point of the unit quarter superellipse at parameter t in [0, 1]: t = 0 is (1, 0), t = 1 is
/// (0, 1). Points crowd where the curve turns.
struct SuperellipsePoint {
  double x;
  double y;
};
SuperellipsePoint superellipse_at(double t, double exponent);

/// All the way round |x/a|^n + |y/b|^n = 1, n ≥ 1, by quadrature; good to 1e-9 of itself.
double superellipse_perimeter(double a, double b, double exponent);

/// 4ab Γ(1 + 1/n)²/Γ(1 + 2/n).
double superellipse_area(double a, double b, double exponent);

} // namespace shankline
