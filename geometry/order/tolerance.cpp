#include "geometry/order/tolerance.hpp"

#include <algorithm>
#include <array>

namespace shankline {
namespace {

struct Row {
  double over;
  double up_to;
  std::optional<double> medium;
  std::optional<double> coarse;
  std::optional<double> very_coarse;
};

// ISO 2768-1:1989, table 1 (linear dimensions), as printed in secondary sources; the last row from
// memory.
constexpr std::array<Row, 6> table{{
    {0.5, 3, 0.1, 0.2, {}},
    {3, 6, 0.1, 0.3, 0.5},
    {6, 30, 0.2, 0.5, 1.0},
    {30, 120, 0.3, 0.8, 1.5},
    {120, 400, 0.5, 1.2, 2.5},
    {400, 1000, 0.8, 2.0, 4.0},
}};

} // namespace

std::optional<double> general_tolerance(ToleranceClass tolerance_class, double nominal) {
  if (!(nominal >= table.front().over)) return {};
  for (const Row& row : table) {
    if (nominal > row.up_to) continue;
    switch (tolerance_class) {
    case ToleranceClass::medium:
      return row.medium;
    case ToleranceClass::coarse:
      return row.coarse;
    case ToleranceClass::very_coarse:
      return row.very_coarse;
    }
  }
  return {};
}

Tolerance dimension_tolerance(const ToleranceWish& wish, double nominal) {
  if (const double* figure = std::get_if<double>(&wish.other)) return {*figure, -*figure};
  const ToleranceClass wanted = std::get<ToleranceClass>(wish.other);
  // The standard leaves sizes outside its rows to the drawing: ours takes the nearest row.
  // Very coarse begins over 3, which is still the row below.
  const double smallest =
      wanted == ToleranceClass::very_coarse ? table[1].up_to : table.front().over;
  const double covered = std::clamp(nominal, smallest, table.back().up_to);
  const double deviation = general_tolerance(wanted, covered).value();
  return {deviation, -deviation};
}

Tolerance radius_tolerance(const ToleranceWish& wish, double radius) {
  if (const double* figure = std::get_if<double>(&wish.other)) return {*figure, -*figure};
  const bool medium = std::get<ToleranceClass>(wish.other) == ToleranceClass::medium;
  const double deviation = radius <= 3   ? (medium ? 0.2 : 0.4)
                           : radius <= 6 ? (medium ? 0.5 : 1.0)
                                         : (medium ? 1.0 : 2.0);
  return {deviation, -deviation};
}

Tolerance cut_off_tolerance(const ToleranceWish& wish) {
  return {0, -wish.cut};
}

Tolerance keep_tolerance(const ToleranceWish& wish) {
  return {wish.cut, 0};
}

} // namespace shankline
