#include "export/side_lines.hpp"

#include "export/foot_words.hpp"

#include <algorithm>
#include <utility>

namespace shankline {

std::string side_name(FootSide foot, const SolvedSide& side) {
  return foot_name(foot) + " foot, " + edge_words(side.edge);
}

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
    // The allowance never reaches above the stock line: there is no cloth.
    const SideWall::HeightLine cut{
        [&](double t) { return std::min(side.finished(t) + wish.turn, side.stock(t)); },
        [](double) { return 0.0; }};
    Polyline points = wall.flat_line(cut, from, to);
    add(LineKind::final_cut, std::move(points));
  }
  return lines;
}

} // namespace shankline
