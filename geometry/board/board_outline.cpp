#include "geometry/board/board_outline.hpp"

#include "geometry/plane/flatten.hpp"
#include "geometry/plane/superellipse.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace shankline {
namespace {

/// A curve through the half-widths; if the board narrows inward from an end station, its slope
/// there is 0.
MonotoneCubic edge_curve(const std::vector<BoardWidth>& widths, double BoardWidth::*half) {
  std::vector<double> stations;
  std::vector<double> halves;
  for (const BoardWidth& width : widths) {
    stations.push_back(width.station);
    halves.push_back(width.*half);
  }
  MonotoneCubic free(stations, halves);
  std::optional<double> first;
  std::optional<double> last;
  if (free.slopes().front() < 0) first = 0;
  if (free.slopes().back() > 0) last = 0;
  if (!first && !last) return free;
  return MonotoneCubic(std::move(stations), std::move(halves), first, last);
}

/// Inverse of superellipse_at in its second coordinate.
double parameter_of(double u) {
  return std::asin(std::pow(std::clamp(u, 0.0, 1.0), end_exponent / 2)) * 2 / std::numbers::pi;
}

} // namespace

BoardOutline::BoardOutline(const std::vector<BoardWidth>& widths, std::optional<double> length)
    : medial_(edge_curve(widths, &BoardWidth::medial)),
      lateral_(edge_curve(widths, &BoardWidth::lateral)), length_(length) {
  if (!(medial_.x().front() > 0) || (length_ && !(medial_.x().back() < *length_)))
    throw std::invalid_argument("board outline: stations must lie inside the board");
}

double BoardOutline::half_width(Edge edge, double station) const {
  const MonotoneCubic& curve = edge == Edge::medial ? medial_ : lateral_;
  const double first = curve.x().front();
  const double last = curve.x().back();
  if (station <= 0 || (length_ && station >= *length_)) return 0;
  if (station < first)
    return (curve(first) + curve.slopes().front() * (station - first)) *
           superellipse((first - station) / first, end_exponent);
  if (station > last && length_)
    return (curve(last) + curve.slopes().back() * (station - last)) *
           superellipse((station - last) / (*length_ - last), end_exponent);
  return curve(station);
}

double BoardOutline::edge_angle(Edge edge, double station) const {
  const MonotoneCubic& curve = edge == Edge::medial ? medial_ : lateral_;
  const double first = curve.x().front();
  const double last = curve.x().back();
  // The slope of an end (w + w′v)·f(u): both parts are taken times f^(n−1), which is 0 at the very
  // tip.
  const auto end_angle = [](double width, double slope, double v, double u, double span) {
    const double f = superellipse(u, end_exponent);
    const double scale = std::pow(f, end_exponent - 1);
    return std::atan2(
        slope * f * scale + (width + slope * v) * std::pow(u, end_exponent - 1) / span, scale);
  };
  if (station < first)
    return end_angle(curve(first), curve.slopes().front(), station - first,
                     (first - station) / first, first);
  if (length_ && station > last)
    return -end_angle(curve(last), -curve.slopes().back(), last - station,
                      (station - last) / (*length_ - last), *length_ - last);
  return std::atan(curve.slope(station));
}

double BoardOutline::edge_y(Edge edge, double station) const {
  return edge == Edge::medial ? half_width(edge, station) : -half_width(edge, station);
}

std::vector<BoardOutline::Piece> BoardOutline::pieces(Edge edge, double from, double to) const {
  const double first = medial_.x().front();
  const double last = medial_.x().back();
  const MonotoneCubic& curve = edge == Edge::medial ? medial_ : lateral_;
  const double side = edge == Edge::medial ? 1 : -1;
  const auto at = [this, edge](double station) { return Point{station, edge_y(edge, station)}; };
  std::vector<Piece> pieces;

  // The ends are run through by the superellipse's own parameter: it takes the steep tips evenly.
  if (from < first) {
    const double end = std::min(to, first);
    const double width = curve(first);
    const double slope = curve.slopes().front();
    pieces.push_back({[=](double t) {
                        const SuperellipsePoint p = superellipse_at(t, end_exponent);
                        return Point{first * (1 - p.y), side * (width - slope * first * p.y) * p.x};
                      },
                      parameter_of((first - from) / first), parameter_of((first - end) / first),
                      at(from), at(end)});
  }
  const double middle_end = length_ ? std::min(to, last) : to;
  double begin = std::max(from, first);
  for (const double knot : medial_.x()) {
    if (knot <= begin || knot >= middle_end) continue;
    pieces.push_back({at, begin, knot, at(begin), at(knot)});
    begin = knot;
  }
  if (middle_end > begin) pieces.push_back({at, begin, middle_end, at(begin), at(middle_end)});
  if (length_ && to > last) {
    const double start = std::max(from, last);
    const double span = *length_ - last;
    const double width = curve(last);
    const double slope = curve.slopes().back();
    pieces.push_back({[=](double t) {
                        const SuperellipsePoint p = superellipse_at(t, end_exponent);
                        return Point{last + span * p.y, side * (width + slope * span * p.y) * p.x};
                      },
                      parameter_of((start - last) / span), parameter_of((to - last) / span),
                      at(start), at(to)});
  }
  return pieces;
}

Polyline BoardOutline::edge_line(Edge edge, double from, double to, double chord_error) const {
  Polyline line{{from, edge_y(edge, from)}};
  for (const Piece& piece : pieces(edge, from, to)) {
    Polyline points = flatten(piece.at, piece.from, piece.to, chord_error);
    points.front() = piece.first;
    points.back() = piece.last;
    join(line, points);
  }
  return line;
}

Polyline BoardOutline::edge_points(Edge edge, double from, double to, double step) const {
  Polyline line{{from, edge_y(edge, from)}};
  for (const Piece& piece : pieces(edge, from, to)) {
    const double along = std::hypot(piece.last.x - piece.first.x, piece.last.y - piece.first.y);
    const int parts = std::max(1, static_cast<int>(std::ceil(along / step)));
    for (int i = 1; i < parts; ++i) {
      const double share = (1 - std::cos(std::numbers::pi * i / parts)) / 2;
      line.push_back(piece.at(piece.from + (piece.to - piece.from) * share));
    }
    line.push_back(piece.last);
  }
  return line;
}

Polygon BoardOutline::polygon(double chord_error) const {
  if (!length_) throw std::logic_error("the outline of a board in the shoe is open");
  Polygon polygon = edge_line(Edge::lateral, 0, *length_, chord_error);
  Polyline back = edge_line(Edge::medial, 0, *length_, chord_error);
  std::reverse(back.begin(), back.end());
  join(polygon, back);
  polygon.pop_back(); // the heel end again
  return polygon;
}

Polyline BoardOutline::open_line(double front, double chord_error) const {
  Polyline line = edge_line(Edge::medial, 0, front, chord_error);
  std::reverse(line.begin(), line.end());
  join(line, edge_line(Edge::lateral, 0, front, chord_error));
  return line;
}

} // namespace shankline
