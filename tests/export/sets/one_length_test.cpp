// All pages on one length of a roll: nothing is lost, nothing overlaps, nothing changes its size.
#include "export/sets/one_length.hpp"

#include "export/drawing/box.hpp"
#include "export/lettering/typeface.hpp"
#include "export/page/sheet_page.hpp"
#include "export/sets/order_sheets.hpp"
#include "tests/geometry/random_orders.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <string>
#include <variant>
#include <vector>

namespace shankline::tests::one_length_test {
namespace {

Paper roll_of(const char* width) {
  return *read_paper(std::string("roll:") + width);
}

/// Sheets of a drawn pair with everything that may be done to it, laid out for the roll.
std::optional<SheetSet> random_sheets(Draw& draw, const Paper& roll) {
  Order order = random_order(draw);
  if (order.left) add_random_work(draw, *order.left);
  if (order.right) add_random_work(draw, *order.right);
  const Solution solution = solve(order);
  if (has_error(solution.findings) || (!solution.left && !solution.right)) return {};
  return sheet_set(order, solution, solution.findings, {roll, Units::mm, "4f9c 2107"});
}

std::vector<SheetSet> several_sheets(Draw& draw, const Paper& roll, std::size_t count) {
  std::vector<SheetSet> sets;
  while (sets.size() < count)
    if (auto one = random_sheets(draw, roll)) sets.push_back(*std::move(one));
  return sets;
}

std::vector<Box> frames_on(const Page& page) {
  std::vector<Box> frames;
  for (const Mark& mark : page.marks)
    if (const Stroke* line = std::get_if<Stroke>(&mark);
        line && line->kind == LineKind::paper_trim && line->closed && line->points.size() == 4) {
      Box box = nowhere;
      for (const Point& p : line->points)
        widen(box, p);
      frames.push_back(box);
    }
  return frames;
}

std::size_t marks_in(const SheetSet& set) {
  std::size_t marks = 0;
  for (const Page& page : set.drawing.pages)
    marks += page.marks.size();
  return marks;
}

TEST(OneLength, HoldsEveryPageInAFrameAndNoTwoFramesOverlap) {
  Draw draw(20261128);
  int tried = 0;
  for (const char* width : {"610", "914", "1600"})
    for (int i = 0; i < 6; ++i) {
      const Paper roll = roll_of(width);
      const auto loose = random_sheets(draw, roll);
      if (!loose) continue;
      const SheetSet set = on_one_length(*loose, roll);
      ASSERT_EQ(set.drawing.pages.size(), 1u);
      const Page& page = set.drawing.pages[0];
      EXPECT_EQ(page.paper.width, roll.width);
      EXPECT_EQ(marks_in(set), marks_in(*loose) + loose->drawing.pages.size()); // and the frames
      std::vector<Box> frames = frames_on(page);
      // A darning wrap or another part may have a closed rectangle of its own to trim.
      ASSERT_GE(frames.size(), loose->drawing.pages.size());
      std::erase_if(frames, [&](const Box& inner) {
        return std::ranges::any_of(frames, [&](const Box& outer) {
          return &outer != &inner && holds(outer, inner) && !holds(inner, outer);
        });
      });
      EXPECT_EQ(frames.size(), loose->drawing.pages.size());
      const Box inside{unprintable, unprintable, page.paper.width - unprintable,
                       page.paper.height - unprintable};
      for (std::size_t a = 0; a < frames.size(); ++a) {
        EXPECT_TRUE(holds(inside, frames[a])) << width << ' ' << i;
        for (std::size_t b = 0; b < a; ++b)
          EXPECT_FALSE(overlap(frames[a], frames[b])) << width << ' ' << i;
      }
      const Typeface typeface(set.drawing.lettering);
      for (const Mark& mark : page.marks)
        if (const Text* text = std::get_if<Text>(&mark)) {
          EXPECT_EQ(std::ranges::count_if(
                        frames,
                        [&](const Box& frame) { return holds(frame, text_box(*text, typeface)); }),
                    1)
              << text->words;
        }
      double apart = 0;
      for (const Page& one : loose->drawing.pages)
        apart += one.paper.height;
      EXPECT_LT(page.paper.height, apart);
      ++tried;
    }
  EXPECT_GE(tried, 9);
}

TEST(OneLength, MovesEachPartAndItsProofWithItsLinesAndTurnsNothing) {
  Draw draw(7);
  const Paper roll = roll_of("914");
  std::optional<SheetSet> loose;
  while (!loose || loose->templates.size() < 3)
    loose = random_sheets(draw, roll);
  const SheetSet set = on_one_length(*loose, roll);
  ASSERT_EQ(set.templates.size(), loose->templates.size());
  const std::vector<Mark>& marks = set.drawing.pages[0].marks;
  const auto is_drawn = [&](const Polyline& points) {
    return std::ranges::any_of(marks, [&](const Mark& mark) {
      const Stroke* line = std::get_if<Stroke>(&mark);
      return line && line->points.size() == points.size() &&
             std::ranges::equal(line->points, points, [](const Point& a, const Point& b) {
               return std::hypot(a.x - b.x, a.y - b.y) < 1e-9;
             });
    });
  };
  for (std::size_t i = 0; i < set.templates.size(); ++i) {
    const Template& part = set.templates[i];
    EXPECT_EQ(part.page, 0u);
    EXPECT_EQ(part.paper.height, set.drawing.pages[0].paper.height);
    EXPECT_EQ(part.placement.along.x, loose->templates[i].placement.along.x);
    EXPECT_EQ(part.placement.along.y, loose->templates[i].placement.along.y);
    EXPECT_EQ(part.placement.across.x, loose->templates[i].placement.across.x);
    ASSERT_FALSE(part.lines.empty());
    EXPECT_TRUE(is_drawn(placed(part.lines[0], part.placement).points)) << part.part;
  }
  ASSERT_EQ(set.proofs.size(), loose->proofs.size());
  for (const Proof& proof : set.proofs)
    for (const Proof::Bar& bar : proof.bars) {
      EXPECT_NEAR(std::hypot(bar.to.x - bar.from.x, bar.to.y - bar.from.y), bar_length, 1e-9);
      EXPECT_TRUE(is_drawn({bar.from, bar.to}) || is_drawn({bar.to, bar.from}));
    }
}

TEST(OneLength, BeginsAnotherWhereItWouldBeLongerThanAPageMayBe) {
  Draw draw(11);
  const Paper roll = roll_of("610");
  const std::vector<SheetSet> sets = several_sheets(draw, roll, 16);
  std::size_t pages = 0;
  for (const SheetSet& one : sets)
    pages += one.drawing.pages.size();
  std::vector<std::size_t> left_out;
  const SheetSet set = on_one_length(joined(sets, left_out), roll);
  EXPECT_TRUE(left_out.empty());
  ASSERT_GE(set.drawing.pages.size(), 2u);
  std::size_t framed = 0;
  for (const Page& page : set.drawing.pages) {
    EXPECT_LE(page.paper.height, longest_page);
    for (const Box& frame : frames_on(page))
      framed += frame.right - frame.left > 100 ? 1 : 0;
  }
  EXPECT_GE(framed, pages);
  for (const Template& part : set.templates)
    EXPECT_LT(part.page, set.drawing.pages.size());
}

TEST(OneLength, LeavesOutASetThatNeedsOtherTypefaces) {
  Draw draw(13);
  const Paper roll = roll_of("914");
  std::vector<SheetSet> sets = several_sheets(draw, roll, 3);
  const std::size_t wanted = sets[0].drawing.pages.size() + sets[2].drawing.pages.size();
  sets[1].drawing.lettering.faces.push_back({{"/a/face.ttf", 0}, {"/a/face.ttf", 0}, U"é"});
  std::vector<std::size_t> left_out;
  const SheetSet set = joined(sets, left_out);
  EXPECT_EQ(left_out, (std::vector<std::size_t>{1}));
  EXPECT_EQ(set.drawing.pages.size(), wanted);
}

TEST(OneLength, RefusesAPageThatIsWiderThanTheRoll) {
  Draw draw(17);
  const SheetSet loose = several_sheets(draw, roll_of("914"), 1)[0];
  EXPECT_THROW(on_one_length(loose, roll_of("210")), DoesNotFit);
}

TEST(OneLength, SaysHowMuchOfTheRollItTakes) {
  Drawing drawing;
  for (const double length : {1240.2, 300.0})
    drawing.pages.push_back({{"roll", 914, length, true}, "", {}});
  EXPECT_EQ(roll_words(drawing), "it takes 1541 mm of the roll, 914 wide");
}

} // namespace
} // namespace shankline::tests::one_length_test
