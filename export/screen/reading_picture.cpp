#include "export/screen/reading_picture.hpp"

#include "export/bench/measuring_sketch.hpp"
#include "export/drawing/box.hpp"
#include "export/screen/screen_svg.hpp"
#include "geometry/order/reading_guide.hpp"

#include <cmath>
#include <numbers>
#include <vector>

namespace shankline {
namespace {

constexpr double sketch_air = 6; // round the drawing, in its units: hundredths of a foot
constexpr double end_radius = 2;

Polygon disc(Point middle) {
  Polygon outline;
  constexpr int corners = 16;
  for (int i = 0; i < corners; ++i) {
    const double turn = 2 * std::numbers::pi * i / corners;
    outline.push_back(
        {middle.x + end_radius * std::cos(turn), middle.y + end_radius * std::sin(turn)});
  }
  return outline;
}

std::string picture_of(const Sketch& sketch, std::string_view key) {
  std::vector<Point> ends;
  for (const SketchSize& size : sketch.sizes)
    if (size.key == key) ends = {size.from, size.to};
  for (const SketchPointer& pointer : sketch.pointers)
    if (pointer.key == key) ends = {pointer.at};
  if (ends.empty()) return {};
  Box box = nowhere;
  for (const SketchLine& line : sketch.lines)
    for (const Point& p : drawn(line))
      widen(box, p);
  for (const Point& p : ends)
    widen(box, p);
  const ReadingGuide* guide = reading_guide(key);
  ScreenPicture picture(box.right - box.left + 2 * sketch_air,
                        box.top - box.bottom + 2 * sketch_air,
                        "where " + std::string(guide ? guide->name : key) + " is taken");
  const auto moved = [&](Point p) {
    return Point{p.x - box.left + sketch_air, p.y - box.bottom + sketch_air};
  };
  for (const SketchLine& line : sketch.lines) {
    Polyline points;
    for (const Point& p : drawn(line))
      points.push_back(moved(p));
    picture.stroke({line.kind, points, line.closed});
  }
  for (Point& p : ends)
    p = moved(p);
  if (ends.size() > 1) picture.line(ends, "m-line");
  for (const Point& p : ends)
    picture.area(disc(p), "m-end");
  return std::move(picture).svg();
}

} // namespace

std::string reading_picture(std::string_view key) {
  for (const Sketch& sketch : {foot_sketch(), shoe_sketch(), side_sketch()})
    if (std::string picture = picture_of(sketch, key); !picture.empty()) return picture;
  return {};
}

} // namespace shankline
