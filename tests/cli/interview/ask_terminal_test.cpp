// The interview in a real terminal: a whole one, back, wrong entries, an interrupt and what
// follows.
#include "tests/support/fewer_cases.hpp"
#include "tests/support/pattern.hpp"
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"
#include "tests/support/terminal.hpp"

#include <csignal>
#include <filesystem>
#include <gtest/gtest.h>
#include <vector>

namespace shankline::tests::ask_terminal_test {
namespace {

namespace fs = std::filesystem;

struct Said {
  const char* prompt;
  const char* words;
};

class AskTerminal : public testing::Test {
protected:
  std::string ask(const std::string& options = "") const {
    return "'" + places::program + "' ask " + options;
  }
  fs::path here() const { return scratch_.path(); }

  static void tell(Terminal& terminal, const std::vector<Said>& answers) {
    for (const Said& answer : answers)
      ASSERT_TRUE(terminal.answer(answer.prompt, answer.words)) << answer.prompt << '\n'
                                                                << terminal.screen();
  }

  Finished check(const std::string& file) const {
    Surroundings there;
    there.directory = here();
    return run({places::program, "check", file}, there);
  }

  ScratchDirectory scratch_;
};

const std::vector<Said> begun{
    {"dancer", "M-07"}, {"pair", "touring, spring, second pair"}, {"date", "2026-03-14"}};
const std::vector<Said> one_foot{{"feet [both]", "left"},     {"work [board]", ""},
                                 {"pose [pointed]", ""},      {"length left", "238, 238.5"},
                                 {"ball_length left", "172"}, {"heel_front left", "61"}};
const std::vector<Said> rest{{"arch_break.medial left", "97"},
                             {"arch_break.lateral left", "93"},
                             {"arch_depth left", "12.5"},
                             {"fold left", "6"},
                             {"state [in_shoe]", "loose"},
                             {"material [fibreboard]", ""},
                             {"board.length", "8 21/32 in"},
                             {"board.inset", "5"},
                             {"board.thickness", "3.2"},
                             {"widths", "45 at 22, 33 at 96, 56 at 164"},
                             {"stiffness", "over the knee"},
                             {"pull.travel", "2"},
                             {"reach [edge]", ""},
                             {"bevel [12]", ""},
                             {"liner [none]", ""},
                             {"darning [none]", "2"},
                             {"platform", "44, 26"},
                             {"darning.height [6]", ""},
                             {"ribbons [none]", "ring"},
                             {"ribbons.stretch", "12 %"},
                             {"ankle_girth left", "208"},
                             {"write", ""}};

TEST_F(AskTerminal, WritesAnOrderThatCheckTakesWithoutAMessage) {
  Terminal terminal(here(), ask());
  tell(terminal, begun);
  tell(terminal, {{"feet [both]", "letf"}}); // a slip of the pen
  ASSERT_TRUE(terminal.shows("did you mean 'left'?"));
  tell(terminal, one_foot);
  tell(terminal, {{"arch_break.medial left", "9.7"}});
  ASSERT_TRUE(terminal.shows("write 9.7 cm"));
  tell(terminal, {{"arch_break.medial left", "back"}, {"heel_front left [61]", "60"}});
  tell(terminal, rest);
  ASSERT_TRUE(terminal.shows("left with 0")) << terminal.screen();
  EXPECT_TRUE(terminal.shows("A cut board cannot be put back"));
  const Finished checked = check("order.yaml");
  EXPECT_EQ(checked.exit_code, 0);
  EXPECT_EQ(checked.err, "");
  const std::string written = read_file(here() / "order.yaml");
  for (const char* part : {"heel_front: 60", "darning:", "platform: {width: 44, depth: 26}",
                           "ribbons: {ring: true, stretch: 12 %}", "ankle_girth: 208"})
    EXPECT_NE(written.find(part), std::string::npos) << part << '\n' << written;
  EXPECT_FALSE(fs::exists(here() / "order.yaml.unfinished"));
}

TEST_F(AskTerminal, ReadsTodayAndKeepsTheDay) {
  Terminal terminal(here(), ask());
  tell(terminal, {{"dancer", "M-07"}, {"pair", ""}, {"date", "today"}, {"feet [both]", "stop"}});
  ASSERT_TRUE(terminal.shows("left with 1")) << terminal.screen();
  const std::string kept = read_file(here() / "order.yaml.unfinished");
  EXPECT_TRUE(Pattern("date: 20[0-9]{2}-[01][0-9]-[0-3][0-9]\\n").is_in(kept)) << kept;
}

TEST_F(AskTerminal, KeepsWhatWasSaidWhenInterruptedAndGoesOn) {
  {
    Terminal terminal(here(), ask("-o m07.yaml"));
    tell(terminal, begun);
    tell(terminal, one_foot);
    ASSERT_TRUE(terminal.press("arch_break.medial left", "C-c"));
    ASSERT_TRUE(terminal.shows("left with 1")) << terminal.screen();
    EXPECT_TRUE(terminal.shows("kept in m07.yaml.unfinished"));
  }
  EXPECT_FALSE(fs::exists(here() / "m07.yaml"));
  {
    Terminal terminal(here(), ask("-o m07.yaml"));
    tell(terminal, {{"m07.yaml.unfinished holds an interview begun with M-07.", ""}});
    ASSERT_TRUE(terminal.press("arch_break.medial left", "C-d"));
    ASSERT_TRUE(terminal.shows("left with 1")) << terminal.screen();
  }
  Terminal terminal(here(), ask("-o m07.yaml --yes"));
  tell(terminal, rest);
  ASSERT_TRUE(terminal.shows("left with 0")) << terminal.screen();
  EXPECT_EQ(check("m07.yaml").err, "");
  EXPECT_NE(read_file(here() / "m07.yaml").find("heel_front: 61"), std::string::npos);
  EXPECT_FALSE(fs::exists(here() / "m07.yaml.unfinished"));
}

TEST_F(AskTerminal, AsksBeforeItWritesOverAFile) {
  write_file(here() / "order.yaml", "kept");
  {
    Terminal terminal(here(), ask());
    tell(terminal, {{"order.yaml is there already.", ""}});
    ASSERT_TRUE(terminal.shows("left with 1")) << terminal.screen();
  }
  Terminal terminal(here(), ask("--yes"));
  tell(terminal, {{"dancer", "stop"}});
  ASSERT_TRUE(terminal.shows("Nothing was said")) << terminal.screen();
  EXPECT_EQ(read_file(here() / "order.yaml"), "kept");
}

// The second program is refused before its first question, whatever path names the file. Nothing
// stays behind that would refuse a third one, not even if the first was killed.
TEST_F(AskTerminal, TellsTheSecondAtOnceThatAnotherIsAtWork) {
  fs::create_directory_symlink(here(), here() / "link");
  {
    Terminal first(here(),
                   "sh -c 'echo $$ >pid; exec \"" + places::program + "\" ask -o m07.yaml'");
    ASSERT_TRUE(first.asks("dancer")) << first.screen();
    for (const char* path : {"m07.yaml", "./m07.yaml", "link/m07.yaml"}) {
      Terminal second(here(), ask("--yes -o " + std::string(path)));
      ASSERT_TRUE(second.shows("left with 3")) << second.screen();
      EXPECT_TRUE(second.shows(std::string(path) + ": another ask is at work on this file"));
    }
    Terminal other(here(), ask("-o m08.yaml"));
    EXPECT_TRUE(other.asks("dancer")) << other.screen();
    ASSERT_EQ(kill(std::stoi(read_file(here() / "pid")), SIGKILL), 0);
    ASSERT_TRUE(first.shows("left with 137")) << first.screen();
  }
  fs::remove(here() / "pid");
  Terminal third(here(), ask("-o m07.yaml"));
  tell(third, {{"dancer", "stop"}});
  ASSERT_TRUE(third.shows("Nothing was said")) << third.screen();
  for (const fs::directory_entry& entry : fs::directory_iterator(here()))
    EXPECT_TRUE(entry.is_symlink() || entry.is_socket()) << entry.path();
}

TEST_F(AskTerminal, SaysWhereItCannotWrite) {
  Terminal terminal(here(), ask("-o nowhere/order.yaml"));
  tell(terminal, {{"dancer", "M-07"}});
  ASSERT_TRUE(terminal.shows("left with 3")) << terminal.screen();
}

TEST_F(AskTerminal, KeepsAFileOfAnyName) {
  const std::string file = "a\nb\x1b[31m.yaml";
  {
    Terminal terminal(here(), ask("-o '" + file + "'"));
    tell(terminal, {{"dancer", "M-07"}, {"pair", "stop"}});
    ASSERT_TRUE(terminal.shows("left with 1")) << terminal.screen();
  }
  EXPECT_TRUE(fs::exists(here() / (file + ".unfinished")));
  Terminal terminal(here(), ask("--yes -o '" + file + "'"));
  tell(terminal, {{"pair", "stop"}});
  ASSERT_TRUE(terminal.shows("left with 1")) << terminal.screen();
}

TEST_F(AskTerminal, RefusesAnUnfinishedFileThatWasSpoilt) {
  write_file(here() / "order.yaml.unfinished", "format: shankline-order/1\ndancer: [\n");
  Terminal terminal(here(), ask());
  ASSERT_TRUE(terminal.shows("left with 1")) << terminal.screen();
  EXPECT_TRUE(terminal.shows("or delete it and begin anew"));
}

TEST_F(AskTerminal, ALinkIsNoUnfinishedInterview) {
  for (const char* named : {"", "there"}) {
    if (*named) write_file(here() / "there", "words of somebody\n");
    const fs::path link = here() / "order.yaml.unfinished";
    fs::remove(link);
    fs::create_symlink(*named ? named : "nothing", link);
    Terminal terminal(here(), ask());
    EXPECT_TRUE(terminal.shows("left with 3")) << terminal.screen();
    EXPECT_TRUE(terminal.shows("order.yaml.unfinished: is a link")) << terminal.screen();
    EXPECT_TRUE(terminal.shows("delete the link")) << terminal.screen();
    EXPECT_FALSE(fs::exists(here() / "nothing"));
    if (*named) {
      EXPECT_EQ(read_file(here() / "there"), "words of somebody\n");
    }
  }
}

TEST_F(AskTerminal, AFileThatCannotBeReachedIsSaidBeforeTheFirstQuestion) {
  if (under_sanitizers) GTEST_SKIP() << "these want to be loaded first themselves";
  fs::create_symlink("real.yaml", here() / "planted.yaml");
  write_file(here() / "real.yaml", "words of somebody\n");
  Terminal terminal(here(), "LD_PRELOAD='" + places::failing_calls +
                                "' SHANKLINE_PLANTED=planted.yaml " + ask("-o planted.yaml"));
  EXPECT_TRUE(terminal.shows("left with 3")) << terminal.screen();
  EXPECT_TRUE(terminal.shows("planted.yaml: cannot be reached")) << terminal.screen();
}

} // namespace
} // namespace shankline::tests::ask_terminal_test
