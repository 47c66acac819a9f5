#include "export/page/label_column.hpp"

#include <algorithm>

namespace shankline {
namespace {

// From label to label, mm. At the least pitch a label of two lines still stands clear.
constexpr double widest_pitch = 5.8;
constexpr double least_pitch = 4.7;

/// Labels that touch: they hang evenly about the mean of their anchors.
struct Pool {
  double middle;
  std::size_t count;
  double pitch;

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
          above.count + below.count, above.pitch};
}

bool touch(const Pool& above, const Pool& below) {
  constexpr double rounding = 1e-9;
  return above.middle - above.half() - (below.middle + below.half()) < above.pitch - rounding;
}

} // namespace

void spread(std::vector<ColumnLabel>& labels, double low, double high) {
  std::sort(labels.begin(), labels.end(),
            [](const ColumnLabel& a, const ColumnLabel& b) { return a.anchor.y > b.anchor.y; });
  const double gaps = static_cast<double>(std::max<std::size_t>(labels.size(), 2) - 1);
  const double pitch = std::clamp((high - low) / gaps, least_pitch, widest_pitch);
  std::vector<Pool> pools;
  for (const ColumnLabel& label : labels) {
    Pool pool = held({label.anchor.y, 1, pitch}, low, high);
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

void draw_labels(SheetPage& page, std::vector<ColumnLabel> labels, const LabelColumn& column) {
  constexpr double swatch = 12;
  constexpr double label_size = 3;
  constexpr double least_size = 2.5; // of words on a template: 7 pt are 2.47 mm
  spread(labels, column.low, column.high);
  const double width = column.right - column.left - swatch - 3;
  for (const ColumnLabel& label : labels) {
    page.stroke(LineKind::leader, {{label.anchor.x + 1.6, label.anchor.y},
                                   {column.left - 5, label.y},
                                   {column.left - 1.2, label.y}});
    page.stroke(label.kind, {{column.left, label.y}, {column.left + swatch, label.y}});
    const double x = column.left + swatch + 2.6;
    const double size = page.fitted_size(label.words, width, label_size, least_size, label.weight);
    const auto lines = page.context().typeface.wrap(label.words, width, size, label.weight);
    constexpr double between = 1.12; // ems: two lines have to stand between their neighbours
    double y = label.y - size * cap_height / 2 +
               size * between / 2 * static_cast<double>(lines.size() - 1);
    for (const std::string& line : lines) {
      page.text({x, y}, line, size, label.weight);
      y -= size * between;
    }
  }
}

} // namespace shankline
