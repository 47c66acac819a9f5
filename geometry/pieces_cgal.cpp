// The only file that sees CGAL. Its booleans trust their input without debug checks (a repeated
// point crashes, a clockwise polygon gives a wrong area silently), so this file is built with
// CGAL_DEBUG and checks orientation, simplicity, repeated points and finite numbers first.
#include "geometry/pieces.hpp"

#include <algorithm>
#include <CGAL/assertions_behaviour.h>
#include <CGAL/Boolean_set_operations_2.h>
#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Polygon_2_algorithms.h>
#include <cmath>
#include <exception>
#include <vector>

namespace shankline {
namespace {

using Kernel = CGAL::Exact_predicates_exact_constructions_kernel;
/// Enough to ask whether edges cross: nothing is constructed.
using Asking = CGAL::Exact_predicates_inexact_constructions_kernel;
using ExactPolygon = CGAL::Polygon_2<Kernel>;
using ExactPolygonWithHoles = CGAL::Polygon_with_holes_2<Kernel>;

void silent(const char*, const char*, const char*, int, const char*) {}

/// CGAL reports on stderr unless told otherwise; we want its exceptions only.
void quieten_cgal() {
  static const bool done = [] {
    CGAL::set_error_handler(silent);
    CGAL::set_warning_handler(silent);
    CGAL::set_error_behaviour(CGAL::THROW_EXCEPTION);
    CGAL::set_warning_behaviour(CGAL::CONTINUE);
    return true;
  }();
  (void)done;
}

bool all_finite(const std::vector<Point>& points) {
  return std::all_of(points.begin(), points.end(),
                     [](const Point& p) { return std::isfinite(p.x) && std::isfinite(p.y); });
}

bool repeats_a_point(Polygon points) {
  std::sort(points.begin(), points.end(),
            [](const Point& a, const Point& b) { return a.x < b.x || (a.x == b.x && a.y < b.y); });
  return std::adjacent_find(points.begin(), points.end()) != points.end();
}

ExactPolygon exact(const Polygon& points) {
  ExactPolygon polygon;
  for (const Point& p : points)
    polygon.push_back({p.x, p.y});
  return polygon;
}

Piece piece_of(const ExactPolygon& polygon) {
  Piece piece;
  for (const auto& p : polygon.vertices())
    piece.outline.push_back({CGAL::to_double(p.x()), CGAL::to_double(p.y())});
  piece.area = CGAL::to_double(polygon.area());
  return piece;
}

/// How far an end of the cut may lie from the outline: both are polygons of smooth curves.
constexpr double on_outline = 0.05;

double distance_to_segment(const Point& p, const Point& a, const Point& b) {
  const double dx = b.x - a.x;
  const double dy = b.y - a.y;
  const double square = dx * dx + dy * dy;
  const double t =
      square > 0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / square, 0.0, 1.0) : 0;
  return std::hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

bool lies_on(const Polygon& outline, const Point& p) {
  for (std::size_t i = 0; i < outline.size(); ++i)
    if (distance_to_segment(p, outline[i], outline[(i + 1) % outline.size()]) <= on_outline)
      return true;
  return false;
}

/// Everything ahead of the cut: its ends run straight out across the board, then round the toes.
Polygon ahead_of(const Polyline& cut, const Polygon& board) {
  double far = 0;
  for (const Point& p : board)
    far = std::max({far, std::abs(p.x), std::abs(p.y)});
  for (const Point& p : cut)
    far = std::max({far, std::abs(p.x), std::abs(p.y)});
  far = 2 * far + 1;
  Polygon region{{cut.front().x, far}};
  region.insert(region.end(), cut.begin(), cut.end());
  region.push_back({cut.back().x, -far});
  region.push_back({far, -far});
  region.push_back({far, far});
  return region;
}

} // namespace

bool is_simple(const Polygon& polygon) {
  if (polygon.size() < 3 || !all_finite(polygon) || repeats_a_point(polygon)) return false;
  quieten_cgal();
  std::vector<Asking::Point_2> points;
  points.reserve(polygon.size());
  for (const Point& p : polygon)
    points.emplace_back(p.x, p.y);
  return CGAL::is_simple_2(points.begin(), points.end(), Asking());
}

std::optional<Pieces> cut_pieces(const Polygon& board, const Polyline& cut, std::string& fault) {
  if (!is_simple(board)) return fault = "the board's outline crosses itself", std::nullopt;
  if (!(signed_area(board) > 0)) return fault = "the board's outline runs clockwise", std::nullopt;
  if (cut.size() < 2 || !all_finite(cut)) return fault = "the cut is no line", std::nullopt;
  const Polygon ahead = ahead_of(cut, board);
  if (!lies_on(board, cut.front()) || !lies_on(board, cut.back()) ||
      !(cut.front().y > cut.back().y) || !is_simple(ahead) || !(signed_area(ahead) > 0))
    return fault = "the cut does not run from the big-toe edge to the little-toe edge",
           std::nullopt;

  try {
    const ExactPolygon whole = exact(board);
    const ExactPolygon front = exact(ahead);
    std::vector<ExactPolygonWithHoles> kept;
    std::vector<ExactPolygonWithHoles> removed;
    CGAL::intersection(whole, front, std::back_inserter(kept));
    CGAL::difference(whole, front, std::back_inserter(removed));
    if (kept.size() != 1 || removed.size() != 1 || kept[0].has_holes() || removed[0].has_holes())
      return fault = "the cut does not divide the board into two pieces", std::nullopt;
    Pieces pieces{piece_of(kept[0].outer_boundary()), piece_of(removed[0].outer_boundary())};
    return pieces;
  } catch (const std::exception&) {
    return fault = "the pieces could not be worked out exactly", std::nullopt;
  }
}

} // namespace shankline
