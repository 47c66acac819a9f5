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

TEST(MessageText, IsAboutNoFileWithoutAColon) {
  EXPECT_EQ(to_text(plain_error("no room", "make some")), "error: no room\n  do: make some");
  EXPECT_EQ(to_text(plain_caution("no room")), "caution: no room");
}

TEST(MessageText, IsBrokenAtSpacesForATerminal) {
  Message message = whole();
  message.allowed = "length, ball_length, heel_front, arch_break";
  EXPECT_EQ(to_text(message, 30), "m-07.yaml:10:5: error:\n"
                                  "    feet.left.heel_front: read\n"
                                  "    610 mm\n"
                                  "  allowed: length,\n"
                                  "    ball_length, heel_front,\n"
                                  "    arch_break\n"
                                  "  do: measure again");
  EXPECT_EQ(to_text(message, 200), to_text(message));
  EXPECT_EQ(to_text(message, 0), to_text(message));
  for (std::size_t columns = 1; columns < 60; ++columns) { // nothing is lost
    std::string words = to_text(message, columns);
    std::string as_written = to_text(message);
    for (std::string* text : {&words, &as_written})
      std::erase_if(*text, [](char c) { return c == ' ' || c == '\n'; });
    EXPECT_EQ(words, as_written) << columns;
  }
}

TEST(MessageSaying, HasTheFormOfItsStream) {
  std::ostringstream words;
  std::ostringstream lines;
  set_message_form(lines, MessageForm::json_lines);
  Message second = whole();
  second.line = 3;
  for (std::ostringstream* stream : {&words, &lines})
    say({whole(), second}, *stream);
  EXPECT_EQ(words.str(), to_text(second) + "\n" + to_text(whole()) + "\n");
  EXPECT_EQ(
      lines.str().find(R"({"severity":"error","file":"m-07.yaml",)"
                       R"("key":"feet.left.heel_front","line":3,"column":5,)"
                       R"("what":"read 610 mm","allowed":"20 to 130 mm","do":"measure again"})"),
      0u)
      << lines.str();
}

TEST(MessageSaying, IsKeptWhileSomebodyKeepsIt) {
  std::ostringstream stream;
  say({whole()}, stream);
  {
    const MessageCollector outer(stream);
    say({whole()}, stream);
    {
      const MessageCollector inner(stream);
      say({plain_error("inside")}, stream);
      EXPECT_EQ(inner.all().size(), 1u);
    }
    say({plain_error("behind")}, stream);
    ASSERT_EQ(outer.all().size(), 2u);
    EXPECT_EQ(outer.all()[1].what, "behind");
  }
  say({whole()}, stream);
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
