// Finds how a printer distorts a page, from four lengths measured on a printed sheet, and corrects
// the drawing so that the paper comes out true.
#pragma once

#include "geometry/numerics/degree.hpp"
#include "geometry/order/finding.hpp"
#include "geometry/plane/point.hpp"

namespace shankline {

/// A rectangle A (lower left), B, C, D counter-clockwise, as it is drawn; mm.
struct CalibrationFrame {
  double width = 0;
  double height = 0;

  double diagonal() const;
};

/// Lengths read by a ruler on the print, mm.
struct PrintedLengths {
  double across = 0;  ///< A to B
  double up = 0;      ///< A to D
  double rising = 0;  ///< A to C
  double falling = 0; ///< B to D
};

/// A ruler is read to this, either way (from memory; common practice).
inline constexpr double ruler_reading = 0.25;

/// Beyond this the print dialog has scaled the page, not the printer.
inline constexpr double most_scale_error = 0.06;
inline constexpr double most_skew = degree; ///< beyond it a reading is wrong

/// The affine map of a printer, but for where it puts and how it turns the page, which no length
/// tells and no template needs: (x, y) is printed at
///   (x_scale x + y_scale sin(skew) y, y_scale cos(skew) y).
struct PageCorrection {
  double x_scale = 1; ///< printed over drawn
  double y_scale = 1;
  double skew = 0; ///< radians that the y direction leans towards x

  Point printed(const Point& drawn) const;
  /// Returns the point to draw so that `wanted` is printed: the inverse of printed().
  Point drawn(const Point& wanted) const;
  /// This printer's correction for a page that lies on its side.
  PageCorrection turned() const { return {y_scale, x_scale, -skew}; }
};

struct Calibration {
  PageCorrection correction;
  double residual = 0; ///< mm, the root of the sum of squares over the four readings
  /// Expanded uncertainties at 95 % from the ruler's readings alone (JCGM 100:2008, 5.1.2; H.3.2
  /// for a fit by least squares).
  double scale_x_U = 0;
  double scale_y_U = 0;
  double skew_U = 0;
  /// True if no reading differs from the drawn length by more than the ruler's reading uncertainty.
  bool is_true = false;
  Findings findings; ///< keys measured.across, .up, .rising, .falling, or measured
};

/// Least squares over the four lengths for the three unknowns. With an error among the findings the
/// correction is not to be used.
Calibration calibrate(const CalibrationFrame& frame, const PrintedLengths& lengths);

} // namespace shankline
