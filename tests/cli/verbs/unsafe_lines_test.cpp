// Orders whose readings are too poor for a safe line, through the program itself: none of them may
// come out with a line that a hand could follow.
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <string>
#include <utility>
#include <vector>

namespace shankline::tests::unsafe_lines_test {
namespace {

class UnsafeLines : public testing::Test {
protected:
  /// samples/plain.yaml with pieces of it replaced.
  void write(const std::vector<std::pair<std::string, std::string>>& changes) const {
    std::string text = read_file(std::filesystem::path(places::samples) / "plain.yaml");
    for (const auto& [from, to] : changes) {
      const auto at = text.find(from);
      ASSERT_NE(at, std::string::npos) << from;
      text.replace(at, from.size(), to);
    }
    std::ofstream(scratch_.path() / "order.yaml") << text;
  }
  Finished tool(std::vector<std::string> words) const {
    words.insert(words.begin(), places::program);
    Surroundings there;
    there.directory = scratch_.path();
    return run(words, there);
  }
  /// Refused with these words, and no figure given out in any form.
  void expect_refused(const std::string& words) const {
    for (const char* form : {"check", "cut"}) {
      const Finished found = tool({form, "order.yaml"});
      EXPECT_EQ(found.exit_code, 1) << form;
      EXPECT_NE(found.err.find(words), std::string::npos) << found.err;
      EXPECT_EQ(found.out.find("first cut"), std::string::npos) << found.out;
    }
    const Finished next =
        tool({"next", "order.yaml", "--foot", "left", "--cut", "0", "--seen", "too-low"});
    EXPECT_EQ(next.exit_code, 1);
  }

  ScratchDirectory scratch_;
};

const std::string both_breaks = "arch_break: {medial: 97, lateral: 93}";
const std::string right_break = "arch_break: {medial: 96, lateral: 94}";

// Before: "first cut 68.0, final cut 74.0, known to ±2.1 mm", with the stop line at 75 known to
// ±36.
TEST_F(UnsafeLines, AMarkBesideAnUnknownStopLine) {
  write({{both_breaks, "arch_break: {value: 92, within: 25}"},
         {right_break, "arch_break: {value: 92, within: 25}"},
         {"reach: edge", "mark: 74"}});
  expect_refused("stop band");
}

// Before: "first cut 48.0, final cut 54.0, known to ±1.1 mm", with the stop line at 56 known to
// ±22.
TEST_F(UnsafeLines, AFractionBesideAnUnknownStopLine) {
  write({{"length: [238, 238.5, 238]", "length: 195"},
         {"ball_length: 172", "ball_length: 145"},
         {"heel_front: 61", "heel_front: {value: 50, within: 12}"},
         {both_breaks, "arch_break: {value: 73, within: 15}"},
         {"heel_front: 62", "heel_front: {value: 50, within: 12}"},
         {right_break, "arch_break: {value: 73, within: 15}"},
         {"length: 220", "length: 180"},
         {"reach: edge", "keep: 70 %"}});
  expect_refused("");
}

// Before: a caution, "only 62 come off in all: too little to cut in two steps", and the final line
// drawn, known to ±70.
TEST_F(UnsafeLines, AReadingWorseThanItsEstimate) {
  write({{"heel_front: 61", "heel_front: {value: 61, within: 50}"}});
  expect_refused("leave it out");
}

// Before: nothing was said, and the left cut moved from 62.0 to 46.5.
TEST_F(UnsafeLines, RepeatsThatContradictEachOther) {
  write({{"heel_front: 61", "heel_front: [61, 30]"}});
  const std::string err = tool({"check", "order.yaml"}).err;
  EXPECT_NE(
      err.find("error: feet.both.heel_front: left foot: the repeats of the heel front (61, 30) "
               "lie 31 apart"),
      std::string::npos)
      << err;
  EXPECT_EQ(err.find("lie 31 apart"), err.rfind("lie 31 apart")) << "said once only\n" << err;
  EXPECT_EQ(err.find("caution"), std::string::npos) << err;
}

// Before: lines for a child's foot of 205, without a word about growing.
TEST_F(UnsafeLines, AGrowingFootWithoutAnAdultWhoDecides) {
  write({{"length: [238, 238.5, 238]", "length: 205"}, {"ball_length: 172", "ball_length: 152"}});
  expect_refused("decided_by");
}

// Before: "final cut 139.0" with the arch break at 95.
TEST_F(UnsafeLines, AMarkAheadOfTheArchBreak) {
  write({{"reach: edge", "mark: 139, accept: outside_window"}});
  expect_refused("ahead of the arch break");
}

// Before, at 71 and 74: "a fault of this program, nothing was written: a meaning without a word".
TEST_F(UnsafeLines, EveryReasonToStopIsSaidToOtherProgramsToo) {
  write({});
  const std::vector<std::pair<std::vector<std::string>, std::string>> stops{
      {{"--cut", "52.5", "--seen", "good"}, "seen_right"},
      {{"--cut", "52.5", "--seen", "cut-too-far"}, "seen_too_far"},
      {{"--cut", "52.5", "--seen", "rolls-over"}, "seen_over"},
      {{"--cut", "52.5", "--seen", "pain"}, "seen_pain"},
      {{"--cut", "62", "--seen", "too-low"}, "final_line"},
      {{"--cut", "64", "--seen", "too-low"}, "final_passed"},
      {{"--cut", "71", "--seen", "too-low", "--past-final"}, "stop_band"},
      {{"--cut", "74", "--seen", "too-low", "--past-final"}, "band_passed"},
      {{"--cut", "78", "--seen", "too-low"}, "stop_line"},
      {{"--cut", "80", "--seen", "too-low"}, "stop_passed"},
  };
  for (const auto& [tried, reason] : stops) {
    std::vector<std::string> words{"next", "order.yaml", "--foot", "left", "--json"};
    words.insert(words.end(), tried.begin(), tried.end());
    const Finished next = tool(words);
    EXPECT_EQ(next.exit_code, 0) << next.err;
    EXPECT_NE(next.out.find("\"stop\": \"" + reason + "\""), std::string::npos) << next.out;
  }
}

} // namespace
} // namespace shankline::tests::unsafe_lines_test
