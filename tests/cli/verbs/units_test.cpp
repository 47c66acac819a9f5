// Inches beside millimetres, wherever a length of an order is shown.
#include "tests/support/pattern.hpp"
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <filesystem>
#include <gtest/gtest.h>
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
    std::string words = done.out + done.err;
    for (const auto& file : fs::directory_iterator(scratch.path()))
      if (file.path().extension() == ".pdf")
        words += run({"pdftotext", "-raw", file.path().string(), "-"}, there).out;
    return Pattern("\\s+").replace_all(words, " ");
  }

  static std::string sample(const std::string& name) { return places::samples + "/" + name; }
};

/// Millimetres with no inches behind them. What stays in millimetres is not a length of an order:
/// the bars that prove the scale of a page, the bank card beside them, the strips of a form, the
/// scale along a chart's axis ("50 60 mm"), and the thickness to which stock is thinned.
std::vector<std::string> bare_lengths(const std::string& words) {
  static const Pattern length("([^ ]+) [^ ]*[0-9] mm(?![a-z\u00b2])(?! \\((\u00b1)?[0-9])");
  static const Pattern stays("100 mm|53\\.98 mm|300 mm|^[0-9]+ [0-9]+ mm$|"
                             "^to [0-4](\\.[0-9]+)? mm$|^[0-4](\\.[0-9]+)? \u00b10\\.[0-9]+ mm$");
  std::vector<std::string> bare;
  for (const PatternMatch& match : length.all_in(words))
    if (!stays.is_in(match.groups[0])) bare.push_back(match.groups[0]);
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
    EXPECT_TRUE(Pattern("[0-9] in\\)|in inches|[0-9] in ").is_in(words)) << typed;
    for (const std::string& bare : bare_lengths(words))
      ADD_FAILURE() << typed << ": " << bare;
  }
}

/// Figures with a decimal that no inches follow; hours, shares and the table "mm" of past lines
/// are no lengths of a pair.
std::vector<std::string> bare_decimals(const std::string& words) {
  static const Pattern length("(?:^|[ (])([0-9]+\\.[0-9])(?! \\((\u00b1)?[0-9]| \u00b1[0-9.]+ "
                              "\\([0-9]| h\\b| tries| %|[0-9]|\\.[0-9])");
  const std::string table = "How good the lines have been, mm:";
  const std::string before = words.substr(0, words.find(table));
  std::vector<std::string> bare;
  for (const PatternMatch& match : length.all_in(before))
    bare.push_back(match.groups[0] + match.behind.substr(0, 40));
  return bare;
}

TEST(BareDecimals, AreFoundButForHours) {
  EXPECT_EQ(bare_decimals("left final line 62.0").size(), 1u);
  EXPECT_EQ(bare_decimals("left final line 62.0 (2 7/16 in), 6.5 h").size(), 0u);
  EXPECT_EQ(bare_decimals("60.4 \u00b14.5 (2 3/8 \u00b13/16 in)").size(), 0u);
  EXPECT_EQ(bare_decimals("60.4 \u00b14.5").size(), 1u);
}

TEST_F(InInches, NoLengthOfTheArchiveIsShownWithoutThem) {
  const ScratchDirectory scratch;
  const std::string kept = (scratch.path() / "archive.sqlite").string();
  const auto words_of_archive = [&](std::vector<std::string> verb) {
    verb.insert(verb.end(), {"--archive", kept});
    return words_of(std::move(verb));
  };
  Surroundings there;
  there.directory = scratch.path();
  ASSERT_EQ(
      run({places::program, "archive", "save", sample("plain.yaml"), "--archive", kept}, there)
          .exit_code,
      0);
  // The second pair of the dancer: what was ordered last time is said too. No word is noted yet.
  const std::string cut =
      words_of_archive({"cut", sample("plain.yaml"), "--save", "-o", "sheets.pdf"});
  const std::size_t last = cut.find("last time ");
  ASSERT_NE(last, std::string::npos) << cut;
  const std::string saved = cut.substr(last, cut.find("page 1 of") - last);
  for (const char* said : {"last time ", "saved as entry 2: ", "final line 62.0 (2 7/16 in)"})
    EXPECT_NE(saved.find(said), std::string::npos) << said << saved;
  const std::string untold = words_of_archive({"archive", "overview"});
  EXPECT_NE(untold.find("no word yet"), std::string::npos) << untold;
  for (const std::string& words : {saved, untold})
    for (const std::string& bare : bare_decimals(words))
      ADD_FAILURE() << bare << " in " << words;
  const std::string tried =
      words_of_archive({"archive", "tries", "1", "--foot", "left", "52.5:too-low", "55.5:good"});
  EXPECT_NE(tried.find("left 52.5 (2 1/16 in) off"), std::string::npos) << tried;
  ASSERT_EQ(run({places::program, "archive", "note", "1", "--foot", "left", "--gap", "2.5",
                 "--archive", kept},
                there)
                .exit_code,
            0);
  const std::vector<std::vector<std::string>> verbs{
      {"archive", "show", "1"},
      {"archive", "history", "M-07"},
      {"archive", "list"},
      {"archive", "find", "M-07"},
      {"archive", "card", "1", "-o", "card.pdf"},
      {"archive", "learn"},
      {"archive", "overview", "-o", "overview.pdf"},
  };
  for (const std::vector<std::string>& verb : verbs) {
    const std::string words = words_of_archive(verb);
    EXPECT_NE(words.find(" in)"), std::string::npos) << verb[1] << ":\n" << words;
    for (const std::string& bare : bare_lengths(words))
      ADD_FAILURE() << verb[1] << ": " << bare;
    if (verb[1] == "card") continue; // SheetsInInches looks at its page
    const std::string said = words.substr(0, words.find("the order as it was given"));
    for (const std::string& bare : bare_decimals(said))
      ADD_FAILURE() << verb[1] << ": " << bare;
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
