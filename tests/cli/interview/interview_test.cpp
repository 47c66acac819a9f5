// The interview over two streams: a person who answers by the prompt, in every mood.
#include "cli/interview/interview.hpp"

#include "cli/order_file/order_reader.hpp"
#include "cli/text/text_columns.hpp"
#include "geometry/solution/solution.hpp"
#include "tests/cli/sketch_order.hpp"

#include <gtest/gtest.h>
#include <map>
#include <sstream>

namespace shankline::tests::interview_test {
namespace {

struct Told {
  InterviewEnd end;
  InterviewState state;
  std::string said;
  std::string order;
  int kept = 0;
};

Told tell(const std::vector<std::string>& answers, InterviewState state = {}) {
  std::string typed_lines;
  for (const std::string& answer : answers)
    typed_lines += answer + '\n';
  std::istringstream in(typed_lines);
  std::ostringstream out;
  int kept = 0;
  Interview interview(in, out, "order.yaml", std::move(state),
                      [&](const InterviewState&) { ++kept; });
  const InterviewEnd end = interview.run();
  return {end, interview.state(), out.str(),
          end == InterviewEnd::whole ? interview.order_text() : std::string(), kept};
}

// Each line answers one question, in the order in which they come.
const std::vector<std::string> whole{"M-07",
                                     "touring, spring, second pair",
                                     "2026-03-14",
                                     "both",
                                     "board",
                                     "pointed",
                                     "238, 238.5, 238", // length
                                     "=",
                                     "172", // ball length
                                     "172",
                                     "61", // heel front
                                     "62 within 2",
                                     "97", // break, big-toe side
                                     "96",
                                     "93", // break, little-toe side
                                     "?",
                                     "12.5", // depth
                                     "1.2 cm",
                                     "6", // fold
                                     "=",
                                     "loose",
                                     "fibreboard",
                                     "220",
                                     "3/16 in",
                                     "3.2",
                                     "45 at 22, 33 at 96, 56 at 164",
                                     "over the knee",
                                     "2", // travel
                                     "edge",
                                     "", // bevel: 12 as offered
                                     "", // liner: none
                                     "", // darning: none
                                     "", // ribbons: none
                                     ""};
// Where the liner is asked for.
constexpr std::ptrdiff_t finishing = 30;

ReadOrder read_whole(const std::string& text) {
  ReadOrder read = read_order(text, "order.yaml");
  EXPECT_TRUE(read.ok()) << all_text(read.messages) << text;
  return read;
}

/// The state that a resumed interview begins with, after a way through its file.
InterviewState through_file(const InterviewState& state) {
  const std::string text = unfinished_text(state, "order.yaml");
  auto read = read_unfinished(text, "order.yaml.unfinished");
  if (const auto* wrong = std::get_if<std::vector<Message>>(&read)) {
    ADD_FAILURE() << all_text(*wrong) << text;
    return {};
  }
  return std::get<InterviewState>(read);
}

TEST(Interview, WritesAnOrderThatIsReadAndSolvedWithoutAMessage) {
  const Told told = tell(whole);
  ASSERT_EQ(told.end, InterviewEnd::whole) << told.said;
  const ReadOrder read = read_whole(told.order);
  EXPECT_TRUE(read.messages.empty());
  const Solution solution = solve(read.order);
  EXPECT_TRUE(solution.findings.empty());
  const Order& order = read.order;
  EXPECT_EQ(order.dancer, "M-07");
  EXPECT_EQ(order.date, "2026-03-14");
  EXPECT_EQ(order.left->foot.length->values, (std::vector<double>{238, 238.5, 238}));
  EXPECT_EQ(order.right->foot.length, order.left->foot.length);
  EXPECT_EQ(order.right->foot.heel_front->values, std::vector<double>{62});
  EXPECT_EQ(order.right->foot.heel_front->finding, 2);
  EXPECT_EQ(order.left->foot.arch_break.lateral->value(), 93);
  EXPECT_FALSE(order.right->foot.arch_break.lateral);
  EXPECT_EQ(order.right->foot.arch_depth->value(), 12);
  EXPECT_NEAR(order.left->shoe.board.inset->value(), 25.4 * 3 / 16, 1e-6);
  EXPECT_EQ(order.right->shoe, order.left->shoe);
  EXPECT_EQ(order.left->shoe.board.widths.size(), 3u);
  EXPECT_EQ(std::get<Travel>(order.left->shoe.pull).travel, 2);
  EXPECT_EQ(std::get<ReachRule>(order.left->alterations.shank->rule).reach, 1);
  EXPECT_EQ(order.left->alterations.shank->bevel, 12);
  EXPECT_EQ(told.kept, int(whole.size()) - 1);
  EXPECT_NE(told.said.find("final cut"), std::string::npos);
}

TEST(Interview, TakesWordsThatYamlWouldTakeForSomethingElse) {
  std::vector<std::string> answers = whole;
  answers[0] = std::string(20, '[');
  answers[1] = "null";
  const Told told = tell(answers);
  ASSERT_EQ(told.end, InterviewEnd::whole) << told.said;
  const Order order = read_whole(told.order).order;
  EXPECT_EQ(order.dancer, answers[0]);
  EXPECT_EQ(order.pair, "null");
  answers[1] = std::string(20, '[');
  EXPECT_EQ(read_whole(tell(answers).order).order.pair, answers[1]);
}

TEST(Interview, FitsIntoEightyColumns) {
  std::vector<std::string> answers;
  for (const std::string& answer : whole) {
    answers.push_back("why");
    answers.push_back("no such thing at all");
    answers.push_back(answer);
  }
  // Texts take anything, so these three are said again.
  const Told told = tell(answers);
  // Enter ends the line of a prompt on a terminal.
  std::string shown = told.said;
  for (std::size_t at = shown.find("> "); at != std::string::npos; at = shown.find("> ", at))
    shown.replace(at, 2, ">\n");
  std::istringstream lines(shown);
  int count = 0;
  for (std::string line; std::getline(lines, line); ++count)
    EXPECT_LE(characters_in(line), 80u) << line;
  EXPECT_GT(count, 100);
  EXPECT_EQ(told.said.find('\033'), std::string::npos);
}

// Whatever the place, what was said is kept, and going on from the file gives the same order.
TEST(Interview, GoesOnFromItsFileAfterEveryAnswer) {
  const std::string order = tell(whole).order;
  int resumed = 0;
  for (std::size_t cut = 1; cut < whole.size(); ++cut) {
    const auto middle = whole.begin() + static_cast<std::ptrdiff_t>(cut);
    const Told first = tell({whole.begin(), middle});
    ASSERT_EQ(first.end, InterviewEnd::unfinished);
    EXPECT_EQ(first.kept, int(cut));
    const InterviewState state = through_file(first.state);
    EXPECT_EQ(state.settled, first.state.settled);
    const Told second = tell({middle, whole.end()}, state);
    ASSERT_EQ(second.end, InterviewEnd::whole) << second.said;
    EXPECT_EQ(second.order, order) << "cut at " << cut;
    ++resumed;
  }
  EXPECT_GE(resumed, 30);
}

TEST(Interview, GoesBackAndKeepsTheRest) {
  std::vector<std::string> answers = whole;
  // At the third question back to the dancer, Enter, and on where it was.
  answers.insert(answers.begin() + 2, {"back", "back", "M-11"});
  const Told told = tell(answers);
  ASSERT_EQ(told.end, InterviewEnd::whole) << told.said;
  EXPECT_EQ(read_whole(told.order).order.dancer, "M-11");
  EXPECT_EQ(read_whole(told.order).order.pair, "touring, spring, second pair");
  EXPECT_NE(told.said.find("dancer [M-07]> "), std::string::npos);
  // Before the first question there is nothing.
  const Told first = tell({"back", "back", "M-11"});
  EXPECT_EQ(first.state.order.dancer, "M-11");
}

TEST(Interview, SaysWhatIsWrongWhatIsAllowedAndAsksAgain) {
  const struct {
    std::size_t at;
    const char* wrong;
    const char* said;
  } rows[] = {{2, "2026-02-30", "is not a day of the calendar"},
              {2, "03/04/2026", "2026-04-03 or 3 April 2026"},
              {2, "today", "is another day tomorrow"}, // no terminal here
              {3, "bth", "did you mean 'both'?"},
              {6, "23.8", "write 23.8 cm"},
              {6, "238,5", "238,5"},
              {6, "238 kg", "a length is wanted here"},
              {6, "long", "'long' is not a length"},
              {6, "", "needed"},
              {6, "?", "needed"},
              {7, "238; 1000", "too large"},
              {10, "61 within", "61 within"},
              {10, "61 within 500", "too large"},
              {10, "-3", "cannot be negative"},
              {20, "lose", "did you mean 'loose'?"},
              {22, "?", "needed"},
              {25, "45, 33, 56", "is not a width with its place"},
              {25, "45 at 22", "will not give the board's outline"},
              {21, "plastic", "a moulded plastic board is not cut"},
              {26, "very", "is not one of the words"},
              {28, "9", "too large"},
              {28, "130 %", "too large"}};
  for (const auto& row : rows) {
    std::vector<std::string> answers = whole;
    answers.insert(answers.begin() + static_cast<std::ptrdiff_t>(row.at), row.wrong);
    const Told told = tell(answers);
    ASSERT_EQ(told.end, InterviewEnd::whole) << row.wrong << '\n' << told.said;
    EXPECT_NE(told.said.find(row.said), std::string::npos) << row.wrong << '\n' << told.said;
    EXPECT_EQ(told.order, tell(whole).order) << row.wrong;
  }
}

TEST(Interview, TellsWhatADontKnowCosts) {
  std::vector<std::string> answers = whole;
  answers[10] = "?";
  const Told told = tell(answers);
  ASSERT_EQ(told.end, InterviewEnd::whole);
  EXPECT_NE(told.said.find("Taken as 61.0 instead"), std::string::npos);
  // The figure is the solver's own.
  const Order order = read_whole(told.order).order;
  const Solution solution = solve(order);
  EXPECT_FALSE(order.left->foot.heel_front);
  const double U = solution.left->trim->doubt.board.expanded();
  std::string words;
  std::istringstream all(told.said);
  for (std::string word; all >> word;)
    words += word + ' ';
  const std::string before = "known to \u00b1";
  ASSERT_NE(words.find(before), std::string::npos);
  EXPECT_NEAR(std::stod(words.substr(words.find(before) + before.size())), U, 0.3);
}

// One line of words without the breaks and margins of the terminal.
std::string in_one_line(const std::string& said) {
  std::istringstream all(said);
  std::string words;
  for (std::string word; all >> word;)
    words += (words.empty() ? "" : " ") + word;
  return words;
}

TEST(Interview, KeepsTheDayAsYearMonthDay) {
  std::vector<std::string> answers = whole;
  answers[2] = "14 March 2026";
  EXPECT_EQ(tell(answers).order, tell(whole).order);
}

TEST(Interview, TakesAnUnknownMaterialAsTheUsualOneAndWarns) {
  std::vector<std::string> answers = whole;
  answers[21] = "?"; // material
  answers[28] = "?"; // reach
  answers[29] = "?"; // bevel
  const Told told = tell(answers);
  ASSERT_EQ(told.end, InterviewEnd::whole) << told.said;
  EXPECT_EQ(told.order, tell(whole).order) << "fibreboard, edge and 12 are the usual ones";
  const std::string said = in_one_line(told.said);
  EXPECT_NE(said.find("(fibreboard, leather; ? if not known)"), std::string::npos) << said;
  EXPECT_NE(said.find("Look before you cut: moulded plastic is not cut."), std::string::npos);
}

// A question that has to be answered says again how.
TEST(Interview, HelpsWhereADontKnowCannotBe) {
  const Told told = tell({"M-07", "", "", "?"});
  const std::string said = in_one_line(told.said);
  const std::string how = "Which feet are to be measured? (both, left, right)";
  EXPECT_NE(said.find(how), said.rfind(how)) << said;
  EXPECT_NE(said.find("This one is needed."), std::string::npos);
}

TEST(Interview, WhyAndHelpAnswerTheirOwnQuestionOnly) {
  for (const Question& question : interview_questions())
    EXPECT_FALSE(question.why.empty()) << question.id;
  const std::vector<std::string> before(whole.begin(), whole.begin() + 10);
  const auto said_after = [&](const std::string& word) {
    std::vector<std::string> answers = before;
    answers.push_back(word);
    const std::string said = tell(answers).said;
    return in_one_line(said.substr(said.find("heel_front left> ") + 17));
  };
  EXPECT_EQ(said_after("why"),
            "At reach edge the board ends exactly here, so it moves the cut one for one. "
            "heel_front left>");
  const std::string help = said_after("help");
  EXPECT_TRUE(help.starts_with("Slide a thumb back along the sole until the pad thickens")) << help;
  EXPECT_EQ(help.find("moves the cut"), std::string::npos) << help;
}

// The board's width is asked for before the cut is known: about where is told from what was said.
TEST(Interview, TellsAboutWhereTheCutOfABoardInTheShoeWillBe) {
  const auto hint_of = [](const std::string& heel_front, const std::string& inset) {
    std::vector<std::string> answers = whole;
    answers[10] = heel_front;
    answers[20] = "in_shoe";
    answers[22] = inset; // no length is asked for
    answers[23] = "3.2";
    answers[24] = "?"; // the outer sole's length
    const std::string said = in_one_line(tell(answers).said);
    const std::string begin = "the cut lies at about left ";
    const auto at = said.find(begin);
    return at == std::string::npos ? said : said.substr(at + begin.size(), 28);
  };
  // Heel front and fold, less the inset.
  EXPECT_EQ(hint_of("61", "5"), "62, right 63 from the heel e");
  EXPECT_EQ(hint_of("66", "5"), "67, right 63 from the heel e");
  EXPECT_EQ(hint_of("61", "8"), "59, right 60 from the heel e");
  EXPECT_EQ(in_one_line(tell(whole).said).find("the cut lies at about"), std::string::npos)
      << "a loose board is measured from end to end";
}

TEST(Interview, TellsThatAnInsetIsUnusualAtOnce) {
  const auto said_of = [](const std::string& inset) {
    std::vector<std::string> answers = whole;
    std::replace(answers.begin(), answers.end(), std::string("3/16 in"), inset);
    return in_one_line(tell(answers).said);
  };
  const std::string caution = "Unusual, where 2 to 10 is usual.";
  EXPECT_EQ(said_of("10").find(caution), std::string::npos);
  const std::string said = said_of("10.5");
  EXPECT_NE(said.find(caution), std::string::npos) << said;
  EXPECT_NE(said.find("usual: 2 to 10)"), std::string::npos) << "told before it is typed";
}

TEST(Interview, OffersAsLeftOnlyWhereTheLeftFootWasRead) {
  std::vector<std::string> answers(whole.begin(), whole.begin() + 8);
  const Told read = tell({answers.begin(), answers.begin() + 7});
  EXPECT_NE(read.said.find("= as left"), std::string::npos) << read.said;
  answers.insert(answers.end(), {"?", "=", "?"}); // ball length
  const Told told = tell(answers);
  const std::string right = told.said.substr(told.said.rfind("Ball length, right foot"));
  EXPECT_EQ(right.find("= as left"), right.rfind("= as left")) << right; // the next question's
  EXPECT_NE(right.find("The left foot has no such reading: type this one, or ?"), std::string::npos)
      << right;
  EXPECT_TRUE(told.state.settled.contains("ball_length right"));
}

TEST(Interview, AsksForTheDeepestPointOnlyWhereTheBreakIsNotKnown) {
  std::vector<std::string> answers = whole;
  answers[3] = "left";
  answers = {"M-07", "",    "", "left", "board", "pointed", "238", "172", "61", "?", "?",
             "?", // the depth is needed now
             "12.5", "103", "6"};
  const Told told = tell(answers);
  EXPECT_EQ(told.end, InterviewEnd::unfinished);
  EXPECT_EQ(told.state.order.left->foot.deepest->value(), 103);
  EXPECT_FALSE(told.state.order.right);
  EXPECT_EQ(tell(whole).said.find("Deepest"), std::string::npos);
}

TEST(Interview, AsksAgainForWhatCannotBe) {
  std::vector<std::string> answers = whole;
  answers[12] = "40"; // the break behind the heel front
  answers[14] = "?";
  answers.back() = "arch_break.medial left";
  answers.push_back("97");
  answers.push_back("");
  const Told told = tell(answers);
  ASSERT_EQ(told.end, InterviewEnd::whole) << told.said;
  EXPECT_NE(told.said.find("Cannot be: "), std::string::npos);
  EXPECT_EQ(read_whole(told.order).order.left->foot.arch_break.medial->value(), 97);
}

// A travel that no shoe has is found by the contact alone: check would refuse the file.
TEST(Interview, WritesNothingThatCheckWouldRefuse) {
  std::vector<std::string> answers = whole;
  answers[27] = "14";
  answers.back() = ""; // Enter: the reading that is named
  answers.insert(answers.end(), {"2", ""});
  const Told told = tell(answers);
  ASSERT_EQ(told.end, InterviewEnd::whole) << told.said;
  EXPECT_NE(told.said.find("Cannot be: pull.travel"), std::string::npos);
  EXPECT_NE(told.said.find("again [pull.travel]> "), std::string::npos);
  EXPECT_EQ(told.order, tell(whole).order);
}

TEST(Interview, TakesAReadingAgainByNameAtTheEnd) {
  std::vector<std::string> answers = whole;
  answers.back() = "heel_frnt left";
  answers.insert(answers.end(), {"heel_front left", "60", "back", "none", "bevel", "none", ""});
  const Told told = tell(answers);
  ASSERT_EQ(told.end, InterviewEnd::whole) << told.said;
  EXPECT_NE(told.said.find("Did you mean 'heel_front left'?"), std::string::npos);
  const Order order = read_whole(told.order).order;
  EXPECT_EQ(order.left->foot.heel_front->value(), 60);
  EXPECT_EQ(order.left->alterations.shank->bevel, 0);
}

TEST(Interview, AsksForTheSidesWhereTheyAreToBeLowered) {
  std::vector<std::string> answers = whole;
  answers[4] = "board and sides";
  answers.insert(answers.begin() + finishing,
                 {"52", "41", "105", "46", "158", "56", "9", "5", "4"});
  const Told told = tell(answers);
  ASSERT_EQ(told.end, InterviewEnd::whole) << told.said;
  const Order order = read_whole(told.order).order;
  EXPECT_EQ(order.right->shoe.sides->low, 41);
  EXPECT_EQ(order.left->alterations.sides->medial, 5);
  EXPECT_FALSE(has_error(solve(order).findings));
}

/// The whole interview with these answers from the liner on.
std::vector<std::string> whole_but(std::initializer_list<const char*> finish) {
  std::vector<std::string> answers(whole.begin(), whole.begin() + finishing);
  answers.insert(answers.end(), finish.begin(), finish.end());
  return answers;
}

TEST(Interview, AsksForLinerDarningAndRibbons) {
  const Told told = tell(whole_but({"full", "2", "44, 26", "8", "ring", "12 %", "208", "=", ""}));
  ASSERT_EQ(told.end, InterviewEnd::whole) << told.said;
  const ReadOrder read = read_whole(told.order);
  EXPECT_TRUE(read.messages.empty()) << all_text(read.messages);
  for (const auto* foot : {&read.order.left, &read.order.right}) {
    const Alterations& wish = (*foot)->alterations;
    EXPECT_EQ(wish.liner, LinerWish{});
    ASSERT_TRUE(wish.darning && wish.ribbons);
    EXPECT_EQ(wish.darning->passes, 2);
    EXPECT_EQ(wish.darning->height, 8);
    EXPECT_EQ((*foot)->shoe.platform, (Platform{44, 26}));
    EXPECT_TRUE(wish.ribbons->ring);
    EXPECT_NEAR(wish.ribbons->stretch, 0.12, 1e-12);
    EXPECT_EQ((*foot)->foot.ankle_girth->value(), 208);
  }
  EXPECT_FALSE(has_error(solve(read.order).findings));
}

TEST(Interview, WithoutAnswersThereIsNoLinerDarningOrRibbon) {
  for (const char* skip : {"", "none", "?"}) {
    const Told told = tell(whole_but({skip, skip, skip, ""}));
    ASSERT_EQ(told.end, InterviewEnd::whole) << told.said;
    EXPECT_EQ(told.order, tell(whole).order) << skip;
    EXPECT_EQ(told.said.find("Platform"), std::string::npos) << "asked for by darning alone";
    EXPECT_EQ(told.said.find("Ankle"), std::string::npos) << "asked for by ribbons alone";
  }
}

TEST(Interview, AnAnkleThatIsNotKnownIsEstimatedForTiedRibbons) {
  const Told told = tell(whole_but({"", "", "tied", "", "?", "?", ""}));
  ASSERT_EQ(told.end, InterviewEnd::whole) << told.said;
  const Order order = read_whole(told.order).order;
  EXPECT_FALSE(order.left->alterations.ribbons->ring);
  EXPECT_EQ(order.left->alterations.ribbons->stretch, 0);
  EXPECT_FALSE(order.left->foot.ankle_girth);
  EXPECT_NE(in_one_line(told.said).find("the ribbon's length is an estimate too"),
            std::string::npos)
      << told.said;
}

TEST(Interview, RefusesFinishingThatCannotBe) {
  const struct {
    std::size_t at;
    const char* wrong;
    const char* said;
  } rows[] = {{0, "ful", "did you mean 'full'?"},
              {1, "two", "'two'"},
              {1, "7", "too large"},
              {2, "44", "is not a width and a depth"},
              {2, "?", "This one is needed."},
              {2, "44, 4", "too small"},
              {4, "rings", "did you mean 'ring'?"},
              {5, "?", "This one is needed."}};
  const std::vector<std::string> finish{"full", "2", "44, 26", "8", "ring", "12 %", "208", "=", ""};
  const std::string order =
      tell(whole_but({"full", "2", "44, 26", "8", "ring", "12 %", "208", "=", ""})).order;
  for (const auto& row : rows) {
    std::vector<std::string> answers(whole.begin(), whole.begin() + finishing);
    answers.insert(answers.end(), finish.begin(), finish.end());
    answers.insert(answers.begin() + finishing + static_cast<std::ptrdiff_t>(row.at), row.wrong);
    const Told told = tell(answers);
    ASSERT_EQ(told.end, InterviewEnd::whole) << row.wrong << '\n' << told.said;
    EXPECT_NE(in_one_line(told.said).find(row.said), std::string::npos) << row.wrong << told.said;
    EXPECT_EQ(told.order, order) << row.wrong;
  }
}

// A ring that cannot be put on is found at the end, and its question asked again.
TEST(Interview, AsksAgainForTheStretchOfARing) {
  const Told told = tell(whole_but({"", "", "ring", "3 %", "208", "=", "", "12 %", ""}));
  ASSERT_EQ(told.end, InterviewEnd::whole) << told.said;
  EXPECT_NE(told.said.find("again [ribbons.stretch]> "), std::string::npos) << told.said;
}

TEST(Interview, ALinerOverABoardInTheShoeNeedsItsLength) {
  std::vector<std::string> answers(whole.begin(), whole.begin() + 20);
  answers.insert(answers.end(),
                 {"in_shoe", "fibreboard", "5", "3.2", "?", "46 at 20, 37 at 64, 56 at 164",
                  "over the knee", "2", "edge", "", "full", "?", "180", "", "", ""});
  const Told told = tell(answers);
  ASSERT_EQ(told.end, InterviewEnd::whole) << told.said;
  EXPECT_EQ(read_whole(told.order).order.right->alterations.liner->length, 180);
}

// Enter, none said: an order that is gone through again keeps what it had, figures and all.
TEST(Interview, KeepsFinishingAsItWas) {
  Order before =
      read_whole(
          tell(whole_but({"full", "2", "44, 26", "8", "ring", "12 %", "208", "=", ""})).order)
          .order;
  before.left->alterations.liner->clearance = 2.5;
  before.right->alterations.liner.reset(); // the shoes differ
  before.right->foot.roll = {RollSide::in, 0};
  before.right->alterations.darning->raise = 2;
  before.right->alterations.ribbons->wraps = 3;
  const auto again = [&](const char* enter) {
    std::vector<std::string> answers;
    for (std::size_t i = 0; i < static_cast<std::size_t>(finishing); ++i)
      answers.push_back(i == 15 ? "?" : i == 20 ? "loose" : "");
    answers.insert(answers.end(), 8, enter);
    answers.emplace_back("");
    return tell(answers, InterviewState{before, {}});
  };
  const Told kept = again("");
  ASSERT_EQ(kept.end, InterviewEnd::whole) << kept.said;
  const Order order = read_whole(kept.order).order;
  EXPECT_EQ(order.left->alterations, before.left->alterations);
  EXPECT_EQ(order.right->alterations, before.right->alterations);
  EXPECT_EQ(order.left->shoe.platform, before.left->shoe.platform);
  // A liner that is said again is one on both shoes, and leaves the first its clearance.
  std::vector<std::string> answers(static_cast<std::size_t>(finishing), "");
  answers[15] = "?";
  answers[20] = "loose";
  answers.insert(answers.end(), {"none", "full"});
  answers.insert(answers.begin() + finishing + 1, "back");
  const Told said = tell(answers, InterviewState{before, {}});
  EXPECT_EQ(said.state.order.left->alterations.liner, LinerWish{}) << "dropped, and begun anew";
  EXPECT_EQ(said.state.order.right->alterations.liner, LinerWish{});
}

TEST(Interview, TakesAKeptFractionOrAMark) {
  std::vector<std::string> answers = whole;
  answers[28] = "72 %";
  EXPECT_NEAR(
      std::get<KeepRule>(read_whole(tell(answers).order).order.left->alterations.shank->rule).keep,
      0.72, 1e-12);
  answers[28] = "mark 60";
  EXPECT_EQ(std::get<MarkRule>(read_whole(tell(answers).order).order.left->alterations.shank->rule)
                .mark.value(),
            60);
}

TEST(Interview, StopsWhenTold) {
  const Told told = tell({"M-07", "stop", "never read"});
  EXPECT_EQ(told.end, InterviewEnd::unfinished);
  EXPECT_EQ(told.state.settled, std::set<std::string>{"dancer"});
}

// A line that the end of the input cuts off was not entered: Ctrl-D in the middle of a figure.
TEST(Interview, DoesNotTakeALineThatWasNeverEntered) {
  std::istringstream in("M-07\ntour");
  std::ostringstream out;
  Interview interview(in, out, "order.yaml", {}, [](const InterviewState&) {});
  EXPECT_EQ(interview.run(), InterviewEnd::unfinished);
  EXPECT_TRUE(interview.state().order.pair.empty());
}

TEST(Interview, RefusesCharactersThatAreNoText) {
  for (const std::string& wrong : {std::string("M\033[31m"), std::string("M\xff"),
                                   std::string("M\0x", 3), std::string(500, 'x')}) {
    std::istringstream in(wrong + "\nM-07\n");
    std::ostringstream out;
    Interview interview(in, out, "order.yaml", {}, [](const InterviewState&) {});
    interview.run();
    EXPECT_EQ(interview.state().order.dancer, "M-07");
    EXPECT_EQ(out.str().find('\033'), std::string::npos);
  }
}

TEST(UnfinishedInterview, IsAHalfWrittenOrderThatTheProgramReads) {
  const Told told = tell({whole.begin(), whole.begin() + 12});
  const std::string text = unfinished_text(told.state, "order.yaml");
  const ReadOrder read = read_whole(text);
  EXPECT_EQ(read.order, told.state.order);
  EXPECT_NE(text.find("shankline ask -o order.yaml"), std::string::npos);
}

TEST(UnfinishedInterview, ChangedByHandIsTakenAsItIsOrRefused) {
  const Told told = tell({whole.begin(), whole.begin() + 12});
  std::string text = unfinished_text(told.state, "order.yaml");
  const std::string without = text.substr(0, text.rfind("# settled"));
  const auto begun = read_unfinished(without, "f");
  ASSERT_TRUE(std::holds_alternative<InterviewState>(begun));
  EXPECT_TRUE(std::get<InterviewState>(begun).settled.empty());
  // The file's own values are offered, so that Enter alone goes on.
  EXPECT_NE(tell({""}, std::get<InterviewState>(begun)).said.find("dancer [M-07]> "),
            std::string::npos);
  text.replace(text.find("M-07"), 4, "[[");
  EXPECT_TRUE(std::holds_alternative<std::vector<Message>>(read_unfinished(text, "f")));
}

TEST(InterviewQuestions, HaveNamesOfTheirOwnAndSayWhatMayBeTyped) {
  std::set<std::string> ids;
  for (const Question& question : interview_questions()) {
    EXPECT_TRUE(ids.insert(question.id).second) << question.id;
    EXPECT_FALSE(question.how.empty()) << question.id;
    EXPECT_FALSE(question.answers.empty()) << question.id;
    EXPECT_EQ(question.id.find(';'), std::string::npos) << question.id;
  }
  EXPECT_GT(ids.size(), 35u);
}

TEST(InterviewQuestions, AreFoundByTheKeysOfFindings) {
  const Order order = order_to_ask();
  const struct {
    const char* key;
    const char* id;
  } rows[] = {{"feet.left.heel_front", "heel_front left"},
              {"feet.right.arch_break", "arch_break.medial right"},
              {"shoe.left.board.widths", "widths"},
              {"shoe.right.board.inset", "board.inset"},
              {"alterations.left.shank", "reach"},
              {"alterations.right.shank.bevel", "bevel"}};
  for (const auto& row : rows) {
    const Question* question = question_of(row.key, order);
    ASSERT_TRUE(question) << row.key;
    EXPECT_EQ(question->id, row.id);
  }
}

} // namespace
} // namespace shankline::tests::interview_test
