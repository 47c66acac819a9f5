// The only file that sees CGAL. Its booleans trust their input without debug checks (a repeated
// point crashes, a clockwise polygon gives a wrong area silently), so this file is built with
// CGAL_DEBUG and checks orientation, simplicity, repeated points and finite numbers first.
#include "geometry/plane/pieces.hpp"

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

/// A crossing beside the end of a cut or a corner of the board: once rounded, it may fall on it or
/// behind it. Points so close are one.
void join_what_rounding_parts(Polygon& outline) {
  constexpr double apart = 1e-9; // mm
  const auto close = [](const Point& a, const Point& b) {
    return std::abs(a.x - b.x) < apart && std::abs(a.y - b.y) < apart;
  };
  outline.erase(std::unique(outline.begin(), outline.end(), close), outline.end());
  while (outline.size() > 1 && close(outline.back(), outline.front()))
    outline.pop_back();
}

Piece piece_of(const ExactPolygon& polygon) {
  Piece piece;
  for (const auto& p : polygon.vertices())
    piece.outline.push_back({CGAL::to_double(p.x()), CGAL::to_double(p.y())});
  join_what_rounding_parts(piece.outline);
  piece.area = CGAL::to_double(polygon.area());
  return piece;
}

/// Largest distance of an end of the cut from the outline, mm: both are polygons of smooth curves.
constexpr double on_outline = 0.05;

bool lies_on(const Polygon& outline, const Point& p) {
  return distance_from_outline(outline, p) <= on_outline;
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

/// Behind the cut's two ends its line runs straight out across the board.
Polyline chain_of(const Polyline& cut, const Polygon& board) {
  const Polygon ahead = ahead_of(cut, board);
  return {ahead.begin(), ahead.end() - 2};
}

struct Crossing {
  std::size_t edge; ///< of the board
  std::size_t link; ///< of the chain
  bool ahead;       ///< the board's outline goes ahead of the cut here
  Point at;
};

/// The places where the outline crosses the chain; nullopt if one of them is not a proper crossing.
std::optional<std::vector<Crossing>> proper_crossings(const Polygon& board, const Polyline& chain) {
  using Place = Asking::Point_2;
  const auto place = [](const Point& p) { return Place(p.x, p.y); };
  std::vector<Crossing> crossings;
  for (std::size_t i = 0; i < board.size(); ++i) {
    const Point& p = board[i];
    const Point& q = board[(i + 1) % board.size()];
    for (std::size_t j = 0; j + 1 < chain.size(); ++j) {
      const Point& a = chain[j];
      const Point& b = chain[j + 1];
      if (std::max(p.x, q.x) < std::min(a.x, b.x) || std::max(a.x, b.x) < std::min(p.x, q.x) ||
          std::max(p.y, q.y) < std::min(a.y, b.y) || std::max(a.y, b.y) < std::min(p.y, q.y))
        continue;
      const auto side_of_p = CGAL::orientation(place(a), place(b), place(p));
      const auto side_of_q = CGAL::orientation(place(a), place(b), place(q));
      const auto side_of_a = CGAL::orientation(place(p), place(q), place(a));
      const auto side_of_b = CGAL::orientation(place(p), place(q), place(b));
      if (side_of_p == CGAL::COLLINEAR || side_of_q == CGAL::COLLINEAR ||
          side_of_a == CGAL::COLLINEAR || side_of_b == CGAL::COLLINEAR)
        return {};
      if (side_of_p == side_of_q || side_of_a == side_of_b) continue;
      const auto met = CGAL::intersection(Kernel::Segment_2({p.x, p.y}, {q.x, q.y}),
                                          Kernel::Segment_2({a.x, a.y}, {b.x, b.y}));
      // CGAL 5 gives a variant of Boost, CGAL 6 one of the standard library; assign takes both.
      Kernel::Point_2 at;
      if (!met || !CGAL::assign(at, *met)) return {};
      crossings.push_back(
          {i, j, side_of_q == CGAL::LEFT_TURN, {CGAL::to_double(at.x()), CGAL::to_double(at.y())}});
    }
  }
  return crossings;
}

/// The ordinary cut crosses the outline twice: the pieces are what lies between the crossings,
/// found by exact predicates in a twentieth of the time that booleans take. Returns nullopt if the
/// cut touches a corner or crosses more often; the booleans decide then.
std::optional<Pieces> divided_at_two_crossings(const Polygon& board, const Polyline& chain) {
  const auto crossings = proper_crossings(board, chain);
  if (!crossings || crossings->size() != 2) return {};
  const bool first_is_entry = (*crossings)[0].ahead;
  const Crossing& entry = (*crossings)[first_is_entry ? 0 : 1];
  const Crossing& exit = (*crossings)[first_is_entry ? 1 : 0];
  if (!entry.ahead || exit.ahead || exit.link > entry.link) return {};

  const auto part = [&](const Crossing& from, const Crossing& to) {
    Polygon outline{from.at};
    for (std::size_t i = from.edge; i != to.edge; i = (i + 1) % board.size())
      outline.push_back(board[(i + 1) % board.size()]);
    outline.push_back(to.at);
    return outline;
  };
  using Offset = Polyline::difference_type;
  const Polyline along(chain.begin() + static_cast<Offset>(exit.link) + 1,
                       chain.begin() + static_cast<Offset>(entry.link) + 1);
  Pieces pieces{{part(entry, exit), 0}, {part(exit, entry), 0}};
  pieces.kept.outline.insert(pieces.kept.outline.end(), along.begin(), along.end());
  pieces.removed.outline.insert(pieces.removed.outline.end(), along.rbegin(), along.rend());
  for (Piece* piece : {&pieces.kept, &pieces.removed}) {
    join_what_rounding_parts(piece->outline);
    piece->area = signed_area(piece->outline);
    if (!(piece->area > 0) || !is_simple(piece->outline)) return {};
  }
  return pieces;
}

Result<Pieces> divided_by_booleans(const Polygon& board, const Polygon& ahead) {
  try {
    const ExactPolygon whole = exact(board);
    const ExactPolygon front = exact(ahead);
    std::vector<ExactPolygonWithHoles> kept;
    std::vector<ExactPolygonWithHoles> removed;
    // Tag_false: edge by edge. Chains of edges give the same, and take a third longer to compile.
    CGAL::intersection(whole, front, std::back_inserter(kept), CGAL::Tag_false());
    CGAL::difference(whole, front, std::back_inserter(removed), CGAL::Tag_false());
    if (kept.size() != 1 || removed.size() != 1 || kept[0].has_holes() || removed[0].has_holes())
      return Advice{"the cut does not divide the board into two pieces"};
    Pieces pieces{piece_of(kept[0].outer_boundary()), piece_of(removed[0].outer_boundary())};
    return pieces;
  } catch (const std::exception&) {
    return Advice{"the pieces could not be worked out exactly"};
  }
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

Result<Pieces> cut_pieces(const Polygon& board, const Polyline& cut) {
  if (!is_simple(board)) return Advice{"the board's outline crosses itself"};
  if (!(signed_area(board) > 0)) return Advice{"the board's outline runs clockwise"};
  if (cut.size() < 2 || !all_finite(cut)) return Advice{"the cut is no line"};
  const Polygon ahead = ahead_of(cut, board);
  if (!lies_on(board, cut.front()) || !lies_on(board, cut.back()) ||
      !(cut.front().y > cut.back().y) || !is_simple(ahead) || !(signed_area(ahead) > 0))
    return Advice{"the cut does not run from the big-toe edge to the little-toe edge"};

  if (auto pieces = divided_at_two_crossings(board, chain_of(cut, board)))
    return *std::move(pieces);
  return divided_by_booleans(board, ahead);
}

Result<Pieces> cut_pieces_by_booleans(const Polygon& board, const Polyline& cut) {
  return divided_by_booleans(board, ahead_of(cut, board));
}

} // namespace shankline
