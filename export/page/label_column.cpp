#include "export/page/label_column.hpp"

#include <algorithm>

namespace shankline {
namespace {

// From label to label, mm, unless they are higher.
constexpr double widest_pitch = 5.8;
constexpr double least_pitch = 4.7;
constexpr double air = 0.3; // between the words of two labels

/// How far below the first label each one stands if they stand as close as they may.
std::vector<double> packed(const std::vector<ColumnLabel>& labels, double pitch) {
  std::vector<double> below{0};
  for (std::size_t i = 1; i < labels.size(); ++i)
    below.push_back(below.back() +
                    std::max(pitch, (labels[i - 1].height + labels[i].height) / 2 + air));
  return below;
}

/// The largest pitch that finds room; the least one where none does.
double pitch_within(const std::vector<ColumnLabel>& labels, double room) {
  if (packed(labels, widest_pitch).back() <= room) return widest_pitch;
  double fits = least_pitch;
  double too_wide = widest_pitch;
  for (int i = 0; i < 60; ++i) {
    const double pitch = (fits + too_wide) / 2;
    (packed(labels, pitch).back() <= room ? fits : too_wide) = pitch;
  }
  return fits;
}

/// Labels that touch stand packed. `at` is where the first label of all would stand if every one
/// were packed with these.
struct Pool {
  double at;
  std::size_t first;
  std::size_t count;
};

Pool together(const Pool& above, const Pool& below) {
  const auto above_count = static_cast<double>(above.count);
  const auto below_count = static_cast<double>(below.count);
  return {(above.at * above_count + below.at * below_count) / (above_count + below_count),
          above.first, above.count + below.count};
}

} // namespace

void spread(std::vector<ColumnLabel>& labels, double low, double high) {
  if (labels.empty()) return;
  std::sort(labels.begin(), labels.end(),
            [](const ColumnLabel& a, const ColumnLabel& b) { return a.anchor.y > b.anchor.y; });
  const std::vector<double> below = packed(labels, pitch_within(labels, high - low));
  const auto held = [&](Pool pool) {
    const double lowest = low + below[pool.first + pool.count - 1];
    pool.at = std::clamp(pool.at, lowest, std::max(lowest, high + below[pool.first]));
    return pool;
  };
  constexpr double rounding = 1e-9;
  std::vector<Pool> pools;
  for (std::size_t i = 0; i < labels.size(); ++i) {
    Pool pool = held({labels[i].anchor.y + below[i], i, 1});
    while (!pools.empty() && pools.back().at < pool.at - rounding) {
      pool = held(together(pools.back(), pool));
      pools.pop_back();
    }
    pools.push_back(pool);
  }
  for (const Pool& pool : pools)
    for (std::size_t i = pool.first; i < pool.first + pool.count; ++i)
      labels[i].y = pool.at - below[i];
}

void draw_labels(SheetPage& page, std::vector<ColumnLabel> labels, const LabelColumn& column) {
  constexpr double swatch = 12;
  constexpr double label_size = 3;
  constexpr double least_size = 2.5; // of words on a template: 7 pt are 2.47 mm
  constexpr double between = 1.12;   // ems from line to line
  const double width = column.right - column.left - swatch - 3;
  for (ColumnLabel& label : labels) {
    label.size = page.fitted_size(label.words, width, label_size, least_size, label.weight);
    label.lines = page.context().typeface.wrap(label.words, width, label.size, label.weight);
    label.height = label.size * between * static_cast<double>(label.lines.size());
  }
  spread(labels, column.low, column.high);
  for (const ColumnLabel& label : labels) {
    page.stroke(LineKind::leader, {{label.anchor.x + 1.6, label.anchor.y},
                                   {column.left - 5, label.y},
                                   {column.left - 1.2, label.y}});
    page.stroke(label.kind, {{column.left, label.y}, {column.left + swatch, label.y}});
    const double x = column.left + swatch + 2.6;
    double y = label.y - label.size * cap_height / 2 +
               label.size * between / 2 * static_cast<double>(label.lines.size() - 1);
    for (const std::string& line : label.lines) {
      page.text({x, y}, line, label.size, label.weight);
      y -= label.size * between;
    }
  }
}

} // namespace shankline
