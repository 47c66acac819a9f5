// The outer sole's edge of one side, from the back seam towards the toes: what the wall stands on.
#pragma once

#include "geometry/board/board_outline.hpp"

#include <optional>
#include <utility>
#include <vector>

namespace shankline {

/// Distance of the sole's edge outside the board's, mm: from memory, common practice.
inline constexpr double feather_margin = 3;

/// A plane curve by its arc length t from the back seam. Between nodes it turns evenly, so a circle
/// or a straight line is exact with two nodes; where it lies is a cubic that leaves both along it.
class SoleEdge {
public:
  struct Node {
    double t;       ///< arc length from the back seam, mm
    double station; ///< X in the board's frame, where a line square to the axis meets the edge
    double out;     ///< distance from the axis
    double turned;  ///< angle turned since the back seam, radians, positive where convex
  };

  /// Nodes by rising t, two at least; throws std::invalid_argument otherwise.
  explicit SoleEdge(std::vector<Node> nodes);

  double length() const { return nodes_.back().t; }
  const std::vector<Node>& nodes() const { return nodes_; }

  double turned(double t) const;
  double station(double t) const;
  double out(double t) const;
  /// The arc length, mm, where the edge has this station; nullopt beyond its ends.
  std::optional<double> at_station(double station) const;

private:
  /// The node before t and the one behind it.
  std::pair<const Node&, const Node&> around(double t) const;
  std::vector<Node> nodes_;
};

/// The board's edge moved outwards by `margin`, from the heel end to station `to` and a little past
/// it. Throws std::invalid_argument where the board is hollowed out more sharply than the margin.
SoleEdge sole_edge(const BoardOutline& outline, Edge edge, double to,
                   double margin = feather_margin);

} // namespace shankline
