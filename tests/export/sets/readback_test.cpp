// The read-back harness against pages written by hand: it must measure, and it must object.
#include "tests/support/readback.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <gtest/gtest-spi.h>
#include <gtest/gtest.h>

#include "tests/support/polyline_distance.hpp"
#include "tests/support/scratch_directory.hpp"

namespace shankline::tests::readback_test {
namespace {

constexpr double points_per_mm = 72 / 25.4;

std::string number(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.5f", value);
  return text;
}

std::string replaced(std::string text, const std::string& what, const std::string& with) {
  const std::size_t at = text.find(what);
  if (at == std::string::npos) throw std::logic_error("'" + what + "' is not in the page");
  return text.replace(at, what.size(), with);
}

/// A file of one page with the given content operators.
std::string pdf_of(const std::string& content, double width_mm = 210, double height_mm = 297) {
  const std::vector<std::string> objects{
      "<< /Type /Catalog /Pages 2 0 R /ViewerPreferences << /PrintScaling /None >> >>",
      "<< /Type /Pages /Kids [3 0 R] /Count 1 /MediaBox [0 0 " + number(width_mm * points_per_mm) +
          " " + number(height_mm * points_per_mm) + "] >>",
      "<< /Type /Page /Parent 2 0 R /Contents 4 0 R /Resources << /Font << /F1 5 0 R >> >> >>",
      "<< /Length " + std::to_string(content.size()) + " >>\nstream\n" + content + "\nendstream",
      "<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>"};
  std::string file = "%PDF-1.6\n";
  std::string table = "0000000000 65535 f \n";
  for (std::size_t i = 0; i < objects.size(); ++i) {
    char entry[32];
    std::snprintf(entry, sizeof entry, "%010zu 00000 n \n", file.size());
    table += entry;
    file += std::to_string(i + 1) + " 0 obj\n" + objects[i] + "\nendobj\n";
  }
  const std::size_t start = file.size();
  const std::string count = std::to_string(objects.size() + 1);
  return file + "xref\n0 " + count + "\n" + table + "trailer << /Size " + count +
         " /Root 1 0 R >>\nstartxref\n" + std::to_string(start) + "\n%%EOF\n";
}

std::string style(LineKind kind) {
  const LineStyle& line = line_style(kind);
  std::string dash;
  for (const int length : line.dash)
    if (length != 0) dash += std::to_string(length) + " ";
  return number(line.width * points_per_mm) + " w " + number(line.grey) + " G [" + dash + "] 0 d\n";
}

/// Points in mm.
std::string path(const Polyline& points, const char* end = "S") {
  std::string operators;
  for (const Point point : points)
    operators += number(point.x * points_per_mm) + " " + number(point.y * points_per_mm) +
                 (operators.empty() ? " m " : " l ");
  return operators + end + "\n";
}

/// A card with round corners, its lower left corner at the given place.
std::string card_at(double x, double y) {
  constexpr double w = 85.60, h = 53.98, r = 3.18, k = r * (1 - 0.5522847498);
  const auto at = [&](double dx, double dy) {
    return number((x + dx) * points_per_mm) + " " + number((y + dy) * points_per_mm) + " ";
  };
  return at(r, 0) + "m " + at(w - r, 0) + "l " + at(w - k, 0) + at(w, k) + at(w, r) + "c " +
         at(w, h - r) + "l " + at(w, h - k) + at(w - k, h) + at(w - r, h) + "c " + at(r, h) + "l " +
         at(k, h) + at(0, h - k) + at(0, h - r) + "c " + at(0, r) + "l " + at(0, k) + at(k, 0) +
         at(r, 0) + "c h S\n";
}

const std::string first_cut = path({{105, 150}, {106.5, 170}, {105, 190}});
const std::string outline = path({{90, 120}, {130, 120}, {130, 220}, {90, 220}}, "s");
const std::string bar_x = path({{20, 20}, {120, 20}});

/// The part's x runs up the page, its y to the left; its origin is at (110, 120).
const std::string lines_json = R"({"format": "shankline-solution/1",
  "templates": [{"part": "board", "foot": "left", "page": 1, "paper": [210.0, 297.0],
    "placement": {"origin": [110, 120], "along": [0, 1], "across": [-1, 0]},
    "lines": [
      {"kind": "edge", "closed": true, "points": [[0, 20], [0, -20], [100, -20], [100, 20]]},
      {"kind": "first_cut", "closed": false, "points": [[30, 5], [50, 3.5], [70, 5]]}]}],
  "proofs": [{"page": 1, "bars": [[[20, 20], [120, 20]], [[15, 60], [15, 160]]],
    "card": {"corner": [100, 30], "width": 85.6, "height": 53.98, "radius": 3.18}}]})";

std::string sheet() {
  return style(LineKind::scale_bar) + bar_x + path({{15, 60}, {15, 160}}) +
         path({{20, 18.5}, {20, 21.5}}) + path({{120, 18.5}, {120, 21.5}}) + style(LineKind::card) +
         card_at(100, 30) + style(LineKind::edge) + outline + style(LineKind::first_cut) +
         first_cut + "BT /F1 10 Tf 300 500 Td (Left) Tj ET\n";
}

class ReadBack : public testing::Test {
protected:
  std::vector<std::string> complaints(const std::string& pdf,
                                      const std::string& lines = lines_json) {
    return compare_with_paper(read_document(kept(pdf)), lines).complaints;
  }
  std::filesystem::path kept(const std::string& pdf) {
    std::filesystem::path file = scratch_.path() / "sheet.pdf";
    write_file(file, pdf);
    return file;
  }
  /// The harness must say this, and nothing else.
  void expect_only(const std::string& pdf, const std::string& what,
                   const std::string& lines = lines_json) {
    const std::vector<std::string> said = complaints(pdf, lines);
    ASSERT_EQ(said.size(), 1u) << testing::PrintToString(said);
    EXPECT_NE(said[0].find(what), std::string::npos) << said[0];
  }

  ScratchDirectory scratch_;
};

TEST(LineStyles, CanBeToldApartByWidthGreyAndDash) {
  for (const LineStyle& style : line_styles()) {
    PaperStroke stroke;
    stroke.width = style.width;
    stroke.grey = style.grey;
    for (const int length : style.dash)
      if (length != 0) stroke.dash.push_back(length);
    EXPECT_EQ(kind_of(stroke), style.kind) << style.name;
    // Half a step further on it is still this kind or none, never another.
    for (const double off : {-0.0015, 0.0015}) {
      PaperStroke near = stroke;
      near.width += off;
      EXPECT_EQ(kind_of(near), style.kind) << style.name;
    }
    stroke.width += 0.0035;
    EXPECT_EQ(kind_of(stroke), std::nullopt) << style.name;
  }
}

TEST(LineStyles, HaveNoKindForAColour) {
  PaperPage page = read_content("1.2756 w 1 0 0 RG 0 0 m 10 10 l S");
  ASSERT_EQ(page.strokes.size(), 1u);
  EXPECT_LT(page.strokes[0].grey, 0);
  EXPECT_EQ(kind_of(page.strokes[0]), std::nullopt);
  page = read_content("1.2756 w 0 0 0 RG 0 0 m 10 10 l S");
  EXPECT_EQ(kind_of(page.strokes.at(0)), LineKind::edge);
}

TEST(Content, AppliesTransformsAndRestores) {
  const PaperPage page =
      read_content("2 w q 2 0 0 2 72 0 cm [3 1] 2 d q 0 1 -1 0 0 0 cm 0 0 m 36 0 l S Q "
                   "0 0 m 36 36 l S Q 0 0 m 72 72 l S");
  ASSERT_EQ(page.strokes.size(), 3u);
  EXPECT_NEAR(page.strokes[0].points[1].x, 25.4, 1e-9);
  EXPECT_NEAR(page.strokes[0].points[1].y, 25.4, 1e-9);
  EXPECT_NEAR(page.strokes[0].width, 4 * 25.4 / 72, 1e-9);
  EXPECT_EQ(page.strokes[0].dash, (std::vector<double>{6, 2}));
  EXPECT_EQ(page.strokes[0].dash_start, 4);
  EXPECT_NEAR(page.strokes[1].points[0].x, 25.4, 1e-9);
  EXPECT_NEAR(page.strokes[1].points[1].x, 50.8, 1e-9);
  EXPECT_NEAR(page.strokes[2].points[1].x, 25.4, 1e-9);
  EXPECT_NEAR(page.strokes[2].width, 2 * 25.4 / 72, 1e-9);
  EXPECT_TRUE(page.strokes[2].dash.empty());
  EXPECT_TRUE(page.faults.empty());
}

TEST(Content, ReadsPathsOfEveryShape) {
  const PaperPage page =
      read_content("0 0 m 72 0 l 72 72 l h S 0 0 72 36 re s 0 0 m 9 9 l 5 5 m 8 8 l S "
                   "0 0 m 72 0 l 72 72 l 0 0 l S 1 g 0 0 m 72 0 l 72 72 l f "
                   ".5 g 0 0 10 10 re B 0 0 m 1 1 l n");
  ASSERT_EQ(page.strokes.size(), 6u);
  EXPECT_TRUE(page.strokes[0].closed);
  EXPECT_EQ(page.strokes[0].points.size(), 3u);
  EXPECT_TRUE(page.strokes[1].closed);
  EXPECT_EQ(page.strokes[1].points.size(), 4u);
  EXPECT_FALSE(page.strokes[2].closed);
  EXPECT_NEAR(page.strokes[3].points[0].x, 5 * 25.4 / 72, 1e-9);
  EXPECT_TRUE(page.strokes[4].closed) << "an end on the beginning closes a line";
  EXPECT_EQ(page.strokes[4].points.size(), 3u);
  ASSERT_EQ(page.fills.size(), 2u);
  EXPECT_EQ(page.fills[0].grey, 1);
  EXPECT_EQ(page.fills[1].grey, 0.5);
  EXPECT_EQ(page.fills[1].rings.at(0).size(), 4u);
}

TEST(Content, FlattensCurvesFinely) {
  // A quarter of a circle of one inch.
  const PaperPage page = read_content("72 0 m 72 39.7645 39.7645 72 0 72 c S");
  ASSERT_EQ(page.strokes.size(), 1u);
  const Polyline& points = page.strokes[0].points;
  ASSERT_GT(points.size(), 20u);
  for (std::size_t i = 1; i < points.size(); ++i)
    EXPECT_NEAR(
        std::hypot((points[i].x + points[i - 1].x) / 2, (points[i].y + points[i - 1].y) / 2), 25.4,
        25.4 * 2.8e-4 + 0.0005); // the curve's own error and the chord's
}

TEST(Content, PlacesText) {
  const PaperPage page =
      read_content("BT /F1 10 Tf 72 144 Td (A \\(b\\) \\\\ \\351) Tj 0 -72 Td <4869> Tj "
                   "ET 2 0 0 2 0 0 cm BT 0 1 -1 0 36 36 Tm [(a) -20 (b)] TJ ET");
  ASSERT_EQ(page.texts.size(), 3u);
  EXPECT_EQ(page.texts[0].bytes, "A (b) \\ \xe9");
  EXPECT_NEAR(page.texts[0].origin.x, 25.4, 1e-9);
  EXPECT_NEAR(page.texts[0].origin.y, 50.8, 1e-9);
  EXPECT_EQ(page.texts[1].bytes, "Hi");
  EXPECT_NEAR(page.texts[1].origin.y, 25.4, 1e-9);
  EXPECT_EQ(page.texts[2].bytes, "ab");
  EXPECT_NEAR(page.texts[2].origin.x, 25.4, 1e-9);
  EXPECT_NEAR(page.texts[2].size, 20, 1e-9);
}

TEST(Content, KeepsTheClip) {
  const PaperPage page = read_content("q 72 72 72 72 re W n 0 0 m 200 200 l S Q 0 0 m 9 9 l S");
  ASSERT_EQ(page.strokes.size(), 2u);
  ASSERT_TRUE(page.strokes[0].clip.has_value());
  EXPECT_NEAR(page.strokes[0].clip->high.x, 50.8, 1e-9);
  EXPECT_FALSE(page.strokes[1].clip.has_value());
}

TEST(Content, ObjectsToWhatIsLeftOpen) {
  EXPECT_EQ(read_content("q q Q").faults, std::vector<std::string>{"1 q without Q"});
  EXPECT_EQ(read_content("Q").faults, std::vector<std::string>{"Q without q"});
  EXPECT_EQ(read_content("0 0 m 1 1 l").faults, std::vector<std::string>{"a path is left open"});
  EXPECT_EQ(read_content("BT").faults, std::vector<std::string>{"BT without ET"});
}

TEST(Content, RefusesWhatItDoesNotMeasure) {
  for (const char* operators : {"/Im1 Do", "/Sh1 sh", "1 2 3", "1 2 3 l", ".(-*,( 0 m", "(open Tj",
                                "/P1 scn", "1e999 0 m", "0 0 l"})
    EXPECT_THROW(read_content(operators), std::runtime_error) << operators;
}

TEST_F(ReadBack, AcceptsATrueSheetAndCountsIt) {
  const std::filesystem::path pdf = kept(pdf_of(sheet()));
  const PaperReport report = compare_with_paper(read_document(pdf), lines_json);
  EXPECT_EQ(report.complaints, std::vector<std::string>{});
  EXPECT_EQ(report.templates, 1u);
  EXPECT_EQ(report.lines, 2u);
  EXPECT_EQ(report.points, 5u + 3u);
  EXPECT_EQ(report.bars, 2u);
  EXPECT_EQ(report.cards, 1u);
  expect_true_to_paper(pdf, lines_json);
}

TEST_F(ReadBack, AcceptsALineDrawnFromItsOtherEndAndSplitFiner) {
  const std::string back = path({{105, 190}, {105.75, 180}, {106.5, 170}, {105, 150}});
  EXPECT_EQ(complaints(pdf_of(replaced(sheet(), first_cut, back))), std::vector<std::string>{});
}

TEST_F(ReadBack, ObjectsToALineMovedByTwoHundredths) {
  const std::string moved = path({{105.02, 150}, {106.52, 170}, {105.02, 190}});
  expect_only(pdf_of(replaced(sheet(), first_cut, moved)),
              "left board, line 2, first_cut from (105.000, 150.000): the nearest stroke is 0.020");
}

TEST_F(ReadBack, AcceptsALineMovedByLessThanAHundredth) {
  const std::string moved = path({{105.008, 150}, {106.508, 170}, {105.008, 190}});
  EXPECT_EQ(complaints(pdf_of(replaced(sheet(), first_cut, moved))), std::vector<std::string>{});
}

TEST_F(ReadBack, ObjectsToAMissingLine) {
  expect_only(pdf_of(replaced(sheet(), first_cut, "")), "no such stroke is left on the page");
}

TEST_F(ReadBack, ObjectsToOneStrokeForTwoLines) {
  const std::string twice =
      replaced(lines_json, R"({"kind": "first_cut")",
               R"({"kind": "first_cut", "closed": false, "points": [[30, 5], [50, 3.5], [70, 5]]},
                  {"kind": "first_cut")");
  expect_only(pdf_of(sheet()), "no such stroke is left on the page", twice);
}

TEST_F(ReadBack, ObjectsToALineOfAnotherKind) {
  const std::string other = style(LineKind::stop) + first_cut;
  expect_only(pdf_of(replaced(sheet(), first_cut, other)), "no such stroke is left on the page");
}

TEST_F(ReadBack, ObjectsToALineCutShortOrWithADent) {
  const std::string short_of = path({{105, 150}, {106.5, 170}, {105.0075, 189.9}});
  expect_only(pdf_of(replaced(sheet(), first_cut, short_of)), "the nearest stroke is 0.100 mm off");
  const std::string dent = path({{105, 150}, {106.5, 170}, {105.8, 180}, {105, 190}});
  expect_only(pdf_of(replaced(sheet(), first_cut, dent)), "the nearest stroke is 0.050 mm off");
}

TEST_F(ReadBack, ObjectsToAnOutlineLeftOpen) {
  const std::string open = path({{90, 120}, {130, 120}, {130, 220}, {90, 220}});
  expect_only(pdf_of(replaced(sheet(), outline, open)), "no such stroke is left on the page");
}

TEST_F(ReadBack, ObjectsToAPageShrunkTo97Percent) {
  const std::vector<std::string> said =
      complaints(pdf_of("q .97 0 0 .97 8.93 12.63 cm " + sheet() + "Q"));
  const auto one_says = [&said](const char* what) {
    return std::ranges::any_of(
        said, [what](const std::string& line) { return line.find(what) != std::string::npos; });
  };
  EXPECT_TRUE(one_says("first_cut from"));
  EXPECT_TRUE(one_says("the bar from (20.000, 20.000)"));
  EXPECT_TRUE(one_says("the card's outline"));
  EXPECT_TRUE(one_says("a stroke of no kind"));
}

TEST_F(ReadBack, ObjectsToAShrunkPageThatKeepsItsLineWidths) {
  // Points are shrunk and widths are not, as an editor might do it.
  std::string small = sheet();
  small = replaced(small, bar_x, path({{20, 20}, {117, 20}}));
  expect_only(pdf_of(small), "the bar from (20.000, 20.000): the nearest stroke is 3.000 mm off");
}

TEST_F(ReadBack, ObjectsToAStrokeOfNoKind) {
  expect_only(pdf_of(sheet() + "0.9 w 100 100 m 200 200 l S"), "a stroke of no kind");
}

TEST_F(ReadBack, ObjectsToACardOfAnotherShape) {
  expect_only(pdf_of(replaced(sheet(), card_at(100, 30), card_at(100.02, 30))),
              "the card's outline is 0.020 mm off");
  expect_only(pdf_of(replaced(sheet(), card_at(100, 30),
                              path({{100, 30}, {185.6, 30}, {185.6, 83.98}, {100, 83.98}}, "s"))),
              "the card's outline is 1.317 mm off");
}

TEST_F(ReadBack, ObjectsToTheWrongPaper) {
  expect_only(pdf_of(sheet(), 210.01), "the page is 210.010 x 297.000 mm, the paper 210.000");
}

TEST_F(ReadBack, ObjectsToAnythingInTheMargin) {
  const std::string line = style(LineKind::frame) + path({{7.9, 100}, {50, 100}});
  expect_only(pdf_of(sheet() + line), "a stroke at (7.900, 100.000) lies within 8.0 mm");
  expect_only(pdf_of(sheet() + "BT /F1 8 Tf 100 20 Td (low) Tj ET"), "text at (35.278, 7.056)");
  expect_only(pdf_of(sheet() + "0 g 5 100 50 50 re f"), "a fill at");
  EXPECT_TRUE(complaints(pdf_of(sheet() + "q 30 30 200 200 re W n " + line + "Q")).empty())
      << "what is clipped away is not printed";
}

TEST_F(ReadBack, ObjectsToWordsThatRunOffThePaper) {
  const std::filesystem::path pdf =
      kept(pdf_of(sheet() + "BT /F1 10 Tf 540 500 Td (handkerchief) Tj ET"));
  EXPECT_NONFATAL_FAILURE(expect_true_to_paper(pdf, lines_json), "'handkerchief' runs");
}

TEST_F(ReadBack, ObjectsToATemplateWithoutProof) {
  expect_only(pdf_of(sheet()), "a template's page has no proof of its scale",
              lines_json.substr(0, lines_json.find("\"proofs\"")) + "\"proofs\": []}");
  expect_only(pdf_of(sheet()), "no bar along y",
              replaced(lines_json, ", [[15, 60], [15, 160]]", ""));
}

TEST_F(ReadBack, ObjectsToABarThatIsNotAHundred) {
  const std::string text = replaced(sheet(), bar_x, path({{20, 20}, {119.98, 20}}));
  expect_only(pdf_of(text), "is said to be 99.980 mm long",
              replaced(lines_json, "[120, 20]", "[119.98, 20]"));
}

TEST_F(ReadBack, ObjectsToHavingComparedNothing) {
  expect_only(pdf_of(sheet()), "only 0 templates were compared",
              R"({"templates": [], "proofs": []})");
  const std::size_t from = lines_json.find(",\n      {\"kind\": \"first_cut\"");
  const std::size_t to = lines_json.find("]}],\n  \"proofs\"");
  expect_only(pdf_of(sheet()), "only 1 lines were compared",
              lines_json.substr(0, from) + lines_json.substr(to));
}

TEST_F(ReadBack, ObjectsToAStretchedPlacement) {
  const std::vector<std::string> said = complaints(
      pdf_of(sheet()), replaced(lines_json, "\"along\": [0, 1]", "\"along\": [0, 1.02]"));
  ASSERT_FALSE(said.empty());
  EXPECT_NE(said[0].find("stretches"), std::string::npos);
}

TEST_F(ReadBack, ObjectsToADamagedFileAndToScaledPrinting) {
  expect_only(replaced(pdf_of(sheet()), "startxref\n", "startxref\n1"), "WARNING");
  expect_only(replaced(pdf_of(sheet()), "/PrintScaling /None", "/PrintScaling /AppD"),
              "does not ask for unscaled printing");
}

TEST_F(ReadBack, FailsTheRunningTest) {
  const std::filesystem::path pdf = kept(pdf_of(replaced(sheet(), first_cut, "")));
  EXPECT_NONFATAL_FAILURE(expect_true_to_paper(pdf, lines_json), "no such stroke is left");
  EXPECT_NONFATAL_FAILURE(expect_true_to_paper(scratch_.path() / "none.pdf", lines_json),
                          "none.pdf");
}

TEST_F(ReadBack, MeasuresBarsInPixelsOfBothRenderers) {
  const std::filesystem::path pdf = kept(pdf_of(sheet()));
  for (const Renderer renderer : {Renderer::poppler, Renderer::mupdf}) {
    const std::vector<RasterBar> bars = raster_bars(pdf, lines_json, 1, 600, renderer);
    ASSERT_EQ(bars.size(), 2u);
    for (const RasterBar& bar : bars)
      EXPECT_NEAR(bar.length, 100, 2 * bar.pixel);
    expect_bars_in_pixels(pdf, lines_json, 600, renderer);
  }
}

TEST_F(ReadBack, ObjectsToBarsOfAnotherLengthInPixels) {
  const std::filesystem::path pdf =
      kept(pdf_of(replaced(sheet(), path({{15, 60}, {15, 160}}), path({{15, 60}, {15, 159.8}}))));
  const std::vector<RasterBar> bars = raster_bars(pdf, lines_json, 1);
  ASSERT_EQ(bars.size(), 2u);
  EXPECT_NEAR(bars[1].length, 99.8, 2 * bars[1].pixel);
  EXPECT_NONFATAL_FAILURE(expect_bars_in_pixels(pdf, lines_json), "the bar from (15, 60)");
  const std::filesystem::path without = kept(pdf_of(replaced(sheet(), bar_x, "")));
  EXPECT_EQ(raster_bars(without, lines_json, 1).at(0).length, 0);
}

TEST_F(ReadBack, CopiesText) {
  const std::filesystem::path pdf =
      kept(pdf_of(sheet() + "BT /F1 10 Tf 100 700 Td (5 < 6 & \"so\") Tj ET"));
  EXPECT_NE(page_text(pdf, 1).find("Left"), std::string::npos);
  const std::vector<Word> words = page_words(pdf, 1);
  ASSERT_EQ(words.size(), 6u);
  EXPECT_EQ(words[0].text + words[1].text + words[2].text + words[3].text + words[4].text,
            "5<6&\"so\"");
  EXPECT_NEAR(words[0].box.low.x, 100 / points_per_mm, 0.01);
  EXPECT_LT(words[0].box.low.y, 700 / points_per_mm);
  EXPECT_GT(words[0].box.high.y, 700 / points_per_mm);
}

TEST(PolylineDistance, LooksBothWaysAndAtTheEnds) {
  const Polyline straight{{0, 0}, {10, 0}};
  EXPECT_EQ(apart(straight, {{0, 0}, {5, 0}, {10, 0}}).distance, 0);
  EXPECT_EQ(apart(straight, {{0, 0}, {5, 3}, {10, 0}}).distance, 3);
  EXPECT_EQ(apart({{0, 0}, {5, 3}, {10, 0}}, straight).distance, 3);
  EXPECT_EQ(apart(straight, {{0, 0}, {4, 0}}).distance, 6);
  EXPECT_EQ(ends_apart(straight, {{10, 0}, {0, 0}}), 0);
  EXPECT_EQ(ends_apart(straight, {{0, 0}, {5, 3}, {4, 0}}), 6);
  const double nan = std::nan("");
  EXPECT_FALSE(apart(straight, {{0, 0}, {nan, 0}, {10, 0}}).distance <= 1e9);
}

} // namespace
} // namespace shankline::tests::readback_test
