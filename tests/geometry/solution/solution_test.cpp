#include "geometry/solution/solution.hpp"

#include "tests/geometry/arch_by_quadrature.hpp"
#include "tests/geometry/polygon_checks.hpp"
#include "tests/geometry/worked_order.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <numbers>
#include <string>
#include <vector>

namespace shankline::tests::solution_test {
namespace {

constexpr double degree = std::numbers::pi / 180;

/// The left foot's solution, or a failure that says why there is none.
const FootSolution* left_of(const Solution& solution) {
  for (const Finding& f : solution.findings)
    if (f.severity == Severity::error) ADD_FAILURE() << f.key << ": " << f.what;
  if (!solution.left) {
    ADD_FAILURE() << "the left foot was not solved";
    return nullptr;
  }
  return &*solution.left;
}

/// One edge's ruler number, by bisection on where the line leaves the board.
double ruler_number(const BoardOutline& outline, Edge edge, double centre, double skew) {
  const double side = edge == Edge::medial ? 1 : -1;
  double low = 0;
  double high = 80;
  for (int i = 0; i < 80; ++i) {
    const double y = 0.5 * (low + high);
    const double x = centre + side * y * std::tan(skew);
    (y < outline.half_width(edge, x) ? low : high) = y;
  }
  return centre + side * low * std::tan(skew);
}

void expect_on_line(const BoardOutline& outline, const CutLine& line, double centre, double skew) {
  EXPECT_NEAR(line.centre, centre, 1e-9);
  EXPECT_NEAR(line.medial, ruler_number(outline, Edge::medial, centre, skew), 1e-8);
  EXPECT_NEAR(line.lateral, ruler_number(outline, Edge::lateral, centre, skew), 1e-8);
}

std::vector<double> numbers_in(const std::string& text) {
  std::vector<double> found;
  for (std::size_t i = 0; i < text.size();) {
    if (std::isdigit(static_cast<unsigned char>(text[i])) == 0) {
      ++i;
      continue;
    }
    char* end = nullptr;
    const char* const begin = text.c_str() + i;
    found.push_back(std::strtod(begin, &end));
    i += static_cast<std::size_t>(end - begin);
  }
  return found;
}

std::string words_of(const Finding& f) {
  return f.what + " | " + f.allowed + " | " + f.advice;
}

/// The order is refused; an error whose key holds one of `keys` says so in full words, and says
/// every one of `figures` (how far off, how far one may go, what was read).
void expect_refused(const Order& order, const std::vector<std::string>& keys,
                    const std::vector<double>& figures) {
  const Solution solution = solve(order);
  EXPECT_FALSE(solution.left);
  EXPECT_TRUE(has_error(solution.findings));
  bool named = false;
  std::vector<double> said;
  std::string all;
  for (const Finding& f : solution.findings) {
    if (f.severity != Severity::error) continue;
    all += f.key.text() + ": " + words_of(f) + '\n';
    EXPECT_FALSE(f.what.empty()) << f.key;
    EXPECT_FALSE(f.allowed.empty()) << f.what;
    EXPECT_FALSE(f.advice.empty()) << f.what;
    for (const std::string& key : keys) {
      if (f.key.text().find(key) == std::string::npos) continue;
      named = true;
      for (const double number : numbers_in(words_of(f)))
        said.push_back(number);
    }
  }
  EXPECT_TRUE(named) << "no error about " << keys.front() << " in\n" << all;
  for (const double wanted : figures)
    EXPECT_TRUE(std::any_of(said.begin(), said.end(),
                            [&](double number) { return std::abs(number - wanted) < 0.051; }))
        << wanted << " is not said in\n"
        << all;
}

void expect_missing(const Order& order, const std::string& key) {
  const Solution solution = solve(order);
  EXPECT_FALSE(solution.left);
  EXPECT_TRUE(std::any_of(solution.findings.begin(), solution.findings.end(),
                          [&](const Finding& f) {
                            return f.severity == Severity::error &&
                                   f.key.text().find(key) != std::string::npos && !f.what.empty() &&
                                   !f.advice.empty();
                          }))
      << key;
}

ShankWish& shank_of(Order& order) {
  return *order.left->alterations.shank;
}

TEST(Solution, WorkedOrderComesOutAsWorkedByHand) {
  const Solution solution = solve(worked_order());
  const FootSolution* const left = left_of(solution);
  ASSERT_NE(left, nullptr);
  EXPECT_FALSE(solution.right);
  EXPECT_EQ(left->side, FootSide::left);
  EXPECT_DOUBLE_EQ(left->frames.board, 1);
  EXPECT_DOUBLE_EQ(left->frames.pose.mm, 0);

  EXPECT_DOUBLE_EQ(left->arch.ball, 172);
  EXPECT_DOUBLE_EQ(left->arch.heel_front, 61);
  EXPECT_DOUBLE_EQ(left->arch.break_at, 95);
  EXPECT_EQ(left->arch.break_medial, 97);
  EXPECT_EQ(left->arch.break_lateral, 93);

  EXPECT_DOUBLE_EQ(left->trim->station, 61);
  EXPECT_DOUBLE_EQ(left->trim->reach, 1);
  EXPECT_DOUBLE_EQ(left->trim->window.from, 49);
  EXPECT_DOUBLE_EQ(left->trim->window.to, 77);
  EXPECT_DOUBLE_EQ(left->trim->final_cut.centre, 62);
  EXPECT_DOUBLE_EQ(left->trim->stop.centre, 78);
  EXPECT_DOUBLE_EQ(left->trim->witness.centre, 100);
  ASSERT_TRUE(left->trim->first_cut);
  // U of the heel front's line: heel front, fold and inset by tape alone (1/3 each), laid flat
  // 0.75, print, tracing and knife 0.25: u = sqrt 2, 96 degrees of freedom, t = 1.985.
  EXPECT_NEAR(left->trim->doubt.heel_front_line.expanded(), 2.807, 1e-3);
  EXPECT_NEAR(left->trim->first_cut->centre, 62 - (std::hypot(2.807, 10.555) - 3), 1e-3);
  EXPECT_DOUBLE_EQ(left->trim->lift_limit.centre, 72);
  ASSERT_TRUE(left->trim->bevel);
  EXPECT_DOUBLE_EQ(left->trim->bevel->centre, 74);
  EXPECT_EQ(left->trim->bevel_edge_thickness, 0.8);
  EXPECT_TRUE(left->estimated.empty());
}

TEST(Solution, WorkedOrderShowsTheOtherRulesStations) {
  const Solution solution = solve(worked_order());
  const FootSolution* const left = left_of(solution);
  ASSERT_NE(left, nullptr);
  const OtherRules& rules = left->trim->other_rules;
  EXPECT_DOUBLE_EQ(rules.heel_front, 61);
  ASSERT_TRUE(rules.three_quarter);
  EXPECT_DOUBLE_EQ(*rules.three_quarter, 54); // 55 on the board
  EXPECT_DOUBLE_EQ(rules.short_reach, 69.5);
  EXPECT_NEAR(rules.tucked_reach, 55.9, 1e-12);
}

TEST(Solution, WorkedOrdersArchMeetsTheQuadrature) {
  const Solution solution = solve(worked_order());
  const FootSolution* const left = left_of(solution);
  ASSERT_NE(left, nullptr);
  ASSERT_TRUE(left->arch.arch);
  ASSERT_TRUE(left->arch.depth);
  ASSERT_TRUE(left->arch.deepest);
  EXPECT_NEAR(*left->arch.depth, 12.5, 1e-6);
  EXPECT_NEAR(left->arch.arch->bend / degree, 26.94, 0.01); // recomputed apart from this code
  EXPECT_NEAR(*left->arch.deepest, 103.25, 0.01);           // likewise
  const double bend = brute_bend(brute_arch(172, 95, 61, 0), 12.5);
  EXPECT_NEAR(left->arch.arch->bend, bend, 1e-7);
  EXPECT_NEAR(*left->arch.deepest, 172 - brute_depth(brute_arch(172, 95, 61, bend)).at_u, 1e-3);
}

TEST(Solution, RulerNumbersAreWhereTheLinesLeaveTheBoard) {
  const Order order = worked_order();
  const Solution solution = solve(order);
  const FootSolution* const left = left_of(solution);
  ASSERT_NE(left, nullptr);
  // Breaks 4 apart on a board 33 wide at the break (its own width station, 96 on the board).
  const double skew = std::atan(4.0 / 33);
  EXPECT_NEAR(left->trim->skew, skew, 1e-12);
  EXPECT_FALSE(left->trim->skew_reason.empty());
  const BoardOutline outline(order.left->shoe.board.widths, 220);
  expect_on_line(outline, left->trim->final_cut, 62, skew);
  expect_on_line(outline, *left->trim->first_cut, left->trim->first_cut->centre, skew);
  expect_on_line(outline, left->trim->stop, 78, skew);
  EXPECT_GT(left->trim->final_cut.medial, 64) << "the big-toe side lies nearer the toes";
  EXPECT_LT(left->trim->final_cut.lateral, 60);
}

TEST(Solution, WidthBetweenTheMarksComesFromTheOrderIfGiven) {
  Order order = worked_order();
  order.left->foot.arch_break.across = 40;
  const Solution solution = solve(order);
  const FootSolution* const left = left_of(solution);
  ASSERT_NE(left, nullptr);
  EXPECT_NEAR(left->trim->skew, std::atan(0.1), 1e-12);
}

TEST(Solution, OneBreakForBothEdgesMakesASquareLine) {
  Order order = worked_order();
  order.left->foot.arch_break = ArchBreak{};
  order.left->foot.arch_break.centre = measured(95);
  const Solution single = solve(order);
  const FootSolution* left = left_of(single);
  ASSERT_NE(left, nullptr);
  EXPECT_EQ(left->trim->skew, 0);
  EXPECT_NEAR(left->trim->final_cut.medial, 62, 1e-9);
  EXPECT_NEAR(left->trim->final_cut.lateral, 62, 1e-9);
  EXPECT_FALSE(left->arch.break_medial);
  EXPECT_FALSE(left->trim->skew_reason.empty());
  const std::string single_reason = left->trim->skew_reason;

  // Found on the big-toe edge only: square too, for another reason.
  order.left->foot.arch_break = ArchBreak{};
  order.left->foot.arch_break.medial = measured(95);
  const Solution one_edge = solve(order);
  left = left_of(one_edge);
  ASSERT_NE(left, nullptr);
  EXPECT_EQ(left->trim->skew, 0);
  EXPECT_DOUBLE_EQ(left->trim->final_cut.centre, 62);
  EXPECT_FALSE(left->trim->skew_reason.empty());
  EXPECT_NE(left->trim->skew_reason, single_reason);
}

TEST(Solution, WitnessIsSquareAndAheadOfTheWholeStopLine) {
  for (const double medial : {97.0, 93.0}) {
    Order order = worked_order();
    order.left->foot.arch_break.medial = measured(medial);
    order.left->foot.arch_break.lateral = measured(190 - medial);
    const Solution solution = solve(order);
    const FootSolution* const left = left_of(solution);
    ASSERT_NE(left, nullptr);
    const SolvedTrim& trim = *left->trim;
    EXPECT_EQ(trim.witness.medial, 100);
    EXPECT_EQ(trim.witness.lateral, 100);
    EXPECT_EQ(trim.skew > 0, medial > 95);
    EXPECT_GE(100 - std::max(trim.stop.medial, trim.stop.lateral), witness_ahead_of_stop);
  }
}

TEST(Solution, PiecesAreTheBoardInTwo) {
  for (const BoardEnd end : {BoardEnd::straight, BoardEnd::rounded}) {
    Order order = worked_order();
    shank_of(order).end = end;
    const Solution solution = solve(order);
    const FootSolution* const left = left_of(solution);
    ASSERT_NE(left, nullptr);
    const SolvedPieces& pieces = left->pieces;
    ASSERT_TRUE(pieces.kept);
    ASSERT_TRUE(pieces.removed);
    ASSERT_TRUE(pieces.kept_length);
    ASSERT_TRUE(pieces.kept_fraction);
    const double whole = shoelace_area(left->outline.polygon());
    EXPECT_NEAR(pieces.kept->area + pieces.removed->area, whole, 1e-9 * whole);
    EXPECT_DOUBLE_EQ(*pieces.kept_length, 220 - 62);
    EXPECT_DOUBLE_EQ(pieces.removed_length, 62);
    EXPECT_NEAR(*pieces.kept_fraction, 158.0 / 220, 1e-12);
    EXPECT_TRUE(simple_by_pairs(pieces.kept->outline));
    EXPECT_TRUE(simple_by_pairs(pieces.removed->outline));
    ASSERT_GE(left->trim->end.size(), 2U);
    EXPECT_EQ(left->trim->end.size() > 2, end == BoardEnd::rounded);
    for (const Point& p : left->trim->end)
      EXPECT_LT(distance_to_outline(pieces.kept->outline, p), 0.021);
  }
}

TEST(Solution, TakenInTheShoeTheSameMarksGiveTheSameLine) {
  // The heel stands 6 off the shoe's back, so in the shoe every mark reads 6 more.
  const Solution pointed = solve(worked_order());
  Order order = worked_order();
  order.pose = Pose::in_shoe;
  order.left->foot.heel_front = measured(67);
  order.left->foot.arch_break.medial = measured(103);
  order.left->foot.arch_break.lateral = measured(99);
  const Solution in_shoe = solve(order);
  const FootSolution* const a = left_of(pointed);
  const FootSolution* const b = left_of(in_shoe);
  ASSERT_NE(a, nullptr);
  ASSERT_NE(b, nullptr);
  EXPECT_DOUBLE_EQ(b->frames.pose.mm, 6);
  EXPECT_DOUBLE_EQ(b->trim->final_cut.centre, a->trim->final_cut.centre);
  EXPECT_NEAR(b->trim->final_cut.medial, a->trim->final_cut.medial, 1e-9);
  EXPECT_NEAR(b->trim->final_cut.lateral, a->trim->final_cut.lateral, 1e-9);
  EXPECT_DOUBLE_EQ(b->trim->station, 61);
  EXPECT_DOUBLE_EQ(b->trim->other_rules.heel_front, 67) << "in the order's own pose";
  EXPECT_DOUBLE_EQ(b->trim->other_rules.short_reach, 75.5);
  EXPECT_NEAR(b->trim->other_rules.tucked_reach, 61.9, 1e-12);
  ASSERT_TRUE(b->trim->other_rules.three_quarter);
  EXPECT_DOUBLE_EQ(*b->trim->other_rules.three_quarter, 60); // 55 on the board, 5 of inset
  EXPECT_NEAR(b->arch.arch->bend, a->arch.arch->bend, 1e-12);
}

TEST(Solution, TakenInTheShoeTheLineDoesNotDependOnTheFold) {
  double bend_before = 0;
  for (const double fold : {2.0, 6.0, 10.0}) {
    Order order = worked_order();
    order.pose = Pose::in_shoe;
    order.left->foot.heel_front = measured(67);
    order.left->foot.arch_break.medial = measured(103);
    order.left->foot.arch_break.lateral = measured(99);
    order.left->foot.fold = measured(fold);
    const Solution solution = solve(order);
    const FootSolution* const left = left_of(solution);
    ASSERT_NE(left, nullptr);
    EXPECT_NEAR(left->trim->final_cut.centre, 62, 1e-9);
    EXPECT_NEAR(left->trim->stop.centre, 78, 1e-9);
    EXPECT_NE(left->arch.arch->bend, bend_before) << "only the arch's shape needs it";
    bend_before = left->arch.arch->bend;
  }
}

TEST(Solution, PointedTheLineMovesWithTheFold) {
  Order order = worked_order();
  order.left->foot.fold = measured(8.5);
  const Solution solution = solve(order);
  const FootSolution* const left = left_of(solution);
  ASSERT_NE(left, nullptr);
  EXPECT_DOUBLE_EQ(left->trim->final_cut.centre, 64.5);
}

TEST(Solution, KeepingAFractionCutsTheRestOfTheLength) {
  // Common practice, no source: a three-quarter board keeps three quarters of its length.
  Order order = worked_order();
  shank_of(order).rule = KeepRule{0.75};
  const Solution solution = solve(order);
  const FootSolution* const left = left_of(solution);
  ASSERT_NE(left, nullptr);
  EXPECT_DOUBLE_EQ(left->trim->final_cut.centre, 55);
  EXPECT_DOUBLE_EQ(left->trim->station, 54);
  EXPECT_NEAR(left->trim->reach, 41.0 / 34, 1e-12);
  ASSERT_TRUE(left->pieces.kept_fraction);
  EXPECT_NEAR(*left->pieces.kept_fraction, 0.75, 1e-12);
}

TEST(Solution, AHandMarkIsTakenAsItIs) {
  Order order = worked_order();
  shank_of(order).rule = MarkRule{measured(66.5, 1), {}};
  const Solution solution = solve(order);
  const FootSolution* const left = left_of(solution);
  ASSERT_NE(left, nullptr);
  EXPECT_DOUBLE_EQ(left->trim->final_cut.centre, 66.5);
  EXPECT_DOUBLE_EQ(left->trim->station, 65.5);
}

TEST(Solution, ReachMovesTheLineByItsShareOfBreakToHeelFront) {
  for (const double reach : {0.75, 0.9, 1.0, 1.15, 1.3}) {
    Order order = worked_order();
    shank_of(order).rule = ReachRule{reach, ""};
    const Solution solution = solve(order);
    const FootSolution* const left = left_of(solution);
    ASSERT_NE(left, nullptr);
    EXPECT_NEAR(left->trim->final_cut.centre, 96 - 34 * reach, 1e-9);
    EXPECT_NEAR(left->trim->reach, reach, 1e-12);
  }
}

// Corners are cut too: a reach is drawn so far behind the stop band that they stay out of it, a
// mark is refused.
TEST(Solution, RoundedCornersStayBehindTheStopBand) {
  Order order = worked_order();
  shank_of(order).rule = ReachRule{0.65, ""}; // 96 - 0.65 * 34 = 73.9, stop line at 78
  shank_of(order).end = BoardEnd::rounded;
  const auto foremost = [](const SolvedTrim& trim) {
    double ahead = -1e9;
    for (const Point& p : trim.end)
      ahead = std::max(ahead, ahead_of(trim.stop_from, p));
    return ahead;
  };
  for (const double corner : {3.0, 8.0}) {
    shank_of(order).corner = corner;
    const Solution solution = solve(order);
    const FootSolution* const left = left_of(solution);
    ASSERT_NE(left, nullptr);
    EXPECT_TRUE(left->trim->rounded());
    ASSERT_TRUE(left->trim->held_from);
    EXPECT_NEAR(*left->trim->held_from, 73.9, 1e-9);
    EXPECT_NEAR(foremost(*left->trim), 0, 0.02);
    EXPECT_LE(foremost(*left->trim), 0.02);
  }

  shank_of(order).corner = 8;
  shank_of(order).rule = MarkRule{measured(73, 1), {}};
  const Solution refused = solve(order);
  ASSERT_FALSE(refused.left);
  const Finding& error = refused.findings.back();
  EXPECT_EQ(error.key, "alterations.left.shank.mark");
  EXPECT_NE(error.what.find("rounded corners"), std::string::npos) << error.what;
  EXPECT_NE(error.allowed.find(" from the heel end"), std::string::npos) << error.allowed;
}

TEST(Solution, ACornerWithoutARoundedEndIsNotIgnoredSilently) {
  Order order = worked_order();
  shank_of(order).corner = 9;
  const Solution solution = solve(order);
  ASSERT_NE(left_of(solution), nullptr);
  ASSERT_EQ(solution.findings.size(), 1u);
  EXPECT_EQ(solution.findings[0].key, "alterations.left.shank.corner");
  EXPECT_EQ(solution.findings[0].severity, Severity::caution);
}

TEST(Solution, ABoardThatEndsShortOfTheArchSaysSo) {
  Order order = worked_order();
  shank_of(order).accept_outside_window = true;
  shank_of(order).accept_in_stop_band = true;
  shank_of(order).rule = MarkRule{measured(90, 1), {}};
  shank_of(order).bevel = 0; // which would thin the board under the arch break
  const Solution little = solve(order);
  ASSERT_TRUE(little.left);
  EXPECT_TRUE(std::any_of(little.findings.begin(), little.findings.end(), [](const Finding& f) {
    return f.rank > 0 && f.what.find("little is left behind the arch break") != std::string::npos;
  }));
  // The border of the caution is a reach of 0.7: the break lies at 96 on the board, 34 ahead.
  shank_of(order) = ShankWish{};
  for (const auto& [reach, said] : {std::pair{0.7, false}, {0.699, true}}) {
    shank_of(order).rule = ReachRule{reach, ""};
    const Solution solution = solve(order);
    EXPECT_EQ(std::any_of(solution.findings.begin(), solution.findings.end(),
                          [](const Finding& f) { return f.rank == rank_of_short_board; }),
              said)
        << reach;
  }
}

TEST(Solution, FirstCutIsLeftOutWhereItWouldLieBehindTheBoard) {
  Order order = worked_order();
  order.left->foot.heel_front = measured(25);
  order.left->foot.arch_break = ArchBreak{};
  order.left->foot.arch_break.centre = measured(70);
  order.left->foot.fold = measured(0);
  order.left->shoe.board.inset = measured(20);
  const Solution solution = solve(order); // X = 25 + 0 − 20 = 5, less than 6 in hand
  const FootSolution* const left = left_of(solution);
  ASSERT_NE(left, nullptr);
  EXPECT_DOUBLE_EQ(left->trim->final_cut.centre, 5);
  EXPECT_FALSE(left->trim->first_cut);
}

TEST(Solution, WhatIsMissingIsEstimatedAndListed) {
  Order order = worked_order();
  order.left->foot.ball_length.reset();
  order.left->foot.heel_front.reset();
  order.left->foot.fold.reset();
  const Solution solution = solve(order);
  const FootSolution* const left = left_of(solution);
  ASSERT_NE(left, nullptr);
  const auto listed = [&](const std::string& key) -> const Estimated* {
    for (const Estimated& e : left->estimated)
      if (e.key == key) return &e;
    return nullptr;
  };
  const Estimated* const ball = listed("ball_length");
  const Estimated* const heel_front = listed("heel_front");
  const Estimated* const fold = listed("fold");
  ASSERT_NE(ball, nullptr);
  ASSERT_NE(heel_front, nullptr);
  ASSERT_NE(fold, nullptr);
  // ANSUR II (2012), women: regression on foot length and its residual spread.
  EXPECT_NEAR(ball->value, 0.728574 * 238 + 2.6086, 1e-3);
  EXPECT_NEAR(ball->sd, 3.2992, 5e-5);
  EXPECT_EQ(ball->name, "ball length");
  EXPECT_NE(ball->source.find("women"), std::string::npos) << "whose feet it was taken from";
  EXPECT_NEAR(heel_front->value, 61, 0.5);
  EXPECT_GT(heel_front->sd, 0);
  EXPECT_FALSE(heel_front->source.empty());
  EXPECT_EQ(fold->value, 6);
  EXPECT_NEAR(left->arch.ball, ball->value, 1e-12);
  EXPECT_NEAR(left->trim->final_cut.centre, heel_front->value + 1, 1e-9);

  order.estimates_from = Population::men;
  const Solution mens = solve(order);
  const FootSolution* const mens_left = left_of(mens);
  ASSERT_NE(mens_left, nullptr);
  EXPECT_NEAR(mens_left->arch.ball, 0.739276 * 238 + 0.4594, 1e-3);
}

TEST(Solution, EstimatedHeelFrontIsShiftedForAPoseInTheShoe) {
  Order order = worked_order();
  order.pose = Pose::in_shoe;
  order.left->foot.heel_front.reset();
  order.left->foot.arch_break.medial = measured(103);
  order.left->foot.arch_break.lateral = measured(99);
  const Solution solution = solve(order);
  const FootSolution* const left = left_of(solution);
  ASSERT_NE(left, nullptr);
  EXPECT_NEAR(left->arch.heel_front, 61, 0.5) << "in the foot's frame";
  EXPECT_NEAR(left->trim->final_cut.centre, 62, 0.5);
}

TEST(Solution, DepthWithDeepestPointGivesTheBreakWithACaution) {
  const double bend = brute_bend(brute_arch(172, 95, 61, 0), 12.5);
  const double deepest = 172 - brute_depth(brute_arch(172, 95, 61, bend)).at_u;
  Order order = worked_order();
  order.left->foot.arch_break = ArchBreak{};
  order.left->foot.deepest = measured(deepest);
  const Solution solution = solve(order);
  const FootSolution* const left = left_of(solution);
  ASSERT_NE(left, nullptr);
  EXPECT_NEAR(left->arch.break_at, 95, 0.01);
  EXPECT_NEAR(left->arch.arch->bend, bend, 1e-3);
  EXPECT_TRUE(std::any_of(solution.findings.begin(), solution.findings.end(), [](const Finding& f) {
    return f.severity == Severity::caution && f.key.text().find("deepest") != std::string::npos;
  })) << "an error of 1 in the deepest point is one of 3 in the break";
}

TEST(Solution, BendAloneGivesTheDepth) {
  Order order = worked_order();
  order.left->foot.arch_depth.reset();
  order.left->foot.arch_bend_rad = measured(30 * degree);
  const Solution solution = solve(order);
  const FootSolution* const left = left_of(solution);
  ASSERT_NE(left, nullptr);
  ASSERT_TRUE(left->arch.arch);
  EXPECT_DOUBLE_EQ(left->arch.arch->bend, 30 * degree);
  ASSERT_TRUE(left->arch.depth);
  EXPECT_NEAR(*left->arch.depth, brute_depth(brute_arch(172, 95, 61, 30 * degree)).depth, 1e-6);
}

TEST(Solution, LineNeedsNeitherDepthNorBend) {
  Order order = worked_order();
  order.left->foot.arch_depth.reset();
  const Solution solution = solve(order);
  const FootSolution* const left = left_of(solution);
  ASSERT_NE(left, nullptr);
  EXPECT_DOUBLE_EQ(left->trim->final_cut.centre, 62);
  EXPECT_FALSE(left->arch.arch);
  EXPECT_FALSE(left->arch.depth);
  EXPECT_FALSE(left->arch.deepest);
}

TEST(Solution, RepeatsCountByTheirMean) {
  Order order = worked_order();
  order.left->foot.heel_front->values = {60, 61, 63.5};
  const Solution solution = solve(order);
  const FootSolution* const left = left_of(solution);
  ASSERT_NE(left, nullptr);
  EXPECT_NEAR(left->trim->final_cut.centre, 62.5, 1e-12);
}

TEST(Solution, BoardInTheShoeHasALineButNoKeptPiece) {
  Order order = worked_order();
  Board& board = order.left->shoe.board;
  board.state = BoardState::in_shoe;
  board.length.reset();
  board.widths = {{22, 22.5, 22.5}, {64, 19.5, 19.5}};
  const Solution solution = solve(order);
  const FootSolution* const left = left_of(solution);
  ASSERT_NE(left, nullptr);
  EXPECT_DOUBLE_EQ(left->trim->final_cut.centre, 62);
  EXPECT_FALSE(left->outline.closed());
  EXPECT_FALSE(left->pieces.kept);
  EXPECT_FALSE(left->pieces.kept_length);
  EXPECT_FALSE(left->pieces.kept_fraction);
  EXPECT_DOUBLE_EQ(left->pieces.removed_length, 62);
  EXPECT_FALSE(left->trim->other_rules.three_quarter);
  // Width held beyond the last station: 39 at the break.
  EXPECT_NEAR(left->trim->skew, std::atan(4.0 / 39), 1e-12);
  if (left->pieces.removed) {
    EXPECT_TRUE(simple_by_pairs(left->pieces.removed->outline));
    // Behind a square line at 62, by quadrature of the widths. On equal edges that run straight a
    // skew takes on one side what it leaves on the other.
    const auto strip = [&](double v) {
      const double x = 62 * std::pow(v, 4);
      return 2 * left->outline.half_width(Edge::medial, x) * 4 * 62 * std::pow(v, 3);
    };
    const double square = simpson(strip, 0, 1, 20000);
    EXPECT_NEAR(left->pieces.removed->area, square, 2e-3 * square);
  }
}

TEST(Solution, ThreeQuarterRuleInTheShoeGoesByTheOuterSole) {
  Order order = worked_order();
  Board& board = order.left->shoe.board;
  board.state = BoardState::in_shoe;
  board.length.reset();
  board.widths = {{22, 22.5, 22.5}, {64, 19.5, 19.5}};
  shank_of(order).rule = KeepRule{0.75};
  expect_missing(order, "");
  board.sole_length = 236;
  const Solution solution = solve(order);
  const FootSolution* const left = left_of(solution);
  ASSERT_NE(left, nullptr);
  ASSERT_TRUE(left->trim->other_rules.three_quarter);
  // A quarter of the sole is 59, counted from its own end or from the shoe's back.
  EXPECT_GE(left->trim->final_cut.centre, 59 - 5);
  EXPECT_LE(left->trim->final_cut.centre, 59);
  EXPECT_NEAR(left->trim->final_cut.centre - 1, *left->trim->other_rules.three_quarter, 1e-9);
}

TEST(Solution, RightFootAloneAndMirroredFeetComeOutEqual) {
  Order both = worked_order();
  both.right = both.left;
  const Solution solution = solve(both);
  ASSERT_TRUE(solution.left);
  ASSERT_TRUE(solution.right);
  EXPECT_EQ(solution.right->side, FootSide::right);
  const FootSolution& l = *solution.left;
  const FootSolution& r = *solution.right;
  EXPECT_EQ(l.trim->final_cut.medial, r.trim->final_cut.medial);
  EXPECT_EQ(l.trim->final_cut.lateral, r.trim->final_cut.lateral);
  EXPECT_EQ(l.trim->end, r.trim->end);
  EXPECT_EQ(l.pieces.kept->outline, r.pieces.kept->outline);
  EXPECT_EQ(l.pieces.removed->area, r.pieces.removed->area);
  EXPECT_EQ(l.arch.arch->bend, r.arch.arch->bend);

  Order right_only = both;
  right_only.left.reset();
  const Solution alone = solve(right_only);
  EXPECT_FALSE(alone.left);
  ASSERT_TRUE(alone.right);
  EXPECT_EQ(alone.right->trim->final_cut.centre, r.trim->final_cut.centre);
}

TEST(Solution, OneBadFootDoesNotTakeTheOtherWithIt) {
  Order order = worked_order();
  order.right = order.left;
  order.right->foot.arch_break.medial = measured(180);
  order.right->foot.arch_break.lateral = measured(178);
  const Solution solution = solve(order);
  EXPECT_TRUE(solution.left);
  EXPECT_FALSE(solution.right);
  ASSERT_TRUE(has_error(solution.findings));
  for (const Finding& f : solution.findings)
    if (f.severity == Severity::error) {
      EXPECT_NE(f.key.text().find("right"), std::string::npos) << f.key;
    }
}

TEST(Solution, SameOrderGivesTheSameSolutionTwice) {
  const Solution a = solve(worked_order());
  const Solution b = solve(worked_order());
  ASSERT_TRUE(a.left);
  ASSERT_TRUE(b.left);
  EXPECT_EQ(a.left->pieces.kept->outline, b.left->pieces.kept->outline);
  EXPECT_EQ(a.left->trim->end, b.left->trim->end);
  EXPECT_EQ(a.left->arch.arch->bend, b.left->arch.arch->bend);
}

// Wishes that cannot be met name what has to change, and by how much.

TEST(ImpossibleWish, LineTooNearTheBreak) {
  Order order = worked_order();
  shank_of(order).rule = ReachRule{0.5, ""};                   // 78, one ahead of 77
  expect_refused(order, {"shank.reach"}, {1, 78, 0.53, 1.35}); // 77 and 49 as reaches
}

TEST(ImpossibleWish, LineTooFarUnderTheHeel) {
  Order order = worked_order();
  shank_of(order).rule = ReachRule{1.5, ""}; // 44, five behind 49
  expect_refused(order, {"shank.reach"}, {5, 44, 1.35});
  order = worked_order();
  shank_of(order).rule = MarkRule{measured(46.5, 1), {}}; // 45.5 on the foot
  expect_refused(order, {"shank.mark"}, {3.5, 50});
  order = worked_order();
  shank_of(order).rule = KeepRule{0.8}; // 44 on the board, 43 on the foot
  expect_refused(order, {"shank.keep"}, {6, 77.2});
}

TEST(ImpossibleWish, MaySayThatItMeansIt) {
  Order order = worked_order();
  shank_of(order).rule = ReachRule{1.5, ""};
  shank_of(order).accept_outside_window = true;
  const Solution solution = solve(order);
  const FootSolution* const left = left_of(solution);
  ASSERT_NE(left, nullptr);
  EXPECT_NEAR(left->trim->station, 44, 1e-9);
  EXPECT_NEAR(left->trim->final_cut.centre, 45, 1e-9);
  EXPECT_FALSE(solution.findings.empty()) << "accepted, but not without a word";
}

TEST(ImpossibleWish, WindowIsEmpty) {
  Order order = worked_order();
  order.left->foot.arch_break = ArchBreak{};
  order.left->foot.arch_break.centre = measured(65); // least bearing asks 47, most tuck 49
  expect_refused(order, {"arch_break", "heel_front", "bearing_min", "tuck_max"}, {2});
}

TEST(ImpossibleWish, LineMoreThanFifteenDegreesSkew) {
  Order order = worked_order();
  order.left->foot.arch_break.medial = measured(100);
  order.left->foot.arch_break.lateral = measured(90);       // 10 over 33: 16.9°
  expect_refused(order, {"arch_break"}, {10, 33, 15, 1.2}); // 33 tan 15° = 8.84
}

TEST(ImpossibleWish, PlasticBoard) {
  Order order = worked_order();
  order.left->shoe.board.material = BoardMaterial::plastic;
  const Solution solution = solve(order);
  EXPECT_FALSE(solution.left);
  expect_missing(order, "material");
}

TEST(ImpossibleWish, ArchBreaksAheadOfTheBall) {
  Order order = worked_order();
  order.left->foot.arch_break = ArchBreak{};
  order.left->foot.arch_break.centre = measured(175);
  expect_refused(order, {"arch_break", "ball_length"}, {175, 172});
}

TEST(ImpossibleWish, BreakOfBothEdgesContradictsTheTwoMarks) {
  // A middle ahead of the ball would put the stop line there too, whatever the two marks say.
  Order order = worked_order();
  order.left->foot.arch_break.centre = measured(190);
  const Solution solution = solve(order);
  EXPECT_FALSE(solution.left);
  expect_missing(order, "arch_break");
}

TEST(ImpossibleWish, HeelFrontLiesAheadOfTheArchBreak) {
  Order order = worked_order();
  order.left->foot.heel_front = measured(99.5);
  expect_refused(order, {"heel_front", "arch_break"}, {99.5, 97});
}

TEST(ImpossibleWish, ArchDeeperThanAnyBendMakesIt) {
  Order order = worked_order();
  const double most = brute_depth(brute_arch(172, 95, 61, largest_bend)).depth;
  order.left->foot.arch_depth = measured(most + 3);
  expect_refused(order, {"arch_depth"}, {std::floor(most)});
}

TEST(ImpossibleWish, NoArchHasThisDeepestPoint) {
  Order order = worked_order();
  order.left->foot.arch_break = ArchBreak{};
  order.left->foot.deepest = measured(170);
  const Solution solution = solve(order);
  EXPECT_FALSE(solution.left);
  expect_missing(order, "deepest");
  // The range does not go all the way from the heel front (61) to the ball (172): the solver
  // accepts exactly the range that is printed.
  const auto range = deepest_range(172, 61, 12.5);
  ASSERT_TRUE(range);
  const double least = std::ceil(range->least * 10) / 10;
  const double most = std::floor(range->most * 10) / 10;
  expect_refused(order, {"deepest"}, {170, least, most});
  const auto refused_as_deepest = [&](double at) {
    order.left->foot.deepest = measured(at);
    const Findings found = solve(order).findings;
    return std::any_of(found.begin(), found.end(), [](const Finding& f) {
      return f.severity == Severity::error && f.key == "feet.left.deepest";
    });
  };
  EXPECT_FALSE(refused_as_deepest(least));
  EXPECT_FALSE(refused_as_deepest(most));
  EXPECT_TRUE(refused_as_deepest(least - 0.2));
  EXPECT_TRUE(refused_as_deepest(most + 0.2));
}

TEST(ImpossibleWish, DeepestPointTakenInTheShoeIsAllowedAsItWasTaken) {
  Order order = worked_order();
  order.pose = Pose::in_shoe;
  order.left->foot.arch_break = ArchBreak{};
  order.left->foot.deepest = measured(170);
  order.left->foot.heel_front = measured(67);
  order.left->foot.fold = measured(6);
  const auto range = deepest_range(172, 61, 12.5);
  ASSERT_TRUE(range);
  expect_refused(order, {"deepest"},
                 {std::ceil(range->least * 10) / 10 + 6, std::floor(range->most * 10) / 10 + 6});
}

TEST(ImpossibleWish, DepthThatNoDeepestPointMakesPossibleIsTheError) {
  Order order = worked_order();
  order.left->foot.arch_break = ArchBreak{};
  order.left->foot.deepest = measured(103);
  order.left->foot.arch_depth = measured(55);
  expect_refused(order, {"arch_depth"}, {std::floor(largest_depth(172, 61))});
}

TEST(ImpossibleWish, LineBehindTheBoardsHeelEnd) {
  Order order = worked_order();
  order.left->foot.heel_front = measured(30);
  order.left->foot.arch_break = ArchBreak{};
  order.left->foot.arch_break.centre = measured(80);
  order.left->foot.fold = measured(0);
  order.left->shoe.board.inset = measured(34); // X = −4
  expect_refused(order, {"shank.reach", "inset"}, {4});
}

TEST(ImpossibleWish, CornersThatDoNotFitOnTheEnd) {
  Order order = worked_order();
  shank_of(order).end = BoardEnd::rounded;
  shank_of(order).corner = 30;
  const Solution solution = solve(order);
  EXPECT_FALSE(solution.left);
  expect_missing(order, "corner");
}

TEST(MissingReading, IsAskedForByName) {
  Order order = worked_order();
  order.left->foot.length.reset();
  expect_missing(order, "length");
  order = worked_order();
  order.left->foot.arch_break = ArchBreak{};
  expect_missing(order, "arch_break");
  order = worked_order();
  order.left->shoe.board.inset.reset();
  expect_missing(order, "inset");
  order = worked_order();
  order.left->shoe.board.widths.clear();
  expect_missing(order, "widths");
  order = worked_order();
  order.left->shoe.board.length.reset();
  expect_missing(order, "board.length");
}

TEST(NoNumber, IsRefusedWhereverItStands) {
  int tried = 0;
  for (const double bad :
       {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
    const auto refused = [&](auto&& spoil, const char* where) {
      Order order = worked_order();
      spoil(*order.left);
      const Solution solution = solve(order);
      EXPECT_FALSE(solution.left) << where << ' ' << bad;
      EXPECT_TRUE(has_error(solution.findings)) << where << ' ' << bad;
      ++tried;
    };
    refused([&](FootOrder& f) { f.foot.length = measured(bad); }, "length");
    refused([&](FootOrder& f) { f.foot.ball_length = measured(bad); }, "ball length");
    refused([&](FootOrder& f) { f.foot.heel_front = measured(bad); }, "heel front");
    refused([&](FootOrder& f) { f.foot.arch_break.medial = measured(bad); }, "medial break");
    refused([&](FootOrder& f) { f.foot.arch_break.lateral = measured(bad); }, "lateral break");
    refused([&](FootOrder& f) { f.foot.arch_depth = measured(bad); }, "arch depth");
    refused(
        [&](FootOrder& f) {
          f.foot.arch_depth.reset();
          f.foot.arch_bend_rad = measured(bad);
        },
        "arch bend");
    refused([&](FootOrder& f) { f.foot.fold = measured(bad); }, "fold");
    refused([&](FootOrder& f) { f.shoe.board.inset = measured(bad); }, "inset");
    refused([&](FootOrder& f) { f.shoe.board.length = measured(bad); }, "board length");
    refused([&](FootOrder& f) { f.shoe.board.widths[1].medial = bad; }, "width");
    refused([&](FootOrder& f) { f.alterations.shank->rule = ReachRule{bad, ""}; }, "reach");
    refused([&](FootOrder& f) { f.alterations.shank->rule = KeepRule{bad}; }, "keep");
    refused([&](FootOrder& f) { f.alterations.shank->rule = MarkRule{measured(bad), {}}; }, "mark");
    refused([&](FootOrder& f) { f.alterations.shank->bevel = bad; }, "bevel");
    refused([&](FootOrder& f) { f.alterations.shank->tuck_max = bad; }, "farthest tuck");
    refused([&](FootOrder& f) { f.alterations.shank->bearing_min = bad; }, "least bearing");
    refused([&](FootOrder& f) { f.foot.arch_break.across = bad; }, "width between the marks");
    refused(
        [&](FootOrder& f) {
          f.alterations.shank->end = BoardEnd::rounded;
          f.alterations.shank->corner = bad;
        },
        "corner");
  }
  EXPECT_EQ(tried, 38);
}

} // namespace
} // namespace shankline::tests::solution_test
