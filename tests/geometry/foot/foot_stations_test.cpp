#include "geometry/foot/foot_stations.hpp"

#include "tests/geometry/worked_order.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

namespace shankline::tests::foot_stations_test {
namespace {

Foot worked_foot() {
  return worked_order().left->foot;
}

struct Solved {
  std::optional<FootStations> stations;
  Findings findings;

  std::size_t errors() const {
    return static_cast<std::size_t>(
        std::count_if(findings.begin(), findings.end(),
                      [](const Finding& f) { return f.severity == Severity::error; }));
  }
  bool refused(const std::string& key) const {
    return !stations && std::any_of(findings.begin(), findings.end(), [&](const Finding& f) {
      return f.severity == Severity::error && f.key == "feet.left." + key;
    });
  }
};

Solved solved(const Foot& foot, Pose pose = Pose::pointed) {
  Solved found;
  found.stations = foot_stations(foot, pose, Population::women, "feet.left", found.findings);
  return found;
}

TEST(FootStations, OfTheWorkedFootAreItsReadings) {
  const Solved found = solved(worked_foot());
  ASSERT_TRUE(found.stations);
  EXPECT_EQ(found.errors(), 0U);
  const SolvedArch& arch = found.stations->arch;
  EXPECT_EQ(arch.ball, 172);
  EXPECT_EQ(arch.heel_front, 61);
  EXPECT_EQ(arch.break_at, 95) << "the mean of 97 and 93";
  EXPECT_EQ(found.stations->fold, 6);
  ASSERT_TRUE(arch.depth);
  EXPECT_NEAR(*arch.depth, 12.5, 1e-9);
}

/// A fold of 6 ± 3 and a heel front of 61/238 of the foot length ± 5: twice the spread to either
/// side. In the shoe a heel front counts from the back seam, farther by the fold.
TEST(FootStations, CautionOfReadingsFarFromWhatIsUsual) {
  const auto cautions = [](const std::string& key, double value, Pose pose) {
    Foot foot = worked_foot();
    (key == "fold" ? foot.fold : foot.heel_front) = measured(value);
    const Solved found = solved(foot, pose);
    return std::count_if(found.findings.begin(), found.findings.end(), [&](const Finding& f) {
      return f.severity == Severity::caution && f.key == "feet.left." + key;
    });
  };
  EXPECT_EQ(cautions("fold", 12, Pose::pointed), 0);
  EXPECT_EQ(cautions("fold", 12.1, Pose::pointed), 1);
  EXPECT_EQ(cautions("heel_front", 51.1, Pose::pointed), 0);
  EXPECT_EQ(cautions("heel_front", 50.9, Pose::pointed), 1);
  EXPECT_EQ(cautions("heel_front", 70.9, Pose::pointed), 0);
  EXPECT_EQ(cautions("heel_front", 71.1, Pose::pointed), 1);
  EXPECT_EQ(cautions("heel_front", 76.9, Pose::in_shoe), 0);
  EXPECT_EQ(cautions("heel_front", 77.1, Pose::in_shoe), 1);
}

TEST(FootStations, HandOnTheCautionsOfUnlikelyReadings) {
  Foot foot = worked_foot();
  foot.ankle_height = measured(100); // 98 of 100 women's feet of 238: 50 to 72
  const Solved found = solved(foot);
  ASSERT_TRUE(found.stations);
  EXPECT_TRUE(std::any_of(found.findings.begin(), found.findings.end(), [](const Finding& f) {
    return f.severity == Severity::caution && f.key == "feet.left.ankle_height";
  }));
}

TEST(FootStations, InTheShoeTheFoldIsTakenOff) {
  const Solved found = solved(worked_foot(), Pose::in_shoe);
  ASSERT_TRUE(found.stations);
  EXPECT_EQ(found.stations->arch.heel_front, 55);
  EXPECT_EQ(found.stations->arch.break_at, 89);
  EXPECT_EQ(found.stations->arch.ball, 172) << "it is measured on the bare foot";
}

TEST(FootStations, WithoutLengthOrBreakThereAreNone) {
  Foot foot = worked_foot();
  foot.length.reset();
  EXPECT_TRUE(solved(foot).refused("length"));
  foot = worked_foot();
  foot.arch_break = {};
  EXPECT_TRUE(solved(foot).refused("arch_break")) << "a depth alone does not place the break";
  foot.arch_depth.reset();
  foot.deepest = measured(103);
  EXPECT_TRUE(solved(foot).refused("arch_break")) << "nor does a deepest point alone";
  foot.arch_depth = measured(12.5);
  EXPECT_TRUE(solved(foot).stations);
}

// Each wrong order is named by its own reading, and no other error follows from it.
TEST(FootStations, OutOfOrderAreRefusedOnceByTheReadingThatIsWrong) {
  Foot foot = worked_foot();
  foot.ball_length = measured(238);
  foot.arch_break = {measured(95), {}, {}, {}};
  EXPECT_TRUE(solved(foot).refused("ball_length")) << "at the longest toe";
  EXPECT_EQ(solved(foot).errors(), 1U);
  foot = worked_foot();
  foot.heel_front = measured(172);
  EXPECT_TRUE(solved(foot).refused("heel_front")) << "at the ball";
  EXPECT_EQ(solved(foot).errors(), 1U) << "no break is judged by such a heel front";
  foot = worked_foot();
  foot.heel_front = measured(6);
  EXPECT_TRUE(solved(foot, Pose::in_shoe).refused("heel_front")) << "at the back of the heel";
  for (const double at : {61.0, 172.0}) {
    foot = worked_foot();
    foot.arch_break = {measured(at), {}, {}, {}};
    EXPECT_TRUE(solved(foot).refused("arch_break")) << at;
    EXPECT_EQ(solved(foot).errors(), 1U) << at;
    foot = worked_foot();
    foot.arch_break.lateral = measured(at);
    EXPECT_TRUE(solved(foot).refused("arch_break.lateral")) << at;
  }
}

} // namespace
} // namespace shankline::tests::foot_stations_test
