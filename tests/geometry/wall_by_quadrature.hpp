// Side walls by brute force: the board's half-widths moved outwards along normals by differences,
// the leaning wall stood up in space, and sums over small steps; nothing of the code under test.
#pragma once

#include "geometry/board/board_outline.hpp"
#include "geometry/plane/point.hpp"

#include <functional>
#include <vector>

namespace shankline::tests {

/// The sole's edge of one side as many points: x is the station, y the distance from the axis.
struct BruteEdge {
  std::vector<double> t; ///< length of the chords from the back seam
  Polyline at;
  Polyline inward; ///< unit normals

  double length() const { return t.back(); }
  /// Length from the back seam to where a line square to the axis at `station` meets the edge.
  double along_at(double station) const;
  double out_at(double station) const;
  Point place(double along) const;
  Point normal(double along) const;
  /// Turned since the back seam, towards the axis positive.
  double turned(double along) const;
};

/// Up to where the board's own edge is at station `to`. `joints`: stations of the board where its
/// curvature may jump; a point is set on each.
BruteEdge brute_edge(const BoardOutline& outline, Edge edge, double to, double margin,
                     int steps = 20000, const std::vector<double>& joints = {});

struct Place {
  double x;
  double y;
  double z;
};
double distance_in_space(const Place& a, const Place& b);
double triangle_area(const Place& a, const Place& b, const Place& c);

using HeightAlong = std::function<double(double)>;

/// The wall stands on the edge and leans inwards: height is measured along it.
Place on_wall(const BruteEdge& edge, double lean, double along, double height);
double brute_length(const BruteEdge& edge, double lean, const HeightAlong& height, double from,
                    double to);
double brute_area(const BruteEdge& edge, double lean, const HeightAlong& upper,
                  const HeightAlong& lower, double from, double to);

} // namespace shankline::tests
