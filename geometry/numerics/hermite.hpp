// Hermite's cubic: the curve of third degree with given values and slopes at both ends of a span.
#pragma once

namespace shankline {

struct HermiteEnd {
  double value;
  double slope;
};

/// The cubic's value at the share s of `span`, 0 at the first end and 1 at the second.
inline double hermite(const HermiteEnd& a, const HermiteEnd& b, double span, double s) {
  const double r = 1 - s;
  return a.value * (1 + 2 * s) * r * r + b.value * (3 - 2 * s) * s * s +
         span * s * r * (a.slope * r - b.slope * s);
}

/// Its slope there: a parabola.
inline double hermite_slope(const HermiteEnd& a, const HermiteEnd& b, double span, double s) {
  const double r = 1 - s;
  const double secant = (b.value - a.value) / span;
  return 6 * s * r * secant + a.slope * r * (1 - 3 * s) + b.slope * s * (3 * s - 2);
}

} // namespace shankline
