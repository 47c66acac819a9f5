#include "geometry/comparison/comparison.hpp"

#include "geometry/order/reading_guide.hpp"
#include "tests/geometry/compared_order.hpp"
#include "tests/geometry/random_orders.hpp"
#include "tests/geometry/sides_of_order.hpp"
#include "tests/geometry/worked_order.hpp"
#include "tests/support/fewer_cases.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <string>

namespace shankline::tests::comparison_test {
namespace {

/// The default half-widths, as the reader of order files sets them.
void doubt_all(FootOrder& order) {
  const auto doubt = [](std::optional<Reading>& reading, const char* key) {
    if (reading) reading->finding = reading_guide(key)->finding;
  };
  Foot& foot = order.foot;
  doubt(foot.length, "length");
  doubt(foot.ball_length, "ball_length");
  doubt(foot.heel_front, "heel_front");
  doubt(foot.arch_break.centre, "arch_break");
  doubt(foot.arch_break.medial, "arch_break.medial");
  doubt(foot.arch_break.lateral, "arch_break.lateral");
  doubt(foot.arch_depth, "arch_depth");
  doubt(foot.fold, "fold");
  doubt(order.shoe.board.inset, "board.inset");
}

Order worked_pair() {
  Order order = worked_order();
  order.left = worked_sides();
  doubt_all(*order.left);
  order.right = order.left;
  return order;
}

Comparison of_feet(const Order& order) {
  return compare_feet(ComparedOrder(order).operand());
}

const ComparedFigure& figure_of(const FootComparison& foot, const std::string& key) {
  const auto found = std::find_if(foot.figures.begin(), foot.figures.end(),
                                  [&](const ComparedFigure& f) { return f.key == key; });
  if (found == foot.figures.end()) throw std::out_of_range(key);
  return *found;
}

Reading plus(Reading reading, double by) {
  for (double& value : reading.values)
    value += by;
  return reading;
}

// ---- Zero and sign -----------------------------------------------------------------------------

void expect_nothing_apart(const FootComparison& foot) {
  for (const ComparedFigure& f : foot.figures) {
    if (!f.difference) continue;
    EXPECT_EQ(f.difference->value, 0) << f.key;
    EXPECT_EQ(f.verdict, Verdict::not_told_apart) << f.key;
  }
  for (const auto* outline : {&foot.whole, &foot.kept, &foot.medial, &foot.lateral}) {
    if (!*outline) continue;
    EXPECT_EQ((*outline)->largest.distance, 0) << (*outline)->part;
    if ((*outline)->area) {
      EXPECT_EQ(*(*outline)->area, 0) << (*outline)->part;
    }
  }
  EXPECT_EQ(foot.a_on_b.deeper, 0);
  EXPECT_EQ(foot.b_on_a.deeper, 0);
}

TEST(Comparison, AFootAgainstItselfIsNothingToTheLastDigit) {
  Draw draw(4);
  Draw sides(5);
  int pairs = 0, lowered = 0, in_shoe = 0, estimated = 0;
  for (int i = 0; i < fewer_cases(14); ++i) {
    Order order = random_order_with_sides(draw, sides);
    if (!order.left) order.left = order.right;
    order.right = order.left;
    const ComparedOrder side(order);
    if (!side.solution.left) continue;
    const Comparison feet = compare_feet(side.operand());
    ASSERT_EQ(feet.feet.size(), 1U);
    expect_nothing_apart(feet.feet.front());
    const Comparison orders = compare_orders(side.operand(), side.operand(), i % 2 == 0);
    ASSERT_EQ(orders.feet.size(), 2U);
    for (const FootComparison& foot : orders.feet)
      expect_nothing_apart(foot);
    ++pairs;
    if (side.solution.left->sides) ++lowered;
    if (order.pose == Pose::in_shoe) ++in_shoe;
    if (side.contact.left) ++estimated;
  }
  EXPECT_GT(pairs, fewer_cases(9));
  if (under_sanitizers) return; // too few to hold every kind
  EXPECT_GT(lowered, 7);
  EXPECT_GT(in_shoe, 1);
  EXPECT_GT(estimated, 4);
}

TEST(Comparison, SwappingTheOperandsFlipsEverySign) {
  Draw draw(14);
  Draw sides(15);
  int pairs = 0, told = 0, apart = 0;
  for (int i = 0; i < fewer_cases(14); ++i) {
    Order first = random_order_with_sides(draw, sides);
    first.pair = "first pair";
    const ComparedOrder one(std::move(first));
    const ComparedOrder two(random_order_with_sides(draw, sides));
    const Comparison there = compare_orders(one.operand(), two.operand(), true);
    const Comparison back = compare_orders(two.operand(), one.operand(), true);
    EXPECT_EQ(there.name_a, back.name_b);
    EXPECT_EQ(there.name_b, back.name_a);
    ASSERT_EQ(there.feet.size(), back.feet.size());
    for (std::size_t k = 0; k < there.feet.size(); ++k) {
      const FootComparison& a = there.feet[k];
      const FootComparison& b = back.feet[k];
      ASSERT_EQ(a.figures.size(), b.figures.size());
      ++pairs;
      for (const ComparedFigure& f : a.figures) {
        const ComparedFigure& g = figure_of(b, f.key);
        EXPECT_EQ(f.a, g.b) << f.key;
        EXPECT_EQ(f.verdict, g.verdict) << f.key;
        if (!f.difference) continue;
        EXPECT_EQ(f.difference->value, -g.difference->value) << f.key;
        EXPECT_NEAR(f.difference->u, g.difference->u, 1e-12 * f.difference->u) << f.key;
        if (f.verdict == Verdict::differs) ++told;
        if (f.difference->value != 0) ++apart;
      }
      if (a.kept) {
        EXPECT_EQ(a.kept->largest.distance, b.kept->largest.distance);
        EXPECT_EQ(a.kept->area, b.kept->area);
      }
      EXPECT_EQ(a.a_on_b.deeper, b.b_on_a.deeper);
      EXPECT_EQ(a.a_on_b.cautions.size(), b.b_on_a.cautions.size());
    }
  }
  EXPECT_GT(pairs, fewer_cases(10));
  EXPECT_GT(apart, fewer_cases(200));
  EXPECT_GT(told, fewer_cases(40));
}

// ---- What cancels ------------------------------------------------------------------------------

TEST(Comparison, LeftAgainstRightOneReaderAndOnePrinterCancel) {
  Order order = worked_pair();
  order.right->foot.heel_front = plus(*order.right->foot.heel_front, 5);
  const FootComparison foot = of_feet(order).feet.front();
  // By hand, reach 1: X = heel front + fold − inset. What is fresh of one reading of half-width h
  // is worth (1 + h²)/3; laid flat 1.5²/3; tracing and knife 0.5²/3 each. All of it twice.
  const auto fresh = [](double h) { return (1 + h * h) / 3; };
  const double once = fresh(3) + fresh(3) + fresh(1.5) + 0.75 + 2 * 0.25 / 3;
  const ComparedFigure& cut = figure_of(foot, "trim.final.centre");
  EXPECT_NEAR(*cut.a, 62, 1e-9);
  EXPECT_NEAR(*cut.b, 67, 1e-9);
  EXPECT_NEAR(cut.difference->value, -5, 1e-9);
  EXPECT_NEAR(cut.difference->u, std::sqrt(2 * once), 1e-6);
  EXPECT_EQ(cut.verdict, Verdict::not_told_apart);

  const ComparedFigure& heel = figure_of(foot, "heel_front");
  EXPECT_NEAR(heel.difference->u, std::sqrt(2 * fresh(3)), 1e-9);
  const ComparedFigure& same = figure_of(foot, "arch_break.medial");
  EXPECT_EQ(same.difference->value, 0);
  EXPECT_EQ(same.verdict, Verdict::not_told_apart);
}

TEST(Comparison, TwoOrdersShareTheReaderOnlyWhenItIsSaid) {
  Order first = worked_pair();
  first.right.reset();
  Order second = first;
  second.date = "2024-05-01";
  const ComparedOrder one(first);
  const ComparedOrder two(second);
  const auto u = [&](bool same_reader, const char* key) {
    return figure_of(compare_orders(one.operand(), two.operand(), same_reader).feet.front(), key)
        .difference->u;
  };
  const auto fresh = [](double h) { return (1 + h * h) / 3; };
  const auto habit = [](double h) { return h * h / 12; };
  EXPECT_NEAR(u(true, "heel_front"), std::sqrt(2 * fresh(3)), 1e-9);
  EXPECT_NEAR(u(false, "heel_front"), std::sqrt(2 * (fresh(3) + habit(3))), 1e-9);
  const double carried = 0.75 + 3 * 0.25 / 3; // the printer's scale is another day's
  EXPECT_NEAR(u(true, "trim.final.centre"),
              std::sqrt(2 * (fresh(3) + fresh(3) + fresh(1.5) + carried)), 1e-6);
}

TEST(Comparison, TwoOrdersShareTheReaderThatBothName) {
  Order first = worked_pair();
  Order second = first;
  second.date = "2024-05-01";
  const auto shared = [&](const char* of_first, const char* of_second) {
    first.read_by = of_first;
    second.read_by = of_second;
    const ComparedOrder one(first);
    const ComparedOrder two(second);
    return compare_orders(one.operand(), two.operand(), false).shared.reader;
  };
  EXPECT_TRUE(shared("R2", "R2"));
  EXPECT_FALSE(shared("R2", "R1"));
  EXPECT_FALSE(shared("R2", ""));
  EXPECT_FALSE(shared("", "")) << "not named is not the same";
}

TEST(Comparison, WhatStandsInByFootLengthCancelsForOneFootAtTwoTimes) {
  Order first = worked_pair();
  first.left->foot.heel_front.reset();
  first.left->foot.ball_length.reset();
  Order second = first;
  second.date = "2024-05-01";
  Order other = second;
  other.dancer = "M-08";
  const ComparedOrder one(first), two(second), another(other);
  const auto compared = [&](const ComparedOrder& b, const char* key) {
    return figure_of(compare_orders(one.operand(), b.operand(), true).feet.front(), key);
  };
  EXPECT_TRUE(compared(two, "heel_front").estimated_a);
  EXPECT_TRUE(compared(two, "ball_length").estimated_b);
  EXPECT_NEAR(compared(two, "heel_front").difference->u, 0, 1e-12);
  EXPECT_GT(compared(another, "heel_front").difference->u, 5);
  EXPECT_LT(compared(two, "trim.station").difference->u,
            compared(another, "trim.station").difference->u);
  // The reading that only one of them has keeps its doubt.
  second.left->foot.heel_front = measured(61, 3);
  const ComparedOrder measured_later(second);
  EXPECT_GT(compared(measured_later, "heel_front").difference->u, 5);
}

TEST(Comparison, PosesAndOutlinesMeetInTheFootFrame) {
  Order pointed = worked_pair();
  pointed.pair = "first";
  Order in_shoe = pointed;
  in_shoe.pair = "second";
  in_shoe.pose = Pose::in_shoe;
  for (auto* foot : {&*in_shoe.left, &*in_shoe.right}) {
    Foot& f = foot->foot;
    for (auto* reading : {&f.heel_front, &f.arch_break.medial, &f.arch_break.lateral})
      *reading = plus(**reading, f.fold->value());
    foot->shoe.sides->low_at = *foot->shoe.sides->low_at + f.fold->value();
    foot->shoe.sides->wing_at = *foot->shoe.sides->wing_at + f.fold->value();
  }
  const ComparedOrder one(pointed), two(in_shoe);
  const Comparison found = compare_orders(one.operand(), two.operand(), true);
  ASSERT_EQ(found.feet.size(), 2U);
  EXPECT_EQ(found.name_a, "first");
  EXPECT_EQ(found.name_b, "second");
  int compared = 0;
  for (const ComparedFigure& f : found.feet.front().figures) {
    ASSERT_TRUE(f.difference) << f.key;
    // In the shoe U is smaller, and so are the hold-back and the stop band.
    if (f.key == "trim.first.centre" || f.key == "trim.stop_from") continue;
    EXPECT_NEAR(f.difference->value, 0, 1e-7 * std::max(1.0, std::abs(*f.a))) << f.key;
    EXPECT_EQ(f.verdict, Verdict::not_told_apart) << f.key;
    ++compared;
  }
  EXPECT_GT(compared, 40);
  // A station read in the shoe goes with the fold.
  EXPECT_GT(figure_of(found.feet.front(), "heel_front").difference->u,
            figure_of(of_feet(pointed).feet.front(), "heel_front").difference->u);
}

// ---- The end's shape, layers, thinning, darning, ribbons ----------------------------------------

const ComparedFigure* row_of(const FootComparison& foot, const std::string& key) {
  for (const ComparedFigure& figure : foot.figures)
    if (figure.key == key) return &figure;
  return nullptr;
}

TEST(Comparison, TheShapeOfTheEndIsARowWhereEitherEndIsRounded) {
  Order order = worked_pair();
  EXPECT_FALSE(row_of(of_feet(order).feet.front(), "trim.corner")) << "both are straight";
  order.right->alterations.shank->end = BoardEnd::rounded;
  order.right->alterations.shank->corner = 5;
  order.right->alterations.shank->bevel = 0;
  const FootComparison apart = of_feet(order).feet.front();
  const ComparedFigure& corner = figure_of(apart, "trim.corner");
  EXPECT_EQ(corner.a, 0);
  EXPECT_EQ(corner.b, 5);
  EXPECT_EQ(corner.difference->value, -5);
  EXPECT_TRUE(corner.chosen);
  EXPECT_EQ(corner.verdict, Verdict::differs);
  EXPECT_EQ(figure_of(apart, "trim.bevel").verdict, Verdict::differs);
  order.left = order.right;
  EXPECT_EQ(figure_of(of_feet(order).feet.front(), "trim.corner").verdict, Verdict::not_told_apart);
}

TEST(Comparison, LayersAreARowWhereEitherBoardKeepsSome) {
  Order order = worked_pair();
  for (auto* foot : {&order.left, &order.right})
    (*foot)->shoe.board.layers = 3;
  EXPECT_FALSE(row_of(of_feet(order).feet.front(), "board.layers_cut")) << "both go right through";
  order.right->alterations.shank->layers = 2;
  const FootComparison apart = of_feet(order).feet.front();
  EXPECT_EQ(figure_of(apart, "board.layers_cut").a, 3);
  EXPECT_EQ(figure_of(apart, "board.layers_cut").b, 2);
  EXPECT_EQ(figure_of(apart, "board.layers_left").a, 0);
  EXPECT_EQ(figure_of(apart, "board.layers_left").b, 1);
  EXPECT_EQ(figure_of(apart, "board.layers_left").verdict, Verdict::differs);
  order.left->alterations.shank->layers = 2;
  EXPECT_EQ(figure_of(of_feet(order).feet.front(), "board.layers_left").verdict,
            Verdict::not_told_apart);
}

/// Both boards thinned, both darned, both with a ring of ribbon; ankles measured.
Order finished_pair() {
  Order order = worked_pair();
  for (auto* foot : {&order.left, &order.right}) {
    (*foot)->alterations.thinned = ThinWish{70, 96, 2};
    (*foot)->shoe.platform = Platform{44, 26};
    (*foot)->alterations.darning = DarningWish{};
    (*foot)->alterations.ribbons = RibbonWish{};
    (*foot)->alterations.ribbons->stretch = 0.1;
    (*foot)->alterations.ribbons->rise = 70;
    (*foot)->foot.ankle_girth = measured(208);
  }
  return order;
}

TEST(Comparison, WishesOfTheOtherWorkAreTheSameOrDiffer) {
  Order order = finished_pair();
  constexpr std::array wishes{"thinned.from",   "thinned.to",      "thinned.thickness",
                              "darning.passes", "darning.height",  "darning.raise",
                              "darning.pitch",  "darning.face",    "ribbons.pieces",
                              "ribbons.width",  "ribbons.stretch", "ribbons.wraps"};
  const FootComparison alike = of_feet(order).feet.front();
  for (const char* key : wishes) {
    EXPECT_EQ(figure_of(alike, key).verdict, Verdict::not_told_apart) << key;
    EXPECT_TRUE(figure_of(alike, key).chosen) << key;
  }
  Alterations& right = order.right->alterations;
  right.thinned = ThinWish{72, 94, 1.5};
  order.right->foot.roll = {RollSide::in, 3};
  right.darning->passes = 1;
  right.darning->height = 5;
  right.darning->pitch = 2.5;
  right.darning->face = true;
  right.ribbons->ring = false;
  right.ribbons->width = 20;
  right.ribbons->stretch = 0;
  const FootComparison apart = of_feet(order).feet.front();
  for (const char* key : wishes)
    EXPECT_EQ(figure_of(apart, key).verdict, Verdict::differs) << key;
  EXPECT_EQ(figure_of(apart, "darning.raise").b, 3) << "the foot's own";
  EXPECT_EQ(figure_of(apart, "ribbons.pieces").b, 2);
}

TEST(Comparison, WorkOnOneSideOnlySaysWhichSideIsWithout) {
  Order order = finished_pair();
  order.left->alterations.thinned.reset();
  order.right->alterations.darning.reset();
  order.right->alterations.ribbons.reset();
  const FootComparison foot = of_feet(order).feet.front();
  EXPECT_EQ(figure_of(foot, "thinned.from").why_not, "its board is not thinned");
  EXPECT_EQ(figure_of(foot, "thinned.from").b, 70);
  EXPECT_EQ(figure_of(foot, "darning.height").why_not, "it is not darned");
  EXPECT_EQ(figure_of(foot, "ribbons.cut").why_not, "it has no ribbons");
  EXPECT_EQ(figure_of(foot, "ribbons.cut").verdict, Verdict::cannot_be_compared);
  order.right->alterations.shank.reset();
  EXPECT_EQ(figure_of(of_feet(order).feet.front(), "trim.final.centre").why_not,
            "its board is not cut");
}

TEST(Comparison, ARibbonIsAsUncertainAsAnkleAndRise) {
  Order order = finished_pair();
  order.right->foot.ankle_girth = measured(214);
  const ComparedFigure cut = figure_of(of_feet(order).feet.front(), "ribbons.cut");
  // By hand: two rises and two wraps, each wrap climbs by 11, all divided by 1.1, and 15 at each
  // end. One reading by a tape of \u00b11 is worth a u of 1/\u221a3.
  const auto length = [](double girth) {
    return (2 * 70 + 2 * std::hypot(girth, 11.0)) / 1.1 + 30;
  };
  EXPECT_NEAR(*cut.a, length(208), 1e-9);
  EXPECT_NEAR(*cut.b, length(214), 1e-9);
  const auto by_girth = [](double girth) { return 2 * girth / std::hypot(girth, 11.0) / 1.1; };
  const double by_rise = 2 / 1.1;
  EXPECT_NEAR(
      cut.difference->u,
      std::sqrt(
          (std::pow(by_girth(208), 2) + std::pow(by_girth(214), 2) + 2 * std::pow(by_rise, 2)) / 3),
      1e-4);
  EXPECT_FALSE(cut.estimated_a);
}

TEST(Comparison, AnAnkleThatIsEstimatedCancelsForOneFootAtTwoTimes) {
  Order first = finished_pair();
  first.left->foot.ankle_girth.reset();
  first.left->alterations.ribbons->rise.reset();
  first.right.reset();
  Order second = first;
  second.date = "2024-05-01";
  Order other = second;
  other.dancer = "M-08";
  const ComparedOrder one(first), two(second), another(other);
  const auto cut = [&](const ComparedOrder& b) {
    return figure_of(compare_orders(one.operand(), b.operand(), true).feet.front(), "ribbons.cut");
  };
  EXPECT_TRUE(cut(two).estimated_a);
  EXPECT_NEAR(cut(two).difference->u, 0, 1e-9);
  EXPECT_GT(cut(another).difference->u, 20);
}

// ---- Figures and their doubt -------------------------------------------------------------------

TEST(Comparison, KnifeFirstThenReadingsThenEstimates) {
  const FootComparison foot = of_feet(worked_pair()).feet.front();
  EXPECT_EQ(foot.figures.front().key, "trim.final.centre");
  EXPECT_TRUE(std::is_sorted(
      foot.figures.begin(), foot.figures.end(),
      [](const ComparedFigure& x, const ComparedFigure& y) { return x.rank < y.rank; }));
  std::map<FigureRank, int> ranks;
  std::map<std::string, int> names;
  std::map<std::string, int> keys;
  for (const ComparedFigure& f : foot.figures) {
    ++ranks[f.rank];
    ++names[f.name];
    ++keys[f.key];
    if (f.difference && !f.chosen) {
      EXPECT_GT(f.difference->u, 0) << f.key;
    }
    if (f.chosen) {
      EXPECT_EQ(f.difference->u, 0) << f.key;
    }
  }
  EXPECT_GT(ranks[FigureRank::knife], 20);
  EXPECT_GT(ranks[FigureRank::reading], 15);
  EXPECT_EQ(ranks[FigureRank::estimate], 8); // uncut it breaks at the box
  for (const auto& [name, count] : names)
    EXPECT_EQ(count, 1) << name;
  for (const auto& [key, count] : keys)
    EXPECT_EQ(count, 1) << key;
}

/// One reading moved in the order and solved again from the start, against the part of its source.
/// How many parts of each source were held against the solver.
std::map<std::string, int> parts_that_the_solver_confirms(const Order& order) {
  struct Case {
    const char* source;
    void (*move)(FootOrder&, double);
    double by;
  };
  const Case cases[]{
      {"left.heel_front", [](FootOrder& o, double d) { o.foot.heel_front->values[0] += d; }, 0.05},
      {"left.arch_break.medial",
       [](FootOrder& o, double d) { o.foot.arch_break.medial->values[0] += d; }, 0.05},
      {"left.fold", [](FootOrder& o, double d) { o.foot.fold->values[0] += d; }, 0.05},
      {"left.arch_depth", [](FootOrder& o, double d) { o.foot.arch_depth->values[0] += d; }, 0.05},
      {"left.ball_length", [](FootOrder& o, double d) { o.foot.ball_length->values[0] += d; },
       0.05},
      {"left.sides.back", [](FootOrder& o, double d) { *o.shoe.sides->back += d; }, 0.05},
      {"left.sides.low", [](FootOrder& o, double d) { *o.shoe.sides->low += d; }, 0.05},
      {"left.sides.wing", [](FootOrder& o, double d) { *o.shoe.sides->wing += d; }, 0.05},
      {"left.sides.lean", [](FootOrder& o, double d) { *o.shoe.sides->lean_rad += d; }, 0.001},
      {"left.board.length",
       [](FootOrder& o, double d) { o.shoe.board.length->values.front() += d; }, 0.05},
  };
  const auto groups_of = [](const Order& of) {
    const ComparedOrder side(of);
    return foot_figures(
        {side.order, *side.order.left, *side.solution.left, &*side.contact.left, {}});
  };
  const auto values_of = [&](const Order& of) {
    std::map<std::string, double> values;
    for (const FigureGroup& group : groups_of(of))
      for (const DoubtedFigure& figure : group.figures)
        values[figure.key] = figure.value.value;
    return values;
  };
  const std::vector<FigureGroup> groups = groups_of(order);
  const double cut_at = solve(order).left->trim->final_cut.centre;
  std::map<std::string, int> checked;
  for (const Case& c : cases) {
    Order more = order;
    Order less = order;
    c.move(*more.left, c.by);
    c.move(*less.left, -c.by);
    const auto high = values_of(more);
    const auto low = values_of(less);
    // Estimates are of the board cut where it is.
    for (Order* moved : {&more, &less}) {
      moved->left->alterations.shank->rule = MarkRule{measured(cut_at, 1), {}};
      moved->left->alterations.shank->accept_outside_window = true;
    }
    const auto high_cut = values_of(more);
    const auto low_cut = values_of(less);
    for (const FigureGroup& group : groups) {
      const auto source = std::find_if(group.sources.begin(), group.sources.end(),
                                       [&](const Source& s) { return s.name == c.source; });
      if (source == group.sources.end()) continue;
      const auto at = static_cast<std::size_t>(source - group.sources.begin());
      for (const DoubtedFigure& figure : group.figures) {
        if (figure.rank == FigureRank::reading || !figure.missing.empty()) continue;
        // Lines that are rounded, held back by U, or drawn square.
        if (figure.chosen || figure.key == "trim.first.centre" || figure.key == "trim.skew")
          continue;
        const double slope = figure.value.parts[at] / source->u;
        const bool estimate = figure.rank == FigureRank::estimate;
        const double by_solver = ((estimate ? high_cut : high).at(figure.key) -
                                  (estimate ? low_cut : low).at(figure.key)) /
                                 (2 * c.by);
        EXPECT_NEAR(slope, by_solver,
                    (estimate ? 0.2 : 0.03) * std::max(std::abs(slope), std::abs(by_solver)) +
                        2e-3 * figure.value.u / source->u)
            << figure.key << " by " << c.source;
        ++checked[c.source];
      }
    }
  }
  return checked;
}

Order short_of_the_heel() {
  Order order = worked_pair();
  order.left->alterations.shank->rule = ReachRule{0.9, ""};
  return order;
}

TEST(Comparison, PartsAreWhatTheWholeSolverDoes) {
  std::map<std::string, int> checked = parts_that_the_solver_confirms(short_of_the_heel());
  EXPECT_GT(checked["left.heel_front"], 20);
  EXPECT_GT(checked["left.sides.low"], 5);
  EXPECT_GT(checked["left.arch_depth"], 5);
  EXPECT_GT(checked["left.board.length"], 8);
}

TEST(Comparison, PartsOfABoardCutByTheLayerAreThatBoards) {
  Order order = short_of_the_heel();
  order.left->shoe.board.layers = 2;
  order.left->alterations.shank->layers = 1;
  std::map<std::string, int> checked = parts_that_the_solver_confirms(order);
  EXPECT_GT(checked["left.heel_front"], 20);
  EXPECT_GT(checked["left.arch_depth"], 5);
}

TEST(Comparison, PartsOfABoardThinnedAheadOfItsCutAreThatBoards) {
  Order order = short_of_the_heel();
  order.left->alterations.thinned = ThinWish{75, 100, 1.8};
  std::map<std::string, int> checked = parts_that_the_solver_confirms(order);
  EXPECT_GT(checked["left.heel_front"], 20);
  EXPECT_GT(checked["left.arch_depth"], 5);
}

TEST(Comparison, PartsOfATopLineTakenInByTheFoldAreThatLines) {
  Order order = short_of_the_heel();
  order.left->alterations.tuck.emplace();
  ASSERT_TRUE(order.left->foot.fold && !order.left->alterations.tuck->depth);
  std::map<std::string, int> checked = parts_that_the_solver_confirms(order);
  EXPECT_GT(checked["left.fold"], 20);
}

TEST(Comparison, ABallByFootLengthServesTheDeepestPointAndTheEstimatesAlike) {
  Order order = short_of_the_heel();
  Foot& foot = order.left->foot;
  foot.ball_length.reset();
  foot.arch_break = {};
  foot.deepest = measured(103, 4);
  const ComparedOrder side(order);
  ASSERT_TRUE(side.contact.left);
  const FigureGroup estimates = estimate_figures(
      {side.order, *side.order.left, *side.solution.left, &*side.contact.left, {}});
  int known = 0;
  for (const DoubtedFigure& figure : estimates.figures)
    if (figure.missing.empty()) ++known;
  EXPECT_GE(known, 8);
}

TEST(Comparison, ReachesAndDepthsDifferAsOrdered) {
  Order order = worked_pair();
  order.right->alterations.shank->rule = ReachRule{1.1, ""};
  order.right->alterations.sides->medial = 4;
  const FootComparison foot = of_feet(order).feet.front();
  const ComparedFigure& reach = figure_of(foot, "trim.reach");
  EXPECT_TRUE(reach.chosen);
  EXPECT_EQ(reach.verdict, Verdict::differs);
  EXPECT_EQ(figure_of(foot, "sides.medial.depth").verdict, Verdict::differs);
  EXPECT_EQ(figure_of(foot, "sides.lateral.depth").verdict, Verdict::not_told_apart);
}

TEST(Comparison, WhatCannotBeComparedSaysWhy) {
  Order order = worked_pair();
  order.right->foot.arch_depth.reset();
  order.right->alterations.sides.reset();
  order.right->shoe.board.state = BoardState::in_shoe;
  order.right->shoe.board.length.reset();
  const FootComparison foot = of_feet(order).feet.front();
  const std::pair<const char*, const char*> reasons[]{
      {"pieces.kept.length", "board in the shoe"},
      {"arch_depth", "not measured"},
      {"contact.cut.break", "arch's depth is not known"},
      {"sides.medial.low", "its sides stay as they are"},
  };
  for (const auto& [key, why] : reasons) {
    const ComparedFigure& f = figure_of(foot, key);
    EXPECT_EQ(f.verdict, Verdict::cannot_be_compared) << key;
    EXPECT_TRUE(f.a && !f.b) << key;
    EXPECT_FALSE(f.difference) << key;
    EXPECT_NE(f.why_not.find(why), std::string::npos) << key << ": " << f.why_not;
  }
  ASSERT_TRUE(foot.whole && foot.kept);
  EXPECT_EQ(foot.kept->part, "board cut away");
  EXPECT_EQ(foot.kept->aligned, "at the heel end, the front being in the box");
  EXPECT_FALSE(foot.whole->area);
  EXPECT_FALSE(foot.medial);

  order.right.reset();
  const Comparison none = of_feet(order);
  EXPECT_TRUE(none.feet.empty());
  ASSERT_EQ(none.left_out.size(), 1U);
  EXPECT_EQ(none.left_out.front(), "the right foot: the order does not name it");
}

// ---- Outlines ----------------------------------------------------------------------------------

TEST(Comparison, BoardsAlignedAtTheFrontPartWhereTheyAreCut) {
  Order order = worked_pair();
  order.left->foot.arch_break = {measured(95, 4), {}, {}, {}};
  order.right->foot.arch_break = order.left->foot.arch_break;
  order.right->foot.heel_front = plus(*order.right->foot.heel_front, 5); // cut off 62 and 67
  const FootComparison same = of_feet(order).feet.front();
  ASSERT_TRUE(same.kept);
  EXPECT_EQ(same.kept->aligned, "at the board's front");
  EXPECT_EQ(same.whole->largest.distance, 0);
  // At the edges a little more: the board narrows from the one line to the other.
  EXPECT_GE(same.kept->largest.distance, 5);
  EXPECT_LT(same.kept->largest.distance, 5.1);
  ASSERT_TRUE(same.kept->area);
  EXPECT_NEAR(*same.kept->area,
              std::abs(signed_area(same.kept->a.points) - signed_area(same.kept->b.points)), 1e-6);
  EXPECT_NEAR(std::min(same.kept->largest.on_a.x, same.kept->largest.on_b.x), 62 - 220, 1e-3);

  order.right->shoe.board.length =
      measured(224, 1); // four longer behind, cut five deeper: one longer
  for (BoardWidth& width : order.right->shoe.board.widths)
    width.station += 4;
  const FootComparison longer = of_feet(order).feet.front();
  EXPECT_NEAR(longer.kept->largest.distance, 1, 0.05);
  EXPECT_NEAR(figure_of(longer, "pieces.kept.length").difference->value, 1, 1e-9);
}

TEST(Comparison, LoweredSidesPartByWhatTheyAreLowered) {
  Order order = worked_pair();
  order.right->alterations.sides->medial = 7; // 5 on the left
  const FootComparison foot = of_feet(order).feet.front();
  ASSERT_TRUE(foot.medial && foot.lateral);
  EXPECT_NEAR(foot.medial->largest.distance, 2, 0.05);
  EXPECT_EQ(foot.lateral->largest.distance, 0);
  EXPECT_NEAR(*foot.medial->area, -figure_of(foot, "sides.medial.uncovered").difference->value,
              0.5);
}

// ---- Cut alike ---------------------------------------------------------------------------------

bool warns(const CutAlike& alike, const std::string& words) {
  return std::any_of(alike.cautions.begin(), alike.cautions.end(), [&](const Finding& caution) {
    return caution.what.find(words) != std::string::npos;
  });
}

TEST(Comparison, CutAlikeIsWrongWhereItPassesTheStopLine) {
  Order order = worked_pair();
  order.right->foot.arch_break.medial = plus(*order.right->foot.arch_break.medial, 25);
  order.right->foot.arch_break.lateral = plus(*order.right->foot.arch_break.lateral, 25);
  order.right->foot.heel_front = plus(*order.right->foot.heel_front, 22);
  const FootComparison foot = of_feet(order).feet.front();
  // Left: break 95, stop at 78 on the board. The right cut at 61 + 22 + 1 = 84 is 6 past it.
  EXPECT_NEAR(foot.b_on_a.board, 84, 1e-9);
  EXPECT_NEAR(foot.b_on_a.deeper, 22, 1e-9);
  EXPECT_NEAR(foot.b_on_a.board_left, 95 - 83, 1e-9);
  EXPECT_TRUE(warns(foot.b_on_a, "6 mm past the stop line"));
  // The other way round the right board would end 22 behind its heel front.
  EXPECT_TRUE(warns(foot.a_on_b, "10 mm too far under the heel"));
  EXPECT_EQ(foot.b_on_a.cautions.front().key, "alterations.left.shank");
  ASSERT_TRUE(foot.b_on_a.contact && foot.a_on_b.contact);
  EXPECT_GT(*foot.a_on_b.heel_gap_left, 0.5);
}

TEST(Comparison, CutAlikeIsThisFootsOwnCutWhereTheOrdersAreOne) {
  const ComparedOrder side(worked_pair());
  const FootComparison foot = compare_feet(side.operand()).feet.front();
  EXPECT_TRUE(foot.a_on_b.tried);
  EXPECT_TRUE(foot.a_on_b.cautions.empty());
  EXPECT_NEAR(*foot.a_on_b.heel_pry_left, side.contact.right->heel_pry_left, 2e-3);
  EXPECT_NEAR(foot.a_on_b.contact->break_at, side.contact.right->cut->figures.break_at, 1e-6);
}

TEST(Comparison, CutAlikeHoldsTheSidesToTheirOwnHeights) {
  Order order = worked_pair();
  order.left->alterations.sides->medial = 9;
  order.right->shoe.sides->low = 37; // 37 − 9 is less than the 30 to keep
  const FootComparison foot = of_feet(order).feet.front();
  EXPECT_TRUE(warns(foot.a_on_b, "lowered like the other"));
  EXPECT_FALSE(warns(foot.b_on_a, "lowered like the other"));
}

// ---- Are equal feet called different? ----------------------------------------------------------

/// Normal noise of the size that the model takes it to have.
struct Noise {
  Draw& draw;
  std::map<std::string, double> habit{};

  Reading read(const std::string& key, const std::string& kind, double truth, int repeats) {
    const double h = reading_guide(key)->finding;
    if (!habit.count(kind)) habit[kind] = draw.normal(0, 1);
    Reading reading;
    reading.finding = h;
    for (int i = 0; i < repeats; ++i)
      reading.values.push_back(truth + habit[kind] * h / 2 / std::sqrt(3) +
                               draw.normal(0, std::sqrt((1 + h * h) / 3)));
    return reading;
  }
};

struct Called {
  int trials = 0;
  std::map<std::string, double> share; ///< called different, by figure
};

/// Equal feet in equal shoes, each measured by one reader, cut by one knife.
Called called_different(int repeats, int wanted, bool mark_made, std::uint64_t seed) {
  Draw draw(seed);
  Called found;
  std::map<std::string, int> different;
  while (found.trials < wanted) {
    Noise noise{draw};
    const double break_at = draw.uniform(93, 102);
    const double heel_front = draw.uniform(56, 62);
    const double inset = draw.uniform(4, 8);
    Order order = worked_order();
    const auto measure = [&] {
      FootOrder foot = *worked_order().left;
      Foot& f = foot.foot;
      f.length = noise.read("length", "length", 238, 1);
      f.heel_front = noise.read("heel_front", "heel_front", heel_front, repeats);
      f.arch_break = {noise.read("arch_break", "arch_break", break_at, repeats), {}, {}, {}};
      f.fold = noise.read("fold", "fold", 6, repeats);
      f.arch_depth.reset();
      f.ball_length = measured(172, 2);
      foot.shoe.board.inset = noise.read("board.inset", "board.inset", inset, repeats);
      return foot;
    };
    order.left = measure();
    order.right = measure();
    const Solution solution = solve(order);
    if (!solution.left || !solution.right) continue;
    const SolvedFoot left{order, *order.left, *solution.left, nullptr, {}};
    const SolvedFoot right{order, *order.right, *solution.right, nullptr, {}};
    std::vector<FigureGroup> a{knife_figures(left), reading_figures(left)};
    std::vector<FigureGroup> b{knife_figures(right), reading_figures(right)};
    // A cut has larger errors than the readings: paper, tracing, knife, a curve laid flat.
    if (mark_made)
      for (auto* groups : {&a, &b})
        for (DoubtedFigure& figure : groups->front().figures)
          if (figure.key == "trim.final.centre")
            figure.value.value +=
                draw.normal(0, std::sqrt(0.75)) + draw.normal(0, std::sqrt(2 * 0.25 / 3));
    for (const ComparedFigure& f : compare_figures(a, b, shared_by_a_pair))
      for (const char* key : {"trim.final.centre", "heel_front", "arch_break", "trim.board_left"})
        if (f.key == key && f.verdict == Verdict::differs) ++different[key];
    ++found.trials;
  }
  for (const auto& [key, count] : different)
    found.share[key] = static_cast<double>(count) / found.trials;
  return found;
}

TEST(Comparison, EqualFeetAreSeldomCalledDifferent) {
  const Called found = called_different(1, 500, true, 3);
  EXPECT_GT(found.share.at("trim.final.centre"), 0.05 - 0.03);
  EXPECT_LT(found.share.at("trim.final.centre"), 0.05 + 0.02);
}

TEST(LongComparison, EqualFeetAreCalledDifferentInOneCaseOfTwenty) {
  for (const int repeats : {1, 2, 3}) {
    const Called found =
        called_different(repeats, 10'000, true, 100 + static_cast<std::uint64_t>(repeats));
    EXPECT_EQ(found.trials, 10'000);
    EXPECT_NEAR(found.share.at("trim.final.centre"), 0.05, 0.01) << repeats;
    for (const auto& [key, share] : found.share)
      RecordProperty("called_different_" + key + "_of_" + std::to_string(repeats),
                     std::to_string(share));
  }
}

} // namespace
} // namespace shankline::tests::comparison_test
