#include "geometry/uncertainty/page_correction.hpp"

#include "geometry/order/figure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>
#include <string>
#include <utility>

namespace shankline {
namespace {

using Three = std::array<double, 3>; // x_scale, y_scale, sin(skew)
using Matrix = std::array<Three, 3>;

constexpr const char* true_size_advice =
    "In the print dialog choose \"actual size\" or 100 % and switch off \"fit to page\" and "
    "\"shrink to printable area\"; print the sheet again and measure that one.";

// Four readings, three unknowns: what is left over is one deviation of the readings, here four of
// their standard uncertainties.
const double reading_u = ruler_reading / std::numbers::sqrt3;
const double most_residual = 4 * reading_u;

struct Row {
  double length = 0;
  Three slope{};
};

Row diagonal(const CalibrationFrame& frame, const Three& p, double sign) {
  const double w = frame.width * p[0];
  const double h = frame.height * p[1];
  const double q = sign * p[2];
  const double length = std::sqrt(w * w + h * h + 2 * w * h * q);
  return {length,
          {frame.width * (w + h * q) / length, frame.height * (h + w * q) / length,
           sign * w * h / length}};
}

std::array<Row, 4> rows(const CalibrationFrame& frame, const Three& p) {
  return {Row{frame.width * p[0], {frame.width, 0, 0}},
          Row{frame.height * p[1], {0, frame.height, 0}}, diagonal(frame, p, 1),
          diagonal(frame, p, -1)};
}

Three cross(const Three& a, const Three& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

double dot(const Three& a, const Three& b) {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

Matrix inverse(const Matrix& symmetric) {
  const auto& [a, b, c] = symmetric;
  const double determinant = dot(a, cross(b, c));
  Matrix result{cross(b, c), cross(c, a), cross(a, b)};
  for (Three& row : result)
    for (double& value : row)
      value /= determinant;
  return result;
}

Matrix normal_matrix(const std::array<Row, 4>& fit) {
  Matrix normal{};
  for (const Row& row : fit)
    for (std::size_t i = 0; i < 3; ++i)
      for (std::size_t j = 0; j < 3; ++j)
        normal[i][j] += row.slope[i] * row.slope[j];
  return normal;
}

struct NamedLength {
  const char* key;
  const char* words;
  double drawn;
  double measured;
};

std::array<NamedLength, 4> named(const CalibrationFrame& frame, const PrintedLengths& lengths) {
  return {NamedLength{"measured.across", "A to B", frame.width, lengths.across},
          {"measured.up", "A to D", frame.height, lengths.up},
          {"measured.rising", "A to C", frame.diagonal(), lengths.rising},
          {"measured.falling", "B to D", frame.diagonal(), lengths.falling}};
}

Findings refused_lengths(const std::array<NamedLength, 4>& lengths) {
  Findings findings;
  for (const NamedLength& length : lengths) {
    const double least = length.drawn * (1 - most_scale_error);
    const double most = length.drawn * (1 + most_scale_error);
    if (length.measured >= least && length.measured <= most) continue;
    const bool scaled = length.measured > 0.5 * length.drawn && length.measured < 2 * length.drawn;
    findings.push_back(
        {Severity::error, length.key,
         std::string(length.words) + " measures " + figure(length.measured) + " where " +
             figure(length.drawn) + " was drawn" +
             (scaled ? ": the page was scaled when it was printed" : ": this is no such length"),
         figure(std::ceil(least * 10) / 10) + " to " + figure(std::floor(most * 10) / 10) + " mm",
         scaled ? true_size_advice : "Measure from cross to cross, in millimetres."});
  }
  return findings;
}

struct LeastSquares {
  Three at{};
  Matrix covariance{}; ///< for readings of unit variance
  double residual = 0;
};

/// Gauss and Newton, from what the two sides say alone.
LeastSquares fitted(const CalibrationFrame& frame, const std::array<NamedLength, 4>& lengths) {
  LeastSquares found;
  Three& p = found.at;
  p = {lengths[0].measured / frame.width, lengths[1].measured / frame.height, 0};
  constexpr int steps = 12; // close to linear: four are enough
  for (int step = 0; step < steps; ++step) {
    const auto fit = rows(frame, p);
    found.covariance = inverse(normal_matrix(fit));
    Three gradient{};
    for (std::size_t i = 0; i < fit.size(); ++i)
      for (std::size_t j = 0; j < 3; ++j)
        gradient[j] += fit[i].slope[j] * (lengths[i].measured - fit[i].length);
    for (std::size_t j = 0; j < 3; ++j)
      p[j] += dot(found.covariance[j], gradient);
  }
  const auto fit = rows(frame, p);
  double squares = 0;
  for (std::size_t i = 0; i < fit.size(); ++i)
    squares += std::pow(lengths[i].measured - fit[i].length, 2);
  found.residual = std::sqrt(squares);
  return found;
}

/// Why the four lengths cannot be those of one printed page; nullopt if they can.
std::optional<Finding> not_one_page(const Calibration& found, const PrintedLengths& lengths) {
  if (found.residual > most_residual)
    return Finding{
        Severity::error, "measured",
        "these four lengths do not belong to one page: with such sides both diagonals together "
        "would be " +
            figure(2 * std::hypot(lengths.across, lengths.up)) + ", and they measure " +
            figure(lengths.rising + lengths.falling),
        "a disagreement of at most " + figure(most_residual) + " mm in all",
        "Measure each again, from the middle of one cross to the middle of the other."};
  if (std::abs(found.correction.skew) > most_skew)
    return Finding{Severity::error, "measured",
                   "these diagonals differ by " +
                       figure(std::abs(lengths.rising - lengths.falling)) + ": the page would be " +
                       figure(std::abs(found.correction.skew) / degree) + "\u00b0 askew",
                   "at most 1\u00b0", "Measure both diagonals again; then print the sheet again."};
  return {};
}

} // namespace

double CalibrationFrame::diagonal() const {
  return std::hypot(width, height);
}

Point PageCorrection::printed(const Point& drawn) const {
  return {x_scale * drawn.x + y_scale * std::sin(skew) * drawn.y,
          y_scale * std::cos(skew) * drawn.y};
}

Point PageCorrection::drawn(const Point& wanted) const {
  const double y = wanted.y / (y_scale * std::cos(skew));
  return {(wanted.x - y_scale * std::sin(skew) * y) / x_scale, y};
}

Calibration calibrate(const CalibrationFrame& frame, const PrintedLengths& lengths) {
  Calibration found;
  const auto named_lengths = named(frame, lengths);
  found.findings = refused_lengths(named_lengths);
  if (!found.findings.empty()) return found;

  const LeastSquares fit = fitted(frame, named_lengths);
  found.is_true = std::all_of(named_lengths.begin(), named_lengths.end(), [](const NamedLength& l) {
    return std::abs(l.measured - l.drawn) <= ruler_reading;
  });
  found.residual = fit.residual;
  found.correction = {fit.at[0], fit.at[1], std::asin(fit.at[2])};
  constexpr double two = 2; // k for 95 %, normal
  const Matrix& covariance = fit.covariance;
  found.scale_x_U = two * reading_u * std::sqrt(covariance[0][0]);
  found.scale_y_U = two * reading_u * std::sqrt(covariance[1][1]);
  found.skew_U = two * reading_u * std::sqrt(covariance[2][2]) / std::cos(found.correction.skew);
  if (auto no_page = not_one_page(found, lengths)) found.findings.push_back(std::move(*no_page));
  return found;
}

} // namespace shankline
