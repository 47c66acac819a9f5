#include "geometry/learning/trial_records.hpp"

#include "geometry/learning/learned_use.hpp"
#include "geometry/learning/track_record.hpp"
#include "tests/geometry/learning_cases.hpp"

#include <gtest/gtest.h>

#include <chrono>
#include <cmath>
#include <limits>
#include <vector>

namespace shankline::tests::trial_records_test {
namespace {

using namespace std::chrono_literals;

Trial trial(double end, Answer answer, bool after_wear = false) {
  Trial result;
  result.board_end = end;
  result.answer = answer;
  result.after_wear = after_wear;
  return result;
}

TEST(TrialRecords, OnlyThreeAnswersPlaceTheBoard) {
  EXPECT_TRUE(places_the_board(Answer::too_low));
  EXPECT_TRUE(places_the_board(Answer::good));
  EXPECT_TRUE(places_the_board(Answer::cut_too_far));
  EXPECT_FALSE(places_the_board(Answer::rolls_over));
  EXPECT_FALSE(places_the_board(Answer::pain));
}

TEST(TrialRecords, RangesHoldAtTheirEnds) {
  const auto faults = [](double end, double sd, double shoe_u) {
    HouseRecords records = three_feet();
    records.feet[0].shoes[0].trials[0].board_end = end;
    records.feet[0].estimate_sd = sd;
    records.feet[0].shoes[0].shoe_u = shoe_u;
    return check_records(records).size();
  };
  EXPECT_EQ(faults(0, 8, 0), 0U);
  EXPECT_EQ(faults(200, 0.01, 20), 0U);
  EXPECT_EQ(faults(-0.001, 8, 1), 1U);
  EXPECT_EQ(faults(200.001, 8, 1), 1U);
  EXPECT_EQ(faults(60, 0.009, 1), 1U);
  EXPECT_EQ(faults(60, 8, 20.001), 1U);
  EXPECT_EQ(faults(std::numeric_limits<double>::infinity(), 8, -0.1), 2U);
}

TEST(TrialRecords, WhatIsThereTwiceIsNamed) {
  HouseRecords records = three_feet();
  records.feet.push_back(records.feet[1]);
  records.feet[0].shoes[1].pair = records.feet[0].shoes[0].pair;
  const std::vector<RecordFault> faults = check_records(records);
  ASSERT_EQ(faults.size(), 2U);
  EXPECT_EQ(faults[0].where(), "A, left, pair 0");
  EXPECT_EQ(faults[0].what, "this pair is there twice");
  EXPECT_EQ(faults[1].where(), "B, left");
  // The other foot of the same dancer is another foot.
  records = three_feet();
  records.feet.push_back(records.feet[1]);
  records.feet.back().side = FootSide::right;
  EXPECT_TRUE(check_records(records).empty());
}

TEST(TrialRecords, WhoNeverSaidTooLowIsFlagged) {
  HouseRecords records = three_feet();
  records.feet.push_back(foot("D", {}, shoes("s", "60g; 61g 61g")));
  records.feet.push_back(foot("E", {}, shoes("s", "60g")));
  FootRecords other = foot("E", {}, shoes("s", "50l 60g"));
  other.side = FootSide::right; // one "too low" on either foot will do
  records.feet.push_back(other);
  FootRecords hurt = foot("F", {}, shoes("s", "60g"));
  hurt.shoes[0].trials[0].answer = Answer::pain; // says nothing of her answers
  records.feet.push_back(hurt);
  const auto flagged = never_too_low(records);
  ASSERT_EQ(flagged.size(), 1U);
  EXPECT_EQ(flagged[0].dancer, "D");
  EXPECT_EQ(flagged[0].trials, 3);
}

TEST(TrialRecords, PairsEndGoodByTheirLastWordAfterWear) {
  FootRecords records = foot("A", {}, shoes("s", "60g; 60g; 60g; 60g; 60g"));
  EXPECT_EQ(shoes_good_after_wear(records), 0); // at the barre only
  records.shoes[0].trials.push_back(trial(60, Answer::good, true));
  records.shoes[1].trials.push_back(trial(60, Answer::good, true));
  records.shoes[1].trials.push_back(trial(60, Answer::too_low, true));
  records.shoes[2].trials.push_back(trial(60, Answer::too_low, true));
  records.shoes[2].trials.push_back(trial(62, Answer::good, true));
  records.shoes[3].trials.push_back(trial(60, Answer::good, true));
  records.shoes[3].trials.push_back(trial(60, Answer::pain, true));
  records.shoes[4].trials.push_back(trial(60, Answer::good, true));
  EXPECT_EQ(shoes_good_after_wear(records), 3) << "the first, the third and the fifth";
  records.shoes[2].trials.push_back(trial(62, Answer::good));
  EXPECT_EQ(shoes_good_after_wear(records), 3) << "still good at the barre";
  records.shoes[4].trials.push_back(trial(61, Answer::good));
  EXPECT_EQ(shoes_good_after_wear(records), 2) << "the fifth board was cut on";
  records.shoes[2].trials.push_back(trial(62, Answer::pain));
  EXPECT_EQ(shoes_good_after_wear(records), 1) << "nobody said that the pain came after wear";
}

TEST(TrialRecords, AnEndThatWasTooFarStandsUntilALaterPairSpeaksAgainstIt) {
  const auto standing = [](const char* tries) {
    return standing_too_far(foot("A", {}, shoes("s", tries)));
  };
  EXPECT_FALSE(standing("50l 53l 56g"));
  EXPECT_EQ(standing("50l 53f"), 53.0);
  EXPECT_EQ(standing("58f; 50l 53f; 55f"), 53.0) << "the nearest to the heel";
  // A later pair that was good, or still too long, there or farther ahead.
  EXPECT_FALSE(standing("53f; 53g"));
  EXPECT_FALSE(standing("53f; 53l"));
  EXPECT_EQ(standing("53f; 52.9g"), 53.0);
  EXPECT_EQ(standing("53f; 53f"), 53.0);
  EXPECT_EQ(standing("53f; 58f"), 53.0) << "too far as well: that speaks for it";
  // Earlier answers do not count, nor those of the same pair: its board only got shorter.
  EXPECT_EQ(standing("53g; 53f"), 53.0);
  EXPECT_EQ(standing("53f 56g"), 53.0);
  // One that was spoken against leaves the next one standing.
  EXPECT_EQ(standing("53f; 54g; 57f"), 57.0);
  FootRecords same_day = foot("A", {}, shoes("s", "53f; 53g"));
  same_day.shoes[1].ordered = same_day.shoes[0].ordered;
  EXPECT_EQ(standing_too_far(same_day), 53.0);
  FootRecords hurt = foot("A", {}, shoes("s", "53f; 53g"));
  hurt.shoes[1].trials[0].answer = Answer::pain;
  EXPECT_EQ(standing_too_far(hurt), 53.0);
}

TEST(LearnedUse, TheFinalLineIsHeldBehindAnEndThatWasTooFar) {
  LearnedPlace place;
  place.mean = 53;
  EXPECT_FALSE(is_held_behind(place));
  EXPECT_EQ(learned_final(place), 53);
  place.too_far = 56;
  EXPECT_FALSE(is_held_behind(place));
  EXPECT_EQ(learned_final(place), 53);
  place.too_far = 55.9;
  EXPECT_TRUE(is_held_behind(place));
  EXPECT_NEAR(learned_final(place), 52.9, 1e-12);
  place.too_far = 45; // the answers contradict each other: the longer board is the safe one
  EXPECT_EQ(learned_final(place), 42);
}

TEST(LearnedUse, TheAlarmRingsAboveItsLimit) {
  LearnedPlace place;
  place.jump_probability = 0.2;
  EXPECT_FALSE(alarm(place));
  place.jump_probability = 0.2001;
  EXPECT_TRUE(alarm(place));
}

TEST(LearnedUse, TheHoldBackFallsOnceThreePairsWereGoodAfterWear) {
  LearnedPlace place;
  place.U = 12.4;
  EXPECT_NEAR(learned_hold_back(place), 9.4, 1e-12);
  place.U = 4.5;
  place.good_after_wear = 2;
  EXPECT_EQ(learned_hold_back(place), 6);
  place.good_after_wear = 3;
  EXPECT_EQ(learned_hold_back(place), 3);
  place.U = 7.5;
  EXPECT_NEAR(learned_hold_back(place), 4.5, 1e-12);
}

TEST(TrackRecord, AShoeThatHurtAfterItWasGoodDidNotEndGood) {
  HouseRecords records;
  records.feet.push_back(foot("A", {}, shoes("s", "58g; 58g")));
  auto& tried = records.feet[0].shoes;
  tried[0].trials.push_back(trial(58, Answer::pain));
  tried[1].trials.insert(tried[1].trials.begin(), trial(55, Answer::pain));
  const TrackRecord all = track_records(records).all;
  EXPECT_EQ(all.shoes, 2);
  EXPECT_EQ(all.ended_good, 1);
  EXPECT_EQ(all.stopped, 2);
}

TEST(TrackRecord, CountsByHandAndByMonth) {
  HouseRecords records;
  records.feet.push_back(foot("A", {}, shoes("s", "52l 55l 58g; 55l 58f; 58g; 60l")));
  auto& tried = records.feet[0].shoes;
  tried[0].ordered = Day(2026y / 1 / 31);
  tried[1].ordered = Day(2026y / 2 / 1);
  tried[2].ordered = Day(2026y / 2 / 28);
  tried[3].ordered = Day(2026y / 2 / 28);
  tried[0].promised = PromisedPlace{60, 5};
  tried[1].promised = PromisedPlace{60, 5}; // not found good: no place to set against
  tried[2].promised = PromisedPlace{55, 2};
  tried[3].trials.push_back(trial(60, Answer::pain));
  const TrackRecords record = track_records(records);
  EXPECT_EQ(record.all.shoes, 4);
  EXPECT_EQ(record.all.ended_good, 2);
  EXPECT_EQ(record.all.cut_too_far, 1);
  EXPECT_EQ(record.all.stopped, 1);
  EXPECT_EQ(record.all.tries_until_good, 2); // three and one
  EXPECT_EQ(record.all.promised, 2);
  EXPECT_NEAR(*record.all.mean_off, 0.5, 1e-12); // −2 and 3
  EXPECT_NEAR(*record.all.sd_off, 5 / std::sqrt(2.0), 1e-12);
  EXPECT_EQ(record.all.inside_U, 1);
  ASSERT_EQ(record.months.size(), 2U);
  EXPECT_EQ(record.months[0].month, 2026y / 1);
  EXPECT_EQ(record.months[0].shoes, 1);
  EXPECT_EQ(record.months[1].shoes, 3);
  EXPECT_FALSE(record.months[0].sd_off); // one place has no spread
  EXPECT_FALSE(track_records({}).all.tries_until_good);
}

} // namespace
} // namespace shankline::tests::trial_records_test
