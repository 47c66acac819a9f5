// Inches beside millimetres, wherever a length of an order is shown.
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <filesystem>
#include <gtest/gtest.h>
#include <regex>
#include <string>
#include <vector>

namespace shankline::tests::units_test {
namespace {

namespace fs = std::filesystem;

class InInches : public testing::Test {
protected:
  /// What the verb says, and the words of every PDF that it wrote, as one line of words.
  std::string words_of(std::vector<std::string> arguments) {
    const ScratchDirectory scratch;
    Surroundings there;
    there.directory = scratch.path();
    arguments.insert(arguments.begin(), places::program);
    arguments.insert(arguments.end(), {"--units", "in"});
    const Finished done = run(arguments, there);
    EXPECT_LE(done.exit_code, 5) << done.err;
    EXPECT_NE(done.exit_code, 2) << done.err;
    EXPECT_NE(done.exit_code, 1) << done.err;
    std::string words = done.out;
    for (const auto& file : fs::directory_iterator(scratch.path()))
      if (file.path().extension() == ".pdf")
        words += run({"pdftotext", "-raw", file.path().string(), "-"}, there).out;
    return std::regex_replace(words, std::regex("\\s+"), " ");
  }

  static std::string sample(const std::string& name) { return places::samples + "/" + name; }
};

/// Millimetres with no inches behind them. What stays in millimetres is no length of an order: the
/// bars that prove the scale of a page, the bank card beside them, the strips of a form, and the
/// scale along a chart's axis ("50 60 mm").
std::vector<std::string> bare_lengths(const std::string& words) {
  static const std::regex length("([^ ]+) [^ ]*[0-9] mm(?![a-z\u00b2])(?! \\((\u00b1)?[0-9])");
  static const std::regex stays("100 mm|53\\.98 mm|300 mm|^[0-9]+ [0-9]+ mm$");
  std::vector<std::string> bare;
  for (std::sregex_iterator at(words.begin(), words.end(), length), end; at != end; ++at)
    if (!std::regex_search(at->str(), stays)) bare.push_back(at->str());
  return bare;
}

TEST(BareLengths, AreFoundAndTheScaleOfAPageIsLeft) {
  EXPECT_EQ(bare_lengths("it bends 36 mm nearer the heel").size(), 1u);
  EXPECT_EQ(bare_lengths("known to \u00b16.5 mm.").size(), 1u);
  EXPECT_EQ(bare_lengths("it bends 36 mm (1 13/32 in) nearer").size(), 0u);
  EXPECT_EQ(bare_lengths("known to \u00b16.5 mm (\u00b19/32 in).").size(), 0u);
  EXPECT_EQ(bare_lengths("both bars measure 100 mm. The card is 85.60 \u00d7 53.98 mm.").size(),
            0u);
}

TEST_F(InInches, NoVerbShowsALengthWithoutThem) {
  const std::string plain = sample("plain.yaml");
  const std::string sides = sample("sides_lowered.yaml");
  const std::vector<std::vector<std::string>> verbs{
      {"cut", sample("whole_order.yaml"), "-o", "sheets.pdf", "--maker", "--card", "--care"},
      {"cut", sample("cut_by_layer.yaml"), "-o", "sheets.pdf"},
      {"cut", sample("tied_ribbons.yaml"), "-o", "sheets.pdf"},
      {"cut", sample("back_lowered.yaml"), "-o", "sheets.pdf"},
      {"check", sample("whole_order.yaml")},
      {"check", plain, sides},
      {"check", plain, "--sampled"},
      {"chart", plain, "-o", "chart.pdf"},
      {"compare", sample("different_feet.yaml"), "-o", "overlay.pdf"},
      {"compare", plain, sample("board_in_shoe.yaml")},
      {"next", plain, "--foot", "left", "--cut", "52.5", "--seen", "low"},
      {"match", sample("pairs/worn.yaml"), sides, "-o", "matched.pdf"},
      {"accept", sides, sample("pairs/measured.yaml"), "-o", "accepted.pdf"},
      {"accept", sides, "--blank", "-o", "blank.pdf"},
      {"rack", plain, sides, "-o", "rack.pdf", "--labels", "labels.pdf"},
  };
  for (const std::vector<std::string>& verb : verbs) {
    std::string typed;
    for (const std::string& word : verb)
      typed += word + " ";
    const std::string words = words_of(verb);
    EXPECT_TRUE(std::regex_search(words, std::regex("[0-9] in\\)|in inches|[0-9] in "))) << typed;
    for (const std::string& bare : bare_lengths(words))
      ADD_FAILURE() << typed << ": " << bare;
  }
}

// Nothing of it is shown where nobody asked for inches.
TEST_F(InInches, AreNotShownUnasked) {
  const ScratchDirectory scratch;
  Surroundings there;
  there.directory = scratch.path();
  for (const char* verb : {"check", "compare", "rack", "chart"}) {
    const Finished done = run({places::program, verb, sample("different_feet.yaml")}, there);
    EXPECT_EQ(done.out.find("inches"), std::string::npos) << verb;
    EXPECT_EQ(done.out.find(" in)"), std::string::npos) << verb;
  }
}

} // namespace
} // namespace shankline::tests::units_test
