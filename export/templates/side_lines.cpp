#include "export/templates/side_lines.hpp"

#include "export/wording/foot_words.hpp"

#include <algorithm>
#include <functional>
#include <utility>

namespace shankline {

std::string side_name(FootSide foot, const SolvedSide& side) {
  return foot_name(foot) + " foot, " + edge_words(side.edge);
}

namespace {

/// Returns the stretches where a continuous function is above zero: from and to, each to the last
/// bits of a bisection between samples a quarter of a millimetre apart. A root finder would stop
/// anywhere on a stretch of zeros.
std::vector<std::pair<double, double>> stretches_above_zero(const std::function<double(double)>& f,
                                                            double from, double to) {
  const auto crossing = [&](double below, double above) {
    for (int i = 0; i < 50; ++i) {
      const double middle = (below + above) / 2;
      (f(middle) > 0 ? above : below) = middle;
    }
    return above;
  };
  std::vector<std::pair<double, double>> found;
  const int steps = std::max(1, static_cast<int>((to - from) * 4));
  double before = from;
  double start = from;
  bool above = f(from) > 0;
  for (int i = 1; i <= steps; ++i) {
    const double t = from + (to - from) * i / steps;
    if (const bool now = f(t) > 0; now != above) {
      if (now)
        start = crossing(before, t);
      else
        found.emplace_back(start, crossing(t, before));
      above = now;
    }
    before = t;
  }
  if (above) found.emplace_back(start, to);
  return found;
}

} // namespace

std::vector<Stroke> side_lines(const SolvedSide& side, const FootOrder& order) {
  const SideWish& wish = *order.alterations.sides;
  const SideWall& wall = side.wall;
  std::vector<Stroke> lines;
  const auto add = [&](LineKind kind, Polyline points) {
    lines.push_back({kind, std::move(points), false});
  };
  // Every mark of the ruler heights, at the sole's edge and at the new line.
  for (const RulerHeight& mark : side.heights) {
    add(LineKind::ruler, {wall.flat(mark.along, 0), wall.flat(mark.along, height_tick)});
    add(LineKind::ruler,
        {wall.flat(mark.along, mark.finished - height_tick), wall.flat(mark.along, mark.finished)});
  }
  if (order.shoe.sides && order.shoe.sides->casing)
    add(LineKind::stitch,
        wall.flat_line(side.finished_line(-*order.shoe.sides->casing), 0, side.wing));
  for (const SewnEnd& end : side.sewn) {
    const double rear = end.t - end.width / 2;
    const double front = end.t + end.width / 2;
    lines.push_back({LineKind::sewn,
                     {wall.flat(rear, end.low), wall.flat(front, end.low),
                      wall.flat(front, end.top), wall.flat(rear, end.top)},
                     true});
  }
  add(LineKind::stock_top, wall.flat_line(side.stock_line(), 0, side.wing));

  Polyline outline{wall.flat(side.wing, side.stock(side.wing))};
  Polyline base =
      wall.flat_line({[](double) { return 0.0; }, [](double) { return 0.0; }}, 0, side.wing);
  outline.insert(outline.end(), base.rbegin(), base.rend());
  outline.push_back(wall.flat(0, side.stock(0)));
  add(LineKind::edge, std::move(outline));

  const double from = side.profile.back > 0 ? 0 : side.profile.rear_from;
  const double to = side.profile.front_to;
  const auto finished = [&](double above) {
    return wall.flat_line(side.finished_line(above), from, to);
  };
  if (wish.edge != SideEdge::bound) add(LineKind::fold, finished(0));
  if (wish.edge == SideEdge::bound) add(LineKind::final_cut, finished(0));
  if (wish.edge == SideEdge::turned) {
    const auto depth_left = [&](double t) { return side.profile(t) - wish.turn; };
    for (const auto& [a, b] : stretches_above_zero(depth_left, from, to))
      add(LineKind::final_cut, wall.flat_line(side.finished_line(wish.turn), a, b));
  }
  return lines;
}

} // namespace shankline
