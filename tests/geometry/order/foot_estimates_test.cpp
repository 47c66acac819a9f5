#include "geometry/order/foot_estimates.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <string>
#include <vector>

namespace shankline::tests::foot_estimates_test {
namespace {

// ANSUR II (2012), Gordon et al. 2014, NATICK/TR-15/007: means, regressions on foot length with
// their residual spread, and the 1st and 99th percentile of the ratio to foot length, all worked
// out from the public data (women n = 1986, men n = 4082), mm.
struct Published {
  std::string key;
  double mean;
  double residual_sd;
  double ratio_p1;
  double ratio_p99;
  std::function<std::optional<Reading>&(Foot&)> reading;
};

std::optional<Reading>& ball_length_of(Foot& foot) {
  return foot.ball_length;
}
std::optional<Reading>& ball_width_of(Foot& foot) {
  return foot.ball_width;
}
std::optional<Reading>& heel_width_of(Foot& foot) {
  return foot.heel_width;
}
std::optional<Reading>& ankle_height_of(Foot& foot) {
  return foot.ankle_height;
}
std::optional<Reading>& ankle_girth_of(Foot& foot) {
  return foot.ankle_girth;
}

struct Survey {
  Population population;
  double foot_length;
  std::vector<Published> rows;
};

const std::vector<Survey>& surveys() {
  static const std::vector<Survey> both{
      {Population::women,
       246.29,
       {{"ball_length", 182.05, 3.2992, 0.7070, 0.7712, ball_length_of},
        {"ball_width", 92.71, 3.9767, 0.3359, 0.4206, ball_width_of},
        {"heel_width", 67.16, 4.4387, 0.2335, 0.3182, heel_width_of},
        {"ankle_height", 62.75, 4.8586, 0.2088, 0.3027, ankle_height_of},
        {"ankle_girth", 215.74, 13.4597, 0.7613, 1.0381, ankle_girth_of}}},
      {Population::men,
       271.18,
       {{"ball_length", 200.94, 3.9771, 0.7044, 0.7744, ball_length_of},
        {"ball_width", 101.86, 4.2317, 0.3379, 0.4194, ball_width_of},
        {"heel_width", 72.51, 4.7925, 0.2268, 0.3125, heel_width_of},
        {"ankle_height", 72.90, 5.3448, 0.2241, 0.3191, ankle_height_of},
        {"ankle_girth", 229.34, 12.7790, 0.7358, 0.9684, ankle_girth_of}}}};
  return both;
}

Foot foot_of_length(double length) {
  Foot foot;
  foot.length = measured(length);
  return foot;
}

std::size_t cautions_about(const Findings& findings, const std::string& key) {
  return static_cast<std::size_t>(
      std::count_if(findings.begin(), findings.end(), [&](const Finding& f) {
        return f.key == key && f.severity == Severity::caution;
      }));
}

TEST(FootEstimates, RegressionsGiveThePublishedMeansAtTheMeanFoot) {
  for (const Survey& survey : surveys()) {
    for (const Published& row : survey.rows) {
      const FootRegression* const line = foot_regression(survey.population, row.key);
      ASSERT_NE(line, nullptr) << row.key;
      EXPECT_EQ(line->key, row.key);
      EXPECT_NEAR(line->slope * survey.foot_length + line->intercept, row.mean, 0.05) << row.key;
      EXPECT_NEAR(line->sd, row.residual_sd, 5e-5) << row.key;
      EXPECT_NEAR(line->ratio_p1, row.ratio_p1, 5e-5) << row.key;
      EXPECT_NEAR(line->ratio_p99, row.ratio_p99, 5e-5) << row.key;
    }
  }
}

TEST(FootEstimates, SlopesAreThePublishedOnes) {
  const auto slope = [](Population population, const char* key) {
    const FootRegression* const line = foot_regression(population, key);
    return line == nullptr ? 0.0 : line->slope;
  };
  EXPECT_NEAR(slope(Population::women, "ball_length"), 0.728574, 1e-6);
  EXPECT_NEAR(slope(Population::women, "ball_width"), 0.213371, 1e-6);
  EXPECT_NEAR(slope(Population::women, "heel_width"), 0.213719, 1e-6);
  EXPECT_NEAR(slope(Population::women, "ankle_height"), 0.127202, 1e-6);
  EXPECT_NEAR(slope(Population::women, "ankle_girth"), 0.512962, 1e-6);
  EXPECT_NEAR(slope(Population::men, "ball_length"), 0.739276, 1e-6);
  EXPECT_NEAR(slope(Population::men, "ball_width"), 0.235152, 1e-6);
  EXPECT_NEAR(slope(Population::men, "heel_width"), 0.201947, 1e-6);
  EXPECT_NEAR(slope(Population::men, "ankle_height"), 0.143878, 1e-6);
  EXPECT_NEAR(slope(Population::men, "ankle_girth"), 0.546817, 1e-6);
}

TEST(FootEstimates, NothingFollowsFromFootLengthForOtherReadings) {
  for (const char* key : {"arch_depth", "arch_break", "fold", "length", "", "ball"})
    EXPECT_EQ(foot_regression(Population::women, key), nullptr) << key;
}

TEST(FootEstimates, EstimatesSaySoAndCarryTheirSpreadAndSource) {
  const Reading ball = estimated_ball_length(Population::women, 238);
  EXPECT_NEAR(ball.value(), 0.728574 * 238 + 2.6086, 1e-3);
  EXPECT_TRUE(ball.estimated);
  EXPECT_NEAR(ball.estimate_sd, 3.2992, 5e-5);
  EXPECT_NE(ball.source.find("women"), std::string::npos) << ball.source;
  const Reading mens = estimated_ball_length(Population::men, 271.18);
  EXPECT_NEAR(mens.value(), 200.94, 0.05);
  EXPECT_NEAR(mens.estimate_sd, 3.9771, 5e-5);
  EXPECT_NE(mens.source, ball.source) << "whose feet it was taken from";

  // No published relation: common practice, no source, hence the wide spread.
  const Reading heel_front = estimated_heel_front(Population::women, 238);
  EXPECT_NEAR(heel_front.value(), 61, 0.5);
  EXPECT_NEAR(estimated_heel_front(Population::women, 260).value() / 260, heel_front.value() / 238,
              1e-9);
  EXPECT_TRUE(heel_front.estimated);
  EXPECT_GE(heel_front.estimate_sd, 3);
  EXPECT_FALSE(heel_front.source.empty());

  // 6 ± 3: common practice, no source.
  const Reading fold = estimated_fold();
  EXPECT_EQ(fold.value(), 6);
  EXPECT_TRUE(fold.estimated);
  EXPECT_GT(fold.estimate_sd, 1.7) << "3 as a half-width is an SD of 1.73";
  EXPECT_LE(fold.estimate_sd, 3);
  EXPECT_FALSE(fold.source.empty());

  // 158/238 of foot length: common practice, no source.
  EXPECT_NEAR(default_wing_station(238), 158, 1e-9);
  EXPECT_NEAR(default_wing_station(119), 79, 1e-9);
}

TEST(FootEstimates, SpreadDoublesOutsideTheSurveysFeet) {
  struct Case {
    Population population;
    double least;
    double most;
    double ball_sd;
  };
  for (const Case& c :
       {Case{Population::women, 219, 276, 3.2992}, Case{Population::men, 242, 302, 3.9771}}) {
    for (const double length : {c.least, c.most}) {
      EXPECT_NEAR(estimated_ball_length(c.population, length).estimate_sd, c.ball_sd, 5e-5);
      EXPECT_EQ(estimated_heel_front(c.population, length).estimate_sd, 5);
    }
    for (const double length : {c.least - 0.1, c.most + 0.1}) {
      const Reading ball = estimated_ball_length(c.population, length);
      EXPECT_NEAR(ball.estimate_sd, 2 * c.ball_sd, 1e-4) << length;
      EXPECT_NE(ball.source.find("spread doubled"), std::string::npos) << ball.source;
      EXPECT_EQ(estimated_heel_front(c.population, length).estimate_sd, 10) << length;
    }
  }
}

TEST(UsualRange, IsNoneWhereNoRuleTells) {
  for (const char* key : {"arch_depth", "arch_break", "roll.raise", ""})
    EXPECT_FALSE(usual_range(Population::women, key, 238)) << key;
  EXPECT_FALSE(usual_range(Population::women, "heel_front", {})) << "no length to go by";
  EXPECT_FALSE(usual_range(Population::women, "ball_length", {}));
}

TEST(UsualRange, HoldsItsOwnEnds) {
  const auto inset = usual_range(Population::men, "board.inset", {});
  ASSERT_TRUE(inset);
  // Common practice, no source.
  EXPECT_TRUE(inset->holds(2) && inset->holds(10));
  EXPECT_FALSE(inset->holds(1.99) || inset->holds(10.01));
}

TEST(UsualRange, IsThatOfThePublishedRatiosAndOfTheRules) {
  for (const Survey& survey : surveys())
    for (const Published& row : survey.rows) {
      const auto range = usual_range(survey.population, row.key, 240);
      ASSERT_TRUE(range) << row.key;
      EXPECT_NEAR(range->least, row.ratio_p1 * 240, 0.02) << row.key;
      EXPECT_NEAR(range->most, row.ratio_p99 * 240, 0.02) << row.key;
    }
  const auto heel = usual_range(Population::women, "heel_front", 238);
  ASSERT_TRUE(heel);
  EXPECT_DOUBLE_EQ(heel->least, 51) << "61 less twice 5";
  EXPECT_DOUBLE_EQ(heel->most, 71);
  const auto length = usual_range(Population::men, "length", {});
  ASSERT_TRUE(length);
  EXPECT_EQ(length->least, 195);
  EXPECT_EQ(length->most, 275);
}

TEST(UnlikelyReadings, AnAverageFootIsNotRemarkedOn) {
  for (const Survey& survey : surveys()) {
    Foot foot = foot_of_length(survey.foot_length);
    for (const Published& row : survey.rows)
      row.reading(foot) = measured(row.mean);
    const Findings findings = unlikely_readings(foot, survey.population, "feet.left");
    EXPECT_TRUE(findings.empty()) << findings.front().key;
  }
}

TEST(UnlikelyReadings, RatiosOutsideTheirPercentilesAreCautionedOneByOne) {
  int outside = 0;
  int inside = 0;
  for (const Survey& survey : surveys()) {
    for (const Published& row : survey.rows) {
      const std::string key = "feet.left." + row.key;
      for (const double length : {200.0, 240.0, 270.0}) {
        struct Case {
          double ratio;
          bool unlikely;
        };
        for (const Case& c :
             {Case{row.ratio_p1 - 0.0005, true}, Case{row.ratio_p1 + 0.0005, false},
              Case{row.ratio_p99 - 0.0005, false}, Case{row.ratio_p99 + 0.0005, true}}) {
          Foot foot = foot_of_length(length);
          row.reading(foot) = measured(c.ratio * length);
          const Findings findings = unlikely_readings(foot, survey.population, "feet.left");
          EXPECT_EQ(findings.size(), c.unlikely ? 1U : 0U) << key << ' ' << c.ratio;
          EXPECT_EQ(cautions_about(findings, key), c.unlikely ? 1U : 0U) << key << ' ' << c.ratio;
          EXPECT_FALSE(has_error(findings));
          for (const Finding& f : findings)
            EXPECT_FALSE(f.what.empty());
          ++(c.unlikely ? outside : inside);
        }
      }
    }
  }
  EXPECT_EQ(outside, 60);
  EXPECT_EQ(inside, 60);
}

TEST(UnlikelyReadings, FootLengthOutsideADancersRangeIsCautioned) {
  // 195 to 275: common practice, no source.
  const auto cautions = [](double length) {
    return cautions_about(
        unlikely_readings(foot_of_length(length), Population::women, "feet.right"),
        "feet.right.length");
  };
  EXPECT_EQ(cautions(194.4), 1U);
  EXPECT_EQ(cautions(195), 0U);
  EXPECT_EQ(cautions(238), 0U);
  EXPECT_EQ(cautions(275), 0U);
  EXPECT_EQ(cautions(275.6), 1U);
}

TEST(UnlikelyReadings, SmallDancersWithOrdinaryProportionsAreNotNagged) {
  Foot foot = foot_of_length(205);
  const Survey& women = surveys().front();
  for (const Published& row : women.rows)
    row.reading(foot) = measured(row.mean / women.foot_length * 205);
  EXPECT_TRUE(unlikely_readings(foot, Population::women, "feet.left").empty());
}

TEST(UnlikelyReadings, EstimatesAreNotJudgedNorIsAFootWithoutLength) {
  Foot foot;
  foot.ball_length = measured(900);
  EXPECT_FALSE(has_error(unlikely_readings(foot, Population::women, "feet.left")));
}

} // namespace
} // namespace shankline::tests::foot_estimates_test
