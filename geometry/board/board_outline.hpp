// The outline of the board: measured half-widths, joined smoothly, rounded at both ends.
#pragma once

#include "geometry/numerics/monotone_cubic.hpp"
#include "geometry/order/order.hpp"
#include "geometry/plane/point.hpp"

#include <functional>
#include <optional>
#include <vector>

namespace shankline {

enum class Edge { medial, lateral };

/// Exponent of the superellipse that rounds the ends.
inline constexpr double end_exponent = 2.5;

/// mm past the last measured width of a board in the shoe to which that width may be held: from
/// memory, common practice.
inline constexpr double held_past_last = 15;

/// Between stations a monotone cubic; beyond the first and the last a superellipse that joins with
/// a common tangent and closes at the board's end. Where the board narrows inward from its end
/// station, the slope there is 0 for curve and end alike.
///
/// Of a board in the shoe only the heel part is known: the outline is open at the front, at the
/// last station, and the width is held beyond it.
class BoardOutline {
public:
  /// Stations rise and lie inside (0, length); throws std::invalid_argument otherwise (see
  /// board_check.hpp for the errors that a user gets).
  BoardOutline(const std::vector<BoardWidth>& widths, std::optional<double> length);

  /// Half-width at station X, 0 outside the board. The closed front is absent if the length is.
  double half_width(Edge edge, double station) const;

  /// y of the edge: +half-width of the medial edge, −half-width of the lateral one.
  double edge_y(Edge edge, double station) const;

  /// Direction of the edge towards the toes, radians from the centre line: positive where the
  /// half-width grows. A quarter turn at the heel end.
  double edge_angle(Edge edge, double station) const;

  bool closed() const { return length_.has_value(); }
  std::optional<double> length() const { return length_; }
  double last_station() const { return medial_.x().back(); }

  /// One edge between two stations as points, from low X to high X, chord error at most
  /// `chord_error`. Both end points are on the line.
  Polyline edge_line(Edge edge, double from, double to, double chord_error = 0.02) const;

  /// Returns points on the edge from `from` to `to`, about `step` apart (mm); they are closer
  /// towards the ends of each piece, where the superellipse's curvature changes fast.
  Polyline edge_points(Edge edge, double from, double to, double step) const;

  /// Closed boards: counter-clockwise from the heel end up the lateral edge, round the toe and
  /// back along the medial one, no point twice.
  Polygon polygon(double chord_error = 0.02) const;

  /// Both edges from the last known station round the heel end, medial first: the whole outline of
  /// a board in the shoe; of a closed board the outline cut open at station `front`.
  Polyline open_line(double front, double chord_error = 0.02) const;

private:
  /// A stretch of an edge without a corner, by a parameter of its own.
  struct Piece {
    std::function<Point(double)> at;
    double from;
    double to;
    Point first; ///< where it begins and ends, to the last digit
    Point last;
  };
  std::vector<Piece> pieces(Edge edge, double from, double to) const;

  MonotoneCubic medial_;
  MonotoneCubic lateral_;
  std::optional<double> length_;
};

} // namespace shankline
