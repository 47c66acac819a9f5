// How sure the contact figures are.
#include "geometry/breaking/contact_doubt.hpp"

#include "geometry/breaking/pair_contact.hpp"
#include "tests/geometry/random_orders.hpp"
#include "tests/geometry/worked_order.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <limits>

namespace shankline::tests::contact_doubt_test {
namespace {

struct Doubted {
  Solution solution;
  PairContact contact;
};

Doubted doubted(const Order& order) {
  Doubted found{solve(order), {}};
  found.contact = pair_contact(order, found.solution);
  add_doubt(found.contact, order, found.solution);
  return found;
}

/// The pry that is left with the board's stiffness times `factor`, the cut staying where it is.
double pry_left(Order order, const FootSolution& foot, const FootContact& contact, double factor) {
  order.left->shoe.stiffness = BendingStiffness{contact.board.value * factor, contact.sole.value};
  order.left->shoe.pull = PullForce{contact.pull.value};
  order.left->alterations.shank->rule = MarkRule{measured(foot.trim->final_cut.centre, 1), {}};
  const Solution solution = solve(order);
  return foot_contact(*order.left, *solution.left).contact->heel_pry_left;
}

TEST(ContactDoubt, StandsAroundTheFiguresThemselves) {
  Draw draw(20260501);
  int tried = 0;
  for (int i = 0; i < 20; ++i) {
    const Order order = random_order(draw);
    const Doubted found = doubted(order);
    if (!found.contact.left || !found.contact.left->cut) continue;
    ASSERT_TRUE(found.contact.left_doubt) << i;
    const ContactDoubt& doubt = *found.contact.left_doubt;
    EXPECT_NEAR(doubt.gap.value, found.contact.left->cut->figures.gap, 1e-6) << i;
    EXPECT_NEAR(doubt.heel_pry_left.value, found.contact.left->heel_pry_left, 1e-6) << i;
    EXPECT_GT(doubt.gap.u, 0) << i;
    EXPECT_GT(doubt.heel_pry_left.u, 0) << i;
    EXPECT_FALSE(doubt.depends_on.empty()) << i;
    ++tried;
  }
  EXPECT_GE(tried, 10);
}

// With every reading known exactly but for the tape, a board that nobody bent is what is left; its
// share by hand, at another step, is a part of u.
TEST(ContactDoubt, HoldsTheBoardsStiffnessShareTakenAtAnotherStep) {
  const Order order = worked_order();
  const Doubted found = doubted(order);
  ASSERT_TRUE(found.contact.left && found.contact.left_doubt);
  const FootContact& contact = *found.contact.left;
  constexpr double step = 0.05;
  const double slope = (pry_left(order, *found.solution.left, contact, std::exp(step)) -
                        pry_left(order, *found.solution.left, contact, std::exp(-step))) /
                       (2 * step);
  const double sd = contact.board.relative_sd;
  const double share = std::abs(slope) * std::sqrt(std::log1p(sd * sd));
  double nearest = 1;
  for (const double part : found.contact.left_doubt->heel_pry_left.parts)
    nearest = std::min(nearest, std::abs(std::abs(part) - share));
  EXPECT_GT(share, 1e-4);
  EXPECT_LT(nearest, 0.02 * share);
}

TEST(ContactDoubt, GrowsWithTheDoubtOfAReading) {
  Order order = worked_order();
  order.left->foot.arch_depth->finding = 1;
  const double sure = doubted(order).contact.left_doubt->gap.u;
  order.left->foot.arch_depth->finding = 4;
  EXPECT_GT(doubted(order).contact.left_doubt->gap.u, 1.5 * sure);
}

// At reach 0.6 neither pry nor gap is left, and no small step of a reading brings either back.
TEST(ContactDoubt, AShareAtItsBoundHasAOneSidedLimit) {
  Order order = worked_order();
  const Doubted usual = doubted(order);
  EXPECT_FALSE(usual.contact.left_doubt->heel_pry_left_up_to);
  EXPECT_FALSE(usual.contact.left_doubt->heel_gap_up_to);

  order.left->alterations.shank->rule = ReachRule{0.6, ""};
  const Doubted found = doubted(order);
  ASSERT_TRUE(found.contact.left && found.contact.left_doubt);
  const ContactDoubt& doubt = *found.contact.left_doubt;
  EXPECT_LT(found.contact.left->heel_pry_left, 1e-9) << "at the bound";
  EXPECT_LT(doubt.heel_pry_left.u, 1e-9) << "first order says nothing";
  ASSERT_TRUE(doubt.heel_pry_left_up_to && doubt.heel_gap_left_up_to && doubt.heel_gap_up_to);
  EXPECT_GT(*doubt.heel_pry_left_up_to, 0.01);
  EXPECT_LT(*doubt.heel_pry_left_up_to, 0.6);
  EXPECT_GE(*doubt.heel_gap_up_to, 0);

  // A board that is known leaves less room, a heel front that is hardly known more.
  Order sure = order;
  sure.left->shoe.stiffness = BendingStiffness{100000, 4000};
  EXPECT_LT(*doubted(sure).contact.left_doubt->heel_pry_left_up_to,
            0.7 * *doubt.heel_pry_left_up_to);
  order.left->foot.heel_front->finding = 7.5; // from 7.7 on the estimate says more
  EXPECT_GT(*doubted(order).contact.left_doubt->heel_pry_left_up_to,
            1.3 * *doubt.heel_pry_left_up_to);
}

// At reach 0.8 some pry is left and hardly any gap: only the gap has a one-sided limit.
TEST(ContactDoubt, AGapAtItsBoundHasALimitWherePryIsLeft) {
  Order order = worked_order();
  order.left->shoe.stiffness = BendingStiffness{100000, 4000};
  order.left->alterations.shank->rule = ReachRule{0.8, ""};
  const Doubted found = doubted(order);
  ASSERT_TRUE(found.contact.left && found.contact.left_doubt);
  const ContactDoubt& doubt = *found.contact.left_doubt;
  EXPECT_GT(doubt.heel_pry_left.value, hardly_left);
  EXPECT_LT(doubt.heel_gap_left.value, hardly_left);
  EXPECT_FALSE(doubt.heel_pry_left_up_to);
  ASSERT_TRUE(doubt.heel_gap_left_up_to && doubt.heel_gap_up_to);
  EXPECT_GT(*doubt.heel_gap_left_up_to, doubt.heel_gap_left.value);
}

TEST(ContactDoubt, SaysSharesInWholePerCentAndNeverZero) {
  Uncertain share;
  share.value = 0.26;
  share.u = 0.08;
  EXPECT_EQ(share_doubt_words(share, {}), "±16 %");
  share.u = 1e-5;
  EXPECT_EQ(share_doubt_words(share, {}), "±1 %");
  EXPECT_EQ(share_doubt_words(share, 0.112), "up to 12 %");
  EXPECT_EQ(share_doubt_words(share, 0), "up to 1 %");
  EXPECT_EQ(share_doubt_words(share, std::numeric_limits<double>::infinity()), "not known");
  EXPECT_EQ(whole_doubt_words(share), "±1");
}

TEST(ContactDoubt, AnUncutBoardHasNone) {
  Order order = worked_order();
  const Solution solution = solve(order);
  PairContact contact = pair_contact(order, solution);
  contact.left->cut.reset();
  EXPECT_FALSE(contact_doubt(order, *solution.left, *contact.left));
}

} // namespace
} // namespace shankline::tests::contact_doubt_test
