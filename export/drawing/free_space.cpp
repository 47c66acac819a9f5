#include "export/drawing/free_space.hpp"

#include <algorithm>
#include <cmath>

namespace shankline {

bool FreeSpace::is_free(const Box& box) const {
  if (!holds(page_, box)) return false;
  if (in_the_way(box)) return false;
  for (const Polyline& line : lines_)
    for (std::size_t i = 1; i < line.size(); ++i)
      if (runs_through(line[i - 1], line[i], box)) return false;
  return true;
}

const Box* FreeSpace::in_the_way(const Box& box) const {
  for (const Box& taken : boxes_)
    if (overlap(box, taken)) return &taken;
  return nullptr;
}

std::optional<Box> FreeSpace::find(double width, double height, From from) {
  constexpr double step = 2; // mm: no eye sees whether a block could be moved by less
  const double across = page_.right - page_.left - width;
  const double up = page_.top - page_.bottom - height;
  for (double v = 0; v <= up; v += step)
    for (double u = 0; u <= across; u += step) {
      const double left = from == From::top ? page_.left + u : page_.right - width - u;
      const double bottom = from == From::top ? page_.top - height - v : page_.bottom + v;
      const Box box{left, bottom, left + width, bottom + height};
      if (const Box* const taken = in_the_way(box)) {
        // Whole steps on, until it is no longer in the way.
        const double past = from == From::top ? taken->right - box.left : box.right - taken->left;
        u += step * std::max(0.0, std::ceil(past / step) - 1);
        continue;
      }
      if (!is_free(box)) continue;
      take(box);
      return box;
    }
  return std::nullopt;
}

} // namespace shankline
