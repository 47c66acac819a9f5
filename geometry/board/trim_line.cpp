#include "geometry/board/trim_line.hpp"

#include "geometry/numerics/bracketed_root.hpp"
#include "geometry/plane/flatten.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace shankline {
namespace {

std::optional<Point> meet_edge(const BoardOutline& outline, Edge edge, double centre,
                               double slope) {
  const auto off = [&](double station) {
    return station - centre - slope * outline.edge_y(edge, station);
  };
  // The line runs out to the edge, never back: towards the toes or towards the heel.
  const bool forward = (edge == Edge::medial) == (slope > 0);
  const double front = outline.length().value_or(centre + outline.last_station());
  const auto station = slope == 0
                           ? std::optional<double>(centre)
                           : bracketed_root(off, forward ? centre : 0.0, forward ? front : centre);
  if (!station) return {};
  const double y = outline.edge_y(edge, *station);
  if (y == 0) return {};
  return Point{*station, y};
}

struct Corner {
  Point on_edge;
  Point on_line;
  Point centre;
};

/// The circle of radius `corner` that touches the edge and, from ahead, the line.
std::optional<Corner> corner_circle(const BoardOutline& outline, const CutLine& line, Edge edge,
                                    double corner) {
  const Point along{line.medial_end.x - line.lateral_end.x, line.medial_end.y - line.lateral_end.y};
  const double across = std::hypot(along.x, along.y);
  const Point ahead{along.y / across, -along.x / across}; // unit normal towards the toes
  const double inward = edge == Edge::medial ? -1 : 1;

  const auto centre_at = [&](double station) {
    constexpr double step = 1e-4;
    const double slope =
        (outline.edge_y(edge, station + step) - outline.edge_y(edge, station - step)) / (2 * step);
    const double scale = corner * inward / std::hypot(1, slope);
    return Point{station - slope * scale, outline.edge_y(edge, station) + scale};
  };
  const auto ahead_of_line = [&](const Point& p) {
    return (p.x - line.centre) * ahead.x + p.y * ahead.y;
  };
  const double from = edge == Edge::medial ? line.medial : line.lateral;
  const auto station = bracketed_root(
      [&](double x) { return ahead_of_line(centre_at(x)) - corner; }, from, from + 3 * corner);
  if (!station) return {};
  const Point centre = centre_at(*station);
  return Corner{{*station, outline.edge_y(edge, *station)},
                {centre.x - corner * ahead.x, centre.y - corner * ahead.y},
                centre};
}

} // namespace

std::optional<CutLine> cut_line(const BoardOutline& outline, BoardStation centre, double skew) {
  if (!(centre > 0) || (outline.length() && !(centre < *outline.length()))) return {};
  const auto medial = meet_edge(outline, Edge::medial, centre, std::tan(skew));
  const auto lateral = meet_edge(outline, Edge::lateral, centre, std::tan(skew));
  if (!medial || !lateral) return {};
  return CutLine{centre, BoardStation(medial->x), BoardStation(lateral->x), *medial, *lateral};
}

double skew_angle(FootStation medial, FootStation lateral, double across) {
  return std::atan((medial - lateral) / across);
}

ReachRule rule_of(const ReachPreset& preset) {
  return {preset.reach, std::string(preset.name)};
}

FootStation station_of_reach(double reach, FootStation break_at, FootStation heel_front) {
  return break_at - reach * (break_at - heel_front);
}

double reach_of_station(FootStation station, FootStation break_at, FootStation heel_front) {
  return (break_at - station) / (break_at - heel_front);
}

RuleLine rule_line(const TrimRule& rule, FootStation break_at, FootStation heel_front,
                   const Frames& frames, const RuleReadings& readings) {
  if (const auto* reach = std::get_if<ReachRule>(&rule)) {
    const FootStation at = station_of_reach(reach->reach, break_at, heel_front);
    return {at, frames.on_board(at)};
  }
  if (std::holds_alternative<LearnedRule>(rule)) {
    const FootStation at(readings.learned);
    return {at, frames.on_board(at)};
  }
  const auto* keep = std::get_if<KeepRule>(&rule);
  const BoardStation at(keep ? (1 - keep->keep) * readings.whole : readings.mark);
  return {frames.on_foot(at), at};
}

double ahead_of(const CutLine& line, const Point& p) {
  const Point& from = line.lateral_end;
  const double slope = (line.medial_end.x - from.x) / (line.medial_end.y - from.y);
  return p.x - from.x - slope * (p.y - from.y);
}

Window trim_window(FootStation break_at, FootStation heel_front, double tuck_max,
                   double bearing_min) {
  return {heel_front - tuck_max, break_at - bearing_min};
}

BoardStation witness_station(BoardStation stop) {
  return BoardStation(std::ceil((stop.mm() + witness_ahead_of_stop - 1e-9) / 10) * 10);
}

std::optional<Polyline> board_end(const BoardOutline& outline, const CutLine& line, BoardEnd end,
                                  double corner, double chord_error) {
  if (!std::isfinite(corner) || corner < 0) return {};
  if (end == BoardEnd::straight || corner == 0) return Polyline{line.medial_end, line.lateral_end};
  const auto medial = corner_circle(outline, line, Edge::medial, corner);
  const auto lateral = corner_circle(outline, line, Edge::lateral, corner);
  if (!medial || !lateral || !(medial->on_line.y > lateral->on_line.y)) return {};
  Polyline points = flatten_arc(medial->centre, medial->on_edge, medial->on_line, chord_error);
  join(points, flatten_arc(lateral->centre, lateral->on_line, lateral->on_edge, chord_error));
  return points;
}

std::array<Polyline, 2> end_corners(const Polyline& end, const CutLine& line) {
  if (end.size() <= 2) return {};
  const auto on_line = [&](const Point& p) {
    constexpr double rounding_error = 1e-6;
    return std::abs(ahead_of(line, p)) < rounding_error;
  };
  const auto first = std::find_if(end.begin(), end.end(), on_line);
  const auto last = std::find_if(end.rbegin(), end.rend(), on_line).base();
  if (first == end.end()) return {end, {}};
  return {Polyline(end.begin(), first + 1), Polyline(last - 1, end.end())};
}

} // namespace shankline
