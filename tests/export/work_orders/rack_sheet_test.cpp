// The rack and its labels: legible for drawn orders on every paper, every shoe on them once.
#include "export/work_orders/rack_sheet.hpp"

#include "export/work_orders/label_sheet.hpp"
#include "tests/export/layout_check.hpp"
#include "tests/geometry/random_orders.hpp"
#include "tests/geometry/worked_order.hpp"

#include <gtest/gtest.h>
#include <set>
#include <variant>

namespace shankline::tests::rack_sheet_test {
namespace {

std::vector<RackShoe> random_shoes(std::size_t orders) {
  Draw draw(20260701);
  Draw sides(20260702);
  std::vector<RackShoe> shoes;
  for (std::size_t i = 0; i < orders; ++i) {
    Order order = random_order_with_sides(draw, sides, Population::women);
    order.dancer = i % 3 == 0 ? "M-07" : "a dancer whose code is as long as codes may be";
    order.pair = i % 2 == 0 ? "touring, spring, the second pair of the six for the long western leg"
                            : "class";
    order.date = i % 5 == 0 ? "" : "2026-03-14";
    const Solution solution = solve(order);
    if (has_error(solution.findings)) continue;
    for (RackShoe& shoe : rack_shoes(order, solution, "4f9c " + std::to_string(1000 + i)))
      shoes.push_back(std::move(shoe));
  }
  return shoes;
}

std::size_t texts_with(const Drawing& drawing, const std::string& words) {
  std::size_t count = 0;
  for (const Page& page : drawing.pages)
    for (const Mark& mark : page.marks)
      if (const Text* text = std::get_if<Text>(&mark)) count += text->words == words ? 1u : 0u;
  return count;
}

TEST(RackSheet, IsLegibleAndHoldsEveryShoeOnce) {
  const std::vector<RackShoe> shoes = random_shoes(60);
  ASSERT_GE(shoes.size(), 60u);
  std::vector<Paper> all(papers().begin(), papers().end());
  all.push_back(*read_paper("roll:914"));
  for (const Paper& paper : all)
    for (const std::size_t count : {std::size_t{1}, std::size_t{17}, shoes.size()}) {
      const std::vector<RackShoe> some(shoes.begin(),
                                       shoes.begin() + static_cast<std::ptrdiff_t>(count));
      const SheetWish wish{paper, Units::mm, {}};
      for (const SheetSet& set : {rack_set(some, wish), label_set(some, wish)}) {
        const Drawing& drawing = set.drawing;
        EXPECT_EQ(texts_with(drawing, "L") + texts_with(drawing, "R"), count);
        for (const Page& page : drawing.pages)
          for (const std::string& fault : layout_faults(page))
            ADD_FAILURE() << drawing.title << " on " << paper.name << ": " << fault;
      }
      if (testing::Test::HasFailure()) return;
    }
}

// Before, the label of a pair that was tried and cut gave its first cut.
TEST(RackSheet, ALabelSaysWhatAPairIsCutToByNow) {
  RackShoe shoe;
  CutLine line;
  line.centre = line.medial = line.lateral = BoardStation(47.5);
  shoe.first_cut = line;
  line.centre = line.medial = line.lateral = BoardStation(57);
  shoe.final_cut = line;
  const auto said = [&](const char* words) {
    return texts_with(label_set({shoe}, {papers()[0], Units::mm, {}}).drawing, words);
  };
  EXPECT_EQ(said("first 47.5"), 1u);
  shoe.since = {55.0, "2026-03-20", ""};
  EXPECT_EQ(said("first 47.5"), 0u);
  EXPECT_EQ(said("cut to 55.0 on 2026-03-20"), 1u);
  EXPECT_EQ(said("final 57.0, after trying"), 1u);
  shoe.since.cut_off = 56.9;
  EXPECT_EQ(said("final 57.0, after trying"), 1u);
  shoe.since.cut_off = 57.0;
  EXPECT_EQ(said("final 57.0, reached"), 1u);
  shoe.since.ended = "2026-03-25: board";
  EXPECT_EQ(said("cut to 57.0 on 2026-03-20"), 1u);
  EXPECT_EQ(said("final 57.0, reached"), 0u);
  EXPECT_EQ(said("ended 2026-03-25: board"), 1u);
}

TEST(RackSheet, ALabelHasRoomForWhatBecameOfThePair) {
  std::vector<RackShoe> shoes = random_shoes(60);
  for (std::size_t i = 0; i < shoes.size(); ++i) {
    if (i % 3 != 0) shoes[i].since = {55.0, "2026-03-20", ""};
    if (i % 3 != 1) shoes[i].since.ended = "2026-03-25: the satin is through at both tips";
    shoes[i].entry = 100000 + static_cast<long long>(i);
  }
  for (const Units units : {Units::mm, Units::inch})
    for (const Page& page : label_set(shoes, {papers()[0], units, {}}).drawing.pages)
      for (const std::string& fault : layout_faults(page))
        ADD_FAILURE() << fault;
}

TEST(RackSheet, BothShoesOfAnOrderStandOnOnePage) {
  const std::vector<RackShoe> shoes = random_shoes(60);
  const Drawing rack = rack_set(shoes, {papers()[0], Units::mm, {}}).drawing;
  ASSERT_GT(rack.pages.size(), 1u);
  // An order's digest is written once, beside its first shoe: never again on the next page.
  std::set<std::string> seen;
  for (const Page& page : rack.pages)
    for (const Mark& mark : page.marks) {
      const Text* text = std::get_if<Text>(&mark);
      if (!text || text->words.rfind("4f9c ", 0) != 0) continue;
      EXPECT_TRUE(seen.insert(text->words).second) << text->words;
    }
  EXPECT_GE(seen.size(), 30u);
}

TEST(RackSheet, SaysOneFigureForASquareLineAndThreeForASkewOne) {
  CutLine square;
  square.centre = square.medial = square.lateral = BoardStation(62);
  CutLine skew = square;
  skew.medial = BoardStation(64);
  skew.lateral = BoardStation(60);
  EXPECT_EQ(cut_words(square), "62.0");
  EXPECT_EQ(cut_words(skew), "big toe 64.0 \u00b7 centre 62.0 \u00b7 little toe 60.0");
  EXPECT_EQ(cut_words({}), "\u2013");
  RackShoe shoe;
  EXPECT_EQ(side_words(shoe), "");
  shoe.sides = RackSides{5, 4, 0};
  EXPECT_EQ(side_words(shoe), "big toe 5 \u00b7 little toe 4");
  shoe.sides->back = 2.5;
  EXPECT_EQ(side_words(shoe), "big toe 5 \u00b7 little toe 4 \u00b7 back 2.5");
}

TEST(RackSheet, LongSidesAreBrokenBetweenTwo) {
  RackShoe shoe;
  const auto up_to = [&](std::size_t room) {
    return side_lines(shoe, Units::inch, "sides ",
                      [room](const std::string& one) { return one.size() <= room; });
  };
  EXPECT_TRUE(up_to(80).empty());
  shoe.sides = RackSides{6.3, 5.2, 3};
  using Lines = std::vector<std::string>;
  EXPECT_EQ(up_to(80), Lines{"sides big toe 6.3 (7/32 in) \u00b7 little toe 5.2 (3/16 in) \u00b7 "
                             "back 3 (3/32 in)"});
  EXPECT_EQ(up_to(60), (Lines{"sides big toe 6.3 (7/32 in) \u00b7 little toe 5.2 (3/16 in)",
                              "back 3 (3/32 in)"}));
  EXPECT_EQ(up_to(45), (Lines{"sides big toe 6.3 (7/32 in)",
                              "little toe 5.2 (3/16 in) \u00b7 back 3 (3/32 in)"}));
}

RackShoe full_shoe(FootSide side) {
  Order order = worked_order(); // without doubts, so its line is skew
  order.left->foot.fold.reset();
  order.left->shoe.board.layers = 3;
  order.left->alterations.shank->layers = 2;
  Solution solution = solve(order);
  solution.findings.push_back(
      {Severity::caution, "feet.left.length", "unusual", "", "Look twice."});
  RackShoe shoe = rack_shoes(order, solution, "4f9c 2107").at(0);
  shoe.foot = side;
  shoe.sides = RackSides{5, 4, 2.5};
  return shoe;
}

/// Every text on a line of its own.
std::string words_of(const Drawing& drawing) {
  std::string words;
  for (const Page& page : drawing.pages)
    for (const Mark& mark : page.marks)
      if (const Text* text = std::get_if<Text>(&mark)) words += text->words + "\n";
  return words;
}

// Before, a label cut a skew line's figures off: "first big toe 56.0 · centr…".
TEST(RackSheet, NoFigureOfAFullShoeIsCutOff) {
  const std::vector<RackShoe> shoes{full_shoe(FootSide::left), full_shoe(FootSide::right)};
  const auto off = [](double mm) { return ruler_text(mm, Rounding::down); };
  const CutLine& first = *shoes[0].first_cut;
  const CutLine& last = *shoes[0].final_cut;
  ASSERT_NE(off(first.medial), off(first.lateral));
  for (const Paper& paper : papers()) {
    const SheetWish wish{paper, Units::mm, {}};
    for (const SheetSet& set : {rack_set(shoes, wish), label_set(shoes, wish)}) {
      const std::string words = words_of(set.drawing);
      for (const CutLine* line : {&first, &last}) {
        EXPECT_NE(words.find(off(line->centre)), std::string::npos) << words;
        EXPECT_NE(words.find("big toe " + off(line->medial) + " \u00b7 little toe " +
                             off(line->lateral) + "\n"),
                  std::string::npos)
            << words;
      }
      for (const char* part :
           {"! see sheet: fold not measured\n", "only 2 of 3 layers", "little toe 4"})
        EXPECT_NE(words.find(part), std::string::npos) << paper.name << ": " << part << words;
      EXPECT_EQ(words.find("\u2026"), std::string::npos) << paper.name << words;
      for (const Page& page : set.drawing.pages)
        for (const std::string& fault : layout_faults(page))
          ADD_FAILURE() << set.drawing.title << " on " << paper.name << ": " << fault;
    }
  }
}

// Before: "sides big toe 6.3 (7/32 in) · little toe 5.2 (3/16 i…", and no back.
TEST(RackSheet, LoweredSidesHaveRoomForTheirInches) {
  std::vector<RackShoe> shoes{full_shoe(FootSide::left), full_shoe(FootSide::right)};
  for (RackShoe& shoe : shoes)
    shoe.sides = RackSides{6.3, 5.2, 3};
  for (const Paper& paper : papers()) {
    const SheetWish wish{paper, Units::inch, {}};
    for (const SheetSet& set : {rack_set(shoes, wish), label_set(shoes, wish)}) {
      const std::string words = words_of(set.drawing);
      for (const char* part :
           {"big toe 6.3 (7/32 in)", "little toe 5.2 (3/16 in)", "back 3 (3/32 in)\n",
            "! see sheet: fold not measured\n", "only 2 of 3 layers\n"})
        EXPECT_NE(words.find(part), std::string::npos) << paper.name << ": " << part << words;
      EXPECT_EQ(words.find("\u2026"), std::string::npos) << paper.name << words;
      for (const Page& page : set.drawing.pages)
        for (const std::string& fault : layout_faults(page))
          ADD_FAILURE() << paper.name << ": " << fault;
    }
  }
}

// Before, only a grave caution was marked, and of the readings only the heel front.
TEST(RackSheet, MarksAShoeWithCautionsOrWithEstimatedReadings) {
  Order order = worked_order();
  const auto see = [&](const Findings& findings = {}) {
    Solution solution = solve(order);
    EXPECT_TRUE(solution.findings.empty() || !order.left->foot.heel_front);
    solution.findings.insert(solution.findings.end(), findings.begin(), findings.end());
    return rack_shoes(order, solution, "4f9c 2107").at(0).see;
  };
  EXPECT_EQ(see(), "");
  EXPECT_EQ(see({{Severity::caution, "feet.left.length", "unusual", "", ""}}), "! see sheet");
  EXPECT_EQ(see({{Severity::caution, "feet.right.length", "unusual", "", ""}}), "");
  order.left->foot.fold.reset();
  EXPECT_EQ(see(), "fold not measured");
  order.left->foot.heel_front.reset(); // which is a caution as well
  EXPECT_EQ(see(), "! see sheet: heel front, fold not measured");
  order.left->foot.ball_length.reset(); // moves no cut
  EXPECT_EQ(see(), "! see sheet: heel front, fold not measured");
}

TEST(RackSheet, MarksAGrowingFoot) {
  Order order = worked_order();
  order.growing = true;
  order.decided_by = "T-1";
  const Solution solution = solve(order);
  EXPECT_EQ(rack_shoes(order, solution, "4f9c 2107").at(0).see,
            "! growing foot, ask first, see sheet");
}

} // namespace
} // namespace shankline::tests::rack_sheet_test
