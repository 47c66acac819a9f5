// Thinned and layered boards, filler, tuck, casing: what is done besides cutting.
#include "geometry/board/board_thinning.hpp"
#include "geometry/breaking/foot_contact.hpp"
#include "geometry/finishing/heel_work.hpp"
#include "geometry/solution/solution.hpp"
#include "tests/geometry/sides_of_order.hpp"
#include "tests/geometry/worked_order.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace shankline::tests::other_work_test {
namespace {

std::optional<FootContact> contact_of(const Order& order) {
  const Solution solution = solve(order);
  EXPECT_TRUE(solution.left);
  if (!solution.left) return {};
  return foot_contact(*order.left, *solution.left).contact;
}

Order thinned(double thickness) {
  Order order = worked_order();
  order.left->alterations.shank.reset();
  order.left->alterations.thinned = ThinWish{60, 96, thickness};
  return order;
}

TEST(ThinnedBoard, EntersTheContactByTheCubeOfItsThickness) {
  const Order order = thinned(1.6);
  const Solution solution = solve(order);
  ASSERT_TRUE(solution.left && solution.left->thinned);
  EXPECT_DOUBLE_EQ(solution.left->thinned->ratio, 0.5);
  const auto contact = foot_contact(*order.left, *solution.left).contact;
  ASSERT_TRUE(contact && contact->cut);
  const Strip& strip = contact->cut->problem.strip;
  ASSERT_TRUE(strip.thinned);
  // Board station = foot station + 1, u = 172 − foot station.
  EXPECT_NEAR(strip.thinned->from, 172 - 95, 1e-9);
  EXPECT_NEAR(strip.thinned->to, 172 - 59, 1e-9);
  EXPECT_NEAR(board_part(strip, 90), strip.board / 8, 1e-9 * strip.board);
  EXPECT_NEAR(board_part(strip, 60), strip.board, 1e-9 * strip.board);
  EXPECT_EQ(strip.board_end, contact->uncut.problem.strip.board_end) << "nothing is cut off";
  EXPECT_LT(contact->heel_pry_left, 1);
}

TEST(ThinnedBoard, PrysLessTheThinnerItGets) {
  double before = std::numeric_limits<double>::infinity();
  for (const double thickness : {3.1, 2.7, 2.3, 1.9}) {
    const auto contact = contact_of(thinned(thickness));
    ASSERT_TRUE(contact);
    EXPECT_LT(contact->heel_pry_left, before) << thickness;
    before = contact->heel_pry_left;
  }
}

TEST(ThinnedBoard, SaysWhatIsWrong) {
  struct Case {
    const char* key;
    ThinWish wish;
    std::optional<double> board_thickness = 3.2;
    bool cut = false;
  };
  for (const Case& c : {Case{"alterations.left.thinned.from", {{}, 96, 2.0}},
                        Case{"alterations.left.thinned.to", {60, {}, 2.0}},
                        Case{"alterations.left.thinned.thickness", {60, 96, {}}},
                        Case{"alterations.left.thinned.to", {96, 60, 2.0}},
                        Case{"alterations.left.thinned.to", {60, 230, 2.0}},
                        Case{"alterations.left.thinned.thickness", {60, 96, 3.2}},
                        Case{"shoe.left.board.thickness", {60, 96, 2.0}, {}},
                        Case{"alterations.left.thinned.from", {50, 96, 2.0}, 3.2, true}}) {
    Order order = worked_order();
    if (!c.cut) order.left->alterations.shank.reset();
    order.left->alterations.thinned = c.wish;
    order.left->shoe.board.thickness = c.board_thickness;
    const Solution solution = solve(order);
    EXPECT_FALSE(solution.left) << c.key;
    ASSERT_EQ(solution.findings.size(), 1u) << c.key;
    EXPECT_EQ(solution.findings[0].key, c.key);
  }
}

Order layered(std::optional<int> cut, int of) {
  Order order = worked_order();
  order.left->shoe.board.layers = of;
  order.left->alterations.shank->layers = cut;
  return order;
}

TEST(LayeredBoard, TheRestGoesOnToTheHeel) {
  const auto half = contact_of(layered(1, 2));
  ASSERT_TRUE(half && half->cut);
  const Strip& strip = half->cut->problem.strip;
  ASSERT_TRUE(strip.thinned);
  EXPECT_EQ(strip.board_end, half->uncut.problem.strip.board_end);
  EXPECT_NEAR(board_part(strip, 140), strip.board / 8, 1e-9 * strip.board);
  EXPECT_NEAR(board_part(strip, 111 - 6), strip.board * 0.75 * 0.75 * 0.75, 1e-6 * strip.board)
      << "half-way down the bevel of 12";
  const auto whole = contact_of(layered({}, 2));
  ASSERT_TRUE(whole && whole->cut);
  EXPECT_LT(whole->heel_pry_left, half->heel_pry_left);
  EXPECT_LT(half->heel_pry_left, 1);
  const auto all_named = contact_of(layered(2, 2));
  ASSERT_TRUE(all_named && all_named->cut);
  EXPECT_EQ(all_named->heel_pry_left, whole->heel_pry_left) << "cutting both is cutting through";
}

TEST(LayeredBoard, TheBevelRunsOutOnTheLayerBelow) {
  const auto edge = [](const Order& order) {
    return solve(order).left->trim->bevel_edge_thickness;
  };
  EXPECT_DOUBLE_EQ(*edge(layered(1, 2)), 1.6);
  EXPECT_DOUBLE_EQ(*edge(layered(2, 2)), 0.8) << "cut through, a quarter of the thickness";
  Order order = layered(1, 2);
  order.left->shoe.board.edge_thickness = 0.5;
  EXPECT_DOUBLE_EQ(*edge(order), 1.6) << "what stays is thicker than any edge";
  order.left->shoe.board.thickness.reset();
  EXPECT_FALSE(edge(order));
}

// Before, the step stood square whatever the bevel: heel pry left 0.562129, heel gap left 0.657824
// and gap 3.246423 for no bevel, 6, 12 and 20 alike.
TEST(LayeredBoard, TheBevelEntersTheFigures) {
  const auto bevelled = [](double bevel) {
    Order order = layered(1, 2);
    order.left->alterations.shank->bevel = bevel;
    return contact_of(order);
  };
  const auto square = bevelled(0);
  const auto hardly = bevelled(1e-3);
  ASSERT_TRUE(square && square->cut && hardly && hardly->cut);
  EXPECT_NEAR(hardly->heel_pry_left, square->heel_pry_left, 1e-4) << "towards the square step";
  EXPECT_NEAR(hardly->cut->figures.gap, square->cut->figures.gap, 1e-4);
  double pry = square->heel_pry_left;
  double heel_gap = square->heel_gap_left;
  for (const double length : {6.0, 12.0, 20.0}) {
    const auto cut = bevelled(length);
    ASSERT_TRUE(cut && cut->cut) << length;
    EXPECT_GT(std::abs(cut->heel_pry_left - pry), 1e-4) << length;
    EXPECT_LT(cut->heel_gap_left, heel_gap - 1e-3) << "softer, so it lies nearer: " << length;
    pry = cut->heel_pry_left;
    heel_gap = cut->heel_gap_left;
  }
}

TEST(LayeredBoard, IsSweptByTheLayer) {
  const auto contact = contact_of(layered(1, 2));
  ASSERT_TRUE(contact);
  const FootStation at[]{FootStation(55), FootStation(61), FootStation(67)};
  const auto swept = sweep_trim(*contact, at);
  ASSERT_EQ(swept.size(), 3u);
  ASSERT_TRUE(swept[0] && swept[1] && swept[2]);
  EXPECT_NEAR(swept[1]->heel_pry, contact->cut->figures.heel_pry,
              1e-6 * contact->cut->figures.heel_pry);
  EXPECT_NE(swept[0]->heel_pry, swept[2]->heel_pry);
}

TEST(LayeredBoard, HasNoMoreLayersThanItHas) {
  const Solution solution = solve(layered(4, 3));
  EXPECT_FALSE(solution.left);
  ASSERT_EQ(solution.findings.size(), 1u);
  EXPECT_EQ(solution.findings[0].key, "alterations.left.shank.layers");
  EXPECT_EQ(solution.findings[0].what, "4 layers are to be cut, the board has 3");
  EXPECT_EQ(solution.findings[0].advice.find("layers: 2"), std::string::npos);
  EXPECT_TRUE(solve(layered(3, 3)).left);
}

// Before, one layer of a board whose layers nobody had counted was cut as the whole board.
TEST(LayeredBoard, HasToBeCountedBeforeALayerIsCut) {
  for (const int cut : {1, 2}) {
    Order order = layered(cut, 2);
    EXPECT_TRUE(solve(order).left);
    order.left->shoe.board.layers.reset();
    const Solution solution = solve(order);
    EXPECT_FALSE(solution.left);
    ASSERT_EQ(solution.findings.size(), 1u);
    const Finding& found = solution.findings[0];
    EXPECT_EQ(found.key, "alterations.left.shank.layers");
    EXPECT_NE(found.what.find("does not say how many"), std::string::npos) << found.what;
    EXPECT_NE(found.allowed.find("board: {layers: N}"), std::string::npos) << found.allowed;
    EXPECT_EQ((found.allowed + found.advice).find_first_of("0123456789"), std::string::npos)
        << "no number to copy: " << found.allowed << found.advice;
  }
}

TEST(Filler, IsThePieceCutOff) {
  Order order = worked_order();
  order.left->alterations.filler = true;
  Solution solution = solve(order);
  ASSERT_TRUE(solution.left && solution.left->filler);
  const SolvedFiller& filler = *solution.left->filler;
  EXPECT_NEAR(filler.area, solution.left->pieces.removed->area, 1e-6);
  EXPECT_DOUBLE_EQ(filler.thickness, 3.2);
  EXPECT_NEAR(filler.width, 45, 0.05);

  order.left->alterations.shank->end = BoardEnd::rounded;
  EXPECT_DOUBLE_EQ(solve(order).left->filler->length, filler.length)
      << "to the cut, not the corners";

  order.left->shoe.board.layers = 2;
  order.left->alterations.shank->layers = 1;
  solution = solve(order);
  ASSERT_TRUE(solution.left);
  EXPECT_DOUBLE_EQ(solution.left->filler->thickness, 1.6) << "one layer of two";

  order.left->alterations.shank.reset();
  order.left->alterations.liner = LinerWish{};
  solution = solve(order);
  EXPECT_FALSE(solution.left);
  EXPECT_EQ(solution.findings.back().key, "alterations.left.filler");

  order = worked_order();
  order.left->alterations.filler = true;
  order.left->shoe.board.thickness.reset();
  solution = solve(order);
  EXPECT_EQ(solution.findings.back().key, "shoe.left.board.thickness");
}

TEST(Tuck, TakesTwiceItsDepthOffTheTopLine) {
  Order order = worked_order();
  *order.left = worked_sides();
  order.left->shoe.sides->throat = 120;
  order.left->shoe.sides->casing = 9;
  const Solution plain = solve(order);
  order.left->alterations.tuck = TuckWish{{}, 35}; // as deep as the fold, 6
  const Solution tucked = solve(order);
  ASSERT_TRUE(plain.left && tucked.left && tucked.left->tuck);
  EXPECT_DOUBLE_EQ(tucked.left->tuck->depth, 6);
  EXPECT_DOUBLE_EQ(tucked.left->tuck->taken, 12);
  EXPECT_NEAR(plain.left->sides->top_line - tucked.left->sides->top_line, 12, 1e-9);
  EXPECT_NEAR(*plain.left->sides->drawstring - *tucked.left->sides->drawstring, 12, 1e-9);
  EXPECT_NEAR(*plain.left->sides->casing_width, 2 * (9 + 5), 1e-9);
}

TEST(Tuck, SaysWhatIsWrong) {
  struct Case {
    const char* key;
    TuckWish wish;
    std::optional<double> fold;
  };
  for (const Case& c :
       {Case{"feet.left.fold", {{}, 35}, {}}, Case{"feet.left.fold", {{}, 35}, 18.0},
        Case{"feet.left.fold", {{}, 35}, 0.0},
        Case{"alterations.left.tuck.down", {5.0, 50}, 6.0}}) {
    Order order = worked_order();
    *order.left = worked_sides();
    order.left->foot.fold = c.fold ? std::optional(measured(*c.fold)) : std::nullopt;
    order.left->alterations.tuck = c.wish;
    const Solution solution = solve(order);
    EXPECT_FALSE(solution.left);
    EXPECT_TRUE(has_error(solution.findings));
    bool found = false;
    for (const Finding& finding : solution.findings)
      found = found || (finding.severity == Severity::error && finding.key == c.key);
    EXPECT_TRUE(found) << c.key;
  }
}

TEST(OtherWork, OfNoNumberIsRefused) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  Order order = worked_order();
  order.left->shoe.platform = Platform{44, nan};
  order.left->alterations.darning = DarningWish{};
  order.left->alterations.liner = LinerWish{nan, {}};
  order.left->alterations.ribbons = RibbonWish{};
  order.left->alterations.ribbons->stretch = nan;
  order.left->alterations.tuck = TuckWish{nan, 30};
  const Solution solution = solve(order);
  EXPECT_FALSE(solution.left);
  EXPECT_EQ(solution.findings.size(), 4u);
}

} // namespace
} // namespace shankline::tests::other_work_test
