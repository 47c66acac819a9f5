#include "cli/archive/archive_drawing.hpp"

#include "export/formats/pdf_writer.hpp"
#include "export/sets/order_sheets.hpp"
#include "geometry/solution/solution.hpp"

#include "tests/geometry/random_orders.hpp"

#include <gtest/gtest.h>
#include <limits>
#include <random>

namespace shankline::tests::archive_drawing_test {
namespace {

using namespace tests;

Drawing random_sheets(std::uint64_t seed) {
  constexpr const char* names[] = {"a4", "letter", "roll:914"};
  Draw draw(seed);
  Draw sides(seed + 1000);
  for (int tries = 0; tries < 100; ++tries) {
    const Order order = random_order_with_sides(draw, sides);
    const Solution solution = solve(order);
    if (has_error(solution.findings) || (!solution.left && !solution.right)) continue;
    try {
      return sheet_set(order, solution, solution.findings,
                       {*read_paper(names[seed % 3]), Units::mm, "4f9c 2107", {}})
          .drawing;
    } catch (const std::exception&) { // sides that no page takes
    }
  }
  throw std::logic_error("no order could be drawn");
}

TEST(ArchiveDrawing, ComesBackToTheLastByteOfItsPdf) {
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    const Drawing drawing = random_sheets(seed);
    const std::string bytes = drawing_bytes(drawing);
    const Drawing back = drawing_of(bytes);
    EXPECT_EQ(pdf_bytes(back), pdf_bytes(drawing));
    EXPECT_EQ(drawing_bytes(back), bytes);
    ASSERT_EQ(back.pages.size(), drawing.pages.size());
    EXPECT_EQ(back.pages[0].paper.name, drawing.pages[0].paper.name);
  }
}

TEST(ArchiveDrawing, KeepsEveryKindOfLineAndNumber) {
  Drawing drawing;
  drawing.title = "title";
  drawing.author = "author";
  drawing.subject = "subject";
  Page page{papers()[0], "page", {}, "board L"};
  for (const LineStyle& style : line_styles())
    page.marks.emplace_back(
        Stroke{style.kind,
               {{1.0 / 3, -0.0},
                {std::numeric_limits<double>::denorm_min(), std::numeric_limits<double>::max()}},
               style.kind == LineKind::edge});
  page.marks.emplace_back(
      Text{{1e-9, 0.1 + 0.2}, "Żaneta\n", 3.7, Weight::bold, Align::right, -90.5});
  drawing.pages = {page, Page{{"roll", 914, 2000, true}, "", {}}};
  drawing.lettering.faces = {{{"/faces/some.ttc", 3}, {"/faces/bold.ttf", 0}, U"Żж本"}};
  drawing.margin = 3.5;
  drawing.created = -1;
  const Drawing back = drawing_of(drawing_bytes(drawing));
  ASSERT_EQ(back.pages.size(), 2u);
  ASSERT_EQ(back.pages[0].marks.size(), page.marks.size());
  for (std::size_t i = 0; i + 1 < page.marks.size(); ++i) {
    const Stroke& a = std::get<Stroke>(page.marks[i]);
    const Stroke& b = std::get<Stroke>(back.pages[0].marks[i]);
    EXPECT_EQ(a.kind, b.kind);
    EXPECT_EQ(a.closed, b.closed);
    ASSERT_EQ(a.points.size(), b.points.size());
    EXPECT_EQ(a.points[0].x, b.points[0].x);
    EXPECT_TRUE(std::signbit(b.points[0].y));
    EXPECT_EQ(a.points[1].x, b.points[1].x);
    EXPECT_EQ(a.points[1].y, b.points[1].y);
  }
  const Text& text = std::get<Text>(back.pages[0].marks.back());
  EXPECT_EQ(text.words, "Żaneta\n");
  EXPECT_EQ(text.at.y, 0.1 + 0.2);
  EXPECT_EQ(text.weight, Weight::bold);
  EXPECT_EQ(text.align, Align::right);
  EXPECT_EQ(text.angle, -90.5);
  EXPECT_EQ(back.pages[0].label, "board L");
  EXPECT_EQ(back.pages[1].paper.name, "roll");
  EXPECT_EQ(back.pages[1].paper.height, 2000);
  EXPECT_TRUE(back.pages[1].paper.roll);
  ASSERT_EQ(back.lettering.faces.size(), 1u);
  EXPECT_EQ(back.lettering.faces[0].regular, (FaceFile{"/faces/some.ttc", 3}));
  EXPECT_EQ(back.lettering.faces[0].bold, (FaceFile{"/faces/bold.ttf", 0}));
  EXPECT_EQ(back.lettering.faces[0].shows, U"Żж本");
  EXPECT_EQ(back.margin, 3.5);
  EXPECT_EQ(back.created, -1);
}

/// The bytes as version 0.1.0 wrote them: without the digest.
std::string as_form_1(const std::string& bytes) {
  const std::size_t digest = bytes.find(' ', bytes.find(' ') + 1);
  std::string form_1 = bytes.substr(0, digest) + bytes.substr(bytes.find('\n'));
  form_1.replace(form_1.find("/2"), 2, "/1");
  return form_1;
}

TEST(ArchiveDrawing, ReadsTheFormOfVersion010) {
  const Drawing drawing = random_sheets(2);
  const std::string bytes = drawing_bytes(drawing);
  EXPECT_EQ(drawing_bytes(drawing_of(as_form_1(bytes))), bytes);
  EXPECT_THROW(drawing_of(as_form_1(bytes) + "x"), DrawingUnreadable);
}

TEST(ArchiveDrawing, AnotherDigestIsASpoiltDrawing) {
  std::string bytes = drawing_bytes(random_sheets(2));
  char& digit = bytes[bytes.find('\n') - 1];
  digit = digit == '0' ? '1' : '0';
  EXPECT_THROW(drawing_of(bytes), DrawingCorrupt);
  bytes.erase(bytes.find('\n') - 1, 1);
  EXPECT_THROW(drawing_of(bytes), DrawingUnreadable);
}

TEST(ArchiveDrawing, RefusesWhatIsNone) {
  const std::string good = drawing_bytes(random_sheets(1));
  EXPECT_NO_THROW(drawing_of(good));
  const std::string huge = "shankline-drawing/1 99999999999\nx";
  for (const std::string& bytes :
       {std::string(), std::string("x"), std::string("shankline-drawing/1 "),
        std::string("shankline-drawing/1 5"), std::string("shankline-drawing/1 5\n"),
        std::string("shankline-drawing/2 5\nxxxxx"), huge, good + "x",
        good.substr(0, good.size() - 1)})
    EXPECT_THROW(drawing_of(bytes), DrawingUnreadable) << bytes.substr(0, 40);
}

TEST(ArchiveDrawing, SpoiltBytesAreRefusedOrDrawSomething) {
  const std::string good = drawing_bytes(random_sheets(3));
  std::mt19937 draw(5);
  int refused = 0;
  for (int round = 0; round < 300; ++round) {
    std::string bytes = good;
    bytes[std::uniform_int_distribution<std::size_t>(0, bytes.size() - 1)(draw)] =
        static_cast<char>(draw());
    try {
      drawing_of(bytes);
    } catch (const DrawingUnreadable&) {
      ++refused;
    }
  }
  EXPECT_GT(refused, 250); // what is deflated carries a sum of its own
}

} // namespace
} // namespace shankline::tests::archive_drawing_test
