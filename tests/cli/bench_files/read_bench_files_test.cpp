// Files of measurements of a worn or a made pair: whatever happens to the file, the reader answers,
// and names the place of a fault.
#include "cli/bench_files/measured_reader.hpp"
#include "cli/bench_files/worn_reader.hpp"
#include "cli/order_file/order_reader.hpp"
#include "geometry/solution/solution.hpp"
#include "tests/cli/spoiler.hpp"
#include "tests/support/places.hpp"
#include "tests/support/scratch_directory.hpp"

#include <cmath>
#include <gtest/gtest.h>

namespace shankline::tests::read_bench_files_test {
namespace {

std::string sample(const std::string& name) {
  return read_file(places::samples + "/" + name);
}

std::vector<AcceptanceLine> lines_of_sample() {
  const ReadOrder read = read_order(sample("sides_lowered.yaml"), "order.yaml");
  return acceptance_lines(read.order, solve(read.order));
}

void expect_places(const std::vector<Message>& messages, const std::string& text) {
  for (const Message& message : messages) {
    EXPECT_GE(message.line, 1) << to_text(message) << '\n' << text;
    EXPECT_FALSE(message.what.empty()) << text;
  }
}

TEST(WornFile, IsReadAsWritten) {
  const auto read = read_worn_text(sample("pairs/worn.yaml"), "worn.yaml");
  ASSERT_TRUE(read.ok());
  EXPECT_EQ(read.content.dancer, "M-07");
  ASSERT_TRUE(read.content.left && read.content.left->board_end);
  EXPECT_DOUBLE_EQ(read.content.left->board_end->value(), 168.25);
  EXPECT_DOUBLE_EQ(read.content.left->board_end->finding, 1); // of its own row of the guide
  EXPECT_DOUBLE_EQ(read.content.left->medial->finding, 1.5);
  ASSERT_TRUE(read.content.right && read.content.right->heel_end);
  EXPECT_FALSE(read.content.right->medial);
}

TEST(MeasuredFile, TakesTheInstrumentOfTheFileOrTheSizesOwn) {
  const auto lines = lines_of_sample();
  const auto read = read_measured_text(sample("pairs/measured.yaml"), "measured.yaml", lines);
  ASSERT_TRUE(read.ok());
  ASSERT_EQ(read.content.sizes.size(), 13u);
  const auto size = [&](FootSide foot, const std::string& key) -> const MadeSize& {
    for (const MadeSize& made : read.content.sizes)
      if (made.foot == foot && made.key == key) return made;
    throw std::out_of_range(key);
  };
  EXPECT_DOUBLE_EQ(size(FootSide::left, "end.centre").U,
                   instrument_guide(Instrument::half_millimetre_rule).U);
  EXPECT_DOUBLE_EQ(size(FootSide::right, "kept").U, instrument_guide(Instrument::tape).U);
  EXPECT_DOUBLE_EQ(size(FootSide::left, "edge_thickness").U, 0.05);
}

/// Lines of a board that keeps one of three layers, has rounded corners, or is thinned.
std::vector<AcceptanceLine> lines_of_worked_boards() {
  std::vector<AcceptanceLine> lines;
  for (const char* work : {"shank: {layers: 2}", "shank: {end: rounded, corner: 5}",
                           "thinned: {from: 66, to: 98, thickness: 2}"}) {
    const ReadOrder read =
        read_order("format: shankline-order/1\ndancer: M-07\nfeet: {left: {length: 238, "
                   "ball_length: 172, heel_front: 61, arch_break: 95, fold: 6}}\nshoe: {board: "
                   "{state: loose, length: 220, inset: 5, thickness: 3.2, layers: 3, widths: "
                   "[[22, 45], [96, 33], [164, 56]]}}\nalterations: {" +
                       std::string(work) + "}\n",
                   "order.yaml");
    for (AcceptanceLine& line : acceptance_lines(read.order, solve(read.order)))
      lines.push_back(std::move(line));
  }
  return lines;
}

BenchFile<MeasuredPair> measured_left(const std::string& sizes) {
  return read_measured_text("format: shankline-measured/1\nleft: " + sizes + "\n", "measured.yaml",
                            lines_of_worked_boards());
}

TEST(MeasuredFile, TakesCornerLayersAndThinning) {
  const auto read = measured_left("{layers: 1, corner: {value: 5.2, instrument: caliper}, thinned: "
                                  "{from: {value: 71, within: 0.3}, to: {value: 103, instrument: "
                                  "tape}, thickness: {value: 2, within: 0.1}}}");
  ASSERT_TRUE(read.ok()) << to_text(read.messages.front());
  ASSERT_EQ(read.content.sizes.size(), 5u);
  EXPECT_EQ(read.content.sizes[0].key, "layers");
  EXPECT_EQ(read.content.sizes[0].U, 0) << "counted: no instrument is needed, nor doubted";
  EXPECT_EQ(read.content.sizes[1].key, "corner");
  EXPECT_EQ(read.content.sizes[2].key, "thinned.from");
  EXPECT_EQ(read.content.sizes[2].U, 0.3);
  EXPECT_EQ(read.content.sizes[4].key, "thinned.thickness");
}

TEST(MeasuredFile, LayersAreAWholeNumber) {
  EXPECT_TRUE(measured_left("{layers: 0}").ok()) << "cut right through: refused, but read";
  for (const char* wrong : {"1.5", "7", "-1", "two", "{value: 1}", "[1]"}) {
    const auto read = measured_left("{layers: " + std::string(wrong) + "}");
    ASSERT_EQ(read.messages.size(), 1u) << wrong;
    EXPECT_EQ(read.messages.front().line, 2) << wrong;
    EXPECT_FALSE(read.ok()) << wrong;
  }
}

TEST(BenchFiles, OnlyAFileOfAnotherKindOrVersionLeavesItsOtherFaultsUnsaid) {
  const auto lines = lines_of_sample();
  const std::string rest = "dancer: M-07\nleft: {nothing: 3, kept: 158}\n";
  const auto faults_of = [&](const std::string& format) {
    return read_measured_text(format + rest, "measured.yaml", lines).messages.size();
  };
  EXPECT_EQ(faults_of("format: shankline-measured/1\n"), 2u); // no such line, no instrument
  EXPECT_EQ(faults_of(""), 3u);
  EXPECT_EQ(faults_of("format: shankline-mesured/1\n"), 3u);
  EXPECT_EQ(faults_of("format: shankline-measured/2\n"), 1u);
  EXPECT_EQ(faults_of("format: shankline-order/1\n"), 1u);
}

TEST(BenchFiles, EverySpoiltOneGetsAnAnswer) {
  Spoiler spoiler(20260520);
  const auto lines = lines_of_sample();
  const std::string worn = sample("pairs/worn.yaml");
  const std::string measured = sample("pairs/measured.yaml");
  int good = 0;
  int bad = 0;
  for (int i = 0; i < 1500 && !HasFailure(); ++i) {
    const std::string spoilt_worn = spoiler.spoil(worn);
    const auto read_worn = read_worn_text(spoilt_worn, "worn.yaml");
    expect_places(read_worn.messages, spoilt_worn);
    const std::string spoilt = spoiler.spoil(measured);
    const auto read = read_measured_text(spoilt, "measured.yaml", lines);
    expect_places(read.messages, spoilt);
    if (read.ok())
      for (const MadeSize& made : read.content.sizes) {
        EXPECT_TRUE(std::isfinite(made.value) && made.U > 0) << spoilt;
      }
    ++(read.ok() ? good : bad);
    ++(read_worn.ok() ? good : bad);
  }
  EXPECT_GT(good, 100);
  EXPECT_GT(bad, 1000);
}

} // namespace
} // namespace shankline::tests::read_bench_files_test
