#include "cli/order_file/order_reader.hpp"

#include "geometry/order/reading_guide.hpp"
#include "tests/cli/sketch_order.hpp"
#include "tests/support/places.hpp"
#include "tests/support/scratch_directory.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <numbers>
#include <ostream>
#include <stdexcept>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace shankline::tests::order_reader_test {
namespace {

constexpr double degree = std::numbers::pi / 180;

ReadOrder read(const std::string& text) {
  return read_order(text, "order.yaml");
}

ReadOrder read_good(const std::string& text) {
  ReadOrder good = read(text);
  EXPECT_TRUE(good.messages.empty()) << all_text(good.messages);
  return good;
}

/// The shortest order, with lines added to its sections.
std::string short_order(const std::string& feet, const std::string& shoe = "",
                        const std::string& alterations = "  liner: full\n") {
  return "format: shankline-order/1\ndancer: M-07\nfeet:\n" + feet +
         "shoe:\n  board: {state: loose}\n" + shoe + "alterations:\n" + alterations;
}

void expect_reading(const std::optional<Reading>& reading, const std::vector<double>& values,
                    double finding) {
  ASSERT_TRUE(reading);
  EXPECT_EQ(reading->values, values);
  EXPECT_DOUBLE_EQ(reading->finding, finding);
  EXPECT_FALSE(reading->estimated);
}

TEST(OrderReader, ReadsTheHeadOfTheSketch) {
  const Order order = read_good(sketch_order()).order;
  EXPECT_EQ(order.dancer, "M-07");
  EXPECT_EQ(order.pair, "touring, spring, second pair");
  EXPECT_EQ(order.date, "2026-03-14");
  EXPECT_EQ(order.note, "");
  EXPECT_EQ(order.pose, Pose::pointed);
  EXPECT_EQ(order.estimates_from, Population::women);
  EXPECT_EQ(order.tolerances.cut, 1.5);
  EXPECT_EQ(std::get<ToleranceClass>(order.tolerances.other), ToleranceClass::coarse);
  EXPECT_TRUE(order.left);
  EXPECT_TRUE(order.right);
}

TEST(OrderReader, ReadsTheFeetOfTheSketch) {
  const Order order = read_good(sketch_order()).order;
  ASSERT_TRUE(order.left && order.right);
  const Foot& left = order.left->foot;
  expect_reading(left.length, {238, 238.5, 238}, 1);
  expect_reading(left.ball_length, {172}, 2);
  expect_reading(left.heel_front, {61}, 3);
  EXPECT_FALSE(left.arch_break.centre);
  expect_reading(left.arch_break.medial, {97}, 4);
  expect_reading(left.arch_break.lateral, {93}, 5);
  EXPECT_FALSE(left.arch_break.across);
  expect_reading(left.arch_depth, {12.5}, 2);
  expect_reading(left.fold, {6}, 3);
  expect_reading(left.ankle_girth, {208}, 3);
  EXPECT_EQ(left.roll.side, RollSide::none);

  const Foot& right = order.right->foot;
  expect_reading(right.heel_front, {62}, 2);
  expect_reading(right.arch_break.centre, {96}, 4);
  EXPECT_FALSE(right.arch_break.medial);
  EXPECT_FALSE(right.fold);
}

TEST(OrderReader, ReadsTheShoeOfTheSketchForBothFeet) {
  const Order order = read_good(sketch_order()).order;
  ASSERT_TRUE(order.left && order.right);
  for (const FootOrder* foot : {&*order.left, &*order.right}) {
    const Board& board = foot->shoe.board;
    EXPECT_EQ(board.state, BoardState::loose);
    EXPECT_EQ(board.material, BoardMaterial::fibreboard);
    EXPECT_EQ(board.length->value(), 220);
    expect_reading(board.inset, {5}, 1.5);
    EXPECT_EQ(board.thickness, 3.2);
    EXPECT_FALSE(board.layers);
    ASSERT_EQ(board.widths.size(), 3u);
    EXPECT_EQ(board.widths[1].station, 96);
    EXPECT_EQ(board.widths[1].medial, 16.5);
    EXPECT_EQ(board.widths[1].lateral, 16.5);
    ASSERT_TRUE(foot->shoe.sides);
    EXPECT_EQ(foot->shoe.sides->back, 52);
    EXPECT_EQ(foot->shoe.sides->low, 41);
    EXPECT_EQ(foot->shoe.sides->low_at, 105);
    EXPECT_EQ(foot->shoe.sides->wing, 46);
    EXPECT_EQ(foot->shoe.sides->wing_at, 158);
    EXPECT_DOUBLE_EQ(foot->shoe.sides->lean_rad.value_or(0), 10 * degree);
    EXPECT_EQ(foot->shoe.sides->casing, 9);
    ASSERT_TRUE(foot->shoe.platform);
    EXPECT_EQ(foot->shoe.platform->width, 44);
    EXPECT_EQ(foot->shoe.platform->depth, 26);
    EXPECT_EQ(std::get<Grade>(foot->shoe.stiffness), Grade::over_the_knee);
    EXPECT_EQ(std::get<Travel>(foot->shoe.pull).travel, 4);
    EXPECT_EQ(foot->shoe.clamp, Clamp::wing);
  }
}

TEST(OrderReader, ReadsTheAlterationsOfTheSketch) {
  const Order order = read_good(sketch_order()).order;
  ASSERT_TRUE(order.left && order.right);
  for (const FootOrder* foot : {&*order.left, &*order.right}) {
    const Alterations& work = foot->alterations;
    ASSERT_TRUE(work.shank && work.sides && work.darning && work.ribbons);
    EXPECT_EQ(std::get<ReachRule>(work.shank->rule).reach, 1);
    EXPECT_EQ(std::get<ReachRule>(work.shank->rule).preset, "edge");
    EXPECT_EQ(work.shank->bevel, 12);
    EXPECT_FALSE(work.shank->accept_outside_window);
    EXPECT_EQ(work.sides->medial, 5);
    EXPECT_EQ(work.sides->lateral, 4);
    EXPECT_TRUE(work.liner.has_value());
    EXPECT_EQ(work.darning->passes, 2);
    EXPECT_TRUE(work.ribbons->ring);
    EXPECT_DOUBLE_EQ(work.ribbons->stretch, 0.12);
  }
}

TEST(OrderReader, ReadsEveryOtherKeyOfTheWork) {
  std::string text = sketch_with(
      "  liner: full\n  darning: {passes: 2}\n  ribbons: {ring: true, stretch: 12%}\n",
      "  liner: {clearance: 2, length: 190}\n"
      "  darning: {passes: 1, height: 7, raise: 2, pitch: 2.5, face: true, allowance: 30 %, "
      "yarn: Nm 20}\n"
      "  ribbons: {ring: false, stretch: 5%, width: 18, wraps: 1.75, pitch: 6, overlap: 12, rise: "
      "66, tie: 140, sewn_at: 54}\n"
      "  elastics: {stretch: 25%, width: 16, over: 118, sewn_at: 112, heel_loop: true, overlap: "
      "8}\n"
      "  thinned: {from: 70, to: 100, thickness: 1.8}\n"
      "  filler: true\n"
      "  tuck: {depth: 5, down: 30}\n");
  const Alterations work = read_good(text).order.left->alterations;
  ASSERT_TRUE(work.liner && work.darning && work.ribbons && work.elastics && work.thinned &&
              work.tuck);
  EXPECT_EQ(work.liner->clearance, 2);
  EXPECT_EQ(work.liner->length, 190);
  EXPECT_EQ(work.darning->passes, 1);
  EXPECT_EQ(work.darning->height, 7);
  EXPECT_EQ(work.darning->raise, 2);
  EXPECT_EQ(work.darning->pitch, 2.5);
  EXPECT_TRUE(work.darning->face);
  EXPECT_DOUBLE_EQ(work.darning->allowance, 0.3);
  EXPECT_DOUBLE_EQ(work.darning->tex.value_or(0), 50);
  EXPECT_FALSE(work.ribbons->ring);
  EXPECT_DOUBLE_EQ(work.ribbons->stretch, 0.05);
  EXPECT_EQ(work.ribbons->width, 18);
  EXPECT_EQ(work.ribbons->wraps, 1.75);
  EXPECT_EQ(work.ribbons->pitch, 6);
  EXPECT_EQ(work.ribbons->overlap, 12);
  EXPECT_EQ(work.ribbons->rise, 66);
  EXPECT_EQ(work.ribbons->tie, 140);
  EXPECT_EQ(work.ribbons->sewn_at, 54);
  EXPECT_DOUBLE_EQ(work.elastics->stretch, 0.25);
  EXPECT_EQ(work.elastics->width, 16);
  EXPECT_EQ(work.elastics->over, 118);
  EXPECT_EQ(work.elastics->sewn_at, 112);
  EXPECT_TRUE(work.elastics->heel_loop);
  EXPECT_EQ(work.elastics->overlap, 8);
  EXPECT_EQ(work.thinned->from, 70);
  EXPECT_EQ(work.thinned->to, 100);
  EXPECT_EQ(work.thinned->thickness, 1.8);
  EXPECT_TRUE(work.filler);
  EXPECT_EQ(work.tuck->depth, 5);
  EXPECT_EQ(work.tuck->down, 30);
}

TEST(OrderReader, ALinerInOneWordOfAFootTakesThePlaceOfTheSharedFigures) {
  const Order order =
      read_good(sketch_with("  liner: full\n",
                            "  liner: {clearance: 3}\n  left: {liner: full}\n  right: {liner: "
                            "none}\n"))
          .order;
  ASSERT_TRUE(order.left->alterations.liner);
  EXPECT_EQ(order.left->alterations.liner->clearance, 1.5);
  EXPECT_FALSE(order.right->alterations.liner);
}

TEST(OrderReader, ReadsHowManyLayersAreCut) {
  const Order order = read_good(sketch_with("bevel: 12", "layers: 1")).order;
  EXPECT_EQ(order.left->alterations.shank->layers, 1);
}

TEST(OrderReader, ReadsEveryOtherKeyOfAFoot) {
  const Order order =
      read_good(
          short_order("  left:\n    deepest: 103\n    arch_bend: {value: [27, 28], within: 5}\n"
                      "    ankle_height: 6.4 cm\n    ball_width: 3 1/2 in\n"
                      "    heel_width: 60\n    roll: {side: in, raise: 3}\n"
                      "    arch_break: {lateral: 93, across: 40}\n"))
          .order;
  ASSERT_TRUE(order.left);
  EXPECT_FALSE(order.right);
  const Foot& foot = order.left->foot;
  expect_reading(foot.deepest, {103}, 4);
  expect_reading(foot.arch_bend_rad, {27 * degree, 28 * degree}, 5 * degree);
  expect_reading(foot.ankle_height, {64}, 3);
  ASSERT_TRUE(foot.ball_width);
  EXPECT_DOUBLE_EQ(foot.ball_width->values.front(), 88.9);
  expect_reading(foot.heel_width, {60}, 2);
  EXPECT_EQ(foot.roll.side, RollSide::in);
  EXPECT_EQ(foot.roll.raise, 3);
  expect_reading(foot.arch_break.lateral, {93}, 5);
  EXPECT_FALSE(foot.arch_break.medial);
  EXPECT_EQ(foot.arch_break.across, 40);
}

TEST(OrderReader, ReadsEveryOtherKeyOfAShoe) {
  const Order order =
      read_good(
          "format: shankline-order/1\ndancer: M-07\npose: in_shoe\nfeet: {fold: 5}\nalterations: "
          "{}\nshoe:\n"
          "  board:\n    state: in_shoe\n    material: leather\n    length: [219, 221]\n"
          "    layers: 2\n    edge_thickness: 0.8\n    sole_length: 22.4 cm\n"
          "    widths: [[22, 23, 22], [96, 17, 16]]\n"
          "  sides: {width_across: 40}\n  stiffness: {droop: 11.5, weight: 0.1 kg, free: 150}\n"
          "  pull: 0.03\n  clamp: ball\n")
          .order;
  ASSERT_TRUE(order.left && order.right);
  const Shoe& shoe = order.right->shoe;
  EXPECT_EQ(shoe.board.state, BoardState::in_shoe);
  EXPECT_EQ(shoe.board.material, BoardMaterial::leather);
  EXPECT_EQ(shoe.board.length->value(), 220);
  EXPECT_EQ(shoe.board.layers, 2);
  EXPECT_EQ(shoe.board.edge_thickness, 0.8);
  EXPECT_EQ(shoe.board.sole_length, 224);
  ASSERT_EQ(shoe.board.widths.size(), 2u);
  EXPECT_EQ(shoe.board.widths[0].medial, 23);
  EXPECT_EQ(shoe.board.widths[0].lateral, 22);
  ASSERT_TRUE(shoe.sides);
  EXPECT_EQ(shoe.sides->width_across, 40);
  EXPECT_FALSE(shoe.platform);
  const auto& droop = std::get<Droop>(shoe.stiffness);
  EXPECT_EQ(droop.droop, 11.5);
  EXPECT_EQ(droop.weight_grams, 100);
  EXPECT_EQ(droop.free_length, 150);
  EXPECT_EQ(std::get<PullForce>(shoe.pull).per_length, 0.03);
  EXPECT_EQ(shoe.clamp, Clamp::ball);
  EXPECT_FALSE(order.right->alterations.shank);
}

Stiffness stiffness_of(const std::string& value) {
  const auto read = read_good(sketch_with("over the knee ", value + ' '));
  return read.order.left ? read.order.left->shoe.stiffness : Stiffness{};
}

TEST(OrderReader, ReadsEveryWayToGiveStiffness) {
  EXPECT_EQ(std::get<Grade>(stiffness_of("one thumb")), Grade::one_thumb);
  EXPECT_EQ(std::get<Grade>(stiffness_of("bends under one thumb")), Grade::one_thumb);
  EXPECT_EQ(std::get<Grade>(stiffness_of("two thumbs")), Grade::two_thumbs);
  EXPECT_EQ(std::get<Grade>(stiffness_of("hardly over the knee")), Grade::hardly_over_the_knee);
  const auto both = std::get<BendingStiffness>(stiffness_of("{board: 90000, sole: 4000}"));
  EXPECT_EQ(both.board, 90000);
  EXPECT_EQ(both.sole, 4000);
  EXPECT_FALSE(std::get<BendingStiffness>(stiffness_of("{board: 90000}")).sole);
}

ShankWish shank_of(const std::string& value) {
  const auto read = read_good(sketch_with("{reach: edge, bevel: 12}", value));
  if (!read.order.left || !read.order.left->alterations.shank) return {};
  return *read.order.left->alterations.shank;
}

TEST(OrderReader, ReadsEveryRuleForTheShank) {
  EXPECT_EQ(std::get<ReachRule>(shank_of("{reach: short}").rule).reach, 0.75);
  EXPECT_EQ(std::get<ReachRule>(shank_of("{reach: tucked}").rule).reach, 1.15);
  EXPECT_EQ(std::get<ReachRule>(shank_of("{reach: 0.9}").rule).reach, 0.9);
  EXPECT_EQ(std::get<ReachRule>(shank_of("{reach: 0.9}").rule).preset, "");
  EXPECT_DOUBLE_EQ(std::get<KeepRule>(shank_of("{keep: 0.75}").rule).keep, 0.75);
  EXPECT_DOUBLE_EQ(std::get<KeepRule>(shank_of("{keep: 62 %}").rule).keep, 0.62);
  EXPECT_EQ(std::get<MarkRule>(shank_of("{mark: 58}").rule).mark.value(), 58);
}

TEST(OrderReader, ReadsALearnedLine) {
  const auto line = [](const std::string& value) {
    return std::get<LearnedRule>(shank_of("{reach: " + value + "}").rule).line;
  };
  EXPECT_EQ(line("{learned: 60.4, U: 4.5, pairs: 4, until: 14 August 2026, model: 1}"),
            (LearnedLine{60.4, 4.5, 4, "2026-08-14", 1, 0}));
  EXPECT_EQ(line("{learned: 6.04 cm, U: 4.5, pairs: 4, until: 2026-08-14, model: 1, worn_good: 3}"),
            (LearnedLine{60.4, 4.5, 4, "2026-08-14", 1, 3}));
  EXPECT_EQ(line("{learned: 60.4, U: 4.5, pairs: 4, until: 2026-08-14, model: 1, too_far: 63.4}"),
            (LearnedLine{60.4, 4.5, 4, "2026-08-14", 1, 0, 63.4}));
  EXPECT_FALSE(line("learned")) << "asked for, without its figures";
}

TEST(OrderReader, EachFootHasALearnedLineOfItsOwn) {
  const std::string rest = ", U: 4.5, pairs: 4, until: 2026-08-14, model: 1}";
  const Order order = read_good(short_order("  fold: 5\n", "",
                                            "  shank: {reach: {learned: 60.4" + rest +
                                                "}\n  left: {shank: {reach: {learned: 61" + rest +
                                                "}}\n  right: {shank: {reach: edge}}\n"))
                          .order;
  ASSERT_TRUE(order.left && order.right);
  EXPECT_EQ(std::get<LearnedRule>(order.left->alterations.shank->rule).line->station, 61);
  EXPECT_EQ(std::get<ReachRule>(order.right->alterations.shank->rule).preset, "edge");
}

TEST(OrderReader, ReadsTheStyleOfTheShoe) {
  const Order order =
      read_good(short_order("  fold: 5\n", "  style: S4\n  right: {style: S5}\n")).order;
  ASSERT_TRUE(order.left && order.right);
  EXPECT_EQ(order.left->shoe.style, "S4");
  EXPECT_EQ(order.right->shoe.style, "S5");
}

TEST(OrderReader, ReadsEveryOtherWishForTheShank) {
  const ShankWish shank = shank_of("{bevel: none, end: rounded, corner: 8, tuck_max: 10, "
                                   "bearing_min: 20, accept: [outside_window]}");
  EXPECT_EQ(shank.bevel, 0);
  EXPECT_EQ(shank.end, BoardEnd::rounded);
  EXPECT_EQ(shank.corner, 8);
  EXPECT_EQ(shank.tuck_max, 10);
  EXPECT_EQ(shank.bearing_min, 20);
  EXPECT_TRUE(shank.accept_outside_window);
  EXPECT_EQ(std::get<ReachRule>(shank.rule).reach, 1) << "the default rule";
  EXPECT_TRUE(shank_of("{accept: outside_window}").accept_outside_window);
}

TEST(OrderReader, ReadsTheOtherKeysOfTheHead) {
  const std::string text =
      sketch_order() + "note: |\n  Left box softer.\n  Ask again.\nestimates: men\n";
  const Order order = read_good(text + "tolerances: {cut: 1, other: knife}\n").order;
  EXPECT_EQ(order.note, "Left box softer.\nAsk again.\n");
  EXPECT_EQ(order.estimates_from, Population::men);
  EXPECT_EQ(order.tolerances.cut, 1);
  EXPECT_EQ(std::get<ToleranceClass>(order.tolerances.other), ToleranceClass::very_coarse);
  const Order figure = read_good(text + "tolerances: {other: 0.5}\n").order;
  EXPECT_EQ(std::get<double>(figure.tolerances.other), 0.5);
  EXPECT_EQ(read_good(sketch_with("pose: pointed", "pose: in_shoe")).order.pose, Pose::in_shoe);
}

// Values for both feet, and values of one foot that override them.

TEST(OrderParts, DirectKeysAndBothMeanTheSame) {
  for (const char* feet : {"  fold: 5\n", "  both: {fold: 5}\n"}) {
    const Order order = read_good(short_order(feet)).order;
    ASSERT_TRUE(order.left && order.right);
    expect_reading(order.left->foot.fold, {5}, 3);
    expect_reading(order.right->foot.fold, {5}, 3);
  }
}

TEST(OrderParts, DecideWhichFeetAreMade) {
  const auto made = [](const std::string& feet) {
    const Order order = read_good(short_order(feet)).order;
    return std::pair(order.left.has_value(), order.right.has_value());
  };
  EXPECT_EQ(made("  left: {fold: 5}\n"), std::pair(true, false));
  EXPECT_EQ(made("  right: {fold: 5}\n"), std::pair(false, true));
  EXPECT_EQ(made("  left: {fold: 5}\n  right: {fold: 5}\n"), std::pair(true, true));
  EXPECT_EQ(made("  both: {fold: 5}\n  right: {fold: 5}\n"), std::pair(true, true));
  EXPECT_EQ(made("  fold: 5\n  right: {length: 238}\n"), std::pair(true, true));
}

TEST(OrderParts, StructureMergesKeyByKeyAndReadingsAreReplacedWhole) {
  const Order order =
      read_good(short_order("  arch_break: {medial: 97, lateral: 93}\n"
                            "  roll: {side: in, raise: 3}\n"
                            "  right: {arch_break: {medial: 99}, roll: out}\n",
                            "  platform: {width: 44, depth: 26}\n"
                            "  right: {board: {length: 218}, platform: {depth: 25}, "
                            "stiffness: two thumbs}\n"))
          .order;
  ASSERT_TRUE(order.left && order.right);
  EXPECT_TRUE(order.left->foot.arch_break.lateral);
  EXPECT_EQ(order.right->foot.arch_break.medial->value(), 99);
  EXPECT_FALSE(order.right->foot.arch_break.lateral);
  EXPECT_EQ(order.right->foot.roll.side, RollSide::out);
  EXPECT_EQ(order.right->foot.roll.raise, 0);
  EXPECT_EQ(order.right->shoe.board.state, BoardState::loose);
  EXPECT_EQ(order.right->shoe.board.length->value(), 218);
  EXPECT_FALSE(order.left->shoe.board.length);
  ASSERT_TRUE(order.right->shoe.platform);
  EXPECT_EQ(order.right->shoe.platform->width, 44);
  EXPECT_EQ(order.right->shoe.platform->depth, 25);
  EXPECT_EQ(std::get<Grade>(order.right->shoe.stiffness), Grade::two_thumbs);
  EXPECT_TRUE(std::holds_alternative<std::monostate>(order.left->shoe.stiffness));
}

TEST(OrderParts, AFootsOwnRuleReplacesTheSharedOne) {
  const Order order = read_good(short_order("  fold: 5\n", "",
                                            "  shank: {reach: short, bevel: 10}\n"
                                            "  right: {shank: {mark: 58}}\n"))
                          .order;
  ASSERT_TRUE(order.left && order.right);
  EXPECT_EQ(std::get<ReachRule>(order.left->alterations.shank->rule).preset, "short");
  EXPECT_EQ(std::get<MarkRule>(order.right->alterations.shank->rule).mark.value(), 58);
  EXPECT_EQ(order.right->alterations.shank->bevel, 10);
}

TEST(OrderParts, AListReplacesAList) {
  const Order order = read_good(short_order("  length: [238, 239]\n  left: {length: 240}\n",
                                            "  left: {board: {widths: [[22, 44]]}}\n"))
                          .order;
  ASSERT_TRUE(order.left && order.right);
  expect_reading(order.left->foot.length, {240}, 1);
  expect_reading(order.right->foot.length, {238, 239}, 1);
  EXPECT_EQ(order.left->shoe.board.widths.size(), 1u);
  EXPECT_TRUE(order.right->shoe.board.widths.empty());
}

TEST(OrderParts, APartForAFootThatIsNotMadeIsACaution) {
  const auto read =
      read_order(short_order("  left: {fold: 5}\n", "  right: {clamp: ball}\n"), "order.yaml");
  EXPECT_TRUE(read.ok());
  ASSERT_EQ(read.messages.size(), 1u) << all_text(read.messages);
  EXPECT_EQ(read.messages[0].severity, Severity::caution);
  EXPECT_EQ(read.messages[0].key, "shoe.right");
  EXPECT_EQ(read.messages[0].line, 7);
}

TEST(OrderParts, ABoardInTheShoeNeedsAWordOnWhereTheReadingsCountFrom) {
  const std::string shoe = "  right: {board: {state: in_shoe}}\n";
  const std::string left = short_order("  left: {length: 238}\n", shoe);
  const std::string both = short_order("  both: {length: 238}\n", shoe);
  const auto read = read_order(both, "order.yaml");
  EXPECT_TRUE(read.ok());
  EXPECT_EQ(read.order.pose, Pose::pointed);
  ASSERT_EQ(read.messages.size(), 1u) << all_text(read.messages);
  EXPECT_EQ(read.messages[0].severity, Severity::caution);
  EXPECT_EQ(read.messages[0].key, "shoe.right.board.state");
  EXPECT_NE(read.messages[0].what.find("taken as pointed"), std::string::npos);
  for (const std::string& said : {"pose: in_shoe\n" + both, "pose: pointed\n" + both}) {
    const auto silent = read_good(said);
    EXPECT_TRUE(silent.messages.empty()) << said << all_text(silent.messages);
  }
  const auto other_foot = read_order(left, "order.yaml");
  ASSERT_EQ(other_foot.messages.size(), 1u) << all_text(other_foot.messages);
  EXPECT_EQ(other_foot.messages[0].key, "shoe.right");
  const std::string twice =
      short_order("  both: {length: 238}\n", "  left: {board: {state: in_shoe}}\n" + shoe);
  EXPECT_EQ(read_order(twice, "order.yaml").messages.size(), 1u);
}

TEST(OrderParts, TheStretchOfACottonDrawstringIsACaution) {
  const auto with_sides = [](const std::string& sides) {
    return read_order(short_order("  length: 238\n", "", "  sides: {medial: 5" + sides + "}\n"),
                      "order.yaml");
  };
  for (const char* silent : {"", ", drawstring: cotton", ", drawstring: elastic",
                             ", drawstring: elastic, stretch: 12 %"})
    EXPECT_TRUE(with_sides(silent).messages.empty()) << silent;
  for (const char* said : {", drawstring: cotton, stretch: 12 %", ", stretch: 12 %"}) {
    const auto read = with_sides(said);
    EXPECT_TRUE(read.ok()) << said;
    ASSERT_EQ(read.messages.size(), 1u) << said << all_text(read.messages);
    EXPECT_EQ(read.messages[0].key, "alterations.sides.stretch");
    EXPECT_NE(read.messages[0].what.find("cotton"), std::string::npos);
  }
}

// Values that are refused: where, and with which words.

struct Wrong {
  std::string text;
  int line;
  int column;
  std::string key;
  std::string what;
  std::string help; ///< in what is allowed or advised
};

std::ostream& operator<<(std::ostream& out, const Wrong& row) {
  return out << row.key << ": " << row.what;
}

class OrderWrong : public testing::TestWithParam<Wrong> {};

TEST_P(OrderWrong, OneMessageAtItsPlace) {
  const Wrong& row = GetParam();
  const auto result = read(row.text);
  EXPECT_FALSE(result.ok());
  ASSERT_EQ(result.messages.size(), 1u) << all_text(result.messages);
  const Message& message = result.messages.front();
  EXPECT_EQ(message.line, row.line) << to_text(message);
  EXPECT_EQ(message.column, row.column) << to_text(message);
  EXPECT_EQ(message.key, row.key);
  EXPECT_NE(message.what.find(row.what), std::string::npos) << message.what;
  EXPECT_NE((message.allowed + '\n' + message.advice).find(row.help), std::string::npos)
      << to_text(message);
}

/// The sketch with one piece spoilt; the message is expected where `at` first stands.
Wrong wrong(const std::string& piece, const std::string& instead, const std::string& at,
            const std::string& key, const std::string& what, const std::string& help) {
  const std::string text = sketch_with(piece, instead);
  const std::size_t place = text.find(at);
  if (place == std::string::npos) throw std::logic_error("not in the spoilt sketch: " + at);
  const auto before = text.begin() + static_cast<std::ptrdiff_t>(place);
  const auto line = std::count(text.begin(), before, '\n') + 1;
  const std::size_t line_start = place == 0 ? 0 : text.rfind('\n', place - 1) + 1;
  return {text, static_cast<int>(line), static_cast<int>(place - line_start) + 1, key, what, help};
}

/// The sketch with a learned line in place of its rule.
Wrong wrong_line(const std::string& line, const std::string& at, const std::string& key,
                 const std::string& what, const std::string& help) {
  return wrong("{reach: edge, bevel: 12}", "{reach: {" + line + "}}", at,
               "alterations.shank.reach" + key, what, help);
}

INSTANTIATE_TEST_SUITE_P(
    Learned, OrderWrong,
    testing::Values(
        wrong_line("learned: 60.4, pairs: 4, model: 1", "{learned", "", "U, until are missing",
                   "reach: {learned: 60.4, U: 4.5, pairs: 4, until: 2026-08-14, model: 1}"),
        wrong_line("U: 4.5, pairs: 4, until: 2026-08-14, model: 1", "{U", "", "learned is missing",
                   "reach: edge"),
        wrong_line("learned: 200, U: 4.5, pairs: 4, until: 2026-08-14, model: 1", "200", ".learned",
                   "200", "10 to 160"),
        wrong_line("learned: 60, U: 1, pairs: 4, until: 2026-08-14, model: 1", "1, pairs", ".U",
                   "1", "2 to 40"),
        wrong_line("learned: 60, U: 4, pairs: 4.5, until: 2026-08-14, model: 1", "4.5", ".pairs",
                   "4.5", "without decimals"),
        wrong_line("learned: 60, U: 4, pairs: 4, until: 2026-02-30, model: 1", "2026-02-30",
                   ".until", "2026-02-30", "2026"),
        wrong_line("learned: 60, U: 4, pairs: 4, until: 2026-08-14, model: one", "one", ".model",
                   "one", "1"),
        wrong_line("learned: 60, U: 4, pairs: 2, until: 2026-08-14, model: 1, worn_good: 3",
                   "{learned", "", "(3)", "up to pairs"),
        wrong_line("learned: 60.4, U: 4, pairs: 2, until: 2026-08-14, model: 1, too_far: 63.3",
                   "{learned", "", "behind an end that was cut too far (63.3)", "up to 60.3"),
        wrong_line("learned: 60, U: 4, pairs: 4, until: 2026-08-14, model: 1, good: 3", "good",
                   ".good", "not a key", "worn_good"),
        wrong("{reach: edge, bevel: 12}", "{reach: lerned}", "lerned", "alterations.shank.reach",
              "lerned", "learned")));

INSTANTIATE_TEST_SUITE_P(
    Keys, OrderWrong,
    testing::Values(
        wrong("    heel_front: 61", "    heel_frnt: 61", "heel_frnt", "feet.left.heel_frnt",
              "not a key", "did you mean 'heel_front'?"),
        wrong("clamp: wing", "clmp: wing", "clmp", "shoe.clmp", "not a key",
              "did you mean 'clamp'?"),
        wrong("  left:", "  lefft:", "lefft", "feet.lefft", "not a key", "did you mean 'left'?"),
        wrong("pose: pointed", "colour: pink", "colour", "colour", "not a key",
              "format, dancer, pair"),
        wrong("lateral: 93", "lateral:93", "lateral:93", "feet.left.arch_break.lateral:93",
              "space is missing", "key: value"),
        wrong("medial: 97", "medial: 97,5", "5, lateral", "feet.left.arch_break.5", "not a key",
              "97.5"),
        wrong("    fold: 6\n", "    fold: 6\n    fold: 7\n", "fold: 7", "feet.left.fold",
              "line 13 and in line 14", "delete the other"),
        wrong("    fold: 6", "    fold:", "fold:\n", "feet.left.fold", "nothing is written",
              "delete the line"),
        wrong("    fold: 6", "    fold: ~", "fold: ~", "feet.left.fold", "nothing is written",
              "delete the line"),
        wrong("format: shankline-order/1\n", "", "dancer", "format", "missing",
              "shankline-order/1"),
        wrong("dancer: M-07\n", "", "format", "dancer", "missing", "M-07"),
        wrong("state: loose, ", "", "board: {", "shoe.board.state", "missing", "loose, in_shoe"),
        wrong(", depth: 26", "", "platform", "shoe.platform.depth", "missing", "8 to 60 mm"),
        wrong("feet:\n", "feet:\n  fold: 5\n  both: {fold: 5}\n", "fold: 5}", "feet.both.fold",
              "feet.fold in line 7", "keep one"),
        wrong("shankline-order/1", "shankline-order/2", "shankline-order/2", "format",
              "this version reads", "shankline-order/1"),
        wrong("shankline-order/1", "pink", "pink", "format", "not the format", "shankline-order/1"),
        wrong("{travel: 4}", "{}", "{}", "shoe.pull", "travel is missing", "N/mm"),
        wrong("{medial: 97, lateral: 93}", "{across: 40}", "{across", "feet.left.arch_break",
              "neither edge", "medial"),
        wrong("{value: 62, within: 2}", "{within: 2}", "{within", "feet.right.heel_front",
              "itself is missing", "{value: 61, within: 2}")));

INSTANTIATE_TEST_SUITE_P(
    Values, OrderWrong,
    testing::Values(
        wrong("arch_depth: 12.5", "arch_depth: 12,5", "12,5", "feet.left.arch_depth", "comma",
              "write 12.5"),
        wrong("fold: 6", "fold: 010", "010", "feet.left.fold", "zero", "write 10"),
        wrong("fold: 6", "fold: .nan", ".nan", "feet.left.fold", "measured", "0 to 25 mm"),
        wrong("fold: 6", "fold: -.inf", "-.inf", "feet.left.fold", "measured", "0 to 25 mm"),
        wrong("fold: 6", "fold: 6 within 2", "6 within 2", "feet.left.fold", "in words",
              "{value: 6, within: 2}"),
        wrong("fold: 6", "fold: -1", "-1\n", "feet.left.fold", "negative", "0 to 25 mm"),
        wrong("fold: 6", "fold: 26", "26\n", "feet.left.fold", "too large", "pinch the satin"),
        wrong("length: 239", "length: 23.9", "23.9", "feet.right.length", "too small",
              "write 23.9 cm"),
        wrong("length: 239", "length: 9.375", "9.375", "feet.right.length", "too small",
              "write 9.375 in"),
        wrong("length: 239", "length: 9 3/8", "9 3/8", "feet.right.length", "without a unit",
              "write 9 3/8 in"),
        wrong("length: 239", "length: 239 g", "239 g", "feet.right.length", "is a weight",
              "120 to 340 mm"),
        wrong("length: 239", "length: []", "[]", "feet.right.length", "0 readings", "1 to 50"),
        wrong("length: 239", "length: [239, [239]]", "[239]", "feet.right.length",
              "a list was read", "a number"),
        wrong("[238, 238.5, 238]", "[238, 23.85, 238]", "23.85", "feet.left.length", "too small",
              "write 23.85 cm"),
        wrong("within: 2", "within: -2", "-2}", "feet.right.heel_front.within", "negative",
              "0 to 110 mm"),
        wrong("lean: 10", "lean: 10 mm", "10 mm", "shoe.sides.lean", "is a length", "10 deg"),
        wrong("lean: 10", "lean: 50", "50,", "shoe.sides.lean", "too large", "-10 to 45 deg"),
        wrong("lean: 10", "lean: {value: 10}", "{value: 10", "shoe.sides.lean", "set of keys",
              "a number"),
        wrong("[96, 33]", "[96]", "[96]", "shoe.board.widths",
              "a distance from the heel end with its width", "[96, 33]"),
        wrong("[96, 33]", "96", "96, [164", "shoe.board.widths",
              "a distance from the heel end with its width", "[96, 33]"),
        wrong("[96, 33]", "[96, 330]", "330", "shoe.board.widths", "too large", "10 to 110 mm"),
        wrong("[[22, 45], [96, 33], [164, 56]]", "45", "45}", "shoe.board.widths", "1 to 50",
              "[[22, 45]"),
        wrong("state: loose", "state: lose", "lose", "shoe.board.state", "not one of the words",
              "did you mean 'loose'?"),
        wrong("inset: 5", "layers: 1.5", "1.5, th", "shoe.board.layers", "whole",
              "without decimals"),
        wrong("over the knee ", "over the neck ", "over the neck", "shoe.stiffness", "not one of",
              "did you mean 'over the knee'?"),
        wrong("over the knee ", "{droop: 11.5, weight: 100 g} ", "{droop: 11.5, weight: 100 g}",
              "shoe.stiffness", "do not tell", "free"),
        wrong("over the knee ", "{board: 90000, droop: 11.5} ", "{board: 90000, droop: 11.5} ",
              "shoe.stiffness", "do not tell", "free"),
        wrong("{travel: 4}", "4", "4 ", "shoe.pull", "too large", "0.001 to 1"),
        wrong("reach: edge", "reach: egde", "egde", "alterations.shank.reach", "not one of",
              "0.5 to 1.5"),
        wrong("reach: edge", "reach: 1.8", "1.8", "alterations.shank.reach", "too large",
              "0.5 to 1.5"),
        wrong("reach: edge", "keep: 75", "75,", "alterations.shank.keep", "percentage",
              "write it with its sign: 75 %"),
        wrong("reach: edge", "keep: 0.3", "0.3", "alterations.shank.keep", "too small",
              "40 to 95 %"),
        wrong("reach: edge", "reach: edge, mark: 58", "mark: 58,", "alterations.shank.mark",
              "second rule for the cut, after reach", "one of reach, keep, mark"),
        wrong("bevel: 12", "bevel: no", "no}", "alterations.shank.bevel", "not a length",
              "0 to 40 mm"),
        wrong("bevel: 12", "accept: anything", "anything", "alterations.shank.accept", "not one of",
              "outside_window"),
        wrong("ring: true", "ring: yes", "yes", "alterations.ribbons.ring", "neither true",
              "write true or false"),
        wrong("ring: true", "ring: 'true'", "'true'", "alterations.ribbons.ring", "neither true",
              "without quotation marks"),
        wrong("ring: true", "ring: off", "off", "alterations.ribbons.ring", "neither true",
              "write true or false"),
        wrong("stretch: 12%", "stretch: 12", "12}\n", "alterations.ribbons.stretch", "percentage",
              "12 %"),
        wrong("passes: 2", "passes: 7", "7}", "alterations.darning.passes", "too large", "1 to 6"),
        wrong("liner: full", "liner: [full]", "[full]", "alterations.liner", "a list was read",
              "one word"),
        wrong("liner: full", "liner: half", "half", "alterations.liner", "not one of", "clearance"),
        wrong("liner: full", "liner: {clearence: 2}", "clearence", "alterations.liner.clearence",
              "belongs here", "clearance"),
        wrong("passes: 2", "yarn: 50", "50}\n  ribbons", "alterations.darning.yarn",
              "not a yarn count", "Nm 20"),
        wrong("passes: 2", "yarn: 1 tex", "1 tex", "alterations.darning.yarn",
              "not a yarn that darns", "5 to 5000 tex"),
        wrong("passes: 2", "yarn: [50 tex]", "[50", "alterations.darning.yarn", "a list was read",
              "yarn count"),
        wrong("bevel: 12", "layers: 1.5", "1.5}    #", "alterations.shank.layers",
              "not a whole number", "without decimals"),
        wrong("liner: full", "tuck: {depth: 20}", "20}", "alterations.tuck.depth", "too large",
              "0.5 to 12 mm"),
        wrong("date: 2026-03-14", "date: 2026-02-29", "2026-02-29", "date", "calendar",
              "2026-03-14"),
        wrong("date: 2026-03-14", "date: 14.3.2026", "14.3", "date", "write the day first",
              "2026-03-14"),
        wrong("date: 2026-03-14", "date: 2026-3-14", "2026-3", "date", "calendar", "2026-03-14"),
        wrong("dancer: M-07", "dancer: \"\"", "\"\"", "dancer", "empty", "1 to 40"),
        wrong("dancer: M-07", "dancer: \"M\\e[31m\"", "\"M\\e", "dancer", "control", "1 to 40"),
        wrong("dancer: M-07", "dancer: \"M\\n07\"", "\"M\\n", "dancer", "line ends", "one line"),
        wrong("dancer: M-07", "dancer: " + std::string(41, 'M'), "MMM", "dancer", "41 characters",
              "shorten"),
        wrong("dancer: M-07", "dancer: [M-07]", "[M-07]", "dancer", "a list was read", "a text"),
        wrong("{medial: 5, lateral: 4}", "5", "5\n  liner", "alterations.sides", "keys are wanted",
              "medial, lateral")));

TEST(OrderWrongTogether, AllErrorsOfAFileInLineOrder) {
  const auto result = read("format: shankline-order/1\n"
                           "pose: pointd\n"
                           "feet:\n"
                           "  both: {lenght: 238, fold: 6, fold: 7}\n"
                           "  left:\n"
                           "    arch_depth: 12,5\n"
                           "shoe:\n"
                           "  board: {length: .nan, state: lose}\n"
                           "  pull: {travel: 4, travel: 4 kg}\n"
                           "alterations: {ribbons: {ring: yes, stretch: 12}}\n"
                           "colour: pink\n");
  std::vector<std::string> keys;
  for (const Message& message : result.messages)
    keys.push_back(message.key);
  const std::vector<std::string> expected{"dancer",
                                          "pose",
                                          "feet.both.lenght",
                                          "feet.both.fold",
                                          "feet.left.arch_depth",
                                          "shoe.board.length",
                                          "shoe.board.state",
                                          "shoe.pull.travel",
                                          "shoe.pull.travel",
                                          "alterations.ribbons.ring",
                                          "alterations.ribbons.stretch",
                                          "colour"};
  EXPECT_EQ(keys, expected) << all_text(result.messages);
  EXPECT_TRUE(std::is_sorted(result.messages.begin(), result.messages.end(),
                             [](const Message& a, const Message& b) {
                               return std::pair(a.line, a.column) < std::pair(b.line, b.column);
                             }));
}

TEST(OrderWrongTogether, WhatHoldsForBothFeetIsSaidOnce) {
  const auto result = read(sketch_with("lean: 10", "lean: 100"));
  EXPECT_EQ(result.messages.size(), 1u) << all_text(result.messages);
}

TEST(OrderWrongTogether, AMissingBoardStateNamesThePartThatLacksIt) {
  const auto result = read("format: shankline-order/1\ndancer: M-07\nfeet: {fold: 5}\n"
                           "alterations: {}\nshoe:\n  left: {board: {state: loose}}\n"
                           "  right:\n    board: {length: 220}\n");
  ASSERT_EQ(result.messages.size(), 1u) << all_text(result.messages);
  EXPECT_EQ(result.messages[0].key, "shoe.right.board.state");
  EXPECT_EQ(result.messages[0].line, 8);
}

TEST(OrderWrongTogether, AnotherVersionIsTheOnlyThingSaid) {
  const auto result = read("format: shankline-order/7\nfeet: {toes: 5}\nlast: x\n");
  ASSERT_EQ(result.messages.size(), 1u) << all_text(result.messages);
  EXPECT_EQ(result.messages[0].key, "format");
}

TEST(OrderWrongTogether, ASyntaxErrorEndsTheReading) {
  const auto result = read("format: pink\nfeet: {fold: 5\n");
  ASSERT_EQ(result.messages.size(), 1u) << all_text(result.messages);
  EXPECT_EQ(result.messages[0].line, 2);
}

// Tests the places of later findings.

struct Placed {
  std::string finding_key;
  int line;
  int column;
  std::string key;
};

std::ostream& operator<<(std::ostream& out, const Placed& row) {
  return out << row.finding_key;
}

class OrderPlaces : public testing::TestWithParam<Placed> {};

TEST_P(OrderPlaces, ShowTheValueThatWasRead) {
  const auto order = read_good("format: shankline-order/1\n" // 1
                               "dancer: M-07\n"
                               "feet:\n"
                               "  length: 238\n"
                               "  both:\n" // 5
                               "    arch_break: {medial: 97, lateral: 93}\n"
                               "  right:\n"
                               "    arch_break: 96\n"
                               "shoe:\n"
                               "  board: {state: loose, widths: [[22, 45]]}\n" // 10
                               "  left:\n"
                               "    board:\n"
                               "      thickness: 3\n"
                               "alterations:\n"
                               "  shank: {reach: edge, bevel: 12}\n" // 15
                               "  left: {shank: {mark: 58}}\n"
                               "date: 2026-03-14\n");
  Finding finding;
  finding.severity = Severity::caution;
  finding.key = GetParam().finding_key;
  finding.what = "w";
  finding.allowed = "a";
  finding.advice = "d";
  const Message expected{Severity::caution,
                         "order.yaml",
                         GetParam().line,
                         GetParam().column,
                         GetParam().key,
                         "w",
                         "a",
                         "d"};
  EXPECT_EQ(order.place(finding), expected) << to_text(order.place(finding));
}

INSTANTIATE_TEST_SUITE_P(
    Keys, OrderPlaces,
    testing::Values(Placed{"date", 17, 7, "date"}, Placed{"feet.left.length", 4, 11, "feet.length"},
                    Placed{"feet.left.arch_break.medial", 6, 26, "feet.both.arch_break.medial"},
                    Placed{"feet.right.arch_break", 8, 17, "feet.right.arch_break"},
                    Placed{"feet.right.arch_break.medial", 8, 17, "feet.right.arch_break.medial"},
                    Placed{"feet.right.heel_front", 7, 3, "feet.right.heel_front"},
                    Placed{"feet.left.heel_front", 5, 3, "feet.both.heel_front"},
                    Placed{"shoe.right.board.widths", 10, 33, "shoe.board.widths"},
                    Placed{"shoe.left.board.widths", 10, 33, "shoe.board.widths"},
                    Placed{"shoe.left.board.thickness", 13, 18, "shoe.left.board.thickness"},
                    Placed{"shoe.left.board.length", 12, 5, "shoe.left.board.length"},
                    Placed{"alterations.right.shank.reach", 15, 18, "alterations.shank.reach"},
                    Placed{"alterations.left.shank.mark", 16, 24, "alterations.left.shank.mark"},
                    Placed{"alterations.left.shank.reach", 16, 10, "alterations.left.shank.reach"},
                    Placed{"alterations.left.shank.bevel", 15, 31, "alterations.shank.bevel"},
                    Placed{"note", 1, 1, "note"}));

TEST(OrderFindings, OfASharedValueAreSaidOnceAndInLineOrder) {
  const auto order = read_good(sketch_order());
  Finding left{Severity::error, "shoe.left.board.widths", "w", "a", "d"};
  Finding right = left;
  right.key = "shoe.right.board.widths";
  Finding earlier = left;
  earlier.key = "feet.right.length";
  const auto placed = order.place(Findings{left, right, earlier});
  ASSERT_EQ(placed.size(), 2u) << all_text(placed);
  EXPECT_EQ(placed[0].line, 16);
  EXPECT_EQ(placed[1].line, 22);
}

// The samples of mistakes: each is told by its file's first line.

TEST(OrderSamples, EveryMistakeIsFoundAtItsPlace) {
  const std::filesystem::path folder = std::filesystem::path(places::samples) / "mistakes";
  const std::vector<std::pair<std::string, std::string>> found{
      {"board_state_missing", "shoe.board.state"},
      {"bracket_open", ""},
      {"centimetres_without_unit", "feet.right.length"},
      {"comma_decimal", "feet.left.arch_depth"},
      {"inches_without_unit", "feet.left.length"},
      {"key_written_twice", "feet.left.fold"},
      {"misspelt_key", "feet.left.heel_frnt"},
      {"percent_missing", "alterations.ribbons.stretch"},
      {"quotation_mark_open", ""},
      {"reach_too_large", "alterations.shank.reach"},
      {"space_missing", ""},
      {"tab_indentation", ""},
      {"two_rules_for_the_shank", "alterations.shank.keep"},
      {"yes_for_true", "alterations.ribbons.ring"},
  };
  for (const auto& [name, key] : found) {
    const auto result = read(read_file(folder / (name + ".yaml")));
    ASSERT_EQ(result.messages.size(), 1u) << name << '\n' << all_text(result.messages);
    EXPECT_EQ(result.messages[0].key, key) << name;
    EXPECT_GT(result.messages[0].line, 1) << name;
  }
}

// The others are well written, and wrong all the same: the solver finds them.
TEST(OrderSamples, MistakesOfMeasuringAreReadWithoutAWord) {
  const std::filesystem::path folder = std::filesystem::path(places::samples) / "mistakes";
  for (const char* name : {"break_ahead_of_ball", "break_missing", "mark_beyond_window",
                           "plastic_board", "widths_out_of_order"})
    read_good(read_file(folder / (std::string(name) + ".yaml")));
}

std::string with_stock(const std::string& rows) {
  return short_order("  left: {length: 238}\n", rows);
}

TEST(OrderReader, ReadsWhatIsOrderedInTheUsersOwnWords) {
  const Order order =
      read_good("quantity: 6\ndue: 1 March 2027\ndeliver_to: bench 2\n" +
                with_stock("  stock:\n    size: five and a half wide\n    7: 5.5\n    vamp: \"no: "
                           "\\\"7\\\"\"\n"))
          .order;
  EXPECT_EQ(order.quantity, 6);
  EXPECT_EQ(order.due, "2027-03-01");
  EXPECT_EQ(order.deliver_to, "bench 2");
  const std::vector<StockRow> rows{
      {"size", "five and a half wide"}, {"7", "5.5"}, {"vamp", "no: \"7\""}};
  EXPECT_EQ(order.left->shoe.stock, rows);
}

TEST(OrderReader, AFootsOwnRowOfStockTakesThePlaceOfTheOneForBoth) {
  const Order order = read_good(short_order("  both: {length: 238}\n",
                                            "  stock: {size: five, width: wide}\n  right:\n    "
                                            "stock: {width: narrow, wings: long}\n"))
                          .order;
  const std::vector<StockRow> left{{"size", "five"}, {"width", "wide"}};
  const std::vector<StockRow> right{{"size", "five"}, {"width", "narrow"}, {"wings", "long"}};
  ASSERT_TRUE(order.left && order.right);
  EXPECT_EQ(order.left->shoe.stock, left);
  EXPECT_EQ(order.right->shoe.stock, right);
}

TEST(OrderReader, RefusesWhatCannotBeOrdered) {
  const std::string plain = with_stock("");
  const auto rows = [](std::size_t count) {
    std::string text = "  stock:\n";
    for (std::size_t i = 0; i < count; ++i)
      text += "    row" + std::to_string(i) + ": a\n";
    return with_stock(text);
  };
  const std::string name(41, 'a');
  const std::string words(201, 'b');
  for (const auto& [text, what] : std::vector<std::pair<std::string, std::string>>{
           {"quantity: 0\n" + plain, "0 was read; that is too small"},
           {"quantity: 1000\n" + plain, "1000 was read; that is too large"},
           {"quantity: 2.5\n" + plain, "'2.5' is not a whole number"},
           {"quantity: six\n" + plain, "'six'"},
           {"due: 2027-02-30\n" + plain, "2027-02-30"},
           {"due: 03/04/2027\n" + plain, "03/04/2027"},
           {"date: 2027-03-02\ndue: 2027-03-01\n" + plain,
            "2027-03-01 lies before the order's date, 2027-03-02"},
           {"deliver_to: \"a\\nb\"\n" + plain, "control characters or line ends"},
           {with_stock("  stock: five\n"), "rows of your own are wanted here"},
           {with_stock("  stock: [five]\n"), "a list was read"},
           {with_stock("  stock: {}\n"), "none was read"},
           {with_stock("  stock: {size: {wide: 5}}\n"), "a text is wanted here"},
           {with_stock("  stock: {size: }\n"), "nothing is written after the key"},
           {with_stock("  stock: {" + name + ": a}\n"), "is not a name of a row"},
           {with_stock("  stock: {\"a\\tb\": a}\n"), "is not a name of a row"},
           {with_stock("  stock: {size: " + words + "}\n"), "the text has 201 characters"},
           {with_stock("  stock: {size: a, size: b}\n"), "size"},
           {rows(41), "41 rows were read"}}) {
    const ReadOrder read_wrong = read(text);
    EXPECT_FALSE(read_wrong.ok()) << text;
    EXPECT_NE(all_text(read_wrong.messages).find(what), std::string::npos)
        << text << all_text(read_wrong.messages);
  }
  EXPECT_TRUE(read("date: 2027-03-01\ndue: 2027-03-01\n" + plain).ok());
  EXPECT_TRUE(read("quantity: 1\n" + plain).ok());
  EXPECT_TRUE(read("quantity: 999\n" + plain).ok());
  EXPECT_TRUE(read(rows(40)).ok());
  EXPECT_TRUE(
      read(with_stock("  stock: {" + name.substr(1) + ": " + words.substr(1) + "}\n")).ok());
}

} // namespace
} // namespace shankline::tests::order_reader_test
