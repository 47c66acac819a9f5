// The manual is executed: README's order is cut, and says what README says it says.
#include "cli/verb_guide.hpp"
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <gtest/gtest.h>

namespace shankline::tests {
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

} // namespace
} // namespace shankline::tests
