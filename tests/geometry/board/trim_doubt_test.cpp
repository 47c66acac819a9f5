#include "geometry/board/trim_doubt.hpp"

#include "geometry/board/board_outline.hpp"
#include "geometry/board/trim_line.hpp"
#include "geometry/board/trim_solution.hpp"
#include "geometry/foot/foot_stations.hpp"
#include "geometry/order/foot_estimates.hpp"
#include "geometry/order/reading_guide.hpp"
#include "tests/geometry/random_orders.hpp"
#include "tests/geometry/worked_order.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <string>

namespace shankline::tests::trim_doubt_test {
namespace {

struct Doubted {
  FootStations stations;
  TrimModel model;
  TrimDoubt doubt;
};

std::optional<Doubted> doubted(const FootOrder& order, Pose pose, Population population,
                               const std::string& owner = "left", bool one_reader = false) {
  Findings findings;
  auto stations = foot_stations(order.foot, pose, population, "feet." + owner, findings);
  if (!stations) return {};
  TrimModel model(order, pose, population, *stations, owner, one_reader);
  TrimDoubt doubt = trim_doubt(model);
  return Doubted{std::move(*stations), std::move(model), std::move(doubt)};
}

/// The worked foot with the bench's default half-widths, or with one for all.
FootOrder worked_foot(std::optional<double> finding = {}) {
  FootOrder order = *worked_order().left;
  const auto doubt = [&](std::optional<Reading>& reading, const char* key) {
    if (reading) reading->finding = finding.value_or(reading_guide(key)->finding);
  };
  Foot& foot = order.foot;
  doubt(foot.length, "length");
  doubt(foot.ball_length, "ball_length");
  doubt(foot.heel_front, "heel_front");
  doubt(foot.arch_break.medial, "arch_break.medial");
  doubt(foot.arch_break.lateral, "arch_break.lateral");
  doubt(foot.arch_depth, "arch_depth");
  doubt(foot.fold, "fold");
  doubt(order.shoe.board.inset, "board.inset");
  return order;
}

Doubted worked(const FootOrder& order, Pose pose = Pose::pointed) {
  return doubted(order, pose, Population::women).value();
}

/// The worked foot as read in the shoe: the same stations counted from the back seam.
FootOrder worked_in_shoe(FootOrder order) {
  const double fold = order.foot.fold->value();
  for (auto* reading :
       {&order.foot.heel_front, &order.foot.arch_break.medial, &order.foot.arch_break.lateral})
    for (double& value : (*reading)->values)
      value += fold;
  return order;
}

double share_of(const Doubted& d, const std::string& source) {
  double found = 0;
  for (std::size_t i = 0; i < d.doubt.sources.size(); ++i)
    if (d.doubt.sources[i].name == source) found = d.doubt.board.parts[i];
  return found;
}

// ---- The model against the solver --------------------------------------------------------------

/// X_t and the rest by the solver itself, from an order whose readings have the model's values.
std::optional<std::array<double, trim_results>> by_solver(FootOrder order, Pose pose,
                                                          Population population,
                                                          const TrimModel& model,
                                                          const std::vector<double>& in) {
  std::map<std::string, double> value;
  for (std::size_t i = 0; i < in.size(); ++i)
    value[model.inputs().inputs()[i].name] = in[i];
  Foot& foot = order.foot;
  const auto set = [&](std::optional<Reading>& reading, const char* key) {
    if (reading) reading = measured(value.at(key));
  };
  set(foot.length, "length");
  set(foot.heel_front, "heel_front");
  set(foot.arch_break.centre, "arch_break");
  set(foot.arch_break.medial, "arch_break.medial");
  set(foot.arch_break.lateral, "arch_break.lateral");
  set(order.shoe.board.inset, "board.inset");
  if (value.count("deepest")) {
    set(foot.arch_depth, "arch_depth");
    set(foot.deepest, "deepest");
    if (foot.ball_length)
      foot.ball_length = measured(value.at("ball_length"));
    else
      foot.ball_length = measured(estimated_ball_length(population, value.at("length")).value() +
                                  value.at("ball_length"));
  }
  foot.fold = measured(value.at("fold"));
  if (!foot.heel_front)
    foot.heel_front =
        measured(estimated_heel_front(population, value.at("length")).value() +
                 value.at("heel_front") + (pose == Pose::in_shoe ? value.at("fold") : 0));
  Board& board = order.shoe.board;
  if (value.count("board.sole_length")) board.sole_length = value.at("board.sole_length");
  if (value.count("board.length")) board.length = measured(value.at("board.length"), 1);
  ShankWish& wish = *order.alterations.shank;
  if (value.count("shank.mark")) wish.rule = MarkRule{measured(value.at("shank.mark"), 1), {}};
  wish.accept_outside_window = true;
  wish.accept_in_stop_band = true;
  wish.hold_back = 0;
  wish.bevel = 0;
  wish.end = BoardEnd::straight;
  foot.arch_break.across = 1e4; // no skew: what is compared here lies on the centre line

  Findings findings;
  const auto stations = foot_stations(foot, pose, population, "feet.left", findings);
  if (!stations) return {};
  const BoardOutline outline(board.widths, board.loose_length());
  const TrimModel sure(order, pose, population, *stations, "left");
  const auto trim = solve_trim({*stations, board, outline, wish, foot.arch_break.across,
                                frames_of(pose, stations->fold, board.inset->value()), false, sure,
                                "feet.left", "shoe.left.board", "alterations.left.shank"},
                               findings);
  if (!trim) return {};
  const SolvedArch& arch = stations->arch;
  return std::array{
      trim->final_cut.centre.mm(),
      trim->station.mm(),
      trim->station - trim->window.from,
      trim->window.to - trim->station,
      arch.break_medial && arch.break_lateral ? *arch.break_medial - *arch.break_lateral : 0,
      (trim->window.to + stations->fold - board.inset->value()).mm(),
      (arch.heel_front + stations->fold - board.inset->value()).mm()};
}

bool is_process(const std::string& name) {
  return name == "laid flat" || name == "print scale" || name == "tracing" || name == "knife" ||
         name == "sole's end";
}

struct Tried {
  int reach = 0, keep = 0, mark = 0, in_shoe = 0, deepest = 0, estimated = 0;
};

TEST(TrimDoubt, ModelIsTheSolverForRandomOrdersMovedByTheirDoubt) {
  Draw draw(2024);
  Tried tried;
  for (int i = 0; i < 500; ++i) {
    const Order order = random_order(draw);
    if (!order.left) continue;
    const auto d = doubted(*order.left, order.pose, order.estimates_from);
    if (!d) continue;
    const bool deepest = !order.left->foot.arch_break.centre &&
                         !order.left->foot.arch_break.medial &&
                         !order.left->foot.arch_break.lateral;
    if (deepest && tried.deepest >= 12) continue; // milliseconds each
    for (int move = 0; move < 3; ++move) {
      std::vector<double> in = d->model.inputs().values();
      if (move > 0)
        for (std::size_t k = 0; k < in.size(); ++k)
          if (!is_process(d->model.inputs().inputs()[k].name))
            in[k] += draw.uniform(-1, 1) * d->model.inputs().u(k);
      const auto solver = by_solver(*order.left, order.pose, order.estimates_from, d->model, in);
      if (!solver) continue;
      std::array<double, trim_results> out{};
      d->model(in, out);
      for (std::size_t k = 0; k < out.size(); ++k)
        ASSERT_NEAR(out[k], (*solver)[k], deepest ? 1e-6 : 1e-9) << i << " result " << k;
      const TrimRule& rule = order.left->alterations.shank->rule;
      if (std::holds_alternative<ReachRule>(rule)) ++tried.reach;
      if (std::holds_alternative<KeepRule>(rule)) ++tried.keep;
      if (std::holds_alternative<MarkRule>(rule)) ++tried.mark;
      if (order.pose == Pose::in_shoe) ++tried.in_shoe;
      if (deepest) ++tried.deepest;
      if (!order.left->foot.heel_front) ++tried.estimated;
    }
  }
  EXPECT_GT(tried.reach, 500);
  EXPECT_GT(tried.keep, 30);
  EXPECT_GT(tried.mark, 50);
  EXPECT_GT(tried.in_shoe, 100);
  EXPECT_GE(tried.deepest, 9);
  EXPECT_GT(tried.estimated, 50);
}

// Where the ball is only estimated its input is what the foot has more than the estimate. Newton's
// method has to find the solver's break also where several readings are off at once.
TEST(TrimDoubt, ABreakFromTheDeepestPointFollowsEveryReadingFarOff) {
  FootOrder order = worked_foot();
  order.alterations.shank->rule = rule_of(short_reach);
  order.foot.arch_break = {};
  order.foot.ball_length.reset();
  order.foot.deepest = measured(103.3, 4);
  const Doubted d = worked(order);
  const auto& inputs = d.model.inputs().inputs();
  const double guess = estimated_ball_length(Population::women, 238).value();
  int tried = 0;
  for (const double ball : {-5.0, 0.0, 5.0})
    for (const double depth : {10.5, 12.5, 15.0})
      for (const double deepest : {101.0, 103.3, 105.0}) {
        std::vector<double> in = d.model.inputs().values();
        FootOrder moved = order;
        for (std::size_t k = 0; k < in.size(); ++k) {
          if (inputs[k].name == "ball_length") in[k] = ball;
          if (inputs[k].name == "arch_depth") in[k] = depth;
          if (inputs[k].name == "deepest") in[k] = deepest;
        }
        moved.foot.ball_length = measured(guess + ball);
        moved.foot.arch_depth = measured(depth);
        moved.foot.deepest = measured(deepest);
        Findings findings;
        const auto solved =
            foot_stations(moved.foot, Pose::pointed, Population::women, "feet.left", findings);
        if (!solved) continue;
        std::array<double, trim_results> out{};
        d.model(in, out);
        const double expected =
            station_of_reach(short_reach.reach, solved->arch.break_at, solved->arch.heel_front)
                .mm();
        EXPECT_NEAR(out[static_cast<std::size_t>(TrimResult::station)], expected, 1e-6)
            << ball << ' ' << depth << ' ' << deepest;
        ++tried;
      }
  EXPECT_GT(tried, 20);
}

TEST(TrimDoubt, NoReadingIsNamedForAPlaceThatDependsOnNone) {
  FootOrder order = worked_foot();
  order.foot.heel_front->finding = 5;
  const Doubted d = worked(order);
  EXPECT_EQ(weakest_reading(d.model, d.doubt.heel_front_line, d.doubt.sources), "heel front");
  Uncertain free = d.doubt.heel_front_line;
  std::fill(free.parts.begin(), free.parts.end(), 0.0);
  EXPECT_EQ(weakest_reading(d.model, free, d.doubt.sources), "");
}

TEST(TrimDoubt, SensitivitiesAgreeWithTheSolversAtAnotherStep) {
  Draw draw(77);
  int compared = 0;
  int by_deepest = 0;
  for (int i = 0; i < 120; ++i) {
    const Order order = random_order(draw);
    if (!order.left) continue;
    const auto d = doubted(*order.left, order.pose, order.estimates_from);
    if (!d) continue;
    const bool deepest = order.left->foot.deepest && !order.left->foot.arch_break.centre &&
                         !order.left->foot.arch_break.medial;
    if (deepest && by_deepest >= 2) continue;
    if (deepest) ++by_deepest;
    const Inputs& inputs = d->model.inputs();
    const Propagation found = propagate(
        inputs,
        Measurands([&](std::span<const double> in, std::span<double> out) { d->model(in, out); }),
        trim_results);
    for (std::size_t k = 0; k < inputs.inputs().size(); ++k) {
      if (is_process(inputs.inputs()[k].name) || inputs.u(k) == 0) continue;
      const double step = 0.05 * inputs.u(k);
      std::vector<double> in = inputs.values();
      in[k] += step;
      const auto above = by_solver(*order.left, order.pose, order.estimates_from, d->model, in);
      in[k] -= 2 * step;
      const auto below = by_solver(*order.left, order.pose, order.estimates_from, d->model, in);
      if (!above || !below) continue;
      for (std::size_t r = 0; r < trim_results; ++r)
        ASSERT_NEAR(found.sensitivity(r, k), ((*above)[r] - (*below)[r]) / (2 * step),
                    deepest ? 2e-3 : 1e-6)
            << inputs.inputs()[k].name << " on result " << r;
      ++compared;
    }
  }
  EXPECT_GT(compared, 300);
  EXPECT_EQ(by_deepest, 2);
}

// ---- What it says of the worked foot -----------------------------------------------------------

TEST(TrimDoubt, ReachAtTheEdgeIsHeelFrontFoldInsetAndTheRest) {
  // By hand, reach 1: X = heel front + fold − inset. One reading of half-width h is worth
  // (1 + h²)/3 + (h/2)²/3; laid flat 1.5²/3; print, tracing, knife 0.5²/3 each.
  const auto reading = [](double h) { return (1 + h * h) / 3 + h * h / 12; };
  const Doubted d = worked(worked_foot());
  EXPECT_NEAR(d.doubt.board.value, 62, 1e-9);
  EXPECT_NEAR(d.doubt.board.u * d.doubt.board.u,
              reading(3) + reading(3) + reading(1.5) + 0.75 + 0.25, 1e-6);
  EXPECT_NEAR(share_of(d, "left.arch_break.medial"), 0, 1e-9);
}

TEST(TrimDoubt, SizesAreThoseOfTheBench) {
  const double by_default = worked(worked_foot()).doubt.board.expanded();
  EXPECT_GT(by_default, 5.5);
  EXPECT_LT(by_default, 7);
  const double in_shoe =
      worked(worked_in_shoe(worked_foot()), Pose::in_shoe).doubt.board.expanded();
  EXPECT_GT(in_shoe, 4.5);
  EXPECT_LT(in_shoe, 6);
  FootOrder guessed = worked_foot();
  guessed.foot.heel_front.reset();
  EXPECT_NEAR(worked(guessed).doubt.board.expanded(), 11, 1);
}

TEST(TrimDoubt, InTheShoeTheFoldDropsOut) {
  const Doubted pointed = worked(worked_foot());
  const Doubted in_shoe = worked(worked_in_shoe(worked_foot()), Pose::in_shoe);
  EXPECT_NEAR(in_shoe.doubt.board.value, pointed.doubt.board.value, 1e-9);
  EXPECT_GT(std::abs(share_of(pointed, "left.fold")), 1);
  EXPECT_NEAR(share_of(in_shoe, "left.fold"), 0, 1e-9);
  EXPECT_LT(in_shoe.doubt.board.u, pointed.doubt.board.u);
}

TEST(TrimDoubt, EstimatedHeelFrontBringsTheFoldBackIntoTheShoe) {
  FootOrder order = worked_in_shoe(worked_foot());
  order.foot.heel_front.reset();
  const Doubted d = worked(order, Pose::in_shoe);
  EXPECT_GT(std::abs(share_of(d, "left.fold")), 1);
  EXPECT_NEAR(std::abs(share_of(d, "left.heel_front")), 5, 1e-6); // the rule's own spread
}

TEST(TrimDoubt, MarkAndKeptFractionCarryTheirOwnTermsOnly) {
  const auto reading = [](double h) { return (1 + h * h) / 3 + h * h / 12; };
  FootOrder order = worked_foot();
  order.alterations.shank->rule = MarkRule{measured(58, 1), {}};
  const Doubted mark = worked(order);
  EXPECT_NEAR(mark.doubt.board.value, 58, 1e-12);
  EXPECT_NEAR(std::pow(mark.doubt.board.u, 2), reading(1) + 0.25, 1e-6);
  order.alterations.shank->rule = KeepRule{0.75};
  const Doubted keep = worked(order);
  EXPECT_NEAR(keep.doubt.board.value, 55, 1e-12);
  EXPECT_NEAR(std::pow(keep.doubt.board.u, 2), reading(1) / 16 + 0.25, 1e-6);
  // The line's place on the foot stays as doubtful as before.
  EXPECT_NEAR(std::pow(mark.doubt.station.u, 2), reading(1) + reading(3) + reading(1.5) + 0.75,
              1e-6);
  EXPECT_GT(mark.doubt.past_tuck.u, mark.doubt.station.u);
}

TEST(TrimDoubt, WindowIsJudgedWithTheCovariance) {
  const Doubted d = worked(worked_foot());
  // At the edge of the heel the distance to the tuck is 12 whatever the readings say.
  EXPECT_NEAR(d.doubt.past_tuck.value, 12, 1e-9);
  EXPECT_NEAR(d.doubt.past_tuck.u, 0, 1e-6);
  EXPECT_NEAR(d.doubt.before_stop.value, 16, 1e-9);
  // x_b − x_hf − 18: fresh 17/12 + 26/12 of the mean of the breaks, its habit (2 + 2.5)/2, and the
  // heel front's.
  EXPECT_NEAR(std::pow(d.doubt.before_stop.u, 2),
              17.0 / 12 + 26.0 / 12 + 2.25 * 2.25 / 3 + 10.0 / 3 + 0.75, 1e-6);
}

TEST(TrimDoubt, BreaksAreToldApartOnlyBeyondTheirU) {
  FootOrder order = worked_foot();
  const Doubted near = worked(order);
  ASSERT_TRUE(near.doubt.breaks_apart);
  EXPECT_NEAR(near.doubt.breaks_apart->value, 4, 1e-12);
  // By hand: 17/3 + 26/3 fresh, 2²/3 + 2.5²/3 of two readers' habits; 23 degrees of freedom.
  EXPECT_NEAR(near.doubt.breaks_apart->expanded(), 4.2131 * 2.0687, 1e-3);
  // One reader for both: (2.5 − 2)²/3 left of the habit; 15 degrees of freedom.
  const auto alone = doubted(order, Pose::pointed, Population::women, "left", true);
  EXPECT_NEAR(alone->doubt.breaks_apart->expanded(), 3.7969 * 2.1314, 1e-3);
  // The mean of the two, and so the stop line, is known as well as before.
  EXPECT_DOUBLE_EQ(alone->doubt.stop.u, near.doubt.stop.u);
  EXPECT_FALSE(told_apart(*near.doubt.breaks_apart));
  order.foot.arch_break.medial->values = {101};
  order.foot.arch_break.lateral->values = {92};
  EXPECT_TRUE(told_apart(*worked(order).doubt.breaks_apart));
  order.foot.arch_break.lateral.reset();
  EXPECT_FALSE(worked(order).doubt.breaks_apart);
  order.foot.arch_break = {measured(95, 4), {}, {}, {}};
  EXPECT_FALSE(worked(order).doubt.breaks_apart);
}

TEST(TrimDoubt, FirstCutIsHeldBackByTheRightPlacesULessThree) {
  // 10.555 = 1.96 sqrt(3^2 + 4^2 + 2^2): house, dancer and style (from memory).
  EXPECT_NEAR(unknown_dancer_U, 1.96 * std::sqrt(29.0), 1e-3);
  EXPECT_NEAR(next_pair_U, 1.96 * 2, 1e-12);
  EXPECT_NEAR(right_place_U(6.5), 12.4, 0.05);
  EXPECT_NEAR(first_cut_hold_back(12.4), 9.4, 1e-12);
  EXPECT_EQ(first_cut_hold_back(9), 6);
  EXPECT_NEAR(first_cut_hold_back(9.1), 6.1, 1e-12);
  EXPECT_NEAR(right_place_U(6.5, 3.0), std::hypot(3.0, 3.92), 1e-12);
}

TEST(TrimDoubt, LineIsHeldToItsWindowWithU) {
  const Source source{"s", 1, known, Shape::normal, false};
  const auto at = [&](double inside) { return check_edge(combine(inside, {1}, {&source, 1})); };
  EXPECT_EQ(at(3), EdgeCheck::inside);
  EXPECT_EQ(at(1.9), EdgeCheck::inside_by_less_than_U);
  EXPECT_EQ(at(0), EdgeCheck::inside_by_less_than_U);
  EXPECT_EQ(at(-1e-12), EdgeCheck::inside_by_less_than_U);
  EXPECT_EQ(at(-1.9), EdgeCheck::outside_by_less_than_U);
  EXPECT_EQ(at(-3), EdgeCheck::outside);
  const Source exact{"s", 0, known, Shape::normal, false};
  EXPECT_EQ(check_edge(combine(0, {0}, {&exact, 1})), EdgeCheck::inside);
  EXPECT_EQ(check_edge(combine(-0.1, {0}, {&exact, 1})), EdgeCheck::outside);
}

// ---- Which reading to take again ---------------------------------------------------------------

TEST(TrimDoubt, HeelFrontAndFoldAreRepeatedFirst) {
  const Doubted d = worked(worked_foot());
  const std::vector<RepeatGain> gains = repeat_gains(d.model, d.doubt);
  ASSERT_EQ(gains.size(), 3U); // heel front, fold, inset: nothing else moves an edge cut
  EXPECT_EQ(gains[0].key, "heel_front");
  EXPECT_EQ(gains[1].key, "fold");
  EXPECT_EQ(gains[2].key, "board.inset");
  for (const RepeatGain& gain : gains) {
    EXPECT_LT(gain.U_once_more, gain.U_now) << gain.key;
    EXPECT_LT(gain.U_twice_more, gain.U_once_more) << gain.key;
    EXPECT_GT(gain.share, 0.05) << gain.key;
  }
  EXPECT_EQ(repeat_first(gains).find("measure the heel front twice more: ±6.5 becomes ±"), 0U);
}

TEST(TrimDoubt, PromisedGainIsWhatTheRepeatsBring) {
  FootOrder order = worked_foot();
  const Doubted once = worked(order);
  const RepeatGain promised = repeat_gains(once.model, once.doubt).front();
  ASSERT_EQ(promised.key, "heel_front");
  // Two more takings that scatter as expected: s² = σ0² = 10/3.
  const double off = std::sqrt(10.0 / 3);
  order.foot.heel_front->values = {61 - off, 61, 61 + off};
  EXPECT_NEAR(worked(order).doubt.board.expanded(), promised.U_twice_more, 1e-6);
}

TEST(TrimDoubt, EstimatedHeelFrontIsToBeMeasured) {
  FootOrder order = worked_foot();
  order.foot.heel_front.reset();
  const Doubted guessed = worked(order);
  const RepeatGain first = repeat_gains(guessed.model, guessed.doubt).front();
  EXPECT_EQ(first.key, "heel_front");
  EXPECT_TRUE(first.estimated);
  EXPECT_EQ(first.name, "heel front");
  // Once measured the foot length no longer counts: the promise is kept, with a little over.
  const double measured_once = worked(worked_foot()).doubt.board.expanded();
  EXPECT_LE(measured_once, first.U_once_more);
  EXPECT_NEAR(measured_once, first.U_once_more, 0.1);
  EXPECT_EQ(repeat_first({&first, 1}).find("measure the heel front twice: ±1"), 0U);
}

TEST(TrimDoubt, NothingIsAskedForThatWinsNothing) {
  EXPECT_EQ(repeat_first({}), "");
  const RepeatGain small{"fold", "fold", false, 0.1, 5.0, 4.97, 4.95};
  EXPECT_EQ(repeat_first({&small, 1}), "");
  const RepeatGain good{"heel_front", "heel front", false, 0.5, 5.2, 4.3, 3.6};
  EXPECT_EQ(repeat_first({&good, 1}), "measure the heel front twice more: ±5.2 becomes ±3.6 mm");
}

// u falls with every repeat. U may rise by a hair: with one reading made sure, the others and their
// few degrees of freedom weigh more.
TEST(TrimDoubt, MoreRepeatsNeverWidenUByMoreThanAHundredth) {
  Draw draw(8);
  int tried = 0;
  for (int i = 0; i < 300; ++i) {
    const Order order = random_order(draw);
    if (!order.left) continue;
    const auto d = doubted(*order.left, order.pose, order.estimates_from);
    if (!d) continue;
    for (const RepeatGain& gain : repeat_gains(d->model, d->doubt)) {
      ASSERT_LE(gain.U_once_more, 1.01 * gain.U_now) << i << " " << gain.key;
      ASSERT_LE(gain.U_twice_more, 1.01 * gain.U_once_more) << i << " " << gain.key;
      ASSERT_GT(gain.share, 0);
      ++tried;
    }
  }
  EXPECT_GT(tried, 400);
}

// ---- Left against right ------------------------------------------------------------------------

TEST(TrimDoubt, FeetShareReaderAndPrinter) {
  const FootOrder order = worked_foot();
  const Doubted left = doubted(order, Pose::pointed, Population::women, "left").value();
  const Doubted right = doubted(order, Pose::pointed, Population::women, "right").value();
  const Uncertain apart =
      difference(left.doubt.board, left.doubt.sources, right.doubt.board, right.doubt.sources);
  EXPECT_NEAR(apart.value, 0, 1e-12);
  // Each foot keeps only its fresh readings, laying flat, tracing and knife.
  const auto fresh = [](double h) { return (1 + h * h) / 3; };
  EXPECT_NEAR(apart.u * apart.u, 2 * (fresh(3) + fresh(3) + fresh(1.5) + 0.75 + 0.5 / 3), 1e-6);
  EXPECT_LT(apart.u, std::hypot(left.doubt.board.u, right.doubt.board.u));
  EXPECT_FALSE(told_apart(apart));
}

// ---- First order against drawing ---------------------------------------------------------------

/// Returns the same inputs, with every u taken as known.
Inputs all_known(const Inputs& inputs) {
  Inputs sure;
  for (Source source : inputs.sources()) {
    source.freedom = known;
    sure.add_source(source);
  }
  for (const Input& input : inputs.inputs())
    sure.add(input.name, input.value, input.shares);
  return sure;
}

TEST(TrimDoubt, DrawingSaysTheSameAsFirstOrder) {
  FootOrder reach = worked_foot();
  reach.alterations.shank->rule = ReachRule{0.8, ""};
  for (const FootOrder& order : {worked_foot(), reach}) {
    const Doubted d = worked(order);
    const double u = d.doubt.board.u;
    const Sampled sure = sample(all_known(d.model.inputs()), [&](std::span<const double> in) {
      std::array<double, trim_results> out{};
      d.model(in, out);
      return out[0];
    });
    ASSERT_TRUE(sure.settled);
    EXPECT_NEAR(sure.mean, d.doubt.board.value, 0.05);
    EXPECT_NEAR(sure.u, u, 0.015 * u);
    EXPECT_NEAR((sure.high - sure.low) / 2, 1.96 * u, 0.02 * u);

    // Drawn as t, each source with few degrees of freedom is wider by itself: its sum is a little
    // wider than Student's t of the whole, and never narrower.
    const Sampled y = sampled_board_station(d.model, TrimResult::board, {.seed = 5});
    ASSERT_TRUE(y.settled);
    const double U = d.doubt.board.expanded();
    EXPECT_NEAR(y.mean, d.doubt.board.value, 0.05);
    EXPECT_GT((y.high - y.low) / 2, U);
    EXPECT_LT((y.high - y.low) / 2, 1.12 * U);
  }
}

TEST(TrimDoubt, DrawingFollowsTheDeepestPointWhereItBends) {
  FootOrder order = worked_foot();
  order.alterations.shank->rule = ReachRule{0.75, "short"};
  order.foot.arch_break = {};
  order.foot.arch_depth = measured(12.5, 1);
  order.foot.deepest = measured(103.3, 1);
  const Doubted d = worked(order);
  const Sampled y = sampled_board_station(d.model, TrimResult::board, {.most = 10'000});
  EXPECT_NEAR(y.u, d.doubt.board.u, 0.25 * d.doubt.board.u);
  // An error of 1 in the deepest point becomes about 3 in the break, a quarter of it in the cut.
  EXPECT_GT(std::abs(share_of(d, "left.deepest")), 0.4);
}

// ---- Does the interval hold the truth? ---------------------------------------------------------

/// One foot as it is, measured by one reader with habits.
struct Bench {
  Draw& draw;
  double scatter; ///< of tape and finding, times the default
  std::map<std::string, double> habit{};

  Reading read(const std::string& key, const std::string& kind, double truth, int repeats) {
    const double h = reading_guide(key)->finding;
    if (!habit.count(kind)) habit[kind] = draw.uniform(-1, 1);
    Reading reading;
    reading.finding = h;
    for (int i = 0; i < repeats; ++i)
      reading.values.push_back(truth + habit[kind] * h / 2 +
                               scatter * (draw.uniform(-1, 1) + draw.uniform(-h, h)));
    return reading;
  }
};

struct TrueFoot {
  double length, heel_front, medial, lateral, fold, inset, reach;
};

TrueFoot random_truth(Draw& draw) {
  const double length = draw.normal(238, 10);
  const double heel_front = 61.0 / 238.0 * length + draw.normal(0, 5); // as the rule has it
  const double break_at = heel_front + draw.uniform(28, 45);
  const double half = draw.uniform(-2, 2);
  return {length,
          heel_front,
          break_at + half,
          break_at - half,
          draw.normal(6, 3), // as the estimate has it
          draw.uniform(3, 8),
          draw.uniform(0.75, 1.15)};
}

struct Measured {
  double made;    ///< board station of the cut as it was made
  double belongs; ///< and where it belongs
  Doubted doubted;
};

std::optional<Measured> measured_foot(Bench& bench, const TrueFoot& truth, int repeats,
                                      const std::string& owner, double print_scale) {
  Draw& draw = bench.draw;
  const Pose pose = draw.chance(0.3) ? Pose::in_shoe : Pose::pointed;
  const double shift = pose == Pose::in_shoe ? truth.fold : 0;
  FootOrder order;
  Foot& foot = order.foot;
  foot.length = bench.read("length", "length", truth.length, 1);
  foot.ball_length = measured(0.73 * truth.length + 2);
  if (draw.chance(0.85))
    foot.heel_front = bench.read("heel_front", "heel_front", truth.heel_front + shift, repeats);
  if (draw.chance(0.8)) foot.fold = bench.read("fold", "fold", truth.fold, repeats);
  foot.arch_break.medial =
      bench.read("arch_break.medial", "arch_break", truth.medial + shift, repeats);
  foot.arch_break.lateral =
      bench.read("arch_break.lateral", "arch_break", truth.lateral + shift, repeats);
  order.shoe.board.inset = bench.read("board.inset", "board.inset", truth.inset, repeats);
  order.shoe.board.length = measured(220, 1);
  order.alterations.shank = ShankWish{};
  order.alterations.shank->rule = ReachRule{truth.reach, ""};
  auto d = doubted(order, pose, Population::women, owner);
  if (!d) return {};
  const double belongs =
      station_of_reach(truth.reach, FootStation((truth.medial + truth.lateral) / 2),
                       FootStation(truth.heel_front)) +
      truth.fold - truth.inset;
  const double made = d->doubt.board.value + draw.uniform(-1.5, 1.5) + draw.uniform(-0.5, 0.5) +
                      draw.uniform(-0.5, 0.5) + print_scale;
  return Measured{made, belongs, std::move(*d)};
}

struct Coverage {
  double share = 0;
  int trials = 0;
  double mean_U = 0;
};

Coverage coverage_of(int repeats, int wanted, double scatter, std::uint64_t seed) {
  Draw draw(seed);
  Coverage found;
  int held = 0;
  while (found.trials < wanted) {
    Bench bench{draw, scatter};
    const auto foot =
        measured_foot(bench, random_truth(draw), repeats, "left", draw.uniform(-0.5, 0.5));
    if (!foot) continue;
    const double U = foot->doubted.doubt.board.expanded();
    if (std::abs(foot->made - foot->belongs) <= U) ++held;
    found.mean_U += U;
    ++found.trials;
  }
  found.share = static_cast<double>(held) / found.trials;
  found.mean_U /= found.trials;
  return found;
}

TEST(TrimDoubt, IntervalHoldsTheTruth) {
  double wider = INFINITY;
  for (const int repeats : {1, 2, 3, 5}) {
    const Coverage found = coverage_of(repeats, 1000, 1, 40 + static_cast<std::uint64_t>(repeats));
    // The bars of the long run with three standard errors of 1,000 trials about them.
    EXPECT_GT(found.share, 0.935 - 0.02) << repeats;
    EXPECT_LT(found.share, 0.985 + 0.012) << repeats;
    EXPECT_LT(found.mean_U, wider) << repeats;
    wider = found.mean_U;
  }
}

TEST(LongTrimDoubt, IntervalHoldsTheTruthInTenThousandFeet) {
  for (const int repeats : {1, 2, 3, 5}) {
    const auto seed = 1000 + static_cast<std::uint64_t>(repeats);
    const Coverage found = coverage_of(repeats, 10'000, 1, seed);
    EXPECT_EQ(found.trials, 10'000);
    EXPECT_GE(found.share, 0.935) << repeats;
    EXPECT_LE(found.share, 0.985) << repeats;
    const std::string of = std::to_string(repeats) + (repeats == 1 ? "_reading" : "_readings");
    RecordProperty("covered_" + of, std::to_string(found.share));
    RecordProperty("mean_U_" + of, std::to_string(found.mean_U));
    // With the default scatter wrong: told, not barred.
    for (const double scatter : {0.75, 1.25})
      RecordProperty("covered_" + of + "_scatter_" + std::to_string(scatter),
                     std::to_string(coverage_of(repeats, 10'000, scatter, seed).share));
  }
}

/// Left minus right of one reader and one printer: with the covariance, and without.
TEST(TrimDoubt, DifferenceOfFeetHoldsTheTruth) {
  Draw draw(66);
  constexpr int trials = 2000;
  int held = 0;
  int done = 0;
  double carried = 0;
  double added = 0;
  while (done < trials) {
    Bench bench{draw, 1};
    const double print_scale = draw.uniform(-0.5, 0.5);
    const auto left = measured_foot(bench, random_truth(draw), 1, "left", print_scale);
    const auto right = measured_foot(bench, random_truth(draw), 1, "right", print_scale);
    if (!left || !right) continue;
    const Uncertain apart = difference(left->doubted.doubt.board, left->doubted.doubt.sources,
                                       right->doubted.doubt.board, right->doubted.doubt.sources);
    const double off = (left->made - right->made) - (left->belongs - right->belongs);
    if (std::abs(off) <= apart.expanded()) ++held;
    carried += apart.u * apart.u;
    added += std::pow(left->doubted.doubt.board.u, 2) + std::pow(right->doubted.doubt.board.u, 2);
    ++done;
  }
  EXPECT_GT(static_cast<double>(held) / trials, 0.935 - 0.015);
  EXPECT_LT(static_cast<double>(held) / trials, 0.985 + 0.01);
  EXPECT_LT(carried, 0.97 * added);
}

/// Breaks that are the same in truth are called different in about one case of twenty.
TEST(TrimDoubt, SameBreaksAreSeldomCalledDifferent) {
  Draw draw(12);
  int called = 0;
  int done = 0;
  for (; done < 2000; ++done) {
    Bench bench{draw, 1};
    FootOrder order = worked_foot();
    order.foot.arch_break.medial = bench.read("arch_break.medial", "arch_break", 95, 1);
    order.foot.arch_break.lateral = bench.read("arch_break.lateral", "arch_break", 95, 1);
    if (told_apart(
            *doubted(order, Pose::pointed, Population::women, "left", true)->doubt.breaks_apart))
      ++called;
  }
  EXPECT_LT(static_cast<double>(called) / done, 0.065);
  EXPECT_GT(called, 10);
}

} // namespace
} // namespace shankline::tests::trim_doubt_test
