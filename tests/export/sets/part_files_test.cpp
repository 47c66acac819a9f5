// SVG and DXF of every part, read back by readers of ours, by ezdxf, and from the pixels of librsvg
// and, in the long run, of Chromium.
#include "export/sets/part_files.hpp"

#include "export/formats/dxf_writer.hpp"
#include "export/formats/svg_writer.hpp"
#include "tests/support/part_file_readers.hpp"
#include "tests/support/places.hpp"
#include "tests/support/polyline_distance.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <optional>
#include <sstream>

namespace shankline::tests::part_files_test {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

constexpr double within = 0.001;

struct Extent {
  Point low{1e9, 1e9};
  Point high{-1e9, -1e9};
  void take(const Polyline& points) {
    for (const Point& p : points) {
      low = {std::min(low.x, p.x), std::min(low.y, p.y)};
      high = {std::max(high.x, p.x), std::max(high.y, p.y)};
    }
  }
};

/// A template as --lines told it, on its page.
std::vector<PartLine> solved_lines(const json& part) {
  const auto pair = [](const json& two) { return Point{two.at(0), two.at(1)}; };
  const json& placement = part.at("placement");
  const Placement place{pair(placement.at("origin")), pair(placement.at("along")),
                        pair(placement.at("across"))};
  std::vector<PartLine> lines;
  for (const json& line : part.at("lines")) {
    lines.push_back({line.at("kind"), {}, line.at("closed")});
    for (const json& p : line.at("points"))
      lines.back().points.push_back(place(pair(p)));
  }
  return lines;
}

/// The files of a part leave out the grey bands: a plotter would follow each of their lines.
std::vector<PartLine> without_shades(std::vector<PartLine> lines) {
  std::erase_if(lines, [](const PartLine& line) {
    return line.layer == "band" || line.layer == "stop_band";
  });
  return lines;
}

/// `one` moved so that its lower left corner lies where that of `other` does.
void move_onto(std::vector<PartLine>& one, const std::vector<PartLine>& other) {
  Extent from;
  Extent to;
  for (const PartLine& line : one)
    from.take(line.points);
  for (const PartLine& line : other)
    to.take(line.points);
  for (PartLine& line : one)
    for (Point& p : line.points)
      p = {p.x + to.low.x - from.low.x, p.y + to.low.y - from.low.y};
}

bool is_piece(const PartLine& line) {
  return line.layer == "kept_piece" || line.layer == "removed_piece";
}

Polyline around(const PartLine& line) {
  Polyline points = line.points;
  if (line.closed) points.push_back(points.front());
  return points;
}

bool is_dashed(const std::string& layer) {
  const auto styles = line_styles();
  const auto style = std::find_if(styles.begin(), styles.end(),
                                  [&](const LineStyle& row) { return row.name == layer; });
  return style != styles.end() && style->dash[0] != 0;
}

double length_along(const PartLine& line) {
  const Polyline points = around(line);
  double length = 0;
  for (std::size_t i = 1; i < points.size(); ++i)
    length += std::hypot(points[i].x - points[i - 1].x, points[i].y - points[i - 1].y);
  return length;
}

double off_line(const Polyline& points, const PartLine& line) {
  const Polyline on = around(line);
  double worst = 0;
  for (const Point& p : points) {
    double nearest = 1e9;
    for (std::size_t i = 1; i < on.size(); ++i)
      nearest = std::min(nearest, distance_to_segment(p, on[i - 1], on[i]));
    worst = std::max(worst, nearest);
  }
  return worst;
}

/// Takes the dashes of a line out of `drawn`: they lie on it, from its very beginning to its very
/// end, with gaps between them.
void expect_dashes(const PartLine& line, std::vector<PartLine>& drawn) {
  std::vector<PartLine> dashes;
  for (auto other = drawn.begin(); other != drawn.end();)
    if (other->layer == line.layer && off_line(other->points, line) <= within) {
      dashes.push_back(*other);
      other = drawn.erase(other);
    } else {
      ++other;
    }
  ASSERT_FALSE(dashes.empty()) << line.layer << " is not in the file";
  const Polyline whole = around(line);
  EXPECT_LE(off_line({whole.front()}, dashes.front()), within) << line.layer;
  EXPECT_LE(off_line({whole.back()}, dashes.back()), within) << line.layer;
  double drawn_length = 0;
  for (const PartLine& dash : dashes) {
    EXPECT_FALSE(dash.closed);
    drawn_length += length_along(dash);
  }
  EXPECT_TRUE(dashes.size() == 1 || drawn_length < 0.9 * length_along(line)) << line.layer;
  EXPECT_GT(drawn_length, 0.2 * length_along(line)) << line.layer;
}

/// Line by line: `solved` is in the solver's order, the file in that of the table.
void expect_same_lines(std::vector<PartLine> solved, const ReadPart& file) {
  const bool tried_first = std::any_of(
      solved.begin(), solved.end(), [](const PartLine& line) { return line.layer == "first_cut"; });
  std::vector<PartLine> drawn;
  std::copy_if(file.lines.begin(), file.lines.end(), std::back_inserter(drawn),
               [](const PartLine& line) { return !is_piece(line); });
  ASSERT_GE(drawn.size(), solved.size());
  move_onto(solved, drawn);
  for (const PartLine& line : solved) {
    // A part without a first cut is cut at the final one, in one go.
    if (is_dashed(line.layer) && (tried_first || line.layer != "final_cut")) {
      expect_dashes(line, drawn);
      continue;
    }
    const auto same = std::find_if(drawn.begin(), drawn.end(), [&](const PartLine& other) {
      return other.layer == line.layer && other.closed == line.closed &&
             other.points.size() == line.points.size() &&
             apart(around(line), around(other)).distance <= within &&
             (line.closed || ends_apart(line.points, other.points) <= within);
    });
    EXPECT_NE(same, drawn.end()) << line.layer << " is not in the file";
    if (same != drawn.end()) drawn.erase(same);
  }
  EXPECT_TRUE(drawn.empty()) << drawn.size() << " more, one of them of " << drawn.front().layer;
}

std::string file_stem(const json& part) {
  std::string name =
      "sheets-" + part.at("part").get<std::string>() + "-" + part.at("foot").get<std::string>();
  std::replace(name.begin(), name.end(), '_', '-');
  return name;
}

std::vector<std::string> sample_names() {
  std::vector<std::string> names;
  for (const fs::directory_entry& entry : fs::directory_iterator(places::samples))
    if (entry.path().extension() == ".yaml") names.push_back(entry.path().stem().string());
  std::sort(names.begin(), names.end());
  return names;
}

/// Every kind of line has its name on the layer of names, near one of its lines.
void expect_names(const std::vector<PartLine>& solved, const ReadPart& file) {
  const bool tried_first = std::any_of(
      solved.begin(), solved.end(), [](const PartLine& line) { return line.layer == "first_cut"; });
  for (const LineStyle& style : line_styles()) {
    const auto of_kind = [&](const PartLine& line) { return line.layer == style.name; };
    const auto lines = std::count_if(solved.begin(), solved.end(), of_kind);
    if (lines == 0) continue;
    const bool only_cut = style.kind == LineKind::final_cut && !tried_first;
    const std::string words = only_cut ? "cut here" : std::string(style.words);
    std::size_t named = 0;
    for (const PartText& text : file.texts) {
      if (text.layer != "line_names" || text.words != words) continue;
      ++named;
      double nearest = 1e9;
      for (const PartLine& line : file.lines)
        if (of_kind(line)) nearest = std::min(nearest, off_line({text.at}, line));
      // A short dash may end before the words do.
      EXPECT_LE(nearest, 6) << words;
    }
    EXPECT_GE(named, 1u) << words;
    if (style.kind != LineKind::ruler && style.kind != LineKind::thinned_fill) {
      EXPECT_EQ(named, static_cast<std::size_t>(lines)) << words;
    }
  }
}

class SamplePartFiles : public testing::TestWithParam<std::string> {
protected:
  Finished cut(const fs::path& directory, const Surroundings& surroundings = {}) const {
    return run({places::program, "cut", places::samples + "/" + GetParam() + ".yaml", "--svg",
                "--dxf", "--lines", "-o", (directory / "sheets.pdf").string()},
               surroundings);
  }

  ScratchDirectory scratch_;
};

TEST_P(SamplePartFiles, HoldTheSolvedLines) {
  const Finished finished = cut(scratch_.path());
  ASSERT_EQ(finished.exit_code, 0) << finished.err;
  // A3 takes every part in one piece; the part files hold whole parts on any paper.
  const Finished whole =
      run({places::program, "check", places::samples + "/" + GetParam() + ".yaml", "--paper", "a3",
           "--lines"});
  ASSERT_EQ(whole.exit_code, 0) << whole.err;
  const json solution = json::parse(whole.out);
  for (const json& part : solution.at("templates")) {
    EXPECT_FALSE(part.contains("tile"));
    const std::string stem = file_stem(part);
    SCOPED_TRACE(stem);
    const ReadPart svg = read_svg(read_file(scratch_.path() / (stem + ".svg")));
    const ReadPart dxf = read_dxf(read_file(scratch_.path() / (stem + ".dxf")));
    const std::vector<PartLine> solved = without_shades(solved_lines(part));
    expect_same_lines(solved, svg);
    expect_same_lines(solved, dxf);
    EXPECT_EQ(svg.layers, dxf.layers);
    EXPECT_EQ(svg.width, dxf.width);
    EXPECT_EQ(svg.height, dxf.height);
    EXPECT_EQ(svg.texts.size(), dxf.texts.size());
    EXPECT_GE(svg.texts.size(), 4u);
    expect_names(solved, svg);
    expect_names(solved, dxf);
    for (const PartLine& line : svg.lines)
      for (const Point& p : line.points)
        EXPECT_TRUE(p.x > 5 && p.y > 5 && p.x < svg.width - 5 && p.y < svg.height - 5);
  }
  // A PDF, and two files a template, nothing else.
  const auto files = std::distance(fs::directory_iterator(scratch_.path()), {});
  EXPECT_EQ(static_cast<std::size_t>(files), 1 + 2 * solution.at("templates").size());
  EXPECT_GE(solution.at("templates").size(), 1u);
}

TEST_P(SamplePartFiles, HoldThePiecesOfAMeasuredBoardClosed) {
  const Finished finished = cut(scratch_.path());
  const json solution = json::parse(finished.out);
  for (const json& part : solution.at("templates")) {
    const ReadPart svg = read_svg(read_file(scratch_.path() / (file_stem(part) + ".svg")));
    std::vector<const PartLine*> pieces;
    for (const PartLine& line : svg.lines)
      if (is_piece(line)) pieces.push_back(&line);
    const json& foot = solution.at("feet").at(part.at("foot").get<std::string>());
    std::vector<std::string> known; // of a board in the shoe only what is cut away
    if (part.at("part") == "board")
      for (const char* name : {"removed", "kept"})
        if (foot.at("pieces").at(name).is_object()) known.emplace_back(name);
    ASSERT_EQ(pieces.size(), known.size());
    for (std::size_t i = 0; i < known.size(); ++i) {
      EXPECT_EQ(pieces[i]->layer, known[i] + "_piece");
      EXPECT_TRUE(pieces[i]->closed);
      // The pieces are those of the first cut: what comes off after trying still stays.
      const auto area = [&](const json& piece) { return piece.at("area").get<double>(); };
      const json& at_final = foot.at("pieces");
      const double off = area(at_final.at("first").at("removed"));
      const double wanted = known[i] == "removed"
                                ? off
                                : area(at_final.at("kept")) + area(at_final.at("removed")) - off;
      EXPECT_NEAR(std::abs(signed_area(pieces[i]->points)), wanted, 0.5);
    }
    if (known.size() < 2) continue;
    // The heel end is cut away, and it lies below.
    Extent removed;
    removed.take(pieces[0]->points);
    Extent kept;
    kept.take(pieces[1]->points);
    EXPECT_LT(removed.low.y, kept.low.y);
    EXPECT_LT(removed.high.y, kept.high.y);
  }
}

TEST_P(SamplePartFiles, HaveTheSameBytesEverywhere) {
  const ScratchDirectory other;
  ASSERT_EQ(cut(scratch_.path()).exit_code, 0);
  ASSERT_EQ(
      cut(other.path(),
          {"", {}, {{"TZ", "Pacific/Auckland"}, {"LC_ALL", "C.UTF-8"}}, std::chrono::seconds(60)})
          .exit_code,
      0);
  for (const fs::directory_entry& entry : fs::directory_iterator(scratch_.path()))
    EXPECT_EQ(read_file(entry.path()), read_file(other.path() / entry.path().filename()));
}

INSTANTIATE_TEST_SUITE_P(Samples, SamplePartFiles, testing::ValuesIn(sample_names()),
                         [](const auto& named) { return named.param; });

/// Returns the places where thick solid lines cross a column or a row.
std::vector<double> crossings(const ReadPart& part, bool column, double at) {
  std::vector<double> places;
  for (const PartLine& line : part.lines) {
    if (line.layer != "first_cut" && line.layer != "edge") continue;
    const Polyline points = around(line);
    for (std::size_t i = 1; i < points.size(); ++i) {
      Point a = points[i - 1];
      Point b = points[i];
      if (!column) a = {a.y, a.x}, b = {b.y, b.x};
      if ((a.x > at) == (b.x > at)) continue;
      places.push_back(a.y + (at - a.x) * (b.y - a.y) / (b.x - a.x));
    }
  }
  return places;
}

/// How far the nearest dark run lies from where a line should be, the worst of all.
void expect_lines_in_pixels(const ReadPart& part, const TenthPicture& picture) {
  Extent extent;
  for (const PartLine& line : part.lines)
    extent.take(line.points);
  std::size_t found = 0;
  const auto compare = [&](const std::vector<double>& dark, const std::vector<double>& places) {
    for (const double place : places) {
      double nearest = 1e9;
      for (const double run : dark)
        nearest = std::min(nearest, std::abs(run - place));
      EXPECT_LE(nearest, 0.1) << "a line at " << place;
      ++found;
    }
  };
  // Away from the ends, where lines run along the row or the column, and from rounded corners,
  // which run into the cut.
  for (const double share : {0.30, 0.37, 0.61}) {
    const double x = extent.low.x + share * (extent.high.x - extent.low.x);
    compare(picture.dark_along_column(x), crossings(part, true, x));
  }
  for (const double share : {0.13, 0.55, 0.79}) {
    const double y = extent.low.y + share * (extent.high.y - extent.low.y);
    compare(picture.dark_along_row(y), crossings(part, false, y));
  }
  EXPECT_GE(found, 12u);
}

class RandomParts : public testing::Test {
protected:
  void SetUp() override {
    const Finished finished = run({places::program, "cut", places::samples + "/different_feet.yaml",
                                   "--svg", "-o", (scratch_.path() / "sheets.pdf").string()});
    ASSERT_EQ(finished.exit_code, 0) << finished.err;
  }
  fs::path svg(const std::string& foot) const {
    return scratch_.path() / ("sheets-board-" + foot + ".svg");
  }

  ScratchDirectory scratch_;
};

/// Takes away the names of the lines, whose letters stand near to them, and the thin pale outlines
/// of the pieces, which lie on edges and cuts: both would be measured with the lines.
void leave_lines_alone(const fs::path& svg) {
  std::string text = read_file(svg);
  for (const char* layer : {"line_names", "removed_piece", "kept_piece"}) {
    const std::size_t from = text.find(std::string("<g id=\"") + layer + "\"");
    ASSERT_NE(from, std::string::npos);
    text.erase(from, text.find("</g>", from) + 4 - from);
  }
  write_file(svg, text);
}

TEST_F(RandomParts, LieWhereTheyShouldInThePixelsOfLibrsvg) {
  for (const char* foot : {"left", "right"}) {
    const ReadPart part = read_svg(read_file(svg(foot)));
    leave_lines_alone(svg(foot));
    const fs::path png = scratch_.path() / "page.png";
    const Finished drawn = run({"rsvg-convert", "-b", "white", "-d", "254", "-p", "254", "-o",
                                png.string(), svg(foot).string()});
    ASSERT_EQ(drawn.exit_code, 0) << drawn.err;
    expect_lines_in_pixels(part, TenthPicture(png, part.height));
  }
}

class LongRandomParts : public RandomParts {};

TEST_F(LongRandomParts, LieWhereTheyShouldInThePixelsOfChromium) {
  for (const char* foot : {"left", "right"}) {
    const ReadPart part = read_svg(read_file(svg(foot)));
    leave_lines_alone(svg(foot));
    const fs::path png = scratch_.path() / "page.png";
    // Ten pixels a millimetre: a CSS pixel is 1/96 inch.
    const auto pixels = [](double mm) {
      return std::to_string(static_cast<int>(std::ceil(mm * 96 / 25.4)));
    };
    const Finished drawn =
        run({"chromium", "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars",
             "--user-data-dir=" + (scratch_.path() / "profile").string(),
             "--force-device-scale-factor=2.645833333333",
             "--window-size=" + pixels(part.width) + "," + pixels(part.height),
             "--screenshot=" + png.string(), "file://" + svg(foot).string()});
    ASSERT_NE(drawn.exit_code, 127) << "the package chromium is missing";
    ASSERT_EQ(drawn.exit_code, 0) << drawn.err;
    expect_lines_in_pixels(part, TenthPicture(png, part.height));
  }
}

class LongImports : public testing::Test {};

/// The size of the object whose line of `inkscape --query-all` begins with `name`, mm: the program
/// tells pixels of 1/96 inch.
std::optional<Point> size_in_inkscape(const fs::path& file, const std::string& name) {
  const Finished asked =
      run({"inkscape", "--query-all", file.string()},
          {"", {}, {{"HOME", file.parent_path().string()}}, std::chrono::minutes(2)});
  EXPECT_EQ(asked.exit_code, 0) << asked.err;
  // One line an object: name, x, y, width, height.
  std::istringstream rows(asked.out);
  std::string row;
  while (std::getline(rows, row) && !row.starts_with(name)) {
  }
  std::vector<double> figures;
  std::istringstream cells(row.substr(row.find(',') + 1));
  for (std::string cell; std::getline(cells, cell, ',');)
    figures.push_back(std::stod(cell) * 25.4 / 96);
  EXPECT_EQ(figures.size(), 4u) << asked.out;
  if (figures.size() != 4) return std::nullopt;
  return Point{figures[2], figures[3]};
}

/// A drawing program's own opinion of how large a kept piece is, as SVG and as DXF.
TEST_F(LongImports, KeepTheirSizeInADrawingProgram) {
  if (run({"inkscape", "--version"}).exit_code != 0)
    GTEST_SKIP() << "wants the Debian package inkscape";
  const ScratchDirectory scratch;
  ASSERT_EQ(run({places::program, "cut", "-q", "--svg", "--dxf", "--cut-only",
                 places::samples + "/plain.yaml", "-o", (scratch.path() / "p.pdf").string()})
                .exit_code,
            0);
  const fs::path svg = scratch.path() / "p-board-left.svg";
  const ReadPart part = read_svg(read_file(svg));
  Extent extent;
  for (const PartLine& line : part.lines)
    extent.take(line.points);
  const auto expect_size = [&](const fs::path& file, const std::string& name, double stroke) {
    const std::optional<Point> size = size_in_inkscape(file, name);
    if (!size) return;
    EXPECT_NEAR(size->x - stroke, extent.high.x - extent.low.x, 0.02) << file;
    EXPECT_NEAR(size->y - stroke, extent.high.y - extent.low.y, 0.02) << file;
  };
  expect_size(svg, "kept_piece,", 0.1); // the box holds the stroke's width
  // Opening a DXF asks for its scale in a window. The program's own importer, run by itself, takes
  // the scale that the window offers first.
  const Finished imported = run({"/usr/bin/python3", "/usr/share/inkscape/extensions/dxf_input.py",
                                 (scratch.path() / "p-board-left.dxf").string()});
  ASSERT_EQ(imported.exit_code, 0) << "python3-lxml, python3-cssselect, python3-numpy?\n"
                                   << imported.err;
  const fs::path from_dxf = scratch.path() / "from-dxf.svg";
  std::ofstream(from_dxf) << imported.out;
  expect_size(from_dxf, "svg", 25.4 / 96); // and a line of one pixel
}

/// A board wider on its big-toe side, cut askew.
Template lopsided_board(FootSide foot) {
  Template part;
  part.part = "board";
  part.foot = foot;
  const double sign = foot == FootSide::left ? 1 : -1;
  part.placement = {{50, 20}, {0, 1}, {sign, 0}};
  part.lines = {{LineKind::edge, {{0, -20}, {100, -20}, {100, 30}, {0, 30}}, true},
                {LineKind::final_cut, {{60, 30}, {70, -20}}}};
  return part;
}

TEST(PartDrawing, HasTheBigToeSideRightOnTheLeftFoot) {
  const Typeface typeface;
  const auto read = [&](FootSide foot, bool svg) {
    const PartDrawing drawing =
        part_drawing(lopsided_board(foot), {"HEEL END", {"Board"}}, typeface);
    return svg ? read_svg(svg_bytes(drawing, "")) : read_dxf(dxf_bytes(drawing, ""));
  };
  for (const bool svg : {true, false}) {
    for (const FootSide foot : {FootSide::left, FootSide::right}) {
      const ReadPart part = read(foot, svg);
      ASSERT_EQ(part.lines.size(), 2u);
      const Polyline& cut = part.lines[1].points;
      // The big-toe end, cut off 60, lies right of the other on the left foot.
      EXPECT_NEAR(cut[0].x - cut[1].x, foot == FootSide::left ? 50 : -50, 1e-4);
      EXPECT_NEAR(cut[1].y - cut[0].y, 10, 1e-4);
      // The heel end is below, with its words below it and on the centre line.
      const Point heel = part.texts.at(0).at;
      EXPECT_LT(heel.y, part.lines[0].points[0].y);
      EXPECT_NEAR(heel.x, cut[0].x + (foot == FootSide::left ? -30 : 30), 1e-4);
    }
    // Each is the other's mirror image, within its own sheet.
    const ReadPart left = read(FootSide::left, svg);
    const ReadPart right = read(FootSide::right, svg);
    for (std::size_t i = 0; i < 2; ++i)
      for (std::size_t k = 0; k < left.lines[i].points.size(); ++k) {
        const Point l = left.lines[i].points[k];
        const Point r = right.lines[i].points[k];
        EXPECT_NEAR(l.x - left.lines[0].points[0].x, right.lines[0].points[0].x - r.x, 1e-4);
        EXPECT_NEAR(l.y, r.y, 1e-4);
      }
  }
}

TEST(PartDrawing, CutsInnerShapesFirst) {
  const auto square = [](double half) {
    return Stroke{
        LineKind::edge, {{-half, -half}, {half, -half}, {half, half}, {-half, half}}, true};
  };
  const Stroke open{LineKind::edge, {{0, 0}, {1, 1}}};
  std::vector<Stroke> lines{square(30), square(10), open, square(20)};
  inner_first(lines);
  ASSERT_EQ(lines.size(), 4u);
  EXPECT_EQ(lines[0].points, square(10).points);
  EXPECT_EQ(lines[1].points, square(20).points);
  EXPECT_EQ(lines[2].points, square(30).points);
  EXPECT_EQ(lines[3].points, open.points);
}

TEST(PartDrawing, RefusesWhatIsNoPlace) {
  const Typeface typeface;
  for (const double bad : {std::nan(""), HUGE_VAL}) {
    Template part = lopsided_board(FootSide::left);
    part.lines[1].points[0].x = bad;
    EXPECT_THROW(part_drawing(part, {}, typeface), std::logic_error);
  }
  Template empty;
  EXPECT_THROW(part_drawing(empty, {}, typeface), std::logic_error);
}

struct Words {
  const char* given;
  const char* svg;
  const char* dxf;
};

TEST(PartDrawing, EscapesWords) {
  const Words cases[]{
      {"M-07", "M-07", "M-07"},
      {"<a & \"b\">", "&lt;a &amp; &quot;b&quot;&gt;", "<a & \"b\">"},
      {"Zoë", "Zoë", "Zo\\U+00EB"},
      {"Ж·7", "Ж·7", "\\U+0416\\U+00B77"},
      {"50%%d", "50%%d", "50\\U+0025\\U+0025d"},
      {"a\\U+0041^J", "a\\U+0041^J", "a\\U+005CU+0041\\U+005EJ"},
      {"a\nb\x1b\x7f"
       "c\xc2\x85",
       "a b  c ", "a b  c "},
      {"\xf0\x9f\xa9\xb0", "\xf0\x9f\xa9\xb0", "?"},
      {"a\xff", "a\xef\xbf\xbd", "a\\U+FFFD"},
      {"\xef\xbf\xbf", " ", " "},
  };
  for (const Words& words : cases) {
    PartDrawing drawing;
    drawing.width = drawing.height = 100;
    drawing.lines = {{LineKind::edge, {{1, 1}, {2, 2}}}};
    drawing.labels = {{{10, 10}, words.given}};
    EXPECT_EQ(read_svg(svg_bytes(drawing, words.given)).texts.at(0).words, words.svg);
    EXPECT_EQ(read_dxf(dxf_bytes(drawing, words.given)).texts.at(0).words, words.dxf);
  }
}

TEST(PartDrawing, HasWordsThatAnOutsideReaderUnderstands) {
  const std::string words = "Zo\u00eb, \u0416-7, a\\b, 50 %";
  PartDrawing drawing;
  drawing.width = drawing.height = 100;
  drawing.lines = {{LineKind::edge, {{1, 1}, {2, 2}}}};
  drawing.labels = {{{10, 10}, words}};
  const ScratchDirectory scratch;
  const fs::path dxf = scratch.path() / "words.dxf";
  write_file(dxf, dxf_bytes(drawing, "words"));
  constexpr const char* script = R"(
import sys, ezdxf
from ezdxf.lldxf.encoding import decode_dxf_unicode
text = ezdxf.readfile(sys.argv[1]).modelspace().query('TEXT').first.dxf.text
sys.stdout.buffer.write(decode_dxf_unicode(text).encode('utf-8'))
)";
  const Finished read = run({"/usr/bin/python3", "-c", script, dxf.string()});
  EXPECT_EQ(read.out, words) << read.err;
}

TEST(PartDrawing, WritesPlainNumbers) {
  PartDrawing drawing;
  drawing.width = drawing.height = 2000;
  drawing.lines = {{LineKind::edge, {{1e-9, 1234.56789}, {-1e-9, 1e-5}, {0.00006, 1999.99999}}}};
  for (const std::string& bytes : {svg_bytes(drawing, ""), dxf_bytes(drawing, "")}) {
    EXPECT_EQ(bytes.find("e-0"), std::string::npos);
    EXPECT_EQ(bytes.find("-0.0"), std::string::npos);
  }
  const ReadPart part = read_dxf(dxf_bytes(drawing, ""));
  EXPECT_NEAR(part.lines.at(0).points.at(0).y, 1234.56789, 1e-6);
}

double seen_length(const std::vector<Stroke>& dashes) {
  double length = 0;
  for (const Stroke& dash : dashes)
    for (std::size_t i = 1; i < dash.points.size(); ++i)
      length += std::hypot(dash.points[i].x - dash.points[i - 1].x,
                           dash.points[i].y - dash.points[i - 1].y);
  return length;
}

TEST(Dashes, BeginAndEndWithADash) {
  for (const LineStyle& style : line_styles()) {
    const Stroke line{style.kind, {{0, 0}, {30, 40}, {30, 97.3}}, false};
    const std::vector<Stroke> dashes = dashes_of(line);
    if (style.dash[0] == 0) {
      ASSERT_EQ(dashes.size(), 1u);
      EXPECT_EQ(dashes[0].points, line.points);
      continue;
    }
    SCOPED_TRACE(style.name);
    ASSERT_GE(dashes.size(), 3u);
    EXPECT_EQ(dashes.front().points.front(), line.points.front());
    EXPECT_NEAR(dashes.back().points.back().y, 97.3, 1e-6);
    double on = 0;
    double all = 0;
    const std::vector<double> pattern = dash_lengths(style);
    for (std::size_t i = 0; i < pattern.size(); ++i) {
      all += pattern[i];
      if (i % 2 == 0) on += pattern[i];
    }
    EXPECT_NEAR(seen_length(dashes) / 107.3, on / all, 0.06);
  }
}

TEST(Dashes, OfAShortLineAreTheLine) {
  const Stroke line{LineKind::stop, {{0, 0}, {2, 0}}, false};
  const std::vector<Stroke> dashes = dashes_of(line);
  ASSERT_EQ(dashes.size(), 1u);
  EXPECT_EQ(dashes[0].points, line.points);
  EXPECT_EQ(dashes_of({LineKind::stop, {{1, 1}}, false}).size(), 1u);
}

TEST(Dashes, GoRoundAClosedLine) {
  const Stroke ring{LineKind::fold, {{0, 0}, {50, 0}, {50, 50}, {0, 50}}, true};
  const std::vector<Stroke> dashes = dashes_of(ring);
  EXPECT_EQ(dashes.front().points.front(), (Point{0, 0}));
  EXPECT_NEAR(dashes.back().points.back().x, 0, 1e-6);
  EXPECT_NEAR(dashes.back().points.back().y, 0, 1e-6);
  bool far_side = false;
  for (const Stroke& dash : dashes)
    for (const Point& p : dash.points)
      far_side = far_side || (p.x == 50 && p.y > 20);
  EXPECT_TRUE(far_side);
}

/// A laser without line types and layer names goes by colours and by what is drawn.
TEST(PartFiles, TellFirstCutFinalCutAndStopApart) {
  const ScratchDirectory scratch;
  ASSERT_EQ(run({places::program, "cut", "-q", "--dxf", "--svg", places::samples + "/plain.yaml",
                 "-o", (scratch.path() / "plain.pdf").string()})
                .exit_code,
            0);
  const std::string svg_text = read_file(scratch.path() / "plain-board-left.svg");
  for (const ReadPart& part :
       {read_svg(svg_text), read_dxf(read_file(scratch.path() / "plain-board-left.dxf"))}) {
    std::map<std::string, std::size_t> pieces;
    for (const PartLine& line : part.lines)
      ++pieces[line.layer];
    EXPECT_EQ(pieces["first_cut"], 1u);
    EXPECT_GE(pieces["final_cut"], 5u);
    EXPECT_GE(pieces["stop"], 5u);
    EXPECT_NE(pieces["final_cut"], pieces["stop"]);
  }
  EXPECT_EQ(svg_text.find("dasharray"), std::string::npos);
  // A layer by the attributes that are widely read, with a title of its own.
  EXPECT_NE(svg_text.find("<g id=\"first_cut\" inkscape:groupmode=\"layer\" "
                          "inkscape:label=\"first_cut\""),
            std::string::npos);
  EXPECT_NE(svg_text.find("<title>first cut</title>"), std::string::npos);
}

TEST(PartFiles, HoldTheClosedPieceAlone) {
  for (const std::string& sample : sample_names()) {
    SCOPED_TRACE(sample);
    const ScratchDirectory scratch;
    const Finished cut = run({places::program, "cut", "--dxf", "--svg", "--cut-only",
                              places::samples + "/" + sample + ".yaml", "--json", "-o",
                              (scratch.path() / "s.pdf").string()});
    ASSERT_EQ(cut.exit_code, 0) << cut.err;
    const json feet = json::parse(cut.out).at("feet");
    for (const fs::directory_entry& entry : fs::directory_iterator(scratch.path())) {
      const std::string name = entry.path().stem().string();
      if (entry.path().extension() == ".pdf") continue;
      SCOPED_TRACE(name);
      const std::string bytes = read_file(entry.path());
      const ReadPart part = entry.path().extension() == ".svg" ? read_svg(bytes) : read_dxf(bytes);
      EXPECT_TRUE(part.texts.empty());
      EXPECT_EQ(part.layers.size(), 1u);
      ASSERT_GE(part.lines.size(), 1u);
      for (const PartLine& line : part.lines)
        EXPECT_TRUE(line.closed);
      if (name.find("-board-") == std::string::npos) continue;
      const json& pieces =
          feet.at(name.find("left") == std::string::npos ? "right" : "left").at("pieces");
      ASSERT_FALSE(pieces.at("first").at("removed").is_null()) << "no board that stays as it is";
      const double off = pieces.at("first").at("removed").at("area").get<double>();
      const double area = std::abs(signed_area(part.lines[0].points));
      // In the shoe, what goes is all that is measured.
      const double wanted = pieces.at("kept").is_null()
                                ? off
                                : pieces.at("kept").at("area").get<double>() +
                                      pieces.at("removed").at("area").get<double>() - off;
      EXPECT_NEAR(area, wanted, 0.5);
    }
    // A side of a shoe has no closed line, which is said.
    if (sample == "sides_lowered") {
      EXPECT_FALSE(fs::exists(scratch.path() / "s-side-medial-left.svg"));
      EXPECT_NE(cut.err.find("no closed line to cut along"), std::string::npos) << cut.err;
    }
  }
}

TEST(PartFiles, SatisfyAnOutsideReader) {
  const ScratchDirectory scratch;
  for (const std::string& sample : sample_names())
    ASSERT_EQ(run({places::program, "cut", "-q", "--dxf", places::samples + "/" + sample + ".yaml",
                   "-o", (scratch.path() / (sample + ".pdf")).string()})
                  .exit_code,
              0);
  constexpr const char* script = R"(
import json, sys, ezdxf, ezdxf.bbox
for name in sys.argv[1:]:
    drawing = ezdxf.readfile(name)
    audit = drawing.audit()
    lines = drawing.modelspace().query('POLYLINE')
    box = ezdxf.bbox.extents(lines)
    print(json.dumps({'version': drawing.dxfversion, 'lines': len(lines),
                      'units': [drawing.units, drawing.header.get('$INSUNITS'),
                                drawing.header.get('$MEASUREMENT')],
                      'colours': [layer.dxf.color for layer in drawing.layers
                                  if layer.dxf.name not in ('0', 'Defpoints', 'label')],
                      'faults': [e.message for e in audit.errors + audit.fixes],
                      'box': list(box.extmin)[:2] + list(box.extmax)[:2],
                      'said': list(drawing.header['$EXTMIN'])[:2]
                            + list(drawing.header['$EXTMAX'])[:2]}))
)";
  std::vector<std::string> words{"/usr/bin/python3", "-c", script};
  std::vector<ReadPart> ours;
  for (const fs::directory_entry& entry : fs::directory_iterator(scratch.path()))
    if (entry.path().extension() == ".dxf") {
      words.push_back(entry.path().string());
      ours.push_back(read_dxf(read_file(entry.path())));
    }
  ASSERT_GE(ours.size(), 15u);
  const Finished read = run(words);
  ASSERT_EQ(read.exit_code, 0) << read.err;
  std::istringstream answers(read.out);
  std::size_t count = 0;
  for (std::string line; std::getline(answers, line); ++count) {
    const json answer = json::parse(line);
    EXPECT_EQ(answer.at("version"), "AC1009");
    EXPECT_EQ(answer.at("units"), json::array({4, 4, 1}));
    std::vector<int> colours = answer.at("colours");
    std::sort(colours.begin(), colours.end());
    EXPECT_GE(colours.size(), 3u);
    EXPECT_EQ(std::adjacent_find(colours.begin(), colours.end()), colours.end());
    EXPECT_EQ(answer.at("faults"), json::array());
    EXPECT_EQ(answer.at("lines"), ours.at(count).lines.size());
    Extent extent;
    for (const PartLine& drawn : ours[count].lines)
      extent.take(drawn.points);
    const double expected[]{extent.low.x, extent.low.y, extent.high.x, extent.high.y};
    for (std::size_t i = 0; i < 4; ++i) {
      EXPECT_NEAR(answer.at("box").at(i).get<double>(), expected[i], 1e-6);
      EXPECT_NEAR(answer.at("said").at(i).get<double>(), expected[i], 1e-6);
    }
  }
  EXPECT_EQ(count, ours.size());
}

TEST(PartFiles, AreNoneWhenNoneIsWished) {
  EXPECT_TRUE(part_files({}, {}, {}, "", {}).files.empty());
}

} // namespace
} // namespace shankline::tests::part_files_test
