#include "geometry/sole_edge.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <utility>

namespace shankline {

SoleEdge::SoleEdge(std::vector<Node> nodes) : nodes_(std::move(nodes)) {
  const auto not_rising = [](const Node& a, const Node& b) { return !(b.t > a.t); };
  if (nodes_.size() < 2 ||
      std::adjacent_find(nodes_.begin(), nodes_.end(), not_rising) != nodes_.end())
    throw std::invalid_argument("sole edge: arc lengths must rise");
}

template <class Value> double SoleEdge::between(double t, Value Node::*value) const {
  const auto above = std::upper_bound(nodes_.begin() + 1, nodes_.end() - 1, t,
                                      [](double at, const Node& node) { return at < node.t; });
  const Node& a = *(above - 1);
  const Node& b = *above;
  return a.*value + (b.*value - a.*value) * (t - a.t) / (b.t - a.t);
}

double SoleEdge::turned(double t) const {
  return between(t, &Node::turned);
}
double SoleEdge::station(double t) const {
  return between(t, &Node::station);
}
double SoleEdge::out(double t) const {
  return between(t, &Node::out);
}

std::optional<double> SoleEdge::at_station(double station) const {
  if (station < nodes_.front().station || station > nodes_.back().station) return {};
  const auto above =
      std::upper_bound(nodes_.begin() + 1, nodes_.end() - 1, station,
                       [](double at, const Node& node) { return at < node.station; });
  const Node& a = *(above - 1);
  const Node& b = *above;
  if (b.station == a.station) return a.t;
  return a.t + (b.t - a.t) * (station - a.station) / (b.station - a.station);
}

SoleEdge sole_edge(const BoardOutline& outline, Edge edge, double to, double margin,
                   double chord_error) {
  std::vector<SoleEdge::Node> nodes;
  double along = 0;
  Point before;
  double turned_before = 0;
  for (const Point& p : outline.edge_line(edge, 0, to + margin, chord_error)) {
    const double angle = outline.edge_angle(edge, p.x);
    const double turned = std::numbers::pi / 2 - angle;
    if (!nodes.empty()) {
      // The arc over a chord that turns by 2a: chord · a/sin a.
      const double chord = std::hypot(p.x - before.x, p.y - before.y);
      const double half = (turned - turned_before) / 2;
      along += std::abs(half) < 1e-8 ? chord : chord * half / std::sin(half);
    }
    // A parallel curve is longer by the margin times the turn.
    nodes.push_back({along + margin * turned, p.x - margin * std::sin(angle),
                     std::abs(p.y) + margin * std::cos(angle), turned});
    before = p;
    turned_before = turned;
  }
  return SoleEdge(std::move(nodes));
}

} // namespace shankline
