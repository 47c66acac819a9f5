// The manual is executed: README's order is cut, and says what README says it says.
#include "cli/manual/archive_guide.hpp"
#include "cli/manual/verb_guide.hpp"
#include "cli/order_file/order_reader.hpp"
#include "tests/support/places.hpp"
#include "tests/support/private_server.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"
#include "tests/support/terminal.hpp"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <gtest/gtest.h>
#include <sstream>
#include <vector>

namespace shankline::tests::manual_test {
namespace {

/// The first fenced block behind `from` that opens with `fence`.
std::string block(const std::string& text, const std::string& fence, const std::string& from = "") {
  std::size_t begin = text.find(fence + "\n", text.find(from));
  if (begin == std::string::npos) return {};
  begin += fence.size() + 1;
  return text.substr(begin, text.find("```", begin) - begin);
}

TEST(Manual, OrderIsCutAndSaysWhatTheManualShows) {
  const std::string manual = read_file(places::source_tree + "/README.md");
  const std::string order = block(manual, "```yaml");
  const std::string shown = block(manual, "```", "What the terminal shows:");
  ASSERT_NE(order.find("shankline-order/1"), std::string::npos);
  ASSERT_NE(shown.find("final cut"), std::string::npos);
  const ScratchDirectory scratch;
  write_file(scratch.path() / "order.yaml", order);
  Surroundings there;
  there.directory = scratch.path();
  there.environment["XDG_DATA_HOME"] = scratch.path().string(); // no archive, no last time
  const Finished cut = run({places::program, "cut", "order.yaml"}, there);
  EXPECT_EQ(cut.exit_code, 0) << cut.err;
  EXPECT_EQ(cut.out.substr(0, cut.out.find("\nwrote ")), shown);
  EXPECT_EQ(read_file(scratch.path() / "order.pdf").substr(0, 4), "%PDF");
}

TEST(Manual, NamesEveryVerbAndEveryLongOption) {
  const std::string manual = read_file(places::source_tree + "/README.md");
  int options = 0;
  for (const VerbGuide& guide : verb_guides()) {
    const std::string verb(guide.name);
    EXPECT_NE(manual.find("shankline " + verb), std::string::npos) << verb;
    const std::string help = run({places::program, verb, "--help"}).out;
    for (std::size_t at = help.find("--"); at != std::string::npos; at = help.find("--", at + 2)) {
      const std::string option =
          help.substr(at, help.find_first_not_of("abcdefghijklmnopqrstuvwxyz-", at) - at);
      if (option == "--output") continue; // the manual writes -o
      EXPECT_NE(manual.find(option), std::string::npos) << option;
      ++options;
    }
  }
  EXPECT_GT(options, 30);
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);)
    lines.push_back(line);
  return lines;
}

/// A folder with what the commands of help and manual name.
class Bench {
public:
  Bench() {
    put("sides_lowered.yaml", {"order.yaml", "autumn.yaml", "orders/sides_lowered.yaml"});
    put("plain.yaml", {"spring.yaml", "one.yaml", "two.yaml", "orders/plain.yaml"});
    put("pairs/worn.yaml", {"worn.yaml"});
    put("pairs/measured.yaml", {"measured.yaml"});
    put("roster/dancers.csv", {"dancers.csv"});
    put("roster/common.yaml", {"shoe.yaml"});
    for (const char* name : {"schedule.csv", "company.csv"})
      write_file(scratch_.path() / name, "day,hours,stage\n2999-01-04,2,\n2999-01-05,1.5,yes\n");
    write_file(scratch_.path() / "schedule.yaml",
               "format: shankline-schedule/1\ndays: [{day: 2999-01-04, hours: 2}]\n");
    write_file(scratch_.path() / "april.csv", "entry,hours,day\n1,1.5,2026-04-02\n");
    there_.directory = scratch_.path();
    const char* const path = std::getenv("PATH");
    there_.environment["PATH"] = std::filesystem::path(places::program).parent_path().string() +
                                 ":" + (scratch_.path() / "bin").string() + ":" +
                                 (path ? path : "");
    write_file(scratch_.path() / "bin" / "xdg-open", "#!/bin/sh\n"); // no browser is opened
    std::filesystem::permissions(scratch_.path() / "bin" / "xdg-open",
                                 std::filesystem::perms::owner_all);
    for (const char* home : {"XDG_DATA_HOME", "XDG_CONFIG_HOME", "HOME"})
      there_.environment[home] = (scratch_.path() / "home").string();
  }

  /// Fills the archive with entries 1 to `count`.
  void keep(int count) {
    for (int i = 0; i < count; ++i)
      put("plain.yaml", {"kept/" + std::to_string(i) + ".yaml"});
    EXPECT_EQ(run_shell("shankline archive save kept", there_).exit_code, 0);
  }

  /// Expects the example to succeed; an interview has only to begin, and a page is ended again.
  void expect_to_work(const std::string& command) {
    if (command.starts_with("shankline ask")) {
      const ScratchDirectory elsewhere;
      const Terminal terminal(elsewhere.path(),
                              "PATH='" + there_.environment.at("PATH").value() + "' " + command);
      EXPECT_TRUE(terminal.asks("dancer")) << command << "\n" << terminal.screen();
      return;
    }
    const std::string ended =
        command.starts_with("shankline page") ? "timeout --preserve-status -s TERM 4 " : "";
    const Finished done = run_shell(ended + with_server(command), there_);
    // The measurements of a made pair decide with which code accept ends.
    const bool judged = command.find(" accept ") != std::string::npos && done.exit_code >= 4;
    EXPECT_TRUE(done.exit_code == 0 || judged) << command << "\n" << done.err;
    const bool into_a_file = command.find(" > ") != std::string::npos;
    EXPECT_EQ(done.out.empty(), into_a_file) << command;
  }

private:
  /// The server that an example names is the test's own; its database is empty at first.
  std::string with_server(const std::string& command) {
    const std::size_t at = command.find("postgresql://");
    if (at == std::string::npos) return command;
    PrivateServer& server = PrivateServer::of_this_program();
    if (database_.empty()) database_ = server.new_database();
    if (command.find(" move ") != std::string::npos)
      std::filesystem::copy_file(scratch_.path() / "home" / "shankline" / "archive.sqlite",
                                 scratch_.path() / "archive.sqlite",
                                 std::filesystem::copy_options::skip_existing);
    const std::size_t end = std::min(command.find(' ', at), command.size());
    return command.substr(0, at) + "'" + server.address(database_) + "'" + command.substr(end);
  }

  void put(const std::string& sample, const std::vector<std::string>& names) {
    for (const std::string& name : names)
      write_file(scratch_.path() / name,
                 read_file(std::filesystem::path(places::samples) / sample));
  }

  ScratchDirectory scratch_;
  Surroundings there_;
  std::string database_;
};

TEST(Manual, EveryExampleWorksAsWritten) {
  Bench bench;
  bench.keep(41); // the highest entry that an example names, but for
  bench.expect_to_work("shankline archive note 41 --foot left --gap 2"); // entry 42
  bench.expect_to_work("shankline archive mark 41 --in-use 2026-03-20");
  int examples = 0;
  std::vector<std::string> texts{run({places::program, "--help"}).out};
  for (const VerbGuide& guide : verb_guides())
    texts.push_back(run({places::program, std::string(guide.name), "--help"}).out);
  for (const ArchiveGuide& guide : archive_guides())
    if (guide.action != ArchiveAction::forget) // asks, and only on a terminal
      texts.push_back(run({places::program, "archive", std::string(guide.name), "--help"}).out);
  for (const std::string& text : texts) {
    const std::size_t from = text.find("Example:\n");
    ASSERT_NE(from, std::string::npos) << text;
    for (const std::string& line : lines_of(text.substr(from))) {
      if (!line.starts_with("  shankline ")) continue;
      bench.expect_to_work(line.substr(2));
      ++examples;
    }
  }
  EXPECT_GE(examples, 40);
}

TEST(Manual, EveryCommandOfTheManualWorksAsWritten) {
  Bench bench;
  int commands = 0;
  bool inside = false;
  for (const std::string& line : lines_of(read_file(places::source_tree + "/README.md"))) {
    if (line.starts_with("```")) inside = line == "```sh";
    if (!inside || !line.starts_with("shankline ")) continue;
    bench.expect_to_work(line);
    ++commands;
  }
  EXPECT_GE(commands, 25);
}

/// The part of a man page from a heading to the next of its kind.
std::string part(const std::string& page, const std::string& heading) {
  const std::size_t from = page.find("\n" + heading + "\n");
  if (from == std::string::npos) return {};
  return page.substr(from, page.find("\n" + heading.substr(0, 4), from + 4) - from);
}

TEST(Manual, PageHasEveryVerbAndEveryOptionWithItsWords) {
  const std::string page = run({places::program, "manual", "man"}).out;
  int options = 0;
  std::vector<std::string> verbs;
  for (const VerbGuide& guide : verb_guides())
    verbs.emplace_back(guide.name);
  for (const ArchiveGuide& guide : archive_guides())
    verbs.push_back("archive " + std::string(guide.name));
  for (const std::string& verb : verbs) {
    const std::string about = part(page, ".SS " + verb);
    EXPECT_NE(about, "") << verb;
    for (const std::string& line :
         lines_of(run_shell("'" + places::program + "' " + verb + " --help").out)) {
      const std::size_t at = line.find("--");
      if (at == std::string::npos || line.find_first_not_of(' ') != 2 || line[2] != '-') continue;
      std::string option = "\\fB";
      for (const char c : line.substr(at, line.find_first_of(" ,:", at) - at))
        option += c == '-' ? "\\-" : std::string(1, c);
      const std::size_t term = about.find(option + "\\fR");
      ASSERT_NE(term, std::string::npos) << verb << ": " << line;
      const std::vector<std::string> below = lines_of(about.substr(term));
      ASSERT_GE(below.size(), 2u);
      EXPECT_GT(below[1].size(), 8u) << verb << ": " << line << ": " << below[1];
      EXPECT_NE(below[1][0], '.') << verb << ": no words for " << line;
      ++options;
    }
  }
  EXPECT_GT(options, 80);
}

/// Both pages go through the programs that show them, without a warning.
TEST(Manual, PagesAreSoundManPages) {
  const ScratchDirectory scratch;
  Surroundings there;
  there.directory = scratch.path();
  for (const char* name : {"man", "order"}) {
    const Finished page = run({places::program, "manual", name});
    EXPECT_TRUE(std::all_of(page.out.begin(), page.out.end(), [](char c) {
      return c == '\n' || (c >= ' ' && c <= '~');
    })) << name;
    write_file(scratch.path() / name, page.out);
    const std::string file(name);
    const Finished groff = run({"groff", "-man", "-ww", "-z", file}, there);
    EXPECT_EQ(groff.exit_code, 0);
    EXPECT_EQ(groff.out + groff.err, "") << name;
    const Finished lint = run({"mandoc", "-T", "lint", "-W", "style", file}, there);
    EXPECT_EQ(lint.out + lint.err, "") << name;
  }
}

struct OrderMap {
  const char* yaml;    ///< a map with a key that no map has
  const char* heading; ///< how the headings of its sections begin
  const char* prefix;  ///< of its keys in the manual
};

TEST(Manual, OrderPageHasEveryKeyThatTheReaderKnows) {
  constexpr OrderMap maps[] = {
      {"zzz: 1", "TOP", ""},
      {"feet: {zzz: 1}", "FEET", ""},
      {"feet: {arch_break: {zzz: 1}}", "FEET", "arch_break."},
      {"feet: {roll: {zzz: 1}}", "FEET", "roll."},
      {"feet: {length: {zzz: 1}}", "READINGS", ""},
      {"shoe: {zzz: 1}", "SHOE", ""},
      {"shoe: {board: {zzz: 1}}", "SHOE", "board."},
      {"shoe: {sides: {zzz: 1}}", "SHOE", "sides."},
      {"shoe: {platform: {zzz: 1}}", "SHOE", "platform."},
      {"shoe: {stiffness: {zzz: 1}}", "SHOE", "stiffness."},
      {"shoe: {pull: {zzz: 1}}", "SHOE", "pull."},
      {"alterations: {zzz: 1}", "ALTERATIONS", ""},
      {"alterations: {shank: {zzz: 1}}", "ALTERATIONS", "shank."},
      {"alterations: {sides: {zzz: 1}}", "ALTERATIONS", "sides."},
      {"alterations: {darning: {zzz: 1}}", "ALTERATIONS", "darning."},
      {"alterations: {ribbons: {zzz: 1}}", "ALTERATIONS", "ribbons."},
      {"alterations: {elastics: {zzz: 1}}", "ALTERATIONS", "elastics."},
      {"alterations: {liner: {zzz: 1}}", "ALTERATIONS", "liner."},
      {"alterations: {thinned: {zzz: 1}}", "ALTERATIONS", "thinned."},
      {"alterations: {tuck: {zzz: 1}}", "ALTERATIONS", "tuck."},
      {"tolerances: {zzz: 1}", "TOLERANCES", ""},
  };
  const std::string page = run({places::program, "manual", "order"}).out;
  int keys = 0;
  for (const OrderMap& map : maps) {
    std::string sections;
    for (std::size_t at = page.find("\n.SH \"" + std::string(map.heading)); at != std::string::npos;
         at = page.find("\n.SH \"" + std::string(map.heading), at + 1))
      sections += page.substr(at, page.find("\n.SH ", at + 1) - at);
    const ReadOrder read = read_order(std::string(map.yaml) + "\n", "order.yaml");
    const auto unknown =
        std::find_if(read.messages.begin(), read.messages.end(), [](const Message& message) {
          return message.key.size() >= 3 && message.key.substr(message.key.size() - 3) == "zzz";
        });
    ASSERT_NE(unknown, read.messages.end()) << map.yaml;
    std::istringstream allowed(unknown->allowed);
    for (std::string key; std::getline(allowed, key, ',');) {
      key.erase(0, key.find_first_not_of(' '));
      if (key == "both" || key == "left" || key == "right") continue;
      EXPECT_NE(sections.find(".TP\n\\fB" + (map.prefix + key) + "\\fR\n"), std::string::npos)
          << map.yaml << ": " << key;
      ++keys;
    }
  }
  EXPECT_GT(keys, 100);
}

TEST(Manual, ExampleOfTheOrderPageIsAnOrder) {
  const std::string page = run({places::program, "manual", "order"}).out;
  const std::size_t from = page.find(".nf\n") + 4;
  std::string order = page.substr(from, page.find(".fi\n") - from);
  for (std::size_t at = order.find("\\-"); at != std::string::npos; at = order.find("\\-", at))
    order.replace(at, 2, "-");
  const ReadOrder read = read_order(order, "order.yaml");
  EXPECT_TRUE(read.ok());
  EXPECT_EQ(read.messages.size(), 0u);
}

} // namespace
} // namespace shankline::tests::manual_test
