// The completions that the program writes, tried in the shells that they are for.
#include "cli/manual/verb_guide.hpp"
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <gtest/gtest.h>
#include <set>
#include <sstream>

namespace shankline::tests::completion_test {
namespace {

class Completion : public testing::Test {
protected:
  void SetUp() override {
    there_.directory = scratch_.path();
    for (const char* shell : {"bash", "zsh", "fish"})
      write_file(scratch_.path() / "made" / (shell == std::string("zsh") ? "_shankline" : shell),
                 run({places::program, "manual", shell}).out);
    for (const char* file :
         {"spring.yaml", "summer.yaml", "winter.yml", "autumn.json", "notes.txt", "orders/a.yaml"})
      write_file(scratch_.path() / file, "");
  }

  static std::set<std::string> lines_of(const std::string& text) {
    std::set<std::string> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);)
      if (!line.empty()) lines.insert(line);
    return lines;
  }

  /// The words that bash offers for the last of these words.
  std::set<std::string> in_bash(const std::string& words) const {
    const Finished said = run({"bash", "--norc", "-c",
                               "source made/bash; COMP_WORDS=(" + words +
                                   "); COMP_CWORD=$((${#COMP_WORDS[@]} - 1)); _shankline; "
                                   "printf '%s\\n' \"${COMPREPLY[@]}\""},
                              there_);
    EXPECT_EQ(said.exit_code, 0) << said.err;
    EXPECT_EQ(said.err, "") << words;
    return lines_of(said.out);
  }

  /// The words that fish offers, without the descriptions.
  std::set<std::string> in_fish(const std::string& line) const {
    Surroundings there = there_;
    there.environment["HOME"] = scratch_.path().string();
    const Finished said =
        run({"fish", "--no-config", "-c", "source made/fish; complete -C '" + line + "'"}, there);
    EXPECT_EQ(said.exit_code, 0) << said.err;
    std::set<std::string> offered;
    for (const std::string& candidate : lines_of(said.out))
      offered.insert(candidate.substr(0, candidate.find('\t')));
    return offered;
  }

  ScratchDirectory scratch_;
  Surroundings there_;
};

using LongCompletion = Completion;
using Offered = std::set<std::string>;

Offered verbs() {
  Offered names;
  for (const VerbGuide& guide : verb_guides())
    names.emplace(guide.name);
  return names;
}

TEST_F(Completion, BashOffersVerbsOptionsValuesAndOrders) {
  Offered first = verbs();
  first.insert({"--help", "-h", "--version"});
  EXPECT_EQ(in_bash("shankline ''"), first);
  EXPECT_EQ(in_bash("shankline che"), (Offered{"check"}));
  EXPECT_EQ(in_bash("shankline cut --pap"), (Offered{"--paper"}));
  EXPECT_EQ(in_bash("shankline cut --units ''"), (Offered{"mm", "in"}));
  EXPECT_EQ(in_bash("shankline next --seen too-f"), (Offered{"too-far-back"}));
  EXPECT_EQ(in_bash("shankline cut --paper le"), (Offered{"letter", "legal"}));
  EXPECT_EQ(in_bash("shankline cut --errors ''"), (Offered{"text", "json"}));
  EXPECT_EQ(in_bash("shankline help arch"), (Offered{"archive"}));
  EXPECT_EQ(in_bash("shankline schema archive-l"), (Offered{"archive-learn", "archive-list"}));
  EXPECT_EQ(in_bash("shankline cut --dxf s"), (Offered{"spring.yaml", "summer.yaml"}));
  EXPECT_EQ(in_bash("shankline cut w"), (Offered{"winter.yml"}));
  EXPECT_EQ(in_bash("shankline cut a"), (Offered{"autumn.json"}));
  EXPECT_EQ(in_bash("shankline check o"), (Offered{"orders"}));
  EXPECT_EQ(in_bash("shankline cut -o n"), (Offered{"notes.txt"}));
  EXPECT_EQ(in_bash("shankline manual z"), (Offered{"zsh"}));
  EXPECT_EQ(in_bash("shankline cut --jobs ''"), Offered{});
  EXPECT_EQ(in_bash("shankline archive h"), (Offered{"history"}));
  EXPECT_EQ(in_bash("shankline archive list --al"), (Offered{"--alteration"}));
  EXPECT_EQ(in_bash("shankline archive note 12 --seen r"), (Offered{"rolls-over"}));
  EXPECT_EQ(in_bash("shankline archive history ''"), Offered{});
}

TEST_F(Completion, BashKnowsEveryOptionOfEveryVerb) {
  int options = 0;
  for (const std::string& verb : verbs()) {
    const Offered offered = in_bash("shankline " + verb + " -");
    std::string help = run({places::program, verb, "--help"}).out;
    help.erase(help.find("Example:\n")); // an example may be of another verb
    for (std::size_t at = help.find(" --"); at != std::string::npos;
         at = help.find(" --", at + 1)) {
      const std::size_t end = help.find_first_not_of("abcdefghijklmnopqrstuvwxyz-", at + 1);
      const std::string option = help.substr(at + 1, end - at - 1);
      EXPECT_TRUE(offered.contains(option)) << verb << " " << option;
      ++options;
    }
  }
  EXPECT_GT(options, 40);
}

TEST_F(LongCompletion, FishOffersTheSame) {
  const Offered first = in_fish("shankline ");
  for (const std::string& verb : verbs())
    EXPECT_TRUE(first.contains(verb)) << verb;
  EXPECT_EQ(in_fish("shankline cut --pap"), (Offered{"--paper"}));
  EXPECT_EQ(in_fish("shankline cut --units "), (Offered{"mm", "in"}));
  EXPECT_EQ(in_fish("shankline next --seen too-f"), (Offered{"too-far-back"}));
  EXPECT_EQ(in_fish("shankline cut --dxf sp"), (Offered{"spring.yaml"}));
  EXPECT_EQ(in_fish("shankline manual z"), (Offered{"zsh"}));
  EXPECT_EQ(in_fish("shankline archive h"), (Offered{"history"}));
  EXPECT_EQ(in_fish("shankline archive list --al"), (Offered{"--alteration"}));
  EXPECT_EQ(in_fish("shankline archive compare --same"), Offered{});
  EXPECT_EQ(in_fish("shankline check sp"), (Offered{"spring.yaml"}));
  EXPECT_EQ(in_fish("shankline archive import no"), (Offered{"notes.txt"}));
  EXPECT_EQ(in_fish("shankline printer sp"), Offered{}); // a name, not a file
  EXPECT_EQ(in_fish("shankline archive history sp"), Offered{});
}

/// Keys typed into a zsh on a terminal of its own; a function in the program's place says which
/// words it was called with.
TEST_F(LongCompletion, ZshCompletesWhatIsTyped) {
  write_file(scratch_.path() / "typed.zsh", R"(
zmodload zsh/zpty
zpty shell 'zsh -f -i'
zpty -w shell 'PROMPT=; fpath=(made $fpath); autoload -Uz compinit; compinit -u -D'
zpty -w shell 'shankline() { print -r -- "GOT<$*>" }; print RE""ADY'
zpty -r -m shell said '*READY*'
zpty -w -n shell $1$'\n'
zpty -r -m shell said '*GOT<*>*'
print -r -- "${${said##*GOT<}%%>*}"
zpty -d shell
)");
  const auto in_zsh = [&](const std::string& keys) {
    const Finished said = run({"zsh", "-f", "typed.zsh", keys}, there_);
    EXPECT_FALSE(said.timed_out) << keys;
    return said.out;
  };
  EXPECT_EQ(in_zsh("shankline chec\t"), "check\n");
  EXPECT_EQ(in_zsh("shankline cut --uni\ti\tspr\t"), "cut --units in spring.yaml\n");
  EXPECT_EQ(in_zsh("shankline next --seen too-f\t"), "next --seen too-far-back\n");
  EXPECT_EQ(in_zsh("shankline rack --lab\tnot\t"), "rack --labels notes.txt\n");
  EXPECT_EQ(in_zsh("shankline manual fi\t"), "manual fish\n");
  EXPECT_EQ(in_zsh("shankline archive histo\tM"), "archive history M\n");
  EXPECT_EQ(in_zsh("shankline archive note 12 --seen too-f\t"),
            "archive note 12 --seen too-far-back\n");
}

} // namespace
} // namespace shankline::tests::completion_test
