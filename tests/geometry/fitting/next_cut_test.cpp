#include "geometry/fitting/next_cut.hpp"

#include "geometry/board/trim_solution.hpp"
#include "geometry/foot/foot_stations.hpp"
#include "tests/geometry/random_orders.hpp"
#include "tests/geometry/worked_order.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

namespace shankline::tests::next_cut_test {
namespace {

using enum Seen;

struct TrimmedFoot {
  BoardOutline outline;
  SolvedTrim trim;
};

std::optional<TrimmedFoot> trimmed(const FootOrder& order, Pose pose, Population population,
                                   bool growing = false) {
  Findings findings;
  const auto stations = foot_stations(order.foot, pose, population, "feet.left", findings);
  if (!stations) return {};
  const Board& board = order.shoe.board;
  BoardOutline outline(board.widths, board.loose_length());
  const TrimModel model(order, pose, population, *stations, "left");
  const auto trim =
      solve_trim({*stations, board, outline, *order.alterations.shank, order.foot.arch_break.across,
                  frames_of(pose, stations->fold, board.inset->value()), growing, model,
                  "feet.left", "shoe.left.board", "alterations.left.shank"},
                 findings);
  if (!trim) return {};
  return TrimmedFoot{std::move(outline), *trim};
}

/// The worked foot: first cut 56, final 62, stop 78, witness 100 (skew and so its edges aside).
class NextCutTest : public ::testing::Test {
protected:
  void SetUp() override {
    Order order = worked_order();
    order.left->foot.arch_break = {measured(95), {}, {}, {}};
    order.left->alterations.shank->hold_back = 6;
    order.left->alterations.shank->accept_in_stop_band = true; // steps run on to the stop line
    foot = trimmed(*order.left, order.pose, order.estimates_from);
    ASSERT_TRUE(foot);
    ASSERT_NEAR(foot->trim.first_cut->centre, 56, 1e-9);
    ASSERT_NEAR(foot->trim.final_cut.centre, 62, 1e-9);
    ASSERT_NEAR(foot->trim.stop.centre, 78, 1e-9);
    ASSERT_NEAR(foot->trim.witness.centre, 100, 1e-9);
  }

  NextCut after(double cut_off, Seen seen, bool past_final = false) const {
    return next_cut(foot->outline, foot->trim, {BoardStation(cut_off), seen, past_final}).value();
  }
  void expect_cut(const NextCut& next, double at, double more) const {
    ASSERT_TRUE(next.line) << next.reason;
    EXPECT_FALSE(next.stop);
    EXPECT_NEAR(next.line->centre, at, 1e-9);
    EXPECT_NEAR(next.more, more, 1e-9);
    EXPECT_NEAR(next.left_to_final, 62 - at, 1e-9);
    EXPECT_FALSE(next.reason.empty());
  }
  static void expect_stop(const NextCut& next, StopReason why) {
    EXPECT_FALSE(next.line);
    ASSERT_TRUE(next.stop) << next.reason;
    EXPECT_EQ(*next.stop, why);
    EXPECT_EQ(next.reason.substr(0, 5), "stop:");
    EXPECT_EQ(next.more, 0);
  }

  std::optional<TrimmedFoot> foot;
};

TEST_F(NextCutTest, UncutBoardGoesToTheFirstCut) {
  const NextCut next = after(0, low);
  expect_cut(next, 56, 56);
  EXPECT_NE(next.reason.find("to the first cut"), std::string::npos) << next.reason;
  expect_cut(after(40, low), 56, 16);
}

TEST_F(NextCutTest, FirstCutThatFellALittleShortIsNotCutTwice) {
  expect_cut(after(54.5, low), 57.5, 3);
}

TEST_F(NextCutTest, StepsOfThreeToTheFinalLine) {
  expect_cut(after(56, low), 59, 3);
  const NextCut last = after(59, low);
  expect_cut(last, 62, 3);
  EXPECT_NE(last.reason.find("to the final line"), std::string::npos) << last.reason;
  expect_cut(after(57, low), 60, 3);
  expect_cut(after(60, low), 62, 2);
  expect_cut(after(58.7, low), 62, 3.3); // 0.3 would be too little for a cut of its own
}

// Shown are 46.7 back (the end, to tenths) and 44.0 back (the line, on the rule): 2.7, not 3.
TEST_F(NextCutTest, SaysHowMuchMoreByTheFiguresShown) {
  const NextCut next = after(53.26, low);
  expect_cut(next, 56.26, 3);
  EXPECT_EQ(ruler_back(foot->trim, next.line->centre), 44.0);
  EXPECT_NE(next.reason.find(": 2.7 mm more"), std::string::npos) << next.reason;
}

// Whom to ask is part of the answer.
TEST_F(NextCutTest, PainStopsAndSaysWhomToAsk) {
  const std::string words = after(56, pain).reason;
  for (const char* said : {"stop: it hurts.", "cut nothing more", "teacher", "fitter",
                           "licensed physiotherapist or podiatrist"})
    EXPECT_NE(words.find(said), std::string::npos) << words;
}

TEST_F(NextCutTest, BendsTooFarBackGoesOnToTheFinalLineToo) {
  const NextCut next = after(56, too_far_back);
  expect_cut(next, 59, 3);
  EXPECT_NE(next.reason, after(56, low).reason);
  expect_stop(after(62, too_far_back), StopReason::final_line);
}

// The opposite of "too far back": nothing comes off, however much is left to the final line.
TEST_F(NextCutTest, ABoardThatIsTooShortIsNotCutOn) {
  for (const double cut : {0.0, 40.0, 56.0, 62.0, 80.0})
    for (const bool asked : {false, true})
      expect_stop(after(cut, cut_too_far, asked), StopReason::seen_too_far);
  const std::string words = after(56, cut_too_far).reason;
  for (const char* said : {"already too short", "Cut nothing more", "Set the pair aside", "fitter",
                           "Record this try", "longer board"})
    EXPECT_NE(words.find(said), std::string::npos) << words;
}

TEST_F(NextCutTest, NeverPastTheFinalLineUnasked) {
  expect_stop(after(62, low), StopReason::final_line);
  expect_stop(after(61.6, low), StopReason::final_line); // nothing that a knife takes off is left
  expect_stop(after(62.4, low), StopReason::final_line);
  const NextCut past = after(65, low);
  expect_stop(past, StopReason::final_passed);
  EXPECT_NE(past.reason.find("3 mm past the final line"), std::string::npos) << past.reason;
  EXPECT_NEAR(past.left_to_final, -3, 1e-9);
}

TEST_F(NextCutTest, AskedByNameItGoesOnToTheStopLine) {
  const NextCut past = after(62, low, true);
  expect_cut(past, 65, 3);
  EXPECT_NE(past.reason.find("past the final line as asked"), std::string::npos) << past.reason;
  const NextCut last = after(75.5, low, true);
  expect_cut(last, 78, 2.5);
  EXPECT_NE(last.reason.find("the last cut there is"), std::string::npos) << last.reason;
  expect_cut(after(56, low, true), 59, 3);
  expect_cut(after(0, low, true), 56, 56); // but no step is skipped
}

TEST_F(NextCutTest, WithoutAFittersWordItStopsAtTheBand) {
  foot->trim.may_enter_band = false;
  const double near = foot->trim.stop_from.centre; // 78 less U of the stop line
  EXPECT_LT(near, 76);
  EXPECT_GT(near, 74);
  const NextCut last = after(near - 2, low, true);
  expect_cut(last, near, 2);
  EXPECT_NE(last.reason.find("to the stop band"), std::string::npos) << last.reason;
  expect_stop(after(near, low, true), StopReason::stop_band);
  expect_stop(after(near + 0.4, low, true), StopReason::stop_band);
  expect_stop(after(near + 0.6, low, true), StopReason::band_passed);
  expect_stop(after(77.6, low, true), StopReason::stop_line);
}

TEST_F(NextCutTest, NeverPastTheStopLine) {
  expect_stop(after(78, low, true), StopReason::stop_line);
  expect_stop(after(77.6, low, true), StopReason::stop_line);
  expect_stop(after(78.3, low), StopReason::stop_line);
  for (const bool asked : {false, true})
    for (const Seen seen : {low, right, too_far_back})
      expect_stop(after(80, seen, asked), StopReason::stop_passed);
}

TEST_F(NextCutTest, WhatIsSeenStopsItAtOnce) {
  for (const double cut : {0.0, 40.0, 56.0, 62.0, 78.0}) {
    expect_stop(after(cut, right), StopReason::seen_right);
    expect_stop(after(cut, over_the_platform, true), StopReason::seen_over);
    expect_stop(after(cut, pain, true), StopReason::seen_pain);
  }
  expect_stop(after(80, over_the_platform), StopReason::seen_over);
  expect_stop(after(80, pain), StopReason::seen_pain);
}

TEST_F(NextCutTest, CutOffThatIsNoneIsNotAnswered) {
  for (const double cut : {-1.0, 100.0, 150.0, std::nan(""), -HUGE_VAL, HUGE_VAL})
    EXPECT_FALSE(next_cut(foot->outline, foot->trim, {BoardStation(cut), low, false})) << cut;
  EXPECT_TRUE(next_cut(foot->outline, foot->trim, {BoardStation(99.9), low, false}));
}

TEST_F(NextCutTest, LinesAreGivenBackFromTheWitnessLine) {
  EXPECT_NEAR(back_from_witness(foot->trim, after(56, low).line->centre), 41, 1e-9);
}

TEST_F(NextCutTest, TableRunsFromTheFirstCutToTheFinalOne) {
  const std::vector<BoardStation> steps = cut_steps(foot->trim);
  ASSERT_EQ(steps.size(), 3U);
  EXPECT_NEAR(steps[0], 56, 1e-9);
  EXPECT_NEAR(steps[1], 59, 1e-9);
  EXPECT_NEAR(steps[2], 62, 1e-9);
}

TEST_F(NextCutTest, TooLittleForTwoStepsIsTakenByThrees) {
  SolvedTrim trim = foot->trim;
  trim.first_cut.reset();
  trim.final_cut = cut_line(foot->outline, BoardStation(5), 0).value();
  const NextCut next = next_cut(foot->outline, trim, {BoardStation(0), low, false}).value();
  ASSERT_TRUE(next.line);
  EXPECT_NEAR(next.line->centre, 3, 1e-9);
  EXPECT_EQ(cut_steps(trim).size(), 2U);
}

/// Where the fitter reads the new end to lie: halves of a millimetre back from the witness line.
double as_read_on_the_rule(const SolvedTrim& trim, const NextCut& next) {
  return trim.witness.centre - ruler_back(trim, next.line->centre);
}

// Before, a board that was good inside the band was to be glued down.
TEST_F(NextCutTest, GoodInsideTheStopBandIsForAFitter) {
  foot->trim.may_enter_band = false;
  const double band = foot->trim.stop_from.centre;
  EXPECT_EQ(after(band + 0.49, right).stop, StopReason::seen_right);
  const NextCut inside = after(band + 0.6, right);
  EXPECT_EQ(inside.stop, StopReason::band_passed);
  EXPECT_NE(inside.reason.find("Ask a fitter"), std::string::npos) << inside.reason;
  EXPECT_EQ(inside.reason.find("glue"), std::string::npos) << inside.reason;
  foot->trim.may_enter_band = true;
  EXPECT_EQ(after(band + 0.6, right).stop, StopReason::seen_right);
}

TEST(NextCut, OnAGrowingFootNothingIsCutAheadOfTheHeelFront) {
  Order order = worked_order();
  order.left->alterations.shank->rule = ReachRule{1.1, "1.1"};
  order.left->alterations.shank->accept_in_stop_band = true;
  const auto foot = trimmed(*order.left, order.pose, order.estimates_from, true);
  ASSERT_TRUE(foot);
  EXPECT_NEAR(foot->trim.stop_from.centre, 62, 1e-9); // the heel front
  EXPECT_FALSE(foot->trim.may_enter_band) << "whatever the order accepts";
  ASSERT_LT(foot->trim.final_cut.centre, 60);
  double cut = 0;
  for (int tries = 0; tries < 60; ++tries) {
    const NextCut next =
        next_cut(foot->outline, foot->trim, {BoardStation(cut), low, true}).value();
    if (!next.line) {
      EXPECT_EQ(next.stop, StopReason::stop_band);
      EXPECT_NE(next.reason.find("growing"), std::string::npos) << next.reason;
      break;
    }
    cut = next.line->centre;
  }
  EXPECT_NEAR(cut, 62, 1e-9);
}

TEST_F(NextCutTest, HalfAMillimetreMoreIsCutOffWithTheStepBeforeIt) {
  SolvedTrim trim = foot->trim;
  for (const auto& [left, more] : {std::pair(0.7, 3.7), std::pair(0.8, 3.0)}) {
    trim.final_cut = cut_line(foot->outline, BoardStation(59 + left), 0).value();
    EXPECT_NEAR(next_cut(foot->outline, trim, {BoardStation(56), low, false})->more, more, 1e-9);
  }
}

TEST_F(NextCutTest, DecimalPointOnePlaceTooFarLeftIsSeen) {
  const auto meant = [this](double cut_off) {
    return meant_by_a_slip(foot->trim, BoardStation(cut_off));
  };
  EXPECT_NEAR(meant(5.6).value(), 56, 1e-9);    // the first cut lies at 56
  EXPECT_NEAR(meant(5.31).value(), 53.1, 1e-9); // one step before it
  EXPECT_FALSE(meant(5.29));
  const double stop = foot->trim.stop.centre;
  EXPECT_TRUE(meant(stop / 10 - 0.01));
  EXPECT_FALSE(meant(stop / 10 + 0.01));
  for (const double plain : {0.0, 30.0, 52.9, 56.0, 62.0, 70.0})
    EXPECT_FALSE(meant(plain)) << plain;
}

TEST(NextCut, FollowedAlongRandomOrdersItEndsAtTheFinalOrStopLine) {
  Draw draw(31);
  int followed = 0;
  int skew = 0;
  for (int i = 0; i < 150; ++i) {
    const Order order = random_order(draw);
    for (const auto* wanted : {&order.left, &order.right}) {
      if (!*wanted) continue;
      const auto foot = trimmed(**wanted, order.pose, order.estimates_from);
      if (!foot) continue;
      const SolvedTrim& trim = foot->trim;
      for (const bool past : {false, true}) {
        const double limit =
            past ? std::max(trim.limit(), trim.final_cut.centre) : trim.final_cut.centre;
        double cut = 0;
        std::vector<BoardStation> lines;
        for (int tries = 0; tries < 60; ++tries) {
          const auto next = next_cut(foot->outline, trim, {BoardStation(cut), low, past});
          ASSERT_TRUE(next);
          if (!next->line) {
            ASSERT_TRUE(next->stop == StopReason::stop_band ||
                        (!past && next->stop == StopReason::final_line));
            break;
          }
          ASSERT_GE(next->more, least_cut);
          ASSERT_LE(next->line->centre, limit + 1e-9);
          ASSERT_NEAR(next->line->centre, cut + next->more, 1e-9);
          // Parallel to the final line.
          ASSERT_NEAR(std::atan2(next->line->medial_end.x - next->line->lateral_end.x,
                                 next->line->medial_end.y - next->line->lateral_end.y),
                      trim.skew, 1e-6);
          cut = as_read_on_the_rule(trim, *next);
          lines.push_back(next->line->centre);
        }
        ASSERT_GT(cut, limit - least_cut);
        ASSERT_LT(cut, limit + 1e-9);
        if (!past) {
          ASSERT_EQ(lines, cut_steps(trim));
        }
        ++followed;
      }
      if (trim.skew != 0) ++skew;
    }
  }
  EXPECT_GT(followed, 200);
  EXPECT_GT(skew, 4); // rarely are two breaks known well enough to be told apart
}

} // namespace
} // namespace shankline::tests::next_cut_test
