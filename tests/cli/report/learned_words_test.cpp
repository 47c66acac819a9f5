// A house's learned figures in words: named where they are certain, flagged where they are
// doubtful.
#include "cli/report/learned_words.hpp"

#include "cli/report/learned_json.hpp"
#include "tests/geometry/learning_cases.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace shankline::tests::learned_words_test {
namespace {

using nlohmann::json;

LearnedHouse house_of(HouseRecords records) {
  HouseHistory history;
  history.records = in_order(std::move(records));
  for (const FootRecords& foot : history.records.feet)
    history.newest.push_back({foot.shoes.empty() ? "" : foot.shoes.back().style, 1.5});
  return learned_house(std::move(history));
}

/// Twelve feet found right at 61; R2 read half of them and marked 6 too far forward.
HouseRecords marked_too_far_forward() {
  HouseRecords records;
  for (int i = 0; i < 12; ++i) {
    const bool by_r2 = i % 2 == 0;
    records.feet.push_back(foot("D-" + std::to_string(10 + i),
                                {{by_r2 ? "R2" : "R1", by_r2 ? 67.0 : 61.0, 1.0, 3}},
                                shoes("s", "55l 58l 61g; 58l 61g; 58l 61g")));
    for (TriedShoe& shoe : records.feet.back().shoes)
      shoe.promised = PromisedPlace{by_r2 ? 67.0 : 61.0, 12.4};
  }
  return records;
}

bool said(const std::vector<std::string>& sentences, const std::string& words) {
  for (const std::string& sentence : sentences)
    if (sentence.find(words) != std::string::npos) return true;
  return false;
}

TEST(LearnedWords, AHabitIsNamedWhereItIsSurelyNotZero) {
  const LearnedHouse house = house_of(marked_too_far_forward());
  const ReaderHabit& r2 = house.fit.readers.at(1);
  ASSERT_EQ(r2.reader, "R2");
  ASSERT_TRUE(r2.habit.surely_not_zero());
  const std::vector<std::string> sentences = house_sentences(house);
  EXPECT_TRUE(said(sentences, "R2 marks the heel front ")) << learned_text(house);
  EXPECT_TRUE(said(sentences, " too far forward (6 readings)")) << learned_text(house);
  EXPECT_TRUE(said(sentences, "It is not certain that R1 has a habit")) << learned_text(house);
  EXPECT_TRUE(said(sentences, " farther forward than R1.")) << learned_text(house);
  EXPECT_FALSE(said(sentences, " farther forward than R2.")) << learned_text(house);
  const LearnedHouse doubtful = house_of(three_feet());
  EXPECT_FALSE(said(house_sentences(doubtful), "marks the heel front")) << learned_text(doubtful);
}

// Each foot's three shoes: good at the third, second and second try.
TEST(LearnedWords, HowGoodTheLinesWereIsOneSentence) {
  HouseRecords records = marked_too_far_forward();
  const std::string all = track_words(house_of(records));
  EXPECT_EQ(all,
            "How good the lines were: 36 of 36 shoes ended good, after 2.3 tries on average, 0 "
            "cut too far; the place found good was inside the promised \u00b1 in 36 of 36.");
  for (FootRecords& foot : records.feet)
    for (TriedShoe& shoe : foot.shoes)
      shoe.promised->U = 3;
  EXPECT_NE(track_words(house_of(records)).find("in 18 of 36."), std::string::npos)
      << "R2's are 6 off";
  EXPECT_TRUE(said(learned_in_short(house_of(records)), "How good the lines were"));
  EXPECT_EQ(track_words(house_of({})), "");
  ASSERT_EQ(learned_in_short(house_of({})).size(), 1u);
  EXPECT_TRUE(said(learned_in_short(house_of({})), "No tries are on record yet."));
}

TEST(LearnedWords, WhoNeverSaysTooLowIsFlagged) {
  HouseRecords records = six_feet();
  records.feet.push_back(foot("polite", {{"0", 62, 2.8, 3}}, shoes("0", "55g; 56g; 57g")));
  const LearnedHouse house = house_of(std::move(records));
  EXPECT_TRUE(said(learned_cautions(house), "polite never said \"too low\" in 3 answers"))
      << learned_text(house);
  EXPECT_FALSE(said(learned_cautions(house), "1 never said"));
  EXPECT_NE(learned_csv(house).find("\npolite,left,0,"), std::string::npos) << learned_csv(house);
  EXPECT_NE(learned_csv(house).find(",no,no\r\n"), std::string::npos) << learned_csv(house);
  records = six_feet();
  records.feet.push_back(foot("untried", {{"0", 62, 2.8, 3}}, {}));
  const std::string csv = learned_csv(house_of(std::move(records)));
  const std::string row = csv.substr(csv.find("\nuntried,") + 1);
  EXPECT_NE(row.substr(0, row.find('\n')).find(",no,\r"), std::string::npos)
      << "nobody knows: " << row;
}

TEST(LearnedWords, AFootThatMayHaveJumpedIsToBeMeasuredAgain) {
  HouseRecords records = six_feet();
  records.feet.push_back(foot("jumped", {{"0", 62, 2.8, 3}},
                              shoes("0", "56l 59l 62g; 59l 62g; 59l 62g; 59l 62g; 62l 65l 68l 71l "
                                         "74g")));
  const LearnedHouse house = house_of(std::move(records));
  ASSERT_GT(house.feet.back().place.jump_probability, 0.2);
  EXPECT_TRUE(said(learned_cautions(house), "jumped, left: measure again")) << learned_text(house);
  EXPECT_TRUE(said(learned_cautions(house), "moved before the last pair (probability "));
  EXPECT_FALSE(said(learned_cautions(house), "1, left: measure again"));
}

TEST(LearnedWords, AJumpBeforeTheLastPairButOneIsNamed) {
  LearnedHouse house = house_of(six_feet());
  LearnedFoot& foot = house.feet.front();
  foot.measure_again = true;
  foot.place.jump_probability = 0.1;
  foot.place.earlier_jump_probability = 0.31;
  EXPECT_TRUE(
      said(learned_cautions(house), "moved before the last pair but one (probability 0.31)"))
      << learned_text(house);
  EXPECT_NE(learned_csv(house).find(",0.1000,0.3100,"), std::string::npos) << learned_csv(house);
  EXPECT_EQ(json::parse(learned_json(house))["feet"][0]["earlier_jump_probability"], 0.31);
}

TEST(LearnedWords, FiguresAreThoseOfTheFit) {
  const LearnedHouse house = house_of(marked_too_far_forward());
  const json learned = json::parse(learned_json(house));
  EXPECT_EQ(learned["format"], "shankline-learned/1");
  EXPECT_EQ(learned["model"], learning_model_version);
  EXPECT_NEAR(learned["house"]["value"], house.fit.house.mean, 1e-8);
  EXPECT_NEAR(learned["readers"][1]["habit"]["U"], house.fit.readers[1].habit.U(), 1e-8);
  EXPECT_EQ(learned["readers"][1]["habit"]["surely_not_zero"], true);
  ASSERT_EQ(learned["feet"].size(), 12u);
  EXPECT_NEAR(learned["feet"][3]["place"], house.feet[3].place.mean, 1e-8);
  EXPECT_EQ(learned["feet"][3]["pairs"], 3);
  ASSERT_EQ(learned["found"].size(), 36u);
  EXPECT_EQ(learned["found"][0]["found"], 61.0);
  EXPECT_EQ(learned["found"][0]["promised"], 67.0);
  EXPECT_EQ(learned["track"]["all"]["shoes"], 36);
  EXPECT_NEAR(learned["track"]["all"]["mean_off"], -3, 1e-9);
  EXPECT_EQ(learned["track"]["months"].size(), house.track.months.size());
  const std::string text = learned_text(house);
  EXPECT_NE(text.find("-3.0"), std::string::npos) << text;
  EXPECT_NE(text.find("estimate"), std::string::npos) << text;
  EXPECT_EQ(learned_text(house_of(marked_too_far_forward())), text);
}

// The trials of a record are in no order of their own; the last one is where the board was cut to.
TEST(LearnedWords, TheTriesCountAsTheBoardGotShorter) {
  HouseRecords records;
  records.feet.push_back(foot("M-07", {{"1", 61, 2.8, 3}}, shoes("s", "64g 55l 58l 61l")));
  const LearnedHouse house = house_of(std::move(records));
  EXPECT_EQ(house.track.all.ended_good, 1);
  EXPECT_EQ(house.track.all.tries_until_good, 4.0);
}

TEST(LearnedWords, NothingOnRecordIsSaidAndNoFault) {
  const LearnedHouse house = house_of({});
  const std::string text = learned_text(house);
  EXPECT_NE(text.find("No tries are on record yet"), std::string::npos) << text;
  EXPECT_EQ(json::parse(learned_json(house))["feet"], json::array());
}

TEST(LearnedWords, NotedGapsAreHeldAgainstTheModels) {
  LearnedHouse house = house_of(three_feet());
  const Day day(std::chrono::year(2026) / 3 / 14);
  house.history.gaps = {{"A", FootSide::left, day, 2.5, 3.0}, {"B", FootSide::left, day, 4.5, 3.0}};
  EXPECT_TRUE(said(contact_sentences(house), "Gap, noted less predicted, 2 shoes: mean 0.5, spread "
                                             "1.4"))
      << learned_text(house);
}

TEST(LearnedWords, LinesFitAHundredColumnsAndSteerNoTerminal) {
  HouseRecords records = six_feet();
  records.feet[0].dancer = std::string(40, 'w');
  records.feet[1].dancer = "\x1b[31mred";
  const std::string text = learned_text(house_of(std::move(records)));
  EXPECT_EQ(text.find('\x1b'), std::string::npos);
}

} // namespace
} // namespace shankline::tests::learned_words_test
