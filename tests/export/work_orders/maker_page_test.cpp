// The maker's page: it says by itself what may be cut, how well that is known, and who has to sign.
#include "export/work_orders/maker_sheet.hpp"

#include "export/sets/order_sheets.hpp"
#include "geometry/order/figure.hpp"
#include "tests/export/layout_check.hpp"
#include "tests/export/said_on_page.hpp"
#include "tests/geometry/worked_order.hpp"
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <variant>

namespace shankline::tests::maker_page_test {
namespace {

const std::string title = "Order for the maker";

std::string maker_words(const Order& order) {
  return page_words(order, title);
}

const Page& maker_page(const SheetSet& set) {
  return *std::find_if(set.drawing.pages.begin(), set.drawing.pages.end(),
                       [](const Page& page) { return page.title == title; });
}

const Text& text_with(const Page& page, const std::string& words) {
  for (const Mark& mark : page.marks)
    if (const auto* text = std::get_if<Text>(&mark))
      if (text->words.find(words) != std::string::npos) return *text;
  throw std::runtime_error("no text with '" + words + "' on the page");
}

std::string plus_minus(double U) {
  return "\u00b1" + figure(U);
}

// Before, the page had no caution at all.
TEST(MakerPage, CarriesEveryCautionTheGravestFirstAboveTheFirstCut) {
  const Order order = doubtful_order();
  const Solution solution = solve(order);
  const Findings cautions{
      {Severity::caution, "feet.left.ankle_girth", "an ordinary one", "", "Look twice."},
      {Severity::caution, "feet.left.heel_front", "an estimated one", "", "Measure it."},
      {Severity::caution, "alterations.left.shank.reach", "a short one", "", "Ask.",
       rank_of_short_board},
      {Severity::caution, "feet.left.length", "a growing one", "", "Ask first.",
       rank_of_growing_foot}};
  const SheetSet set = sheet_set(order, solution, cautions,
                                 {papers().front(), Units::mm, "4f9c 2107", {}, true, false});
  const Page& page = maker_page(set);
  double above = page.paper.height;
  for (const char* words :
       {"A growing one. Ask first.", "A short one. Ask.", "An estimated one. Measure it.",
        "An ordinary one. Look twice.", "A cut board cannot be put back", "1 FIRST CUT OFF"}) {
    const double y = text_with(page, words).at.y;
    EXPECT_LT(y, above) << words;
    above = y;
  }
}

// Before, a figure that nobody measured stood there as "56.5 +0 −1.5".
TEST(MakerPage, SaysHowWellTheLinesAreKnownAndWhatWasNotMeasured) {
  Order order = doubtful_order();
  const std::string measured_words = maker_words(order);
  order.left->foot.heel_front.reset();
  order.left->foot.fold.reset();
  const Solution solution = solve(order);
  ASSERT_TRUE(solution.left && solution.left->trim);
  const SolvedTrim& trim = *solution.left->trim;
  const std::string words = maker_words(order);
  for (const double U : {trim.right_U, trim.doubt.stop.expanded(), trim.final_doubt().expanded(),
                         trim.doubt.heel_front_line.expanded()})
    EXPECT_NE(words.find(plus_minus(U)), std::string::npos) << U << ":\n" << words;
  EXPECT_GT(trim.right_U, 12.5);
  expect_said(words, {"not measured: heel front, fold", "heel front, left: 61.0 \u00b110",
                      "fold, left: 6.0 \u00b16"});
  expect_said(measured_words, {"right place known to \u00b112.4"}, {"not measured: heel front"});
}

// A line copied or marked by hand is known better than the line at the heel front.
TEST(MakerPage, AMarkedLineDoesNotHideWhatTheHeelFrontIsKnownTo) {
  Order order = doubtful_order();
  order.left->alterations.shank->rule = MarkRule{measured(60, 1)};
  const Solution solution = solve(order);
  ASSERT_TRUE(solution.left && solution.left->trim);
  const TrimDoubt& doubt = solution.left->trim->doubt;
  ASSERT_LT(doubt.board.expanded(), doubt.heel_front_line.expanded() - 1);
  const std::string words = maker_words(order);
  EXPECT_NE(words.find("line at the heel front"), std::string::npos) << words;
  EXPECT_NE(words.find("known to " + plus_minus(doubt.heel_front_line.expanded())),
            std::string::npos)
      << words;
  expect_said(maker_words(doubtful_order()), {}, {"line at the heel front"});
}

TEST(MakerPage, SaysWhatTheLineWasLearnedFromAndWhatTheReadingsAloneSay) {
  Order order = doubtful_order();
  order.left->alterations.shank->rule = LearnedRule{LearnedLine{58, 4.5, 4, "2026-08-14", 1, 0}};
  const Solution solution = solve(order);
  ASSERT_TRUE(solution.left && solution.left->trim);
  const Uncertain& heel_front = solution.left->trim->doubt.heel_front_line;
  const std::string alone = "by the readings alone: reach edge, " +
                            ruler_text(heel_front.value, Rounding::down) + " " +
                            plus_minus(heel_front.expanded());
  expect_said(
      maker_words(order),
      {"right place learned from 4 pairs until 2026-08-14, known to \u00b14.5", alone.c_str()});
  expect_said(maker_words(doubtful_order()), {}, {"learned", "readings alone"});
}

// Before, the drawing had the final line only, as "the cut".
TEST(MakerPage, DrawsFirstCutFinalCutAndStopLineEachWithItsNumber) {
  const SheetSet set = every_sheet(doubtful_order());
  const Page& page = maker_page(set);
  const auto y_of = [&](LineKind kind) {
    std::vector<double> found;
    for (const Mark& mark : page.marks)
      if (const auto* line = std::get_if<Stroke>(&mark); line && line->kind == kind)
        found.push_back(line->points.front().y);
    EXPECT_EQ(found.size(), 1u) << line_style(kind).name;
    return found.empty() ? 0 : found.front();
  };
  EXPECT_LT(y_of(LineKind::first_cut), y_of(LineKind::final_cut));
  EXPECT_LT(y_of(LineKind::final_cut), y_of(LineKind::stop));
  expect_said(words_on(set, title), {"first 52.5", "final 62.0", "stop 78.0"});
}

// Before, there were twelve dots to sign on.
TEST(MakerPage, HasRoomToSignForTheFinalLine) {
  const SheetSet set = every_sheet(doubtful_order());
  const Page& page = maker_page(set);
  expect_said(words_on(set, title), {"final only when signed here"});
  const Point at = text_with(page, "signature, date: the final line may be cut").at;
  const Stroke* to_sign_on = nullptr;
  for (const Mark& mark : page.marks)
    if (const auto* line = std::get_if<Stroke>(&mark))
      if (line->kind == LineKind::frame && line->points.size() == 2 && line->points[0].x == at.x &&
          line->points[0].y > at.y && line->points[0].y < at.y + 5)
        to_sign_on = line;
  ASSERT_TRUE(to_sign_on);
  EXPECT_GE(to_sign_on->points[1].x - to_sign_on->points[0].x, 55);
  for (const Mark& mark : page.marks)
    if (const auto* text = std::get_if<Text>(&mark)) {
      const bool beside = text->at.x < to_sign_on->points[0].x;
      const double above = text->at.y - to_sign_on->points[0].y;
      EXPECT_FALSE(!beside && above > 0 && above < 10) << text->words;
    }
}

TEST(MakerPage, SaysTheStateOfTheBoardTheInsetAndTheNote) {
  Order order = doubtful_order();
  order.note = "The left one has a nail at 30.";
  expect_said(maker_words(order), {"Note: The left one has a nail at 30.", "loose, 220 long",
                                   "inset 5, shoe's back to heel end"});
  order.left->shoe.board.layers = 3;
  order.left->alterations.shank->layers = 2;
  expect_said(maker_words(order), {"3 layers", "2 of 3 from the foot side"});
  order = doubtful_order();
  order.left->shoe.board.state = BoardState::in_shoe;
  order.left->shoe.board.length.reset();
  expect_said(maker_words(order), {"stays in the shoe"}, {"loose"});
}

// Before, the line at 66 ran into the final cut at 63, and the other one stopped short of an edge.
TEST(MakerPage, LinesOfAThinnedStretchAreFineAndReachBothEdges) {
  Order order = doubtful_order();
  order.left->alterations.thinned = ThinWish{66, 100, 2.2};
  const SheetSet set = every_sheet(order);
  std::vector<std::pair<double, double>> ends; // of each level line: its first and last x
  std::vector<double> heights;
  const Stroke* final_cut = nullptr;
  for (const Mark& mark : maker_page(set).marks) {
    const auto* line = std::get_if<Stroke>(&mark);
    if (!line || line->points.size() != 2) continue;
    EXPECT_NE(line->kind, LineKind::thinned) << "its dashes are for the template";
    if (line->kind == LineKind::final_cut && !final_cut) final_cut = line;
    const Point& a = line->points[0];
    const Point& b = line->points[1];
    if (line->kind != LineKind::leader || std::abs(a.y - b.y) > 1e-9 || std::abs(a.x - b.x) > 2)
      continue;
    if (heights.empty() || std::abs(heights.back() - a.y) > 1e-9) {
      heights.push_back(a.y);
      ends.emplace_back(1e9, -1e9);
    }
    ends.back().first = std::min({ends.back().first, a.x, b.x});
    ends.back().second = std::max({ends.back().second, a.x, b.x});
  }
  ASSERT_TRUE(final_cut);
  ASSERT_EQ(heights.size(), 2u);
  const double scale = (heights[1] - heights[0]) / (100 - 66);
  ASSERT_GT(scale, 0.1);
  const BoardOutline outline(order.left->shoe.board.widths, order.left->shoe.board.loose_length());
  const double middle = (final_cut->points[0].x + final_cut->points[1].x) / 2;
  for (std::size_t i = 0; i < 2; ++i) {
    const BoardStation at(i == 0 ? 66 : 100);
    EXPECT_NEAR(ends[i].first, middle - scale * outline.half_width(Edge::medial, at), 1e-6);
    EXPECT_NEAR(ends[i].second, middle + scale * outline.half_width(Edge::medial, at), 1e-6);
  }
}

TEST(MakerPage, SaysThreeFiguresOfASkewLine) {
  const Order order = worked_order();
  const Solution solution = solve(order);
  ASSERT_TRUE(solution.left && solution.left->trim);
  const CutLine& first = *solution.left->trim->first_cut;
  ASSERT_GT(first.medial, first.lateral + 3);
  const std::string words = maker_words(order);
  for (const double at : {first.medial, first.centre, first.lateral})
    EXPECT_NE(words.find(ruler_text(at, Rounding::down)), std::string::npos) << at;
  expect_said(words, {"little-toe side", "centre", "big-toe side", "+0 \u22121.5, at the centre"});
}

TEST(MakerPage, GoesOnOverleafAndIsSignedOnceWhereThereIsTooMuchToSay) {
  Order order = doubtful_order();
  const Solution solution = solve(order);
  for (const std::size_t count : {1u, 30u, 90u}) {
    Findings cautions;
    for (std::size_t i = 0; i < count; ++i)
      cautions.push_back({Severity::caution, "feet.left.length", "caution " + std::to_string(i), "",
                          "Measure it twice more before anything is cut, and write it down."});
    const SheetSet set = sheet_set(order, solution, cautions,
                                   {papers().front(), Units::mm, "4f9c 2107", {}, true, false});
    std::size_t pages = 0;
    std::string words;
    for (const Page& page : set.drawing.pages) {
      if (!page.title.starts_with(title)) continue;
      ++pages;
      for (const Mark& mark : page.marks)
        if (const auto* text = std::get_if<Text>(&mark)) words += text->words + " ";
      EXPECT_TRUE(layout_faults(page).empty()) << layout_faults(page).front();
    }
    EXPECT_EQ(pages == 1, count == 1) << count;
    for (std::size_t i = 0; i < count; ++i)
      EXPECT_NE(words.find("Caution " + std::to_string(i) + "."), std::string::npos) << i;
    const std::size_t signed_at = words.find("ordered by, date");
    ASSERT_NE(signed_at, std::string::npos);
    EXPECT_EQ(words.find("ordered by, date", signed_at + 1), std::string::npos);
  }
}

TEST(MakerPage, IsOnePageForTheSamplesInMillimetres) {
  const ScratchDirectory scratch;
  int pages = 0;
  for (const auto& entry : std::filesystem::directory_iterator(places::samples)) {
    if (entry.path().extension() != ".yaml") continue;
    const std::string pdf = (scratch.path() / "sheets.pdf").string();
    ASSERT_EQ(run({places::program, "cut", entry.path().string(), "--maker", "-o", pdf}).exit_code,
              0);
    const std::string words = run({"pdftotext", pdf, "-"}).out;
    EXPECT_NE(words.find(title), std::string::npos) << entry.path();
    EXPECT_EQ(words.find(title + ", continued"), std::string::npos) << entry.path();
    ++pages;
  }
  EXPECT_GE(pages, 10);
}

TEST(MakerPage, SaysWhatIsOrderedInItsOrderAndWord) {
  Order order = doubtful_order();
  order.quantity = 6;
  order.due = "2027-03-01";
  order.deliver_to = "bench 2";
  order.note = "First line.\nSecond line.\n";
  order.left->shoe.stock = {{"zeta", "five and a half wide"}, {"alpha", "5.50"}};
  const SheetSet set = every_sheet(order);
  expect_said(words_on(set, title),
              {"quantity", "6 pairs", "due", "2027-03-01", "deliver to", "bench 2",
               "five and a half wide", "5.50", "Note: First line.", "Second line.",
               "signature, date, which pairs: the final line may be cut"});
  const Page& page = maker_page(set);
  double above = page.paper.height;
  for (const char* words : {"A cut board cannot be put back", "6 pairs", "2027-03-01", "bench 2",
                            "zeta", "alpha", "Note: First", "Second line.", "1 FIRST CUT OFF"}) {
    const double y = text_with(page, words).at.y;
    EXPECT_LT(y, above) << words;
    above = y;
  }
  order.quantity = 1;
  expect_said(maker_words(order), {"1 pair "}, {"pairs"});
}

TEST(MakerPage, SaysWhereTheFeetWantDifferentStock) {
  Order order = doubtful_order();
  order.right = order.left;
  order.left->shoe.stock = {{"size", "five"}, {"width", "wide"}};
  order.right->shoe.stock = {{"size", "five"}, {"width", "narrow"}, {"wings", "long"}};
  order.left->shoe.style = order.right->shoe.style = "S4";
  expect_said(
      maker_words(order),
      {"style S4 ", "size five ", "left: wide; right: narrow", "left: not said; right: long"},
      {"left: five"});
  order.right->shoe.style.clear();
  expect_said(maker_words(order), {"style left: S4; right: not said"});
}

TEST(MakerPage, KeepsItsLayoutWhateverIsOrdered) {
  const std::string long_word(200, 'W');
  std::string sentence;
  while (sentence.size() < 190)
    sentence += "wide words ";
  std::string note;
  for (int i = 0; i < 40; ++i)
    note += "A line of the note, " + std::to_string(i) + ".\n";
  for (const Paper& paper : {papers().front(), *read_paper("letter")})
    for (const std::string& words : {std::string("short"), sentence, long_word})
      for (const std::size_t rows : {0u, 1u, 7u, 40u}) {
        Order order = doubtful_order();
        order.right = order.left;
        order.quantity = 12;
        order.due = "2027-03-01";
        order.deliver_to = std::string(80, 'M');
        order.note = note;
        for (std::size_t i = 0; i < rows; ++i)
          order.left->shoe.stock.push_back(
              {i == 3 ? std::string(40, 'N') : "row " + std::to_string(i), words});
        if (rows != 7) order.right->shoe.stock = order.left->shoe.stock;
        const SheetSet set =
            sheet_set(order, solve(order), {}, {paper, Units::inch, "4f9c 2107", {}, true, false});
        std::size_t said = 0;
        for (const Page& page : set.drawing.pages) {
          if (!page.title.starts_with(title)) continue;
          EXPECT_TRUE(layout_faults(page).empty())
              << rows << " " << words << ": " << layout_faults(page).front();
          for (const Mark& mark : page.marks)
            if (const auto* text = std::get_if<Text>(&mark))
              said += text->words.starts_with("A line of the note,") ||
                              text->words.starts_with("Note: A line")
                          ? 1
                          : 0;
        }
        EXPECT_EQ(said, 40u);
      }
}

} // namespace
} // namespace shankline::tests::maker_page_test
