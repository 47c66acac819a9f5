#include "geometry/breaking/foot_contact.hpp"

#include "tests/geometry/contact_problems.hpp"
#include "tests/geometry/random_orders.hpp"
#include "tests/geometry/worked_order.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <vector>

namespace shankline::tests::foot_contact_test {
namespace {

FootContactResult contact_of(const Order& order) {
  const Solution solution = solve(order);
  EXPECT_TRUE(solution.left);
  if (!solution.left) return {};
  return foot_contact(*order.left, *solution.left);
}

TEST(FootContact, WorkedOrder) {
  const FootContactResult result = contact_of(worked_order());
  ASSERT_TRUE(result.contact);
  const FootContact& c = *result.contact;
  EXPECT_EQ(c.ball, 172);
  EXPECT_TRUE(c.clamp_estimated);
  EXPECT_NEAR(c.clamp, 158, 1e-9) << "a foot of 238";
  EXPECT_NEAR(c.uncut.problem.clamp, 14, 1e-9);
  EXPECT_NEAR(c.uncut.problem.heel_front, 111, 1e-9);
  EXPECT_NEAR(c.uncut.problem.strip.board_end, 173, 1e-9) << "the board ends 1 behind the heel";
  ASSERT_TRUE(c.cut);
  EXPECT_NEAR(c.cut->problem.strip.board_end, 111, 1e-9) << "reach edge: at the heel front";
  EXPECT_EQ(c.cut->problem.strip.bevel, 12);
  EXPECT_EQ(c.cut->problem.strip.edge_ratio, 0.25);
  EXPECT_NEAR(c.board_left, 95 - 61, 1e-9);
  EXPECT_NEAR(c.cut->figures.break_at, 61, 0.1);
  EXPECT_LE(c.cut->figures.break_from, c.cut->figures.break_at);
  EXPECT_LE(c.cut->figures.break_at, c.cut->figures.break_to);
  EXPECT_GT(c.uncut.figures.break_at, 95) << "uncut it breaks low";
  EXPECT_LT(c.heel_pry_left, 0.5);
  EXPECT_LT(c.heel_gap_left, 0.5);
  EXPECT_TRUE(c.cautions.empty());
  for (const ShoeContact* shoe : {&c.uncut, &*c.cut}) {
    EXPECT_TRUE(shoe->verdict.converged);
    EXPECT_EQ(broken_condition(shoe->problem, shoe->solution), "");
  }
}

TEST(FootContact, SaysWhyNot) {
  Order order = worked_order();
  order.left->foot.arch_depth.reset();
  FootContactResult result = contact_of(order);
  ASSERT_TRUE(result.reason);
  EXPECT_FALSE(result.contact);
  EXPECT_EQ(result.reason->key, "feet.left.arch_depth");
  EXPECT_EQ(result.reason->severity, Severity::caution);

  order = worked_order();
  order.left->shoe.stiffness = Droop{130, 200, 120};
  result = contact_of(order);
  ASSERT_TRUE(result.reason);
  EXPECT_EQ(result.reason->key, "shoe.left.stiffness");
  EXPECT_EQ(result.reason->severity, Severity::error);

  order = worked_order();
  order.left->shoe.pull = Travel{25};
  result = contact_of(order);
  ASSERT_TRUE(result.reason);
  EXPECT_EQ(result.reason->key, "shoe.left.pull");

  order = worked_order();
  order.left->shoe.sides = StockSides{};
  order.left->shoe.sides->wing_at = 90;
  result = contact_of(order);
  ASSERT_TRUE(result.reason);
  EXPECT_EQ(result.reason->key, "feet.left.arch_break");
}

TEST(FootContact, ClampWhereTheOrderSays) {
  Order order = worked_order();
  order.left->shoe.clamp = Clamp::ball;
  FootContactResult result = contact_of(order);
  ASSERT_TRUE(result.contact);
  EXPECT_EQ(result.contact->uncut.problem.clamp, 0);
  order.left->shoe.clamp = Clamp::wing;
  order.left->shoe.sides = StockSides{};
  order.left->shoe.sides->wing_at = 150;
  result = contact_of(order);
  ASSERT_TRUE(result.contact);
  EXPECT_NEAR(result.contact->clamp, 150, 1e-9);
  EXPECT_FALSE(result.contact->clamp_estimated);
}

TEST(FootContact, CautionWherePryStays) {
  // Tucked far under the heel a stiff board keeps its lever.
  Order order = worked_order();
  order.left->alterations.shank->rule = MarkRule{measured(32, 1), {}};
  order.left->alterations.shank->accept_outside_window = true;
  const FootContactResult result = contact_of(order);
  ASSERT_TRUE(result.contact);
  EXPECT_GT(result.contact->heel_pry_left, 0.5);
  ASSERT_FALSE(result.contact->cautions.empty());
  EXPECT_EQ(result.contact->cautions.back().key, "alterations.left.shank");
  EXPECT_NE(result.contact->cautions.back().what.find("pries the heel"), std::string::npos);
}

TEST(FootContact, OfAThinnedBoardNoReachIsSpokenOf) {
  Order order = worked_order();
  order.left->alterations.shank.reset();
  int said = 0;
  for (const double thickness : {3.1, 2.9, 2.6}) { // hardly thinned: it pries as before
    order.left->alterations.thinned = ThinWish{66, 98, thickness};
    const FootContactResult result = contact_of(order);
    ASSERT_TRUE(result.contact && result.contact->cut);
    for (const Finding& caution : result.contact->cautions) {
      EXPECT_EQ(caution.key, "alterations.left.thinned");
      EXPECT_NE((caution.what + caution.advice).find("hin"), std::string::npos);
      EXPECT_EQ((caution.what + caution.advice).find("reach"), std::string::npos) << caution.advice;
      ++said;
    }
  }
  EXPECT_GE(said, 3);
}

TEST(FootContact, CautionWhereItDoesNotBreakAtTheTrim) {
  // A sole as stiff as the board: the cut changes nothing.
  Order order = worked_order();
  order.left->shoe.stiffness = BendingStiffness{20000, 90000};
  const FootContactResult result = contact_of(order);
  ASSERT_TRUE(result.contact);
  ASSERT_FALSE(result.contact->cautions.empty());
  EXPECT_NE(result.contact->cautions.front().what.find("break"), std::string::npos);
}

TEST(FootContact, SweepHoldsTheChosenStation) {
  const FootContactResult result = contact_of(worked_order());
  ASSERT_TRUE(result.contact);
  std::vector<FootStation> stations;
  for (const double at : {49, 55, 61, 67, 73, 77})
    stations.emplace_back(at);
  const auto swept = sweep_trim(*result.contact, stations);
  ASSERT_EQ(swept.size(), stations.size());
  for (std::size_t i = 0; i < stations.size(); ++i) {
    ASSERT_TRUE(swept[i]);
    EXPECT_NEAR(swept[i]->break_at, stations[i], 0.1);
    if (i > 0) {
      EXPECT_LE(swept[i]->heel_pry, swept[i - 1]->heel_pry) << "a deeper cut pries less";
      EXPECT_LE(swept[i]->heel_gap, swept[i - 1]->heel_gap + 1e-9);
    }
  }
  EXPECT_NEAR(swept[2]->gap, result.contact->cut->figures.gap, 1e-8);
}

TEST(FootContact, RandomOrders) {
  Draw draw(51);
  int feet = 0;
  int without_arch = 0;
  for (int i = 0; i < 150; ++i) {
    const Order order = random_order(draw);
    const Solution solution = solve(order);
    for (const auto& [foot, solved] :
         {std::pair(&order.left, &solution.left), std::pair(&order.right, &solution.right)}) {
      if (!*foot || !*solved) continue;
      const FootContactResult result = foot_contact(**foot, **solved);
      EXPECT_NE(result.contact.has_value(), result.reason.has_value());
      if (!(*solved)->arch.arch) {
        ++without_arch;
        EXPECT_TRUE(result.reason);
        continue;
      }
      if (!result.contact) {
        ADD_FAILURE() << result.reason->what;
        continue;
      }
      ++feet;
      EXPECT_TRUE(result.contact->uncut.verdict.converged);
      ASSERT_TRUE(result.contact->cut);
      if (result.contact->cut->verdict.method == ContactMethod::one_lift) {
        EXPECT_EQ(broken_condition(result.contact->cut->problem, result.contact->cut->solution),
                  "");
      }
    }
  }
  EXPECT_GE(feet, 150);
  EXPECT_GE(without_arch, 5);
}

// The facts of the trade that the default stiffness and pull were chosen to show. They show that
// the model still behaves as it did; they are NO VALIDATION of it: no shoe was measured.
struct TradeFacts {
  int feet = 0;
  int all = 0;
  int low_to_high = 0;
  int bearing_forward = 0;
  int pry_halved = 0;
  int gap_halved = 0;
};

TradeFacts trade_facts(std::uint64_t seed, int count, bool quarter_rule) {
  Draw draw(seed);
  TradeFacts facts;
  while (facts.feet < count) {
    const FootSize size = random_foot_size(draw, Population::women);
    const double ball = size.ball_length;
    const double heel = 0.256 * size.length + std::clamp(draw.normal(0, 4), -10.0, 10.0);
    const double at = heel + draw.uniform(0.24, 0.45) * (ball - heel);
    FootOrder foot;
    foot.foot.length = measured(size.length);
    foot.foot.ball_length = measured(ball);
    foot.foot.heel_front = measured(heel);
    foot.foot.arch_break.centre = measured(at);
    foot.foot.arch_bend_rad = measured(draw.uniform(15, 45) * degree);
    foot.foot.fold = measured(6);
    foot.shoe.board.inset = measured(5);
    foot.shoe.board.thickness = 3.2;
    const double scale = size.length / 238;
    foot.shoe.board.length = measured(220 * scale, 1);
    foot.shoe.board.widths = {
        {22 * scale, 22.5, 22.5}, {96 * scale, 16.5, 16.5}, {164 * scale, 28, 28}};
    constexpr Grade grades[] = {Grade::one_thumb, Grade::two_thumbs, Grade::over_the_knee,
                                Grade::hardly_over_the_knee};
    foot.shoe.stiffness = grades[draw.below(4)];
    foot.alterations.shank = ShankWish{};
    foot.alterations.shank->accept_outside_window = true;
    if (quarter_rule)
      foot.alterations.shank->rule = KeepRule{0.75};
    else
      foot.alterations.shank->rule = ReachRule{1, "edge"};
    Order order;
    order.left = foot;
    const Solution solution = solve(order);
    if (!solution.left) continue;
    const FootContactResult result = foot_contact(foot, *solution.left);
    EXPECT_TRUE(result.contact);
    if (!result.contact) continue;
    ++facts.feet;
    const FootContact& c = *result.contact;
    const FootContactFigures& uncut = c.uncut.figures;
    const FootContactFigures& cut = c.cut->figures;
    const double trim = solution.left->trim->station;
    const bool low_to_high =
        (!uncut.breaks_in_arch || uncut.break_at > at) && std::abs(cut.break_at - trim) < 2;
    const bool bearing =
        uncut.bearing && cut.bearing && *cut.bearing > *uncut.bearing && *cut.bearing > heel / 2;
    const bool pry = c.heel_pry_left <= 0.5;
    const bool gap = c.heel_gap_left <= 0.5;
    facts.low_to_high += low_to_high;
    facts.bearing_forward += bearing;
    facts.pry_halved += pry;
    facts.gap_halved += gap;
    facts.all += low_to_high && bearing && pry && gap;
  }
  return facts;
}

void expect_trade_facts(std::uint64_t seed, int count) {
  const TradeFacts edge = trade_facts(seed, count, false);
  const auto share = [](int n, const TradeFacts& of) { return 100.0 * n / of.feet; };
  EXPECT_GE(share(edge.all, edge), 97)
      << "low to high " << edge.low_to_high << ", bearing forward " << edge.bearing_forward
      << ", pry halved " << edge.pry_halved << ", heel gap halved " << edge.gap_halved << " of "
      << edge.feet << "; a regression test, no validation";
  const TradeFacts quarter = trade_facts(seed + 1, count, true);
  ::testing::Test::RecordProperty("quarter_rule_percent",
                                  static_cast<int>(share(quarter.all, quarter)));
  std::printf(
      "trade facts (no validation) of %d feet: reach edge %.1f %%; quarter-length rule %.1f %% "
      "(low to high %.1f %%, bearing forward %.1f %%, pry halved %.1f %%, heel gap halved "
      "%.1f %%)\n",
      count, share(edge.all, edge), share(quarter.all, quarter),
      share(quarter.low_to_high, quarter), share(quarter.bearing_forward, quarter),
      share(quarter.pry_halved, quarter), share(quarter.gap_halved, quarter));
  EXPECT_LE(quarter.all, edge.all) << "tucked under the heel, the lever stays longer";
}

TEST(TradeFactsNoValidation, ReachEdge) {
  expect_trade_facts(61, 100);
}
TEST(LongTradeFactsNoValidation, ReachEdge) {
  expect_trade_facts(63, 1000);
}

} // namespace
} // namespace shankline::tests::foot_contact_test
