#include "geometry/foot/arch_rise.hpp"

#include <gtest/gtest.h>

#include <cstddef>

namespace shankline::tests::arch_rise_test {
namespace {

TEST(ArchRise, IsTheCurvatureIntegratedTwice) {
  const Arch arch = arch_of_foot(172, 95, 61, 0.5);
  constexpr double h = 0.001;
  double angle = 0;
  double rise = 0;
  for (int i = 0; i < 150000; ++i) {
    const double u = i * h;
    if (i % 7001 == 0) {
      const ArchRise a = arch_rise(arch, u);
      EXPECT_NEAR(a.curvature, curvature(arch, u), 1e-15);
      EXPECT_NEAR(a.angle, tangent_angle(arch, u), 1e-14);
      EXPECT_NEAR(a.angle, angle, 1e-8);
      EXPECT_NEAR(a.rise, rise, 1e-6);
      EXPECT_NEAR(curvature_slope(arch, u + 1),
                  (curvature(arch, u + 1 + 1e-4) - curvature(arch, u + 1 - 1e-4)) / 2e-4, 1e-8);
      EXPECT_NEAR(
          curvature_bow(arch, u + 1),
          (curvature_slope(arch, u + 1 + 1e-4) - curvature_slope(arch, u + 1 - 1e-4)) / 2e-4, 1e-8);
    }
    const double k = curvature(arch, u + h / 2);
    rise += h * (angle + h / 2 * k);
    angle += h * k;
  }
  // Turned on from station to station, and one at a time.
  const ArchRises many = arch_rises(arch, -20, 0.75, 260);
  for (std::size_t i = 0; i < 260; ++i) {
    const ArchRise one = arch_rise(arch, -20 + 0.75 * static_cast<double>(i));
    EXPECT_NEAR(many.curvature[i], one.curvature, 1e-14);
    EXPECT_NEAR(many.angle[i], one.angle, 1e-12);
    EXPECT_NEAR(many.rise[i], one.rise, 1e-11);
  }
}

// The heel's sole is straight: the last angle is the bend, and the sole goes on rising by it.
TEST(ArchRise, BehindTheArchIsAStraightLineAtTheBend) {
  const Arch arch = arch_of_foot(172, 95, 61, 0.5);
  const double end_rise = arch_rise(arch, arch_end(arch)).rise;
  for (const std::size_t count : {0U, 1U, 2U, 3U, 4U, 5U, 7U, 11U}) {
    const ArchRises rises = arch_rises(arch, arch_end(arch), 2.5, count);
    ASSERT_EQ(rises.rise.size(), count);
    for (std::size_t i = 0; i < count; ++i) {
      EXPECT_EQ(rises.curvature[i], 0);
      EXPECT_NEAR(rises.angle[i], 0.5, 1e-15);
      EXPECT_NEAR(rises.rise[i], end_rise + 0.5 * 2.5 * static_cast<double>(i), 1e-11);
    }
  }
}

} // namespace
} // namespace shankline::tests::arch_rise_test
