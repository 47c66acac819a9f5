#include "export/formats/pdf_writer.hpp"

#include "tests/support/process.hpp"
#include "tests/support/readback.hpp"
#include "tests/support/scratch_directory.hpp"

#include <cmath>
#include <fstream>
#include <gtest/gtest.h>
#include <limits>

namespace shankline::tests::pdf_writer_test {
namespace {

Drawing one_page() {
  Drawing drawing;
  drawing.title = "Cutting sheets: M-07";
  Page page;
  page.paper = papers().front();
  page.title = "Board, left foot";
  page.marks.emplace_back(Stroke{LineKind::final_cut, {{20, 30}, {50.1234, 31}}, false});
  page.marks.emplace_back(Text{{20, 60}, "61.5", 6});
  drawing.pages.push_back(page);
  return drawing;
}

Drawing with(Mark mark) {
  Drawing drawing = one_page();
  drawing.pages[0].marks.push_back(std::move(mark));
  return drawing;
}

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double infinity = std::numeric_limits<double>::infinity();

TEST(PdfWriter, SameDrawingSameBytes) {
  EXPECT_EQ(pdf_bytes(one_page()), pdf_bytes(one_page()));
}

TEST(PdfWriter, PagesMadeOneByOneGiveTheSameBytes) {
  Drawing whole = one_page();
  for (const char* label : {"order", "order", "", "board L"}) {
    whole.pages.push_back(whole.pages[0]);
    whole.pages.back().label = label;
    whole.pages.back().title += label;
  }
  Drawing frame = whole;
  frame.pages.clear();
  std::vector<std::size_t> asked;
  const std::string in_turn = pdf_bytes(frame, whole.pages.size(), [&](std::size_t number) {
    asked.push_back(number);
    return whole.pages.at(number);
  });
  EXPECT_TRUE(in_turn == pdf_bytes(whole));
  EXPECT_EQ(asked, (std::vector<std::size_t>{0, 1, 2, 3, 4}));
  EXPECT_THROW(pdf_bytes(frame, 0, [](std::size_t) { return Page{}; }), DrawingFault);
}

TEST(PdfWriter, RefusesWhatIsNotOnThePage) {
  EXPECT_NO_THROW(pdf_bytes(one_page()));
  for (const Point& p : {Point{nan, 20}, Point{20, infinity}, Point{-1, 20}, Point{7.9, 20},
                         Point{20, 289.1}, Point{1e9, 20}})
    EXPECT_THROW(pdf_bytes(with(Stroke{LineKind::edge, {{20, 20}, p}, false})), DrawingFault)
        << p.x << ' ' << p.y;
  EXPECT_THROW(pdf_bytes(with(Stroke{LineKind::edge, {{20, 20}}, false})), DrawingFault);
  EXPECT_THROW(pdf_bytes(with(Text{{195, 20}, "runs off the paper", 5})), DrawingFault);
  EXPECT_THROW(pdf_bytes(with(Text{{20, 20}, "x", nan})), DrawingFault);
  EXPECT_THROW(pdf_bytes(with(Text{{20, 20}, "x", 3, Weight::regular, Align::left, nan})),
               DrawingFault);
}

TEST(PdfWriter, RefusesADrawingWithoutAPage) {
  EXPECT_THROW(pdf_bytes(Drawing{}), DrawingFault);
}

TEST(PdfWriter, DrawsEveryKindSoThatAReaderFindsItByWidthDashAndGrey) {
  Drawing drawing = one_page();
  drawing.pages[0].marks.clear();
  double y = 20;
  for (const LineStyle& style : line_styles())
    drawing.pages[0].marks.emplace_back(Stroke{style.kind, {{20, y}, {60, y += 5}}, false});
  const tests::ScratchDirectory scratch;
  const auto path = scratch.path() / "kinds.pdf";
  std::ofstream(path, std::ios::binary) << pdf_bytes(drawing);
  const tests::PaperDocument document = tests::read_document(path);
  ASSERT_EQ(document.pages.size(), 1u);
  ASSERT_EQ(document.pages[0].strokes.size(), line_styles().size());
  for (std::size_t i = 0; i < line_styles().size(); ++i)
    EXPECT_EQ(tests::kind_of(document.pages[0].strokes[i]), line_styles()[i].kind)
        << line_styles()[i].name;
}

TEST(PdfWriter, LabelsPagesAndNamesThemInAnyScript) {
  Drawing drawing = one_page();
  drawing.title = "Cutting sheets: Łucja · \U0001f600 – 山";
  drawing.subject = "Größe"; // Latin 1, a byte a character
  drawing.pages.resize(4, drawing.pages[0]);
  drawing.pages[0].label = drawing.pages[1].label = "order";
  drawing.pages[2].label = "board L";
  drawing.pages[2].title = "Board, left foot – Łucja";
  const tests::ScratchDirectory scratch;
  const auto path = scratch.path() / "labels.pdf";
  tests::write_file(path, pdf_bytes(drawing));
  const auto info = tests::run({"pdfinfo", path.string()}).out;
  EXPECT_NE(info.find("Cutting sheets: Łucja · ? – 山"), std::string::npos) << info;
  EXPECT_NE(info.find("Größe"), std::string::npos) << info;
  EXPECT_EQ(info.find("CreationDate"), std::string::npos) << info;
  const auto json =
      tests::run({"qpdf", "--json", "--json-key=pagelabels", "--json-key=outlines", path.string()})
          .out;
  for (const char* words : {"\"/P\": \"u:order \"", "\"/P\": \"u:board L \"",
                            "\"title\": \"Board, left foot – Łucja\""})
    EXPECT_NE(json.find(words), std::string::npos) << words << json;
  EXPECT_EQ(tests::read_document(path).check, "");
}

TEST(PdfWriter, HoldsTheDateItIsGivenInUtc) {
  Drawing drawing = one_page();
  drawing.created = 951782399; // 2000-02-28 23:59:59
  const std::string bytes = pdf_bytes(drawing);
  EXPECT_NE(bytes.find("D:20000228235959Z"), std::string::npos);
  drawing.created = 951782400;
  EXPECT_NE(pdf_bytes(drawing).find("D:20000229000000Z"), std::string::npos);
}

} // namespace
} // namespace shankline::tests::pdf_writer_test
