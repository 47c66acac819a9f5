// A page must look the same on a machine without a single font: its faces are in the file.
#include "export/formats/pdf_writer.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <fstream>
#include <gtest/gtest.h>
#include <iterator>
#include <sstream>

namespace shankline::tests::faces_in_file_test {
namespace {

/// Words in both weights, and no line: all ink of the page is theirs.
Drawing words_alone() {
  Drawing drawing;
  Page page;
  page.paper = papers().front();
  page.title = "Words";
  page.marks.emplace_back(Text{{20, 60}, "keep 61.5 \u00b10.8 mm \u00b7 \u22121.5", 6});
  page.marks.emplace_back(Text{{20, 40}, "Zo\u00eb \u201cleft\u201d", 6, Weight::bold});
  drawing.pages.push_back(page);
  return drawing;
}

class FacesInFile : public testing::Test {
protected:
  FacesInFile() {
    tests::write_file(pdf_, pdf_bytes(words_alone()));
    tests::write_file(no_fonts_, "<?xml version=\"1.0\"?>\n<fontconfig></fontconfig>\n");
  }

  tests::Finished on_a_bare_machine(const std::vector<std::string>& words) const {
    tests::Surroundings surroundings;
    surroundings.environment["FONTCONFIG_FILE"] = no_fonts_.string();
    return tests::run(words, surroundings);
  }

  /// Dark points of the page's grey picture, between two heights in millimetres.
  int ink(const std::filesystem::path& picture, double low, double high) const {
    std::ifstream file(picture, std::ios::binary);
    std::string kind;
    int width = 0, height = 0, white = 0;
    file >> kind >> width >> height >> white;
    file.get();
    const std::string points{std::istreambuf_iterator<char>(file), {}};
    EXPECT_EQ(kind, "P5");
    EXPECT_EQ(points.size(), static_cast<std::size_t>(width * height));
    const double paper = papers().front().height;
    int dark = 0;
    for (std::size_t i = 0; i < points.size(); ++i) {
      const std::size_t row = i / static_cast<std::size_t>(width);
      const double y = paper * (1 - (static_cast<double>(row) + 0.5) / height);
      if (y > low && y < high && static_cast<unsigned char>(points[i]) < 128) ++dark;
    }
    return dark;
  }

  tests::ScratchDirectory scratch_;
  std::filesystem::path pdf_ = scratch_.path() / "words.pdf";
  std::filesystem::path no_fonts_ = scratch_.path() / "no_fonts.conf";
};

// Before the faces were in the file: 0 dark points in either, and poppler said on stderr
//   Syntax Error: Couldn't find a font for 'Helvetica'
//   Syntax Error: Couldn't find a font for 'Helvetica-Bold'
// with exit code 0.
TEST_F(FacesInFile, WordsAreDrawnWhereNoFontIsInstalled) {
  const std::string start = (scratch_.path() / "page").string();
  const tests::Finished drawn =
      on_a_bare_machine({"pdftoppm", "-r", "150", "-gray", "-singlefile", pdf_.string(), start});
  EXPECT_EQ(drawn.exit_code, 0);
  EXPECT_EQ(drawn.err, "");
  EXPECT_GT(ink(start + ".pgm", 58, 66), 1000) << "the regular face";
  EXPECT_GT(ink(start + ".pgm", 38, 46), 500) << "the bold face";
}

// Before:
//   Helvetica                            Type 1            WinAnsi          no  no  no       4  0
//   Helvetica-Bold                       Type 1            WinAnsi          no  no  no       5  0
TEST_F(FacesInFile, EveryFaceIsEmbedded) {
  const tests::Finished listed = tests::run({"pdffonts", pdf_.string()});
  EXPECT_EQ(listed.err, "");
  std::istringstream lines(listed.out);
  std::string line;
  std::getline(lines, line);
  EXPECT_EQ(line.substr(line.find("emb")), "emb sub uni object ID");
  const std::size_t embedded = line.find("emb");
  std::getline(lines, line); // a rule
  int faces = 0;
  for (; std::getline(lines, line); ++faces)
    EXPECT_EQ(line.substr(embedded, 3), "yes") << line;
  EXPECT_EQ(faces, 2);
}

// Before, the minus sign came out of a reader as a dash: "keep 61.5 ±0.8 mm · –1.5".
TEST_F(FacesInFile, ReadersFindTheWordsAsTheyWereWritten) {
  for (const auto& reader :
       {std::vector<std::string>{"pdftotext", pdf_.string(), "-"},
        std::vector<std::string>{"mutool", "draw", "-q", "-F", "text", pdf_.string()}}) {
    const tests::Finished read = on_a_bare_machine(reader);
    EXPECT_NE(read.out.find("keep 61.5 \u00b10.8 mm \u00b7 \u22121.5"), std::string::npos)
        << reader[0] << '\n'
        << read.out;
    EXPECT_NE(read.out.find("Zo\u00eb \u201cleft\u201d"), std::string::npos) << reader[0] << '\n'
                                                                             << read.out;
  }
}

} // namespace
} // namespace shankline::tests::faces_in_file_test
