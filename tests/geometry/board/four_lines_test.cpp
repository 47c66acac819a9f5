// The four lines of a board: stop line, stop band, final cut, first cut.
#include "geometry/board/trim_line.hpp"
#include "geometry/board/trim_solution.hpp"
#include "geometry/fitting/worn_pair.hpp"
#include "geometry/order/foot_estimates.hpp"
#include "geometry/order/ruler_number.hpp"
#include "geometry/solution/solution.hpp"
#include "geometry/uncertainty/reading_doubt.hpp"
#include "tests/geometry/random_orders.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <map>
#include <string>
#include <vector>

namespace shankline::tests::four_lines_test {
namespace {

/// The foot of the README, every reading taken once: stations in the order's pose.
Order readme_order() {
  Order order;
  order.dancer = "M-07";
  FootOrder& left = order.left.emplace();
  Foot& foot = left.foot;
  foot.length = as_reading(238, "length");
  foot.ball_length = as_reading(172, "ball_length");
  foot.heel_front = as_reading(61, "heel_front");
  foot.arch_break.medial = as_reading(97, "arch_break.medial");
  foot.arch_break.lateral = as_reading(93, "arch_break.lateral");
  foot.fold = as_reading(6, "fold");
  left.shoe.board.length = as_reading(220, "board.length");
  left.shoe.board.inset = as_reading(5, "board.inset");
  left.shoe.board.widths = {{22, 22.5, 22.5}, {96, 16.5, 16.5}, {164, 28, 28}};
  left.alterations.shank = ShankWish{};
  return order;
}
Foot& foot_of(Order& order) {
  return order.left->foot;
}
ShankWish& shank_of(Order& order) {
  return *order.left->alterations.shank;
}
void one_break(Order& order, double at) {
  foot_of(order).arch_break = {as_reading(at, "arch_break"), {}, {}, {}};
}
void mark_at(Order& order, double at) {
  shank_of(order).rule = MarkRule{as_reading(at, "shank.mark"), {}};
}

/// A line that four pairs taught, the last of them in August 2026.
LearnedRule learned_at(double station, double U, int worn_good = 0) {
  return {LearnedLine{station, U, 4, "2026-08-14", 1, worn_good}};
}

bool refused_for(const Solution& solution, const std::string& key, const std::string& words) {
  return std::any_of(solution.findings.begin(), solution.findings.end(), [&](const Finding& f) {
    return f.severity == Severity::error && f.key.text().find(key) != std::string::npos &&
           (f.what + f.allowed + f.advice).find(words) != std::string::npos;
  });
}
bool cautioned_for(const Solution& solution, const std::string& key, const std::string& words) {
  return std::any_of(solution.findings.begin(), solution.findings.end(), [&](const Finding& f) {
    return f.severity == Severity::caution && f.key.text().find(key) != std::string::npos &&
           f.what.find(words) != std::string::npos;
  });
}
bool said(const Solution& solution, const std::string& words, int rank) {
  return std::any_of(solution.findings.begin(), solution.findings.end(), [&](const Finding& f) {
    return f.severity == Severity::caution && f.rank == rank &&
           f.what.find(words) != std::string::npos;
  });
}

struct WorkedLines {
  const char* name;
  std::function<void(Order&)> change;
  double first; ///< 0 where none is drawn
  double final;
  double stop_from;
  double stop;
};

// Worked out by hand (sums of variances, Welch-Satterthwaite, Student's t at whole degrees of
// freedom), not by the solver. One reading of each with half-width h has (1 + h²)/3 fresh with 8
// degrees of freedom and (h/2)²/3 of habit; laying flat adds 1.5²/3, print, tracing and knife 0.25
// together. Board = station + 6 − 5 where the foot is pointed.
TEST(FourLines, ComeOutAsWorkedByHand) {
  const std::vector<WorkedLines> table{
      {"edge", [](Order&) {}, 52.5799, 62, 71.1699, 78},
      {"tucked", [](Order& o) { shank_of(o).rule = rule_of(tucked_reach); }, 47.4799, 56.9, 71.1699,
       78},
      {"short", [](Order& o) { shank_of(o).rule = rule_of(short_reach); }, 61.0799, 70.5, 71.1699,
       78},
      {"a reach inside the band is drawn at its near edge",
       [](Order& o) {
         shank_of(o).rule = ReachRule{0.55, ""};
       },
       61.7498, 71.1699, 71.1699, 78},
      {"one break for both edges", [](Order& o) { one_break(o, 95); }, 52.5799, 62, 70.5564, 78},
      {"a mark", [](Order& o) { one_break(o, 95), mark_at(o, 58); }, 48.5799, 58, 70.5564, 78},
      {"three quarters kept", [](Order& o) { one_break(o, 95), shank_of(o).rule = KeepRule{0.75}; },
       45.5799, 55, 70.5564, 78},
      {"in the shoe",
       [](Order& o) {
         o.pose = Pose::in_shoe;
         one_break(o, 101);
         foot_of(o).heel_front = as_reading(67, "heel_front");
       },
       53.2418, 62, 71.6486, 78},
      {"three readings each",
       [](Order& o) {
         Foot& foot = foot_of(o);
         for (Reading* r : {&*foot.heel_front, &*foot.arch_break.medial, &*foot.arch_break.lateral,
                            &*foot.fold, &*o.left->shoe.board.inset})
           r->values.assign(3, r->value());
       },
       53.5981, 62, 73.2734, 78},
      {"heel front estimated", [](Order& o) { foot_of(o).heel_front.reset(); }, 49.7521, 62,
       71.1699, 78},
      {"a hold-back of the order's own", [](Order& o) { shank_of(o).hold_back = 6; }, 56, 62,
       71.1699, 78},
      {"a learned line of large doubt is held back by U less 3",
       [](Order& o) { shank_of(o).rule = learned_at(57, 12.5, 4); }, 48.5, 58, 71.1699, 78},
      {"a learned line of small doubt is held back by 6",
       [](Order& o) { shank_of(o).rule = learned_at(57, 4.5, 2); }, 52, 58, 71.1699, 78},
      {"and by 3 once three pairs ended good after wear",
       [](Order& o) { shank_of(o).rule = learned_at(57, 4.5, 3); }, 55, 58, 71.1699, 78},
      {"and by U less 3 where that is more",
       [](Order& o) { shank_of(o).rule = learned_at(57, 7, 3); }, 54, 58, 71.1699, 78},
      {"a learned line inside the band is drawn at its near edge",
       [](Order& o) { shank_of(o).rule = learned_at(73, 4.5); }, 65.1699, 71.1699, 71.1699, 78},
      {"a learned line counts from the back of the heel in the shoe too",
       [](Order& o) {
         o.pose = Pose::in_shoe;
         one_break(o, 101);
         foot_of(o).heel_front = as_reading(67, "heel_front");
         shank_of(o).rule = learned_at(57, 4.5);
       },
       52, 58, 71.6486, 78},
      {"little comes off",
       [](Order& o) {
         one_break(o, 64);
         foot_of(o).heel_front = as_reading(30, "heel_front");
         foot_of(o).fold = as_reading(0, "fold");
         o.left->shoe.board.inset = as_reading(15, "board.inset");
       },
       0, 15, 23.5564, 31},
  };
  for (const WorkedLines& worked : table) {
    SCOPED_TRACE(worked.name);
    Order order = readme_order();
    worked.change(order);
    const Solution solution = solve(order);
    ASSERT_TRUE(solution.left);
    const SolvedTrim& trim = *solution.left->trim;
    EXPECT_NEAR(trim.final_cut.centre, worked.final, 1e-3);
    EXPECT_NEAR(trim.stop_from.centre, worked.stop_from, 1e-3);
    EXPECT_NEAR(trim.stop.centre, worked.stop, 1e-9);
    ASSERT_EQ(trim.first_cut.has_value(), worked.first > 0);
    if (trim.first_cut) {
      EXPECT_NEAR(trim.first_cut->centre, worked.first, 1e-3);
    }
  }
}

TEST(FourLines, ALearnedLineIsAsSureAsItsOwnUAndLeavesTheStopLineAsItIs) {
  Order order = readme_order();
  const Solution by_readings = solve(order);
  shank_of(order).rule = learned_at(57, 4.5);
  const Solution learned = solve(order);
  ASSERT_TRUE(by_readings.left && learned.left);
  const SolvedTrim& trim = *learned.left->trim;
  // Fold, inset, laying flat and carrying are in the learned U: they are not added again.
  EXPECT_NEAR(trim.doubt.board.expanded(), 4.5, 1e-9);
  EXPECT_NEAR(trim.doubt.board.value, 58, 1e-9);
  EXPECT_DOUBLE_EQ(trim.right_U, 4.5);
  EXPECT_DOUBLE_EQ(trim.station, 57);
  EXPECT_EQ(trim.learned, std::get<LearnedRule>(shank_of(order).rule).line);
  EXPECT_TRUE(trim.gains.empty()) << "no reading taken again makes it surer";
  const TrimDoubt& before = by_readings.left->trim->doubt;
  EXPECT_DOUBLE_EQ(trim.doubt.stop.expanded(), before.stop.expanded());
  EXPECT_DOUBLE_EQ(trim.doubt.heel_front_line.expanded(), before.heel_front_line.expanded());
  EXPECT_DOUBLE_EQ(trim.doubt.heel_front_line.value, 62) << "what the readings alone would say";
  EXPECT_FALSE(by_readings.left->trim->learned);
}

TEST(FourLines, TheFirstCutStaysBehindAnEndThatWasTooFar) {
  Order order = readme_order();
  const auto first_cut = [&order](std::optional<double> too_far, std::optional<double> own = {}) {
    LearnedRule rule = learned_at(57, 4.5, 3);
    rule.line->too_far = too_far;
    shank_of(order).rule = rule;
    shank_of(order).hold_back = own;
    return solve(order);
  };
  // The board's stations lie 1 ahead: final 58, first 3 behind it once three pairs were good.
  EXPECT_NEAR(first_cut({}).left->trim->first_cut->centre, 55, 1e-9);
  EXPECT_NEAR(first_cut(60).left->trim->first_cut->centre, 55, 1e-9) << "61 on the board, less 6";
  EXPECT_NEAR(first_cut(59.9).left->trim->first_cut->centre, 54.9, 1e-9);
  EXPECT_NEAR(first_cut(60.1).left->trim->first_cut->centre, 55, 1e-9) << "3 behind the final line";
  const Solution close = first_cut(57);
  EXPECT_NEAR(close.left->trim->first_cut->centre, 52, 1e-9);
  EXPECT_NEAR(close.left->trim->final_cut.centre, 58, 1e-9) << "the estimate stays what it is";
  // The order's own hold-back holds, and is warned of with the reason.
  const Solution own = first_cut(57, 5);
  EXPECT_NEAR(own.left->trim->first_cut->centre, 53, 1e-9);
  EXPECT_TRUE(cautioned_for(own, "shank.hold_back", "58 mm was cut too far"));
  EXPECT_FALSE(cautioned_for(first_cut(57, 6), "shank.hold_back", "too far"));
}

TEST(FourLines, ALearnedLineIsHeldToTheWindow) {
  Order order = readme_order();
  shank_of(order).rule = learned_at(48.9, 4.5); // the window begins at 61 - 12
  const Solution tucked = solve(order);
  EXPECT_FALSE(tucked.left);
  EXPECT_TRUE(refused_for(tucked, "shank.reach", "a learned line of 49 to 77"));
  EXPECT_TRUE(refused_for(tucked, "shank.reach", "reach: edge"));
  shank_of(order).rule = learned_at(77.1, 4.5); // and ends at 95 - 18
  EXPECT_TRUE(refused_for(solve(order), "shank.reach", "too near to the arch break"));
  shank_of(order).accept_outside_window = true;
  shank_of(order).rule = learned_at(95, 4.5);
  EXPECT_TRUE(refused_for(solve(order), "shank.reach", "No accept: word"));
}

TEST(FourLines, ALearnedLineThatTheOrderDoesNotHoldIsRefused) {
  Order order = readme_order();
  shank_of(order).rule = LearnedRule{};
  const Solution solution = solve(order);
  EXPECT_FALSE(solution.left);
  EXPECT_TRUE(refused_for(solution, "shank.reach", "archive"));
  EXPECT_TRUE(refused_for(solution, "shank.reach", "--entry NUMBER"));
}

TEST(FourLines, ALearnedLineOutsideItsLimitsIsRefused) {
  const LearnedLine good{57, 4.5, 4, "2026-08-14", 1, 0};
  const auto refused = [&](const char* key, const std::function<void(LearnedLine&)>& spoil) {
    LearnedLine line = good;
    spoil(line);
    Order order = readme_order();
    shank_of(order).rule = LearnedRule{line};
    EXPECT_TRUE(refused_for(solve(order), key, "from "));
  };
  refused("shank.reach.learned", [](LearnedLine& line) { line.station = 161; });
  refused("shank.reach.learned", [](LearnedLine& line) { line.station = std::nan(""); });
  refused("shank.reach.U", [](LearnedLine& line) { line.U = 1.9; });
  refused("shank.reach.pairs", [](LearnedLine& line) { line.pairs = 0; });
  refused("shank.reach.worn_good", [](LearnedLine& line) { line.worn_good = -1; });
  refused("shank.reach.model", [](LearnedLine& line) { line.model = 0; });
  refused("shank.reach.too_far", [](LearnedLine& line) { line.too_far = 200.1; });
}

// Before: "first cut 68.0, final cut 74.0, known to ±2.1, stop line at 75.0" with the break known
// to ±25.
TEST(FourLines, AMarkNearAnUnknownStopLineIsRefused) {
  Order order = readme_order();
  foot_of(order).arch_break = {Reading{{92}, 25, false, 0, {}}, {}, {}, {}};
  mark_at(order, 74);
  const Solution solution = solve(order);
  EXPECT_FALSE(solution.left);
  EXPECT_TRUE(refused_for(solution, "shank.mark", "stop band"));
  EXPECT_TRUE(refused_for(solution, "shank.mark", "accept: in_stop_band"));
  // The fitter's word allows it, and then the sheet begins with it.
  shank_of(order).accept_in_stop_band = true;
  const Solution accepted = solve(order);
  ASSERT_TRUE(accepted.left);
  EXPECT_NEAR(accepted.left->trim->final_cut.centre, 74, 1e-9);
  EXPECT_TRUE(said(accepted, "inside the stop band", rank_of_stop_band));
}

// Before: foot 195, keep 70 %: "first cut 48.0, known to ±1.1", the stop line at 56 known to ±22.
TEST(FourLines, AFractionNearAnUnknownStopLineIsRefused) {
  Order order = readme_order();
  order.growing = false;
  foot_of(order).length = as_reading(195, "length");
  foot_of(order).ball_length = as_reading(145, "ball_length");
  foot_of(order).heel_front = Reading{{50}, 12, false, 0, {}};
  foot_of(order).arch_break = {Reading{{73}, 15, false, 0, {}}, {}, {}, {}};
  order.left->shoe.board.length = as_reading(180, "board.length");
  shank_of(order).rule = KeepRule{0.7};
  const Solution solution = solve(order);
  EXPECT_FALSE(solution.left);
  EXPECT_TRUE(refused_for(solution, "shank.keep", "stop band"));
}

// Before: heel_front {value: 61, within: 50} gave "only 62 come off in all: too little to cut in
// two steps" and a final line known to ±70.
TEST(FourLines, AReadingThatSaysLessThanItsEstimateIsRefused) {
  Order order = readme_order();
  // (1 + h²)/3 + h²/12 = 25, the estimate's 5²: h = 7.694.
  foot_of(order).heel_front = Reading{{61}, 7.69, false, 0, {}};
  EXPECT_TRUE(solve(order).left);
  foot_of(order).heel_front->finding = 7.70;
  const Solution refused = solve(order);
  EXPECT_FALSE(refused.left);
  EXPECT_TRUE(refused_for(refused, "heel_front", "leave it out"));
  // In the shoe the estimate has to be carried over by the fold, so the reading may be poorer.
  order.pose = Pose::in_shoe;
  EXPECT_FALSE(refused_for(solve(order), "heel_front", "leave it out"));
}

// Before: accept: outside_window let a mark at 139 through with the break at 95: "final cut 139.0".
TEST(FourLines, NoWordLetsALineReachTheArchBreak) {
  for (const double mark : {96.0, 96.5, 139.0}) {
    Order order = readme_order(); // the break lies at 96 on the board
    mark_at(order, mark);
    shank_of(order).accept_outside_window = true;
    shank_of(order).accept_in_stop_band = true;
    const Solution solution = solve(order);
    EXPECT_FALSE(solution.left) << mark;
    EXPECT_TRUE(refused_for(solution, "shank.mark", "No accept: word")) << mark;
  }
  Order order = readme_order();
  mark_at(order, 95.9);
  shank_of(order).bevel = 0; // which would thin the board under the arch break
  shank_of(order).accept_outside_window = true;
  EXPECT_TRUE(refused_for(solve(order), "shank.mark", "stop band")) << "the other word is missing";
  shank_of(order).accept_in_stop_band = true;
  EXPECT_TRUE(solve(order).left);
}

// Between what is filed back and what is cut in two there is too little for either.
TEST(FourLines, BetweenFilingAndCuttingTheWeakestReadingIsNamed) {
  const auto with_heel_front = [](double heel_front) {
    Order order = readme_order();
    one_break(order, 70);
    foot_of(order).heel_front = as_reading(heel_front, "heel_front");
    foot_of(order).fold = as_reading(0, "fold");
    order.left->shoe.board.inset = as_reading(15, "board.inset");
    return order;
  };
  EXPECT_TRUE(solve(with_heel_front(31)).left);          // 16: filed back
  const Solution between = solve(with_heel_front(31.5)); // 16.5 less 9.42 is below 10
  EXPECT_FALSE(between.left);
  EXPECT_TRUE(refused_for(between, "shank.reach", " twice more. The better it is known"));
  EXPECT_TRUE(refused_for(between, "shank.reach",
                          "16.5 would come off in all. The first cut stays 9.4 short of that and "
                          "would take off 7.1, less than the 10 that a first cut needs"));
  EXPECT_TRUE(refused_for(between, "shank.reach", "write hold_back: 6.5 in shank."));
  EXPECT_TRUE(std::any_of(between.findings.begin(), between.findings.end(), [](const Finding& f) {
    return f.allowed == "up to 16 in all, filed back without a first cut; or 19.5 and more, in two "
                        "cuts";
  }));
  EXPECT_FALSE(solve(with_heel_front(34.4)).left);   // 19.4 less 9.42 is below 10
  const Solution cut = solve(with_heel_front(34.5)); // 19.5 less 9.42 is 10.08
  ASSERT_TRUE(cut.left);
  EXPECT_NEAR(cut.left->trim->first_cut->centre, 10.08, 1e-3);
}

TEST(FourLines, AShortHoldBackIsACaution) {
  Order order = readme_order();
  shank_of(order).hold_back = 9.5; // 9.42 is usual
  EXPECT_FALSE(said(solve(order), "held back", rank_of_short_board));
  shank_of(order).hold_back = 9.4;
  EXPECT_TRUE(said(solve(order), "held back by 9.4 mm only", rank_of_short_board));
}

// Before, a smaller bearing moved the stop line in silence.
TEST(StopLine, NearerToTheBreakThanUsualIsSaid) {
  Order order = readme_order();
  order.left->alterations.shank->bearing_min = 18;
  EXPECT_FALSE(said(solve(order), "are usual", rank_of_stop_band));
  order.left->alterations.shank->bearing_min = 17.9;
  EXPECT_TRUE(said(solve(order), "leaves only 17.9 mm of board", rank_of_stop_band));
}

// ---- Words about a line past the stop line -----------------------------------------------------

// Before, the caution said "the stop line at 60 mm", and every page drew it at the cut, at 62.
TEST(StopLine, PastItWithAFittersWordNoOtherFigureIsSaid) {
  Order order = readme_order();
  foot_of(order).arch_break.medial = as_reading(79, "arch_break.medial");
  foot_of(order).arch_break.lateral = as_reading(75, "arch_break.lateral");
  shank_of(order).accept_outside_window = true;
  shank_of(order).accept_in_stop_band = true;
  const Solution solution = solve(order);
  ASSERT_TRUE(solution.left);
  EXPECT_NEAR(solution.left->trim->stop.centre, 62, 1e-9);
  EXPECT_TRUE(cautioned_for(solution, "shank.reach", "the stop line is drawn at the cut"));
  EXPECT_FALSE(cautioned_for(solution, "shank.reach", "the stop line at"));
  mark_at(order, 60); // just on it
  EXPECT_TRUE(cautioned_for(solve(order), "shank.mark", "the stop line at 60 mm"));
}

TEST(StopLine, AReachThatIsAdvisedSaysWhereItsLineLies) {
  Order order = readme_order();
  foot_of(order).arch_break.medial = as_reading(79, "arch_break.medial");
  foot_of(order).arch_break.lateral = as_reading(75, "arch_break.lateral");
  const char* const one_line = "Every such reach gives one line, at 53.2 mm from the heel end";
  EXPECT_TRUE(refused_for(solve(order), "shank.reach", one_line));
  for (const double reach : {1.13, 1.5}) {
    shank_of(order).rule = ReachRule{reach, ""};
    const Solution solution = solve(order);
    ASSERT_TRUE(solution.left) << reach;
    EXPECT_NEAR(solution.left->trim->final_cut.centre, 53.2, 0.05) << reach;
  }
  // A break farther ahead leaves reaches that end behind the band.
  shank_of(order).rule = ReachRule{0.5, ""};
  foot_of(order).arch_break = {as_reading(93, "arch_break"), {}, {}, {}};
  EXPECT_TRUE(refused_for(solve(order), "shank.reach", "Ask for a reach of at least"));
  EXPECT_FALSE(refused_for(solve(order), "shank.reach", "one line"));
}

TEST(StopLine, APlaceOnTheFootSaysWhereItIsCountedFrom) {
  Order order = readme_order();
  mark_at(order, 85);
  EXPECT_TRUE(refused_for(solve(order), "shank.mark",
                          "the board would end at 84 mm from the back of the heel"));
  mark_at(order, 100);
  EXPECT_TRUE(refused_for(solve(order), "shank.mark",
                          "the board would end at 99 from the back of the heel"));
  order.pose = Pose::in_shoe; // the break lies at 95 from the seam, the mark at 85 + 5
  mark_at(order, 85);
  EXPECT_TRUE(refused_for(solve(order), "shank.mark",
                          "the board would end at 90 mm from the shoe's back seam"));
}

// ---- Growing feet ------------------------------------------------------------------------------

TEST(GrowingFoot, NeedsAnAdultWhoDecides) {
  Order order = readme_order();
  foot_of(order).length = as_reading(214.9, "length");
  foot_of(order).ball_length.reset();
  EXPECT_TRUE(refused_for(solve(order), "decided_by", "physiotherapist or podiatrist"));
  order.decided_by = "T-1";
  const Solution decided = solve(order);
  ASSERT_TRUE(decided.left);
  EXPECT_TRUE(said(decided, "counts as growing", rank_of_growing_foot));
  order.decided_by.clear();
  order.growing = false;
  EXPECT_TRUE(solve(order).left);
  order.growing = true;
  foot_of(order).length = as_reading(238, "length");
  EXPECT_TRUE(refused_for(solve(order), "decided_by", "still growing"));
  order.growing.reset();
  foot_of(order).length = as_reading(215, "length");
  EXPECT_TRUE(solve(order).left) << "215 is not shorter than 215";
}

TEST(GrowingFoot, HasNoLineAheadOfTheHeelFront) {
  Order order = readme_order();
  order.growing = true;
  order.decided_by = "T-1";
  EXPECT_TRUE(solve(order).left);
  for (const TrimRule& ahead :
       {TrimRule{ReachRule{0.99, ""}}, TrimRule{KeepRule{0.718}},
        TrimRule{MarkRule{as_reading(62.1, "shank.mark"), {}}},
        TrimRule{MarkRule{measured(62.1), CarriedOver{1, 20}}}, TrimRule{learned_at(61.1, 4.5)}}) {
    shank_of(order).rule = ahead;
    EXPECT_TRUE(refused_for(solve(order), "shank.", "ahead of the heel front"));
  }
  mark_at(order, 62);
  EXPECT_TRUE(solve(order).left);
}

TEST(GrowingFoot, HasNoRoundedCornerAheadOfTheHeelFront) {
  Order order = readme_order();
  order.growing = true;
  order.decided_by = "T-1";
  shank_of(order).end = BoardEnd::rounded;
  EXPECT_TRUE(refused_for(solve(order), "shank.end", "ahead of the heel front"));
  shank_of(order).rule = ReachRule{1.25, ""}; // 8.5 behind it, and the corners have a radius of 6
  EXPECT_TRUE(solve(order).left);
  shank_of(order).rule = ReachRule{1, "edge"};
  order.growing = false;
  EXPECT_TRUE(solve(order).left);
}

// Before, the big-toe edge of a skew line lay 3.5 mm ahead of the heel front.
TEST(GrowingFoot, HasASquareLineSoThatNoEdgeLiesAheadOfTheHeelFront) {
  Order order = readme_order();
  order.read_by = "R2";
  order.decided_by = "T-1";
  foot_of(order).arch_break.medial = as_reading(98, "arch_break.medial");
  foot_of(order).arch_break.medial->values = {98, 98, 98};
  foot_of(order).arch_break.lateral = as_reading(91, "arch_break.lateral");
  foot_of(order).arch_break.lateral->values = {91, 91, 91};
  const Solution grown = solve(order);
  ASSERT_TRUE(grown.left);
  const CutLine& skew = grown.left->trim->final_cut;
  ASSERT_GT(skew.medial, 62.5) << "skew where the foot is grown";
  order.growing = true;
  const Solution growing = solve(order);
  ASSERT_TRUE(growing.left);
  const SolvedTrim& trim = *growing.left->trim;
  for (const CutLine* line : {&*trim.first_cut, &trim.final_cut, &trim.stop_from})
    for (const BoardStation at : {line->medial, line->centre, line->lateral})
      EXPECT_LE(at.mm(), 62 + 1e-9);
  EXPECT_NE(trim.skew_reason.find("growing foot"), std::string::npos) << trim.skew_reason;
}

TEST(GrowingFoot, EstimatesOutsideTheSurveyWidenAndSaySo) {
  // ANSUR II: the 1st and 99th percentile of women's foot lengths are 219 and 276 mm.
  const Reading inside = estimated_heel_front(Population::women, 219);
  const Reading outside = estimated_heel_front(Population::women, 218.9);
  EXPECT_DOUBLE_EQ(outside.estimate_sd, 2 * inside.estimate_sd);
  EXPECT_NE(outside.source.find("doubled"), std::string::npos);
  EXPECT_DOUBLE_EQ(estimated_ball_length(Population::women, 276.1).estimate_sd,
                   2 * estimated_ball_length(Population::women, 276).estimate_sd);
  EXPECT_TRUE(inside_survey(Population::men, 242));
  EXPECT_FALSE(inside_survey(Population::men, 241.9));
  EXPECT_TRUE(inside_survey(Population::men, 302));
  EXPECT_FALSE(inside_survey(Population::men, 302.1));
}

// ---- Copied lines, the quarter rule in the shoe ------------------------------------------------

// Before: a caution, and the lines were copied all the same.
TEST(FourLines, LinesOfAnotherDancerAreNotCopied) {
  WornPair worn;
  worn.dancer = "M-08";
  worn.left =
      WornFoot{as_reading(168, "worn.board_end"), as_reading(231, "worn.heel_end"), {}, {}, {}};
  Findings findings;
  copy_lines(readme_order(), worn, findings);
  EXPECT_TRUE(has_error(findings));
  worn.dancer = "M-07";
  findings.clear();
  const MatchedOrder matched = copy_lines(readme_order(), worn, findings);
  EXPECT_FALSE(has_error(findings));
  // A pair of hers that was right says more than the heel front: H is the least there is.
  const Solution solution = solve(matched.order);
  ASSERT_TRUE(solution.left);
  EXPECT_DOUBLE_EQ(solution.left->trim->hold_back, first_cut_in_hand);
}

// Before: a quarter of the outer sole, 2 to 3 mm more than a quarter of the same shoe's board.
TEST(FourLines, TheQuarterRuleAgreesLooseAndInTheShoe) {
  Board loose = readme_order().left->shoe.board;
  Board in_shoe = loose;
  in_shoe.state = BoardState::in_shoe;
  in_shoe.length.reset();
  in_shoe.sole_length = 220 + 5 + 1; // board, inset, and the sole's end behind the inside back
  EXPECT_DOUBLE_EQ(*whole_length(loose), 220);
  EXPECT_DOUBLE_EQ(*whole_length(in_shoe), 220);
}

// ---- Properties --------------------------------------------------------------------------------

std::string rule_name(const TrimRule& rule) {
  if (std::holds_alternative<KeepRule>(rule)) return "keep";
  if (std::holds_alternative<LearnedRule>(rule)) return "learned";
  if (const auto* mark = std::get_if<MarkRule>(&rule)) return mark->carried_over ? "match" : "mark";
  return std::get<ReachRule>(rule).preset.empty() ? "number" : std::get<ReachRule>(rule).preset;
}

void give_word(FootOrder& order, bool in_band, bool outside) {
  order.alterations.shank->accept_in_stop_band = in_band;
  order.alterations.shank->accept_outside_window = outside;
}

TEST(FourLines, LieInTheirOrderForEveryRule) {
  Draw draw(1801);
  std::map<std::string, int> solved, held, with_word;
  for (int i = 0; i < 2000; ++i) {
    Order order = random_order(draw);
    order.right.reset();
    if (!order.left) continue;
    FootOrder& foot = *order.left;
    const std::size_t kind = draw.below(7);
    const double around = draw.uniform(40, 95);
    if (kind == 0) foot.alterations.shank->rule = MarkRule{as_reading(around, "shank.mark"), {}};
    if (kind == 1) foot.alterations.shank->rule = MarkRule{measured(around), CarriedOver{1.4, 30}};
    if (kind == 2 && foot.shoe.board.length)
      foot.alterations.shank->rule = KeepRule{1 - around / foot.shoe.board.length->value()};
    if (kind == 3)
      foot.alterations.shank->rule =
          learned_at(around, draw.uniform(3, 14), static_cast<int>(draw.below(5)));
    const bool in_band = draw.chance(0.3);
    const bool outside = draw.chance(0.3);
    give_word(foot, in_band, outside);
    const Solution solution = solve(order);
    if (!solution.left) continue;
    const SolvedTrim& trim = *solution.left->trim;
    const std::string rule = rule_name(foot.alterations.shank->rule);
    ++solved[rule];
    if (trim.held_from) ++held[rule];
    ASSERT_LT(solution.left->frames.on_foot(trim.final_cut.centre), solution.left->arch.break_at);
    if (trim.first_cut) {
      ASSERT_LT(trim.first_cut->centre, trim.final_cut.centre);
      ASSERT_GE(trim.first_cut->centre, least_first_cut - 1e-9);
      ASSERT_NEAR(trim.final_cut.centre - trim.first_cut->centre, trim.hold_back, 1e-9);
      const bool trusted = trim.learned && trim.learned->worn_good >= pairs_to_trust;
      ASSERT_GE(trim.hold_back, trusted ? least_hold_back_when_trusted : first_cut_in_hand);
      ASSERT_GE(trim.hold_back, trim.right_U - right_half_width);
    } else {
      ASSERT_LE(trim.final_cut.centre, filed_at_most + 1e-9);
    }
    ASSERT_NEAR(
        trim.stop_from.centre,
        std::max((solution.left->frames.on_board(trim.window.to) - trim.doubt.stop.expanded()).mm(),
                 1e-9),
        1e-6);
    // No line lies past the near edge without the word, and no line past the stop line with it.
    if (!in_band) {
      ASSERT_LE(trim.final_cut.centre, trim.stop_from.centre + 1e-9);
      ASSERT_LE(trim.limit(), trim.stop_from.centre + 1e-9);
    } else {
      if (trim.final_cut.centre > trim.stop_from.centre) ++with_word[rule];
      if (!outside) {
        ASSERT_LE(trim.final_cut.centre, solution.left->frames.on_board(trim.window.to) + 1e-9);
      }
    }
    for (const Point& p : trim.end)
      if (!in_band) {
        ASSERT_LE(ahead_of(trim.stop_from, p), 0.02);
      }
  }
  for (const char* rule : {"short", "edge", "tucked", "number", "mark", "match", "keep", "learned"})
    EXPECT_GT(solved[rule], 25) << rule;
  EXPECT_GT(held["short"], 5);
  EXPECT_GT(held["number"], 5);
  EXPECT_GT(held["learned"], 5);
  for (const char* rule : {"mark", "match", "keep"}) {
    EXPECT_EQ(held[rule], 0) << "a mark is refused, not moved";
    EXPECT_GT(with_word[rule], 3) << rule;
  }
}

// ---- Ten thousand feet -------------------------------------------------------------------------

/// A foot as it is, and as one reader with habits reads it. Spreads as the model states them.
struct Outcome {
  double past_stop; ///< first cut past the true stop line, share of boards
  double too_far;   ///< first cut more than 3 past the place that is right for the dancer
};

Outcome first_cuts(const TrimRule& rule, int wanted, double all_forward, std::uint64_t seed) {
  Draw draw(seed);
  int past_stop = 0, too_far = 0, done = 0;
  while (done < wanted) {
    const double length = draw.normal(240, 9);
    const double heel_front = 61.0 / 238 * length + draw.normal(0, 5);
    const double break_at = heel_front + draw.uniform(28, 45);
    const double fold = std::max(0.0, draw.normal(6, 1.5));
    const double inset = draw.uniform(3, 8);
    std::map<std::string, double> habit;
    const auto read = [&](const char* key, const char* kind, double truth, bool on_foot) {
      Reading reading = as_reading(0, key);
      const double h = reading.finding;
      if (!habit.count(kind)) habit[kind] = draw.uniform(-1, 1);
      reading.values = {truth + habit[kind] * h / 2 + draw.uniform(-1, 1) + draw.uniform(-h, h) +
                        (on_foot ? all_forward : 0)};
      return reading;
    };
    Order order = readme_order();
    order.growing = false;
    Foot& foot = foot_of(order);
    foot.length = read("length", "length", length, false);
    foot.ball_length.reset();
    foot.heel_front = read("heel_front", "heel_front", heel_front, true);
    foot.arch_break.medial = read("arch_break.medial", "arch_break", break_at + 1, true);
    foot.arch_break.lateral = read("arch_break.lateral", "arch_break", break_at - 1, true);
    foot.fold = read("fold", "fold", fold, false);
    if (foot.fold->value() < 0) foot.fold->values = {0};
    order.left->shoe.board.inset = read("board.inset", "board.inset", inset, false);
    shank_of(order).rule = rule;
    if (std::holds_alternative<MarkRule>(rule)) // a hand that follows the trade's rule
      mark_at(order, std::round(2 * (heel_front + fold - inset + draw.normal(0, 4))) / 2);
    const Solution solution = solve(order);
    if (!solution.left) continue;
    ++done;
    const double made = solution.left->trim->line_to_cut().centre + draw.uniform(-1.5, 1.5) +
                        draw.uniform(-0.5, 0.5) + draw.uniform(-0.5, 0.5) + draw.uniform(-0.5, 0.5);
    const double on_board = fold - inset;
    if (made > break_at - 18 + on_board) ++past_stop;
    const double right =
        heel_front + draw.normal(0, 3) + draw.normal(0, 4) + draw.normal(0, 2) + on_board;
    if (made - right > 3) ++too_far;
  }
  return {static_cast<double>(past_stop) / done, static_cast<double>(too_far) / done};
}

const std::vector<std::pair<const char*, TrimRule>> simulated_rules{
    {"short", rule_of(short_reach)},
    {"edge", rule_of(edge_reach)},
    {"tucked", rule_of(tucked_reach)},
    {"keep 75 %", KeepRule{0.75}},
    {"mark", MarkRule{{{0}, 1, false, 0, {}}, {}}},
};

TEST(FirstCut, SeldomLiesPastTheStopLineOrTheRightPlace) {
  const Outcome edge = first_cuts(rule_of(edge_reach), 1000, 0, 7);
  EXPECT_LE(edge.past_stop, 0.002);
  EXPECT_LE(edge.too_far, 0.025 + 3 * std::sqrt(0.025 * 0.975 / 1000));
}

TEST(LongFirstCut, SeldomLiesPastTheStopLineOrTheRightPlaceInTenThousandFeet) {
  for (const auto& [name, rule] : simulated_rules)
    for (const double forward : {0.0, 4.0}) {
      const Outcome found = first_cuts(rule, 10'000, forward, 11);
      const std::string of = std::string(name) + (forward > 0 ? ", read 4 too far forward" : "");
      std::printf("%s: first cut past the true stop line %.3f %%, more than 3 past the right place "
                  "%.2f %%\n",
                  of.c_str(), 100 * found.past_stop, 100 * found.too_far);
      if (forward > 0) continue;
      EXPECT_LE(found.past_stop, 0.001) << of;
      if (std::string(name) == "edge") {
        EXPECT_LE(found.too_far, 0.025) << of;
      }
    }
}

// ---- Ruler numbers -----------------------------------------------------------------------------

TEST(RulerNumber, GoesByHalvesTowardsTheLongerBoard) {
  EXPECT_EQ(ruler_number(61.99, Rounding::down), 61.5);
  EXPECT_EQ(ruler_number(62, Rounding::down), 62);
  EXPECT_EQ(ruler_number(62.49, Rounding::down), 62);
  EXPECT_EQ(ruler_number(62.01, Rounding::up), 62.5);
  EXPECT_EQ(ruler_number(62.5, Rounding::up), 62.5);
  // Sums of decimal readings miss a half by a hair, and still count as it.
  EXPECT_EQ(ruler_number(0.1 + 0.2 + 61.7, Rounding::down), 62);
  EXPECT_EQ(ruler_number(61.5 - 1e-10, Rounding::down), 61.5);
  EXPECT_EQ(ruler_number(61.5 + 1e-10, Rounding::up), 61.5);
}

} // namespace
} // namespace shankline::tests::four_lines_test
