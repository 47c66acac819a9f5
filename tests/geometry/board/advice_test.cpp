// A refusal offers a figure. Written into the order it is accepted, and the next step beyond it is
// not.
#include "geometry/board/trim_line.hpp"
#include "geometry/solution/solution.hpp"
#include "tests/geometry/worked_order.hpp"

#include <cmath>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <string>

namespace shankline::tests::advice_test {
namespace {

// The worked foot's window runs from 49 to 77 on the foot, 50 to 78 on the board.
Order ordered(const TrimRule& rule) {
  Order order = worked_order();
  order.left->alterations.shank->rule = rule;
  return order;
}
TrimRule reach(double value) {
  return ReachRule{value, ""};
}
TrimRule mark(double value) {
  return MarkRule{measured(value, 1), {}};
}
TrimRule keep(double per_cent) {
  return KeepRule{per_cent / 100};
}

/// The only error of an order that is refused.
Finding refused(const Order& order) {
  const Solution solution = solve(order);
  EXPECT_FALSE(solution.left);
  Finding found{};
  int errors = 0;
  for (const Finding& f : solution.findings)
    if (f.severity == Severity::error) {
      found = f;
      ++errors;
    }
  EXPECT_EQ(errors, 1) << found.what;
  return found;
}

bool accepted(const Order& order) {
  return solve(order).left.has_value();
}

/// The number that follows `words` in a text.
double number_after(const std::string& text, const std::string& words) {
  const std::size_t at = text.find(words);
  EXPECT_NE(at, std::string::npos) << words << " is not in: " << text;
  if (at == std::string::npos) return 0;
  return std::strtod(text.c_str() + at + words.size(), nullptr);
}

struct Offer {
  TrimRule (*rule)(double);
  double asked;
  const char* words;
  double step; ///< of the figure as it is offered, away from what is allowed
};

TEST(TrimAdvice, TheOfferedValueFitsAndTheNextStepDoesNot) {
  for (const Offer& offer :
       {Offer{reach, 1.5, "Ask for a reach of at most ", 0.01},
        Offer{reach, 0.5, "Ask for a reach of at least ", -0.01},
        Offer{mark, 46.5, "Mark the board at least ", -0.1},
        Offer{mark, 85, "Mark the board at most ", 0.1}, Offer{keep, 80, "Keep at most ", 0.1},
        Offer{keep, 60, "Keep at least ", -0.1}}) {
    const Finding error = refused(ordered(offer.rule(offer.asked)));
    const double value = number_after(error.advice, offer.words);
    EXPECT_TRUE(accepted(ordered(offer.rule(value)))) << error.advice;
    EXPECT_FALSE(accepted(ordered(offer.rule(value + offer.step)))) << error.advice;
  }
}

TEST(TrimAdvice, BothEndsOfTheAllowedRangeFitAndTheNextStepsDoNot) {
  struct Range {
    TrimRule (*rule)(double);
    double asked;
    const char* words;
    double step;
  };
  for (const Range& range : {Range{reach, 1.5, "a reach of ", 0.01},
                             Range{mark, 46.5, "a mark of ", 0.1}, Range{keep, 80, "keep ", 0.1}}) {
    const Finding error = refused(ordered(range.rule(range.asked)));
    const double least = number_after(error.allowed, range.words);
    const double most = number_after(error.allowed, " to ");
    EXPECT_LT(least, most) << error.allowed;
    for (const double value : {least, most})
      EXPECT_TRUE(accepted(ordered(range.rule(value)))) << value << ": " << error.allowed;
    for (const double value : {least - range.step, most + range.step})
      EXPECT_FALSE(accepted(ordered(range.rule(value)))) << value << ": " << error.allowed;
  }
}

// A reading in doubt: moved by what the sentence says, the wished reach fits; by less it does not.
TEST(TrimAdvice, AHeelFrontMovedByTheOfferedDistanceFits) {
  const auto moved = [](double asked, double by) {
    Order order = ordered(reach(asked));
    order.left->foot.heel_front = measured(61 + by);
    return order;
  };
  const char* const words = "heel front and arch break would have to lie ";
  const std::string nearer = refused(moved(1.5, 0)).advice;
  EXPECT_NE(nearer.find(" nearer together."), std::string::npos) << nearer;
  const double by = number_after(nearer, words);
  EXPECT_DOUBLE_EQ(by, 10) << "34 apart; 24 times 0.5 is the farthest tuck, 12";
  EXPECT_TRUE(accepted(moved(1.5, by)));
  EXPECT_FALSE(accepted(moved(1.5, by - 0.1)));

  const std::string farther = refused(moved(0.5, 0)).advice;
  EXPECT_NE(farther.find(" farther apart."), std::string::npos) << farther;
  const double back = number_after(farther, words);
  EXPECT_DOUBLE_EQ(back, 2) << "36 times 0.5 is the least bearing, 18";
  EXPECT_TRUE(accepted(moved(0.5, -back)));
  EXPECT_FALSE(accepted(moved(0.5, -back + 0.1)));
}

TEST(TrimAdvice, ABevelUpToTheArchBreakFits) {
  const auto bevelled = [](double length) {
    Order order = worked_order();
    order.left->alterations.shank->bevel = length;
    return order;
  };
  const double most = number_after(refused(bevelled(36)).allowed, "up to ");
  EXPECT_DOUBLE_EQ(most, 34) << "from the cut at 61 to the break at 95";
  EXPECT_TRUE(accepted(bevelled(most)));
  EXPECT_FALSE(accepted(bevelled(most + 0.1)));
}

TEST(TrimAdvice, BreaksAsFarApartAsIsSaidFitAndATenthMoreDoNot) {
  const auto apart = [](double by) {
    Order order = worked_order();
    // Well known, so that the line runs skew, and far from the heel front.
    Reading medial = measured(0, 0.1);
    medial.values = {100 + by / 2, 100 + by / 2, 100 + by / 2};
    Reading lateral = measured(0, 0.1);
    lateral.values = {100 - by / 2, 100 - by / 2, 100 - by / 2};
    order.left->foot.arch_break = {{}, medial, lateral, {}};
    return order;
  };
  const Finding error = refused(apart(16));
  const double most = number_after(error.allowed, ", here ");
  EXPECT_TRUE(accepted(apart(most))) << error.allowed;
  EXPECT_FALSE(accepted(apart(most + 0.1))) << error.allowed;
}

TEST(TrimAdvice, ARadiusAsLargeAsIsSaidFitsAndTheNextDoesNot) {
  const auto rounded = [](double corner) {
    Order order = ordered(reach(0.55));
    order.left->alterations.shank->end = BoardEnd::rounded;
    order.left->alterations.shank->corner = corner;
    order.left->alterations.shank->accept_in_stop_band = true;
    return order;
  };
  const Finding error = refused(rounded(8));
  const double most = number_after(error.allowed, "a radius up to ");
  EXPECT_DOUBLE_EQ(std::round(most * 2) / 2, most) << "in halves of a millimetre";
  EXPECT_TRUE(accepted(rounded(most))) << error.allowed;
  EXPECT_FALSE(accepted(rounded(most + 0.5))) << error.allowed;
}

TEST(TrimAdvice, ACutOffTheBoardIsToldByWhichEndItMisses) {
  Order behind = worked_order();
  behind.left->foot.heel_front = measured(30);
  behind.left->foot.arch_break = {measured(80), {}, {}, {}};
  behind.left->foot.fold = measured(0);
  behind.left->shoe.board.inset = measured(34);
  Finding error = refused(behind);
  EXPECT_NE(error.what.find("4 behind the board's heel end"), std::string::npos) << error.what;
  EXPECT_NE(error.advice.find("The board already ends ahead of that"), std::string::npos)
      << error.advice;

  Order ahead = worked_order();
  ahead.left->foot.heel_front = measured(110);
  ahead.left->foot.arch_break = {measured(150), {}, {}, {}};
  ahead.left->foot.arch_depth.reset();
  ahead.left->foot.fold = measured(6);
  ahead.left->shoe.board.inset = measured(0);
  ahead.left->shoe.board.length = measured(100, 1);
  ahead.left->shoe.board.widths = {{22, 22.5, 22.5}, {50, 20, 20}, {80, 22, 22}};
  error = refused(ahead);
  EXPECT_NE(error.what.find("116 from the heel end, off the board"), std::string::npos)
      << error.what;
  EXPECT_NE(error.advice.find("Check the board's length"), std::string::npos) << error.advice;
}

// A first cut takes off 10 at least: less would not come off in one piece.
TEST(FirstCut, MayTakeOffTheLeastThatComesOffInOnePiece) {
  Order order = worked_order();
  order.left->alterations.shank->hold_back = 52; // of 62 in all
  const Solution solution = solve(order);
  ASSERT_TRUE(solution.left);
  ASSERT_TRUE(solution.left->trim->first_cut);
  EXPECT_DOUBLE_EQ(solution.left->trim->first_cut->centre.mm(), least_first_cut);
  order.left->alterations.shank->hold_back = 52.1;
  EXPECT_FALSE(accepted(order));
}

} // namespace
} // namespace shankline::tests::advice_test
