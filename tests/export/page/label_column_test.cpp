#include "export/page/label_column.hpp"

#include "tests/geometry/random_orders.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>

namespace shankline::tests::label_column_test {
namespace {

constexpr double pitch = 5.8;

std::vector<ColumnLabel> labels_at(const std::vector<double>& anchors) {
  std::vector<ColumnLabel> labels;
  for (const double y : anchors)
    labels.push_back({LineKind::edge, {0, y}, ""});
  return labels;
}

std::vector<double> heights(std::vector<ColumnLabel> labels, double low, double high) {
  spread(labels, low, high);
  std::vector<double> ys;
  for (const ColumnLabel& label : labels)
    ys.push_back(label.y);
  return ys;
}

TEST(LabelColumn, LeavesLabelsAtTheirLinesWhereThereIsRoom) {
  EXPECT_EQ(heights(labels_at({20, 60, 40}), 0, 100), (std::vector<double>{60, 40, 20}));
}

TEST(LabelColumn, HangsLabelsThatTouchEvenlyAboutTheirLines) {
  const auto ys = heights(labels_at({50, 51}), 0, 100);
  EXPECT_NEAR(ys[0], 50.5 + pitch / 2, 1e-9);
  EXPECT_NEAR(ys[1], 50.5 - pitch / 2, 1e-9);
}

TEST(LabelColumn, SetsLabelsCloserWhereThereIsNoRoom) {
  // Four of them have three gaps: of 5.8 mm, as many as fit, and never below 4.7.
  EXPECT_NEAR(heights(labels_at({5, 6, 7, 8}), 0, 3 * pitch)[0], 3 * pitch, 1e-9);
  const auto closer = heights(labels_at({5, 6, 7, 8}), 0, 15);
  EXPECT_NEAR(closer[0], 15, 1e-9);
  EXPECT_NEAR(closer[1], 10, 1e-9);
  EXPECT_NEAR(closer[3], 0, 1e-9);
  EXPECT_NEAR(heights(labels_at({5, 6, 7, 8}), 0, 10)[0], 3 * 4.7, 1e-9);
}

TEST(LabelColumn, KeepsHighLabelsApartWhereOthersStandCloser) {
  std::vector<ColumnLabel> labels = labels_at({12, 11, 10, 9});
  labels[1].height = labels[2].height = 8;
  const auto free = heights(labels, 0, 100);
  EXPECT_NEAR(free[0] - free[1], 5.8, 1e-9) << "half of 8 and air are less";
  EXPECT_NEAR(free[1] - free[2], 8.3, 1e-9);
  // In 18 there are 9.7 for the two gaps beside; in 10 nothing fits and they run out at the top.
  const auto closer = heights(labels, 0, 18);
  EXPECT_NEAR(closer[0] - closer[1], 4.85, 1e-6);
  EXPECT_NEAR(closer[1] - closer[2], 8.3, 1e-9);
  EXPECT_NEAR(closer[3], 0, 1e-6);
  const auto out = heights(labels, 0, 10);
  EXPECT_NEAR(out[3], 0, 1e-6);
  EXPECT_NEAR(out[0], 4.7 + 8.3 + 4.7, 1e-6);
}

TEST(LabelColumn, KeepsOrderDistanceAndEndsForRandomLines) {
  Draw draw(20260501);
  int touched = 0;
  for (int i = 0; i < 500; ++i) {
    std::vector<double> anchors;
    for (std::size_t k = 1 + draw.below(8); k > 0; --k)
      anchors.push_back(draw.uniform(-10, 110));
    std::vector<ColumnLabel> labels = labels_at(anchors);
    for (ColumnLabel& label : labels)
      label.height = draw.uniform(2, 9);
    spread(labels, 0, 100);
    for (std::size_t k = 0; k < labels.size(); ++k) {
      EXPECT_GE(labels[k].y, -1e-9);
      EXPECT_LE(labels[k].y, 100 + 1e-9);
      if (k == 0) continue;
      EXPECT_GE(labels[k - 1].anchor.y, labels[k].anchor.y);
      const double apart = labels[k - 1].y - labels[k].y;
      const double needed = std::max(pitch, (labels[k - 1].height + labels[k].height) / 2 + 0.3);
      EXPECT_GE(apart, needed - 1e-8);
      if (apart < needed + 1e-8) ++touched;
    }
  }
  EXPECT_GT(touched, 200) << "else nothing was spread";
}

} // namespace
} // namespace shankline::tests::label_column_test
