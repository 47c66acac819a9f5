// Every sample, cut as a user would cut it, and its PDF measured from outside: qpdf, poppler and
// mupdf read the file, nothing of ours takes part but the table of line kinds.
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/readback.hpp"
#include "tests/support/scratch_directory.hpp"

#include <algorithm>
#include <cctype>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <gtest/gtest.h>
#include <map>
#include <nlohmann/json.hpp>

namespace shankline::tests::samples_on_paper_test {
namespace {

namespace fs = std::filesystem;

std::vector<fs::path> samples() {
  std::vector<fs::path> found;
  for (const fs::directory_entry& entry : fs::directory_iterator(places::samples))
    if (entry.path().extension() == ".yaml") found.push_back(entry.path());
  std::sort(found.begin(), found.end());
  return found;
}

struct Case {
  fs::path sample;
  std::string paper;
};

/// Every day each sample on A4, and two of them on every paper; the rest in the long run.
std::vector<Case> cases(bool everyday) {
  std::vector<Case> all;
  for (const fs::path& sample : samples())
    for (const char* paper :
         {"a4", "letter", "a3", "legal", "tabloid", "roll:210", "roll:300", "roll:36in"}) {
      const bool is_everyday = paper == std::string_view("a4") || sample.stem() == "plain" ||
                               sample.stem() == "long_sides";
      if (is_everyday == everyday) all.push_back({sample, paper});
    }
  return all;
}

std::string name_of(const testing::TestParamInfo<Case>& info) {
  std::string name = info.param.sample.stem().string() + "_" + info.param.paper;
  std::replace_if(
      name.begin(), name.end(), [](unsigned char c) { return !std::isalnum(c); }, '_');
  return name;
}

class SampleOnPaper : public testing::TestWithParam<Case> {
protected:
  /// The lines, with the PDF written beside.
  std::string cut() {
    const Finished finished = run({places::program, "cut", GetParam().sample.string(), "--paper",
                                   GetParam().paper, "--lines", "-o", pdf_.string()});
    EXPECT_EQ(finished.exit_code, 0) << finished.err;
    return finished.out;
  }

  ScratchDirectory scratch_;
  fs::path pdf_ = scratch_.path() / "sheets.pdf";
};

TEST_P(SampleOnPaper, IsTrueToTheMillimetre) {
  expect_true_to_paper(pdf_, cut());
}

std::string one_decimal(const nlohmann::json& number) {
  char text[32];
  std::snprintf(text, sizeof text, "%.1f", number.get<double>());
  return text;
}

/// The numbers and words that a fitter needs on the page of a board.
std::vector<std::string> on_board_page(const nlohmann::json& foot) {
  std::vector<std::string> wanted{"HEEL END", "CUT OFF", "little-toe side", "big-toe side"};
  const auto& board = foot.at("trim").at("board");
  // A length to cut off is rounded down to a half millimetre.
  const auto off = [](const nlohmann::json& number) {
    return one_decimal(std::floor(2 * number.get<double>() + 1e-6) / 2);
  };
  for (const char* cut : {"first", "final"})
    for (const char* place : {"medial", "centre", "lateral"})
      if (board.at(cut).is_object()) wanted.push_back(off(board.at(cut).at(place)));
  wanted.push_back(off(board.at("stop_from")));
  for (const char* U : {"U", "U_stop", "U_right"})
    wanted.push_back("\u00b1" + one_decimal(board.at(U)));
  if (foot.at("pieces").at("kept").is_object()) wanted.push_back("KEEP");
  return wanted;
}

/// On the pages of one part together, where it may be on several.
std::vector<std::string> on_pages_of(const std::string& part) {
  if (part == "liner") return {"HEEL END", "towards the toes"};
  return {"BACK SEAM", "towards the toes", "low point"};
}
/// On each page of a side.
std::vector<std::string> on_side_page(const nlohmann::json& side) {
  std::vector<std::string> wanted{"SOLE EDGE", "OUTSIDE FACE UP"};
  for (const auto& mark : side.at("heights"))
    wanted.push_back(one_decimal(mark.at("finished")));
  return wanted;
}

std::vector<std::string> on_liner_page(const nlohmann::json& liner) {
  return {"LINER", "FOOT SIDE UP", "adhesive on the", one_decimal(liner.at("length")),
          one_decimal(liner.at("width"))};
}

std::vector<std::string> on_darning_page(const nlohmann::json& darning) {
  return {"START: middle of the pleats",
          "PLATFORM'S EDGE",
          "meets the start",
          "vamp side",
          one_decimal(darning.at("perimeter")),
          std::to_string(darning.at("stitches").get<int>())};
}

/// On the page of a board that is thinned and not cut.
std::vector<std::string> on_thinned_page(const nlohmann::json& thinned) {
  return {"HEEL END",
          "FOOT SIDE UP",
          "THIN",
          "little-toe side",
          "big-toe side",
          one_decimal(thinned.at("from")),
          one_decimal(thinned.at("to"))};
}

std::vector<std::string> on_page_of(const std::string& part, const nlohmann::json& foot) {
  if (part == "board")
    return foot.at("trim").is_null() ? on_thinned_page(foot.at("thinned")) : on_board_page(foot);
  if (part == "liner") return on_liner_page(foot.at("liner"));
  if (part == "darning") return on_darning_page(foot.at("darning"));
  return on_side_page(foot.at("sides").at(part.substr(std::string("side_").size())));
}

TEST_P(SampleOnPaper, ShowsTheRulerNumbersAsText) {
  const auto json = nlohmann::json::parse(cut());
  std::size_t found = 0;
  std::map<std::pair<std::string, std::string>, std::string> together; // by part and foot
  for (const auto& part : json.at("templates")) {
    const auto& foot = json.at("feet").at(part.at("foot").get<std::string>());
    const std::string name = part.at("part");
    const auto wanted = on_page_of(name, foot);
    // Upright words come out of pdftotext letter by letter: as words they are found.
    std::string text = page_text(pdf_, part.at("page"));
    for (const Word& word : page_words(pdf_, part.at("page")))
      text += ' ' + word.text;
    for (const std::string& words : wanted) {
      EXPECT_NE(text.find(words), std::string::npos) << name << ": " << words;
      ++found;
    }
    if (part.contains("tile")) {
      EXPECT_NE(text.find("Join the tiles"), std::string::npos);
    }
    if (name.starts_with("side_") || name == "liner") together[{name, part.at("foot")}] += text;
  }
  for (const auto& [part, text] : together)
    for (const std::string& words : on_pages_of(part.first))
      EXPECT_NE(text.find(words), std::string::npos) << part.first << ": " << words;
  EXPECT_GE(found, 20u);
}

TEST_P(SampleOnPaper, HasTheSameBytesEveryTime) {
  cut();
  const std::string first = read_file(pdf_);
  const Finished again =
      run({places::program, "cut", GetParam().sample.string(), "--paper", GetParam().paper, "-o",
           pdf_.string()},
          {"", {}, {{"TZ", "Pacific/Auckland"}, {"LC_ALL", "C.UTF-8"}}, std::chrono::seconds(60)});
  ASSERT_EQ(again.exit_code, 0) << again.err;
  EXPECT_EQ(first, read_file(pdf_));
}

INSTANTIATE_TEST_SUITE_P(Samples, SampleOnPaper, testing::ValuesIn(cases(true)), name_of);
INSTANTIATE_TEST_SUITE_P(LongSamples, SampleOnPaper, testing::ValuesIn(cases(false)), name_of);

TEST(SamplesOnPaper, AreAllTried) {
  EXPECT_GE(samples().size(), 5u);
}

TEST(SamplesOnPaper, ShowTheirBarsInTheRastersOfTwoRenderers) {
  const ScratchDirectory scratch;
  const fs::path pdf = scratch.path() / "plain.pdf";
  const Finished cut =
      run({places::program, "cut", places::samples + "/plain.yaml", "--lines", "-o", pdf.string()});
  ASSERT_EQ(cut.exit_code, 0) << cut.err;
  expect_bars_in_pixels(pdf, cut.out, 600, Renderer::poppler);
  expect_bars_in_pixels(pdf, cut.out, 600, Renderer::mupdf);
}

} // namespace
} // namespace shankline::tests::samples_on_paper_test
