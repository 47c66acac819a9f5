#include "cli/text/message.hpp"

#include <gtest/gtest.h>
#include <sstream>

namespace shankline::tests::message_test {
namespace {

Message whole() {
  return {Severity::error, "m-07.yaml",    10, 5, "feet.left.heel_front", "read 610 mm",
          "20 to 130 mm",  "measure again"};
}

TEST(MessageText, SaysPlaceKeyLimitsAndAdvice) {
  EXPECT_EQ(to_text(whole()), "m-07.yaml:10:5: error: feet.left.heel_front: read 610 mm\n"
                              "  allowed: 20 to 130 mm\n"
                              "  do: measure again");
}

TEST(MessageText, LeavesOutWhatIsNotKnown) {
  Message message = whole();
  message.severity = Severity::caution;
  message.line = message.column = 0;
  message.key = message.allowed = message.advice = "";
  EXPECT_EQ(to_text(message), "m-07.yaml: caution: read 610 mm");
}

TEST(MessageText, CannotSteerATerminal) {
  Message message = whole();
  message.what = "\x1b[2J\xc2\x9b"
                 "31m\n\x7f ok";
  message.key = "a\nb";
  EXPECT_EQ(to_text(message), "m-07.yaml:10:5: error: a?b: ?[2J?31m?? ok\n"
                              "  allowed: 20 to 130 mm\n"
                              "  do: measure again");
}

TEST(MessageText, ShowsTheUsersTextCutBetweenCharacters) {
  EXPECT_EQ(shown("12,5"), "'12,5'");
  EXPECT_EQ(shown(std::string(47, 'x') + "äöü"), '\'' + std::string(47, 'x') + "…'");
}

TEST(MessageOrder, ByLineAndColumnWithoutRepeats) {
  Message late = whole();
  late.line = 12;
  Message right = whole();
  right.column = 9;
  Message other = whole();
  other.what = "something else";
  const auto sorted = in_line_order({late, right, whole(), other, late, whole()});
  EXPECT_EQ(sorted, (std::vector<Message>{whole(), other, right, late}));
}

TEST(MessageOrder, OnlyErrorsCount) {
  Message caution = whole();
  caution.severity = Severity::caution;
  EXPECT_FALSE(has_error(std::vector<Message>{}));
  EXPECT_FALSE(has_error({caution}));
  EXPECT_TRUE(has_error({caution, whole()}));
}

TEST(MessageSaying, AFileWrongAllOverIsCutShortAndCannotSteerATerminal) {
  std::vector<Message> said;
  for (int line = 1; line <= 60; ++line) {
    said.push_back(whole());
    said.back().file = "m\x1b[31m.yaml";
    said.back().line = line;
  }
  std::ostringstream words;
  say(said, words);
  EXPECT_EQ(words.str().find('\x1b'), std::string::npos) << words.str();
  EXPECT_NE(words.str().find("m?[31m.yaml: and 20 more of these\n"), std::string::npos);
}

} // namespace
} // namespace shankline::tests::message_test
