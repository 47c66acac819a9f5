// Every kind of page, over orders whose sides have any shape that an order may give them: each
// point is a number and lies on the page, no line runs through a text, and the PDF takes it.
#include "export/bench/acceptance_sheet.hpp"
#include "export/bench/printer_sheet.hpp"
#include "export/formats/pdf_writer.hpp"
#include "export/overlays/compare_sheet.hpp"
#include "export/page/sheet_page.hpp"
#include "export/sets/order_sheets.hpp"
#include "export/sets/part_files.hpp"
#include "export/work_orders/label_sheet.hpp"
#include "export/work_orders/rack_sheet.hpp"
#include "tests/export/layout_check.hpp"
#include "tests/geometry/compared_order.hpp"
#include "tests/geometry/random_orders.hpp"
#include "tests/support/fewer_cases.hpp"
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <map>
#include <variant>

namespace shankline::tests::every_page_test {
namespace {

std::string name_of(const Paper& paper) {
  return std::string(paper.name);
}

double to_half(double value) {
  return std::round(2 * value) / 2;
}

/// Heights anywhere within their limits and apart from one another: a back below the sides, sides
/// that rise or fall all the way, lowered by little or by nearly all that there is.
void reshape_sides(Draw& draw, FootOrder& order) {
  StockSides& stock = *order.shoe.sides;
  stock.back = to_half(draw.uniform(20, 60));
  stock.low = to_half(draw.uniform(20, 60));
  stock.wing = to_half(draw.uniform(20, 60));
  stock.heights.clear();
  stock.medial.reset();
  stock.lateral.reset();
  // The walls' lean was drawn for other heights.
  if (stock.width_across) stock.lean_rad = draw.uniform(-0.1, 0.3);
  stock.width_across.reset();
  SideWish& wish = *order.alterations.sides;
  wish.keep = to_half(draw.uniform(10, 20));
  if (draw.chance(0.5)) wish.slope = draw.uniform(0.3, 2);
  if (draw.chance(0.5)) wish.run_out = draw.uniform(5, 40);
  const double side = std::max(0.0, *stock.low - wish.keep - 2);
  const auto depth = [&] { return to_half(draw.chance(0.2) ? 0.0 : draw.uniform(0, side)); };
  wish.medial = depth();
  wish.lateral = depth();
  wish.back = draw.chance(0.5) ? 0.0 : to_half(draw.uniform(0, std::max(0.0, *stock.back - 20)));
}

/// Asks for less until that can be done; what cannot be done at all stays refused.
ComparedOrder solved_by_asking_less(Order order) {
  for (int halvings = 0;; ++halvings) {
    ComparedOrder now(order);
    if (!has_error(now.solution.findings) || halvings == 4) return now;
    for (std::optional<FootOrder>* foot : {&order.left, &order.right}) {
      if (!*foot) continue;
      (*foot)->alterations.tuck.reset();
      SideWish& wish = *(*foot)->alterations.sides;
      for (std::optional<double>* depth : {&wish.medial, &wish.lateral})
        if (*depth) **depth = to_half(**depth / 2);
      wish.back = to_half(wish.back / 2);
    }
  }
}

class EveryPage : public testing::Test {
protected:
  void look(const Drawing& drawing, const std::string& kind, const std::string& about) {
    ++looked_[kind];
    const Typeface typeface(drawing.lettering);
    // An overlay's ring round the farthest place may lie on the name of the seam there.
    if (kind != "Comparison")
      for (const Page& page : drawing.pages)
        for (const std::string& fault : layout_faults(page))
          ADD_FAILURE() << about << ", " << page.title << ": " << fault;
    for (const Page& page : drawing.pages)
      for (const Mark& mark : page.marks)
        if (const Stroke* line = std::get_if<Stroke>(&mark)) {
          for (const Point& p : line->points)
            look(p, page, drawing.margin, about);
        } else if (const Text* text = std::get_if<Text>(&mark)) {
          const Box box = text_box(*text, typeface);
          for (const Point& corner : {Point{box.left, box.bottom}, Point{box.right, box.top}})
            look(corner, page, drawing.margin, about + ", '" + text->words + "'");
          for (const char* word : {"nan", "inf"})
            if ((" " + text->words + " ").find(std::string(" ") + word + " ") != std::string::npos)
              ADD_FAILURE() << about << ", " << page.title << ": " << text->words;
        }
    try {
      pdf_bytes(drawing);
    } catch (const DrawingFault& fault) {
      ADD_FAILURE() << about << ", " << kind << ": " << fault.what();
    }
  }

  void look(const SheetSet& set, const std::string& about) {
    if (set.drawing.pages.empty()) return; // a comparison without anything to lay over
    for (const Page& page : set.drawing.pages)
      ++looked_[page.title.substr(0, page.title.find_first_of(",:"))];
    look(set.drawing, set.drawing.title.substr(0, set.drawing.title.find(':')), about);
  }

  void look(const ComparedOrder& now, const Paper& paper, Units units, const std::string& about) {
    const SheetWish wish{paper, units, "4f9c 2107", {}, true, true};
    const Solution& solution = now.solution;
    const SheetSet sheets = sheet_set(now.order, solution, solution.findings, wish);
    look(sheets, about);
    for (const PartFile& file :
         part_files(sheets, now.order, solution, wish.digest, {true, true}).files)
      if (file.bytes.find("nan") != std::string::npos)
        ADD_FAILURE() << about << ", " << file.suffix << " holds a figure that is not a number";
    const auto lines = acceptance_lines(now.order, solution);
    std::vector<MadeSize> made;
    for (const AcceptanceLine& line : lines)
      made.push_back({line.foot, line.key, line.nominal + 0.3, 0.4, "half-millimetre rule"});
    look(acceptance_set(now.order, judge_pair(lines, {}), {true, {}, {}}, wish), about);
    look(acceptance_set(now.order, judge_pair(lines, made), {false, "2026-04-02", "bench"}, wish),
         about);
    look(comparison_set(compare_feet(now.operand()), now.operand(), now.operand(), wish), about);
    look(charts(now, wish), about);
  }

  static SheetSet charts(const ComparedOrder& now, const SheetWish& wish) {
    std::vector<FootChart> charts;
    if (now.contact.left)
      if (auto chart = break_chart(now.order, *now.solution.left, *now.contact.left))
        charts.push_back({FootSide::left, std::move(*chart)});
    if (now.contact.right)
      if (auto chart = break_chart(now.order, *now.solution.right, *now.contact.right))
        charts.push_back({FootSide::right, std::move(*chart)});
    if (charts.empty()) return sheet_set(now.order, now.solution, now.solution.findings, wish);
    return chart_set(now.order, now.solution, charts, wish);
  }

  void expect_on_their_pages(int orders) {
    Draw draw(20260501);
    Draw sides(20260502);
    Draw work(20260503);
    Draw shape(20260504);
    const std::vector<Paper> all(papers().begin(), papers().end());
    std::optional<ComparedOrder> before;
    std::vector<RackShoe> shoes;
    int solved = 0;
    int low_backs = 0;
    for (int i = 0; i < orders; ++i) {
      Order order =
          random_order_with_sides(draw, sides, i % 3 == 0 ? Population::men : Population::women);
      for (std::optional<FootOrder>* foot : {&order.left, &order.right})
        if (*foot) {
          add_random_work(work, **foot);
          reshape_sides(shape, **foot);
        }
      ComparedOrder now = solved_by_asking_less(std::move(order));
      const Solution& solution = now.solution;
      if (has_error(solution.findings) || (!solution.left && !solution.right)) continue;
      ++solved;
      for (const auto* foot : {&solution.left, &solution.right})
        if (*foot && (*foot)->sides && (*foot)->sides->medial.low_at < 1) ++low_backs;
      const std::string about = "order " + std::to_string(i);
      const Paper& paper = all[static_cast<std::size_t>(i) % all.size()];
      look(now, paper, i % 2 == 0 ? Units::mm : Units::inch, about + " on " + name_of(paper));
      if (before)
        look(comparison_set(compare_orders(before->operand(), now.operand(), true),
                            before->operand(), now.operand(), {paper, Units::mm, "4f9c 2107"}),
             about + " and the one before");
      for (RackShoe& shoe : rack_shoes(now.order, solution, "4f9c " + std::to_string(1000 + i)))
        shoes.push_back(std::move(shoe));
      if (HasFailure()) return; // one order's faults are enough to read
      before.emplace(std::move(now));
    }
    for (const Paper& paper : all) {
      look(rack_set(shoes, {paper, Units::mm, {}}), "the rack on " + name_of(paper));
      look(label_set(shoes, {paper, Units::mm, {}}), "the labels on " + name_of(paper));
      look(printer_sheet(paper), "Printer", "the printer's sheet on " + name_of(paper));
    }
    EXPECT_GE(solved, orders / 2);
    EXPECT_GE(low_backs, orders / 10); // the shape that once was no page
    for (const char* kind :
         {"Order", "Order for the maker", "Dancer's card", "Board", "Side", "Liner", "Darning",
          "Ribbons and sewing", "Acceptance", "Acceptance of the pair", "Boards", "Sides",
          "Break chart", "Rack", "Labels", "Printer"})
      EXPECT_GE(looked_[kind], 1) << kind;
  }

  static void look(const Point& p, const Page& page, double margin, const std::string& about) {
    if (p.x >= margin && p.y >= margin && p.x <= page.paper.width - margin &&
        p.y <= page.paper.height - margin)
      return;
    ADD_FAILURE() << about << ", " << page.title << ": " << p.x << ", " << p.y;
  }

private:
  std::map<std::string, int> looked_; ///< how many of each kind
};

// The maker's page once had arrows without a direction if a side was lowest at its back seam.
TEST_F(EveryPage, LiesOnItsPaperWhateverShapeTheSidesHave) {
  expect_on_their_pages(fewer_cases(24));
}

using LongEveryPage = EveryPage;
TEST_F(LongEveryPage, LiesOnItsPaperWhateverShapeTheSidesHave) {
  expect_on_their_pages(1000);
}

/// The page to note readings on does not depend on an order.
TEST(EveryForm, LiesOnItsPaper) {
  const ScratchDirectory scratch;
  for (const Paper& paper : papers()) {
    const std::string file = (scratch.path() / (name_of(paper) + ".pdf")).string();
    const Finished form = run({places::program, "form", "--paper", name_of(paper), "-o", file});
    EXPECT_EQ(form.exit_code, 0) << form.err;
  }
}

} // namespace
} // namespace shankline::tests::every_page_test
