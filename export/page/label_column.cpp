#include "export/page/label_column.hpp"

#include <algorithm>

namespace shankline {
namespace {

constexpr double pitch = 5.8; // from label to label, mm

/// Labels that touch: they hang evenly about the mean of their anchors.
struct Pool {
  double middle;
  std::size_t count;

  double half() const { return pitch * static_cast<double>(count - 1) / 2; }
};

Pool held(Pool pool, double low, double high) {
  const double half = pool.half();
  pool.middle = std::clamp(pool.middle, low + half, std::max(low + half, high - half));
  return pool;
}

Pool together(const Pool& above, const Pool& below) {
  const double all = static_cast<double>(above.count + below.count);
  return {(above.middle * static_cast<double>(above.count) +
           below.middle * static_cast<double>(below.count)) /
              all,
          above.count + below.count};
}

bool touch(const Pool& above, const Pool& below) {
  constexpr double rounding = 1e-9;
  return above.middle - above.half() - (below.middle + below.half()) < pitch - rounding;
}

} // namespace

void spread(std::vector<ColumnLabel>& labels, double low, double high) {
  std::sort(labels.begin(), labels.end(),
            [](const ColumnLabel& a, const ColumnLabel& b) { return a.anchor.y > b.anchor.y; });
  std::vector<Pool> pools;
  for (const ColumnLabel& label : labels) {
    Pool pool = held({label.anchor.y, 1}, low, high);
    while (!pools.empty() && touch(pools.back(), pool)) {
      pool = held(together(pools.back(), pool), low, high);
      pools.pop_back();
    }
    pools.push_back(pool);
  }
  std::size_t i = 0;
  for (const Pool& pool : pools) {
    double y = pool.middle + pool.half();
    for (std::size_t k = 0; k < pool.count; ++k, y -= pitch)
      labels[i++].y = y;
  }
}

} // namespace shankline
