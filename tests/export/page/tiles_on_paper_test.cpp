// Tiles put together by their registration marks alone give the part back. The PDF is read by qpdf;
// of ours only the lines that `--lines` says were solved take part, and the table of line kinds.
#include "tests/support/places.hpp"
#include "tests/support/polyline_distance.hpp"
#include "tests/support/process.hpp"
#include "tests/support/readback.hpp"
#include "tests/support/scratch_directory.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <map>
#include <nlohmann/json.hpp>

namespace shankline::tests::tiles_on_paper_test {
namespace {

using nlohmann::json;

Point operator+(const Point& a, const Point& b) {
  return {a.x + b.x, a.y + b.y};
}
Point operator-(const Point& a, const Point& b) {
  return {a.x - b.x, a.y - b.y};
}
double distance(const Point& a, const Point& b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

/// Turned, then moved; never stretched: paper is not.
struct Motion {
  double cosine = 1;
  double sine = 0;
  Point shift;
  Point operator()(const Point& p) const {
    return Point{cosine * p.x - sine * p.y, sine * p.x + cosine * p.y} + shift;
  }
};

/// The motion that lays the points `from` on the points `to`, least squares.
Motion laid(const std::vector<Point>& from, const std::vector<Point>& to) {
  Point a;
  Point b;
  const double n = static_cast<double>(from.size());
  for (std::size_t i = 0; i < from.size(); ++i) {
    a = a + from[i];
    b = b + to[i];
  }
  a = {a.x / n, a.y / n};
  b = {b.x / n, b.y / n};
  double dot = 0;
  double cross = 0;
  for (std::size_t i = 0; i < from.size(); ++i) {
    const Point p = from[i] - a;
    const Point q = to[i] - b;
    dot += p.x * q.x + p.y * q.y;
    cross += p.x * q.y - p.y * q.x;
  }
  const double length = std::hypot(dot, cross);
  Motion motion{dot / length, cross / length, {}};
  motion.shift = b - motion(a);
  return motion;
}

/// Middles of the page's crosses by the letter that stands in their upper right corner.
std::map<std::string, Point> crosses(const PaperPage& page) {
  std::vector<Point> middles;
  for (const PaperStroke& level : page.strokes)
    for (const PaperStroke& upright : page.strokes) {
      if (kind_of(level) != LineKind::registration || kind_of(upright) != LineKind::registration)
        continue;
      const Point a = level.points.front();
      const Point b = level.points.back();
      const Point c = upright.points.front();
      if (std::abs(a.y - b.y) > 0.01 || std::abs(c.x - upright.points.back().x) > 0.01) continue;
      const Point middle{(a.x + b.x) / 2, (c.y + upright.points.back().y) / 2};
      if (distance(middle, {c.x, a.y}) < 0.1) middles.push_back({c.x, a.y});
    }
  std::map<std::string, Point> named;
  for (const Point& middle : middles)
    for (const TextRun& text : page.texts)
      if (text.origin.x > middle.x && text.origin.x < middle.x + 2 && text.origin.y > middle.y &&
          text.origin.y < middle.y + 2)
        named[text.bytes] = middle;
  EXPECT_EQ(named.size(), middles.size());
  return named;
}

Point point_of(const json& pair) {
  return {pair.at(0), pair.at(1)};
}

bool is_left(const json& entry, const std::string& part) {
  return entry.at("part") == part && entry.at("foot") == "left";
}

struct Piece {
  std::vector<Polyline> edges; ///< strokes of one kind
  std::map<std::string, Point> crosses;
};

std::vector<Polyline> of_kind(const PaperPage& page, LineKind kind) {
  std::vector<Polyline> lines;
  for (const PaperStroke& stroke : page.strokes)
    if (kind_of(stroke) == kind) lines.push_back(stroke.points);
  return lines;
}

/// The whole strip's lines of a kind, from a sheet that takes it in one piece.
std::vector<Polyline> whole(const json& lines, const std::string& part, const std::string& kind) {
  std::vector<Polyline> found;
  for (const json& entry : lines.at("templates")) {
    if (!is_left(entry, part)) continue;
    EXPECT_FALSE(entry.contains("tile"));
    const Point along = point_of(entry.at("placement").at("along"));
    const Point across = point_of(entry.at("placement").at("across"));
    for (const json& line : entry.at("lines")) {
      if (line.at("kind") != kind) continue;
      found.emplace_back();
      for (const json& pair : line.at("points")) {
        const Point p = point_of(pair);
        found.back().push_back({p.x * along.x + p.y * across.x, p.x * along.y + p.y * across.y});
      }
    }
  }
  return found;
}

double nearest(const Point& p, const std::vector<Polyline>& lines) {
  double least = 1e9;
  for (const Polyline& line : lines)
    for (std::size_t i = 1; i < line.size(); ++i)
      least = std::min(least, distance_to_segment(p, line[i - 1], line[i]));
  return least;
}

json cut(const std::string& paper, const std::filesystem::path& pdf) {
  const Finished finished = run({places::program, "cut", places::samples + "/long_sides.yaml",
                                 "--paper", paper, "--lines", "-o", pdf.string()});
  EXPECT_EQ(finished.exit_code, 0) << finished.err;
  return json::parse(finished.out);
}

/// The first tile stays; each further one is turned askew, as a hand would take it up, and laid on
/// those before it by their common crosses.
std::vector<Piece> joined(std::vector<Piece> pieces) {
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    if (i == 0) continue;
    const double angle = 0.7 * static_cast<double>(i);
    const Motion askew{std::cos(angle), std::sin(angle), {31, -17}};
    for (auto& [name, p] : pieces[i].crosses)
      p = askew(p);
    std::vector<Point> mine;
    std::vector<Point> theirs;
    for (const auto& [name, p] : pieces[i].crosses)
      for (std::size_t k = 0; k < i; ++k)
        if (const auto found = pieces[k].crosses.find(name); found != pieces[k].crosses.end()) {
          mine.push_back(p);
          theirs.push_back(found->second);
        }
    EXPECT_GE(mine.size(), 2u) << "tile " << i + 1;
    const Motion lay = laid(mine, theirs);
    for (auto& [name, p] : pieces[i].crosses)
      p = lay(p);
    for (Polyline& line : pieces[i].edges)
      for (Point& p : line)
        p = lay(askew(p));
  }
  return pieces;
}

void expect_rejoined(const std::string& paper, const std::string& part,
                     const std::vector<LineKind>& kinds = {LineKind::edge, LineKind::final_cut,
                                                           LineKind::stock_top}) {
  const ScratchDirectory scratch;
  const json in_one = cut("a3", scratch.path() / "whole.pdf");
  const json in_tiles = cut(paper, scratch.path() / "tiles.pdf");
  const PaperDocument document = read_document(scratch.path() / "tiles.pdf");
  for (const LineKind kind : kinds) {
    std::vector<Piece> pieces;
    for (const json& entry : in_tiles.at("templates")) {
      if (!is_left(entry, part)) continue;
      ASSERT_TRUE(entry.contains("tile"));
      EXPECT_EQ(entry.at("tile").at("number"), pieces.size() + 1);
      const PaperPage& page = document.pages.at(entry.at("page").get<std::size_t>() - 1);
      pieces.push_back({of_kind(page, kind), crosses(page)});
      // The key of the page shows the kinds once more: a level sample of 12 mm.
      std::erase_if(pieces.back().edges, [](const Polyline& line) {
        return line.size() == 2 && std::abs(line[0].y - line[1].y) < 0.01 &&
               std::abs(std::abs(line[1].x - line[0].x) - 12) < 0.01;
      });
    }
    ASSERT_GE(pieces.size(), 2u);
    pieces = joined(std::move(pieces));

    const std::string name(line_style(kind).name);
    std::vector<Polyline> part_lines = whole(in_one, part, name);
    ASSERT_FALSE(part_lines.empty());
    // The joined strip is turned and moved as the first tile lies; that one's placement says how.
    Point origin;
    for (const json& entry : in_tiles.at("templates"))
      if (is_left(entry, part) && entry.at("tile").at("number") == 1)
        origin = point_of(entry.at("placement").at("origin"));
    std::vector<Polyline> paper_lines;
    for (const Piece& piece : pieces)
      paper_lines.insert(paper_lines.end(), piece.edges.begin(), piece.edges.end());
    double most = 0;
    std::size_t points = 0;
    for (Polyline& line : part_lines)
      for (Point& p : line) {
        p = p + origin;
        most = std::max(most, nearest(p, paper_lines)); // nothing of the part is missing
        ++points;
      }
    for (const Polyline& line : paper_lines)
      for (const Point& p : line) {
        most = std::max(most, nearest(p, part_lines)); // and there is nothing else
        ++points;
      }
    EXPECT_GE(points, 20u);
    EXPECT_LE(most, 0.02) << paper << ", " << name;
    testing::Test::RecordProperty(name, std::to_string(most));
  }
}

TEST(Tiles, JoinedByTheirCrossesGiveTheSideBack) {
  expect_rejoined("letter", "side_medial");
}
TEST(Tiles, JoinedByTheirCrossesGiveTheLinerBack) {
  expect_rejoined("letter", "liner", {LineKind::final_cut});
}
std::string long_sides_with(const std::string& written, const std::string& instead,
                            std::string order = read_file(places::samples + "/long_sides.yaml")) {
  const std::size_t at = order.find(written);
  EXPECT_NE(at, std::string::npos) << written;
  return order.replace(at, written.size(), instead);
}
std::string very_wide() {
  return long_sides_with("[[28, 56], [124, 43], [214, 72]]", "[[28, 80], [124, 66], [214, 104]]");
}

/// The widest liner leaves the figures beside it the least room.
TEST(Tiles, OfAVeryWideLinerLeaveRoomForTheFigures) {
  const ScratchDirectory scratch;
  write_file(scratch.path() / "wide.yaml",
             long_sides_with("  shank: {reach: edge}\n", "", very_wide()));
  for (const char* paper : {"a4", "letter"}) {
    const std::filesystem::path pdf = scratch.path() / (std::string(paper) + ".pdf");
    const Finished finished =
        run({places::program, "cut", (scratch.path() / "wide.yaml").string(), "--paper", paper,
             "--units", "in", "--lines", "-o", pdf.string()});
    ASSERT_EQ(finished.exit_code, 0) << finished.err;
    expect_true_to_paper(pdf, finished.out);
  }
}

/// A board is never printed under its own ruler numbers.
TEST(WideBoards, AskForLargerPaper) {
  const ScratchDirectory scratch;
  write_file(scratch.path() / "wide.yaml", very_wide());
  const auto cut_on = [&](const char* paper) {
    return run({places::program, "cut", (scratch.path() / "wide.yaml").string(), "--paper", paper,
                "-o", (scratch.path() / "wide.pdf").string()});
  };
  const Finished small = cut_on("a4");
  EXPECT_EQ(small.exit_code, 1);
  EXPECT_NE(small.err.find("board, 104 wide, leaves no room"), std::string::npos) << small.err;
  EXPECT_NE(small.err.find("--paper"), std::string::npos);
  EXPECT_FALSE(std::filesystem::exists(scratch.path() / "wide.pdf"));
  EXPECT_EQ(cut_on("a3").exit_code, 0);
}

TEST(LongTiles, JoinedByTheirCrossesGiveTheSideBack) {
  expect_rejoined("letter", "side_lateral");
  expect_rejoined("a4", "side_medial");
  expect_rejoined("a4", "side_lateral");
}

/// A strip a little longer than the lying page leans on it, at true size.
TEST(LeaningSides, AreTrueToTheMillimetre) {
  const ScratchDirectory scratch;
  std::string order = read_file(places::samples + "/long_sides.yaml");
  const std::string wing = "wing_at: 268";
  const std::size_t at = order.find(wing);
  ASSERT_NE(at, std::string::npos);
  order.replace(at, wing.size(), "wing_at: 238");
  write_file(scratch.path() / "leaning.yaml", order);
  const std::filesystem::path pdf = scratch.path() / "leaning.pdf";
  const Finished finished = run({places::program, "cut", (scratch.path() / "leaning.yaml").string(),
                                 "--paper", "letter", "--lines", "-o", pdf.string()});
  ASSERT_EQ(finished.exit_code, 0) << finished.err;
  std::size_t leaning = 0;
  const json lines = json::parse(finished.out);
  for (const json& entry : lines.at("templates")) {
    EXPECT_EQ(entry.contains("tile"), entry.at("part") == "liner");
    const Point along = point_of(entry.at("placement").at("along"));
    const bool slanted = std::abs(along.x) > 0.1 && std::abs(along.y) > 0.1;
    leaning += entry.at("part") != "board" && slanted;
  }
  EXPECT_GE(leaning, 1u);
  expect_true_to_paper(pdf, finished.out);
}

} // namespace
} // namespace shankline::tests::tiles_on_paper_test
