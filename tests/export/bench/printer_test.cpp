// A printer that is not true, its calibration sheet, and what comes out of it afterwards.
#include "export/bench/printer_sheet.hpp"
#include "export/drawing/corrected_drawing.hpp"
#include "export/formats/pdf_writer.hpp"
#include "export/lettering/typeface.hpp"
#include "tests/support/pattern.hpp"
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/readback.hpp"
#include "tests/support/scratch_directory.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <sstream>

namespace shankline::tests::printer_test {
namespace {

double apart(const Point& a, const Point& b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

/// Scales, skews, turns a little and shifts, as rollers do; a page on its side goes in upright.
struct Printer {
  PageCorrection does;
  double turn = 0.004;
  Point shift{1.3, -0.8};

  Point print(const Point& drawn, const tests::PaperBox& page) const {
    const bool lying = page.high.x > page.high.y;
    const Point p = lying ? Point{-drawn.y, drawn.x} : drawn;
    const Point q = does.printed(p);
    return {q.x * std::cos(turn) - q.y * std::sin(turn) + shift.x,
            q.x * std::sin(turn) + q.y * std::cos(turn) + shift.y};
  }
};

/// The four lengths on a print of the sheet, its crosses found by their ink: every cross is two
/// strokes of 8 mm about one point.
PrintedLengths measured_on(const tests::PaperPage& page, const Printer& printer) {
  std::vector<Point> crosses;
  for (const tests::PaperStroke& stroke : page.strokes)
    if (stroke.points.size() == 2 && stroke.points[0].y == stroke.points[1].y &&
        std::abs(apart(stroke.points[0], stroke.points[1]) - 8) < 0.01)
      crosses.push_back(printer.print(
          {(stroke.points[0].x + stroke.points[1].x) / 2, stroke.points[0].y}, page.media));
  if (crosses.size() != 4) throw std::runtime_error("not four crosses");
  return {apart(crosses[0], crosses[1]), apart(crosses[0], crosses[3]),
          apart(crosses[0], crosses[2]), apart(crosses[1], crosses[3])};
}

std::string typed(const PrintedLengths& lengths) {
  std::ostringstream words;
  words.precision(8);
  words << lengths.across << ',' << lengths.up << ',' << lengths.rising << ',' << lengths.falling;
  return words.str();
}

/// Every point of every line against points of the true page, by the distances between them, which
/// neither turning nor shifting changes.
void expect_prints_true(const tests::PaperDocument& corrected, const tests::PaperDocument& wanted,
                        const Printer& printer, double within) {
  ASSERT_EQ(corrected.pages.size(), wanted.pages.size());
  std::size_t compared = 0;
  double worst = 0;
  for (std::size_t i = 0; i < wanted.pages.size(); ++i) {
    const tests::PaperPage& page = corrected.pages[i];
    ASSERT_EQ(page.strokes.size(), wanted.pages[i].strokes.size());
    std::vector<Point> on_paper;
    std::vector<Point> meant;
    for (std::size_t s = 0; s < page.strokes.size(); ++s) {
      ASSERT_EQ(page.strokes[s].points.size(), wanted.pages[i].strokes[s].points.size());
      for (const Point& p : page.strokes[s].points)
        on_paper.push_back(printer.print(p, page.media));
      for (const Point& p : wanted.pages[i].strokes[s].points)
        meant.push_back(p);
    }
    for (const std::size_t anchor : {std::size_t{0}, meant.size() / 3, meant.size() - 1})
      for (std::size_t p = 0; p < meant.size(); ++p, ++compared)
        worst = std::max(
            worst, std::abs(apart(on_paper[anchor], on_paper[p]) - apart(meant[anchor], meant[p])));
  }
  EXPECT_LT(worst, within);
  EXPECT_GT(compared, 5000u);
}

class PrinterSets : public testing::TestWithParam<PageCorrection> {};

TEST_P(PrinterSets, WhatIsCutRightThroughTheProgram) {
  const Printer printer{GetParam()};
  const tests::ScratchDirectory scratch;
  tests::Surroundings here;
  here.directory = scratch.path();
  here.environment = {{"XDG_CONFIG_HOME", (scratch.path() / "config").string()}};
  const auto program = [&](std::vector<std::string> words) {
    words.insert(words.begin(), tests::places::program);
    tests::Finished finished = tests::run(words, here);
    EXPECT_EQ(finished.exit_code, 0) << finished.out << finished.err;
    return finished;
  };
  program({"printer", "-o", "sheet.pdf"});
  const tests::PaperDocument sheet = tests::read_document(scratch.path() / "sheet.pdf");
  ASSERT_EQ(sheet.pages.size(), 1u);
  const PrintedLengths lengths = measured_on(sheet.pages[0], printer);
  EXPECT_GT(std::abs(lengths.across - 165) + std::abs(lengths.up - 220), 1.0) << "a false printer";
  program({"printer", "desk", "--measured", typed(lengths)});
  const std::string order = tests::places::samples + "/sides_lowered.yaml";
  program({"cut", order, "-q", "-o", "plain.pdf"});
  program({"cut", order, "-q", "-o", "desk.pdf", "--printer", "desk"});
  const tests::PaperDocument plain = tests::read_document(scratch.path() / "plain.pdf");
  const tests::PaperDocument desk = tests::read_document(scratch.path() / "desk.pdf");
  EXPECT_EQ(desk.check, "");
  expect_prints_true(desk, plain, printer, 0.01);
  for (std::size_t page = 1; page <= desk.pages.size(); ++page)
    EXPECT_TRUE(Pattern("drawn for printer desk \\(x [01]\\.[0-9]{3}, y [01]\\.[0-9]{3}\\)")
                    .is_in(tests::page_text(scratch.path() / "desk.pdf", page)))
        << "page " << page;
}

INSTANTIATE_TEST_SUITE_P(Printers, PrinterSets,
                         testing::Values(PageCorrection{0.97, 0.97, 0},
                                         PageCorrection{0.97, 0.985, 0.006},
                                         PageCorrection{1.013, 1.011, -0.004},
                                         PageCorrection{0.995, 1.004, 0.012}));

/// A grey picture of a page as a printer of these scales would make it, 600 pixels to the inch.
class Print {
public:
  Print(const std::filesystem::path& pdf, double x_scale, double y_scale) {
    const tests::Finished drawn =
        tests::run({"pdftoppm", "-gray", "-rx", std::to_string(600 * x_scale), "-ry",
                    std::to_string(600 * y_scale), pdf.string()});
    std::istringstream head(drawn.out);
    std::string magic;
    int most = 0;
    head >> magic >> width_ >> height_ >> most;
    head.get();
    if (magic != "P5") throw std::runtime_error("no picture: " + drawn.err);
    pixels_ = drawn.out.substr(static_cast<std::size_t>(head.tellg()));
  }

  /// The middle of the cross near there, by the column and the row with the most ink; mm on paper
  /// from the upper left corner.
  Point cross_near(const Point& mm) const {
    const int x = static_cast<int>(mm.x / pixel);
    const int y = static_cast<int>(mm.y / pixel);
    const int reach = static_cast<int>(4.5 / pixel);
    double best_x = 0;
    double best_y = 0;
    std::vector<double> columns;
    std::vector<double> rows;
    for (int d = -reach; d <= reach; ++d) {
      double column = 0;
      double row = 0;
      for (int e = -reach; e <= reach; ++e) {
        column += ink(x + d, y + e);
        row += ink(x + e, y + d);
      }
      columns.push_back(column);
      rows.push_back(row);
      best_x = std::max(best_x, column);
      best_y = std::max(best_y, row);
    }
    const auto centre = [&](const std::vector<double>& sums, double best) {
      double weight = 0;
      double moment = 0;
      for (std::size_t i = 0; i < sums.size(); ++i)
        if (sums[i] > 0.5 * best) {
          weight += sums[i];
          moment += sums[i] * (static_cast<double>(i) - reach + 0.5);
        }
      return moment / weight;
    };
    return {(x + centre(columns, best_x)) * pixel, (y + centre(rows, best_y)) * pixel};
  }

private:
  static constexpr double pixel = 25.4 / 600;

  double ink(int x, int y) const {
    if (x < 0 || y < 0 || x >= width_ || y >= height_) return 0;
    const auto at = static_cast<std::size_t>(y) * static_cast<std::size_t>(width_) +
                    static_cast<std::size_t>(x);
    return 255 - static_cast<unsigned char>(pixels_[at]);
  }

  int width_ = 0;
  int height_ = 0;
  std::string pixels_;
};

/// `where` says where on the print, from its upper left corner, a point of the sheet is looked for.
template <class Where>
PrintedLengths measured_in_pixels(const Print& print, const Paper& paper, const Where& where) {
  const CalibrationFrame frame = calibration_frame(paper);
  const double left = (paper.width - frame.width) / 2;
  const double bottom = paper.height - 16;
  const auto cross = [&](double x, double y) { return print.cross_near(where({x, y})); };
  const Point a = cross(left, bottom);
  const Point b = cross(left + frame.width, bottom);
  const Point c = cross(left + frame.width, bottom - frame.height);
  const Point d = cross(left, bottom - frame.height);
  return {apart(a, b), apart(a, d), apart(a, c), apart(b, d)};
}

TEST(PrinterSheet, MeasuredInPixelsAndSetRight) {
  const tests::ScratchDirectory scratch;
  const Paper a4 = papers().front();
  const Drawing sheet = printer_sheet(a4);
  const auto pdf = scratch.path() / "sheet.pdf";
  tests::write_file(pdf, pdf_bytes(sheet));
  const double x = 0.97;
  const double y = 0.976;
  const PrintedLengths false_ones = measured_in_pixels(Print(pdf, x, y), a4, [&](const Point& p) {
    return Point{p.x * x, p.y * y};
  });
  EXPECT_NEAR(false_ones.across, 165 * x, 0.03);
  EXPECT_NEAR(false_ones.up, 220 * y, 0.03);
  const Calibration found = calibrate(calibration_frame(a4), false_ones);
  ASSERT_TRUE(found.findings.empty());

  const auto again = scratch.path() / "again.pdf";
  tests::write_file(again, pdf_bytes(corrected_drawing(sheet, {"desk", found.correction})));
  const PrintedLengths true_ones = measured_in_pixels(Print(again, x, y), a4, [&](const Point& p) {
    return Point{p.x + a4.width / 2 * (x - 1), p.y + a4.height / 2 * (y - 1)};
  });
  EXPECT_NEAR(true_ones.across, 165, 0.05);
  EXPECT_NEAR(true_ones.up, 220, 0.05);
  EXPECT_NEAR(true_ones.rising, 275, 0.05);
  EXPECT_NEAR(true_ones.falling, 275, 0.05);
}

TEST(PrinterSheet, FitsEveryPaper) {
  const Typeface typeface;
  for (const Paper& paper : papers()) {
    const CalibrationFrame frame = calibration_frame(paper);
    EXPECT_GE(frame.width, 90) << paper.name;
    EXPECT_LE(frame.diagonal() * (1 + most_scale_error), 300) << "a rule reaches";
    EXPECT_EQ(frame.diagonal(), std::round(frame.diagonal())) << paper.name;
    EXPECT_NO_THROW(pdf_bytes(printer_sheet(paper))) << paper.name;
  }
}

TEST(PrinterSheet, NamesItsPaperInACommandThatIsTaken) {
  EXPECT_EQ(measured_command(papers().front()), "shankline printer NAME --measured AB,AD,AC,BD");
  for (const char* name : {"letter", "a3", "roll:914", "roll:250.5"}) {
    const Paper paper = *read_paper(name);
    const std::string command = measured_command(paper);
    const std::string end = std::string(" --paper ") + name;
    EXPECT_TRUE(command.ends_with(end)) << command;
    const Drawing sheet = printer_sheet(paper);
    EXPECT_TRUE(std::any_of(sheet.pages[0].marks.begin(), sheet.pages[0].marks.end(),
                            [&](const Mark& mark) {
                              const auto* text = std::get_if<Text>(&mark);
                              return text && text->words == command;
                            }))
        << name;
    EXPECT_NO_THROW(pdf_bytes(sheet)) << name;
  }
}

TEST(CorrectedDrawing, RefusesWhatWouldLieOffThePage) {
  Drawing drawing;
  Page page;
  page.paper = {"a3", 297, 420};
  page.marks.emplace_back(Stroke{LineKind::edge, {{20, 9}, {100, 411}}, false});
  drawing.pages.push_back(page);
  EXPECT_NO_THROW(corrected_drawing(drawing, {"desk", {0.98, 0.98, 0}}));
  EXPECT_THROW(corrected_drawing(drawing, {"desk", {0.95, 0.95, 0}}), OffThePage);
}

} // namespace
} // namespace shankline::tests::printer_test
