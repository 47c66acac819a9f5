#include "export/bench/measuring_sketch.hpp"

#include <algorithm>
#include <cstddef>

namespace shankline {
namespace {

// The shoe from its big-toe side; its inside back is at 4.
std::vector<SketchLine> shoe_lines() {
  return {{LineKind::shoe, {{4, 30}, {8, 28}, {30, 28}, {60, 28}, {100, 28}, {116, 29}}, true},
          {LineKind::edge, {{4, 30}, {2.6, 38}, {3.4, 46}, {4.4, 51}}, true},
          {LineKind::edge,
           {{4.4, 51}, {14, 48.4}, {30, 45}, {45, 44}, {60, 45.6}, {72, 49}, {80, 53}, {86, 55}},
           true},
          {LineKind::edge, {{86, 55}, {98, 51.5}, {110, 45.5}, {118, 40}}, true},
          {LineKind::edge, {{118, 40}, {119.5, 31}, {116, 29}}}};
}

/// A smooth curve through all points (a uniform Catmull–Rom spline).
Polyline through(const std::vector<Point>& points, bool closed) {
  constexpr int pieces = 10;
  const auto count = static_cast<std::ptrdiff_t>(points.size());
  const auto at = [&](std::ptrdiff_t i) {
    if (closed) return points[static_cast<std::size_t>((i + count) % count)];
    return points[static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(i, 0, count - 1))];
  };
  Polyline line;
  for (std::ptrdiff_t i = 0; i < (closed ? count : count - 1); ++i)
    for (int k = 0; k < pieces; ++k) {
      const double t = static_cast<double>(k) / pieces;
      const Point a = at(i - 1), b = at(i), c = at(i + 1), d = at(i + 2);
      const auto blend = [t](double p, double q, double r, double s) {
        return q + 0.5 * t * (r - p + t * (2 * p - 5 * q + 4 * r - s + t * (3 * (q - r) + s - p)));
      };
      line.push_back({blend(a.x, b.x, c.x, d.x), blend(a.y, b.y, c.y, d.y)});
    }
  if (!closed) line.push_back(points.back());
  return line;
}

} // namespace

// The heel ends at 30, the longest toe at 130; heel front and break lie as in an ordinary foot.
Sketch foot_sketch() {
  Sketch sketch;
  sketch.lines = {
      {LineKind::edge,
       {{4, 90},     {26, 88.5}, {50, 83},    {70, 77},    {90, 69.5}, {108, 63},   {121, 59.5},
        {129, 57.5}, {131, 54},  {127, 51.6}, {118, 50.6}, {110, 49},  {103, 48.6}, {94, 51},
        {84, 55.4},  {71, 57.6}, {62, 55},    {54, 50},    {44, 47},   {36, 48},    {31, 52.5},
        {29.5, 58},  {26, 63},   {18, 67},    {4, 69}},
       true},
      {LineKind::ruler, {{38, 46.5}, {110, 48.5}}},
      {LineKind::edge,
       {{30, 18},    {31.5, 24}, {37, 27.6}, {46, 28.4},  {58, 26},    {72, 24.6},
        {86, 27},    {98, 31.5}, {106, 32},  {116, 30},   {125, 29.4}, {130, 26},
        {129, 20.5}, {123, 14},  {115, 8},   {106, 3},    {96, 0.6},   {82, 1.6},
        {66, 4.6},   {48, 7.4},  {37, 9},    {31.5, 12.4}},
       true,
       true},
      {LineKind::leader, {{118, 55.4}, {123, 55.8}, {127, 54.6}}, true}, // the big toe's own line
      {LineKind::leader,
       {{40, 74}, {38.4, 72}, {40, 70}, {42.4, 70.6}, {42.6, 73}},
       true,
       true}, // ankle
      {LineKind::leader, {{128.4, 19.5}, {121, 21}, {116, 21.6}}, true},
      {LineKind::leader, {{123.6, 14.6}, {118, 16.6}, {114, 17.4}}, true},
      {LineKind::leader, {{117.4, 9.8}, {113, 12}, {110, 13}}, true},
      {LineKind::leader, {{110.6, 5.4}, {107, 7.8}, {105, 8.8}}, true},
      {LineKind::paper_trim, {{55.6, 26.2}, {55.6, 6.5}}},
      {LineKind::paper_trim, {{102, 31.6}, {102, 2.2}}},
      {LineKind::leader, {{30, 46}, {30, 19}}},
  };
  sketch.sizes = {{"length", {30, -10}, {130, -10}, 0.62},
                  {"ball_length", {30, -4}, {102, -4}, 0.45},
                  {"arch_depth", {76, 47.6}, {76, 57.2}, -0.55}};
  sketch.pointers = {{"heel_front", {47, 39.5}, {55, 50.4}},
                     {"arch_break.medial", {61, 34.5}, {70.6, 24.8}},
                     {"arch_break.lateral", {70, 14}, {69, 4.2}},
                     {"deepest", {92, 39.5}, {77, 47.2}}};
  sketch.labels = {{{4, 80}, "foot pointed,"},
                   {{4, 76}, "from the big-toe side"},
                   {{4, 18}, "left foot"},
                   {{4, 14}, "from below"},
                   {{114, 24.6}, "big toe", Align::centre},
                   {{43, 18}, "heel pad", Align::centre},
                   {{28, 42}, "measure from here", Align::right},
                   {{44, 38.6}, "heel front", Align::right},
                   {{58, 33.6}, "arch break", Align::right},
                   {{73.4, 13}, "arch break"},
                   {{72.8, 41.4}, "arch depth", Align::right},
                   {{95.4, 38.6}, "deepest point"},
                   {{100.6, 16}, "ball", Align::right},
                   {{66, -3}, "ball length"},
                   {{96, -9}, "foot length"}};
  return sketch;
}

Sketch shoe_sketch() {
  Sketch sketch;
  sketch.lines = shoe_lines();
  for (const SketchLine& line : std::vector<SketchLine>{
           {LineKind::board, {{7, 29.6}, {96, 29.6}}},
           {LineKind::edge,
            {{7, -4},    {7.6, 0.4}, {12, 3},    {20, 3.4},   {34, 1.4}, {48, -0.2},  {62, 1.4},
             {78, 4.6},  {90, 5.4},  {96, 3},    {97, -4},    {96, -11}, {90, -13.4}, {78, -12.6},
             {62, -9.4}, {48, -7.8}, {34, -9.4}, {20, -11.4}, {12, -11}, {7.6, -8.4}},
            true,
            true},
           {LineKind::ruler, {{20, 3.2}, {20, -11.2}}},
           {LineKind::ruler, {{48, -0.4}, {48, -7.6}}},
           {LineKind::ruler, {{84, 4.9}, {84, -12.9}}},
           {LineKind::centre, {{7, -4}, {97, -4}}}})
    sketch.lines.push_back(line);
  sketch.sizes = {{"board.sole_length", {4, 21.4}, {116, 21.4}, 0.6},
                  {"board.length", {7, -17}, {97, -17}, 0.6}};
  sketch.pointers = {{"fold", {-7, 56}, {3.6, 47}},
                     {"board.inset", {14, 38}, {5.6, 29.8}},
                     {"board.thickness", {34, 37}, {34, 30.4}},
                     {"pull.travel", {56, 38}, {56, 28}},
                     {"widths", {106, 2}, {84, 2}}};
  sketch.labels = {{{98, 57}, "shoe, from the big-toe side"},
                   {{102, -8}, "the board"},
                   {{64, 37}, "pushed up here"}};
  return sketch;
}

Sketch side_sketch() {
  Sketch sketch;
  sketch.lines = shoe_lines();
  sketch.lines.push_back({LineKind::paper_trim, {{72, 49}, {78, 38}, {80, 29}}});
  sketch.sizes = {{"sides.back", {-2, 29}, {-2, 51}, 0.4},
                  {"sides.low", {45, 29.4}, {45, 43.2}, 0.5},
                  {"sides.wing", {68, 29.4}, {68, 47}, 0.5},
                  {"sides.low_at", {4, 22}, {45, 22}, 0.75},
                  {"sides.wing_at", {4, 15}, {80, 15}, 0.75}};
  sketch.pointers = {{"sides.casing", {30, 54}, {30, 45.2}},
                     {"sides.width_across", {50, 54}, {47, 44.4}}};
  sketch.labels = {{{98, 57}, "shoe, from the big-toe side"}, {{84, 38}, "box's stiff flank"}};
  return sketch;
}

Polyline drawn(const SketchLine& line) {
  return line.smooth ? through(line.points, line.closed) : line.points;
}

} // namespace shankline
